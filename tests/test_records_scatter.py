"""Noisy interocclusal records: intervals hold the truth as often as they say, and are no wider."""

import tomllib
from collections import Counter
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from scipy.stats import binom, chi2

from kinematics.geometry.poses import move_points, pose_of
from kinematics.guidance.guidance import prepare
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.records.record_errors import condyle_errors
from kinematics.records.recorded_places import recorded_places
from kinematics.records.settings import RecordFitting
from kinematics.records.sought import LEAST_ADVANCE_MM
from tests.made_excursion_records import (
    ABOUT,
    SET,
    USUAL,
    found,
    noisy,
    poses_in,
    records_of,
    truth,
    unlike,
)

HERE = Path(__file__).parent / "published"
PUBLISHED = tomllib.loads((HERE / "records.toml").read_text("utf-8"))
CENTRIC = tomllib.loads((HERE / "scans.toml").read_text("utf-8"))["record_scatter"]
#: A curved jaw with a shift on both sides, unlike each other.
CURVED = GuidanceSettings(
    right=SideGuidance(
        condylar_inclination_deg=38.0,
        path="curved",
        progressive_shift_deg=8.0,
        immediate_shift_mm=0.7,
    ),
    left=SideGuidance(
        condylar_inclination_deg=30.0,
        path="curved",
        progressive_shift_deg=12.0,
        immediate_shift_mm=0.4,
    ),
)
STRAIGHT = replace(
    CURVED,
    right=replace(CURVED.right, path="straight"),
    left=replace(CURVED.left, path="straight"),
)
HALF = CURVED.intercondylar_distance_mm / 2.0
SEATS = np.array([[0.0, -HALF, 0.0], [0.0, HALF, 0.0]])


def covered(given, seeds):
    """Return how often intervals hold what was set, how often they were told, and misfits."""
    held, told, unlikely = Counter(), Counter(), 0
    poses = poses_in(given, seed=7)
    for seed in seeds:
        rng = np.random.default_rng(seed)
        said = found(records_of([noisy(pose, rng) for pose in poses]), unlike(given))
        unlikely += not said.fits
        for estimate in said.estimates:
            name = estimate.side, estimate.quantity
            told[name] += 1
            held[name] += estimate.low <= truth(given, *name) <= estimate.high
    return held, told, unlikely


def test_intervals_hold_the_truth():
    """Of 60 noisy sets: 95 % of intervals, within what chance does to so few."""
    held, told, unlikely = covered(CURVED, range(60))
    assert len(told) == 8
    for name, times in told.items():
        low, high = binom.interval(0.9999, times, 0.95)
        assert low <= held[name] <= high, (name, held[name], times)
    # one set in a hundred fits worse than that by chance
    assert unlikely <= binom.ppf(0.9999, 60, 0.01)


@pytest.mark.wide
@pytest.mark.parametrize("given", [CURVED, STRAIGHT], ids=["curved", "straight"])
def test_intervals_hold_the_truth_in_a_thousand_trials(given):
    """Seeds 0 to 999: 93 to 97 % for every setting."""
    held, told, unlikely = covered(given, range(1000))
    assert len(told) == 8
    for name, times in told.items():
        assert times > 950
        assert 0.93 <= held[name] / times <= 0.97, (name, held[name], times)
    assert unlikely <= 25


def test_errors_at_the_condyles_are_those_of_the_teeth():
    """The covariance is that of many records that are off: shifted, and turned about the teeth."""
    rng = np.random.default_rng(5)
    moved = [move_points(noisy(np.eye(4), rng), SEATS) for _ in range(6_000)]
    seen = np.cov((np.stack(moved) - SEATS).reshape(-1, 6).T)
    told = condyle_errors(USUAL, ABOUT, SEATS)
    assert seen == pytest.approx(told, abs=0.05 * np.abs(told).max())


def test_condyles_are_off_as_records_of_centric_relation_differ():
    """With the default scatter: within mean and deviation between techniques, near materials."""
    errors = condyle_errors(USUAL, ABOUT, SEATS)
    off_mm = np.sqrt(np.trace(errors[:3, :3]))
    mean, deviation = CENTRIC["between_techniques_mm"]
    assert mean - deviation <= off_mm <= mean + deviation
    least, most = CENTRIC["between_materials_mm"]
    assert 0.9 * least <= off_mm <= 1.1 * most
    assert USUAL.translation_scatter_mm == PUBLISHED["measuring_error"]["error_mm"]


def inclination_error(far_mm):
    """Return the standard error of an inclination from one protrusive record, degrees."""
    kinds = (("protrusive", far_mm),)
    told = found(records_of(poses_in(STRAIGHT, kinds), kinds), STRAIGHT)
    return told.by_name["right", "condylar inclination"].standard_error


def test_the_shortest_record_that_counts_tells_no_more_than_a_mean_value():
    """At the least advance as uncertain as people differ, at 5 mm less than half of that."""
    spreads = [deviation for _, _, deviation in PUBLISHED["inclination_of_people"]["groups"]]
    shortest = inclination_error(LEAST_ADVANCE_MM + 0.01)
    assert min(spreads) < shortest < max(spreads)
    assert inclination_error(5.0) < 0.5 * min(spreads)


@pytest.mark.parametrize("seed", range(20))
def test_twice_the_scatter_doubles_the_errors(seed):
    """Standard errors follow the scatter that is set; values hardly do."""
    rng = np.random.default_rng(seed)
    records = records_of([noisy(pose, rng) for pose in poses_in(CURVED, seed=seed)])
    fine = RecordFitting(translation_scatter_mm=0.01, rotation_scatter_deg=0.05)
    double = RecordFitting(translation_scatter_mm=0.02, rotation_scatter_deg=0.1)
    one, two = found(records, STRAIGHT, fine), found(records, STRAIGHT, double)
    assert len(one.estimates) == 8
    for estimate in one.estimates:
        other = two.by_name[estimate.side, estimate.quantity]
        assert other.standard_error == pytest.approx(2.0 * estimate.standard_error, rel=1e-4)
        assert other.value == pytest.approx(estimate.value, abs=1e-5)
    assert two.chi_square == pytest.approx(one.chi_square / 4.0, rel=1e-5)


def test_more_records_make_it_more_certain():
    """Four sets of records halve the standard errors of one."""
    poses = poses_in(CURVED, seed=3)
    one = found(records_of(poses), CURVED)
    # at most so many records: that is the business of the case
    four = found(records_of(4 * poses, 4 * SET), CURVED)
    for estimate in one.estimates:
        other = four.by_name[estimate.side, estimate.quantity]
        assert other.standard_error == pytest.approx(0.5 * estimate.standard_error, rel=1e-4)


@pytest.mark.parametrize("seed", range(50))
def test_a_record_that_is_off_is_told_as_a_misfit(seed):
    """Any of six exact records, higher or lower by 2 mm, makes the set unlikely.

    The curvature is known: else the record at the end of a path would bend it.
    """
    fitting = replace(USUAL, right_as_set=("curvature",), left_as_set=("curvature",))
    poses = poses_in(CURVED, seed=seed)
    off = seed % len(poses)
    poses[off] = pose_of(np.eye(3), np.array([0.0, 0.0, 2.0 * (-1) ** seed])) @ poses[off]
    said = found(records_of(poses), CURVED, fitting)
    assert not said.fits
    assert said.probability == pytest.approx(chi2.sf(said.chi_square, said.freedom))
    assert max(record.misfit_mm for record in said.records) > 0.1


def test_pairs_of_points_scatter_about_their_middle():
    """The errors of a record of pairs are about its points, those of a transform as set."""
    given = prepare(CURVED)
    assert given.half_distance_mm == HALF
    records = records_of(poses_in(CURVED, (("protrusive", 5.0),)), (("protrusive", 5.0),))
    (place,) = recorded_places(records, USUAL, None, "occlusal")
    assert place.about == pytest.approx(ABOUT)
