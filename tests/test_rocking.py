"""Rocking about a nonworking contact until the canine touches."""

import numpy as np
import pytest
from scipy.optimize import brentq

from kinematics.geometry.poses import rotation_about
from kinematics.guidance import excursions
from kinematics.planning.interference import interferences
from kinematics.planning.rocking import condyle_distraction_mm
from tests.small_mouth import fall_of, middle, mouth, occlusion, swept

STEEP = {27: (2.0, -0.5)}


def rocked_until_the_canine_touches(sweep, pose, place):
    """Turn the canine's tip about contact and working condyle until it is in its plane."""
    working, nonworking = sweep.positions.condyle_right[pose], sweep.positions.condyle_left[pose]
    axis = (working - place) / np.linalg.norm(working - place)
    normal = np.array([*-fall_of(13, STEEP), 1.0])
    start = (sweep.poses[pose] @ np.append(middle(13), 1.0))[:3]

    def above(angle):
        tip = working + rotation_about(axis, angle) @ (start - working)
        return normal @ (tip - middle(13))

    angle = brentq(above, -0.2, 0.2, xtol=1e-14)
    moved = rotation_about(axis, angle) @ (nonworking - working) + working - nonworking
    return float(np.linalg.norm(moved)), float(moved[2])


def test_distraction_is_what_turning_the_tip_into_its_plane_takes():
    """The nonworking condyle goes down by what a root finder on the canine's tip gives."""
    casts = mouth(STEEP)
    sweep = swept(casts, excursions.right_lateral())
    (item,) = interferences(occlusion(casts), sweep)
    highest = max(item.heights, key=lambda height: height.height_mm)
    pose = int(np.abs(sweep.travel_mm - highest.travel_mm).argmin())
    assert item.place == tuple(sweep.closures.point[pose])
    wanted, drop = rocked_until_the_canine_touches(sweep, pose, np.array(item.place))
    assert drop < 0.0
    assert item.condyle_distraction_mm > 0.1
    assert item.condyle_distraction_mm == pytest.approx(wanted, abs=1e-3)


def test_no_distraction_where_the_canine_touches_anyway():
    """A contact beside a touching canine needs no rocking."""
    casts = mouth()
    sweep = swept(casts, excursions.right_lateral())
    assert condyle_distraction_mm(occlusion(casts), sweep, 0, (27, 37)) == 0.0


def test_a_canine_out_of_reach_is_not_promised():
    """Without a canine within what was measured there is no figure."""
    casts = mouth({27: (2.4, -1.0)}, clearances={43: 6.0})
    sweep = swept(casts, excursions.right_lateral(), travel_mm=1.0)
    assert sweep.pair_gap_mm[-1, sweep.upper_codes.index(13)].min() == np.inf
    last = len(sweep.travel_mm) - 1
    assert condyle_distraction_mm(occlusion(casts), sweep, last, (27, 37)) is None
