"""Contacts that the schemes of denture bases allow are told together, once a pair."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from kinematics.guidance.excursions import left_lateral
from kinematics.planning.allowed_contacts import allowed_finding, told_together
from kinematics.planning.replacement import ReplacementContact

MADE = ReplacementContact(
    base="upper",
    tooth=26,
    opponent=36,
    excursion="left lateral",
    touches=True,
    travel_from_mm=0.5,
    travel_to_mm=2.0,
    least_gap_mm=0.0,
    place=(60.0, 25.0, -35.0),
    height_mm=0.0,
    normal_to_axis_deg=20.0,
    across_per_along=0.36,
    lever_mm=0.0,
    severity="note",
    standing="allowed by its scheme",
    scheme="balanced",
)
SWEEP = SimpleNamespace(excursion=left_lateral(), travel_mm=np.array([0.0, 3.0]))


def test_a_single_pair_is_told_as_it_is():
    """Also where both of its teeth stand on bases, so that it is seen twice."""
    assert told_together((MADE,)) == ()
    assert told_together((MADE, replace(MADE, base="lower", tooth=36, opponent=26))) == ()


def test_only_allowed_touches_are_told_together():
    """What breaks a scheme, or only comes near, stays a finding of its own."""
    other = replace(MADE, tooth=16, opponent=46)
    against = replace(other, standing="against its scheme", severity="attention")
    near = replace(other, touches=False)
    assert told_together((MADE, against, near)) == ()
    assert told_together((MADE, other, against)) == (MADE, other)


def test_the_finding_names_every_pair_once_and_the_highest():
    """Pairs with their ranges, schemes, and what holds most open."""
    seen_below = replace(MADE, base="lower", tooth=36, opponent=26, scheme="balanced")
    high = replace(
        MADE,
        tooth=47,
        opponent=17,
        travel_from_mm=0.2,
        travel_to_mm=2.5,
        height_alone_mm=0.012,
        across_per_along=0.8,
        read_at_mm=1.5,
    )
    found = allowed_finding(SWEEP, told_together((MADE, seen_below, high)))
    assert found.severity == "note"
    assert (found.tooth_upper, found.tooth_lower) == (26, 36)
    assert found.together == ((17, 47),)
    assert (found.travel_from_mm, found.travel_to_mm) == (0.2, 2.5)
    assert "26 on 36 (0.5 to 2.0 mm) and 17 on 47 (0.2 to 2.5 mm) touch" in found.text
    assert "12 µm along the closing arc, 17 on 47 at 1.5 mm" in found.text
    across = next(f for f in found.figures if f.unit == "N/N")
    assert across.value == pytest.approx(0.8) and "17 on 47" in across.name


def test_contacts_without_height_say_nothing_of_it():
    """Nor do those without which nothing else would meet."""
    other = replace(MADE, tooth=27, opponent=37)
    for height in (0.0, float("inf")):
        contacts = (replace(MADE, height_alone_mm=height), other)
        assert "closing arc" not in allowed_finding(SWEEP, contacts).text
