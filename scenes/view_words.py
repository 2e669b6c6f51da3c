"""What is written in the window, and on the terminal beside it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.case import Case
from kinematics.contact.mounted import GUIDED_BY_PIN, GUIDED_BY_TABLE
from kinematics.live import RAISED_BITE, PoseAt
from scenes.page_answers import first_contact, next_contact, pose_words
from scenes.page_results import titled
from scenes.phrases import counted, length, number, pair, role_of, tolerance
from scenes.view_settings import BOTH, group_words, offered, setting_words, step_words
from scenes.view_state import PLANES, ViewState

_ROLE_WORDS: Final = {"": "", "working": "working side", "nonworking": "nonworking side"}
#: Pairs that are named; of more only how many.
_NAMED: Final = 8
#: Shapes of the marks, as they stand before what they mark.
_BALLS: Final = {"large": "⬤", "small": "•"}
_CUBES: Final = {"large": "■", "small": "▪"}
_LOOKS: Final = {
    "front": "from in front",
    "right": "from the patient's right",
    "left": "from the patient's left",
    "back": "from behind",
    "upper": "upper arch from below",
    "lower": "lower arch from above",
    "": "turned by hand",
}


@dataclass(frozen=True)
class Words:
    """Everything that is written around the casts.

    Attributes
    ----------
    title, head, travel, guides, touching : str
        Above them, line by line; `travel` to the right of `head`.
    setting, shown, cut, message : str
        Below them, line by line.
    """

    title: str
    head: str
    travel: str
    guides: str
    touching: str
    setting: str
    shown: str
    cut: str
    message: str


def words_of(case: Case, state: ViewState, at: PoseAt, message: str) -> Words:
    """Return what is written when a pose is shown."""
    return Words(
        title=case.title,
        head=titled(at.excursion) if at.excursion == RAISED_BITE else _head(at),
        travel=_travel(at),
        guides=_guides(at),
        touching=_touching(case, at),
        setting=_setting(case, state),
        shown=_shown(state),
        cut=cut_words(state),
        message=message,
    )


def told_line(case: Case, state: ViewState, at: PoseAt) -> str:
    """Return where the jaw stands and what touches, for the terminal."""
    changed = [
        f"{group_words(case, control['id'])}: {setting_words(case, control['id'], BOTH)}"
        for control in offered(case)
        if not state.changes.keys().isdisjoint(control["keys"].values())
    ]
    settings = f" [{'; '.join(changed)}]" if changed else ""
    return f"{pose_words(at.excursion, at, 0.0)}{settings}"


def _head(at: PoseAt) -> str:
    return f"{titled(at.excursion)} from MI" if at.excursion.start == "MI" else titled(at.excursion)


def _travel(at: PoseAt) -> str:
    opening = f"opening {number(float(np.degrees(at.opening_rad)), 2)}°"
    if at.excursion == RAISED_BITE:
        return opening
    return f"travel {number(at.travel_mm, 2)} mm, {opening}"


def _guides(at: PoseAt) -> str:
    """Say what holds the jaw, and what would next."""
    first, after = first_contact(at), next_contact(at)
    if at.guide == GUIDED_BY_TABLE:
        held = "Guided by the incisal guide table"
    elif at.guide == GUIDED_BY_PIN:
        held = "Held open by the incisal pin"
    elif first is None:
        return "Nothing meets here"
    else:
        role = _role(first["upper"], at)
        verb = "Guides" if at.travel_mm else "First contact"
        on_side = f", {_ROLE_WORDS[role]}" if role else ""
        held = f"{_marks(role)['large']} {verb}: {pair(first['upper'], first['lower'])}{on_side}"
    if after is None:
        return held
    following = pair(after["upper"], after["lower"])
    return f"{held}.   Next would be {following}, after {length(after['gap_mm'])} of closing"


def _touching(case: Case, at: PoseAt) -> str:
    """Say which pairs touch, those of the nonworking side apart."""
    patches = at.patches
    pairs = list(
        dict.fromkeys(zip(patches.tooth_upper.tolist(), patches.tooth_lower.tolist(), strict=True))
    )
    within = f"within {tolerance(case.judging.tolerance_mm)}"
    if not pairs:
        return f"No teeth touch {within}"
    groups: dict[str, list[str]] = {}
    for upper, lower in pairs:
        groups.setdefault(_role(upper, at), []).append(pair(upper, lower))
    said = [
        f"{_marks(role)['small']} {_ROLE_WORDS[role]} {_named(names)}"
        for role, names in sorted(groups.items(), reverse=True)
    ]
    return f"{counted(len(pairs), 'pair')} in contact {within}:   {'   '.join(said)}"


def _role(upper: int, at: PoseAt) -> str:
    """Return on which side a contact lies; none before the jaw has gone anywhere."""
    return role_of(upper, at.excursion) if at.travel_mm else ""


def _marks(role: str) -> Mapping[str, str]:
    return _CUBES if role == "nonworking" else _BALLS


def _named(names: list[str]) -> str:
    more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
    return f"{', '.join(names[:_NAMED])}{more}"


def _setting(case: Case, state: ViewState) -> str:
    step = step_words(case, state.setting)
    differs = f"   ({len(state.changes)} changed; z: back)" if state.changes else ""
    words = setting_words(case, state.setting, state.side)
    group = group_words(case, state.setting)
    return f"Setting of {group}: {words}   [{f'↑ ↓ {step}'.rstrip()}]{differs}"


def _shown(state: ViewState) -> str:
    """Say from where the casts are seen, and which of them is clear or away."""
    parts = [f"Seen: {_LOOKS[state.look]}"]
    parts += [
        f"{cast} {'see-through' if how == 'clear' else 'put away'}"
        for cast, how in (("upper", state.upper), ("lower", state.lower))
        if how != "solid"
    ]
    lines = "; cut lines: upper thin blue, lower thick orange" if state.plane else ""
    return f"{', '.join(parts)}{lines}"


def cut_words(state: ViewState) -> str:
    """Say which plane cuts, and where it lies in the hinge frame."""
    if not state.plane:
        return "Cut: none"
    axis = PLANES[state.plane]
    at = state.places_mm[axis]
    how_far = f"{number(abs(at), 1)} mm"
    where = {
        0: f"{how_far} {'in front of' if at >= 0.0 else 'behind'} the hinge axis",
        1: f"{how_far} to the {'left' if at >= 0.0 else 'right'} of the midplane",
        2: f"{how_far} {'above' if at >= 0.0 else 'below'} the hinge axis",
    }[axis]
    if axis == 1 and at == 0.0:
        where = "in the midplane"
    name = f"{'xyz'[axis]} = {number(at, 1)} mm"
    return f"Cut: {state.plane} plane, {where} ({name})"
