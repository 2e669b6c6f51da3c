"""Frameworks on scanned casts: rests and planes lie where they do on the teeth scanned."""

from functools import cache
from types import SimpleNamespace

import numpy as np
import pytest

from kinematics.case_file import parse_case
from kinematics.case_judged import occlusion_of
from kinematics.casts.casts import Arch
from kinematics.contact.workers import Workers
from kinematics.geometry.nearest_points import nearest_on
from kinematics.geometry.poses import inverse, move_points, pose_of, rotation_about
from kinematics.planning.denture_parts import Rest
from kinematics.planning.framework import frameworks
from kinematics.planning.given_points import in_arch
from kinematics.planning.judging import DentureBase
from kinematics.scans.tooth_landmarks import landmarks_of_teeth
from kinematics.teeth.cast_body import with_body
from tests.built_dentition import plain
from tests.made_frameworks import occlusion
from tests.opened_crowns import opened

#: Landmarks of scans are found anew, so places on ridges and proximal surfaces move along them.
APART_MM = 1.2
UPPER_BASE = DentureBase(
    name="upper",
    teeth=(15, 16),
    abutments=(14, 17),
    rests=(Rest(14, "distal"), Rest(17, "mesial"), Rest(13, "cingulum"), Rest(26, "distal")),
    guide_planes=(14, 17),
)
LOWER_BASE = DentureBase(
    name="lower",
    teeth=(36, 37),
    abutments=(35,),
    rests=(Rest(35, "mesial"), Rest(44, "distal"), Rest(33, "cingulum")),
    guide_planes=(35,),
)


@cache
def _truth():
    made = plain()
    return with_body(made.upper), with_body(made.lower)


def _read(arch, side, seed):
    """Return an arch as it is read from a scan of it: open crowns, landmarks found anew."""
    mesh, codes = opened(arch, seed=seed, gum_line=True)
    return Arch(mesh, codes, landmarks_of_teeth(mesh, codes, side).teeth)


def test_places_on_scans_are_those_on_the_teeth():
    """Rests, presses, planes and distances of a scan with noise are near the truth."""
    upper, lower = _truth()
    bases = [UPPER_BASE, LOWER_BASE]
    true = frameworks(occlusion(bases, upper=upper, lower=lower))
    casts = {"upper": _read(upper, "upper", 1), "lower": _read(lower, "lower", 2)}
    found = frameworks(occlusion(bases, **casts))
    for one, other in zip(true, found, strict=True):
        cast = casts["upper" if one.is_upper else "lower"]
        for here, there in zip(
            (*one.rests, *one.guide_planes), (*other.rests, *other.guide_planes), strict=True
        ):
            assert np.linalg.norm(np.subtract(here.point, there.point)) < APART_MM
            assert np.dot(here.press, there.press) > 0.94
            _, away = nearest_on(cast.mesh, np.array([there.point]))
            assert away[0] < 1e-6
        assert one.kennedy == other.kennedy
        for here, there in zip(one.indirect, other.indirect, strict=True):
            assert here.rest.tooth == there.rest.tooth
            assert here.distance_mm == pytest.approx(there.distance_mm, abs=APART_MM)


def test_a_picked_seat_is_where_the_rest_lies():
    """Seats are points of the upper scan; one on the side asked for is taken, others are not."""
    upper, lower = _truth()
    pose = pose_of(rotation_about(np.array([0.0, 0.0, 1.0]), 0.4), np.array([5.0, -3.0, 9.0]))
    plain = frameworks(occlusion([UPPER_BASE], upper=upper, lower=lower))[0]
    usual = np.array(plain.rests[0].point)
    wanted = usual + np.array([0.2, 0.5, 0.0])
    mesial = np.array(
        frameworks(
            occlusion(
                [DentureBase(name="a", teeth=(15,), rests=(Rest(14, "mesial"),))],
                upper=upper, lower=lower,
            )
        )[0].rests[0].point
    )  # fmt: skip
    given = move_points(inverse(pose), np.array([mesial, wanted]))
    seats = {14: tuple(map(tuple, given.tolist()))}
    picked = frameworks(
        occlusion([UPPER_BASE], upper=upper, lower=lower, hinge_from_points=pose, rest_seats=seats)
    )[0]
    expected, _ = nearest_on(upper.mesh, wanted[None])
    np.testing.assert_allclose(picked.rests[0].point, expected[0], atol=1e-6)
    assert picked.rests[1:] == plain.rests[1:]


_SCANS = """
tooth_conditions = [{ tooth = 14, crown = true }]
[scans]
upper = "upper.ply"
lower = "lower.ply"
rest_seats = { 14 = [[1.0, 2.0, 3.0]] }
[scans.mounting]
hinge_from_scan = [[0, -1, 0, 7], [1, 0, 0, -2], [0, 0, 1, 3], [0, 0, 0, 1]]
"""


def test_what_a_case_gives_of_scans_is_taken_over():
    """Points are of the upper scan: its mounting brings them into the hinge frame."""
    case = parse_case(_SCANS, "c.toml")
    upper, lower = _truth()
    casts = SimpleNamespace(upper=upper, lower=lower, mi_pose=np.eye(4))
    found = occlusion_of(case, casts, Workers())
    assert found.conditions == case.tooth_conditions
    np.testing.assert_allclose(in_arch(found, [(1.0, 2.0, 3.0)], True), [[5.0, -1.0, 6.0]])
    assert found.rest_seats[14] == ((1.0, 2.0, 3.0),)
    moved = SimpleNamespace(
        upper=upper, lower=lower, mi_pose=pose_of(np.eye(3), np.array([0.0, 0.0, 2.0]))
    )
    below = in_arch(occlusion_of(case, moved, Workers()), [(1.0, 2.0, 3.0)], False)
    np.testing.assert_allclose(below, [[5.0, -1.0, 4.0]])
