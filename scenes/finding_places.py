"""Where on a tooth the places lie that a finding speaks of, in the coordinates of its arch."""

from typing import Final

import numpy as np

from kinematics.checkup_result import Checkup
from kinematics.conventions import Bools, Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.planning.findings import Finding
from kinematics.planning.wording import excursion_label
from kinematics.tooth_codes import is_upper

#: A place is taken from the results as it stands there; what is farther off is another one.
_SAME_MM: Final = 1e-6
#: Of this kind the places are the stops of its tooth.
OFF_AXIS: Final = "stops off the axis"


def places_on(finding: Finding, code: int, checkup: Checkup) -> Floats:
    """Return the places (k, 3) of a finding on a tooth, mm; of a lower tooth lower coordinates.

    None (k = 0) where it has none, or where it is not known in which pose the lower stood.

    Parameters
    ----------
    finding : Finding
        What was found.
    code : int
        One of its teeth, ISO 3950.
    checkup : Checkup
        The results that it was found in.
    """
    if finding.kind == OFF_AXIS:
        stops = [s.point for s in checkup.stops if code in (s.tooth_upper, s.tooth_lower)]
        places = np.array(stops).reshape(-1, 3)
    else:
        places = np.array([place for place in (finding.place,) if place]).reshape(-1, 3)
    if is_upper(code) or not len(places):
        return places
    pose = checkup.mi_pose if finding.kind == OFF_AXIS else _pose_at(finding, checkup)
    return np.empty((0, 3)) if pose is None else move_points(inverse(pose), places)


def _pose_at(finding: Finding, checkup: Checkup) -> Floats | None:
    """Return hinge_from_lower where the place of a finding was read.

    It is a first contact, the middle of a contact patch, or where a replacement tooth comes near.
    """
    place = np.array(finding.place)
    for sweep in checkup.sweeps:
        label = excursion_label(sweep.excursion)
        if finding.excursion not in (None, label):
            continue
        read = [
            int(np.argmin(abs(sweep.travel_mm - contact.read_at_mm)))
            for contact in checkup.replacement
            if contact.excursion == label and contact.place == finding.place
        ]
        first = np.flatnonzero(_is_at(sweep.closures.point, place))
        touching = sweep.patches.pose[_is_at(sweep.patches.centroid, place)]
        poses = np.array([*read, *first, *touching], dtype=int)
        if len(poses):
            return np.asarray(sweep.poses[poses[0]])
    return None


def _is_at(points: Floats, place: Floats) -> Bools:
    return np.asarray(np.linalg.norm(points - place, axis=1) <= _SAME_MM)
