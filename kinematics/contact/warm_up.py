"""Compile all kernels at once, on the smallest pair there is, telling what is going on."""

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.contact.closure import close
from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.gap_maps import distance_map
from kinematics.contact.pair import prepare
from kinematics.geometry.kernels.compiling import CACHE_FOLDER
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses

#: Lies in the cache once everything has been compiled: kernels alone may be those of a run that was
#: ended amid it, or of one that is still at it.
_ALL_DONE: Final = "everything-compiled"


def is_first_run() -> bool:
    """Tell whether kernels must be compiled yet, which takes about a minute."""
    return not (CACHE_FOLDER and Path(CACHE_FOLDER, _ALL_DONE).exists())


def warm_up(progress: Callable[[str], None], maps: bool = False) -> None:
    """Compile what is not compiled yet; quick on every run but the first.

    Parameters
    ----------
    progress : callable
        Gets the name of every step when it begins; not called where nothing needs compiling.
    maps : bool
        Whether gap maps will be asked for as well; theirs take some ten seconds more.
    """
    first = is_first_run()

    def step(name: str) -> None:
        if first:
            progress(f"compiling {name} (only on the first run; about a minute in all)")

    upper = _triangle(11, 1e-3)
    lower = _triangle(41, 0.0)
    step("trees")
    pair = prepare(upper, lower)
    step("closure")
    close(pair, identity_poses(1))
    step("gaps")
    pair_gaps(pair, identity_poses(1), 1.0, (11,), (41,))
    step("contact patches")
    patches(pair, identity_poses(1), 0.02)
    if maps:
        step("gap maps")
        distance_map(pair, identity_poses(1), 1.0)
    if first and CACHE_FOLDER:
        with suppress(OSError):  # then the next run says again that it compiles, and is quick
            Path(CACHE_FOLDER, _ALL_DONE).touch()


def _triangle(code: int, height_mm: float) -> Arch:
    corners = np.array([[80.0, 0.0, -30.0], [81.0, 0.0, -30.0], [80.0, 1.0, -30.0]])
    return Arch(
        mesh_of(corners + np.array([0.0, 0.0, height_mm]), [[0, 1, 2]]), np.array([code]), ()
    )
