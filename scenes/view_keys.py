"""The keys of the window: what each does, and how the list of them reads."""

from dataclasses import dataclass, replace
from typing import Final

from scenes.view_state import (
    PLANE_STEPS_MM,
    SETTING_STEPS,
    TRAVEL_STEPS_MM,
    Around,
    Deed,
    ViewState,
    cut_next,
    looking,
    next_movement,
    plane_moved,
    setting_next,
    setting_stepped,
    shown_next,
    side_next,
    travelled,
    with_movement,
)

#: Keys that do more than change what is shown.
PLAY, PICTURE, FARTHEST = "space", "p", "End"
QUIT: Final = ("q", "Escape")
#: Numbers of movements that have a key of their own.
_NUMBERED: Final = 9


@dataclass(frozen=True)
class Key:
    """A key that was pressed: its name, and whether the shift key was held."""

    name: str
    shift: bool = False


def pressed(state: ViewState, around: Around, key: Key) -> ViewState:
    """Return what is shown after a key; the same where the key means nothing.

    Any key puts the list of keys away; the key of the list shows it.
    """
    if key.name == "h":
        return replace(state, help=not state.help)
    deed = _DEEDS.get(key.name)
    bare = replace(state, help=False)
    return bare if deed is None else deed(bare, around, key.shift)


def _numbered(place: int) -> Deed:
    return lambda state, around, _shift: with_movement(state, around, place)


def _looking(look: str) -> Deed:
    return lambda state, _around, _shift: looking(state, look)


def _ways(shift: bool) -> int:
    return -1 if shift else 1


_DEEDS: Final[dict[str, Deed]] = {
    "Right": lambda state, _around, shift: travelled(state, 1, shift),
    "Left": lambda state, _around, shift: travelled(state, -1, shift),
    "Home": lambda state, _around, _shift: replace(state, travel_mm=0.0, heading=0),
    "m": lambda state, around, shift: next_movement(state, around, _ways(shift)),
    **{str(number): _numbered(number - 1) for number in range(1, _NUMBERED + 1)},
    "f": _looking("front"),
    "r": _looking("right"),
    "l": _looking("left"),
    "b": _looking("back"),
    "u": _looking("upper"),
    "d": _looking("lower"),
    "w": lambda state, _around, _shift: shown_next(state, "upper"),
    "s": lambda state, _around, _shift: shown_next(state, "lower"),
    "c": lambda state, _around, _shift: replace(state, near=not state.near),
    "t": lambda state, _around, _shift: replace(state, numbers=not state.numbers),
    "x": lambda state, _around, shift: cut_next(state, _ways(shift)),
    "Prior": lambda state, around, shift: plane_moved(state, around, 1, shift),
    "Next": lambda state, around, shift: plane_moved(state, around, -1, shift),
    "n": lambda state, around, shift: setting_next(state, around, _ways(shift)),
    "a": lambda state, _around, _shift: side_next(state),
    "Up": lambda state, around, shift: setting_stepped(state, around, 1, shift),
    "Down": lambda state, around, shift: setting_stepped(state, around, -1, shift),
    "z": lambda state, _around, _shift: replace(state, changes={}, heading=0),
}

_SMALL_MM, _LARGE_MM = TRAVEL_STEPS_MM
_NEAR_MM, _FAR_MM = PLANE_STEPS_MM
#: Groups of keys, as they are listed: title, and rows of key and meaning.
HELP: Final = (
    (
        "Move the jaw",
        (
            ("← →", f"travel by {_SMALL_MM:g} mm; Shift: by {_LARGE_MM:g} mm"),
            ("Home, End", "to the start, to the farthest travel"),
            ("space", "play, out and then back; again: hold"),
            ("1 2 3 …", "movement, in the order of m"),
            ("m", "next movement; with Shift the last"),
        ),
    ),
    (
        "Look",
        (
            ("mouse", "left turn, wheel nearer, middle shift"),
            ("f r l b", "from in front, right, left, behind"),
            ("u d", "chewing surfaces of upper, of lower"),
            ("w s", "upper, lower cast: solid, clear, put away"),
            ("c", "colours by distance from the other arch"),
            ("t", "tooth numbers on, off"),
        ),
    ),
    (
        "Cut",
        (
            ("x", "plane: sagittal, frontal, horizontal, none"),
            ("PgUp PgDn", f"move it by {_NEAR_MM:g} mm; Shift: {_FAR_MM:g} mm"),
        ),
    ),
    (
        "Settings",
        (
            ("n", "next setting; with Shift the last"),
            ("a", "of both sides, right, left"),
            ("↑ ↓", f"raise, lower by a step; Shift: {SETTING_STEPS[1]} steps"),
            ("z", "all settings back to those of the case"),
        ),
    ),
    (
        "Keep and end",
        (
            ("p", "keep the picture as a PNG file"),
            ("h", "show or hide these keys"),
            ("q, Esc", "end"),
        ),
    ),
)  # fmt: skip
IN_SHORT: Final = (
    "h: all keys.  ← →: travel.  space: play.  1 2 3 m: movement.  w s: see through."
    "  x: cut.  n ↑ ↓: settings.  p: picture.  q: end."
)
