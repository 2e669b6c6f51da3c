"""Findings: gravest first, complete, repeatable, in plain sentences."""

import math
import re

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.guidance import excursions
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.planning.all_findings import all_findings
from kinematics.planning.contact_findings import heights_words
from kinematics.planning.findings import (
    SEVERITIES,
    Figure,
    Finding,
    Weighed,
    gravest_first,
    margin_to,
    told_apart,
)
from kinematics.planning.heights import Height
from kinematics.planning.judging import (
    DentureBase,
    JudgingSettings,
)
from kinematics.planning.replacement import replacement_contacts
from kinematics.planning.scheme_findings import scheme_finding
from kinematics.planning.slide import centric_slide
from kinematics.planning.stops import centric_stops
from tests.made_sweeps import TRAVEL, made
from tests.small_mouth import mouth, occlusion, swept

SETTINGS = JudgingSettings()
BASE = DentureBase(name="upper right", teeth=(16, 17), abutments=(15, 13))


def everything(subject):
    """Return sweeps, stops, slide and replacement contacts of a mouth, and all findings."""
    casts = subject.casts
    sweeps = tuple(
        swept(casts, excursion, subject.settings, step_mm=0.2)
        for excursion in (
            excursions.protrusion(),
            excursions.right_lateral(),
            excursions.left_lateral(),
            excursions.retrusion(),
            excursions.right_lateral("CR"),
        )
    )
    stops = centric_stops(sweeps[0].patches, subject.settings)
    slide = centric_slide(sweeps[3])
    replacement = replacement_contacts(subject, sweeps)
    return sweeps, replacement, all_findings(subject, sweeps, stops, slide, replacement)


@pytest.fixture(scope="module")
def full():
    """Return a mouth with an over-erupted 46 against a base, a steep 27, a small slide."""
    falls = {16: (0.9, 1.6), 27: (2.0, -0.5), 26: (1.4, 0.0)}
    casts = mouth(falls, {35: 0.3}, mi=GuidanceCoordinates(0.2, 0.2, 0.0, 0.0))
    subject = occlusion(casts, bases=(BASE,), over_erupted=(46,))
    return subject, *everything(subject)


def test_gravest_first_and_stable(full):
    """Serious before attention before note; the same case gives the same findings."""
    subject, _, _, findings = full
    order = [SEVERITIES.index(finding.severity) for finding in findings]
    assert order == sorted(order, reverse=True)
    assert len(set(order)) == 3
    assert everything(subject)[2] == findings
    kept = [Finding("a", "note", "1."), Finding("b", "serious", "2."), Finding("c", "note", "3.")]
    assert [f.kind for f in gravest_first(map(Weighed, kept))] == ["b", "a", "c"]


def test_what_matters_most_comes_first_in_each_severity():
    """Held open, then touch before near miss, then determined, then travel; rounded, then kept."""

    def told(kind, to_mm=1.0, determined=True):
        return Finding(
            kind, "attention", ".", travel_from_mm=0.5, travel_to_mm=to_mm, determined=determined
        )

    wanted = [
        Weighed(told("nothing else meets"), math.inf),
        Weighed(told("high"), 0.0906),
        Weighed(told("longer", 2.0), 0.022),
        Weighed(told("as high to a micrometre"), 0.0224),
        Weighed(told("low"), 0.015),
        Weighed(told("touches")),
        Weighed(Finding("no travel", "attention", ".")),
        Weighed(told("touches, undetermined", 3.0, False)),
        Weighed(told("longer near miss", 2.0), near_miss=True),
        Weighed(told("near miss"), near_miss=True),
        Weighed(told("undetermined near miss", 3.0, False), near_miss=True),
    ]
    kinds = [item.finding.kind for item in wanted]
    for order in (wanted, wanted[::-1], wanted[1::2] + wanted[::2]):
        assert [finding.kind for finding in gravest_first(order)] == kinds


def test_near_misses_follow_what_touches(full):
    """In a whole case: within a severity no touch, interference or slide after a near miss."""
    for severity in SEVERITIES:
        kinds = [finding.kind for finding in full[-1] if finding.severity == severity]
        near = [i for i, kind in enumerate(kinds) if kind == "replacement tooth comes near"]
        assert all("near" in kind for kind in kinds[min(near, default=len(kinds)) :])


def test_every_part_of_the_case_is_spoken_of(full):
    """Replacement teeth, interferences, slide, stops, strip, notes near MI: all are there."""
    findings = full[-1]
    kinds = {finding.kind for finding in findings}
    assert {
        "replacement tooth touches",
        "protrusive interference",
        "deflective contact",
        "centric stops",
        "shim strip in MI",
        "no centric stop",
    } <= kinds


def test_every_finding_can_be_checked(full):
    """A text that stands alone, a threshold with its source, finite figures with units."""
    _, sweeps, _, findings = full
    names = {sweep.excursion.name for sweep in sweeps} | {"right lateral from CR"}
    for finding in findings:
        assert re.match(r"^[A-Z].*\.$", finding.text, re.DOTALL)
        assert finding.threshold is not None
        assert finding.threshold_source
        assert finding.excursion is None or finding.excursion in names
        numbers = [figure.value for figure in finding.figures]
        numbers += [finding.threshold.value, *(finding.place or ())]
        if finding.margin is not None:
            numbers.append(finding.margin.value)
        assert np.isfinite(numbers).all()
        assert "nan" not in finding.text
        assert "inf" not in finding.text.split()


def test_replacement_contacts_next_to_mi_are_told_in_one_note(full):
    """What is only near MI has no finding of its own."""
    _, _, replacement, findings = full
    told = [f for f in findings if f.kind.startswith("replacement tooth")]
    assert len(told) == sum(contact.standing != "near MI only" for contact in replacement)
    notes = [f for f in findings if f.kind.startswith("contacts near")]
    assert len({finding.excursion for finding in notes}) == len(notes)


def test_an_excursion_from_mi_is_needed(full):
    """MI is read from the start of an excursion from there."""
    subject, sweeps, replacement, _ = full
    only_cr = (sweeps[-1],)
    with pytest.raises(InputError, match="at least one excursion that starts in MI"):
        all_findings(subject, only_cr, (), centric_slide(sweeps[3]), ())
    assert len(replacement) > 0


def test_what_would_meet_nothing_else_is_said_in_words():
    """Without a tooth that alone meets, the height has no figure but a sentence."""
    casts = mouth(uppers=(16,))
    sweep = swept(casts, excursions.right_lateral(), travel_mm=1.5)
    subject = occlusion(casts, bases=(DentureBase(name="alone", teeth=(16,)),))
    (contact,) = [c for c in replacement_contacts(subject, (sweep,)) if c.tooth == 16]
    assert contact.height_mm == math.inf
    stops = centric_stops(sweep.patches, SETTINGS)
    back = swept(casts, excursions.retrusion())
    found = all_findings(subject, (sweep,), stops, centric_slide(back), (contact,))
    (touch,) = [f for f in found if f.kind == "replacement tooth touches"]
    assert "and without it nothing else would meet" in touch.text
    assert all(math.isfinite(figure.value) for figure in touch.figures)
    assert "nothing else would meet" in heights_words((Height(16, math.inf, 1.0),))


def test_margin_and_scatter():
    """A margin says how far and on which side; told apart means at least the scatter."""
    tolerance = Figure("tolerance", 0.02, "mm")
    assert margin_to(0.05, tolerance) == Figure("above the threshold", pytest.approx(0.03), "mm")
    assert margin_to(0.01, tolerance) == Figure("below the threshold", pytest.approx(0.01), "mm")
    assert told_apart(0.0, 0.0)
    assert told_apart(0.3, 0.1, -0.3)
    assert not told_apart(0.3, 0.1, -0.2)


def test_a_scheme_that_is_not_reached_is_told():
    """Canine guidance is not the group or the balance aimed at; where it is aimed at, it is."""
    sweep, casts = made({(13, 43): 0.0 * TRAVEL}), mouth()
    assert scheme_finding(occlusion(casts), sweep) is None
    for scheme, name in (("group", "group function"), ("balanced", "balanced articulation")):
        found = scheme_finding(occlusion(casts, scheme=scheme), sweep)
        assert (found.kind, found.severity) == ("scheme not reached", "attention")
        assert f"{name} was aimed at" in found.text
        assert found.text.endswith("the guidance found is: canine.")
