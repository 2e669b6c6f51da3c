"""Built-in cases that ask for adjustments: one to copy for every aim, and each reaches it."""

from typing import get_args

import pytest

from kinematics.case_adjusted import adjusted, moved
from kinematics.contact.workers import Workers
from kinematics.mounting import mounted_casts
from kinematics.planning.adjusting.settings import Aim
from scenes.builtin_cases import builtin_case
from scenes.case_places import case_names
from tests.shipped_cases import coarse


def test_there_is_a_case_to_copy_for_every_aim():
    """Whatever an adjustment may be for, a built-in case asks for it."""
    asked = {item.so_that for name in case_names() for item in builtin_case(name).adjustments}
    assert asked == set(get_args(Aim))


@pytest.mark.parametrize("name", ["high_filling", "high_crown"])
def test_a_high_tooth_comes_down_to_the_others(name):
    """It alone stops the jaw; cut as asked for, all back teeth stop it, and nothing new touches."""
    case, workers = coarse(name), Workers(2)
    casts = mounted_casts(case)
    before = moved(case, casts, workers)
    (high,) = {change.tooth for change in case.change}
    (stop,) = before.stops
    assert high in (stop.tooth_upper, stop.tooth_lower)
    done = adjusted(case, casts, before.sweeps, before.stops, workers, lambda _: None)
    assert len(done) == len(case.adjustments)
    for item in done:
        assert item.outcome.is_reached and not item.outcome.stops_lost
        assert {cut.tooth for cut in item.planned.cuts} == {high}
        # Coarse triangles are wider than the flat stop asked for.
        assert all("flat stop is only" in why for why in item.planned.hinders)
    assert len({*done[0].outcome.stops_kept, *done[0].outcome.stops_new}) > 7
    assert done[0].outcome.closes_mm > 0.3
