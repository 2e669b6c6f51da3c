"""What guides an excursion, in sentences."""

import math
from typing import Final

from kinematics.contact.mounted import GUIDED_BY_NOTHING, GUIDED_BY_TABLE
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools
from kinematics.planning.contact_runs import pair_gaps_of, pairs_within, runs
from kinematics.planning.guidance_kinds import NONWORKING_ONLY, role, working_side
from kinematics.planning.guidance_stretches import Stretch, travel_of_kinds
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.wording import (
    enumeration,
    pair_list,
    pair_name,
    sentence,
    travel_range,
)

#: More stretches than this are told as shares of the travel.
_MOST_STRETCHES: Final = 3


def guidance_text(kind: str, stretches: tuple[Stretch, ...]) -> str:
    """Return the kind, what comes before, amid and after it, and how it changes, in a sentence."""
    return sentence(f"{_interrupted_text(kind, stretches)}{_stretches_text(stretches)}")


def guidance_in_short(kind: str, stretches: tuple[Stretch, ...]) -> str:
    """Return the kind, and whether nonworking contacts carry the jaw before, amid or after it."""
    parts = []
    for word, some in _alone(kind, stretches):
        pairs = {pair for stretch in some for pair in stretch.guiding}
        parts.append(
            f"{word} {'a nonworking contact' if len(pairs) == 1 else 'nonworking contacts'}"
        )
    return ", ".join(filter(None, [kind, enumeration(parts)]))


def _interrupted_text(kind: str, stretches: tuple[Stretch, ...]) -> str:
    """Return where nonworking contacts alone carry the jaw; empty where none does."""
    parts = [f"{word} {_alone_text(some)}" for word, some in _alone(kind, stretches)]
    return f"{kind}, {enumeration(parts)}: " if parts else ""


def _alone(kind: str, stretches: tuple[Stretch, ...]) -> list[tuple[str, list[Stretch]]]:
    """Return the stretches in which nonworking contacts alone carry the jaw, by when they do.

    They interrupt only what has begun before and goes on after them.
    """
    alone = [stretch for stretch in stretches if stretch.kind == NONWORKING_ONLY != kind]
    own = [stretch for stretch in stretches if stretch.kind == kind]
    if not alone or not own:
        return []
    begin, end = own[0].from_mm, own[-1].to_mm
    told = [
        ("after", [stretch for stretch in alone if stretch.to_mm < begin]),
        ("interrupted by", [s for s in alone if s.from_mm > begin and s.to_mm < end]),
        ("followed by", [stretch for stretch in alone if stretch.from_mm > end]),
    ]
    return [(word, some) for word, some in told if some]


def _alone_text(alone: list[Stretch]) -> str:
    """Return which nonworking contacts carry the jaw alone, and where."""
    parts = []
    for pairs in dict.fromkeys(stretch.guiding for stretch in alone):
        ranges = [travel_range(s.from_mm, s.to_mm) for s in alone if s.guiding == pairs]
        contacts = "contact" if len(pairs) == 1 else "contacts"
        parts.append(f"the nonworking {contacts} {pair_list(pairs)} {enumeration(ranges)}")
    return enumeration(parts)


def _stretches_text(stretches: tuple[Stretch, ...]) -> str:
    if len(stretches) > _MOST_STRETCHES:
        travel = travel_of_kinds(stretches)
        whole = math.fsum(travel.values())
        parts = [
            f"{kind} over {100.0 * share / whole:.0f} %"
            for kind, share in sorted(travel.items(), key=lambda item: -item[1])
        ]
        start, end = stretches[0].from_mm, stretches[-1].to_mm
        pairs = {pair: None for stretch in stretches for pair in stretch.guiding}
        text = f"{', '.join(parts)} of the way {travel_range(start, end)}"
        first, last = stretches[0], stretches[-1]
        return (
            f"{text} ({pair_list(pairs)}), first {first.kind} to {first.to_mm:.1f} mm, at last"
            f" {last.kind} from {last.from_mm:.1f} mm on"
        )
    parts = []
    for stretch in stretches:
        words = f"{stretch.kind} {travel_range(stretch.from_mm, stretch.to_mm)}"
        parts.append(f"{words} ({pair_list(stretch.guiding)})" if stretch.guiding else words)
    return ", then ".join(parts)


def table_text(sweep: Sweep, mask: Bools) -> str:
    """Return that the guide table, or nothing, carries the jaw in some poses (n,); else empty."""
    if (sweep.guide[mask] == GUIDED_BY_TABLE).all():
        return "The incisal guide table carries the jaw."
    if (sweep.guide[mask] == GUIDED_BY_NOTHING).any():
        return "In part of it nothing meets at all."
    return ""


def nonworking_text(sweep: Sweep, mask: Bools, tolerance_mm: float) -> str:
    """Return which nonworking pairs touch in some poses (n,), and where; empty where none does."""
    side = working_side(sweep.excursion)
    parts = []
    for pair in pairs_within(sweep, mask, tolerance_mm):
        if side == 0 or role(pair, side) != "nonworking":
            continue
        found = runs(mask & (pair_gaps_of(sweep, *pair) <= tolerance_mm))
        start, end = sweep.travel_mm[found[0].first], sweep.travel_mm[found[-1].last]
        parts.append(f"{pair_name(*pair)} {travel_range(float(start), float(end))}")
    return f"Nonworking contact: {', '.join(parts)}." if parts else ""


def not_judged_text(sweep: Sweep, settings: JudgingSettings) -> str:
    """Return why an excursion of which no pose is judged has no verdict."""
    last, end = float(sweep.travel_mm[-1]), "where the movement ends"
    if sweep.edge_to_edge_mm is not None:
        last, end = sweep.edge_to_edge_mm, "to edge-to-edge"
    return (
        f"Not judged: only {last:.1f} mm of travel {end}, within the"
        f" {settings.near_mi_mm:g} mm next to {sweep.excursion.start} in which contacts are notes"
        " only."
    )
