"""Which shorter set-ups of a denture base are compared, and where its base ends."""

from collections.abc import Iterable, Sequence
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
    if _is_complete(base, natural):
        return "complete denture"
    sides = back_teeth(base)
    if not sides:
        return "front teeth only"
    bounded = all(is_bounded(teeth, natural) for teeth in sides)
    return "tooth-bounded" if bounded else "distal extension"


def set_ups_of(base: DentureBase, natural: Sequence[int]) -> tuple[Teeth, ...]:
    """Return the set-ups to compare: shortest first, of equals the one nearest to the front.

    Front teeth stay: looks and speech decide about them (common practice). Where no tooth stands
    behind, back teeth are left out from the back; between teeth from either end. A base with back
    teeth on both sides has every combination, a complete denture as many teeth on either side.

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
    sides = back_teeth(base)
    ways = [_parts(teeth, is_bounded(teeth, natural)) for teeth in sides]
    chosen: Iterable[tuple[frozenset[int], ...]] = product(*ways)
    if _is_complete(base, natural):
        chosen = (parts for parts in chosen if _is_even(parts, sides))
    kept = (front.union(*parts) for parts in chosen)
    found = {tuple(code for code in base.teeth if code in some) for some in kept}
    return tuple(sorted(found, key=nearest_to_front))


def back_teeth(base: DentureBase) -> list[Teeth]:
    """Return the back teeth of either side that has some, from the front to the back."""
    back = sorted((code for code in base.teeth if is_posterior(code)), key=place)
    sides = (tuple(code for code in back if is_right(code) == right) for right in (True, False))
    return [side for side in sides if side]


def _is_complete(base: DentureBase, natural: Sequence[int]) -> bool:
    upper = is_upper(base.teeth[0])
    return all(is_upper(code) != upper for code in natural)


def _is_even(parts: Sequence[frozenset[int]], sides: Sequence[Teeth]) -> bool:
    """Tell whether as many teeth stay on every side, or all there are."""
    most = max(map(len, parts), default=0)
    return all(len(part) == min(most, len(side)) for part, side in zip(parts, sides, strict=True))


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
