"""What is read off condyles and jaw."""

import math

import numpy as np
import pytest

from kinematics.geometry.poses import opening_rotation, pose_of, rotation_about
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import place
from kinematics.guidance.readings import bennett_angles, christensen_angles
from kinematics.guidance.settings import GuidanceSettings, SideGuidance


def test_bennett_angles_are_read_where_a_condyle_leads():
    """Rows without a nonworking condyle on its way are left out; each reading has its advance."""
    side = SideGuidance(immediate_shift_mm=1.0, progressive_shift_deg=7.5)
    guidance = prepare(GuidanceSettings(right=side, left=side))
    positions = place(
        guidance, [0.0, 0.0, 4.0, 1.0, 3.0], [0.0, 0.0, 0.0, 6.0, 3.0], [0.0, 0.5, 1.0, -1.0, 0.0]
    )
    readings = bennett_angles(positions)
    assert readings.row.tolist() == [2, 3]
    assert readings.advance_mm.tolist() == [4.0, 5.0]
    forward = np.array([4.0, 5.0]) * math.cos(math.radians(35.0))
    wanted = np.arctan(1.0 / forward + math.tan(math.radians(7.5)))
    np.testing.assert_allclose(readings.angle_rad, wanted, atol=1e-14)


def test_christensen_angle_is_a_negative_opening_since_mi():
    """Closing past the opening of MI opens the rear; places do not matter."""
    mi = pose_of(np.eye(3), np.array([0.3, 0.0, -0.2])) @ opening_rotation(0.02)
    there = pose_of(np.eye(3), np.array([4.0, 1.0, -3.0])) @ opening_rotation(
        np.array([0.02, -0.01])
    )
    np.testing.assert_allclose(christensen_angles(there, mi), [0.0, 0.03], atol=1e-15)


def test_christensen_angle_of_a_turned_jaw_is_its_turn_in_the_sagittal_plane():
    """A turn to the side alone is none."""
    sideways = pose_of(rotation_about(np.array([0.0, 0.0, 1.0]), 0.05), np.zeros(3))
    assert christensen_angles(sideways[None], np.eye(4))[0] == pytest.approx(0.0, abs=1e-16)
