"""The window of `cuspway view`, used with mouse and keys on a display of its own."""

import signal
from collections import deque

import numpy as np
import pytest
from PIL import Image

from kinematics.case_file import read_case
from kinematics.guidance.excursions import left_lateral, right_lateral
from scenes import view_command
from scenes.view_cut import LINES
from scenes.view_desk import ViewDesk
from scenes.view_keys import IN_SHORT
from scenes.view_settings import offered
from scenes.view_sheet import ABOVE, BELOW, Sheet, above
from scenes.view_state import ViewState
from scenes.view_words import told_line, words_of
from tests.machine import need_display
from tests.open_window import SIZE, OpenWindow, display

CASE_TEXT = 'title = "Natural teeth, made coarse"\n[dentition]\ntriangles_per_arch = 15000\n'
#: Rows of the window, a few at their edges left out.
TOP, BOTTOM = round(ABOVE * SIZE[1]) - 2, SIZE[1] - round(BELOW * SIZE[1]) + 2
MIDDLE = slice(TOP + 4, BOTTOM - 4)
BEGIN = ("--size", "1000x700", "--movement", "left-lateral", "--travel", "2")


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Return a folder with a case file, and room for pictures."""
    made = tmp_path_factory.mktemp("view")
    (made / "natural.toml").write_text(CASE_TEXT, "utf-8")
    (made / "kept").mkdir()
    return made


@pytest.fixture(scope="module")
def desk(folder):
    """Return what computes the same case here."""
    return ViewDesk(read_case(folder / "natural.toml"), lambda _step: None, 1)


@pytest.fixture(scope="module")
def screen():
    """Return a display."""
    need_display()
    with display() as name:
        yield name


def told(desk, excursion, travel_mm, changes=None):
    """Return what is printed at some travel."""
    desk.take_up(changes or {})
    at = desk.pose(excursion, travel_mm)
    state = ViewState(excursion, travel_mm, changes=changes or {})
    return told_line(desk.case, state, at)


@pytest.fixture(scope="module")
def window(screen, folder, request):
    """Return the window, open at 2 mm of left lateral excursion; tests leave it as it was."""
    opened = OpenWindow(screen, ("natural.toml", "--pictures", "kept", *BEGIN), folder)
    desk = request.getfixturevalue("desk")  # made while the window opens
    try:
        assert opened.line() == told(desk, left_lateral(), 2.0)
        yield opened
    finally:
        opened.process.kill()
        opened.process.wait()


@pytest.fixture(scope="module")
def first(window):
    """Return the picture it begins with, once a key has put the short list of keys away."""
    window.press("f")
    return window.picture_when(lambda now: (now[-45:] == 255).all())


def changed(one, other):
    """Return which pixels of the casts differ."""
    return (np.abs(one - other).max(axis=2) > 12)[MIDDLE]


def new_words(one, other):
    """Tell whether what stands below the casts differs."""
    return bool((one[BOTTOM:] != other[BOTTOM:]).any())


def test_the_mouse_turns_the_casts_and_a_key_turns_them_back(window, first):
    """By hand in steps; what stands above stays; then the picture is what it was."""
    window.hand("mousemove", 500, 350, "mousedown", 1)
    for _ in range(6):
        window.hand("mousemove_relative", "--", 20, 4)
    window.hand("mouseup", 1)
    turned = window.picture_when(
        lambda now: changed(now, first).mean() > 0.1 and new_words(now, first)
    )
    assert (turned[:TOP] == first[:TOP]).all()
    window.press("f")
    window.picture_when(lambda now: (now == first).all())


def test_the_wheel_brings_the_casts_nearer(window, first):
    """So that 10 mm are longer below them."""
    window.hand("mousemove", 500, 350, "click", 4, "click", 4, "click", 4)
    near = window.picture_when(lambda now: changed(now, first).mean() > 0.05)
    before, now = ((one[BOTTOM:, 700:] < 60).all(axis=2).sum(axis=1).max() for one in (first, near))
    assert now > 1.1 * before
    window.press("f")
    window.picture_when(lambda now: (now == first).all())


def test_a_cast_is_seen_through_put_away_and_back(window, first):
    """The upper alone: below the lower teeth nothing changes."""
    window.press("w")
    clear = window.picture_when(lambda now: changed(now, first).any())
    window.press("w")
    away = window.picture_when(lambda now: changed(now, clear).any())
    lowest = slice(-60, None)
    for shown in (clear, away):
        assert not changed(shown, first)[lowest].any()
    paper = [(one[MIDDLE] == 255).all(axis=2).mean() for one in (first, clear, away)]
    assert paper[1] == pytest.approx(paper[0], abs=0.02)
    assert paper[2] > paper[0] + 0.2
    window.press("w")
    window.picture_when(lambda now: (now == first).all())


def test_a_plane_cuts_both_casts_with_lines_of_their_own(window, first):
    """Upper and lower outlines in their colours, which move with the plane; then all is whole."""
    colours = {cast: [int(code[i : i + 2], 16) for i in (1, 3, 5)]
               for cast, (code, _) in LINES.items()}  # fmt: skip

    def lines(now, cast):
        return (np.abs(now[MIDDLE] - colours[cast]).max(axis=2) < 8).sum()

    assert lines(first, "upper") == lines(first, "lower") == 0
    window.press("x", "x")
    frontal = window.picture_when(lambda now: lines(now, "upper") > 300)
    assert lines(frontal, "lower") > 300
    window.press("Prior")
    moved = window.picture_when(lambda now: changed(now, frontal).any() and new_words(now, frontal))
    assert lines(moved, "upper") > 300
    window.press("Next", "x", "x", "f")
    window.picture_when(lambda now: (now == first).all())


def test_keys_step_the_jaw_and_say_where_it_is(window, first, desk):
    """Each place is the one computed here; back at 2 mm the picture is what it was."""
    for key, travel_mm in (
        ("Right", 2.1),
        ("shift+Right", 3.0),
        ("Home", 0.0),
        ("shift+Right", 1.0),
    ):
        window.press(key)
        assert window.line() == told(desk, left_lateral(), travel_mm)
    window.press("2")
    assert window.line() == told(desk, right_lateral(), 0.0)
    window.press("3", "shift+Right", "shift+Right")
    window.line_when(told(desk, left_lateral(), 2.0))
    window.picture_when(lambda now: (now == first).all())


def test_it_plays_until_it_is_held(window, first, desk):
    """Somewhere beyond 2 mm; nothing is said on the way."""
    window.press("space")
    window.moving_picture_when(lambda now: changed(now, first).any())
    window.press("space")
    words = window.line()
    travel_mm = float(words.split(", ")[1].split(" mm")[0])
    assert words.startswith("Left lateral excursion") and travel_mm > 2.0
    window.press("Home", "shift+Right", "shift+Right")
    window.line_when(told(desk, left_lateral(), 2.0))
    window.picture_when(lambda now: (now == first).all())


def test_settings_change_what_is_shown_and_impossible_ones_are_refused(window, first, desk):
    """Casts and words follow; the refusal says what is accepted, and the value stays."""
    right, left = (f"guidance.{side}.condylar_inclination_deg" for side in ("right", "left"))
    own = desk.given.guidance.right.condylar_inclination_deg
    window.press("shift+Up")
    raised = {right: own + 5.0, left: own + 5.0}
    assert window.line() == told(desk, left_lateral(), 2.0, raised)
    window.picture_when(lambda now: changed(now, first).any() and new_words(now, first))
    window.press("z", "shift+n", "Down")
    assert window.line() == told(desk, left_lateral(), 2.0)
    refusal = window.line()
    assert refusal.startswith("Not done: pin_opening_mm") and "-0.5" in refusal
    window.press("n")
    window.picture_when(lambda now: (now == first).all())


def test_a_picture_is_kept_as_it_is_seen_with_its_caption(window, first, desk, folder):
    """Named by case, movement and travel; the next one beside it; both said where."""
    names = ["natural_left-lateral_2.0mm.png", "natural_left-lateral_2.0mm_2.png"]
    for name in names:
        window.press("p")
        assert window.line() == f"Picture kept: kept/{name}"
    assert sorted(path.name for path in (folder / "kept").iterdir()) == sorted(names)
    kept = np.asarray(Image.open(folder / "kept" / names[0])).astype(int)
    assert np.argwhere((kept != first).any(axis=2)).tolist() == []
    desk.take_up({})
    at = desk.pose(left_lateral(), 2.0)
    state = ViewState(left_lateral(), 2.0, setting=offered(desk.case)[0]["id"])
    sheet = Sheet(words_of(desk.case, state, at, IN_SHORT), SIZE, 1.0, None)
    caption = np.asarray(above(sheet))[4 : TOP - 4]
    places = [kept[4 + off : TOP - 4 + off] for off in (-1, 0, 1)]  # rows of a window are rounded
    assert any((place == caption).all() for place in places)
    window.press("f")


def test_the_list_of_keys_lies_over_the_casts(window, first):
    """Until any key."""
    window.press("h")
    listed = window.picture_when(lambda now: changed(now, first).mean() > 0.3)
    assert (listed[:TOP] == first[:TOP]).all()
    window.press("h")
    window.picture_when(lambda now: (now == first).all())


def test_colours_by_distance_come_with_their_scale(window, first):
    """Dark where near, and what the colours mean in millimetres."""
    window.press("c")
    near = window.picture_when(lambda now: changed(now, first).any() and new_words(now, first))
    blue = np.array([0x10, 0x30, 0x60])
    assert (np.abs(near[BOTTOM:, 650:] - blue).max(axis=2) < 40).any()
    window.press("c")
    window.picture_when(lambda now: (now == first).all())


def test_a_key_ends_it(window, first):
    """With exit code 0, and how many pictures were kept."""
    window.press("q")
    assert window.line() == "The window has been closed; 2 pictures kept."
    assert window.end() == 0


class StandIn:
    """Stands in for a window: shows nothing, and lets something happen when it listens."""

    def __init__(self, happens):
        self.closed, self.turned, self.keys, self.given_up = False, False, deque(), False
        self._happens = happens

    def __call__(self, *_):
        """Be opened."""
        return self

    def listen(self):
        """Let it happen."""
        self._happens(self)

    def put_in(self, _scene):
        """Show nothing."""

    def show(self, _shown):
        """Show nothing."""

    def close(self):
        """Be given up."""
        self.given_up = True


def close_by_hand(window):
    """As the button of the window does."""
    window.closed = True


def ask_to_stop(_window):
    """As Ctrl-C in the terminal does."""
    signal.raise_signal(signal.SIGINT)


@pytest.mark.parametrize("happens", [close_by_hand, ask_to_stop])
def test_closing_the_window_and_ctrl_c_end_it(happens, folder, desk, monkeypatch):
    """In words, without an error; afterwards Ctrl-C does what it did before."""
    window = StandIn(happens)
    monkeypatch.setattr(view_command, "ViewWindow", window)
    monkeypatch.setattr(view_command, "ViewDesk", lambda *_: desk)
    monkeypatch.setattr(view_command, "refuse_without_display", lambda: None)
    before, said = signal.getsignal(signal.SIGINT), []
    options = view_command.ViewOptions("left-lateral", 2.0, SIZE, folder, 1)
    ended = view_command.view(desk.given, None, options, lambda _step: None, said.append)
    assert ended == "The window has been closed; 0 pictures kept."
    assert window.given_up
    assert said == [told(desk, left_lateral(), 2.0)]
    assert signal.getsignal(signal.SIGINT) is before
