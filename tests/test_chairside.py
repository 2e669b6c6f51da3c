"""The check list for the chair: every mark to expect, where, and what a difference means."""

import re
from dataclasses import replace
from types import SimpleNamespace

import pytest

from kinematics.planning.judging import JudgingSettings
from kinematics.planning.stops import strip_readings
from kinematics.planning.tooth_regions import CUSPS
from scenes.chairside import checklist
from tests.made_raised import made_raised
from tests.shipped_cases import shipped

SETTINGS = JudgingSettings()


def groups_of(checkup, judging=SETTINGS):
    """Return the groups of a check list by title."""
    return {group.title: group for group in checklist(checkup, judging).groups}


def test_the_order_is_that_of_the_work(example):
    """MI, both lateral excursions, protrusion and what lies between, CR last."""
    assert list(groups_of(example)) == [
        "Maximal intercuspation (MI)",
        "Shim strip in MI",
        "Right lateral excursion",
        "Left lateral excursion",
        "Protrusion",
        "Lateroprotrusion 45° to the right",
        "Centric relation (CR)",
    ]
    steps = checklist(example, SETTINGS).sequence
    order = [steps.index(step) for word in ("MI first", "Lateral", "Protrusion", "Last CR")
             for step in steps if word in step]  # fmt: skip
    assert order == sorted(order) and len(order) == 4
    assert "foil of the first colour, 20 µm" in steps[0]


def test_rows_name_pair_side_and_travel(example):
    """A nonworking contact is named as such, with its travel; guiding pairs blame the settings."""
    left = groups_of(example)["Left lateral excursion"]
    assert left.note == "left side working, until edge-to-edge at 3.4 mm"
    rows = {row.teeth: row for row in left.rows}
    assert list(rows) == ["16/46", "23/33", "24/34"]
    assert rows["16/46"].detail == "nonworking, 0.5 to 2.5 mm"
    assert rows["16/46"].differs.startswith("on the casts only")
    assert rows["23/33"].differs.startswith("settings in doubt")
    assert left.unmarked == "17, 15 to 22, 25 to 27, 47, 45 to 32, 35 to 37"


def test_every_difference_is_explained_once_and_forbids_cutting(example):
    """Each row's word stands in the key, and the key has no word that no row uses."""
    told = checklist(example, SETTINGS)
    used = {row.differs for group in told.groups for row in group.rows} | {told.extra}
    assert used == {short for short, _ in told.meaning}
    assert all(short.endswith("do not cut") for short in used)


def test_marks_without_a_stop_are_explained_by_the_foil(example):
    """Pairs nearer than the foil is thick are marked; they are named, and only they."""
    mi = groups_of(example)["Maximal intercuspation (MI)"]
    stops = {f"{stop.tooth_upper}/{stop.tooth_lower}" for stop in example.stops}
    bare = [row.teeth for row in mi.rows if row.teeth not in stops]
    told = re.findall(r"[1-4][1-8]/[1-4][1-8]", mi.remark)
    assert bare and told == bare
    assert "the gap is smaller than the foil is thick (20 µm)" in mi.remark
    only = {(stop.tooth_upper, stop.tooth_lower): stop for stop in example.stops}
    first = next(iter(only.values()))
    pairs = [tuple(map(int, row.teeth.split("/"))) for row in mi.rows]
    every = tuple(replace(first, tooth_upper=a, tooth_lower=b) for a, b in pairs)
    assert groups_of(replace(example, stops=every))["Maximal intercuspation (MI)"].remark == ""


def test_the_strip_has_its_lines(example):
    """Each upper tooth stands in one of them, as the shim strip reads it in MI."""
    strip = groups_of(example)["Shim strip in MI"]
    readings = strip_readings(example.sweeps[0])
    words = {"strip held": "holds", "strip drags": "drags", "strip slips": "free"}
    assert {words[row.teeth] for row in strip.rows} == set(readings.values())
    for row in strip.rows:
        ends = re.findall(r"\d\d", row.upper)
        assert {readings[int(code)] for code in ends} == {words[row.teeth]}


def test_a_missing_contact_that_balance_wants_means_balance_lost(example):
    """Of back teeth, in a balanced articulation and at a balanced base; told only there."""
    lost = "balance lost there: do not cut"
    left = groups_of(example, JudgingSettings(scheme="balanced"))["Left lateral excursion"]
    means = {row.teeth: row.differs for row in left.rows}
    assert means["16/46"] == means["24/34"] == lost
    assert means["23/33"].startswith("settings in doubt")
    contact = replace(
        example.replacement[0], tooth=16, opponent=46, excursion="left lateral",
        scheme="balanced", standing="allowed by its scheme",
    )  # fmt: skip
    base = replace(example, replacement=(contact,))
    means = {row.teeth: row.differs for row in groups_of(base)["Left lateral excursion"].rows}
    assert means["16/46"] == lost and means["24/34"].startswith("on the casts only")
    told = dict(checklist(base, SETTINGS).meaning)
    assert "may tip" in told[lost] and lost not in dict(checklist(example, SETTINGS).meaning)
    against = replace(contact, standing="against its scheme")
    rows = groups_of(replace(example, replacement=(against,)))["Left lateral excursion"].rows
    assert lost not in {row.differs for row in rows}


def test_foil_is_as_thick_as_the_tolerance_and_of_another_colour_in_excursions(example):
    """First colour in MI and CR, second in excursions; 20 µm where that is the tolerance."""
    for title, group in groups_of(example).items():
        if title == "Shim strip in MI":
            continue
        colour = "first" if title.endswith(("(MI)", "(CR)")) else "second"
        assert group.foil.startswith(f"foil 20 µm, {colour} colour")
    thick = replace(example, sweeps=tuple(replace(s, tolerance_mm=0.04) for s in example.sweeps))
    foils = {group.foil.split(",")[0] for group in groups_of(thick).values()}
    assert foils == {"foil 40 µm", "strip 8 µm"}


def test_without_a_slide_cr_is_not_listed(example):
    """Where CR is MI its marks are those of MI."""
    still = replace(example, slide=replace(example.slide, kind="none"))
    assert "Centric relation (CR)" not in groups_of(still)
    assert checklist(still, SETTINGS).sequence[-1].endswith("it closes into the marks of MI.")
    assert checklist(example, SETTINGS).sequence[-1].endswith("until the first touch.")
    assert "slides 0.69 mm to MI" in groups_of(example)["Centric relation (CR)"].note


def test_a_bite_that_is_to_be_raised_is_compared_as_it_is(example):
    """The first step says to which bite the marks belong."""
    raised = checklist(replace(example, raised=made_raised()), SETTINGS)
    assert raised.sequence[0].startswith("All marks are those of the present bite")
    assert raised.sequence[1:] == checklist(example, SETTINGS).sequence


@pytest.mark.parametrize("code", [16, 46, 15, 27])
def test_places_on_guessed_cusps_are_marked(code):
    """Those on a guessed cusp of the tooth, and no other; what the mark means is told once."""
    example = shipped("natural_dentition")
    cusps = (example.upper if code < 30 else example.lower).tooth(code).cusp_tips
    plain = checklist(example, SETTINGS)
    none = checklist(replace(example, scans=SimpleNamespace(guessed={})), SETTINGS)
    assert plain == none and plain.guessed == ""
    in_all = 0
    for name in set(cusps) & set(CUSPS):
        scans = SimpleNamespace(guessed={code: (name,)})
        told = checklist(replace(example, scans=scans), SETTINGS)
        marked = 0
        for before, after in zip(plain.groups, told.groups, strict=True):
            for old, new in zip(before.rows, after.rows, strict=True):
                assert (new.upper + new.lower).replace(" (guessed)", "") == old.upper + old.lower
                side = new.upper if code < 30 else new.lower
                own = str(code) in new.teeth.split("/")
                wanted = len(re.findall(rf"the {CUSPS[name]} cusp\b", side)) if own else 0
                assert (new.upper + new.lower).count(" (guessed)") == wanted
                marked += wanted
        assert bool(marked) == told.guessed.startswith("(guessed): no separate top")
        in_all += marked
    assert in_all > 0


def test_nothing_to_compare_is_a_list_without_lines(example):
    """No excursion, no group; the sequence stays."""
    empty = checklist(replace(example, sweeps=()), SETTINGS)
    assert empty.groups == ()
    assert len(empty.sequence) == 6
