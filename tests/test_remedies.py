"""Remedies: the amount by hand, a smaller one fails, none is told, the same for any threads."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_file import parse_case
from kinematics.checks import InputError
from kinematics.mounting import changed
from kinematics.planning.remedies.flagged import flagged_teeth, flags_of
from kinematics.planning.remedies.pasted import pasted
from kinematics.remedies.amounts import smallest
from kinematics.remedies.effects import effect_of
from kinematics.remedies.search import STEP_MM, remedies_for
from kinematics.remedies.subject import flagged_tooth, wanted_in
from kinematics.remedy_files import REMEDY_COLUMNS, remedy_entries, remedy_rows
from kinematics.result_files import plain
from kinematics.result_texts import json_text
from kinematics.tooth_codes import opponent
from kinematics.trial.settings import Change
from tests.adjusted_mouth import fine_mouth
from tests.remedied_mouth import needed_mm, planted, quickly_flagged, sought, subject_of

MARGIN_MM = 0.05
#: MI closes by no more without the tooth, mm.
EXACT_MM = 0.002


def lowering(flagged, steps):
    """Return the change that lowers a tooth by so many steps."""
    return Change("lower", flagged.tooth, by_mm=steps * STEP_MM)


def clears(flagged, steps):
    """Tell whether a lowered tooth is clear by the quick judgement."""
    return flagged.judge.clears(flagged.subject.changed_mesh(lowering(flagged, steps)))


def of_kind(found, kind):
    """Return the remedy of one kind."""
    return next(item for item in found.remedies if item.kind == kind)


@pytest.mark.parametrize("seed", range(50))
def test_the_amount_is_what_was_planted(seed):
    """By hand: tips on planes and a cloud of points; the quick judgement finds the same."""
    casts, code, falls = planted(seed)
    subject = subject_of(casts, judge=False)
    flagged, sweeps = quickly_flagged(subject, code)
    found = smallest(lambda steps: clears(flagged, steps), 200, 4)
    needed = needed_mm(subject, sweeps, flagged.tooth, falls, MARGIN_MM)
    assert needed > 0.03
    assert found.steps * STEP_MM > needed - EXACT_MM
    assert found.steps * STEP_MM < needed + STEP_MM + EXACT_MM


@pytest.mark.parametrize("seed", range(6))
def test_a_smaller_amount_fails_the_full_run(seed):
    """What was found clears the tooth by a full run; one step less does not."""
    casts, code, _ = planted(seed)
    subject = subject_of(casts)
    flagged = flagged_tooth(subject, code, wanted_in(subject, code))
    assert flags_of(subject.found.findings, flagged.tooth)
    steps = smallest(lambda n: clears(flagged, n), 200, 4).steps
    case, _, casts = subject.with_changes([lowering(flagged, steps)])
    enough = effect_of(flagged, case, casts)
    assert enough.clears
    assert any(flagged.tooth in (item.tooth_upper, item.tooth_lower) for item in enough.gone)
    case, _, casts = subject.with_changes([lowering(flagged, steps - 1)])
    less = effect_of(flagged, case, casts)
    assert 0.0 < less.lacks_mm < STEP_MM + EXACT_MM
    assert "excursion at" in less.lacks_where or "protrusion at" in less.lacks_where


def test_every_kind_is_told_with_its_effect():
    """Lowering, flattening, tilting, guides and cutting: each found and verified, or why not."""
    _, found = sought()
    assert [item.kind for item in found.remedies] == [
        "lower",
        "flatten",
        "tilt",
        "steepen",
        "adjust",
    ]
    lower, cut = of_kind(found, "lower"), of_kind(found, "adjust")
    assert lower.is_found
    assert lower.natural_cut == (found.tooth,)
    # A plane of 6.6 mm square that goes up sweeps its area times the way.
    assert lower.cut_mm3 == pytest.approx(6.6**2 * lower.amount, rel=1e-6)
    assert lower.effect.curve.after_mm[:, 1].min() >= 0.0
    assert cut.is_found
    assert cut.keeps_stops
    assert cut.cut_mm3 < lower.cut_mm3
    assert found.smallest is not None
    assert all(item.is_found or item.reason for item in found.remedies)


def test_results_are_the_same_bits_for_any_threads():
    """All figures of all kinds, to the last digit."""
    one, other = (sought(threads)[1] for threads in (1, 2))
    assert json_text(plain(remedy_entries([one]))) == json_text(plain(remedy_entries([other])))
    for a, b in zip(one.remedies, other.remedies, strict=True):
        assert (a.amount, a.cut_mm3, a.added_mm3) == (b.amount, b.cut_mm3, b.added_mm3)
        if a.effect is not None:
            assert np.array_equal(a.effect.curve.after_mm, b.effect.curve.after_mm)


def test_nothing_within_the_limits_is_an_answer():
    """What is still in the way with the most that was tried is said, and where."""
    _, found = sought(most_mm=0.05, most_tilt_deg=0.5, most_added_mm=0.05)
    lower = of_kind(found, "lower")
    assert not lower.is_found
    assert lower.effect is None
    assert lower.reason.startswith("with 0.05 mm it lacks ")
    assert " of travel" in lower.reason
    assert pasted(lower) == ""
    assert "deepest_mm = 0.05" in of_kind(found, "adjust").reason
    assert found.smallest is None


def test_searching_leaves_the_case_and_its_teeth_as_they_are():
    """A change that is undone gives back the very teeth; the search changes nothing."""
    subject, found = sought()
    case, teeth, _ = subject.with_changes(of_kind(found, "lower").changes)
    assert changed(teeth, replace(case, change=())) is subject.teeth
    assert subject.case.change == ()
    (again,) = remedies_for(subject, [found.tooth])
    assert list(remedy_rows([again])) == list(remedy_rows([found]))


def test_entries_can_be_pasted_into_a_case_file():
    """What is printed says the very change or adjustment."""
    _, found = sought()
    for remedy in found.remedies:
        if remedy.is_found:
            case = parse_case(pasted(remedy), "pasted")
            assert case.change == remedy.changes
            assert case.adjustments == ((remedy.adjustment,) if remedy.adjustment else ())


def test_files_have_a_row_for_every_kind():
    """As many cells as columns."""
    _, found = sought()
    rows = list(remedy_rows([found, replace(found, note="clear", remedies=())]))
    assert {len(row) for row in rows} == {len(REMEDY_COLUMNS)}
    assert len(rows) == 6
    assert rows[-1][REMEDY_COLUMNS.index("reason")] == "clear"


def test_teeth_that_need_nothing_are_told_so():
    """A canine may touch where it does, and a back tooth that is clear is left alone."""
    subject, found = sought()
    clear = next(code for code in (26, 16) if code != found.tooth)
    canine, back = remedies_for(subject, [13, clear])
    assert back.note == "it is clear as it is"
    assert not back.remedies
    assert canine.note
    with pytest.raises(InputError, match="the upper arch has"):
        remedies_for(subject, [18])


def test_flagged_teeth_are_those_of_findings():
    """Both teeth of an interference, gravest first; a note flags nothing."""
    subject, found = sought()
    flagged = flagged_teeth(subject.occlusion, subject.found.findings)
    assert found.tooth in flagged
    notes = [replace(item, severity="note") for item in subject.found.findings]
    assert flagged_teeth(subject.occlusion, notes) == ()


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("teeth = [19]", "teeth[0] = 19: not a tooth number"),
        ("teeth = [17, 17]", "17 stands twice; name it once"),
        ("margin_mm = 0.0", "remedies.margin_mm"),
        ("most_tilt_deg = 40.0", "remedies.most_tilt_deg"),
        ("most = 1.0", "remedies.most"),
        ("teeth = [18]", "the dentition has no tooth 18"),
    ],
)
def test_wrong_keys_are_told(line, told):
    """Which key, what was found, what is accepted."""
    with pytest.raises(InputError) as error:
        parse_case(f"[remedies]\n{line}\n", "case.toml")
    assert told in str(error.value)


def test_a_search_over_steps():
    """The fewest that do; what is refused is too much; none is told with what was tried."""
    for wanted in range(1, 40):
        asked = []

        def does(steps, wanted=wanted, asked=asked):
            asked.append(steps)
            return steps >= wanted

        assert smallest(does, 40, 4).steps == wanted
        assert len(asked) < 14

    def refused(steps):
        if steps > 7:
            raise InputError("too deep")
        return False

    found = smallest(refused, 100)
    assert (found.steps, found.tried, found.refused) == (None, 7, "too deep")


@pytest.mark.parametrize("seed", range(10))
def test_a_tooth_that_is_high_in_mi_as_well_goes_by_as_much(seed):
    """A level tooth planted too high holds everything open: it goes by its height, no less."""
    random = np.random.default_rng(500 + seed)
    code = (17, 16, 15, 25, 26, 27)[seed % 6]
    high = float(random.uniform(0.05, 0.3))
    subject = subject_of(fine_mouth({code: (0.0, 0.0)}, {opponent(code): -high}), judge=False)
    flagged, _ = quickly_flagged(subject, code)
    steps = smallest(lambda n: clears(flagged, n), 200, 4).steps
    assert high - EXACT_MM <= steps * STEP_MM < high + STEP_MM + EXACT_MM


def test_cutting_what_is_in_the_way_of_excursions_leaves_mi_as_it_is():
    """A tooth that is high in MI too is not cleared by that, and this is said."""
    casts = fine_mouth({16: (0.42, 0.42)}, {46: -0.1})
    subject = subject_of(casts)
    (found,) = remedies_for(subject, [16])
    assert of_kind(found, "lower").is_found
    assert not of_kind(found, "adjust").is_found
    assert of_kind(found, "adjust").reason
    assert of_kind(found, "steepen").reason == "it is too high in MI, where guides are of no help"
