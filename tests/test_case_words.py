"""Settings in the words of the report: all of them, with units, as the run uses them."""

import dataclasses
from dataclasses import replace

import pytest

from kinematics.case import Case
from kinematics.case_file import parse_case
from scenes.builtin_cases import builtin_case
from scenes.case_words import case_words


def _leaves(settings):
    """Count the settings that are not tables of settings; rests of a base are told in one row."""
    count = 0
    for field in dataclasses.fields(settings):
        value = getattr(settings, field.name)
        inner = value if isinstance(value, tuple) else (value,)
        if field.name == "rests":
            count += 1
        elif inner and all(dataclasses.is_dataclass(item) for item in inner):
            count += sum(_leaves(item) for item in inner)
        else:
            count += 1
    return count


def _row(words, group, name):
    (row,) = [row for row in words.settings if (row.group, row.name) == (group, name)]
    return row.value, row.unit


def test_every_setting_has_its_row():
    """Nothing that a case file can say is left out but title and note, which head the report."""
    case = builtin_case()
    words = case_words(case)
    radii = 2  # of straight paths
    assert len(words.settings) == _leaves(case) - 2 - radii
    assert len({(row.group, row.name) for row in words.settings}) == len(words.settings)
    assert (words.title, words.note) == (case.title, case.note)
    assert words.replacement_teeth == (15, 16, 17)
    rests = "14 mesial, 13 cingulum, 24 mesial, 26 mesial"
    assert _row(words, "denture base 1", "rests") == (rests, "")
    assert _row(words, "denture base 1, ridge", "mucosa modulus") == ("1", "MPa")
    assert _row(words, "tooth condition 1", "bone support") == ("80", "%")


def test_exact_records_are_a_caution():
    """Where no scatter is set nothing can be marked as undetermined, and the report says so."""
    assert any("taken as exact" in line for line in case_words(builtin_case()).cautions)
    scattered = parse_case("[judging]\nrecord_scatter_mm = 0.3\n", "c.toml")
    assert not any("taken as exact" in line for line in case_words(scattered).cautions)


def test_rows_of_a_group_stand_together():
    """A group is not taken up again further down."""
    groups = [row.group for row in case_words(builtin_case()).settings]
    changes = [a for a, b in zip([None, *groups], groups, strict=False) if a != b]
    assert len(changes) == len(set(groups))


def test_units_are_shown_beside_the_value_not_in_the_name():
    """Degrees, mm and micrometres; a true minus sign; tables with their teeth."""
    text = """
        lateroprotrusion_azimuths_deg = [-30, 45]
        dentition.over_erupted_mm = {46 = 1.2}
        guidance.reference_plane = "Camper"
    """
    words = case_words(parse_case(text, "c.toml"))
    assert _row(words, "case", "lateroprotrusion azimuths") == ("−30, 45", "°")
    assert _row(words, "dentition", "over erupted") == ("46: 1.2", "mm")
    assert _row(words, "judging", "reading tolerances") == ("8, 20, 40, 100", "µm")
    assert words.reference_plane == "Camper plane"
    assert not any(row.name.endswith((" deg", " mm", " um")) for row in words.settings)


def test_one_unit_for_one_kind_of_quantity():
    """Tolerances and lengths below 0.1 mm stand in micrometres, as in all else; nothing is 0 mm."""
    text = """
        judging.tolerance_mm = 0.025
        judging.stop_tolerance_mm = 0.1
        judging.approach_margin_mm = 0.05
        judging.record_scatter_mm = 0.3
        maximal_intercuspation.shift_mm = -0.04
        guidance.right.immediate_shift_mm = 0.5
        guidance.left.immediate_shift_mm = 0.5
    """
    words = case_words(parse_case(text, "c.toml"))
    assert _row(words, "judging", "tolerance") == ("25", "µm")
    assert _row(words, "judging", "stop tolerance") == ("100", "µm")
    assert _row(words, "judging", "balanced tolerance") == ("100", "µm")
    assert _row(words, "judging", "approach margin") == ("50", "µm")
    assert _row(words, "judging", "record scatter") == ("0.3", "mm")
    assert _row(words, "maximal intercuspation", "shift") == ("−40", "µm")
    assert _row(words, "maximal intercuspation", "advance right") == ("0.3", "mm")
    assert _row(case_words(Case()), "maximal intercuspation", "shift") == ("0", "mm")


def test_what_is_not_given_says_what_is_used_instead():
    """The default progressive shift is shown in degrees; a Bennett angle takes its place."""
    assert _row(case_words(Case()), "guidance, right", "progressive shift") == ("9", "°")
    other = parse_case("guidance.right.bennett_angle_deg = 12", "c.toml")
    assert _row(case_words(other), "guidance, right", "progressive shift") == ("not given", "")
    assert _row(case_words(other), "guidance, right", "Bennett angle") == ("12", "°")


def test_the_radius_of_a_path_is_shown_where_it_is_curved():
    """A straight path has no eminence radius to tell."""
    shown = [
        (row.group, row.value)
        for row in case_words(parse_case("guidance.left.path = 'curved'", "c.toml")).settings
        if row.name == "eminence radius"
    ]
    assert shown == [("guidance, left", "19")]


def test_a_natural_dentition_has_no_replacement_teeth_and_no_slide():
    """The second built-in case is the plain dentition, MI in CR, and says that it is invented."""
    case = builtin_case("natural_dentition")
    words = case_words(case)
    assert words.replacement_teeth == ()
    assert _row(words, "maximal intercuspation", "advance right") == ("0", "mm")
    assert _row(words, "dentition", "over erupted") == ("not given", "")
    assert words.note.startswith("Invented")


@pytest.mark.parametrize(("inclination", "cautioned"), [(0.6, True), (20.0, False), (70.0, True)])
def test_an_inclination_that_nobody_has_is_cautioned(inclination, cautioned):
    """Radians for degrees, or a slip of the pen; the side is named."""
    case = builtin_case()
    right = replace(case.guidance.right, condylar_inclination_deg=inclination)
    words = case_words(replace(case, guidance=replace(case.guidance, right=right)))
    found = [line for line in words.cautions if "Check the record and the unit" in line]
    assert bool(found) == cautioned
    assert not cautioned or "right side" in found[0]
