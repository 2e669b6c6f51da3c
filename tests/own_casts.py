"""A folder with scans of invented teeth, as somebody brings them, and points that lie on them."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from kinematics.geometry.poses import move_points
from kinematics.scans.settings import ScanFiles
from tests.scanned_teeth import teeth_in_mi
from tests.scanner_like import any_place, moved, scanned, seeds_on, write_obj, write_ply

TRIANGLES = 20_000


@dataclass(frozen=True)
class OwnCasts:
    """Where scans lie (upper OBJ with a JSON list, lower PLY with a scalar), and true points.

    Of every tooth a seed: a point near the middle of its crown.
    """

    folder: Path
    points: dict[str, tuple[float, float, float]]
    seeds: dict[int, tuple[float, float, float]]

    @property
    def files(self):
        """The scans, as a user names them."""
        return ScanFiles(upper=str(self.folder / "upper.obj"), lower=str(self.folder / "lower.ply"))


def make_own_casts(folder, seed=5, lower_moved=None):
    """Write scans of the natural dentition in some place; return them with landmarks on them.

    `lower_moved` is a pose by which the lower scan is moved away from the bite.
    """
    folder.mkdir(exist_ok=True)
    _, upper, lower = teeth_in_mi(TRIANGLES, "natural_dentition")
    place = any_place(seed)
    for name, arch, towards, write in (
        ("upper.obj", upper, -1.0, write_obj),
        ("lower.ply", lower, 1.0, write_ply),
    ):
        at = place if lower_moved is None or towards < 0.0 else lower_moved @ place
        write(folder / name, moved(scanned(arch, towards, 1, 4.0, 4.0), at))
    points = {
        "molar_right": lower.tooth(47).cusp_tips["DB"],
        "molar_left": lower.tooth(37).cusp_tips["DB"],
        "incisal_point": 0.5 * (lower.tooth(31).edge[0] + lower.tooth(41).edge[0]),
        "seed_36": lower.tooth(36).cusp_tips["MB"],
        "seat_16": upper.tooth(16).cusp_tips["MB"],
    }
    placed = move_points(place, np.array(list(points.values())))
    seeds = {**seeds_on(upper), **seeds_on(lower)}
    seeded = move_points(place, np.array(list(seeds.values())))
    return OwnCasts(
        folder,
        dict(zip(points, map(tuple, placed.round(3).tolist()), strict=True)),
        dict(zip(seeds, map(tuple, seeded.round(3).tolist()), strict=True)),
    )
