"""Canine guidance on a canine that should not guide alone, as a finding."""

import math
from typing import Final

from kinematics.contact.sweep import Sweep
from kinematics.planning.findings import Figure, Finding, margin_to
from kinematics.planning.grazing import GRAZING_TRAVEL_MM
from kinematics.planning.guidance_kinds import NONE, NONWORKING_ONLY
from kinematics.planning.guidance_without import GuidanceWithout
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.weak_canines import WeakCanine, WeaknessRow, weak_canines
from kinematics.planning.wording import (
    enumeration,
    excursion_label,
    excursion_words,
    length,
    pair_list,
    sentence,
    travel_range,
)

WEAK_CANINE: Final = "canine guidance on a weak canine"
#: What a canine is, in a sentence.
_IS: Final = {
    "replacement tooth": "a replacement tooth",
    "pontic": "a pontic",
    "implant": "an implant",
    "post crown": "built up on a post",
    "root-filled": "root-filled",
    "mobile": "mobile",
    "loose": "loose",
    "reduced bone": "held by less bone than a sound tooth",
    "half of the bone lost": "held by half of its bone or less",
}


def canine_findings(occlusion: Occlusion, sweep: Sweep) -> tuple[Finding, ...]:
    """Return the questions to canine guidance in one excursion, one for each weak canine."""
    return tuple(_finding(occlusion, sweep, found) for found in weak_canines(occlusion, sweep))


def weakness_words(rows: tuple[WeaknessRow, ...]) -> str:
    """Return what a weak canine is, as in "a replacement tooth" or "root-filled and mobile"."""
    return enumeration(_IS[row.weakness] for row in rows)


def _finding(occlusion: Occlusion, sweep: Sweep, found: WeakCanine) -> Finding:
    first, *others = found.pairs
    threshold = Figure("travel that makes a guidance", GRAZING_TRAVEL_MM, "mm")
    figures = [
        Figure("travel over which it guides", found.travel_mm, "mm"),
        Figure("judged travel", found.of_mm, "mm"),
    ]
    instead = found.instead
    if math.isfinite(instead.lowered_mm):
        at = f"at {instead.lowered_at_mm:.1f} mm"
        name = f"the jaw closes further without {found.tooth}, along the closing arc, {at}"
        figures.append(Figure(name, instead.lowered_mm, "mm"))
    sources = dict.fromkeys(row.source for row in found.rows)
    return Finding(
        kind=WEAK_CANINE,
        severity=found.severity,
        text=_text(sweep, found),
        excursion=excursion_label(sweep.excursion),
        travel_from_mm=found.from_mm,
        travel_to_mm=found.to_mm,
        tooth_upper=first[0],
        tooth_lower=first[1],
        figures=tuple(figures),
        threshold=threshold,
        threshold_source=f"chosen for this program; rule: {'; '.join(sources)}",
        margin=margin_to(found.travel_mm, threshold),
        together=tuple(others),
    )


def _text(sweep: Sweep, found: WeakCanine) -> str:
    code, excursion = found.tooth, excursion_words(sweep.excursion)
    where = travel_range(found.from_mm, found.to_mm)
    led = sentence(
        f"in {excursion} canine guidance rests on {code}, which is {weakness_words(found.rows)}"
        f" ({pair_list(found.pairs)}, {where}, {found.travel_mm:.1f} of {found.of_mm:.1f} mm of"
        " judged travel)"
    )
    why = " ".join(sentence(row.text) for row in found.rows)
    return f"{led} {why} {instead_text(code, found.instead)}"


def instead_text(code: int, instead: GuidanceWithout) -> str:
    """Return what guides if a canine is taken out of guidance, in a sentence."""
    if instead.kind == NONE:
        return f"Without {code} nothing else would meet there: other teeth have to be built up."
    much = ""
    if math.isinf(instead.lowered_mm):
        much = "; in part of it nothing would meet"
    elif instead.lowered_mm > 0.0:
        much = (
            f"; for that the jaw closes further by up to {length(instead.lowered_mm)} along the"
            f" closing arc, at {instead.lowered_at_mm:.1f} mm"
        )
    pairs = f" ({pair_list(instead.guiding)})" if instead.guiding else ""
    told = sentence(f"without {code} the guidance would be: {instead.kind}{pairs}{much}")
    if instead.kind != NONWORKING_ONLY:
        return told
    return f"{told} Teeth of the working side have to be built up first, so that they meet sooner."
