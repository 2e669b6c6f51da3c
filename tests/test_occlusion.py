"""The subject of judging: its teeth are there, and their axes move with the jaw."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.planning.judging import (
    DentureBase,
)
from kinematics.planning.occlusion import centre_of, root_direction
from tests.small_mouth import mouth, occlusion

BASE = DentureBase(name="upper right", teeth=(16, 17), abutments=(15, 13))


@pytest.mark.parametrize(
    ("given", "message"),
    [
        (
            {"bases": (DentureBase(name="b", teeth=(14,)),)},
            "denture base 'b': tooth 14 is not there",
        ),
        (
            {"bases": (replace(BASE, abutments=(12,)),)},
            "tooth 12 is not there; the upper cast has 17",
        ),
        (
            {"over_erupted": (44,)},
            "over-erupted teeth: tooth 44 is not there; the lower cast has 47",
        ),
    ],
)
def test_teeth_that_the_casts_lack_are_refused(given, message):
    """Bases and over-erupted teeth must stand on the casts."""
    with pytest.raises(InputError, match=message):
        occlusion(mouth(), **given)


def test_the_axis_of_a_lower_tooth_turns_with_the_jaw():
    """Towards the root: up in the upper, down in the lower, turned by the pose."""
    subject = occlusion(mouth())
    turn = np.eye(4)
    turn[:3, :3] = [[0.0, 0.0, 1.0], [0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]]
    np.testing.assert_allclose(root_direction(subject, 16, turn), [0, 0, 1])
    np.testing.assert_allclose(root_direction(subject, 46, np.eye(4)), [0, 0, -1])
    np.testing.assert_allclose(root_direction(subject, 46, turn), [-1, 0, 0], atol=1e-15)
    centre = subject.casts.lower.tooth(46).centre
    np.testing.assert_allclose(centre_of(subject, 46, turn), turn[:3, :3] @ centre)
