"""Findings that differ in teeth and numbers only become rows, and no number of theirs is lost."""

from dataclasses import replace

import pytest

from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.findings import Figure, Finding
from kinematics.planning.wording import excursion_words
from scenes.alike_findings import alike, alike_table
from scenes.builtin_cases import builtin_case
from scenes.case_words import case_words
from scenes.phrases import figure, number
from scenes.report import html_report
from scenes.share_words import shown_at
from tests.shipped_cases import shipped_in_full
from tests.test_report import Page

EXCURSIONS = ("left lateral excursion", "left lateral excursion from CR", "protrusion")
NOT_STUDIED = shown_at((), None)
TITLES = {"left lateral": "Left lateral excursion", "protrusion": "Protrusion"}


def near(upper, lower, gap, excursion="left lateral", at=2.3, more=""):
    """Return a near miss as the report gets it."""
    lengths = f"{1000.0 * gap:.0f} µm" if gap < 0.1 else f"{gap:.2f} mm"
    name = "protrusion" if excursion == "protrusion" else "left lateral excursion"
    return Finding(
        "replacement tooth comes near",
        "attention",
        f"In {name} {upper} comes within {lengths} of {lower} from 0.9 to 3.0 mm{more}.",
        excursion,
        0.9,
        3.0,
        upper,
        lower,
        (49.2, -23.2, -34.3),
        (
            Figure(f"least distance at {at:.1f} mm", gap, "mm"),
            Figure(f"lever to abutment {upper - 3} at {at:.1f} mm", 27.97, "mm"),
            Figure(f"across per N along it at {at:.1f} mm", 0.37, "N/N"),
        ),
        Figure("approach margin", 0.2, "mm"),
        "chosen",
        Figure("below the threshold", 0.2 - gap, "mm"),
        f"at {at:.1f} mm 13 on 43 carries the jaw",
    )


def test_of_three_alike_one_is_told_and_two_become_rows():
    """The first stays; a length in µm and one in mm are alike, and so are two excursions."""
    findings = (near(17, 47, 0.076), near(16, 46, 0.11), near(15, 45, 0.13, "protrusion"))
    (found,) = alike(findings, EXCURSIONS)
    assert found.told == findings[0]
    assert found.others == findings[1:]


def test_two_alike_are_both_told():
    """A table of one row would take no less room than the card."""
    findings = near(17, 47, 0.076), near(16, 46, 0.11)
    assert [(item.told, item.others) for item in alike(findings, EXCURSIONS)] == [
        (findings[0], ()),
        (findings[1], ()),
    ]


@pytest.mark.parametrize(
    "change",
    [
        {"text": "In left lateral excursion 16 comes within 0.11 mm of 46, and rubs."},
        {"text": "In left lateral excursion 16 comes within 0.12 mm of 46 from 0.9 to 3.0 mm."},
        {"text": "In left lateral excursion 16 comes within 0.11 mm of 46 from 0.8 to 3.0 mm."},
        {"threshold_source": "somebody else"},
        {"determined": False},
    ],
)
def test_what_a_row_could_not_hold_is_told_in_full(change):
    """Other words, another limit, or a number that stands in no figure."""
    other = replace(near(16, 46, 0.11), **change)
    found = alike((near(17, 47, 0.076), other, near(15, 45, 0.12), near(14, 44, 0.13)), EXCURSIONS)
    assert [item.told.tooth_upper for item in found] == [17, 16]
    assert [row.tooth_upper for row in found[0].others] == [15, 14]


def test_a_number_that_all_share_may_stand_in_the_one_told_in_full():
    """Here the number of a base: the same in every text, in no figure."""
    findings = [near(code, code + 30, 0.1, more=" from base 7") for code in (17, 16, 15)]
    assert len(alike(findings, EXCURSIONS)) == 1
    findings[1] = near(16, 46, 0.1, more=" from base 8")
    assert len(alike(findings, EXCURSIONS)) == 3


def test_a_row_holds_teeth_figures_units_and_where_they_were_read():
    """One reading position has a column of its own; two stand beside their figures."""
    findings = near(17, 47, 0.076), near(16, 46, 0.11, "protrusion", 1.2)
    table = alike_table(findings, TITLES, NOT_STUDIED)
    assert table.head[:6] == (
        "teeth",
        "excursion, travel",
        "read at",
        "least distance",
        "lever to abutment",
        "across per N along it",
    )
    assert table.rows[1] == (
        "▲ 16/46",
        "Protrusion, 0.9 to 3.0 mm",
        "1.2 mm",
        "0.11 mm",
        "27.97 mm, 13",
        "0.37 N",
        "90 µm below the threshold",
        "13 on 43 carries the jaw",
        "49.2, −23.2, −34.3",
    )
    figures = (*findings[0].figures, Figure("height at 2.9 mm", 0.05, "mm"))
    both = alike_table((replace(findings[0], figures=figures),), TITLES, NOT_STUDIED)
    assert "read at" not in both.head
    assert "76 µm, at 2.3 mm" in both.rows[0] and "50 µm, at 2.9 mm" in both.rows[0]
    assert "at 2.3 mm 13 on 43 carries the jaw" in both.rows[0]


def test_a_group_begins_with_its_worst():
    """The nearest of near misses, the steepest of stops off the axis."""
    (group,) = finding_groups((near(17, 47, 0.13), near(17, 47, 0.03), near(17, 47, 0.1)))
    assert [item.figures[0].value for item in group.findings] == [0.03, 0.1, 0.13]
    off = [
        Finding(
            "stops off the axis",
            "attention",
            "Aside.",
            tooth_upper=code,
            figures=(Figure("least angle of the stops to the long axis", angle, "deg"),),
        )
        for code, angle in ((15, 7.0), (16, 9.0), (17, 8.0))
    ]
    (group,) = finding_groups(off)
    assert [item.tooth_upper for item in group.findings] == [16, 17, 15]
    assert group.teeth == (15, 16, 17)


@pytest.mark.parametrize(
    ("name", "least_rows"), [("upper_distal_extension", 5), ("lower_distal_extension", 0)]
)
def test_no_figure_of_a_shipped_case_is_lost(name, least_rows):
    """Told or a row: every finding's figures, margin, runner-up and place are in the page."""
    result, case = shipped_in_full(name), builtin_case(name)
    text = Page(html_report(result, case_words(case))).text
    excursions = [excursion_words(sweep.excursion) for sweep in result.sweeps]
    rows = 0
    for group in finding_groups(result.findings, case.denture_bases):
        for item in alike(group.findings, excursions):
            assert item.told.text in text
            rows += len(item.others)
            for other in item.others:
                for value in (*other.figures, other.margin):
                    shown = figure(value).removesuffix(" across per N along")
                    assert shown in text, (other.text, value)
                assert other.runner_up.partition(" mm ")[2] in text
                if other.place:
                    assert ", ".join(number(value, 1) for value in other.place) in text
    assert rows >= least_rows
