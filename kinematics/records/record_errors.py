"""What errors of a record at the teeth do to the places of the condyles."""

import math

import numpy as np

from kinematics.conventions import Floats
from kinematics.records.settings import RecordFitting


def condyle_errors(fitting: RecordFitting, about: Floats, centres: Floats) -> Floats:
    """Return the covariance (6, 6), mm2, of right and left condyle centre in one record.

    A record that is off moves the lower by a small rigid motion: it shifts the teeth by independent
    normal errors along the axes, and turns the jaw by such errors about the middle of its teeth.
    Condyles lie far from there, so that the turns count most.

    Parameters
    ----------
    fitting : RecordFitting
        Standard deviations of shifts and turns.
    about : ndarray, shape (3,)
        Middle of the teeth, hinge frame, mm.
    centres : ndarray, shape (2, 3)
        Right and left condyle centre.
    """
    turn_rad = math.radians(fitting.rotation_scatter_deg)
    effects = np.empty((6, 6))
    for row, (x, y, z) in zip((0, 3), centres - about, strict=True):
        # turn x lever, column by column for turns about x, y and z
        by_turns = np.array([[0.0, z, -y], [-z, 0.0, x], [y, -x, 0.0]])
        effects[row : row + 3, :3] = fitting.translation_scatter_mm * np.eye(3)
        effects[row : row + 3, 3:] = turn_rad * by_turns
    return np.asarray(effects @ effects.T)
