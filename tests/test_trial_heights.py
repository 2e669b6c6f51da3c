"""A tooth is called over-erupted for as long as a trial set-up leaves it so."""

import numpy as np
import pytest

from kinematics.trial.heights import LEAST_LEFT_MM, still_over_erupted
from tests.made_trials import made


@pytest.mark.parametrize(
    ("changes", "still"),
    [
        ((), {46, 36}),
        ((("lower", 46, {"by_mm": 1.2}),), {36}),
        ((("lower", 46, {"by_mm": 1.0}),), {46, 36}),
        ((("lower", 46, {"by_mm": 0.7}), ("wear", 46, {"by_mm": 0.5})), {36}),
        ((("flatten", 46, {"by_mm": 1.3}), ("raise", 46, {"by_mm": 0.5})), {46, 36}),
        ((("tilt", 46, {"mesial_deg": 5.0}), ("lower", 16, {"by_mm": 2.0})), {46, 36}),
        ((("remove", 36, {}),), {46}),
        ((("remove", 36, {}), ("add", 36, {}), ("raise", 36, {"by_mm": 1.0})), {46}),
        ((("crown", 46, {}),), {36}),
    ],
)
def test_what_is_left_is_told(changes, still):
    """By how much it was lowered, in whatever way; another crown or none has not erupted."""
    assert still_over_erupted({46: 1.2, 36: 0.04}, made(changes)) == still


def test_seeded_changes_leave_what_a_sum_leaves():
    """100 seeded sequences of lowering and raising, against the plain sum of them."""
    rng = np.random.default_rng(41)
    told = 0
    for _ in range(100):
        given = float(rng.uniform(0.2, 2.0))
        steps = [
            (str(rng.choice(["lower", "raise"])), 46, float(rng.uniform(0.1, 1.5)))
            for _ in range(rng.integers(1, 5))
        ]
        left = given + sum(mm if kind == "raise" else -mm for kind, _, mm in steps)
        found = still_over_erupted({46: given}, made((k, t, {"by_mm": mm}) for k, t, mm in steps))
        if abs(left - LEAST_LEFT_MM) > 1e-9:
            assert (46 in found) == (left > LEAST_LEFT_MM)
            told += 46 in found
    assert 20 < told < 95
