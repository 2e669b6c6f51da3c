"""What replacement teeth do in excursions, as findings."""

import math
from typing import Final

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.planning.base_rules import BaseRule, place_in, rule_of
from kinematics.planning.findings import Figure, Finding, told_apart
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.replacement_limits import (
    TURNING_NAME,
    deciding_difference_mm,
    deciding_limit,
)
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
    limit = deciding_limit(settings, rule, contact)
    allowed = ", allowed" if contact.standing == "allowed by its scheme" else ""
    return Finding(
        kind=f"replacement tooth {'touches' if contact.touches else 'comes near'}{allowed}",
        severity=contact.severity,
        text=_text(occlusion, sweep, contact, rule),
        excursion=contact.excursion,
        travel_from_mm=contact.travel_from_mm,
        travel_to_mm=contact.travel_to_mm,
        tooth_upper=pair[0],
        tooth_lower=pair[1],
        place=contact.place,
        figures=_figures(contact, _measured(sweep, contact)),
        threshold=limit.threshold,
        threshold_source=limit.source,
        margin=limit.margin,
        runner_up=contact.runner_up,
        determined=told_apart(
            settings.record_scatter_mm,
            contact.height_mm,
            deciding_difference_mm(settings, rule, contact),
        ),
    )


def _figures(contact: ReplacementContact, measured: str) -> tuple[Figure, ...]:
    at = f"at {contact.read_at_mm:.1f} mm"
    name = f"least distance at {contact.least_gap_at_mm:.1f} mm"
    figures = [Figure(name, contact.least_gap_mm, "mm")]
    if contact.touches:
        height = f"height along the closing arc{measured} {at}"
        figures.append(Figure(height, contact.height_mm, "mm"))
        if _base_helps(contact):
            name = f"{height}, {contact.tooth} alone"
            figures.append(Figure(name, contact.height_alone_mm, "mm"))
        if contact.holding is not None and contact.on_end_mm > 0.0:
            more_than = length(contact.holding.more_than_mm)
            name = f"longest travel on end held open by more than {more_than}"
            figures.append(Figure(name, contact.on_end_mm, "mm"))
    if contact.unbalanced is not None:
        name = f"nearest teeth to balance it at {contact.unbalanced.at_mm:.1f} mm"
        figures.append(Figure(name, contact.unbalanced.gap_mm, "mm"))
    figures += [
        Figure(f"contact normal to the long axis {at}", contact.normal_to_axis_deg, "deg"),
        Figure(f"across the long axis per N along it {at}", contact.across_per_along, "N/N"),
    ]
    if contact.abutment:
        figures.append(Figure(f"lever to abutment {contact.abutment} {at}", contact.lever_mm, "mm"))
    if contact.decided_by == "carries":
        turning_mm = contact.across_per_along * contact.lever_mm
        figures.append(Figure(f"{TURNING_NAME} {at}", turning_mm, "mm"))
    return tuple(figure for figure in figures if math.isfinite(figure.value))


def _text(occlusion: Occlusion, sweep: Sweep, contact: ReplacementContact, rule: BaseRule) -> str:
    where = f"{travel_range(contact.travel_from_mm, contact.travel_to_mm)}{_breaks(contact.broken)}"
    tooth, opponent = occlusion.name_of(contact.tooth), occlusion.name_of(contact.opponent)
    if contact.touches:
        does = f"{tooth} touches {opponent} {where}"
        does += _holding_words(contact, _measured(sweep, contact))
        does += _balance_words(contact, occlusion.settings.balanced_tolerance_mm)
    else:
        does = f"{tooth} comes within {length(contact.least_gap_mm)} of {opponent} {where}"
    scheme = f"the scheme of base '{contact.base}' ({contact.scheme})"
    judged = f"{scheme} {_ALLOWS[rule.breach]}"
    if contact.unbalanced is not None:
        judged += " and that are balanced"
    if contact.standing == "allowed by its scheme":
        judged += ", and this is one"
    would = "A push there would be" if not contact.touches else "It pushes with"
    lever = (
        f", {contact.lever_mm:.1f} mm from abutment {contact.abutment}" if contact.abutment else ""
    )
    load = (
        f"At {contact.read_at_mm:.1f} mm the normal stands {contact.normal_to_axis_deg:.0f} degrees"
        f" to the long axis of {contact.tooth}. {would}"
        f" {newtons_across(contact.across_per_along)}{lever}."
    )
    return f"{sentence(f'in {excursion_words(sweep.excursion)} {does}; {judged}')} {load}"


def _measured(sweep: Sweep, contact: ReplacementContact) -> str:
    """Return the tooth at whose contact the heights are measured: a turn is longer farther out."""
    pose = int(np.argmin(np.abs(sweep.travel_mm - contact.read_at_mm)))
    closures = sweep.closures
    codes = closures.tooth_upper if is_upper(contact.tooth) else closures.tooth_lower
    return f", measured at {codes[pose]}," if contact.height_mm > 0.0 else ""


def _holding_words(contact: ReplacementContact, measured: str) -> str:
    """Return where and how far the other teeth are held open; empty where they are not."""
    if contact.height_mm <= 0.0:
        return ""
    helped = _base_helps(contact)
    if math.isinf(contact.height_mm):
        without = "the teeth of its base" if helped else "it"
        return f", and without {without} nothing else would meet"
    who, holds = ("the teeth of its base", "hold") if helped else ("it", "holds")
    alone = f" ({length(contact.height_alone_mm)} by {contact.tooth} alone)" if helped else ""
    much = f"{length(contact.height_mm)} along the closing arc{measured.rstrip(',')}"
    most = f"at {contact.read_at_mm:.1f} mm by {much}"
    held = contact.holding
    if held is None:
        return f", and {who} {holds} the other teeth open, most {most}{alone}"
    where = f"{travel_range(held.from_mm, held.to_mm)}{_breaks(held.broken)}"
    return (
        f"; {where} {who} {holds} the other teeth open by more than {length(held.more_than_mm)},"
        f" most {most}{alone}"
    )


def _balance_words(contact: ReplacementContact, tolerance_mm: float) -> str:
    """Return where no teeth balance a contact of a balanced base; empty where they do."""
    lone = contact.unbalanced
    if lone is None:
        return ""
    where = f"{travel_range(lone.from_mm, lone.to_mm)}{_breaks(lone.broken)}"
    nearest = (
        f" (nearest {length(lone.gap_mm)} at {lone.at_mm:.1f} mm)"
        if math.isfinite(lone.gap_mm)
        else ""
    )
    return (
        f"; {where} no back teeth that would balance it come within {length(tolerance_mm)}{nearest}"
    )


def _base_helps(contact: ReplacementContact) -> bool:
    """Tell whether other teeth of the base hold open what this one alone would not."""
    return length(contact.height_alone_mm) != length(contact.height_mm)


def _breaks(broken: bool) -> str:
    return " with breaks" if broken else ""
