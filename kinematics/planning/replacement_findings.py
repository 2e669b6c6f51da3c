"""What replacement teeth do in excursions, as findings."""

import math
from typing import Final

from kinematics.contact.sweep import Sweep
from kinematics.planning.base_rules import SEVERITY_SOURCE, place_in, rule_of
from kinematics.planning.findings import Figure, Finding, margin_to, told_apart
from kinematics.planning.judging import source_of
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.wording import (
    excursion_words,
    length,
    newtons_across,
    sentence,
    travel_range,
)
from kinematics.tooth_codes import is_upper

_ALLOWS: Final = {
    "touches or comes near": "allows no contact there",
    "holds open": "allows only contacts that hold nothing open",
    "holds open beyond the mucosa": "allows only contacts that the mucosa can make up for",
}


def replacement_finding(occlusion: Occlusion, sweep: Sweep, contact: ReplacementContact) -> Finding:
    """Return one contact or approach of a replacement tooth as a finding.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    sweep : Sweep
        The excursion in which it happens.
    contact : ReplacementContact
        What happens.
    """
    settings = occlusion.settings
    upper = is_upper(contact.tooth)
    pair = (contact.tooth, contact.opponent) if upper else (contact.opponent, contact.tooth)
    rule = rule_of(contact.scheme, place_in(sweep, pair))
    if rule.breach == "touches or comes near":
        field, name, decides = "approach_margin_mm", "approach margin", contact.least_gap_mm
    elif rule.breach == "holds open":
        field, name, decides = "tolerance_mm", "contact tolerance", contact.height_mm
    else:
        field, name, decides = "balanced_tolerance_mm", "balanced tolerance", contact.height_mm
    threshold = Figure(name, getattr(settings, field), "mm")
    margin = margin_to(min(decides, sweep.gap_limit_mm), threshold)
    allowed = ", allowed" if contact.standing == "allowed by its scheme" else ""
    return Finding(
        kind=f"replacement tooth {'touches' if contact.touches else 'comes near'}{allowed}",
        severity=contact.severity,
        text=_text(occlusion, sweep, contact, _ALLOWS[rule.breach]),
        excursion=contact.excursion,
        travel_from_mm=contact.travel_from_mm,
        travel_to_mm=contact.travel_to_mm,
        tooth_upper=pair[0],
        tooth_lower=pair[1],
        place=contact.place,
        figures=_figures(contact),
        threshold=threshold,
        threshold_source=f"{source_of(settings, field)}; severity: {SEVERITY_SOURCE}",
        margin=margin,
        runner_up=contact.runner_up,
        determined=told_apart(settings.record_scatter_mm, margin.value, contact.height_mm),
    )


def _figures(contact: ReplacementContact) -> tuple[Figure, ...]:
    figures = [
        Figure("least distance", contact.least_gap_mm, "mm"),
        Figure("height along the closing arc", contact.height_mm, "mm"),
        Figure("contact normal to the long axis", contact.normal_to_axis_deg, "deg"),
        Figure("across the long axis per N along it", contact.across_per_along, "N/N"),
    ]
    if contact.abutment:
        figures.append(Figure(f"lever to abutment {contact.abutment}", contact.lever_mm, "mm"))
    return tuple(figure for figure in figures if math.isfinite(figure.value))


def _text(occlusion: Occlusion, sweep: Sweep, contact: ReplacementContact, allows: str) -> str:
    where = travel_range(contact.travel_from_mm, contact.travel_to_mm)
    tooth, opponent = occlusion.name_of(contact.tooth), occlusion.name_of(contact.opponent)
    if contact.touches:
        does = f"{tooth} touches {opponent} {where}{_height_words(contact)}"
    else:
        does = f"{tooth} comes within {length(contact.least_gap_mm)} of {opponent} {where}"
    scheme = f"the scheme of base '{contact.base}' ({contact.scheme})"
    if contact.standing == "allowed by its scheme":
        judged = f"{scheme} {allows}, and this is one"
    else:
        judged = f"{scheme} {allows}"
    would = "A push there would be" if not contact.touches else "It pushes with"
    lever = (
        f", {contact.lever_mm:.1f} mm from abutment {contact.abutment}" if contact.abutment else ""
    )
    load = (
        f"The normal stands {contact.normal_to_axis_deg:.0f} degrees to the long axis of"
        f" {contact.tooth}. {would} {newtons_across(contact.across_per_along)}{lever}."
    )
    return f"{sentence(f'in {excursion_words(sweep.excursion)} {does}; {judged}')} {load}"


def _height_words(contact: ReplacementContact) -> str:
    if contact.height_mm <= 0.0:
        return ""
    if math.isinf(contact.height_mm):
        return ", and without it nothing else would meet"
    return (
        f" and holds the other teeth {length(contact.height_mm)} open along the closing arc at"
        f" {contact.height_at_mm:.1f} mm"
    )
