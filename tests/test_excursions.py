"""Excursions are continuous, keep the working condyle, and use the shift as timed."""

import dataclasses

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.checks import InputError
from kinematics.conventions import LEFT, RIGHT
from kinematics.guidance import excursions
from kinematics.guidance.excursions import along, greatest_progress, shift_breaks
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import CENTRIC_RELATION, GuidanceCoordinates, place
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from tests.jaw_strategies import (
    MIRROR,
    mirrored_coordinates,
    mirrored_settings,
    settings_and_coordinates,
)

AZIMUTHS = st.one_of(st.sampled_from([-90.0, 0.0, 90.0]), st.floats(-90.0, 90.0))
MI = GuidanceCoordinates(0.6, 0.4, 0.0, -0.01)
#: A corner of the movement: by how much more than its progress a coordinate may change.
STEEPEST = 1.0 + 1e-9


def shifting_jaw(timing="immediate", shift_mm=1.0, early_over_mm=2.0):
    """Both sides with an immediate side shift of that timing."""
    side = SideGuidance(
        immediate_shift_mm=shift_mm, shift_timing=timing, early_over_mm=early_over_mm
    )
    return prepare(GuidanceSettings(right=side, left=side))


def whole(guidance, excursion, start, count=301):
    """Coordinates along a whole excursion, its shift breaks among them."""
    last = greatest_progress(guidance, excursion, start)
    progress = np.union1d(np.linspace(0.0, last, count), shift_breaks(guidance, excursion, start))
    return progress, *along(guidance, excursion, start, progress)


@given(settings_and_coordinates(), AZIMUTHS)
def test_every_excursion_is_continuous_and_reachable(case, azimuth):
    """From any start: no jump of coordinates or pose, every place on the paths, start kept."""
    settings, start = case
    guidance = prepare(settings)
    progress, right, left, shift = whole(guidance, excursions.lateroprotrusion(azimuth), start)
    assert (right[0], left[0], shift[0]) == dataclasses.astuple(start)[:3]
    positions = place(guidance, right, left, shift)
    steps = np.diff(progress)
    for coordinate in (right, left):
        assert (np.abs(np.diff(coordinate)) <= STEEPEST * steps + 1e-12).all()
        assert (np.diff(coordinate) >= -1e-12).all()
    # An early shift may be steep, but not steeper than all of it over its least distance.
    assert (np.abs(np.diff(shift)) <= 6.0 * steps + 1e-12).all()
    assert np.abs(np.diff(positions.pose_at_zero[:, :3, 3], axis=0)).max() < 10.0 * steps.max()


@given(settings_and_coordinates(), AZIMUTHS)
def test_swapped_sides_give_mirrored_excursions(case, azimuth):
    """The mirror image of an excursion is the excursion of the mirrored jaw."""
    settings, start = case
    guidance, other = prepare(settings), prepare(mirrored_settings(settings))
    there, back = excursions.lateroprotrusion(azimuth), excursions.lateroprotrusion(-azimuth)
    progress, *coordinates = whole(guidance, there, start, 21)
    begin = mirrored_coordinates(start)
    last = greatest_progress(other, back, begin)
    assert last == pytest.approx(progress[-1], abs=1e-12)
    swapped = along(other, back, begin, np.minimum(progress, last))
    poses = place(guidance, *coordinates).pose_at_zero
    mirrored = place(other, *swapped).pose_at_zero
    np.testing.assert_allclose(mirrored, MIRROR @ poses @ MIRROR, atol=1e-9)


def test_protrusion_moves_both_condyles_alike():
    """From MI both advances grow by the progress; where one path ends the excursion ends."""
    guidance = prepare(GuidanceSettings(left=SideGuidance(path_length_mm=12.0)))
    progress, right, left, shift = whole(guidance, excursions.protrusion(), MI)
    np.testing.assert_allclose(right - progress, 0.6, atol=1e-12)
    np.testing.assert_allclose(left - progress, 0.4, atol=1e-12)
    np.testing.assert_array_equal(shift, 0.0)
    assert progress[-1] == pytest.approx(11.6)


@pytest.mark.parametrize(
    ("excursion", "works"),
    [(excursions.right_lateral("CR"), RIGHT), (excursions.left_lateral("CR"), LEFT)],
)
def test_lateral_excursion_holds_the_working_condyle(excursion, works):
    """From CR the working condyle keeps its advance, the other one goes; its side works."""
    progress, right, left, shift = whole(shifting_jaw(), excursion, CENTRIC_RELATION)
    working, other = (right, left) if works == RIGHT else (left, right)
    np.testing.assert_array_equal(working, 0.0)
    np.testing.assert_allclose(other, np.maximum(progress - 1.0, 0.0), atol=1e-12)
    positions = place(shifting_jaw(), right, left, shift)
    assert (positions.working_side[1:] == works).all()


def test_lateral_excursion_from_mi_holds_the_working_condyle_where_it_is():
    """From MI it stays at its advance in MI."""
    guidance = prepare(GuidanceSettings())
    _, right, left, _ = whole(guidance, excursions.left_lateral(), MI)
    np.testing.assert_array_equal(left, 0.4)
    assert right[-1] == pytest.approx(15.0)


def test_immediate_shift_comes_before_the_advance():
    """The first millimetre of progress is the shift, then the condyle goes; breaks are named."""
    guidance = shifting_jaw()
    excursion = excursions.left_lateral("CR")
    right, left, shift = along(guidance, excursion, CENTRIC_RELATION, [0.0, 0.4, 1.0, 3.5])
    np.testing.assert_allclose(shift, [0.0, 0.4, 1.0, 1.0])
    np.testing.assert_allclose(right, [0.0, 0.0, 0.0, 2.5])
    np.testing.assert_array_equal(left, 0.0)
    np.testing.assert_array_equal(shift_breaks(guidance, excursion, CENTRIC_RELATION), [0.0, 1.0])
    assert greatest_progress(guidance, excursion, CENTRIC_RELATION) == 16.0


def test_early_shift_is_spread_over_the_first_advance():
    """It grows with the excess advance to its limit, and stays."""
    guidance = shifting_jaw("early")
    excursion = excursions.right_lateral("CR")
    right, left, shift = along(guidance, excursion, CENTRIC_RELATION, [0.0, 0.5, 2.0, 5.0])
    np.testing.assert_allclose(shift, [0.0, -0.25, -1.0, -1.0])
    np.testing.assert_allclose(left, [0.0, 0.5, 2.0, 5.0])
    np.testing.assert_array_equal(right, 0.0)
    np.testing.assert_array_equal(shift_breaks(guidance, excursion, CENTRIC_RELATION), [0.0, 2.0])


def test_both_timings_agree_once_the_shift_is_used_up():
    """Beyond that the same advance gives the same pose."""
    early, immediate = shifting_jaw("early"), shifting_jaw()
    excursion = excursions.left_lateral("CR")
    advance = np.linspace(2.0, 10.0, 9)
    poses = [
        place(jaw, *along(jaw, excursion, CENTRIC_RELATION, progress)).pose_at_zero
        for jaw, progress in ((early, advance), (immediate, advance + 1.0))
    ]
    np.testing.assert_allclose(poses[0], poses[1], atol=1e-12)
    before = np.array([1.0])
    halfway = place(early, *along(early, excursion, CENTRIC_RELATION, before)).pose_at_zero
    used = place(
        immediate, *along(immediate, excursion, CENTRIC_RELATION, before + 1.0)
    ).pose_at_zero
    assert np.abs(halfway - used).max() > 0.4


@pytest.mark.parametrize("timing", ["immediate", "early"])
@pytest.mark.parametrize("azimuth", [-60.0, 30.0])
def test_lateroprotrusion_shares_advance_and_shift(timing, azimuth):
    """Working condyle: 1 - |A| / 90 of the other's advance; shift: |A| / 90 of its setting."""
    guidance = shifting_jaw(timing)
    excursion = excursions.lateroprotrusion(azimuth, "CR")
    _, right, left, shift = whole(guidance, excursion, CENTRIC_RELATION)
    leading, following = (right, left) if azimuth > 0.0 else (left, right)
    share = abs(azimuth) / 90.0
    np.testing.assert_allclose(following, (1.0 - share) * leading, atol=1e-12)
    assert shift[-1] == pytest.approx(np.sign(azimuth) * share)
    assert np.abs(shift).max() <= share + 1e-12


@pytest.mark.parametrize("timing", ["immediate", "early"])
def test_an_excursion_against_a_skewed_start_brings_the_condyles_level_first(timing):
    """The shift of the other side is given back by then and the new one begins there."""
    guidance = shifting_jaw(timing)
    start = GuidanceCoordinates(0.5, 0.1, 0.3, 0.0)
    excursion = excursions.right_lateral()
    progress, right, left, shift = whole(guidance, excursion, start, 2001)
    np.testing.assert_array_equal(right, 0.5)
    level = np.searchsorted(left, 0.5 - 1e-12)
    assert progress[level] == pytest.approx(0.4, abs=1e-9)
    assert (shift[:level] >= 0.0).all()
    assert (shift[left > 0.5 + 1e-9] <= 0.0).all()
    assert shift[-1] == pytest.approx(-1.0)


def test_a_start_with_more_shift_than_the_excursion_may_use_keeps_it():
    """Nothing is taken back from a shift in the same direction; protrusion keeps it too."""
    guidance = shifting_jaw()
    start = GuidanceCoordinates(0.5, 0.1, 0.8, 0.0)
    for azimuth in (0.0, 45.0):
        shift = whole(guidance, excursions.lateroprotrusion(azimuth), start)[3]
        np.testing.assert_array_equal(shift, 0.8)
    breaks = shift_breaks(guidance, excursions.lateroprotrusion(45.0), start)
    assert len(breaks) == 0


def test_retrusion_falls_back_to_centric_relation_in_one_line():
    """Advances and shift fall together over the largest advance; the end may be another place."""
    guidance = shifting_jaw()
    start = GuidanceCoordinates(0.8, 0.4, 0.2, 0.0)
    excursion = excursions.retrusion()
    assert greatest_progress(guidance, excursion, start) == 0.8
    coordinates = np.array(along(guidance, excursion, start, [0.0, 0.4, 0.8]))
    np.testing.assert_allclose(coordinates, [[0.8, 0.4, 0.0], [0.4, 0.2, 0.0], [0.2, 0.1, 0.0]])
    end = GuidanceCoordinates(0.2, 0.2, 0.0, 0.0)
    assert greatest_progress(guidance, excursion, start, end) == pytest.approx(0.6)
    last = along(guidance, excursion, start, [0.3], end)
    np.testing.assert_allclose(np.ravel(last), [0.5, 0.3, 0.1])


def test_a_shift_alone_is_retruded_over_its_own_length():
    """An MI that is only shifted still has a way back, and the shift begins and ends there."""
    guidance = shifting_jaw()
    start = GuidanceCoordinates(0.0, 0.0, -0.7, 0.0)
    assert greatest_progress(guidance, excursions.retrusion(), start) == 0.7
    np.testing.assert_array_equal(shift_breaks(guidance, excursions.retrusion(), start), [0.0, 0.7])


def test_retrusion_without_slide_stands_still():
    """Where MI is CR there is nowhere to go and nothing shifts."""
    guidance = shifting_jaw()
    assert greatest_progress(guidance, excursions.retrusion(), CENTRIC_RELATION) == 0.0
    coordinates = along(guidance, excursions.retrusion(), CENTRIC_RELATION, [0.0])
    np.testing.assert_array_equal(np.ravel(coordinates), 0.0)
    assert len(shift_breaks(guidance, excursions.retrusion(), CENTRIC_RELATION)) == 0


def test_makers_name_and_start_their_excursions():
    """Names, azimuths and starts are those the sweep reports."""
    made = [
        excursions.protrusion(),
        excursions.right_lateral("CR"),
        excursions.left_lateral(),
        excursions.lateroprotrusion(-45.0, "CR"),
        excursions.retrusion(),
    ]
    assert [dataclasses.astuple(excursion) for excursion in made] == [
        ("protrusion", 0.0, "MI"),
        ("right lateral", -90.0, "CR"),
        ("left lateral", 90.0, "MI"),
        ("lateroprotrusion -45", -45.0, "CR"),
        ("retrusion", 0.0, "MI"),
    ]


def test_what_cannot_be_made_or_followed_is_refused():
    """The message names the value and what is accepted."""
    guidance = shifting_jaw()
    with pytest.raises(InputError, match="azimuth_deg = 100 degrees: must be -90 to 90 degrees"):
        excursions.lateroprotrusion(100.0)
    with pytest.raises(InputError, match="start = 'rest': an excursion starts in 'MI' or 'CR'"):
        excursions.protrusion("rest")
    with pytest.raises(InputError, match=r"progress_mm\[1\] = 17 mm: left lateral must be 0 to 16"):
        along(guidance, excursions.left_lateral(), CENTRIC_RELATION, [1.0, 17.0])
    with pytest.raises(InputError, match=r"progress_mm\[0\] = -0\.1 mm: protrusion must be 0 to"):
        along(guidance, excursions.protrusion(), CENTRIC_RELATION, [-0.1])
    with pytest.raises(InputError, match="protrusion: only a retrusion takes an end"):
        greatest_progress(guidance, excursions.protrusion(), MI, CENTRIC_RELATION)
