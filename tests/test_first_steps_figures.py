"""The steps that the page offers first tell figures: those of the case as it is delivered."""

from pathlib import Path

import pytest

from kinematics.case_changes import changed_case
from scenes.builtin_cases import builtin_case
from tests.shipped_cases import run_case

WORDS = Path(__file__).parents[1] / "scenes" / "page" / "src" / "first_steps.js"
README = Path(__file__).parents[1] / "README.md"


def rubbing(**changes):
    """Return from where to where each replacement tooth rubs to the left, mm, by teeth."""
    named = {f"guidance.right.{name}": value for name, value in changes.items()}
    result = run_case(changed_case(builtin_case(), named))
    return {
        (found.tooth, found.opponent): (found.travel_from_mm, found.travel_to_mm)
        for found in result.replacement
        if found.touches and found.excursion == "left lateral" and found.severity == "serious"
    }


@pytest.mark.parametrize("told_in", [WORDS, README], ids=["page", "README"])
def test_the_fault_is_where_the_first_step_says(told_in):
    """15 on 46, and nothing else."""
    (((tooth, opponent), (begin, end)),) = rubbing().items()
    assert (tooth, opponent) == (15, 46)
    assert f"from {begin:.1f} to {end:.1f} mm" in told_in.read_text(encoding="utf-8")


def test_a_steeper_guide_frees_the_tooth_as_the_second_step_says():
    """Nothing rubs."""
    assert not rubbing(condylar_inclination_deg=45.0)


def test_an_immediate_shift_brings_what_the_third_step_says():
    """15 sooner, and 17 on 47 as well."""
    found = rubbing(immediate_shift_mm=0.5)
    assert set(found) == {(15, 46), (17, 47)}
    assert f"sooner, from {found[15, 46][0]:.1f} mm" in WORDS.read_text(encoding="utf-8")
