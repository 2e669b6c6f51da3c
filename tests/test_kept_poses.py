"""What was found in poses is kept, and the same is told of poses that come again."""

from types import SimpleNamespace

import numpy as np
import pytest

from kinematics.contact import kept_poses
from kinematics.contact.closure import close_and_next
from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.kept_poses import KeptPoses
from kinematics.contact.pair import prepare
from kinematics.contact.workers import Workers
from kinematics.geometry.poses import opening_rotation
from tests.made_sheets import patchwork, slightly_moved

CODES = (11, 12, 13, 14)


def squares(looked_at):
    """Return what finds squares, and notes whose."""

    def find(values):
        def found(some):
            looked_at.append(values[some].tolist())
            return values[some] ** 2

        return found

    return find


def asked(kept, about, question, numbers, looked_at):
    """Ask for squares of numbers."""
    values = np.array(numbers, dtype=np.float64)
    return kept.rows(about, question, (values[:, None],), squares(looked_at)(values)).tolist()


def test_only_new_poses_are_looked_at():
    """Each once, also where it is asked for twice; of another question or pair all are."""
    kept, looked_at = KeptPoses(), []
    here, there = SimpleNamespace(), SimpleNamespace()
    assert asked(kept, here, ("a",), [3, 1, 3], looked_at) == [9, 1, 9]
    assert asked(kept, here, ("a",), [2, 1, 3, 2], looked_at) == [4, 1, 9, 4]
    assert asked(kept, here, ("a",), [1, 2], looked_at) == [1, 4]
    assert asked(kept, here, ("b",), [1], looked_at) == [1]
    assert asked(kept, there, ("a",), [1], looked_at) == [1]
    assert sorted(looked_at[0]) == [1, 3]
    assert looked_at[1:] == [[2], [1], [1]]


def test_memory_is_bounded(monkeypatch):
    """Questions asked longest ago are forgotten first, and poses where they become too many."""
    monkeypatch.setattr(kept_poses, "QUESTIONS", 2)
    monkeypatch.setattr(kept_poses, "POSES", 5)
    kept, looked_at, about = KeptPoses(), [], SimpleNamespace()
    for question in "abac":
        asked(kept, about, (question,), [1, 2], looked_at)
    assert len(looked_at) == 3
    asked(kept, about, ("a",), [1, 2], looked_at)
    assert len(looked_at) == 3
    asked(kept, about, ("b",), [1, 2], looked_at)
    assert len(looked_at) == 4
    asked(kept, about, ("a",), [1, 3, 4, 5], looked_at)
    assert looked_at[-1] == [3, 4, 5]
    assert asked(kept, about, ("a",), [6, 1], looked_at) == [36, 1]
    assert sorted(looked_at[-1]) == [1, 6]


@pytest.mark.parametrize("seed", range(10))
def test_closures_patches_and_gaps_are_the_same_bits(seed):
    """Of poses that come again among others, whatever was asked before."""
    pair = prepare(patchwork(1, 14, -30, 1.0), patchwork(2, 15, -33, 0.7))
    rng, keeping = np.random.default_rng(seed), Workers(keeps_poses=True)
    poses = slightly_moved(60, seed)
    for _ in range(4):
        some = poses[rng.integers(0, 60, rng.integers(1, 40))]
        told = [found(pair, some, workers) for workers in (keeping, Workers()) for found in FOUND]
        for kept, anew in zip(told[: len(FOUND)], told[len(FOUND) :], strict=True):
            np.testing.assert_equal(kept, anew)


def closed(pair, poses, workers):
    """Return poses at their first contact."""
    return poses @ opening_rotation(close_and_next(pair, poses, workers).first.opening_rad)


FOUND = (
    lambda pair, poses, workers: vars(close_and_next(pair, poses, workers).runner_up),
    lambda pair, poses, workers: vars(patches(pair, closed(pair, poses, workers), 0.05, workers)),
    lambda pair, poses, workers: vars(
        patches(pair, closed(pair, poses, workers), 0.1, workers, (12, 12))
    ),
    lambda pair, poses, workers: pair_gaps(pair, poses, 3.0, CODES, CODES, workers),
    lambda pair, poses, workers: pair_gaps(pair, poses, 2.0, CODES, CODES[:2], workers),
)
