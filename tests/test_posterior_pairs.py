"""Posterior pairs without a centric stop are found, by their arc gap beyond the first contact."""

import math

import numpy as np
import pytest

from kinematics.teeth.meeting import Footing, Meeting
from kinematics.teeth.posterior_pairs import open_pairs


def meeting(upper, lower, gap_mm):
    """Return a meeting of two crown types with an arc gap."""
    up, low = (Footing(kind, 0, np.arange(3), np.full(3, 1 / 3)) for kind in (upper, lower))
    ahead = np.array([0.0, 0.0, 1.0])
    return Meeting(up, low, gap_mm, np.zeros(3), ahead, ahead)


def test_open_pairs_are_those_beyond_the_first_contact_or_far_apart():
    """Only pairs of one number count, only where both teeth are there."""
    found = [
        meeting("U5", "L5", -0.0005),
        meeting("U4", "L4", 0.004),
        meeting("U6", "L6", 0.0),
        meeting("U6", "L7", 0.0),
    ]
    teeth = dict.fromkeys(("U4", "L4", "U5", "L5", "U6", "L6", "U7", "L7"))
    pairs = open_pairs(teeth, found)
    assert pairs == {("U4", "L4"): pytest.approx(0.0045), ("U7", "L7"): math.inf}
    del teeth["U7"]
    assert set(open_pairs(teeth, found)) == {("U4", "L4")}
