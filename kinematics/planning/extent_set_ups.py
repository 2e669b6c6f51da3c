"""Which shorter set-ups of a denture base are compared, and where its base ends."""

from collections.abc import Sequence
from itertools import product

from kinematics.planning.extent import BaseEnd, nearest_to_front
from kinematics.planning.judging import DentureBase
from kinematics.tooth_codes import is_posterior, is_right, is_upper, place

Teeth = tuple[int, ...]


def end_of(base: DentureBase, natural: Sequence[int]) -> BaseEnd:
    """Return where a base ends.

    Parameters
    ----------
    base : DentureBase
        The base.
    natural : sequence of int
        Teeth of both arches that stand on no denture base.
    """
    sides = back_teeth(base)
    if not sides:
        return "front teeth only"
    bounded = all(is_bounded(teeth, natural) for teeth in sides)
    return "tooth-bounded" if bounded else "distal extension"


def set_ups_of(base: DentureBase, natural: Sequence[int]) -> tuple[Teeth, ...]:
    """Return the set-ups to compare: shortest first, of equals the one nearest to the front.

    Front teeth stay: looks and speech decide about them (common practice). Where no tooth stands
    behind, back teeth are left out from the back; between teeth from either end. A base with back
    teeth on both sides has every combination.

    Parameters
    ----------
    base : DentureBase
        The base.
    natural : sequence of int
        Teeth of both arches that stand on no denture base.

    Returns
    -------
    tuple of tuple of int
        Each in the order of the base; the last are all its teeth.
    """
    front = {code for code in base.teeth if not is_posterior(code)}
    ways = [_parts(teeth, is_bounded(teeth, natural)) for teeth in back_teeth(base)]
    kept = (front.union(*parts) for parts in product(*ways))
    found = {tuple(code for code in base.teeth if code in some) for some in kept}
    return tuple(sorted(found, key=nearest_to_front))


def back_teeth(base: DentureBase) -> list[Teeth]:
    """Return the back teeth of either side that has some, from the front to the back."""
    back = sorted((code for code in base.teeth if is_posterior(code)), key=place)
    sides = (tuple(code for code in back if is_right(code) == right) for right in (True, False))
    return [side for side in sides if side]


def is_bounded(teeth: Teeth, natural: Sequence[int]) -> bool:
    """Tell whether a natural tooth of the same side and arch stands behind some teeth."""
    last = teeth[-1]
    return any(
        place(code) > place(last)
        for code in natural
        if is_upper(code) == is_upper(last) and is_right(code) == is_right(last)
    )


def _parts(teeth: Teeth, bounded: bool) -> list[frozenset[int]]:
    """Return what may stay of the back teeth of one side."""
    count = len(teeth)
    parts = {frozenset(teeth[:kept]) for kept in range(count + 1)}
    if bounded:
        parts |= {frozenset(teeth[first:]) for first in range(count)}
    return list(parts)
