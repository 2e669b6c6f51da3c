"""The first page says what is wrong, rings the teeth it names, and shows each finding's tooth."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.findings import Finding
from kinematics.planning.group_wording import next_steps
from kinematics.planning.plane.plane_findings import ABOVE, BELOW
from scenes.case_words import case_words
from scenes.close_ups import WINDOW_MM, close_up
from scenes.finding_places import places_on
from scenes.first_page import first_page
from scenes.report import html_report
from tests.shipped_cases import shipped

#: Kinds of findings that ask for steps of their own.
KINDS = (
    "raised bite", "centric records differ", "no centric stop", "stops off the axis",
    "deflective contact", "nonworking interference", ABOVE, BELOW,
)  # fmt: skip


def page_of(example):
    """Return the first page of a checkup."""
    return first_page(example, finding_groups(example.findings), "canine")


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
        Finding("replacement tooth touches", "attention", f"{upper} meets.", tooth_upper=upper)
        for upper in (11, 12, 13, 14, 15, 16)
    )
    page = page_of(replace(example, findings=found))
    assert (len(page.points), page.more) == (5, 1)
    (title,) = page.titles
    assert (title.numbers, title.severity, page.untitled) == ((6,), "attention", 0)
    assert (
        title.words == "6. Replacement teeth touch while the jaw slides (contact in an excursion)"
    )
    (step,) = page.steps  # the same for all six
    assert "11, 12, 13, 14, 15 and 16" in step


def test_long_sentences_leave_room_for_the_rest_of_the_page(example):
    """Fewer points are told where they are long, the gravest first, and one at any rate."""
    long = " ".join(["and so on"] * 40)
    found = tuple(
        Finding("replacement tooth touches", "attention", f"{upper} {long}.", tooth_upper=upper)
        for upper in (11, 12, 13, 14, 15)
    )
    page = page_of(replace(example, findings=found))
    assert [point.number for point in page.points] == [1, 2, 3]
    assert page.more == 2
    assert {ring.code for arch in page.arches for ring, _ in arch.rings} == {11, 12, 13}
    endless = (replace(found[0], text=long * 20),)
    assert len(page_of(replace(example, findings=endless)).points) == 1


def test_what_is_told_below_is_named_by_its_titles(example):
    """Alike ones together, gravest first, no more than four titles and the rest counted."""
    long = " ".join(["and so on"] * 250)
    kinds = ("a", "stops off the axis", "no centric stop", "b", "balance missing", "raised bite")
    found = tuple(
        Finding(kind, "serious" if kind == "a" else "attention", f"{upper} {long}.", None, 1.0, 2.0,
                upper)
        for upper, kind in enumerate(kinds, start=11)
    )  # fmt: skip
    page = page_of(replace(example, findings=found))
    assert [point.number for point in page.points] == [1]
    assert [(title.numbers, title.sign) for title in page.titles] == [
        ((2,), "▲"), ((3,), "▲"), ((4,), "▲"), ((5,), "▲"),
    ]  # fmt: skip
    assert (page.more, page.untitled) == (5, 1)
    twice = tuple(replace(item, kind="nonworking interference") for item in found[1:3])
    page = page_of(replace(example, findings=(found[0], *twice)))
    (title,) = page.titles
    assert title.words.startswith("2 and 3. A tooth touches where it should not")


def test_points_of_one_kind_share_their_heading(example):
    """The plain words stand before the first of them only."""
    found = tuple(
        Finding("nonworking interference", "attention", f"{upper} meets.", tooth_upper=upper)
        for upper in (11, 12)
    )
    first, second = page_of(replace(example, findings=found)).points
    assert first.heading_after(None).startswith("A tooth touches where it should not")
    assert second.heading_after(first) == ""


def test_steps_without_room_stand_above_the_findings(example):
    """No step is lost: the last ones are counted on the first page and told further down."""
    found = tuple(
        Finding(kind, "serious", f"{kind} at {upper}.", tooth_upper=upper)
        for upper, kind in enumerate(KINDS, start=11)
    )
    told = replace(example, findings=found)
    page = page_of(told)
    wanted = next_steps(finding_groups(found))
    assert page.steps + page.later_steps == wanted
    assert 0 < len(page.later_steps) < len(wanted)
    text = html_report(told, case_words(Case()))
    below = text[text.index('id="later-steps"') :]
    assert f'<ol start="{len(page.steps) + 2}">' in below
    assert all(f"<li>{step}</li>" in below for step in page.later_steps)
    assert f"And then {len(page.later_steps)} more" in text


def test_nothing_wrong_rings_nothing(example):
    """Notes alone leave the page without points, pictures and steps."""
    page = page_of(replace(example, findings=example.findings[2:]))
    assert (page.points, page.more, page.titles) == ((), 0, ())
    assert (page.untitled, page.arches, page.steps) == (0, (), ())


def test_a_close_up_has_its_tooth_in_the_middle_and_the_contact_in_view(example):
    """The window is about the ring; a place above the tooth falls inside the ring."""
    finding = example.findings[0]
    found = close_up(finding, example)
    assert found.ring.code == finding.tooth_upper
    assert found.ring.x_mm == pytest.approx(found.left_mm + 0.5 * WINDOW_MM)
    assert found.ring.y_mm == pytest.approx(found.top_mm + 0.5 * WINDOW_MM)
    (place,) = found.places_mm
    inside = np.subtract(place, (found.ring.x_mm, found.ring.y_mm))
    assert np.linalg.norm(inside / (found.ring.wide_mm, found.ring.high_mm)) < 1.0


def test_a_place_is_marked_on_the_lower_where_the_lower_stood(example):
    """Read at 2 mm of travel, it lies on the lower as far from there as the lower had moved."""
    lower = replace(example.findings[0], tooth_upper=None)
    touch = example.replacement[0]
    marked = {}
    for travel in (0.0, 2.0):
        read = replace(example, replacement=(replace(touch, read_at_mm=travel),))
        found = close_up(lower, read)
        assert (found.side, found.ring.code, found.caption) == (
            "lower",
            46,
            "46; circle: the place",
        )
        (marked[travel],) = found.places_mm
    # In left lateral excursion of the example the lower moves 0.35 forward for 1 to the left.
    assert np.subtract(marked[2.0], marked[0.0]) == pytest.approx((-2.0, -0.7), abs=1e-9)


def test_a_place_read_in_no_known_pose_is_not_marked_on_the_lower(example):
    """Better no circle than one beside the contact; without a tooth there is nothing to show."""
    lower = replace(example.findings[0], tooth_upper=None, place=(55.0, -24.6, -33.0))
    found = close_up(lower, example)
    assert (found.ring.code, found.places_mm, found.caption) == (46, (), "46")
    assert close_up(example.findings[2], example) is None


def test_stops_off_the_axis_are_circled_one_by_one(example):
    """On either arch; they are the stops of the tooth that is named."""
    for teeth, side in (({"tooth_upper": 16}, "upper"), ({"tooth_lower": 46}, "lower")):
        found = close_up(Finding("stops off the axis", "attention", "Aside.", **teeth), example)
        assert (found.side, len(found.places_mm)) == (side, 3)
        assert found.caption.endswith("; circles: its stops")


def test_a_replacement_tooth_is_shown_before_its_opponent(example):
    """Also where it stands in the lower arch."""
    finding = example.findings[0]
    assert close_up(finding, example, (46,)).ring.code == 46
    assert close_up(finding, example, (16, 46)).ring.code == 16
    assert close_up(finding, example).ring.code == 16


@pytest.mark.parametrize("name", ["lower_distal_extension", "anterior_open_bite"])
def test_every_place_of_a_shipped_case_is_found_on_the_lower_too(name):
    """On the tooth that is named: within half a millimetre of one of its vertices."""
    result = shipped(name)
    placed = [finding for finding in result.findings if finding.place and finding.tooth_lower]
    assert placed
    for finding in placed:
        (place,) = places_on(finding, finding.tooth_lower, result)
        own = result.lower.tooth_of_face == finding.tooth_lower
        crown = result.lower.mesh.vertices[result.lower.mesh.faces[own]].reshape(-1, 3)
        assert np.linalg.norm(crown - place, axis=1).min() < 0.5, finding.text
