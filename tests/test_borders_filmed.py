"""Border movements as films: along the lines that bound the jaw, closed where teeth guide it."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.borders.lines import WITH_TRANSLATION
from kinematics.borders_filmed import OPENING, ROUND, filmed_border
from kinematics.contact.closure import close
from kinematics.contact.mounted import GUIDED_BY_NOTHING, GUIDED_BY_TEETH
from kinematics.contact.workers import Workers
from kinematics.mounting import mounted_casts
from scenes.drawing_processes import InLine
from scenes.film_command import FilmOptions, film
from scenes.film_moments import moments
from scenes.film_movements import borders_of, order_of, tracks_of, way_words
from scenes.film_sheet import pictures
from scenes.page_frames import header_of
from tests.film_pages import CASE, block, silent
from tests.machine import need_opengl
from tests.played_file import Played
from tests.test_film_pictures import SIZE, image_of, moved, shot

__all__ = ["shot"]  # a fixture

STEP_MM = 0.7


@pytest.fixture(scope="module")
def casts():
    """Return the casts of a coarse case."""
    return mounted_casts(CASE)


@pytest.fixture(scope="module")
def borders(casts):
    """Return its border movements."""
    return borders_of(CASE, casts, 1)


@pytest.fixture(scope="module")
def found(casts, borders):
    """Return both movements."""
    return {
        movement: filmed_border(CASE, casts, borders, movement, STEP_MM, Workers())
        for movement in (OPENING, ROUND)
    }


@pytest.mark.parametrize("movement", [OPENING, ROUND])
def test_the_incisal_point_goes_along_the_lines_in_even_steps(found, borders, movement):
    """No farther from them than their own places are apart, and never faster than asked."""
    one = found[movement]
    dense = np.concatenate(
        [
            np.linspace(line[:-1], line[1:], 20, endpoint=False).reshape(-1, 3)
            for line in tracks_of(borders)
        ]
    )
    off = np.linalg.norm(one.incisal_point[:, None] - dense, axis=2).min(axis=1)
    assert off.max() < 0.05
    ways = np.linalg.norm(np.diff(one.incisal_point, axis=0), axis=1)
    assert ways.max() <= STEP_MM + 0.02
    assert np.median(ways) == pytest.approx(STEP_MM, abs=0.01)


def test_an_opening_goes_from_first_contact_in_cr_to_the_greatest(found, casts, borders):
    """Hinge opening first, with the condyles in CR; then with translation, to its limit."""
    one = found[OPENING]
    assert one.incisal_point[0] == pytest.approx(borders.incisal_point_in_cr, abs=1e-6)
    opened_mm = np.linalg.norm(one.incisal_point[-1] - casts.incisal_point_in_mi)
    assert opened_mm == pytest.approx(CASE.border_limits.opening_mm, abs=1e-6)
    hinge = one.phases.count("hinge opening")
    assert one.phases == ("hinge opening",) * hinge + ("opening with translation",) * (
        len(one.phases) - hinge
    )
    assert np.abs(one.poses[: hinge - 1, :3, 3] - one.poses[0, :3, 3]).max() < 1e-9
    assert (one.guide == GUIDED_BY_NOTHING).all() and np.isnan(one.guiding).all()


def test_once_round_begins_and_ends_in_mi(found, casts):
    """And is closed wherever teeth guide it."""
    one = found[ROUND]
    for end in (0, -1):
        assert one.poses[end] == pytest.approx(casts.mi_pose, abs=1e-5)
        assert one.touching[end]
    on_teeth = one.guide == GUIDED_BY_TEETH
    assert on_teeth.sum() > 5 and not on_teeth.all()
    shut = close(casts.pair, one.poses[on_teeth])
    assert shut.opening_rad == pytest.approx(np.zeros(on_teeth.sum()), abs=1e-9)
    assert on_teeth.tolist() == [phase.endswith("on the teeth") for phase in one.phases]


def test_each_goes_its_own_way_back(found):
    """An opening closes as it opened; once round there is nothing to go back."""
    there = len(found[OPENING].travel_mm)
    assert order_of(found[OPENING]).tolist() == [*range(there), *range(there - 2, -1, -1)]
    assert order_of(found[ROUND]).tolist() == list(range(len(found[ROUND].travel_mm)))
    assert way_words(found[ROUND]).endswith("along the track of the lower incisal point once round")
    assert way_words(found[OPENING]).endswith("of the lower incisal point out and back")


def test_what_is_told_is_where_the_jaw_is(found, casts):
    """Which line, how far from MI, with units; and where the point of the track stands."""
    every = moments(casts, [found[OPENING]], 1.0)
    wide = len(found[OPENING].travel_mm)
    assert every[0].head == "Opening from CR"
    assert every[wide].travel == f"incisal point {CASE.border_limits.opening_mm:.1f} mm from MI"
    assert every[wide].told.startswith("Opening with translation.  No teeth touch.")
    assert "right more than 3 mm" in every[wide].told
    assert every[wide].point == pytest.approx(found[OPENING].incisal_point[-1])


def test_tracks_are_drawn_where_both_casts_are_seen(shot):
    """In moments that have a point; over an arch alone they are not."""
    need_opengl()
    track = np.array([[88.0, -4.0, -36.0], [88.0, 4.0, -28.0]])
    tracked = replace(shot, tracks=(track,))
    bare, with_point = pictures(tracked, [moved(0.0), replace(moved(0.0), point=track[1])])
    assert bare == pictures(shot, [moved(0.0)])[0]
    differs = (image_of(bare) != image_of(with_point)).any(axis=2)
    assert not differs[:, SIZE[0] // 2 :].any()
    rows, columns = np.nonzero(differs[:, : SIZE[0] // 2])
    panel = np.array([SIZE[0] / 2, round(SIZE[1] * 0.73)])
    view = shot.views[0].view
    per_mm = min(panel[0] / view.width_mm, panel[1] / view.height_mm)
    ends = view.project(track) * (per_mm, -per_mm) + 0.5 * panel + (0, round(0.155 * SIZE[1]))
    assert [columns.min(), rows.max()] == pytest.approx(ends[0], abs=4.0)
    assert [columns.max(), rows.min()] == pytest.approx(ends[1], abs=6.0)


def test_border_movements_play_in_other_programs(tmp_path):
    """In the time that their way takes."""
    options = FilmOptions(("border-movement",), 1.0, 4.0)
    told = film(CASE, tmp_path / "x.glb", options, silent, 1, InLine())
    assert Played(tmp_path / "x.glb").names == ["Border movement"]
    assert "along the track of the lower incisal point once round in 5." in told


def test_a_page_holds_tracks_and_where_the_point_is_on_them(tmp_path, borders):
    """Dots along all lines, and in every moment the point."""
    options = FilmOptions(("protrusion", "opening"), 1.0, 8.0, pictures_a_s=5.0)
    film(CASE, tmp_path / "x.html", options, silent, 1, InLine())
    told = header_of(block((tmp_path / "x.html").read_text("utf-8"), "film-moments"))
    assert [one["speed_mm_a_s"] for one in told["movements"]] == [8.0, 40.0]
    dots = np.array(told["tracks"])
    for line in tracks_of(borders):
        off = np.linalg.norm(line[:, None] - dots, axis=2).min(axis=1)
        assert off.max() < 0.45
    points = [one["point"] for one in told["moments"]]
    assert points[0] is None
    ends = [one for one in points if one is not None]
    assert ends[0] == pytest.approx(borders.incisal_point_in_cr, abs=1e-3)
    assert ends[-1] == pytest.approx(borders.line(WITH_TRANSLATION).incisal_point[-1], abs=1e-3)
