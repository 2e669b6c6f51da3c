"""Moved teeth slid along the arch so that they stand beside their neighbours, not in them."""

from itertools import pairwise
from typing import Final

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.teeth.anterior_crown import Sheets
from kinematics.teeth.centric_stops import code_of
from kinematics.teeth.meeting import Teeth
from kinematics.teeth.proximal_contacts import (
    Side,
    anterior_sides,
    neighbour_gap,
    posterior_sides,
)
from kinematics.teeth.standing_tooth import StandingTooth

#: Neighbours may overlap by this much; where more do, room is made down to the second, mm.
MOST_OVERLAP_MM: Final = 0.03
OVERLAP_MM: Final = 0.02


def _sides(tooth: StandingTooth) -> tuple[Side, Side]:
    if tooth.crown is not None:
        return posterior_sides(tooth.crown.form, tooth.heights)
    return anterior_sides(Sheets(tooth.kind))


def _gaps(row: list[StandingTooth], movable: frozenset[str]) -> list[float | None]:
    """Return the gap of every two neighbours, mm.

    None where they do not stand side by side, and where neither may move.
    """
    judged = [
        after.number == tooth.number + 1 and bool({tooth.kind, after.kind} & movable)
        for tooth, after in pairwise(row)
    ]
    sides = [
        _sides(tooth) if before or behind else None
        for tooth, before, behind in zip(row, [False, *judged], [*judged, False], strict=True)
    ]
    gaps: list[float | None] = []
    for (tooth, after), (mine, other), wanted in zip(
        pairwise(row), pairwise(sides), judged, strict=True
    ):
        if wanted and mine is not None and other is not None:
            gaps.append(neighbour_gap(tooth.place, mine[1], after.place, other[0]))
        else:
            gaps.append(None)
    return gaps


def _slides(gaps: list[float | None], may_move: list[bool]) -> list[float]:
    """Return how far each tooth must move distally, mm, so that none overlaps the one before it.

    Overlaps are pushed distally as far as teeth may move; where a natural tooth stands in the
    way, they are pushed back mesially.
    """
    slides = [0.0] * len(may_move)
    for k, gap in enumerate(gaps):
        if gap is not None and may_move[k + 1]:
            slides[k + 1] = max(0.0, slides[k] - gap - OVERLAP_MM)
    for k, gap in reversed(list(enumerate(gaps))):
        if gap is not None and may_move[k]:
            slides[k] = min(slides[k], slides[k + 1] + gap + OVERLAP_MM)
    return slides


def beside_neighbours(
    teeth: Teeth, movable: frozenset[str], left: bool
) -> dict[str, StandingTooth] | None:
    """Return the teeth with some slid along the arch until none overlaps another.

    None if they stand beside each other as they are.

    Parameters
    ----------
    teeth : mapping of str to StandingTooth
        Of the left side.
    movable : frozenset of str
        Crown types that may be slid.
    left : bool
        Which side it is, for messages.

    Raises
    ------
    InputError
        Neighbours that stay where they are leave no room.
    """
    moved = dict(teeth)
    slid = False
    for arch in "UL":
        row = sorted((t for t in teeth.values() if t.kind[0] == arch), key=lambda t: t.number)
        if not any(tooth.kind in movable for tooth in row):
            continue
        gaps = _gaps(row, movable)
        if all(gap is None or gap >= -MOST_OVERLAP_MM for gap in gaps):
            continue
        slides = _slides(gaps, [tooth.kind in movable for tooth in row])
        for k, gap in enumerate(gaps):
            if gap is not None and gap + slides[k + 1] - slides[k] < -MOST_OVERLAP_MM:
                codes = [code_of(row[j].kind, left) for j in (k, k + 1)]
                raise InputError(
                    f"over_erupted and replacement teeth: {codes[0]} and {codes[1]} overlap by "
                    f"{-gap:.2f} mm and find no room between their neighbours; make one of them or "
                    "a neighbour a replacement tooth or missing, or give more or less over-eruption"
                )
        for tooth, slide in zip(row, slides, strict=True):
            if slide != 0.0:
                slid = True
                step: Floats = slide * tooth.place.distal
                moved[tooth.kind] = tooth.at(tooth.place.moved(step))
    return moved if slid else None
