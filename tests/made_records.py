"""Records of centric relation of a jaw whose slide is known, in any coordinates of scans."""

import numpy as np

from kinematics.geometry.poses import inverse, opening_rotation, pose_of
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import GuidanceCoordinates, pose_at
from kinematics.guidance.settings import GuidanceSettings
from kinematics.scans.centric_records import centric_records
from kinematics.scans.settings import ScanMounting, ScanSettings
from tests.scanner_like import any_place

#: Lower incisal point of the jaws, mm.
INCISAL = np.array([84.0, 1.0, -33.0])


def rows(pose):
    """Return a pose (4, 4) as a case file has it."""
    return tuple(map(tuple, pose.tolist()))


def record_of(guidance, mi, hinge_from_scan, bite, opening_rad=0.0, moved=None):
    """Return a record of CR (4, 4): where the lower scan stands in it.

    Parameters
    ----------
    guidance, mi : Guidance, GuidanceCoordinates
        The jaw, and where its MI lies.
    hinge_from_scan, bite : ndarray, shape (4, 4)
        Mounting; where the lower scan stands in MI.
    opening_rad : float
        How far the record holds the jaw open, from the opening of MI.
    moved : ndarray, shape (4, 4), optional
        By how much the record is off, in the hinge frame.
    """
    scan_from_hinge = inverse(hinge_from_scan)
    lower_from_file = inverse(pose_at(guidance, mi)) @ hinge_from_scan @ bite
    off = np.eye(4) if moved is None else moved
    return scan_from_hinge @ off @ opening_rotation(opening_rad) @ lower_from_file


def settings_of(hinge_from_scan, bite, *records):
    """Return settings of scans with such records; the files are not there."""
    return ScanSettings(
        upper="upper.stl",
        lower="lower.stl",
        mounting=ScanMounting(hinge_from_scan=rows(hinge_from_scan)),
        scan_from_lower=rows(bite),
        centric_records=tuple(map(rows, records)),
    )


def two_records(apart_mm):
    """Return what two records say, of which the second lies that far forward of the first."""
    given, mi = GuidanceSettings(), GuidanceCoordinates(0.4, 0.4, 0.0, 0.0)
    guidance, hinge, bite = prepare(given), any_place(1), any_place(2)
    off = pose_of(np.eye(3), np.array([apart_mm, 0.0, 0.0]))
    records = [record_of(guidance, mi, hinge, bite, 0.03, moved) for moved in (None, off)]
    return centric_records(settings_of(hinge, bite, *records), guidance, INCISAL)
