"""What the window shows, and how keys change it: plain data, without any window."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from kinematics.case import Case
from kinematics.case_changes import Changed
from kinematics.guidance.excursions import Excursion
from kinematics.live import movements_of
from scenes.film_arguments import FARTHEST_MM
from scenes.page_controls import values_for_page
from scenes.view_settings import CHOICES, control_named, neighbour, stepped

#: One step of a key, and one with the shift key held.
TRAVEL_STEPS_MM: Final = (0.1, 1.0)
PLANE_STEPS_MM: Final = (0.5, 5.0)
SETTING_STEPS: Final = (1, 5)
#: How a cast may be shown, in the order of the key.
SHOWN: Final = ("solid", "clear", "away")
#: Planes that cut, each square to an axis of the hinge frame: the place in the list of its axis.
PLANES: Final = {"sagittal": 1, "frontal": 0, "horizontal": 2}
#: From where each plane is seen square on.
_FACING: Final = {"sagittal": "right", "frontal": "front", "horizontal": "upper"}
#: From where both casts are looked at, and the looks at the chewing surfaces of one.
AT_BOTH: Final = ("front", "right", "left", "back")
_PUT_AWAY: Final = {"upper": "lower", "lower": "upper"}
_ROUNDING: Final = 1e-6


@dataclass(frozen=True)
class ViewState:
    """What the window shows.

    Attributes
    ----------
    excursion : Excursion
        The movement.
    travel_mm : float
        How far the lower incisal point has travelled.
    heading : int
        1 while it plays outward, -1 while it plays back, 0 at rest.
    upper, lower : str
        Of `SHOWN`.
    look : str
        From where the casts are looked at; empty once they were turned by hand.
    looks : int
        How often that was asked for: each time the casts fill the window again.
    plane : str
        Of `PLANES`, empty where nothing is cut.
    places_mm : tuple of float
        Where the plane square to each axis of the hinge frame lies.
    uncut_look : str
        `look` before anything was cut.
    setting, side : str
        Which setting the keys step, and for which side.
    changes : mapping
        Settings that differ from the case, by their paths in a case file.
    near : bool
        Whether teeth are coloured by their distance from the other arch.
    numbers : bool
        Whether tooth numbers are shown.
    help : bool
        Whether the keys are listed over the casts.
    """

    excursion: Excursion
    travel_mm: float = 0.0
    heading: int = 0
    upper: str = SHOWN[0]
    lower: str = SHOWN[0]
    look: str = AT_BOTH[0]
    looks: int = 0
    plane: str = ""
    places_mm: tuple[float, float, float] = (0.0, 0.0, 0.0)
    uncut_look: str = ""
    setting: str = ""
    side: str = CHOICES[0]
    changes: Mapping[str, Changed] = field(default_factory=dict)
    near: bool = False
    numbers: bool = True
    help: bool = False


@dataclass(frozen=True)
class Around:
    """What keys need to know beside what is shown.

    Attributes
    ----------
    given : Case
        Without changes of settings.
    case : Case
        With them.
    low_mm, high_mm : tuple of float
        Between which places the casts lie, along the axes of the hinge frame.
    """

    given: Case
    case: Case
    low_mm: tuple[float, float, float]
    high_mm: tuple[float, float, float]


#: What a key does: the state, what is around it, and whether the shift key is held.
Deed = Callable[[ViewState, Around, bool], ViewState]


def travelled(state: ViewState, ways: int, shift: bool) -> ViewState:
    """Return the state one step of travel on, or back, at a whole number of steps."""
    step_mm = TRAVEL_STEPS_MM[shift]
    steps = state.travel_mm / step_mm
    whole = math.floor(steps + _ROUNDING) if ways > 0 else math.ceil(steps - _ROUNDING)
    return at_travel(state, (whole + ways) * step_mm)


def at_travel(state: ViewState, travel_mm: float) -> ViewState:
    """Return the state at a travel, at rest; beyond the ends at the end."""
    inside_mm = min(max(travel_mm, 0.0), FARTHEST_MM)
    return replace(state, travel_mm=round(inside_mm, 6), heading=0)


def played(state: ViewState, way_mm: float) -> ViewState:
    """Return the state while it plays, some way on; it rests at the ends."""
    there_mm = state.travel_mm + state.heading * way_mm
    moved = at_travel(state, there_mm)
    return moved if not 0.0 < there_mm < FARTHEST_MM else replace(moved, heading=state.heading)


def reached(state: ViewState, travel_mm: float) -> ViewState:
    """Return the state where the path has ended before the travel that was asked for."""
    if travel_mm >= state.travel_mm - _ROUNDING:
        return state
    return replace(state, travel_mm=travel_mm, heading=min(state.heading, 0))


def play(state: ViewState, at_end: bool) -> ViewState:
    """Return the state with playing begun, or stopped; from the end it plays back."""
    if state.heading:
        return replace(state, heading=0)
    return replace(state, heading=-1 if at_end else 1)


def with_movement(state: ViewState, around: Around, place: int) -> ViewState:
    """Return the state at the start of a movement of the case, by its place in their list."""
    known = movements_of(around.case)
    if not 0 <= place < len(known):
        return state
    return replace(state, excursion=known[place], travel_mm=0.0, heading=0)


def next_movement(state: ViewState, around: Around, ways: int) -> ViewState:
    """Return the state at the start of the movement some places on, round in a ring."""
    known = movements_of(around.case)
    at = known.index(state.excursion) if state.excursion in known else 0
    return with_movement(state, around, (at + ways) % len(known))


def looking(state: ViewState, look: str) -> ViewState:
    """Return the state looked at from somewhere: at one arch the other is put away."""
    other = _PUT_AWAY.get(look)
    shown = {
        cast: "away" if cast == other else "solid" if now == "away" else now
        for cast, now in (("upper", state.upper), ("lower", state.lower))
    }
    seen = replace(state, upper=shown["upper"], lower=shown["lower"])
    return replace(seen, look=look, looks=state.looks + 1)


def shown_next(state: ViewState, cast: str) -> ViewState:
    """Return the state with one cast solid, clear, or put away, in turn."""
    now = state.upper if cast == "upper" else state.lower
    then = SHOWN[(SHOWN.index(now) + 1) % len(SHOWN)]
    return replace(state, upper=then) if cast == "upper" else replace(state, lower=then)


def cut_next(state: ViewState, ways: int) -> ViewState:
    """Return the state with the next plane that cuts, or none, in turn; planes face the eye."""
    known = ("", *PLANES)
    plane = known[(known.index(state.plane) + ways) % len(known)]
    if not plane:  # seen again as before the first of them
        look = state.uncut_look or AT_BOTH[0]
        return replace(state, plane=plane, look=look, looks=state.looks + 1)
    uncut = state.uncut_look if state.plane else state.look
    return replace(state, plane=plane, look=_FACING[plane], looks=state.looks + 1, uncut_look=uncut)


def plane_moved(state: ViewState, around: Around, ways: int, shift: bool) -> ViewState:
    """Return the state with the plane moved along its axis, as far as the casts reach."""
    if not state.plane:
        return state
    axis = PLANES[state.plane]
    at = state.places_mm[axis] + ways * PLANE_STEPS_MM[shift]
    at = min(max(at, around.low_mm[axis]), around.high_mm[axis])
    x, y, z = (at if i == axis else old for i, old in enumerate(state.places_mm))
    return replace(state, places_mm=(x, y, z))


def setting_next(state: ViewState, around: Around, ways: int) -> ViewState:
    """Return the state with another setting to be stepped."""
    return replace(state, setting=neighbour(around.case, state.setting, ways))


def side_next(state: ViewState) -> ViewState:
    """Return the state with the other sides to be stepped."""
    return replace(state, side=CHOICES[(CHOICES.index(state.side) + 1) % len(CHOICES)])


def setting_stepped(state: ViewState, around: Around, ways: int, shift: bool) -> ViewState:
    """Return the state with the setting stepped; values that the case has are no changes."""
    control = control_named(around.case, state.setting)
    steps = ways * SETTING_STEPS[shift and control["type"] == "number"]
    changes = {**state.changes, **stepped(around.case, control, state.side, steps)}
    own = values_for_page(around.given)
    return replace(state, changes={k: v for k, v in changes.items() if v != own[k]}, heading=0)
