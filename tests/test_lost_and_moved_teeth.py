"""Every tooth of the built-in dentition lost or over-erupted, one after the other."""

import re

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import THIRD_MOLARS, DentitionSettings
from kinematics.tooth_codes import PERMANENT, is_upper, mirror, opponent, place
from tests.built_dentition import STOP_UM, first_gaps_um

#: What a refusal says: what was given, which teeth are in the way, what to do.
REFUSED = (
    r"over_erupted (\d\d) by [\d.]+ mm: runs into natural teeth \((\d\d on \d\d(, )?)+\); make "
    r"what stands in the way missing or a replacement tooth, or give less"
    r"|over_erupted and replacement teeth: \d\d and \d\d overlap by [\d.]+ mm and find no room .*"
)


def made(**settings):
    """Return a dentition of all teeth at the coarsest resolution."""
    return build(
        DentitionSettings(triangles_per_arch=10_000, third_molars=THIRD_MOLARS, **settings)
    )


@pytest.fixture(scope="module")
def whole():
    """Return all 32 teeth."""
    return made()


def teeth_of(dentition):
    """Return the landmarks of all teeth by number."""
    return {
        tooth.code: tooth for arch in (dentition.upper, dentition.lower) for tooth in arch.teeth
    }


def opponents(code):
    """Return every tooth a tooth may meet: of its number and beside it, across the midline too."""
    same = opponent(code)
    beside = [same + step for step in (-1, 0, 1) if same + step in PERMANENT]
    return tuple(beside if place(code) > 1 else [*beside, mirror(same)])


@pytest.mark.parametrize("number", range(1, 9))
def test_every_tooth_may_be_missing(whole, number):
    """One upper right and one lower left tooth: they and their stops go, all others stay."""
    gone = {10 + number, 30 + number}
    dentition = made(missing=tuple(gone))
    teeth, before = teeth_of(dentition), teeth_of(whole)
    assert set(teeth) == set(before) - gone
    for code, tooth in teeth.items():
        np.testing.assert_array_equal(tooth.centre, before[code].centre)
    kept = [s.cusp for s in whole.stops if not {s.upper_tooth, s.lower_tooth} & gone]
    assert [stop.cusp for stop in dentition.stops] == kept
    assert abs(first_gaps_um(dentition)) <= STOP_UM


@pytest.mark.parametrize("number", range(1, 9))
def test_every_tooth_may_over_erupt_where_nothing_opposes_it(whole, number):
    """An upper right and a lower left tooth move along their axes, and at most beside them."""
    amount = float(np.random.default_rng(number).uniform(1.5, 4.0))
    moved = (10 + number, 30 + number)
    missing = [code for tooth in moved for code in opponents(tooth) if code not in moved]
    dentition = made(
        missing=tuple(dict.fromkeys(missing)), over_erupted_mm=dict.fromkeys(moved, amount)
    )
    for code in moved:
        before, after = teeth_of(whole)[code], teeth_of(dentition)[code]
        step = after.centre - before.centre
        assert step @ before.long_axis == pytest.approx(amount, abs=0.1)
        assert np.linalg.norm(step - amount * before.long_axis) < 0.2
    assert abs(first_gaps_um(dentition)) <= STOP_UM


def check_combination(seed):
    """Build one random over-eruption opposite a lost tooth, or read why it is refused."""
    rng = np.random.default_rng(seed)
    code = PERMANENT[seed % len(PERMANENT)]
    amount = round(float(rng.uniform(0.1, 2.0)), 2)
    lost = (opponent(code), *(() if seed % 3 else (int(rng.choice(opponents(code)[::2])),)))
    try:
        dentition = made(missing=tuple(dict.fromkeys(lost)), over_erupted_mm={code: amount})
    except InputError as error:
        assert re.fullmatch(REFUSED, str(error)), error
        return str(error)
    assert abs(first_gaps_um(dentition)) <= STOP_UM
    arch = dentition.upper if is_upper(code) else dentition.lower
    assert code in arch.codes
    return ""


@pytest.mark.parametrize("seed", [3, 7, 13, 22, 26, 31])
def test_over_eruption_without_opponent_is_built_or_refused(seed):
    """Six of the combinations below."""
    check_combination(seed)


@pytest.mark.wide
def test_many_over_eruptions_without_opponent_are_built_or_refused():
    """Both happen, for most teeth."""
    refusals = [check_combination(seed) for seed in range(64)]
    assert 10 < sum(map(bool, refusals)) < 54
