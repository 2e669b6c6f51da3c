"""What a clinician reads off the condyles and the jaw: Bennett angle, Christensen angle."""

from dataclasses import dataclass

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.geometry.angles import angle_of
from kinematics.guidance.mandible import JawPositions


@dataclass(frozen=True)
class BennettReadings:
    """Bennett angles, each with the advance at which it was read, k of them.

    Attributes
    ----------
    row : ndarray, shape (k,)
        Rows of the jaw positions in which one condyle is farther forward than the other.
    angle_rad : ndarray, shape (k,)
        Angle, seen from above, between the sagittal plane and the line from where the nonworking
        condyle left the other to where it stands.
    advance_mm : ndarray, shape (k,)
        How far it has advanced beyond the other condyle, along its path.
    """

    row: Ints
    angle_rad: Floats
    advance_mm: Floats


def bennett_angles(positions: JawPositions) -> BennettReadings:
    """Read the Bennett angle wherever one condyle is farther forward than the other.

    The angle contains the immediate side shift, so it falls with the advance; it is not zero
    without any side shift either, because the jaw is rigid.
    """
    row = np.flatnonzero(positions.forward_mm > 0.0)
    ahead = np.abs(positions.advance_right_mm - positions.advance_left_mm)[row]
    angle = angle_of(positions.medial_mm[row], positions.forward_mm[row])
    return BennettReadings(row, angle, ahead)


def christensen_angles(poses: Floats, pose_at_start: Floats) -> Floats:
    """Return by how much (n,), radians, the rear of the lower has dropped against its front.

    Parameters
    ----------
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower, in excursion.
    pose_at_start : ndarray, shape (4, 4)
        hinge_from_lower at its start.

    Notes
    -----
    Turn of the lower in the sagittal plane since the start, the same for every line of the lower
    that lay in that plane; an opening would be negative. Christensen, J Prosthet Dent 1958;8:910.
    """
    turn = poses[:, :3, :3] @ pose_at_start[:3, :3].T
    return angle_of(turn[:, 2, 0], turn[:, 0, 0])
