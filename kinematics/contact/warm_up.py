"""Compile all kernels at once, on the smallest pair there is, telling what is going on."""

from collections.abc import Callable

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.contact.closure import close
from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.gap_maps import distance_map
from kinematics.contact.pair import prepare
from kinematics.geometry.kernels.compiling import compiled_before, note_all_compiled
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses


def is_first_run() -> bool:
    """Tell whether kernels must be compiled yet, which takes about a minute."""
    return not compiled_before()


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
    if first:
        note_all_compiled()


def _triangle(code: int, height_mm: float) -> Arch:
    corners = np.array([[80.0, 0.0, -30.0], [81.0, 0.0, -30.0], [80.0, 1.0, -30.0]])
    return Arch(
        mesh_of(corners + np.array([0.0, 0.0, height_mm]), [[0, 1, 2]]), np.array([code]), ()
    )
