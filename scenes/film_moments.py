"""The moments of a film: out along each movement, a rest, and back, at an even speed."""

from collections.abc import Sequence
from itertools import chain
from typing import Final

import numpy as np

from kinematics.case_filmed import Filmed
from kinematics.contact.mounted import GUIDED_BY_TABLE, MountedCasts
from kinematics.conventions import Floats
from kinematics.planning.guidance_kinds import working_side
from kinematics.planning.wording import sentence
from scenes.film_movements import order_of
from scenes.film_shot import MarkLook, Moment, MomentMarks
from scenes.movement_styles import MI, style_of
from scenes.moving_casts import moves
from scenes.phrases import excursion_title, length, pair, role_of

#: How long a film rests in MI and where the jaw turns back, seconds.
REST_S: Final = 0.6
#: Pairs that are named; of more only how many.
_NAMED: Final = 4
#: What marks mean, by what is filmed.
_BEHIND: Final[tuple[MarkLook, str]] = ("hidden", "behind a tooth")
_FIRST: Final[tuple[MarkLook, str]] = ("strokes", "first contact, guides")
_IN_MI: Final[tuple[tuple[MarkLook, str], ...]] = (("filled", "touch in MI"), _BEHIND)
_STRAIGHT: Final[tuple[tuple[MarkLook, str], ...]] = (("filled", "teeth touch"), _FIRST, _BEHIND)
_BORDER: Final[tuple[tuple[MarkLook, str], ...]] = (
    ("filled", "teeth touch"),
    _FIRST,
    ("track", "track of the lower incisal point"),
)
_LATERAL: Final[tuple[tuple[MarkLook, str], ...]] = (
    ("filled", "touch, working side"),
    ("hollow", "touch, nonworking side"),
    _FIRST,
    _BEHIND,
)


def moments(casts: MountedCasts, shown: Sequence[Filmed], pictures_a_s: float) -> list[Moment]:
    """Return every picture of a film; for the parameters see `moments_of_each`."""
    return list(chain.from_iterable(moments_of_each(casts, shown, pictures_a_s)))


def moments_of_each(
    casts: MountedCasts, shown: Sequence[Filmed], pictures_a_s: float
) -> list[list[Moment]]:
    """Return every picture of each movement of a film.

    Parameters
    ----------
    casts : MountedCasts
        What is shown.
    shown : sequence of Filmed
        Movements, one after another, each in steps of one picture.
    pictures_a_s : float
        How many pictures a second has.
    """
    rest = round(REST_S * pictures_a_s)
    found = []
    for one in shown:
        there, order = _moments_of(casts, one), order_of(one)
        back = order[len(there) :]
        found.append([*[there[0]] * rest, *there, *[there[-1]] * rest, *(there[i] for i in back)])
    return found


def last_moment(casts: MountedCasts, one: Filmed) -> Moment:
    """Return the moment at the end of a movement."""
    return _moments_of(casts, one)[-1]


def _moments_of(casts: MountedCasts, one: Filmed) -> list[Moment]:
    upper, lower = one.near.upper_mm, one.near.lower_mm
    head = f"{excursion_title(one.excursion)} from {one.excursion.start}"
    return [
        Moment(
            move,
            upper[i],
            lower[i],
            head,
            _reached(casts, one, i),
            _told(one, i),
            _marks(one, i),
            one.incisal_point[i] if one.phases else None,
        )
        for i, move in enumerate(moves(casts, one.poses))
    ]


def _reached(casts: MountedCasts, one: Filmed, i: int) -> str:
    """Return how far the jaw has come; opened as one measures it between the front teeth."""
    if not one.phases:
        return f"travel {one.travel_mm[i]:.2f} mm"
    way = np.linalg.norm(one.incisal_point[i] - casts.incisal_point_in_mi)
    return f"incisal point {way:.1f} mm from MI"


def _marks(one: Filmed, i: int) -> MomentMarks:
    """Return where teeth touch at one place; in MI no side works yet, and many hold the jaw."""
    rows = one.contacts.pose == i
    places, teeth = one.contacts.centroid[rows], one.contacts.tooth_upper[rows]
    if one.excursion.start == "MI" and one.travel_mm[i] == 0.0:
        return MomentMarks("MI", MI, places, np.zeros(len(places), dtype=bool), None, _IN_MI)
    away = np.array([role_of(int(tooth), one.excursion) == "nonworking" for tooth in teeth], bool)
    first = None if np.isnan(one.guiding[i]).any() else one.guiding[i]
    keys = _BORDER if one.phases else _LATERAL if working_side(one.excursion) else _STRAIGHT
    style = style_of(one.excursion)
    return MomentMarks(one.excursion.name, style, places, away, first, keys)


def _told(one: Filmed, i: int) -> str:
    """Return what touches at one place, and how far back teeth are apart."""
    pairs = one.touching[i]
    named = ", ".join(pair(upper, lower) for upper, lower in pairs[:_NAMED])
    more = f" and {len(pairs) - _NAMED} more" if len(pairs) > _NAMED else ""
    touching = f"Touching: {named}{more}" if pairs else "No teeth touch"
    table = ", guided by the incisal table" if one.guide[i] == GUIDED_BY_TABLE else ""
    phase = f"{sentence(one.phases[i])}  " if one.phases else ""
    return (
        f"{phase}{touching}{table}.  Back teeth apart: {_apart(one.back_gap_mm[i], one.limit_mm)}."
    )


def _apart(gaps_mm: Floats, limit_mm: float) -> str:
    words = (
        f"more than {limit_mm:g} mm" if np.isinf(gap) else length(float(gap)) for gap in gaps_mm
    )
    return ", ".join(f"{side} {said}" for side, said in zip(("right", "left"), words, strict=True))
