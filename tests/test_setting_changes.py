"""What was changed of a case, in words, as report and case file tell it."""

from dataclasses import replace

import pytest

from kinematics.case import Case
from kinematics.case_changes import changed_case
from kinematics.trial.settings import Change
from scenes.builtin_cases import builtin_case
from scenes.case_words import case_words, setting_changes
from scenes.report import html_report
from tests.test_report import Page

BOTH = {f"guidance.{side}.condylar_inclination_deg": 45.0 for side in ("right", "left")}


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({}, []),
        (BOTH, ["guidance, right and left: condylar inclination 45° (before: 35°)"]),
        (
            {**BOTH, "guidance.left.condylar_inclination_deg": 30.0},
            [
                "guidance, right: condylar inclination 45° (before: 35°)",
                "guidance, left: condylar inclination 30° (before: 35°)",
            ],
        ),
        ({"pin_opening_mm": 2.0}, ["pin opening 2 mm (before: 0 mm)"]),
        (
            {
                "guidance.right.bennett_angle_deg": 12.0,
                "guidance.right.progressive_shift_deg": None,
            },
            [
                "guidance, right: progressive shift not given (before: 9°)",
                "guidance, right: Bennett angle 12° (before: not given)",
            ],
        ),
        ({"judging.tolerance_mm": 0.03}, ["judging: tolerance 30 µm (before: 20 µm)"]),
        ({"title": "Another", "note": "Told by the head of the report."}, []),
    ],
)
def test_changes_are_told_with_both_values(changes, told):
    """With units; what is the same on both sides once; nothing of what heads the report."""
    before = builtin_case()
    assert [item.text for item in setting_changes(changed_case(before, changes), before)] == told


def test_a_table_put_in_and_taken_out():
    """Its settings are told when it comes; when it goes, that it has gone."""
    without = changed_case(Case(), {"guidance.incisal_table": False})
    with_table = changed_case(Case(), {"guidance.incisal_table": True})
    put_in = [item.text for item in setting_changes(with_table, without)]
    assert all(text.startswith("guidance, incisal table: ") for text in put_in)
    assert all(text.endswith("(before: not given)") for text in put_in)
    [taken_out] = setting_changes(without, with_table)
    assert taken_out.text == "guidance: incisal table not given (before: given)"


def test_a_trial_set_up_is_told_by_teeth():
    """All that is done to a tooth in one entry, before and now; else the order, if that differs."""
    lower, again = Change("lower", 46, by_mm=1.2), Change("lower", 46, by_mm=0.1)
    tilt, crown = Change("tilt", 33, mesial_deg=4.0), Change("crown", 16)
    case = builtin_case("lowered_46")
    with_changes = [replace(case, change=made) for made in ((lower, crown), (lower, tilt, again))]
    assert [item.text for item in setting_changes(with_changes[1], with_changes[0])] == [
        "trial set-up: 46 lowered by 1.2 mm, then lowered by 0.1 mm (before: lowered by 1.2 mm)",
        "trial set-up: 33 tilted 4 degrees mesially (before: unchanged)",
        "trial set-up: 16 unchanged (before: given a crown)",
    ]
    turned = replace(case, change=(tilt, lower, again))
    assert [item.text for item in setting_changes(turned, with_changes[1])] == [
        "trial set-up: order 33, 46, 46 (before: 46, 33, 46)"
    ]
    taken_back = setting_changes(replace(case, change=()), with_changes[0])
    assert [item.now for item in taken_back] == ["unchanged", "unchanged"]
    assert setting_changes(turned, turned) == ()


def test_the_first_page_names_some_changes_and_the_settings_all(example):
    """Beside the title, before anything that was found; nothing where nothing was changed."""
    before = builtin_case()
    many = {
        "pin_opening_mm": 2.0,
        "judging.scheme": "group",
        **{f"dentition.{name}_mm": 2.5 for name in ("overbite", "overjet")},
        **{f"guidance.{side}.fischer_deg": 3.0 for side in ("right", "left")},
        **{f"guidance.{side}.immediate_shift_mm": 0.4 for side in ("right", "left")},
        **BOTH,
        "guidance.intercondylar_distance_mm": 100.0,
        "judging.near_mi_mm": 0.4,
        "judging.record_scatter_mm": 0.2,
    }
    case = changed_case(before, many)
    page = Page(html_report(example, case_words(case, before)))
    top = page.text.partition("What is wrong")[0]
    told = [item.text for item in setting_changes(case, before)]
    assert len(told) == 10
    assert f"10 settings are changed against “{before.title}”: {'; '.join(told[:8])}" in top
    assert "and 2 more, under Settings ." in top
    table = page.text.partition("changed setting now before")[2]
    assert all(item.named in table for item in setting_changes(case, before))
    for unchanged in (case_words(case), case_words(before, before)):
        assert "changed against" not in Page(html_report(example, unchanged)).text
