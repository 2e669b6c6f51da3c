"""Interferences and contacts next to MI, in words and figures."""

import re
from dataclasses import replace

import numpy as np
import pytest

from kinematics.guidance import excursions
from kinematics.guidance.excursions import Excursion
from kinematics.planning import interference
from kinematics.planning.contact_findings import interference_finding, near_start_note
from kinematics.planning.interference import interferences
from kinematics.planning.runner_up import runner_up_words
from tests.made_sweeps import NONE, TRAVEL, between, made
from tests.small_mouth import mouth, occlusion, swept


@pytest.fixture(scope="module")
def casts():
    """Return a mouth; in hand-made sweeps no closing is asked of it."""
    return mouth()


WORKING, NONWORKING, CANINE = (16, 46), (27, 37), (13, 43)
#: The nonworking pair ties with the first contact: it carries the jaw, and has no height alone.
TIED = {"first": (12, 42), "second": NONWORKING, "second_gap": 0.0}


def test_contacts_near_mi_are_notes_unless_they_stay(casts):
    """A contact to 0.5 mm is a note; one to 0.6 mm interferes, from where it began."""
    short = made({CANINE: NONE, WORKING: between(0.0, 0.5)})
    subject = occlusion(casts)
    assert interferences(subject, short) == ()
    note = near_start_note(subject, short, ())
    assert note.severity == "note"
    assert note.text == (
        "In right lateral excursion, next to MI, still touch 16 on 46 (to 0.5 mm): notes only, as"
        " they do not stay."
    )
    assert (note.travel_from_mm, note.travel_to_mm) == (0.0, 0.5)
    stays = made({CANINE: NONE, WORKING: between(0.2, 0.6)})
    (item,) = interferences(subject, stays)
    assert (item.travel_from_mm, item.travel_to_mm) == (0.2, 0.6)
    assert near_start_note(subject, stays, ()) is None


def test_a_movement_from_cr_that_passes_by_mi_says_so(casts):
    """What touches only there is told as near CR or MI, as far as it goes."""
    from_cr = Excursion("right lateral", -90.0, "CR")
    sweep = made({CANINE: NONE, WORKING: between(0.6, 0.9)}, from_cr)
    passing = replace(sweep, from_mi_mm=np.abs(TRAVEL - 0.7))
    assert len(interferences(occlusion(casts), sweep)) == 1
    assert interferences(occlusion(casts), passing) == ()
    note = near_start_note(occlusion(casts), passing, ())
    assert note.kind == "contacts near CR or MI"
    assert note.text.startswith(
        "In right lateral excursion from CR, next to CR or MI, still touch 16 on 46 (to 0.9 mm)"
    )
    assert note.travel_to_mm == 0.9


def test_a_finding_names_everything_that_is_asked_of_it():
    """Excursion, range, teeth, place, figures, threshold and source, margin, runner-up."""
    casts = mouth({27: (2.0, -0.5)})
    subject = occlusion(casts)
    sweep = swept(casts, excursions.right_lateral())
    (item,) = interferences(subject, sweep)
    finding = interference_finding(subject, sweep, item)
    assert (finding.kind, finding.severity) == ("nonworking interference", "serious")
    assert (finding.tooth_upper, finding.tooth_lower) == (27, 37)
    assert finding.excursion == "right lateral"
    assert 0.0 <= finding.travel_from_mm < finding.travel_to_mm <= 3.0 + 1e-6
    names = [figure.name for figure in finding.figures]
    assert f"least distance of {item.rule.against} at {item.held_open_at_mm:.1f} mm" in names
    assert finding.place == item.place
    assert {figure.unit for figure in finding.figures} == {"mm"}
    assert finding.threshold.value == 0.02
    assert "Brizuela-Velasco" in finding.threshold_source
    most = max(item.held_open_mm, *(height.height_mm for height in item.heights))
    assert finding.margin.value == pytest.approx(most - 0.02)
    assert re.match(r"at \d\.\d mm the next to touch would be ", finding.runner_up)
    assert finding.determined


def test_what_is_smaller_than_the_scatter_is_not_determined(casts):
    """A touch is a matter of 0.02 mm; with records that scatter by 0.3 mm nobody can tell."""
    sweep = made({CANINE: NONE, WORKING: between(0.8, 1.6)})
    for scatter, determined in ((0.0, True), (0.3, False)):
        subject = occlusion(casts, record_scatter_mm=scatter)
        (item,) = interferences(subject, sweep)
        assert interference_finding(subject, sweep, item).determined == determined


def test_the_range_of_touching_and_that_of_holding_open_are_told_apart(casts):
    """A contact from 0.6 to 2.9 mm that holds the canine open only from 1.5 to 2.1 mm says both."""
    held = np.where(between(1.5, 2.1) == 0.0, 0.09, 0.0)
    subject = occlusion(casts)
    sweep = made({CANINE: held, NONWORKING: between(0.6, 2.9)}, **TIED)
    (item,) = interferences(subject, sweep)
    assert (item.travel_from_mm, item.travel_to_mm) == pytest.approx((0.6, 2.9))
    assert item.interfering_mm == pytest.approx((1.5, 2.1))
    finding = interference_finding(subject, sweep, item)
    assert (finding.travel_from_mm, finding.travel_to_mm) == pytest.approx((0.6, 2.9))
    assert "touches 37 from 0.6 to 2.9 mm; from 1.5 to 2.1 mm it holds" in finding.text
    assert "open, most at 1.5 mm by 90 µm" in finding.text


@pytest.mark.parametrize(
    ("held_mm", "until_mm", "severity"),
    [
        (0.022, 0.6, "attention"),
        (0.022, 1.0, "attention"),
        (0.022, 1.1, "serious"),
        (0.1, 0.6, "attention"),
        (0.101, 0.6, "serious"),
    ],
)
def test_what_grazes_is_never_serious(casts, held_mm, until_mm, severity):
    """Held open by no more than 0.1 mm, and over less than 0.5 mm on end: told so, attention."""
    lifted = np.where(between(0.6, until_mm) == 0.0, held_mm, 0.0)
    subject = occlusion(casts)
    sweep = made({CANINE: lifted, NONWORKING: NONE}, **TIED)
    (item,) = interferences(subject, sweep)
    assert item.rule.severity == "serious"
    finding = interference_finding(subject, sweep, item)
    assert finding.severity == item.severity == severity
    grazing = "It only grazes: by no more than 0.10 mm, and over less than 0.5 mm of travel on end."
    assert (grazing in finding.text) == (severity == "attention")
    assert ("Kim et al." in finding.threshold_source) == (severity == "attention")


def test_a_larger_figure_next_to_mi_is_told_as_not_judged(casts):
    """The figures are those of the judged part; what is larger before it is said beside them."""
    held = np.where(TRAVEL < 0.45, 0.2, 0.05)
    subject = occlusion(casts)
    sweep = made({CANINE: held, NONWORKING: between(0.0, 1.0)}, **TIED)
    (item,) = interferences(subject, sweep)
    assert (item.held_open_mm, item.near_start_mm) == (0.05, 0.2)
    finding = interference_finding(subject, sweep, item)
    assert (
        "Within 0.5 mm of MI, which is not judged, it holds teeth further open, by 0.20 mm."
        in finding.text
    )
    assert finding.figures[-1].value == 0.2


def test_the_runner_up_is_never_the_judged_pair():
    """Where another pair carries the jaw and the judged one is next, the carrier is named."""
    casts = mouth({27: (2.0, -0.5)})
    sweep = swept(casts, excursions.right_lateral())
    pair = int(sweep.runner_up.tooth_upper[-1]), int(sweep.runner_up.tooth_lower[-1])
    at = f"at {sweep.travel_mm[-1]:.1f} mm"
    assert runner_up_words(sweep, -1).startswith(f"{at} the next to touch would be {pair[0]}")
    assert runner_up_words(sweep, -1, pair).startswith(f"{at} 27 on 37 carries the jaw, ")


CARRIER = (26, 36)


@pytest.fixture
def low(monkeypatch):
    """Let every tooth have a height of 15 µm: in hand-made sweeps nothing can be left out."""
    monkeypatch.setattr(interference, "heights_mm", lambda *_: 0.015 + NONE)


def test_only_the_contact_that_carries_the_jaw_is_blamed(casts, low):
    """24 touches beside 26, which carries: a note that names 26, without any height of its own."""
    gaps = {CANINE: 0.03 + NONE, CARRIER: between(0.6, 0.9), (24, 34): between(0.0, 0.9, 0.006)}
    sweep = made(gaps, first=CARRIER, second=(24, 34), second_gap=0.019)
    subject = occlusion(casts)
    items = {item.pair: item for item in interferences(subject, sweep)}
    assert set(items) == {CARRIER, (24, 34)}
    blamed, beside = (interference_finding(subject, sweep, items[pair]) for pair in items)
    if blamed.tooth_upper != 26:
        blamed, beside = beside, blamed
    assert (blamed.kind, blamed.severity) == ("nonworking interference", "attention")
    assert (beside.kind, beside.severity) == ("nonworking contact", "note")
    assert beside.text.startswith(
        "In right lateral excursion 24 touches 34 from 0.0 to 0.9 mm, while at 0.6 mm 26 on 36"
        " carries the jaw: by itself this contact lifts nothing"
    )
    assert " open" not in beside.text
    assert beside.runner_up == (
        "at 0.6 mm 26 on 36 carries the jaw, 19 µm ahead of it along the closing arc, measured at"
        " 24"
    )
    assert items[24, 34].most_held_mm == 0.0


def test_contacts_that_tie_share_the_blame(casts, low):
    """Within the stop tolerance along the arc neither is ahead: both carry, both are told."""
    gaps = {CANINE: 0.03 + NONE, CARRIER: between(0.6, 0.9), (24, 34): between(0.6, 0.9)}
    for apart, blamed in ((0.002, {CARRIER, (24, 34)}), (0.0021, {CARRIER})):
        sweep = made(gaps, first=CARRIER, second=(24, 34), second_gap=apart)
        found = interferences(occlusion(casts), sweep)
        assert {item.pair for item in found if item.rule.condition == "holds open"} == blamed


def test_the_least_distance_says_where_it_is_read(casts):
    """Of a range of travel, one value: it stands with its travel."""
    gap = np.where(TRAVEL < 1.05, 0.015, 0.006) + between(0.0, 1.4)
    subject = occlusion(casts)
    sweep = made({CANINE: NONE, WORKING: gap})
    (item,) = interferences(subject, sweep)
    least = interference_finding(subject, sweep, item).figures[0]
    assert (least.name, least.value) == ("least distance at 1.1 mm", 0.006)


@pytest.mark.parametrize(("scatter_mm", "severity"), [(0.0, "serious"), (0.3, "attention")])
def test_what_holds_nothing_by_itself_is_serious_only_where_determined(casts, scatter_mm, severity):
    """Two that tie hold the canine open for long; alone neither does, and records scatter."""
    subject = occlusion(casts, record_scatter_mm=scatter_mm)
    sweep = made({CANINE: 0.03 + NONE, NONWORKING: NONE}, **TIED)
    (item,) = interferences(subject, sweep)
    finding = interference_finding(subject, sweep, item)
    assert (finding.severity, finding.determined) == (severity, scatter_mm == 0.0)


def test_heights_name_the_tooth_they_are_measured_at():
    """In the sentence and in the figures: the same turn is another length at another tooth."""
    casts = mouth({27: (2.0, -0.5)})
    subject, sweep = occlusion(casts), swept(casts, excursions.right_lateral())
    (item,) = interferences(subject, sweep)
    finding = interference_finding(subject, sweep, item)
    assert "open along the closing arc, measured at 27 (found by" in finding.text
    heights = [figure.name for figure in finding.figures if figure.name.startswith("height")]
    assert len(heights) == 2
    assert all(re.search(r", measured at (\d\d), without \1$", name) for name in heights)
    assert re.search(r"along the closing arc, measured at \d\d$", finding.runner_up)
