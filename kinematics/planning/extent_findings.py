"""How far back the teeth of a base must go, as findings."""

import math
from collections.abc import Iterable

from kinematics.planning.extent import BareTooth, Extent, FurtherTooth, RidgeSlope, SetUp
from kinematics.planning.extent_further import LEAST_FACING_MM
from kinematics.planning.extent_rules import EXTENT_RULES, LEFT_TO_ERUPT, ON_RIDGE, ExtentKind
from kinematics.planning.extent_words import (
    NO_FURTHER_MM,
    further_words,
    longer_words,
    needed_words,
    why_not_words,
)
from kinematics.planning.findings import Figure, Finding, margin_to, told_apart
from kinematics.planning.judging import threshold_of
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.tooth_findings import rule_for, tooth_finding


def extent_findings(occlusion: Occlusion, extents: Iterable[Extent]) -> tuple[Finding, ...]:
    """Return what the lengths of the set-ups of a case mean.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    extents : iterable of Extent
        What was found of every base.
    """
    found: list[Finding] = []
    for extent in extents:
        found += [_on_ridge(occlusion, extent, item) for item in extent.slopes if item.ascends]
        behind = {tooth.tooth for tooth in extent.opposing if tooth.is_behind}
        facing = {tooth.tooth for tooth in extent.opposing} - behind
        for tooth in extent.full.bare:
            if not tooth.held_by and tooth.tooth in behind | facing:
                found.append(_left(occlusion, extent, tooth, tooth.tooth in behind))
        told_by_ridge = extent.is_told_by_stops and extent.shortest is None
        if extent.end != "front teeth only" and not told_by_ridge:
            found.append(_length(occlusion, extent))
        found += [_further(occlusion, extent, item) for item in extent.further]
    return tuple(found)


def _on_ridge(occlusion: Occlusion, extent: Extent, slope: RidgeSlope) -> Finding:
    limit_deg = occlusion.settings.ascending_ridge_deg
    threshold = Figure("steepest slope on which a tooth is set", limit_deg, "deg")
    way = "rises" if slope.rise_deg > 0.0 else "falls away"
    text = (
        f"replacement tooth {slope.tooth} of base '{extent.base}' stands where the ridge {way} by"
        f" {abs(slope.rise_deg):.0f} degrees towards the back, against the occlusal plane: a base"
        f" slides there, and above {limit_deg:g} degrees no tooth is set"
    )
    if extent.is_told_by_stops and extent.shortest is None:
        text += f"; without teeth on that slope {why_not_words(extent, extent.best_off_ridge)}"
    return tooth_finding(
        occlusion,
        rule_for(EXTENT_RULES, ON_RIDGE),
        text,
        tooth=slope.tooth,
        figures=(Figure("slope of the ridge", abs(slope.rise_deg), "deg"),),
        threshold=threshold,
        margin=margin_to(abs(slope.rise_deg), threshold),
    )


def _left(occlusion: Occlusion, extent: Extent, bare: BareTooth, is_behind: bool) -> Finding:
    threshold = threshold_of(occlusion.settings, "stop_tolerance_mm")
    stands = ", stands behind all that the base faces," if is_behind else ""
    kind: ExtentKind = LEFT_TO_ERUPT
    if is_behind:
        kind = "tooth behind a set-up without a stop"
    known = math.isfinite(bare.gap_mm)
    return tooth_finding(
        occlusion,
        rule_for(EXTENT_RULES, kind),
        f"as base '{extent.base}' is set up, {bare.tooth} has no centric stop{stands} and no"
        " splint, bridge or rest is known to hold it: it is free to over-erupt",
        tooth=bare.tooth,
        figures=(Figure("least distance", bare.gap_mm, "mm"),) if known else (),
        threshold=threshold,
        margin=margin_to(bare.gap_mm, threshold) if known else None,
        determined=told_apart(occlusion.mi_scatter_mm, bare.gap_mm - threshold.value),
    )


def _further(occlusion: Occlusion, extent: Extent, further: FurtherTooth) -> Finding:
    threshold = Figure("least that they face each other", LEAST_FACING_MM, "mm")
    figures = [Figure("faced by it along the arch", further.facing_mm, "mm")]
    if further.rise_deg is not None:
        figures.append(Figure("slope of the ridge there", further.rise_deg, "deg"))
    return tooth_finding(
        occlusion,
        rule_for(EXTENT_RULES, "one more tooth would stand opposite"),
        further_words(extent, further),
        tooth=further.holds[0],
        figures=tuple(figures),
        threshold=threshold,
        margin=margin_to(further.facing_mm, threshold),
    )


def _length(occlusion: Occlusion, extent: Extent) -> Finding:
    """Return whether a shorter set-up would be enough, and which."""
    threshold = threshold_of(occlusion.settings, "stop_tolerance_mm")
    if not extent.is_told_by_stops:
        why = "faces replacement teeth alone, which do not erupt"
        if extent.end == "complete denture":
            why = "is held by no tooth of its arch"
        return tooth_finding(
            occlusion,
            rule_for(EXTENT_RULES, "length of a set-up not told by stops"),
            f"base '{extent.base}' {why}: how far back its teeth go is told by balance and hold,"
            " not by stops",
            threshold=threshold,
        )
    shortest = extent.shortest
    if shortest is not None and shortest.dropped:
        held = {tooth.tooth for tooth in shortest.held}
        relies = any(tooth.tooth not in held for tooth in extent.opposing)
        return tooth_finding(
            occlusion,
            rule_for(EXTENT_RULES, "set-up longer than needed"),
            longer_words(extent, shortest),
            figures=_figures(shortest),
            threshold=threshold,
            determined=not relies or told_apart(occlusion.mi_scatter_mm, threshold.value),
        )
    fewer = next(item for item in extent.set_ups if len(item.dropped) == 1)
    differences = [bare.gap_mm - threshold.value for bare in fewer.bare if not bare.held_by]
    return tooth_finding(
        occlusion,
        rule_for(EXTENT_RULES, "set-up as long as needed"),
        needed_words(extent, fewer),
        figures=_figures(fewer),
        threshold=threshold,
        determined=told_apart(occlusion.mi_scatter_mm, *differences, fewer.closes_mm),
    )


def _figures(item: SetUp) -> tuple[Figure, ...]:
    """Return how far MI closes further with a set-up, where that is more than can be told."""
    if math.isinf(item.closes_mm) or item.closes_mm < NO_FURTHER_MM:
        return ()
    return (Figure("lower incisal point, further closed in MI", item.closes_mm, "mm"),)
