"""Maps of what a wax-up changes: colours by steps, marks where most was changed, what is told."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.checkup import _changed_arches
from kinematics.mounting import teeth_for
from kinematics.planning.wax_up import LEAST_CHANGE_MM, changed_crowns
from kinematics.wax_up_files import wax_up_entries
from scenes.case_words import CaseWords
from scenes.gap_colours import rgb
from scenes.report import html_report
from scenes.sheet import Line, Words
from scenes.wax_up_maps import (
    ADDED,
    NOT_COMPARED,
    REMOVED,
    STEPS_MM,
    paint,
    wax_up_legend,
    wax_up_scene,
    wax_up_words,
)
from tests.shipped_cases import coarse

ROLE = "upper tooth"


@pytest.fixture(scope="module")
def waxed():
    """Return the upper arch of the built-in case of a wax-up, and what was changed of it."""
    teeth = teeth_for(coarse("waxed_up_canines"), lambda _: None)
    (pair,) = _changed_arches(teeth)
    return teeth.upper, changed_crowns(*pair, is_upper=True)


def test_every_step_has_its_colour():
    """Just below and just above each limit, either way; nothing within what counts as no change."""
    for way, shades in ((1.0, ADDED), (-1.0, REMOVED)):
        for step, shade in zip(STEPS_MM, shades, strict=True):
            np.testing.assert_array_equal(
                paint(np.array([way * (step + 1e-9)]), ROLE)[0], rgb(shade)
            )
        below = paint(np.array([way * (STEPS_MM[0] - 1e-9)]), ROLE)
        np.testing.assert_array_equal(below, paint(np.array([0.0]), ROLE))
        np.testing.assert_array_equal(paint(np.array([way * 9.0]), ROLE)[0], rgb(shades[-1]))
    np.testing.assert_array_equal(paint(np.array([np.nan]), ROLE)[0], rgb(NOT_COMPARED))


def test_added_and_taken_away_differ_in_print_by_their_marks_and_on_screen_by_colour(waxed):
    """A ring for the highest, a square for the deepest, each on the crown it belongs to."""
    arch, found = waxed
    scene, views = wax_up_scene(found, arch, np.eye(3))
    sheet = wax_up_words(scene, views, 1.0)
    marks = [item for item in sheet.items if isinstance(item, Line)]
    # Two canines have both; of the molar something was taken away only. Each with its rim.
    assert [item.mark for item in marks] == ["o", "o", "s", "s"] * 2 + ["s", "s"]
    named = {item.text for item in sheet.items if isinstance(item, Words)}
    assert {"13", "23", "26", "facial", "lingual"} <= named
    half = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    for line, tooth in zip(marks[::2], (13, 13, 23, 23, 26), strict=True):
        own = [view for view, item in views if item.tooth == tooth]
        assert (
            min(
                np.linalg.norm(line.points[0] - half - view.place(view.middle[None])[0])
                for view in own
            )
            < 8.0
        )


def test_maps_hold_the_figures_of_the_table(waxed):
    """The greatest distances of the map are those told; files do not grow by the maps."""
    _, found = waxed
    assert [item.tooth for item in found.maps] == [13, 23, 26]
    for item, row in zip(found.maps, found.teeth, strict=True):
        assert len(item.over_mm) == len(item.mesh.vertices)
        assert max(item.over_mm.max(), 0.0) == pytest.approx(row.most_added_mm, abs=LEAST_CHANGE_MM)
        assert -item.over_mm.min() == pytest.approx(row.most_removed_mm, abs=1e-12)
    assert all("mesh" not in entry for entry in wax_up_entries([found])[0]["teeth"])


def test_a_crown_faces_the_eye_from_three_sides(waxed):
    """Lingual is the other side of facial; along the bite the table faces the eye."""
    arch, found = waxed
    _, views = wax_up_scene(found, arch, np.eye(3))
    facial, lingual, bite = (view for view, item in views if item.tooth == 26)
    np.testing.assert_allclose(facial.facing, -lingual.facing, atol=1e-12)
    assert bite.facing[2] < -0.9  # upper teeth look down
    assert facial.facing[1] > 0.7  # to the left cheek
    for view in (facial, lingual, bite):
        across, up = view.axes.T
        np.testing.assert_allclose(np.cross(across, up), view.facing, atol=1e-12)


def test_the_legend_tells_limits_units_and_marks():
    """Every limit with its sign; what was not compared only where there is such."""
    texts = [
        item.text
        for item in wax_up_legend(some_not_compared=False).items
        if isinstance(item, Words)
    ]
    assert {"+0.05", "−0.05", "+1", "−1", "added, mm", "taken away, mm"} <= set(texts)
    assert "not compared" not in texts
    more = wax_up_legend(some_not_compared=True).items
    assert any(isinstance(item, Words) and item.text == "not compared" for item in more)


def test_the_report_shows_the_map_and_does_without(waxed, example):
    """A picture where teeth are drawn; the table alone where the arch does not have them."""
    _, found = waxed
    words = CaseWords("An invented case", "", "occlusal", ())
    strange = replace(found, maps=tuple(replace(item, tooth=18) for item in found.maps))
    page = html_report(replace(example, wax_ups=(found, strange)), words)
    assert page.count('class="wax-up-key"') == 1
    assert page.count("Upper cast</h3>") == 2
