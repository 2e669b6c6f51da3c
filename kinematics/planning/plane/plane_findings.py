"""Back teeth that stand above or below the occlusal curve of their arch, as findings."""

from collections.abc import Iterable
from typing import Final

from kinematics.planning.findings import Figure, Finding, margin_to
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.plane.arch_heights import (
    MODERATE,
    MODERATE_FROM_MM,
    ArchPlane,
    ToothHeight,
)
from kinematics.planning.plane.occlusal_planes import occlusal_planes
from kinematics.planning.plane.settings import PLANE_SOURCES, PlaneSettings
from kinematics.planning.tooth_findings import upper_and_lower
from kinematics.planning.unstopped_findings import OVER_ERUPTION_SOURCE
from kinematics.planning.wording import enumeration, length, sentence

ABOVE: Final = "stands out of the occlusal curve"
BELOW: Final = "stands short of the occlusal curve"
BESIDE: Final = "supporting cusps beside the line"
#: Kinds of findings about the occlusal plane.
PLANE_KINDS: Final = (ABOVE, BELOW, BESIDE)
#: How heights are measured, as others did.
_HOW: Final = (
    "measured from the curve of the other teeth, as by Craddock & Youngson (Br Dent J"
    " 2004;196:341-348)"
)


def planes_told(
    occlusion: Occlusion, settings: PlaneSettings
) -> tuple[tuple[ArchPlane, ...], tuple[Finding, ...]]:
    """Return the planes of both arches and what is out of line; arguments as below."""
    planes = occlusal_planes(occlusion, settings)
    return planes, plane_findings(occlusion, planes, settings)


def plane_findings(
    occlusion: Occlusion, planes: Iterable[ArchPlane], settings: PlaneSettings
) -> tuple[Finding, ...]:
    """Return what natural back teeth out of line mean, those farthest off first.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    planes : iterable of ArchPlane
        What `occlusal_planes` found.
    settings : PlaneSettings
        Limits.
    """
    teeth = [tooth for plane in planes for tooth in plane.teeth]
    out = [tooth for tooth in teeth if tooth.is_out_of_line(settings.limit_mm)]
    out.sort(key=lambda tooth: -abs(tooth.along_axis_mm))
    beside = [
        tooth for tooth in teeth if tooth.natural and _is_beside(tooth, settings.line_limit_mm)
    ]
    return (
        *(_height_finding(occlusion, tooth, settings) for tooth in out),
        *(_beside_finding(tooth, settings) for tooth in beside),
    )


def _is_beside(tooth: ToothHeight, limit_mm: float) -> bool:
    return abs(tooth.beside_line_mm) > limit_mm


def _height_finding(occlusion: Occlusion, tooth: ToothHeight, settings: PlaneSettings) -> Finding:
    upper, lower = upper_and_lower(tooth.tooth)
    above = tooth.along_axis_mm > 0.0
    far = abs(tooth.along_axis_mm)
    way = "above" if above else "short of"
    told = f"{occlusion.name_of(tooth.tooth)} stands {length(far)} {way} the occlusal curve of its"
    told += f" arch (± {length(tooth.uncertainty_mm)})"
    threshold = Figure("height that counts as in line", settings.limit_mm, "mm")
    changes = [("reduction to the limit", tooth.reduce_mm), ("build-up", tooth.build_up_mm)]
    return Finding(
        kind=ABOVE if above else BELOW,
        severity="attention",
        text=sentence(f"{told}; {_means(tooth, settings.limit_mm)}"),
        tooth_upper=upper,
        tooth_lower=lower,
        place=_place(tooth),
        figures=(
            Figure("height along its axis", tooth.along_axis_mm, "mm"),
            Figure("height square to the curve", tooth.height_mm, "mm"),
            Figure("uncertainty of the height", tooth.uncertainty_mm, "mm"),
            *(Figure(name, value, "mm") for name, value in changes if value > 0.0),
        ),
        threshold=threshold,
        threshold_source=f"{_source(settings, 'limit_mm')}; {_HOW}; {OVER_ERUPTION_SOURCE}",
        margin=margin_to(far, threshold),
    )


def _means(tooth: ToothHeight, limit_mm: float) -> str:
    if tooth.along_axis_mm < 0.0:
        return (
            f"to come within {length(limit_mm)} of it, its supporting cusps would have to be built"
            f" up by up to {length(tooth.build_up_mm)}"
        )
    known = "moderate to severe" if tooth.over_eruption == MODERATE else "slight"
    near = "" if tooth.class_is_sure else f", but near the limit of {length(MODERATE_FROM_MM)}"
    return (
        f"over-eruption of that size is {known}{near}; to come within {length(limit_mm)} of the"
        f" curve, up to {length(tooth.reduce_mm)} would have to come off its highest cusp"
    )


def _beside_finding(tooth: ToothHeight, settings: PlaneSettings) -> Finding:
    upper, lower = upper_and_lower(tooth.tooth)
    far = abs(tooth.beside_line_mm)
    towards = "the cheek" if tooth.beside_line_mm > 0.0 else "the tongue"
    threshold = Figure("distance that counts as in line", settings.line_limit_mm, "mm")
    return Finding(
        kind=BESIDE,
        severity="note",
        text=sentence(
            f"seen along the bite, the supporting cusps of {enumeration([tooth.tooth])} stand"
            f" {length(far)} beside the line of the others, towards {towards}"
        ),
        tooth_upper=upper,
        tooth_lower=lower,
        place=_place(tooth),
        figures=(Figure("beside the line, positive to the cheek", tooth.beside_line_mm, "mm"),),
        threshold=threshold,
        threshold_source=_source(settings, "line_limit_mm"),
        margin=margin_to(far, threshold),
    )


def _place(tooth: ToothHeight) -> tuple[float, float, float] | None:
    """Return the supporting tip that stands out farthest, or least where the tooth is short."""
    sign = 1.0 if tooth.along_axis_mm > 0.0 else -1.0
    held = [tip for tip in tooth.tips if tip.supporting]
    return max(held, key=lambda tip: sign * tip.over_sphere_mm).point if held else None


def _source(settings: PlaneSettings, field: str) -> str:
    usual = getattr(PlaneSettings(), field) == getattr(settings, field)
    return PLANE_SOURCES[field] if usual else "set for this case"
