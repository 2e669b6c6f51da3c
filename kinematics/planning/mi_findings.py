"""What MI and CR say: slide, stops, teeth without a stop, stops off the axis."""

from collections.abc import Mapping

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.planning.axis_balance import (
    ALONG_AXIS_DEG,
    ALONG_AXIS_SOURCE,
    angle_off_axis_deg,
)
from kinematics.planning.contact_runs import contact_place
from kinematics.planning.findings import Figure, Finding, Severity, margin_to, told_apart
from kinematics.planning.guidance_kinds import is_posterior_pair
from kinematics.planning.interference_rules import rules_for
from kinematics.planning.judging import source_of, threshold_of
from kinematics.planning.lateral_load import angle_to_axis_deg
from kinematics.planning.occlusion import Occlusion, centre_of, root_direction
from kinematics.planning.slide import LEVEL_MM, NO_SLIDE, SLIDE, CentricSlide
from kinematics.planning.stops import (
    STRIP_HOLDS_MM,
    STRIP_SOURCE,
    Stop,
    strip_readings,
    teeth_without_stop,
)
from kinematics.planning.tooth_findings import upper_and_lower
from kinematics.planning.unstopped_findings import Holders, unstopped_findings
from kinematics.planning.wording import at_most, enumeration, length, pair_name, sentence
from kinematics.tooth_codes import is_posterior, is_right, is_upper


def slide_finding(
    occlusion: Occlusion, slide: CentricSlide, stops: tuple[Stop, ...] = ()
) -> Finding:
    """Return where the teeth meet in CR and what leads from there to MI, as a finding.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    slide : CentricSlide
        From first contact in CR to MI.
    stops : tuple of Stop
        Centric stops in MI: where that is CR, no first contact is told but all of them.
    """
    upper, lower = slide.first_contact_upper, slide.first_contact_lower
    all_stops = stops_together(slide, stops)
    scatter = occlusion.settings.record_scatter_mm
    meeting = enumeration(pair_name(*pair) for pair in ((upper, lower), *slide.together))
    first = f"in centric relation {meeting} meet first{', together' if slide.together else ''}"
    threshold = Figure("change of height that counts as none", LEVEL_MM, "mm")
    margin = margin_to(slide.height_range_mm, threshold)
    kind, source = "intercuspal contact area", ""
    severity: Severity = "note"
    if slide.kind == NO_SLIDE:
        meet = f"in centric relation {all_stops}" if all_stops else first
        kind, text = "CR and MI agree", f"{meet}, and MI is there as well: there is no slide"
        margin = margin_to(slide.length_mm, threshold)
    else:
        on = f" on a {slide.incline} incline of {upper}" if slide.incline else ""
        way = f"{first}{on}; from there to MI the lower incisal point moves {_way(slide)}"
        text = (
            f"{way}, all of it within {length(LEVEL_MM)} of one height: an intercuspal contact area"
            " (long centric), no slide"
        )
        if slide.kind == SLIDE:
            rule = rules_for("any", "centric")[0]
            kind, severity, source = rule.kind, rule.severity, f"; rule: {rule.source}"
            height = length(slide.height_range_mm)
            same = height == length(abs(slide.up_mm))
            change = "" if same else f", its height changing by {height}"
            text = f"{way}{change}: a slide of {length(slide.length_mm)}; {rule.text}"
    return Finding(
        kind=kind,
        severity=severity,
        text=sentence(text),
        tooth_upper=upper if upper > 0 and not all_stops else None,
        tooth_lower=lower if lower > 0 and not all_stops else None,
        place=None if all_stops else slide.first_contact_point,
        figures=(
            Figure("forward", slide.forward_mm, "mm"),
            Figure("to the left", slide.left_mm, "mm"),
            Figure("upward", slide.up_mm, "mm"),
            Figure("length of the slide", slide.length_mm, "mm"),
            Figure(
                "opening in CR more than in MI, about the hinge axis", slide.opening_cr_deg, "deg"
            ),
        ),
        threshold=threshold,
        threshold_source=f"common practice: the contact tolerance{source}",
        margin=margin,
        determined=told_apart(scatter, margin.value),
        together=() if all_stops else slide.together,
    )


def stops_together(slide: CentricSlide, stops: tuple[Stop, ...]) -> str:
    """Return that all centric stops meet at once in CR; empty unless CR is MI itself.

    Within 0.02 mm there is no slide either, but a first contact before the stops.
    """
    if slide.kind != NO_SLIDE or slide.length_mm > 0.0 or len(stops) < 2:
        return ""
    pairs = {(stop.tooth_upper, stop.tooth_lower) for stop in stops}
    on = f" on {len(pairs)} tooth pairs" if len(pairs) > 1 else ""
    within = at_most(max(stop.arc_gap_mm for stop in stops))
    return (
        f"all {len(stops)} centric stops{on} meet together, within {within} along the closing arc"
    )


def _way(slide: CentricSlide) -> str:
    parts = (
        (slide.forward_mm, "forward", "backward"),
        (slide.left_mm, "to the left", "to the right"),
        (slide.up_mm, "up", "down"),
    )
    told = [
        f"{length(abs(value))} {ahead if value > 0.0 else back}"
        for value, ahead, back in parts
        if abs(value) >= 0.005
    ]
    return enumeration(told) or "by less than 5 µm"


def stop_findings(
    occlusion: Occlusion,
    mi: Sweep,
    stops: tuple[Stop, ...],
    held: Mapping[int, str] | None = None,
) -> tuple[Finding, ...]:
    """Return what the centric stops, and their absence, mean.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    mi : Sweep
        Any excursion that starts in MI; its first pose is read.
    stops : tuple of Stop
        Centric stops in MI.
    held : mapping of int to str, optional
        Teeth that a rest or an implant holds, and which.
    """
    found = [_count(occlusion, stops), _strip(mi)]
    codes = (*mi.upper_codes, *mi.lower_codes)
    without = teeth_without_stop(stops, codes)
    back = tuple(code for code in without if is_posterior(code))
    holders = Holders(frozenset(codes) - frozenset(without), held or {})
    found += unstopped_findings(occlusion, mi, back, holders)
    front = [code for code in without if not is_posterior(code)]
    if front:
        found.append(
            Finding(
                kind="front teeth without a centric stop",
                severity="note",
                text=f"Front teeth without a centric stop: {enumeration(front)}.",
                threshold=threshold_of(occlusion.settings, "stop_tolerance_mm"),
                threshold_source=source_of(occlusion.settings, "stop_tolerance_mm"),
            )
        )
    found += _anterior_in_mi(occlusion, mi)
    found += _off_axis(occlusion, mi, stops)
    return tuple(found)


def _count(occlusion: Occlusion, stops: tuple[Stop, ...]) -> Finding:
    back = [stop for stop in stops if is_posterior(stop.tooth_upper)]
    right = sum(is_right(stop.tooth_upper) for stop in back)
    left, front = len(back) - right, len(stops) - len(back)
    widest = max((stop.arc_gap_mm for stop in stops), default=0.0)
    even = f", even within {at_most(widest)} along the closing arc" if len(stops) > 1 else ""
    stops_are = "is 1 centric stop" if right == 1 else f"are {right} centric stops"
    counted = (
        f"there {stops_are} on the right back teeth, {left} on the left and {front} on front teeth"
        if back
        else f"no back tooth of either side has a centric stop; front teeth have {front}"
    )
    return Finding(
        kind="centric stops",
        severity="note" if right and left else ("attention" if back else "serious"),
        text=f"In MI {counted}{even}.",
        figures=(
            Figure("stops on right back teeth", float(right), ""),
            Figure("stops on left back teeth", float(left), ""),
            Figure("stops on front teeth", float(front), ""),
            Figure("widest arc gap of a stop", widest, "mm"),
        ),
        threshold=threshold_of(occlusion.settings, "stop_tolerance_mm"),
        threshold_source=source_of(occlusion.settings, "stop_tolerance_mm"),
    )


def _strip(mi: Sweep) -> Finding:
    readings = strip_readings(mi)
    parts = []
    for reading, verb in (("holds", "be held by"), ("drags", "drag at"), ("free", "slip free at")):
        codes = [code for code, read in readings.items() if read == reading]
        if codes:
            parts.append(f"{verb} {enumeration(codes)}")
    return Finding(
        kind="shim strip in MI",
        severity="note",
        text=f"In MI an 8 µm shim strip would {', '.join(parts)}.",
        threshold=Figure("gap at which a strip still holds", 1e3 * STRIP_HOLDS_MM, "um"),
        threshold_source=STRIP_SOURCE,
    )


def _anterior_in_mi(occlusion: Occlusion, mi: Sweep) -> list[Finding]:
    settings = occlusion.settings
    found = []
    for rule in rules_for(settings.scheme, "MI"):
        for row, column in np.argwhere(mi.pair_gap_mm[0] <= settings.tolerance_mm):
            pair = mi.upper_codes[row], mi.lower_codes[column]
            if is_posterior_pair(pair):
                continue
            gap = float(mi.pair_gap_mm[0, row, column])
            threshold = threshold_of(settings, "tolerance_mm")
            margin = margin_to(gap, threshold)
            names = occlusion.name_of(pair[0]), occlusion.name_of(pair[1])
            found.append(
                Finding(
                    kind=rule.kind,
                    severity=rule.severity,
                    text=sentence(f"in MI {names[0]} touches {names[1]}: {rule.text}"),
                    tooth_upper=pair[0],
                    tooth_lower=pair[1],
                    place=contact_place(mi, 0, pair),
                    figures=(Figure("least distance", gap, "mm"),),
                    threshold=threshold,
                    threshold_source=f"{source_of(settings, 'tolerance_mm')}; rule: {rule.source}",
                    margin=margin,
                    determined=told_apart(occlusion.mi_scatter_mm, margin.value),
                )
            )
    return found


def _off_axis(occlusion: Occlusion, mi: Sweep, stops: tuple[Stop, ...]) -> list[Finding]:
    """Return replacement teeth pushed off their axis; those on mucosa alone in one note a base."""
    held = {code for stop in stops for code in (stop.tooth_upper, stop.tooth_lower)}
    pose = mi.poses[0]
    found = []
    for base in occlusion.bases:
        angles, why = {}, {}
        for code in sorted(held & set(base.teeth)):
            root = root_direction(occlusion, code, pose)
            angle = angle_off_axis_deg(stops, code, root, centre_of(occlusion, code, pose))
            if angle > ALONG_AXIS_DEG:
                angles[code] = angle
                why[code] = _single_incline_text(stops, code, root)
        if base.abutments:
            found += [
                _off_axis_finding("attention", {code: a}, why[code]) for code, a in angles.items()
            ]
        elif angles:
            on_mucosa = f"; base '{base.name}' has no abutment: the push of all its teeth counts"
            found.append(_off_axis_finding("note", angles, on_mucosa))
    return sorted(found, key=lambda item: item.tooth_upper or item.tooth_lower or 0)


def _single_incline_text(stops: tuple[Stop, ...], code: int, root: Floats) -> str:
    """Return why a tooth with a single stop is pushed aside; empty where it has more of them."""
    sign = 1.0 if is_upper(code) else -1.0
    own = [stop for stop in stops if code in (stop.tooth_upper, stop.tooth_lower)]
    if len(own) != 1:
        return ""
    incline = angle_to_axis_deg(sign * np.array(own[0].normal), root)
    return (
        f" (its only stop lies on an incline of {incline:.0f} degrees; no other stop takes up its"
        " push sideways, nor how it twists the tooth about its axis, which counts as well)"
    )


def _off_axis_finding(severity: Severity, angles: dict[int, float], more: str) -> Finding:
    """Return what is said of some teeth and their angles, degrees, by the worst of them."""
    worst = max(angles, key=lambda code: angles[code])
    angle, (upper, lower) = angles[worst], upper_and_lower(worst)
    one = len(angles) == 1
    whose = f"replacement {'tooth' if one else 'teeth'} {enumeration(angles)}"
    each = "together cannot push along its long axis" if one else "cannot push along the long axes"
    at_most = f"the nearest they can come to it is {angle:.0f} degrees"
    if not one:
        at_most = f"at {worst} the nearest they can come to it is {angle:.0f} degrees"
    threshold = Figure("angle that counts as along the axis", ALONG_AXIS_DEG, "deg")
    return Finding(
        kind="stops off the axis",
        severity=severity,
        text=f"The centric stops of {whose} {each}: {at_most}{more}.",
        tooth_upper=upper,
        tooth_lower=lower,
        figures=(Figure("least angle of the stops to the long axis", angle, "deg"),),
        threshold=threshold,
        threshold_source=ALONG_AXIS_SOURCE,
        margin=margin_to(angle, threshold),
    )
