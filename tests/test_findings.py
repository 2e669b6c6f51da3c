"""Findings: gravest first, complete, repeatable, in plain sentences; and the smaller helpers."""

import math
import re
import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from pydantic import TypeAdapter, ValidationError

from kinematics.checks import InputError
from kinematics.guidance import excursions
from kinematics.guidance.excursions import Excursion
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.planning.all_findings import all_findings
from kinematics.planning.contact_findings import heights_words
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
from kinematics.planning.findings import (
    SEVERITIES,
    Figure,
    Finding,
    gravest_first,
    margin_to,
    told_apart,
)
from kinematics.planning.heights import Height
from kinematics.planning.judging import (
    DEFAULT_SOURCES,
    REPRODUCIBILITY,
    DentureBase,
    JudgingSettings,
    source_of,
)
from kinematics.planning.occlusion import centre_of, root_direction
from kinematics.planning.replacement import replacement_contacts
from kinematics.planning.scheme_findings import scheme_finding
from kinematics.planning.slide import centric_slide
from kinematics.planning.stops import centric_stops
from kinematics.planning.unstopped_findings import OVER_ERUPTION_SOURCE
from kinematics.planning.wording import (
    enumeration,
    excursion_words,
    length,
    newtons_across,
    pair_name,
    sentence,
    travel_range,
)
from tests.made_sweeps import TRAVEL, made
from tests.small_mouth import mouth, occlusion, swept

SETTINGS = JudgingSettings()
PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text("utf-8")
)
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
    assert [finding.kind for finding in gravest_first(kept)] == ["b", "a", "c"]


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


@pytest.mark.parametrize(
    ("given", "message"),
    [
        (
            {"bases": (DentureBase(name="b", teeth=(14,)),)},
            "denture base 'b': tooth 14 is not there",
        ),
        (
            {"bases": (replace(BASE, abutments=(12,)),)},
            "tooth 12 is not there; the upper cast has 17",
        ),
        (
            {"over_erupted": (44,)},
            "over-erupted teeth: tooth 44 is not there; the lower cast has 47",
        ),
    ],
)
def test_teeth_that_the_casts_lack_are_refused(given, message):
    """Bases and over-erupted teeth must stand on the casts."""
    with pytest.raises(InputError, match=message):
        occlusion(mouth(), **given)


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
    assert "nothing else would meet" in heights_words((Height(16, math.inf, 1.0, 3),))


def test_heights_found_by_either_tooth_are_told_once_where_they_agree():
    """The same figure for both teeth is not repeated; different ones are both given."""
    same = (Height(16, 0.3, 1.0, 3), Height(46, 0.3, 1.0, 3))
    assert heights_words(same) == (
        " and holds the other teeth 0.30 mm open along the closing arc at 1.0 mm"
        " (found by leaving out 16 or 46)"
    )
    other = (Height(16, 0.3, 1.0, 3), Height(46, 0.2, 1.0, 3))
    assert "(found by leaving out 16; 0.20 mm by leaving out 46)" in heights_words(other)
    assert heights_words((Height(16, 0.0, 1.0, 3),)) == ""


def test_margin_and_scatter():
    """A margin says how far and on which side; told apart means at least the scatter."""
    tolerance = Figure("tolerance", 0.02, "mm")
    assert margin_to(0.05, tolerance) == Figure("above the threshold", pytest.approx(0.03), "mm")
    assert margin_to(0.01, tolerance) == Figure("below the threshold", pytest.approx(0.01), "mm")
    assert told_apart(0.0, 0.0)
    assert told_apart(0.3, 0.1, -0.3)
    assert not told_apart(0.3, 0.1, -0.2)


def test_words():
    """Lengths, ranges, pairs, movements and forces as a dentist reads them."""
    assert [length(x) for x in (0.0, 0.0004, 0.0312, 0.0995, 1.236, -0.02)] == [
        "0 µm", "0.4 µm", "31 µm", "0.10 mm", "1.24 mm", "-20 µm",
    ]  # fmt: skip
    assert travel_range(0.6, 3.04) == "from 0.6 to 3.0 mm"
    assert travel_range(0.6, 0.61) == "at 0.6 mm"
    assert pair_name(16, 0) == "16 on no tooth"
    assert enumeration(["a", "b", "c"]) == "a, b and c"
    assert enumeration([]) == ""
    assert sentence("in protrusion it touches") == "In protrusion it touches."
    assert newtons_across(0.6249) == "0.62 N across its long axis for every N along it"
    assert newtons_across(math.inf) == "a force wholly across its long axis"
    words = [
        excursion_words(Excursion(*given))
        for given in (
            ("right lateral", -90.0, "MI"),
            ("lateroprotrusion -45", -45.0, "MI"),
            ("lateroprotrusion 30", 30.0, "CR"),
            ("protrusion", 0.0, "CR"),
        )
    ]
    assert words == [
        "right lateral excursion",
        "lateroprotrusion 45 degrees to the right",
        "lateroprotrusion 30 degrees to the left from CR",
        "protrusion from CR",
    ]


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


def test_the_axis_of_a_lower_tooth_turns_with_the_jaw():
    """Towards the root: up in the upper, down in the lower, turned by the pose."""
    subject = occlusion(mouth())
    turn = np.eye(4)
    turn[:3, :3] = [[0.0, 0.0, 1.0], [0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]]
    np.testing.assert_allclose(root_direction(subject, 16, turn), [0, 0, 1])
    np.testing.assert_allclose(root_direction(subject, 46, np.eye(4)), [0, 0, -1])
    np.testing.assert_allclose(root_direction(subject, 46, turn), [-1, 0, 0], atol=1e-15)
    centre = subject.casts.lower.tooth(46).centre
    np.testing.assert_allclose(centre_of(subject, 46, turn), turn[:3, :3] @ centre)


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"tolerance_mm": 0.5}, "less than or equal to 0.2"),
        ({"tolerance_mm": math.nan}, "finite"),
        ({"scheme": "mutual"}, "canine"),
        ({"readings_mm": (0.0, 2.0, 1.0)}, "each greater than the last"),
        ({"readings_mm": ()}, "each greater than the last"),
        ({"reading_tolerances_um": (20.0, 20.0)}, "each greater than the last"),
        ({"readings_mm": (0.0, 0.5)}, "nothing would be judged"),
        ({"friction": 0.1}, "Unexpected keyword"),
    ],
)
def test_settings_out_of_range_are_refused(given, message):
    """Ranges, order, unknown keys: the message says which."""
    with pytest.raises(ValidationError, match=message):
        JudgingSettings(**given)


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"teeth": ()}, "at least 1"),
        ({"teeth": (16, 16)}, "named twice"),
        ({"teeth": (16, 15), "abutments": (15,)}, "named twice"),
        ({"teeth": (16, 46)}, "both arches"),
        ({"teeth": (19,)}, "not a tooth number of ISO 3950"),
        ({"teeth": (16,), "scheme": "canine"}, "contacts only in MI"),
    ],
)
def test_bases_that_make_no_sense_are_refused(given, message):
    """Teeth of one arch, each once, real numbers, a known scheme."""
    with pytest.raises(ValidationError, match=message):
        DentureBase(name="base", **given)
    text = '{"name": "base", "teeth": [15, 16], "abutments": [14]}'
    assert TypeAdapter(DentureBase).validate_json(text, strict=True).teeth == (15, 16)


def test_every_setting_has_a_source_until_it_is_changed():
    """A default says where it comes from; a changed value is the case's own."""
    assert set(DEFAULT_SOURCES) == set(SETTINGS.__dataclass_fields__)
    assert "Utz" in source_of(SETTINGS, "record_scatter_mm")
    changed = replace(SETTINGS, record_scatter_mm=0.3)
    assert source_of(changed, "record_scatter_mm") == "set for this case"


def test_published_figures_stand_in_the_words_as_they_were_read():
    """Reproducibility, over-eruption, scatter of records and tolerance, against their sources."""
    found = PUBLISHED["reproducibility"]
    low, high = found["false_contacts_percent"]
    for text in (
        f"{found['protrusive_percent']} % of the teeth that touch in protrusion",
        f"{found['lateral_percent']} % of those",
        f"{low} to {high} % of people",
        found["source"],
    ):
        assert text in REPRODUCIBILITY
    none, little, much = PUBLISHED["over_eruption"]["share_percent"]
    for text in (f"{none} % had not", f"{little} % by less", f"{much} % by 2 mm or more"):
        assert text in OVER_ERUPTION_SOURCE
    assert none + little + much == 100
    low, high = PUBLISHED["record_scatter"]["between_materials_mm"]
    assert f"{low} to {high} mm between materials" in DEFAULT_SOURCES["record_scatter_mm"]
    assert 1e3 * SETTINGS.tolerance_mm == pytest.approx(PUBLISHED["interference"]["open_um"])


def test_a_scheme_that_is_not_reached_is_told():
    """Canine guidance is not the group or the balance aimed at; where it is aimed at, it is."""
    sweep, casts = made({(13, 43): 0.0 * TRAVEL}), mouth()
    assert scheme_finding(occlusion(casts), sweep) is None
    for scheme, name in (("group", "group function"), ("balanced", "balanced articulation")):
        found = scheme_finding(occlusion(casts, scheme=scheme), sweep)
        assert (found.kind, found.severity) == ("scheme not reached", "attention")
        assert f"{name} was aimed at" in found.text
        assert found.text.endswith("the guidance found is: canine.")
