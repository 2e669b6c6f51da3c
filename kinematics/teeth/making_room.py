"""Replacement teeth slid along the arch so that they stand beside their neighbours, not in them."""

from typing import Final

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.teeth.meeting import Teeth
from kinematics.teeth.proximal_contacts import Side, neighbour_gap, posterior_sides
from kinematics.teeth.standing_tooth import StandingTooth

#: Neighbours may overlap by this much; what is more is made room for, mm.
OVERLAP_MM: Final = 0.02


def _sides(tooth: StandingTooth) -> tuple[Side, Side] | None:
    return None if tooth.crown is None else posterior_sides(tooth.crown.form, tooth.heights)


def _gaps(row: list[StandingTooth]) -> list[float | None]:
    """Return the gap of every two neighbours, mm; None where they do not stand side by side."""
    sides = [_sides(tooth) for tooth in row]
    gaps: list[float | None] = []
    for k in range(len(row) - 1):
        mine, other = sides[k], sides[k + 1]
        adjoining = row[k + 1].number == row[k].number + 1
        if mine is None or other is None or not adjoining:
            gaps.append(None)
        else:
            gaps.append(neighbour_gap(row[k].place, mine[1], row[k + 1].place, other[0]))
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
    teeth: Teeth, replacements: frozenset[str]
) -> dict[str, StandingTooth] | None:
    """Return the teeth with replacement teeth slid along the arch until none overlaps another.

    None if they stand beside each other as they are.

    Raises
    ------
    InputError
        Natural neighbours on both sides leave no room.
    """
    moved = dict(teeth)
    slid = False
    for arch in "UL":
        row = sorted((t for t in teeth.values() if t.kind[0] == arch), key=lambda t: t.number)
        if not any(tooth.kind in replacements for tooth in row):
            continue
        gaps = _gaps(row)
        slides = _slides(gaps, [tooth.kind in replacements for tooth in row])
        for k, gap in enumerate(gaps):
            if gap is not None and gap + slides[k + 1] - slides[k] < -1.5 * OVERLAP_MM:
                raise InputError(
                    f"replacements: no room between natural neighbours; {row[k].number} and "
                    f"{row[k + 1].number} from the midline overlap by {-gap:.2f} mm; make their "
                    "neighbour a replacement tooth or missing too, or give less over-eruption"
                )
        for tooth, slide in zip(row, slides, strict=True):
            if slide != 0.0:
                slid = True
                step: Floats = slide * tooth.place.distal
                moved[tooth.kind] = tooth.at(tooth.place.moved(step))
    return moved if slid else None
