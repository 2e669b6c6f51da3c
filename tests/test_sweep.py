"""Sweeps: poses at the wanted travels, closed, and edge-to-edge where the edges pass."""

import numpy as np
import pytest

from kinematics.borders.tracks import border_track
from kinematics.casts.casts import Arch, Tooth
from kinematics.checks import InputError
from kinematics.contact.closure import close
from kinematics.contact.mounted import GUIDED_BY_TABLE, GUIDED_BY_TEETH, mount
from kinematics.contact.pair import prepare
from kinematics.contact.sweep import sweep
from kinematics.contact.sweep_settings import SweepSettings
from kinematics.contact.workers import Workers
from kinematics.guidance import excursions
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import GuidanceSettings, IncisalTable, SideGuidance
from tests.test_closure import patchwork, soup

READINGS = (0.0, 0.5, 1.0, 2.0, 3.0)
MI = GuidanceCoordinates(0.3, 0.3, 0.0, 0.0)
TIP = np.array([84.0, 0.0, -33.0])


def wall(slope_deg, codes=(11, 41), ahead=0.0):
    """Make a lower edge under an upper plane that falls forward at a slope."""
    fall = np.tan(np.radians(slope_deg))
    x = np.array([-8.0, 12.0])
    plane = [
        [84 + x[i], y, -33 - x[i] * fall] for i, y in ((0, -9.0), (0, 9.0), (1, 9.0), (1, -9.0))
    ]
    upper = soup([[plane[0], plane[1], plane[2]], [plane[0], plane[2], plane[3]]], [codes[0]] * 2)
    edge = np.array([[84.0, -2.0, -33.0], [84.0, 2.0, -33.0], [84.0, 0.0, -42.0]])
    lower = soup([edge], [codes[1]])
    up_edge = np.array([[86.5 + ahead, y, -30] for y in (-4.0, 0.0, 4.0)])
    low_edge = np.array([[84.0, y, -33] for y in (-2.0, 0.0, 2.0)])
    axis = np.array([0.0, 0, -1])
    return (
        Arch(upper.mesh, upper.tooth_of_face, (Tooth(codes[0], up_edge[1], axis, up_edge),)),
        Arch(lower.mesh, lower.tooth_of_face, (Tooth(codes[1], low_edge[1], -axis, low_edge),)),
    )


def mounted(upper, lower, guidance=None, mi=MI):
    """Mount two arches on the default guidance."""
    prepared = prepare_guidance(guidance or GuidanceSettings())
    return mount(upper, lower, prepare(upper, lower), prepared, mi, TIP)


def swept(casts, excursion, **settings):
    """Sweep on one thread with the usual tolerance."""
    return sweep(casts, excursion, SweepSettings(**settings), 0.02, READINGS, Workers(1))


def test_travels_are_the_ones_asked_for():
    """Every step and every reading position is met within a nanometre or two, once."""
    casts = mounted(patchwork(1, 25, -30, 0.3), patchwork(2, 26, -33, 0.2))
    for excursion in (
        excursions.protrusion(),
        excursions.left_lateral(),
        excursions.right_lateral(),
    ):
        got = swept(casts, excursion, step_mm=0.2, travel_mm=4.0)
        np.testing.assert_allclose(got.travel_mm, np.unique([*np.arange(21) * 0.2, 0.5]), atol=2e-6)
        assert got.guide.tolist() == [GUIDED_BY_TEETH] * len(got.travel_mm)


def test_every_pose_is_closed_and_touches_once():
    """The least gap of every pose is 0 to rounding, and the runner-up comes after."""
    casts = mounted(patchwork(1, 25, -30, 0.3), patchwork(2, 26, -33, 0.2))
    got = swept(casts, excursions.protrusion(), step_mm=0.5, travel_mm=3.0)
    again = close(casts.pair, got.poses)
    np.testing.assert_allclose(again.opening_rad, 0.0, atol=1e-12)
    least = np.full(len(got.travel_mm), np.inf)
    np.minimum.at(least, got.patches.pose, got.patches.least_gap_mm)
    np.testing.assert_allclose(least, 0.0, atol=1e-9)
    assert (got.runner_up_gap_mm >= 0).all()


def test_a_front_guidance_as_steep_as_the_condyles_gives_pure_translation():
    """Equal guides: every point moves alike and the opening does not change (Christensen)."""
    casts = mounted(*wall(35.0))
    got = swept(casts, excursions.protrusion())
    np.testing.assert_allclose(got.opening_rad, got.opening_rad[0], atol=1e-9)
    moved = got.incisal_point - got.incisal_point[0]
    np.testing.assert_allclose(moved[:, 2], -got.travel_mm * np.tan(np.radians(35)), atol=1e-6)
    np.testing.assert_allclose(
        got.positions.condyle_right - got.positions.condyle_right[0], moved, atol=1e-6
    )


def test_edge_to_edge_is_where_the_edges_pass():
    """The upper edge lies 2.5 mm ahead of the lower one in MI, wherever CR is."""
    upper, lower = wall(45.0)
    casts = mounted(upper, lower, mi=GuidanceCoordinates(0.0, 0.0, 0.0, 0.0))
    got = swept(casts, excursions.protrusion())
    in_mi = 84.0 * np.cos(got.opening_rad[0]) - 33.0 * np.sin(got.opening_rad[0])
    assert got.edge_to_edge_mm == pytest.approx(86.5 - in_mi, abs=0.01)
    np.testing.assert_array_equal(got.crossover, got.travel_mm > got.edge_to_edge_mm)


def test_the_table_guides_where_it_is_met_first():
    """A steep guide table holds the jaw open ahead of flat teeth; in MI both touch or the teeth."""
    settings = GuidanceSettings(incisal_table=IncisalTable(sagittal_deg=60.0))
    casts = mounted(*wall(20.0), guidance=settings)
    got = swept(casts, excursions.protrusion(), travel_mm=3.0)
    assert (got.guide[1:] == GUIDED_BY_TABLE).all()
    fall = got.incisal_point[:, 2] - got.incisal_point[0, 2]
    np.testing.assert_allclose(fall, -got.travel_mm * np.tan(np.radians(60)), atol=1e-6)


def test_an_immediate_shift_is_passed_through_in_small_steps():
    """Poses lie along the shift, and its end is a pose of its own."""
    side = SideGuidance(immediate_shift_mm=1.0)
    settings = GuidanceSettings(right=side, left=side)
    casts = mounted(patchwork(1, 25, -30, 0.3), patchwork(2, 26, -33, 0.2), settings)
    got = swept(casts, excursions.left_lateral(), travel_mm=2.0)
    shift = got.positions.shift_mm
    assert np.abs(np.diff(shift)).max() < 0.2
    assert shift[-1] == 1.0
    assert ((shift > 0.1) & (shift < 0.9)).sum() >= 5


def test_retrusion_ends_in_centric_relation():
    """From MI back to CR: advances fall to 0 together, the last pose is CR."""
    casts = mounted(patchwork(1, 25, -30, 0.3), patchwork(2, 26, -33, 0.2))
    got = swept(casts, excursions.retrusion())
    assert got.positions.advance_right_mm[0] == 0.3
    assert got.positions.advance_right_mm[-1] == got.positions.advance_left_mm[-1] == 0.0
    assert got.edge_to_edge_mm is None


def test_casts_that_never_meet_are_refused():
    """Mounting casts beside each other is an input error, not a sweep of nothing."""
    up = soup([[[50, 0, -30], [51, 0, -30], [50, 1, -30]]])
    lo = soup([[[50, 9, -33], [51, 9, -33], [50, 10, -33]]])
    with pytest.raises(InputError, match="no part of the lower cast passes"):
        mounted(up, lo)


def test_gothic_arch_is_symmetric_and_reads_the_bennett_angle():
    """Equal sides give mirrored border tracks; at 5 mm the progressive angle is read."""
    casts = mounted(*wall(35.0))
    right = border_track(casts, excursions.right_lateral("CR"))
    left = border_track(casts, excursions.left_lateral("CR"))
    np.testing.assert_allclose(right.incisal_point * [1, -1, 1], left.incisal_point, atol=1e-9)
    assert left.bennett_read_at_mm == pytest.approx(5.0, abs=0.06)
    assert left.bennett_deg == pytest.approx(9.0, abs=1e-6)
    ahead = border_track(casts, excursions.protrusion("CR"))
    assert ahead.bennett_deg is None
    np.testing.assert_allclose(ahead.incisal_point[:, 1], 0.0, atol=1e-12)


def test_same_bits_for_any_number_of_threads():
    """A sweep on three threads equals one on one thread."""
    casts = mounted(patchwork(1, 25, -30, 0.3), patchwork(2, 26, -33, 0.2))
    one = swept(casts, excursions.left_lateral(), step_mm=0.25, travel_mm=3.0)
    settings = SweepSettings(step_mm=0.25, travel_mm=3.0)
    three = sweep(casts, excursions.left_lateral(), settings, 0.02, READINGS, Workers(3))
    for name in ("travel_mm", "opening_rad", "poses", "pair_gap_mm", "runner_up_gap_mm"):
        np.testing.assert_array_equal(getattr(three, name), getattr(one, name))


def test_a_movement_from_centric_relation_knows_where_it_passes_maximal_intercuspation():
    """The distance from MI falls to nothing on the way forward and grows again."""
    casts = mounted(*wall(35.0), mi=GuidanceCoordinates(0.5, 0.5, 0.0, 0.0))
    got = swept(casts, excursions.protrusion("CR"), travel_mm=3.0)
    np.testing.assert_allclose(got.from_mi_mm, np.abs(got.travel_mm - got.from_mi_mm[0]), atol=1e-9)
    assert got.from_mi_mm.min() < 0.06
    back = swept(casts, excursions.retrusion())
    np.testing.assert_array_equal(back.from_mi_mm, back.travel_mm)
