"""Compile all kernels at once, on the smallest pair there is, telling what is going on."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.contact.closure import close
from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.gap_maps import arc_map, distance_map, gap_map
from kinematics.contact.pair import prepare
from kinematics.contact.touching_faces import touching_faces
from kinematics.geometry.kernels.compiling import compiled_before, note_compiled
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses

#: What every run needs; what maps and scans need besides.
_ALWAYS: Final = "everything"
_MAPS: Final = "maps"
_SCANS: Final = "scans"


@dataclass(frozen=True)
class Kernels:
    """Kernels that rooms above this one need besides.

    Attributes
    ----------
    name : str
        What they are for, in a few words.
    work : callable
        Uses all of them.
    """

    name: str
    work: Callable[[], object]


def is_first_run(maps: bool = False, scans: bool = False, more: tuple[Kernels, ...] = ()) -> bool:
    """Tell whether kernels must be compiled yet, which takes minutes; see `warm_up`."""
    return not all(map(compiled_before, _parts(maps, scans, more)))


def warm_up(
    progress: Callable[[str], None],
    maps: bool = False,
    scans: bool = False,
    more: tuple[Kernels, ...] = (),
) -> None:
    """Compile what is not compiled yet; quick on every run but the first.

    Parameters
    ----------
    progress : callable
        Gets the name of every step when it begins; not called where nothing needs compiling.
    maps : bool
        Whether gap maps will be asked for as well; theirs take some ten seconds more.
    scans : bool
        Whether scanned casts will be seated at their bite, which takes maps and some more.
    more : tuple of Kernels
        What else will be used.
    """
    if is_first_run():
        progress(_compiling("trees"))
    one, pair = identity_poses(1), prepare(smallest_arch(11, 1e-3), smallest_arch(41, 0.0))
    steps: dict[str, tuple[tuple[str, Callable[[], object]], ...]] = {
        _ALWAYS: (
            ("closure", lambda: close(pair, one)),
            ("gaps", lambda: pair_gaps(pair, one, 1.0, (11,), (41,))),
            ("contact patches", lambda: patches(pair, one, 0.02)),
        ),
        _MAPS: (("gap maps", lambda: distance_map(pair, one, 1.0)),),
        _SCANS: (
            ("maps of overlaps", lambda: (gap_map(pair, one, 1.0), arc_map(pair, one, 1.0))),
            ("crossing edges", lambda: touching_faces(pair, one, 0.02)),
        ),
        **{kernels.name: ((kernels.name, kernels.work),) for kernels in more},
    }
    for part in _parts(maps, scans, more):
        first = not compiled_before(part)
        for name, work in steps[part]:
            if first:
                progress(_compiling(name))
            work()
        if first:
            note_compiled(part)


def _compiling(name: str) -> str:
    return f"compiling {name} (only on the first run; one to three minutes in all)"


def _parts(maps: bool, scans: bool, more: tuple[Kernels, ...]) -> tuple[str, ...]:
    some = (_MAPS, _SCANS) if scans else (_MAPS,) if maps else ()
    return (_ALWAYS, *some, *(kernels.name for kernels in more))


def smallest_arch(code: int, height_mm: float) -> Arch:
    """Return an arch of one tooth of one triangle, so high."""
    corners = np.array([[80.0, 0.0, -30.0], [81.0, 0.0, -30.0], [80.0, 1.0, -30.0]])
    return Arch(
        mesh_of(corners + np.array([0.0, 0.0, height_mm]), [[0, 1, 2]]), np.array([code]), ()
    )
