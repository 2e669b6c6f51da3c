"""Interferences of natural teeth, and contacts next to MI, as findings."""

import math
from typing import Final

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.planning.contact_runs import judged, moved, pair_gaps_of, pairs_within
from kinematics.planning.findings import Figure, Finding, Severity, margin_to, told_apart
from kinematics.planning.grazing import GRAZING_HEIGHT_MM, GRAZING_SOURCE, GRAZING_TRAVEL_MM
from kinematics.planning.guidance_kinds import Pair, is_posterior_pair, role, working_side
from kinematics.planning.heights import Height
from kinematics.planning.interference import Interference
from kinematics.planning.judging import source_of, threshold_of
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.wording import (
    enumeration,
    excursion_label,
    excursion_words,
    length,
    pair_name,
    sentence,
    travel_range,
)

_MISSING: Final = {
    "working posterior": "no back teeth of the working side touch",
    "nonworking": "no teeth of the nonworking side touch",
    "right posterior": "no back teeth of the right touch",
    "left posterior": "no back teeth of the left touch",
    "anterior": "no front teeth touch",
}


def interference_finding(occlusion: Occlusion, sweep: Sweep, found: Interference) -> Finding:
    """Return one interference, or one contact that the table of rules notes, as a finding."""
    settings, rule = occlusion.settings, found.rule
    heights = [height.height_mm for height in found.heights]
    field, decides = {
        "touches": ("tolerance_mm", found.least_gap_mm),
        "holds open": ("tolerance_mm", found.most_held_mm),
        "lifts": ("balanced_tolerance_mm", max(heights, default=0.0)),
        "is missing": ("balanced_tolerance_mm", found.least_gap_mm),
    }[rule.condition]
    decides = min(decides, sweep.gap_limit_mm)
    threshold = threshold_of(settings, field)
    margin = margin_to(decides, threshold)
    upper, lower = found.pair or (None, None)
    grazing = f"; severity: {GRAZING_SOURCE}" if found.grazes else ""
    determined = told_apart(settings.record_scatter_mm, margin.value, *heights)
    severity: Severity = found.severity
    if not determined and max(heights, default=0.0) <= settings.tolerance_mm:
        # It holds nothing open by itself, and the records cannot tell whether it does with others.
        severity = "note" if severity == "note" else "attention"
    return Finding(
        kind=rule.kind,
        severity=severity,
        text=_text(occlusion, sweep, found),
        excursion=excursion_label(sweep.excursion),
        travel_from_mm=found.travel_from_mm,
        travel_to_mm=found.travel_to_mm,
        tooth_upper=upper,
        tooth_lower=lower,
        place=found.place,
        figures=_figures(occlusion, sweep, found),
        threshold=threshold,
        threshold_source=f"{source_of(settings, field)}; rule: {rule.source}{grazing}",
        margin=margin,
        runner_up=found.runner_up,
        determined=determined,
    )


def _figures(occlusion: Occlusion, sweep: Sweep, found: Interference) -> tuple[Figure, ...]:
    name = f"least distance at {found.least_gap_at_mm:.1f} mm"
    if found.pair is None:
        return (Figure(name, min(found.least_gap_mm, sweep.gap_limit_mm), "mm"),)
    figures = [Figure(name, found.least_gap_mm, "mm")]
    figures += [
        Figure(
            f"height along the closing arc at {height.travel_mm:.1f} mm, measured at"
            f" {height.tooth}, without {height.tooth}",
            height.height_mm,
            "mm",
        )
        for height in found.heights
        if math.isfinite(height.height_mm)
    ]
    if found.rule.condition == "holds open":
        least = min(found.held_open_mm, sweep.gap_limit_mm)
        at = f"at {found.held_open_at_mm:.1f} mm"
        figures.append(Figure(f"least distance of {found.rule.against} {at}", least, "mm"))
    if found.condyle_distraction_mm is not None:
        distraction = found.condyle_distraction_mm
        figures.append(Figure("distraction of the nonworking condyle", distraction, "mm"))
    if found.near_start_mm > found.most_held_mm:
        near = f"held open within {_near_start(occlusion, sweep)}, not judged"
        figures.append(Figure(near, min(found.near_start_mm, sweep.gap_limit_mm), "mm"))
    return tuple(figures)


def _near_start(occlusion: Occlusion, sweep: Sweep) -> str:
    return f"{occlusion.settings.near_mi_mm:g} mm of {_start_words(sweep)}"


def _start_words(sweep: Sweep) -> str:
    """Return next to what contacts are not judged: a movement from CR may pass by MI."""
    return "MI" if sweep.excursion.start == "MI" else "CR or MI"


def _text(occlusion: Occlusion, sweep: Sweep, found: Interference) -> str:
    rule = found.rule
    where = travel_range(found.travel_from_mm, found.travel_to_mm)
    breaks = " with breaks" if found.broken else ""
    excursion = excursion_words(sweep.excursion)
    if found.pair is None:
        within = length(occlusion.settings.balanced_tolerance_mm)
        what = f"{_MISSING[rule.contact]} within {within} {where}{breaks}"
        return sentence(f"in {excursion} {what}: {rule.text}")
    subject, other = found.pair
    if occlusion.judged_teeth(found.pair) == (other,):
        subject, other = other, subject
    parts = [
        f"in {excursion} {occlusion.name_of(subject)} touches {occlusion.name_of(other)}"
        f" {where}{breaks}{heights_words(found.heights)}"
    ]
    if found.carried_by is not None:
        carrier = pair_name(*found.carried_by)
        parts[0] += f", while at {found.carried_at_mm:.1f} mm {carrier} carries the jaw"
    if rule.condition == "holds open":
        where, at = travel_range(*found.interfering_mm), f"at {found.held_open_at_mm:.1f} mm"
        peak = "" if where == at else f", most {at}"
        much = _distance(sweep, found.held_open_mm)
        parts.append(f"{where} it holds {rule.against} open{peak} by {much}")
    text = sentence(f"{'; '.join(parts)}: {rule.text}")
    if found.grazes:
        text += (
            f" It only grazes: by no more than {length(GRAZING_HEIGHT_MM)}, and over less than"
            f" {GRAZING_TRAVEL_MM:g} mm of travel on end."
        )
    near = min(found.near_start_mm, sweep.gap_limit_mm)
    most = found.most_held_mm
    if found.near_start_mm > most and length(near) != length(most):
        text += (
            f" Within {_near_start(occlusion, sweep)}, which is not judged, it holds teeth"
            f" further open, by {_distance(sweep, found.near_start_mm)}."
        )
    if found.condyle_distraction_mm:
        text += (
            " The canine could touch as well if the jaw rocked about this contact and the working"
            f" condyle; that takes the nonworking condyle {length(found.condyle_distraction_mm)}"
            " out of its place."
        )
    return text


def _distance(sweep: Sweep, value_mm: float) -> str:
    if math.isfinite(value_mm):
        return length(value_mm)
    return f"more than {length(sweep.gap_limit_mm)}"


def heights_words(heights: tuple[Height, ...]) -> str:
    """Return how far a contact holds the other teeth open; empty where it does not."""
    lifting = [height for height in heights if height.height_mm > 0.0]
    if not lifting:
        return ""
    if any(math.isinf(height.height_mm) for height in lifting):
        return ", and without it nothing else would meet"
    first, *rest = lifting
    found_by = f"by leaving out {first.tooth}"
    for height in rest:
        same = length(height.height_mm) == length(first.height_mm)
        much = "" if same else f"; {length(height.height_mm)} by leaving out"
        found_by += f"{much or ' or'} {height.tooth}"
    return (
        f" and at {first.travel_mm:.1f} mm holds the other teeth {length(first.height_mm)} open"
        f" along the closing arc, measured at {first.tooth} (found {found_by})"
    )


def near_start_note(
    occlusion: Occlusion, sweep: Sweep, replacement: tuple[ReplacementContact, ...]
) -> Finding | None:
    """Return which back teeth still touch next to MI (or CR) and no longer beyond, as one note.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    sweep : Sweep
        One excursion.
    replacement : tuple of ReplacementContact
        What replacement teeth do; their approaches next to MI are told as well.
    """
    settings = occlusion.settings
    label = excursion_label(sweep.excursion)
    beyond_start = judged(sweep, settings)
    near = moved(sweep, settings) & ~beyond_start
    still = pairs_within(sweep, beyond_start, settings.tolerance_mm)
    last = {}
    for pair in pairs_within(sweep, near, settings.tolerance_mm):
        if pair not in still and _worth_telling(sweep, pair):
            touches = near & (pair_gaps_of(sweep, *pair) <= settings.tolerance_mm)
            last[pair] = float(sweep.travel_mm[np.flatnonzero(touches)[-1]])
    touching = [f"{pair_name(*pair)} (to {end:.1f} mm)" for pair, end in last.items()]
    approaches = [
        contact
        for contact in replacement
        if contact.excursion == label
        and contact.standing == "near MI only"
        and not contact.touches
        # Teeth of a balanced base are meant to stay near.
        and contact.scheme != "balanced"
    ]
    staying = [f"{c.tooth} and {c.opponent} (to {c.travel_to_mm:.1f} mm)" for c in approaches]
    parts = [f"still touch {enumeration(touching)}"] if touching else []
    if staying:
        margin = length(settings.approach_margin_mm)
        parts.append(f"within {margin} of each other stay {enumeration(staying)}")
    if not parts:
        return None
    where = _start_words(sweep)
    return Finding(
        kind=f"contacts near {where}",
        severity="note",
        text=sentence(
            f"in {excursion_words(sweep.excursion)}, next to {where}, {'; '.join(parts)}: notes"
            " only, as they do not stay"
        ),
        excursion=label,
        travel_from_mm=0.0,
        travel_to_mm=max([*last.values(), *(contact.travel_to_mm for contact in approaches)]),
        threshold=threshold_of(settings, "near_mi_mm"),
        threshold_source=source_of(settings, "near_mi_mm"),
    )


def _worth_telling(sweep: Sweep, pair: Pair) -> bool:
    side = working_side(sweep.excursion)
    return is_posterior_pair(pair) or role(pair, side) == "nonworking"
