"""Numbers, teeth and movements in plain words."""

import math

import pytest

from kinematics.guidance.excursions import Excursion
from kinematics.planning.contact_findings import heights_words
from kinematics.planning.heights import Height
from kinematics.planning.wording import (
    at_most,
    enumeration,
    excursion_words,
    length,
    newtons_across,
    pair_name,
    sentence,
    travel_range,
)


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


def test_heights_found_by_either_tooth_are_told_once_where_they_agree():
    """The same figure for both teeth is not repeated; different ones are both given."""
    same = (Height(16, 0.3, 1.0), Height(46, 0.3, 1.0))
    assert heights_words(same) == (
        " and at 1.0 mm holds the other teeth 0.30 mm open along the closing arc, measured at 16"
        " (found by leaving out 16 or 46)"
    )
    other = (Height(16, 0.3, 1.0), Height(46, 0.2, 1.0))
    assert "(found by leaving out 16; 0.20 mm by leaving out 46)" in heights_words(other)
    assert heights_words((Height(16, 0.0, 1.0),)) == ""


@pytest.mark.parametrize(
    ("value_mm", "told"), [(0.0, "0.1 µm"), (3e-5, "0.1 µm"), (2e-4, "0.2 µm"), (0.25, "0.25 mm")]
)
def test_bounds_are_never_nothing(value_mm, told):
    """Within nothing nothing meets: the bound is at least the smallest length that is told."""
    assert at_most(value_mm) == told
