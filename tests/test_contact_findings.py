"""Interferences and contacts next to MI, in words and figures."""

import re
from dataclasses import replace

import numpy as np
import pytest

from kinematics.guidance import excursions
from kinematics.guidance.excursions import Excursion
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
    sweep = made({CANINE: held, NONWORKING: between(0.6, 2.9)}, first=(12, 42))
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
    sweep = made({CANINE: lifted, NONWORKING: NONE}, first=(12, 42))
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
    sweep = made({CANINE: held, NONWORKING: between(0.0, 1.0)}, first=(12, 42))
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
