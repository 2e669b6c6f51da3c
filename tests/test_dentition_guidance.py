"""What guides the built-in dentition in excursions, by the exact closure on whole arches."""

import numpy as np
import pytest

from kinematics.contact.closure import close
from kinematics.contact.pair import LeaveOut, prepare
from kinematics.geometry.poses import move_points
from kinematics.guidance.excursions import along, left_lateral, protrusion, right_lateral
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.mandible import CENTRIC_RELATION, place
from kinematics.guidance.settings import GuidanceSettings
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.tooth_codes import is_posterior
from tests import built_dentition
from tests.built_dentition import STOP_UM, check_stops, first_gaps_um

GUIDANCE = prepare_guidance(GuidanceSettings())
PROGRESS = np.array([0.5, 1.0, 2.0, 3.0, 4.0])


@pytest.fixture
def plain():
    """Return the plain dentition at the default resolution."""
    return built_dentition.plain()


@pytest.fixture
def coarse():
    """Return the plain dentition with few triangles."""
    return built_dentition.coarse()


def excursion_contacts(dentition, excursion, progress_mm):
    """Return, at places along an excursion from CR, the first tooth pair and the posterior gap.

    The gap is that of the first posterior pair to the first contact, along the arc, mm.
    """
    pair = prepare(dentition.upper, dentition.lower)
    advances = along(GUIDANCE, excursion, CENTRIC_RELATION, progress_mm)
    poses = place(GUIDANCE, *advances).pose_at_zero
    front = frozenset(c for c in dentition.upper.codes if not is_posterior(c))
    lower_front = frozenset(c for c in dentition.lower.codes if not is_posterior(c))
    first = close(pair, poses)
    behind = close(pair, poses, LeaveOut(front, lower_front))
    gap = (first.opening_rad - behind.opening_rad) * behind.radius_mm
    return list(zip(first.tooth_upper, first.tooth_lower, strict=True)), gap


@pytest.mark.parametrize(
    ("excursion", "canines"), [(left_lateral(), (23, 33)), (right_lateral(), (13, 43))]
)
def test_the_working_canine_alone_guides_lateral_excursions(plain, excursion, canines):
    """From 0.5 mm of condylar advance on; all posterior teeth, both sides, stay clear."""
    pairs, gap = excursion_contacts(plain, excursion, PROGRESS)
    assert set(pairs) == {canines}
    assert gap.min() > 0.1


def test_incisors_guide_protrusion(plain):
    """Posterior teeth separate; first contact is on upper incisors.

    The upper lateral incisor meets the lower lateral one and the mesial arm of the lower canine.
    """
    pairs, gap = excursion_contacts(plain, protrusion(), PROGRESS)
    incisors = {(11, 41), (21, 31), (11, 42), (21, 32), (12, 42), (22, 32), (12, 43), (22, 33)}
    assert set(pairs) <= incisors
    assert gap.min() > 0.1
    assert (np.diff(gap[:3]) > 0).all(), "separation grows with protrusion"


def test_worn_canines_lose_guidance():
    """With 0.5 mm off the guiding surfaces something else touches first at 0.5 mm."""
    worn = build(DentitionSettings(wear_canine_mm=0.5, triangles_per_arch=20_000))
    check_stops(worn)
    pairs, _ = excursion_contacts(worn, left_lateral(), np.array([0.5]))
    assert pairs[0] != (23, 33)


@pytest.mark.parametrize("wear", [0.4, 0.8])
def test_worn_guiding_surfaces_of_canines_bring_back_teeth_near(coarse, wear):
    """The more is worn, the less the back teeth separate, by 0.1 mm at least at 1 mm."""
    worn = build(DentitionSettings(wear_mm={13: wear, 23: wear}, triangles_per_arch=12_000))
    pairs, gap = excursion_contacts(worn, left_lateral(), np.array([0.5, 1.0]))
    before = excursion_contacts(coarse, left_lateral(), np.array([0.5, 1.0]))[1]
    assert pairs[0] != (23, 33)
    assert (gap < before - 0.05).all()


def rise_in_protrusion(dentition):
    """Return how far the incisal point falls over 1 mm of straight condylar protrusion, mm."""
    pair = prepare(dentition.upper, dentition.lower)
    advances = along(GUIDANCE, protrusion(), CENTRIC_RELATION, np.array([1.5]))
    poses = place(GUIDANCE, *advances).pose_at_zero
    turned = close(pair, poses).opening_rad[0]
    cos, sin = np.cos(turned), np.sin(turned)
    opened = np.array([[cos, 0, sin, 0], [0, 1, 0, 0], [-sin, 0, cos, 0], [0, 0, 0, 1]])
    moved = move_points(poses[0] @ opened, dentition.incisal_point[None])[0]
    return float(dentition.incisal_point[2] - moved[2]) / (moved[0] - dentition.incisal_point[0])


@pytest.mark.parametrize("change", [{"overbite_mm": 2.9}, {"overjet_mm": 2.6}])
def test_overbite_and_overjet_change_guidance(coarse, change):
    """More overbite or less overjet guides more steeply, and stops stay even."""
    changed = build(DentitionSettings(triangles_per_arch=12_000, **change))
    assert abs(first_gaps_um(changed)) <= STOP_UM
    assert rise_in_protrusion(changed) > 1.05 * rise_in_protrusion(coarse)
