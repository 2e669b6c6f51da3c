"""Remedies: the amount by hand, a smaller one fails, nothing found is told, the same for threads."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from kinematics.remedies.amounts import between, smallest
from kinematics.remedies.effects import effect_of
from kinematics.remedies.search import STEP_MM, remedies_for
from kinematics.remedies.subject import flagged_tooth, wanted_in
from kinematics.trial.settings import Change
from tests.remedied_mouth import needed_mm, planted, subject_of

MARGIN_MM = 0.05
#: MI closes by so much further without the tooth, at most; and chords of the ball, mm.
EXACT_MM = 0.002


@cache
def prepared(seed):
    """Return a mouth with a planted interference, prepared for the search."""
    casts, code, falls = planted(seed)
    subject = subject_of(casts)
    return subject, flagged_tooth(subject, code, wanted_in(subject, code)), code, falls


def lowered(flagged, steps):
    """Tell whether a tooth clears when it is lowered by so many hundredths."""
    change = Change("lower", flagged.tooth, by_mm=steps * STEP_MM)
    return flagged.judge.clears(flagged.subject.changed_mesh(change))


@pytest.mark.parametrize("seed", range(50))
def test_the_amount_is_what_was_planted(seed):
    """By hand: tips on planes and a cloud of points; the quick judgement finds the same."""
    subject, flagged, code, falls = prepared(seed)
    found = smallest(lambda steps: lowered(flagged, steps), 200, 4)
    needed = needed_mm(subject, subject.followed(flagged.rest), code, falls, MARGIN_MM)
    assert needed > 0.03
    assert found.steps * STEP_MM > needed - EXACT_MM
    assert found.steps * STEP_MM < needed + STEP_MM + EXACT_MM
