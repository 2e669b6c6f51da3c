"""Angles do not depend on how their arrays lie in memory."""

import math

import numpy as np

from kinematics.geometry.angles import angle_of


def test_same_bits_for_any_length_and_layout():
    """Every entry equals the C library's angle, in any slice and stride."""
    rng = np.random.default_rng(7)
    sine, cosine = rng.normal(size=(2, 61, 5))
    whole = angle_of(sine, cosine)
    assert whole.shape == (61, 5)
    np.testing.assert_array_equal(whole[::3, 1:4], angle_of(sine[::3, 1:4], cosine[::3, 1:4]))
    np.testing.assert_array_equal(whole.T, angle_of(sine.T, cosine.T))
    assert whole[17, 2] == math.atan2(sine[17, 2], cosine[17, 2])


def test_quadrants_and_nothing_at_all():
    """Signs name the quadrant; no entries give no angles."""
    got = angle_of(np.array([0.0, 2.0, 0.0, -3.0]), np.array([1.0, 0.0, -1.0, 0.0]))
    np.testing.assert_array_equal(got, [0.0, math.pi / 2, math.pi, -math.pi / 2])
    assert angle_of(np.zeros(0), np.zeros(0)).shape == (0,)
