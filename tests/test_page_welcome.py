"""What a page is told of a case before it shows it: why a movement does not start in CR."""

import pytest

from kinematics.case import Case
from kinematics.case_changes import changed_case
from kinematics.case_excursions import excursions_of
from kinematics.case_mi import MaximalIntercuspation
from scenes.builtin_cases import builtin_case
from scenes.case_places import case_names
from scenes.page_frames import header_of
from scenes.page_welcome import case_answer

IN_CR = MaximalIntercuspation(advance_right_mm=0.0, advance_left_mm=0.0)


def told_of(case):
    """Return the message about a case."""
    return header_of(case_answer(1, "given", case, case))


@pytest.mark.parametrize("name", case_names())
def test_every_start_is_offered_or_told_why_not(name):
    """Never both, and nothing of movements that the case has not."""
    told = told_of(changed_case(builtin_case(name), {"pin_opening_mm": 2.0}))
    offered = {(row["movement"], row["start"]) for row in told["movements"]}
    why = {(name, start) for name, starts in told["not_offered"].items() for start in starts}
    names = {movement for movement, _ in offered}
    assert offered | why == {(movement, start) for movement in names for start in ("MI", "CR")}
    assert not offered & why


def test_where_mi_is_cr_that_is_the_reason():
    """It changes with the settings: a moment before there was a way from CR."""
    apart, together = told_of(Case()), told_of(Case(maximal_intercuspation=IN_CR))
    assert len(excursions_of(Case())) > len(excursions_of(Case(maximal_intercuspation=IN_CR)))
    assert "right lateral" not in apart["not_offered"]
    assert "one position in this case" in together["not_offered"]["right lateral"]["CR"]
    assert "leads from MI back" in together["not_offered"]["retrusion"]["CR"]
    [between] = {
        text["CR"] for name, text in apart["not_offered"].items() if name.startswith("latero")
    }
    assert between.startswith("From centric relation (CR), protrusion and both lateral excursions")
