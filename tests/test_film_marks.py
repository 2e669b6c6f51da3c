"""Marks of contacts in pictures of a film: where they stand, and how they look."""

from dataclasses import replace

import numpy as np
import pytest

from scenes.film_marks import all_places, behind_others
from scenes.film_sheet import pictures
from scenes.film_shot import MomentMarks
from scenes.gap_colours import rgb
from scenes.movement_styles import LEFT_LATERAL, MI, PROTRUSION, RIGHT_LATERAL
from tests.machine import need_opengl
from tests.test_film_pictures import SIZE, image_of, moved, shot

__all__ = ["shot"]  # a fixture

KEYS = (("filled", "touch"), ("hollow", "touch, nonworking side"), ("strokes", "first contact"))
#: On the top of the lower cube, at its front edge: seen from in front and from above.
SEEN = np.array([86.0, 1.0, -31.0])
#: On its top, at its back.
AT_THE_BACK = np.array([80.0, 1.0, -31.0])


def marked(places, nonworking=(False,), first=None, style=PROTRUSION, keys=()):
    """Return a moment with marks, the lower at rest."""
    found = MomentMarks("", style, np.array(places), np.array(nonworking), first, keys)
    return replace(moved(0.0), marks=found)


def drawn(shot, moment):
    """Return a picture as numbers, and where it differs from that without marks."""
    image = image_of(pictures(shot, [moment])[0])
    bare = image_of(pictures(shot, [moved(0.0)])[0])
    return image, (image != bare).any(axis=2)


def coloured(image, style):
    """Return which pixels have the colour of a style."""
    return np.abs(image - 255.0 * rgb(style.colour)).max(axis=2) < 12.0


def place_of(one, column, place):
    """Return where a place stands in a panel of two, pixels."""
    panel = np.array([SIZE[0] / 2, round(SIZE[1] * 0.73)])
    per_mm = min(panel[0] / one.view.width_mm, panel[1] / one.view.height_mm)
    at = one.view.project(place[None])[0] * (per_mm, -per_mm) + 0.5 * panel
    corner = np.array([column * panel[0], round(0.155 * SIZE[1])])
    return corner + at


def test_a_mark_stands_where_teeth_touch(shot):
    """In both panels, to a pixel; nothing else changes."""
    need_opengl()
    _, differs = drawn(shot, marked([SEEN]))
    rows, columns = np.nonzero(differs)
    for column, one in enumerate(shot.views):
        own = columns // (SIZE[0] // 2) == column
        middle = np.array([columns[own].mean(), rows[own].mean()])
        assert middle == pytest.approx(place_of(one, column, SEEN), abs=1.5)
        assert np.ptp(columns[own]) < 12 and np.ptp(rows[own]) < 12


@pytest.mark.parametrize("style", [RIGHT_LATERAL, MI])
def test_what_is_behind_is_an_outline_alone(shot, style):
    """From in front the cube hides its back; from above both are seen."""
    need_opengl()
    inks = []
    for place in (SEEN, AT_THE_BACK):
        image, differs = drawn(shot, marked([place], style=style))
        ink = coloured(image, style) & differs
        inks.append([int(half.sum()) for half in np.hsplit(ink, 2)])
    (front_seen, above_seen), (front_hidden, above_hidden) = inks
    assert above_hidden == pytest.approx(above_seen, abs=8)
    assert front_hidden < 0.5 * front_seen


def test_a_mark_of_the_nonworking_side_is_hollow(shot):
    """It has less of its colour, around a middle of paper."""
    need_opengl()
    inks = []
    for away in (False, True):
        image, differs = drawn(shot, marked([SEEN], [away], style=LEFT_LATERAL))
        inks.append(int((coloured(image, LEFT_LATERAL) & differs).sum()))
        x, y = np.round(place_of(shot.views[1], 1, SEEN)).astype(int)
        assert (image[y, x].min() > 240) == away
    assert inks[1] < 0.7 * inks[0]


def test_the_first_contact_has_strokes_around_it(shot):
    """Outside of the mark, on all four sides."""
    need_opengl()
    plain, _ = drawn(shot, marked([SEEN]))
    image, _ = drawn(shot, marked([SEEN], first=SEEN))
    rows, columns = np.nonzero((image != plain).any(axis=2)[:, SIZE[0] // 2 :])
    x, y = place_of(shot.views[1], 1, SEEN) - (SIZE[0] / 2, 0)
    for along, middle in ((columns, x), (rows, y)):
        assert along.min() < middle - 5 and along.max() > middle + 5


def test_what_marks_mean_stands_below(shot):
    """Beside the colours, and nowhere else; without marks to explain there is nothing."""
    need_opengl()
    _, differs = drawn(shot, marked(np.empty((0, 3)), np.empty(0, dtype=bool), keys=KEYS))
    rows, columns = np.nonzero(differs)
    assert rows.min() > 0.88 * SIZE[1]
    assert 0.4 * SIZE[0] < columns.min() and columns.max() < 0.99 * SIZE[0]
    assert coloured(image_of(pictures(shot, [marked([SEEN], keys=KEYS)])[0]), PROTRUSION).any()


@pytest.mark.parametrize("seed", range(5))
def test_behind_is_what_is_farther_than_what_is_seen(seed):
    """By more than marks lie below their own surface."""
    rng = np.random.default_rng(seed)
    depth = rng.uniform(380.0, 420.0, (30, 40))
    pixels = np.stack([rng.integers(0, 40, 50), rng.integers(0, 30, 50)], axis=1).astype(float)
    seen = depth[pixels[:, 1].astype(int), pixels[:, 0].astype(int)]
    off = rng.uniform(-5.0, 5.0, 50)
    assert behind_others(depth, seen + off, pixels).tolist() == (off > 0.6).tolist()


def test_the_first_contact_comes_last():
    """After all contacts, where there is one."""
    found = MomentMarks("", MI, np.eye(3), np.zeros(3, bool), None, ())
    assert np.array_equal(all_places(found), np.eye(3))
    assert np.array_equal(all_places(replace(found, first=SEEN)), np.vstack([np.eye(3), SEEN]))
