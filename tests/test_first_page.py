"""The first page says what is wrong, rings the teeth it names, and shows each finding's tooth."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.findings import Finding
from scenes.close_ups import WINDOW_MM, close_up
from scenes.first_page import first_page


def page_of(example):
    """Return the first page of a checkup."""
    return first_page(example, finding_groups(example.findings))


def test_rings_carry_the_numbers_of_their_points(example):
    """A tooth named by two points carries both numbers; teeth of notes carry none."""
    two = Finding("stops off the axis", "attention", "Stops of 16 push aside.", tooth_upper=16)
    page = page_of(replace(example, findings=(*example.findings[:2], two, example.findings[2])))
    assert [point.number for point in page.points] == [1, 2, 3]
    rings = {ring.code: numbers for arch in page.arches for ring, numbers in arch.rings}
    assert rings == {16: "1·3", 46: "1", 27: "2", 37: "2"}
    assert [arch.side for arch in page.arches] == ["upper", "lower"]


def test_no_more_than_five_points_and_the_rest_counted(example):
    """Six causes: five told, one counted; each asks for its step all the same."""
    found = tuple(
        Finding("nonworking interference", "attention", f"{upper} meets.", tooth_upper=upper)
        for upper in (11, 12, 13, 14, 15, 16)
    )
    page = page_of(replace(example, findings=found))
    assert (len(page.points), page.more, len(page.steps)) == (5, 1, 6)


def test_nothing_wrong_rings_nothing(example):
    """Notes alone leave the page without points, pictures and steps."""
    page = page_of(replace(example, findings=example.findings[2:]))
    assert (page.points, page.more, page.arches, page.steps) == ((), 0, (), ())


def test_a_close_up_has_its_tooth_in_the_middle_and_the_contact_in_view(example):
    """The window is about the ring; a place above the tooth falls inside the ring."""
    finding = example.findings[0]
    found = close_up(finding, example)
    assert found.ring.code == finding.tooth_upper
    assert found.ring.x_mm == pytest.approx(found.left_mm + 0.5 * WINDOW_MM)
    assert found.ring.y_mm == pytest.approx(found.top_mm + 0.5 * WINDOW_MM)
    inside = np.subtract(found.contact_mm, (found.ring.x_mm, found.ring.y_mm))
    assert np.linalg.norm(inside / (found.ring.wide_mm, found.ring.high_mm)) < 1.0


def test_a_close_up_of_a_lower_tooth_marks_no_place(example):
    """Places are known on the upper arch only; without a tooth there is nothing to show."""
    lower = replace(example.findings[0], tooth_upper=None)
    found = close_up(lower, example)
    assert (found.side, found.ring.code, found.contact_mm) == ("lower", 46, None)
    assert close_up(example.findings[2], example) is None
