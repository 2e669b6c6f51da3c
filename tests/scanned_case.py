"""A case on scans of built-in teeth in MI, written to files, with whatever is planted on them."""

import numpy as np

from kinematics.case_file import read_case
from kinematics.scans.rims import rims_of
from tests.scanned_teeth import teeth_in_mi
from tests.scanner_like import scanned, write_ply

#: Base of the case that is scanned.
_CASE = """title = "Scans of invented teeth"
[scans]
upper = "upper.ply"
lower = "lower.ply"
allowance_um = {allowance}
[scans.mounting]
hinge_from_scan = [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1]]
[judging]
stop_tolerance_mm = 0.02
"""


def arches_in_mi(triangles):
    """Return the teeth of a built-in case as they stand in MI, in the hinge frame."""
    return teeth_in_mi(triangles)[1:]


def scans_in_mi(triangles, noise_um=4.0, waves_um=4.0, seed=1):
    """Return scans of these teeth, with noise of some seed."""
    upper, lower = arches_in_mi(triangles)
    return (
        scanned(upper, -1.0, seed, noise_um, waves_um),
        scanned(lower, 1.0, seed + 1, noise_um, waves_um),
    )


def faces_beside(scan, point, radius_mm):
    """Return which triangles (m,) lie beside a point of the surface, on one side of it.

    Of all sides that for which the point lies nearest to an edge between them and the others.
    """
    middles = scan.vertices[scan.faces].mean(axis=1) - point
    near = np.linalg.norm(middles, axis=1) < radius_mm
    share = np.linspace(0.0, 1.0, 50)[:, None, None]
    found = []
    for angle in np.radians(np.arange(0.0, 360.0, 10.0)):
        chosen = near & (middles @ (np.cos(angle), np.sin(angle), 0.0) > 0.0)
        some = scan.faces[near]
        ends = scan.vertices[np.unique(some[~chosen[near]])][rims_of(some, ~chosen[near]).ends]
        along = ends[:, 0] + share * (ends[:, 1] - ends[:, 0])
        found.append((np.linalg.norm(along - point, axis=2).min(), angle, chosen))
    return min(found, key=lambda item: item[:2])[2]


def case_of(folder, upper, lower, allowance_um=50):
    """Write two scans and a case mounted by their own coordinates."""
    folder.mkdir()
    write_ply(folder / "upper.ply", upper)
    write_ply(folder / "lower.ply", lower)
    (folder / "case.toml").write_text(_CASE.format(allowance=allowance_um))
    return read_case(folder / "case.toml")
