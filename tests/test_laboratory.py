"""The page for the laboratory: settings with units, schemes, height, stops, what to remove."""

from dataclasses import replace

import pytest

from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.planning.denture_parts import Rest
from kinematics.planning.findings import Finding
from kinematics.planning.guidance_stretches import Stretch
from kinematics.planning.joined_teeth import Bridge, Splint
from kinematics.planning.judging import DentureBase, JudgingSettings
from scenes.laboratory import laboratory_page
from scenes.setting_tables import NOT_GIVEN, SettingRow
from tests.made_raised import made_raised

BASE = DentureBase(name="upper right base", teeth=(15, 16, 17), abutments=(14,))
JUDGING = JudgingSettings(scheme="group")
ROWS = (
    SettingRow("case", "lateroprotrusion azimuths", "45", "°"),
    SettingRow("guidance", "intercondylar distance", "104", "mm"),
    SettingRow("guidance", "incisal table", NOT_GIVEN, ""),
    SettingRow("guidance, right", "condylar inclination", "35", "°"),
    SettingRow("guidance, left", "condylar inclination", "37", "°"),
    SettingRow("maximal intercuspation", "advance right", "0.3", "mm"),
    SettingRow("judging", "tolerance", "0.02", "mm"),
)


def page_of(checkup, bases=(BASE,), judging=JUDGING):
    """Return the page of a checkup with a base of the upper right."""
    return laboratory_page(checkup, judging, bases, ROWS)


def test_only_what_is_set_on_an_articulator(example):
    """Guidance and MI with units, both sides in one table; no judging, nothing without a value."""
    tables = {table.head: table.rows for table in page_of(example).settings}
    assert tables == {
        ("guidance",): (("intercondylar distance", "104 mm"),),
        ("guidance", "right", "left"): (("condylar inclination", "35°", "37°"),),
        ("maximal intercuspation",): (("advance right", "0.3 mm"),),
    }


def test_schemes_of_teeth_and_bases(example):
    """Each base its own; without a base only that of the natural teeth."""
    page = page_of(example)
    assert page.schemes == (
        ("natural teeth", "group function"),
        ("upper right base", "contacts only in MI"),
    )
    assert page.bases == ("upper right base: replacement teeth 15, 16 and 17; abutment 14",)
    lone = DentureBase(name="full", teeth=(47,))
    assert page_of(example, (lone,)).bases == ("full: replacement tooth 47; no abutment",)
    rests = (Rest(14, "mesial"), Rest(24, "distal"))
    held = replace(BASE, rests=rests, guide_planes=(14,), connector="palatal strap")
    assert page_of(example, (held,)).bases == (
        "upper right base: replacement teeth 15, 16 and 17; abutment 14; rests on 14 mesial and "
        "24 distal; guide plane on 14; palatal strap",
    )


def test_bridges_and_splints_are_told(example):
    """Pontics with their abutments, joined teeth by number; pontics have their stops listed."""
    joined = (
        Bridge("upper right bridge", pontics=(16,), abutments=(15, 17)),
        Splint("lower molars", (36, 37)),
    )
    page = laboratory_page(example, JUDGING, (), ROWS, joined)
    assert page.bases == ()
    assert page.joined == (
        "upper right bridge (bridge): pontic 16; abutments 15 and 17",
        "lower molars (splint): 36 and 37 joined",
    )
    assert {row[0] for row in page.stops.rows} == {"16"}


def test_stops_wanted_on_replacement_teeth(example):
    """Every stop of theirs once, with its place on both teeth; the others count as natural."""
    page = page_of(example)
    assert [(row[0], row[2]) for row in page.stops.rows] == [
        (str(code), str(code + 30)) for code in (15, 16, 17) for _ in range(3)
    ]
    assert all(row[1] and row[3] for row in page.stops.rows)
    assert page.natural_stops.startswith("All 15 stops between natural teeth stay")
    none = page_of(replace(example, stops=()))
    assert none.stops.rows == ()
    assert none.natural_stops == "Natural teeth have no stop among themselves."


@pytest.mark.parametrize(
    ("opening_rad", "words"),
    [
        (0.0, "Kept: MI closes to the height"),
        (0.01, "Opened by 0.90 mm at the lower incisal point"),
        (-0.01, "Closed by 0.90 mm at the lower incisal point"),
    ],
)
def test_the_vertical_dimension(example, opening_rad, words):
    """Kept, opened or closed, and by which stops it is held."""
    there = replace(example, mi=GuidanceCoordinates(0.6, 0.6, 0.0, opening_rad))
    height = page_of(there).height
    assert height.startswith(words)
    assert "with 15 stops; the 9 stops of replacement teeth must not raise it" in height
    assert "ask before the work goes on" in height or opening_rad == 0.0


def test_a_raised_bite_is_the_height_to_work_at(example):
    """By how much, where it is read, and what holds the jaw: the pin, or teeth before it."""
    height = page_of(replace(example, raised=made_raised())).height
    assert height.startswith(
        "Opened by 3.00 mm on the incisal pin, read at the lower incisal point"
    )
    assert "The pin holds the jaw; 17/47 would touch first." in height
    short = page_of(replace(example, raised=made_raised(pin_holds=False, raised_mm=3.4))).height
    assert "17/47 touches first and holds the jaw 3.40 mm open from MI" in short
    assert "MI is void" in height and "MI is void" in short


def test_what_holds_the_vertical_dimension(example):
    """Natural teeth alone, replacement teeth alone with the gap of the others, or nothing."""
    closed = replace(example, mi=GuidanceCoordinates(0.6, 0.6, 0.0, 0.0))
    assert page_of(closed, ()).height.endswith("Natural teeth hold it with 24 stops.")
    full = DentureBase(name="full", teeth=(17, 16, 15, 14, 24, 25, 26, 27))
    assert "Replacement teeth alone hold it" in page_of(closed, (full,)).height
    assert "apart." in page_of(closed, (full,)).height
    assert "No centric stop holds it" in page_of(replace(closed, stops=())).height


def test_contacts_to_remove_to_clear_and_to_keep(example):
    """By the scheme of the base; what ends next to MI is left out; natural teeth stay uncut."""
    touch, near = example.replacement
    kept = replace(touch, tooth=15, standing="allowed by its scheme", height_mm=float("inf"))
    start = replace(touch, tooth=15, standing="near MI only", excursion="protrusion")
    page = page_of(replace(example, replacement=(near, touch, kept, start)))
    assert page.contacts.rows == (
        ("15 and 46", "Left lateral excursion", "0.5 to 2.5 mm", "nothing else meets",
         "keep: its scheme allows it"),
        ("16 and 46", "Left lateral excursion", "0.5 to 2.5 mm", "30 µm",
         "take this contact off: grind or reset 16 in the set-up, keeping its stops of MI"),
        ("17 and 47", "Protrusion", "0.7 to 1.1 mm", "nothing: 0.12 mm clear",
         "clear 17 to more than 0.20 mm, keeping its stops of MI"),
        ("27 and 37", "Right lateral excursion", "0.6 to 1.4 mm", "nothing",
         "leave uncut: natural teeth are adjusted in the mouth alone"),
    )  # fmt: skip


def test_only_what_lies_beyond_the_start_is_to_be_cleared(example):
    """A gap that opens from a stop cannot be wide at once: the near-MI length is left out."""
    _, near = example.replacement
    early = replace(near, travel_from_mm=0.1, travel_to_mm=1.1)
    page = page_of(replace(example, replacement=(early,), findings=()))
    assert [row[2] for row in page.contacts.rows] == ["0.5 to 1.1 mm"]


def test_what_the_findings_say_against_a_stop_is_asked(example):
    """Stops off the axis and a first contact in CR of replacement teeth; notes ask nothing."""
    aside = Finding("stops off the axis", "attention", "Aside.", tooth_upper=16)
    first = Finding("deflective contact", "attention", "First.", tooth_upper=17, tooth_lower=47)
    page = page_of(replace(example, findings=(aside, first)))
    assert len(page.ask) == 2
    assert page.ask[0].startswith("The stops of 16 push off the long axis")
    assert page.ask[1].startswith("In centric relation 17 meets first")
    quiet = tuple(replace(finding, severity="note") for finding in (aside, first))
    assert page_of(replace(example, findings=quiet)).ask == ()


def test_contacts_to_keep_are_told_by_excursion(example):
    """Each pair once with its travel, also where both its teeth stand on bases."""
    touch = replace(example.replacement[0], standing="allowed by its scheme")
    other = replace(touch, tooth=46, opponent=16)
    third = replace(touch, tooth=17, opponent=47, height_mm=0.05, travel_to_mm=1.5)
    page = page_of(replace(example, replacement=(touch, other, third), findings=()))
    assert page.contacts.rows == (
        ("2 pairs", "Left lateral excursion", "16/46 (0.5 to 2.5 mm), 17/47 (0.5 to 1.5 mm)",
         "at most 50 µm", "keep: its scheme allows it"),
    )  # fmt: skip


def test_natural_guidance_is_kept(example):
    """Guiding natural pairs with their travel; replacement teeth are not among them."""
    guiding = (Stretch(0.6, 3.3, "canine", ((23, 33), (16, 46)), ((23, 33), (16, 46))),)
    verdicts = tuple(
        replace(v, stretches=guiding if v.excursion == "left lateral" else ())
        for v in example.verdicts
    )
    page = page_of(replace(example, verdicts=verdicts))
    assert page.guides.rows == (("Left lateral excursion", "23/33 (0.0 to 3.3 mm)"),)
    assert page_of(example).guides.rows == ()


def test_what_to_send_back(example):
    """The set-up only where there is one."""
    assert page_of(example).send_back[0].startswith("the trial set-up")
    assert not any("set-up" in line for line in page_of(example, ()).send_back)
