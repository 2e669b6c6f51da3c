"""Runs of poses, and which poses are judged."""

import numpy as np
import pytest

from kinematics.planning.contact_runs import (
    Run,
    contact_place,
    judged,
    least_gap_over,
    moved,
    pairs_within,
    runs,
    upto_edge,
)
from kinematics.planning.judging import (
    JudgingSettings,
)
from tests.made_sweeps import TRAVEL, made

SETTINGS = JudgingSettings()


def test_runs_of_poses():
    """Runs are found at both ends and in the middle; none in nothing."""
    mask = np.array([True, True, False, True, False, False, True])
    assert runs(mask) == (Run(0, 1), Run(3, 3), Run(6, 6))
    assert runs(np.zeros(3, dtype=bool)) == ()
    assert runs(np.ones(3, dtype=bool)) == (Run(0, 2),)


def test_what_is_judged_of_a_sweep():
    """Beyond the near-MI length, up to edge-to-edge, or the last reading if it is not reached."""
    to_edge = made({}, edge=2.0)
    assert TRAVEL[judged(to_edge, SETTINGS)].tolist() == pytest.approx(TRAVEL[6:21].tolist())
    open_end = made({}, travel=np.round(np.arange(61) * 0.1, 9))
    assert open_end.travel_mm[upto_edge(open_end, SETTINGS)][-1] == 3.0
    assert open_end.travel_mm[moved(open_end, SETTINGS)][0] == 0.1
    sweep = made({(16, 46): 0.1, (17, 47): 0.3})
    every = np.ones(31, dtype=bool)
    assert pairs_within(sweep, every, 0.1) == ((16, 46),)
    assert pairs_within(sweep, ~every, 0.1) == ()
    assert least_gap_over(sweep, [(16, 46), (17, 47)]).tolist() == [0.1] * 31
    assert np.isinf(least_gap_over(sweep, [])).all()
    assert contact_place(sweep, 3, (17, 47)) is None
    assert contact_place(sweep, 3, (13, 43)) == (50.0, -20.0, -33.0)
