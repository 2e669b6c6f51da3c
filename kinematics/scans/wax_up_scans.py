"""Wax-ups of scanned casts, read beside the originals they are compared with."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from kinematics.conventions import Ints
from kinematics.geometry.meshes import Mesh, moved_mesh
from kinematics.scans.bites import bite_pose
from kinematics.scans.cast_seeds import seeds_by_cast
from kinematics.scans.hinge_pose import hinge_from_scan
from kinematics.scans.picked_points import points_of
from kinematics.scans.scanned_casts import facing_out, labelled_casts, read_cast
from kinematics.scans.settings import SIDES, WAX_UP_KEYS, ScanSettings, Side


@dataclass(frozen=True)
class WaxedScan:
    """A cast and its wax-up, both as scanned, in the hinge frame, the jaw in MI.

    Attributes
    ----------
    side : "upper" or "lower"
        Which cast.
    original : Mesh
        Its surface, cleaned, facing outward.
    codes : ndarray, shape (m,)
        Tooth number of every triangle, 0 for none.
    waxed : Mesh
        The wax-up, cleaned, facing outward.
    name : str
        Name of its file.
    """

    side: Side
    original: Mesh
    codes: Ints
    waxed: Mesh
    name: str


def waxed_scans(
    scans: ScanSettings, reference_plane: str, progress: Callable[[str], None]
) -> Iterator[WaxedScan]:
    """Yield the casts of which there is a wax-up.

    Parameters
    ----------
    scans : ScanSettings
        Files and mounting; relative names are taken from the current folder.
    reference_plane : str
        Plane of the hinge frame.
    progress : callable
        Gets the name of the step when it begins.

    Raises
    ------
    InputError
        A file that cannot be used.
    """
    waxed = [side for side in SIDES if getattr(scans, WAX_UP_KEYS[side]) is not None]
    if not waxed:
        return
    hinge, bite = hinge_from_scan(scans.mounting, reference_plane), bite_pose(scans.scan_from_lower)
    poses = {"upper": hinge, "lower": hinge @ bite}
    clean = {side: read_cast(scans, side, progress) for side in SIDES}
    told = labelled_casts(clean, scans, progress, seeds_by_cast(points_of(scans), bite))
    for side in waxed:
        file = getattr(scans, WAX_UP_KEYS[side])
        other = read_cast(replace(scans, **{side: file}), side, progress)
        codes = told[side].codes
        original = moved_mesh(told[side].mesh, poses[side])
        mesh = moved_mesh(other.cleaned.mesh, poses[side])
        yield WaxedScan(
            side,
            facing_out(original, codes, side),
            codes,
            facing_out(mesh, None, side),
            Path(file).name,
        )
