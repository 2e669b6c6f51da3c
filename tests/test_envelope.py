"""Envelopes equal the minimum over maps, and end when told to."""

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.contact.envelope import Measure, Side, envelope, envelopes
from kinematics.contact.gap_maps import gap_map
from kinematics.contact.pair import prepare
from kinematics.contact.workers import Workers
from kinematics.geometry.poses import identity_poses, opening_rotation
from tests.made_sheets import FAMILIES, patchwork, slightly_moved
from tests.vertex_twins import jaw_poses, scattered


@pytest.fixture(scope="module", params=["cusps", "bodies on waves"])
def pair(request):
    """Return two arches, prepared."""
    return prepare(*FAMILIES[request.param](5))


def glides(pair):
    """Return 45 poses: glides from closed, opened and overlapping poses, in small steps."""
    start = jaw_poses(pair, 1, 2)
    steps = np.linspace(0.0, 1.5, 15)
    path = np.repeat(start[:, None], len(steps), axis=1)
    path[..., :3, 3] += steps[:, None] * [0.7, 0.4, -0.3]
    return path.reshape(-1, 4, 4)


@pytest.fixture(scope="module")
def movement(pair):
    """Return glides of the pair."""
    return glides(pair)


def wanted_of(pair, poses, limit):
    """Return what each envelope must hold: the minimum over maps and the first pose it is in."""
    found = gap_map(pair, poses, limit)
    for measure in (found.distance, found.arc_gap):
        for gaps in (measure.upper_mm, measure.lower_mm):
            least = gaps.min(axis=0)
            yield least, np.where(np.isinf(least) & (least > 0), -1, gaps.argmin(axis=0))


@pytest.mark.parametrize("limit", [0.3, 1.0, 50.0])
def test_envelopes_are_the_minimum_over_maps(pair, movement, limit):
    """Bit for bit, in any order of poses, with the first pose where several are alike."""
    rng = np.random.default_rng(6)
    for poses in (
        movement, movement[::-1], movement[rng.permutation(len(movement))],
        np.repeat(movement[:6], 3, axis=0), movement[:1], movement[7:20],
    ):  # fmt: skip
        got = vars(envelopes(pair, poses, limit)).values()
        for part, (least, pose) in zip(got, wanted_of(pair, poses, limit), strict=True):
            np.testing.assert_array_equal(part.least_mm, least)
            np.testing.assert_array_equal(part.pose, pose)
    deep = [(part.least_mm == -np.inf).any() for part in got]
    assert deep[:2] == [False, False]


@pytest.mark.parametrize("kind", ["sheets", "scattered"])
def test_envelopes_of_many_triangles_are_the_minimum_over_maps(kind):
    """Where what earlier poses left rules out whole nodes: small steps and large ones."""
    if kind == "sheets":
        pair = prepare(patchwork(5, 160, -30.0, 1.0), patchwork(5, 160, -33.0, 0.9))
        poses = glides(pair)
    else:
        pair = prepare(scattered(1, -30.0, 3000), scattered(2, -31.0, 3000))
        poses = slightly_moved(30, 3)
    mixed = poses[np.random.default_rng(8).permutation(len(poses))]
    for some, limit in ((poses, 1.0), (poses[::-1], 1.0), (mixed, 1.0), (mixed[:12], 20.0)):
        got = vars(envelopes(pair, some, limit)).values()
        for part, (least, pose) in zip(got, wanted_of(pair, some, limit), strict=True):
            np.testing.assert_array_equal(part.least_mm, least)
            np.testing.assert_array_equal(part.pose, pose)
            assert (part.pose >= 0).sum() > 1000


def test_each_envelope_alone_is_that_of_all_and_threads_change_nothing(pair, movement):
    """The same bits, asked for one by one or together, by any number of threads."""
    every = envelopes(pair, movement, 1.0, Workers(3))
    for part in vars(every).values():
        for workers in (None, Workers(2)):
            alone = envelope(pair, movement, 1.0, part.side, part.measure, workers)
            assert (alone.side, alone.measure) == (part.side, part.measure)
            np.testing.assert_array_equal(alone.least_mm, part.least_mm)
            np.testing.assert_array_equal(alone.pose, part.pose)
    assert every.distance_lower.side is Side.LOWER
    assert every.arc_gap_upper.measure is Measure.ARC_GAP


def test_more_poses_never_lengthen_a_gap(pair, movement):
    """The envelope of a longer movement is nowhere greater; far poses add nothing."""
    some, more = envelopes(pair, movement[:20], 1.0), envelopes(pair, movement, 1.0)
    away = np.concatenate([movement, movement[:5] @ opening_rotation(0.3)])
    further = envelopes(pair, away, 1.0)
    for name, part in vars(some).items():
        longer = getattr(more, name)
        assert (longer.least_mm <= part.least_mm).all()
        assert (longer.pose >= 0).sum() >= (part.pose >= 0).sum()
        np.testing.assert_array_equal(getattr(further, name).pose, longer.pose)


def test_a_movement_of_no_pose_comes_near_nothing(pair):
    """All inf, and no pose."""
    for part in vars(envelopes(pair, identity_poses(0), 1.0)).values():
        assert (part.least_mm == np.inf).all()
        assert (part.pose == -1).all()


class Enough(Exception):
    """What a callback of the tests raises."""


@pytest.mark.parametrize("threads", [1, 2])
@pytest.mark.parametrize("measure", Measure)
def test_it_ends_within_a_step_when_told_to(pair, movement, threads, measure):
    """What the callback raises comes out, long before all poses of all parts are done."""
    long = np.concatenate([movement] * 4000)
    seen = []

    def stop(done, total):
        seen.append((done, total))
        raise Enough

    with pytest.raises(Enough):
        envelope(pair, long, 1.0, Side.LOWER, measure, Workers(threads, stop))
    ((done, total),) = seen
    assert total == len(pair.lower.layout.parts) * len(long)
    assert done < total


def test_what_is_no_movement_is_refused(pair):
    """Limits and poses are checked as those of maps."""
    with pytest.raises(InputError, match="limit_mm = -1 mm: must be 1e-06 to 1000 mm"):
        envelope(pair, identity_poses(2), -1.0, Side.UPPER)
    with pytest.raises(InputError, match=r"wanted an array of shape \(any, 4, 4\), found \(4, 4\)"):
        envelopes(pair, np.eye(4), 1.0)


def test_arches_and_measures_may_be_spelled():
    """The words that a result prints are taken; others are refused, and the right ones named."""
    pair, poses = prepare(*FAMILIES["cusps"](5)), slightly_moved(3, 1)
    for side in Side:
        for measure in Measure:
            spelled = envelope(pair, poses, 1.0, side.value, measure.value)
            asked = envelope(pair, poses, 1.0, side, measure)
            assert (spelled.side, spelled.measure) == (side, measure)
            assert np.array_equal(spelled.least_mm, asked.least_mm)
    with pytest.raises(InputError, match="side = 'UPPER': must be one of 'upper', 'lower'"):
        envelope(pair, poses, 1.0, "UPPER")
    with pytest.raises(InputError, match="measure = 'arc': must be one of 'shortest distance', "):
        envelope(pair, poses, 1.0, Side.UPPER, "arc")
