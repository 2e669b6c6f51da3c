"""Back teeth that meet nothing in MI, as findings."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.planning.findings import Figure, Finding, margin_to, told_apart
from kinematics.planning.joined_teeth import Joined, holder_of
from kinematics.planning.judging import source_of, threshold_of
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.wording import enumeration, length, sentence
from kinematics.tooth_codes import is_upper

#: What becomes of a tooth without an opponent.
OVER_ERUPTION_SOURCE: Final = (
    "of 84 molars without an opponent for ten years or more 18 % had not over-erupted, 58 % by less"
    " than 2 mm, 24 % by 2 mm or more (Kiliaridis et al., Int J Prosthodont 2000;13:480-486)"
)


@dataclass(frozen=True)
class Holders:
    """What may keep a tooth without a stop in its place, beside what the occlusion says.

    Attributes
    ----------
    with_stop : frozenset of int
        Teeth with a centric stop.
    others : mapping of int to str
        Teeth that a rest or an implant holds, and which, as a sentence says it.
    """

    with_stop: frozenset[int]
    others: Mapping[int, str] = field(default_factory=dict)

    def of(self, code: int, joined: tuple[Joined, ...]) -> str:
        """Return what holds a tooth, as a clause; empty for nothing."""
        holder = holder_of(code, joined, self.with_stop)
        if holder is not None:
            unit, others = holder
            has = "which has a stop" if len(others) == 1 else "which have stops"
            return f"the {unit.called} holds {code} with {enumeration(others)}, {has}"
        return f"{self.others[code]} holds {code}" if code in self.others else ""


def unstopped_findings(
    occlusion: Occlusion, mi: Sweep, without: tuple[int, ...], holders: Holders
) -> tuple[Finding, ...]:
    """Return one finding a tooth, or one for two that face each other and both lack a stop.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    mi : Sweep
        Any excursion that starts in MI; its first pose is read.
    without : tuple of int
        Teeth without a centric stop.
    holders : Holders
        What may keep them in their place.
    """
    nearest = {code: _nearest(mi, code) for code in without}
    found = []
    for code in without:
        gap, other = nearest[code]
        mutual = other in nearest and nearest[other][1] == code
        if not mutual:
            found.append(_finding(occlusion, mi, (code,), other, gap, holders))
        elif is_upper(code):
            found.append(_finding(occlusion, mi, (code, other), other, gap, holders))
    return tuple(found)


def _nearest(mi: Sweep, code: int) -> tuple[float, int]:
    """Return the shortest distance of a tooth in MI, and to which opponent; (inf, 0) for none."""
    upper = is_upper(code)
    rows = mi.pair_gap_mm[0] if upper else mi.pair_gap_mm[0].T
    codes, opposing = (mi.upper_codes, mi.lower_codes)[:: 1 if upper else -1]
    gaps = rows[codes.index(code)]
    gap = float(gaps.min())
    return gap, int(opposing[int(np.argmin(gaps))]) if math.isfinite(gap) else 0


def _finding(
    occlusion: Occlusion,
    mi: Sweep,
    teeth: tuple[int, ...],
    other: int,
    gap_mm: float,
    holders: Holders,
) -> Finding:
    settings = occlusion.settings
    threshold = threshold_of(settings, "stop_tolerance_mm")
    near = gap_mm <= settings.tolerance_mm
    arc_gap = _least_arc_gap_mm(mi, teeth)
    # Where no patch is near enough for an arc gap, the shortest distance is no more than that.
    decides = arc_gap if math.isfinite(arc_gap) else min(gap_mm, mi.gap_limit_mm)
    margin = margin_to(decides, threshold)
    named = {is_upper(code): code for code in (other, *teeth) if code}
    who = _who(occlusion, mi, teeth, other, gap_mm)
    means = _near(settings.tolerance_mm) if near else _means(occlusion, teeth, holders)
    held = not near and all(holders.of(code, occlusion.joined) for code in teeth)
    return Finding(
        kind="no centric stop",
        severity="note" if near or held else "attention",
        text=sentence(f"in MI {who}; {means}"),
        tooth_upper=named.get(True),
        tooth_lower=named.get(False),
        figures=_figures(other, gap_mm, arc_gap),
        threshold=threshold,
        threshold_source=f"{source_of(settings, 'stop_tolerance_mm')}; {OVER_ERUPTION_SOURCE}",
        margin=margin,
        determined=told_apart(occlusion.mi_scatter_mm, margin.value),
        about=teeth[0] if other and len(teeth) == 1 else None,
    )


def _least_arc_gap_mm(mi: Sweep, teeth: tuple[int, ...]) -> float:
    """Return the least gap along the closing arc of some teeth in MI; inf where none is known."""
    patches = mi.patches
    theirs = np.isin(patches.tooth_upper, teeth) | np.isin(patches.tooth_lower, teeth)
    of_teeth = (patches.tooth_upper > 0) & (patches.tooth_lower > 0)
    rows = (patches.pose == 0) & theirs & of_teeth
    return float(np.min(patches.arc_gap_mm, where=rows, initial=math.inf))


def _figures(other: int, gap_mm: float, arc_gap_mm: float) -> tuple[Figure, ...]:
    figures = [("least distance", gap_mm if other else math.inf), ("least arc gap", arc_gap_mm)]
    return tuple(Figure(name, value, "mm") for name, value in figures if math.isfinite(value))


def _who(occlusion: Occlusion, mi: Sweep, teeth: tuple[int, ...], other: int, gap_mm: float) -> str:
    names = [occlusion.name_of(code) for code in teeth]
    if len(teeth) == 2:
        return (
            f"neither {names[0]} nor {names[1]} has a centric stop, and they stand"
            f" {length(gap_mm)} apart"
        )
    if other:
        far = f"{length(gap_mm)} from {occlusion.name_of(other)}"
    else:
        far = f"over {length(mi.gap_limit_mm)} from any tooth"
    return f"{names[0]} has no centric stop and stands {far}"


def _near(tolerance_mm: float) -> str:
    return f"that is within the contact tolerance of {length(tolerance_mm)}"


def _means(occlusion: Occlusion, teeth: tuple[int, ...], holders: Holders) -> str:
    """Say what becomes of teeth without a stop: held, free to over-erupt, or without use."""
    told = []
    free = []
    for code in teeth:
        held = holders.of(code, occlusion.joined)
        if code in occlusion.replacement_teeth:
            continue
        if held:
            told.append(held)
        elif code in occlusion.pontics:
            told.append(f"pontic {code} without a stop carries nothing in MI")
        else:
            free.append(code)
    if free:
        are = "is free" if len(free) == 1 else "are free"
        told.append(
            f"{enumeration(free)} {are} to over-erupt unless held by a splint, a bridge or a rest"
        )
    return "; ".join(told) or (
        "a replacement tooth without a stop carries nothing in MI and holds no opponent"
    )
