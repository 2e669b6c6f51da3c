"""One round of settling: gaps closed exactly, wishes kept where they can be, wanted gaps shut."""

import numpy as np
import pytest

from kinematics.teeth.settling_programme import (
    LIFT,
    TRUE_WITHIN_MM,
    Freedom,
    Measured,
    held,
    programme,
    rounds_near,
)

RISING = Freedom("L6", 0, 0.4, 0.4, 1.0, -0.2)
STILL = Freedom("U6", LIFT, 0.4, 0.4, 0.3, 0.3)


def measured(gaps, slopes, wish=None, wanted=(), amounts=None):
    """Return a round in which nothing may overlap."""
    gaps, slopes = np.array(gaps), np.array(slopes, dtype=float)
    zero = np.zeros(len(gaps))
    wish = zero if wish is None else np.array(wish)
    amounts = np.zeros(slopes.shape[1]) if amounts is None else np.array(amounts)
    return Measured(amounts, gaps, slopes, zero, wish, np.array(wanted, dtype=np.int64))


def test_a_cusp_rises_to_the_nearest_gap_and_no_farther():
    """The gap is closed exactly; a step limits how far it goes at once."""
    rounds = [measured([0.1, 0.3], [[-1.0], [-2.0]])]
    assert programme(rounds, [RISING], 0.2) == pytest.approx([0.1])
    assert programme(rounds, [RISING], 0.05) == pytest.approx([0.05])


def test_an_overlap_is_taken_back_and_a_wish_kept():
    """Cusps shrink where they overlap, and stay off what is only to be kept clear of."""
    assert programme([measured([-0.1], [[-1.0]])], [RISING], 0.2) == pytest.approx([-0.1])
    wished = measured([0.1], [[-1.0]], wish=[0.03])
    assert programme([wished], [RISING], 0.2) == pytest.approx([0.07])


def test_a_wanted_gap_is_shut_at_a_cost():
    """A tooth that would stay where it is moves when its gap is to be closed."""
    assert programme([measured([0.1], [[-1.0]])], [STILL], 0.2) == pytest.approx([0.0])
    assert programme([measured([0.1], [[-1.0]], wanted=[0])], [STILL], 0.2) == pytest.approx([0.1])


def test_remembered_rounds_bind_and_are_forgotten_when_far():
    """Two places that touch in turn both hold; a round far from where the teeth stand does not."""
    here = measured([0.2], [[-1.0]])
    near = measured([0.06], [[-1.0]], amounts=[0.05])
    assert programme([near, here], [RISING], 0.2) == pytest.approx([0.11])
    assert rounds_near([near, here], 0.05) == [near, here]
    assert rounds_near([near, here], 0.0) == [here]
    beside = measured([0.2], [[-1.0]], amounts=[0.5 * TRUE_WITHIN_MM])
    assert rounds_near([beside, here], 0.0) == [beside, here]


def test_what_gains_little_is_held_unless_it_is_to_meet():
    """Settled cusps go on, others keep the place they have reached."""
    little = Freedom("L6", 1, 0.4, 0.4, 1.0, -0.05)
    amounts = np.array([0.1, 0.1, 0.1])
    assert [f.forth for f in held([RISING, little, STILL], amounts, frozenset())] == [0.4, 0.1, 0.1]
    kept = held([RISING, little, STILL], amounts, frozenset({"U6"}))
    assert [f.forth for f in kept] == [0.4, 0.1, 0.4]
