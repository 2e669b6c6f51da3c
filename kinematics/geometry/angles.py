"""Angles with the same bits whatever the length or memory layout of the arrays they come from.

numpy's vectorised arctan2 may round differently in the middle and at the end of an array; the
scalar function of the C library does not.
"""

import math

import numpy as np

from kinematics.conventions import Floats


def angle_of(sine: Floats, cosine: Floats) -> Floats:
    """Return the angles whose sine and cosine have that ratio and signs, radians, -pi to pi.

    Parameters
    ----------
    sine, cosine : ndarray, any equal shapes
        Both may carry a common positive factor.
    """
    pairs = zip(sine.ravel().tolist(), cosine.ravel().tolist(), strict=True)
    return np.array([math.atan2(s, c) for s, c in pairs], dtype=np.float64).reshape(sine.shape)
