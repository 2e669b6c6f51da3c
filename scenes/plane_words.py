"""The occlusal plane of both arches, as the report tells it: tables and sentences."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.planning.plane.arch_curves import MOLARS
from kinematics.planning.plane.arch_heights import ArchPlane, ToothHeight
from kinematics.planning.plane.occlusal_planes import (
    CURVE_BANDS,
    ENAMEL,
    RADIUS,
    SPEE_DEPTH,
    SPEE_IS_FLATTER,
    WHY_RADII_DIFFER,
    WILSON,
)
from kinematics.planning.plane.settings import PlaneSettings
from kinematics.planning.published_bands import Band
from kinematics.planning.wording import enumeration
from kinematics.tooth_codes import is_posterior, is_right, mirror, place
from scenes.phrases import degrees, length, number
from scenes.plane_chart import is_drawn
from scenes.report_tables import Table

_NONE: Final = "–"


@dataclass(frozen=True)
class ArchPlaneWords:
    """What is said of one arch.

    Attributes
    ----------
    title : str
        Which arch.
    lead : str
        What the plane and the curve are laid through.
    readings : Table
        Inclination and curves, each with what is published.
    teeth : Table
        How every back tooth stands.
    description : str
        The drawing in words.
    drawn : bool
        Whether the arch is drawn along its curve.
    """

    title: str
    lead: str
    readings: Table
    teeth: Table
    description: str
    drawn: bool


@dataclass(frozen=True)
class PlaneWords:
    """The section about the occlusal plane.

    Attributes
    ----------
    arches : tuple of ArchPlaneWords
        Upper and lower.
    sources : tuple of str
        What is published of curves, and why radii of built-in arches differ.
    limit : str
        How far a tooth may stand off.
    cuts : bool
        Whether a reduction is told, so that the caution about enamel belongs there.
    enamel : str
        That caution.
    """

    arches: tuple[ArchPlaneWords, ...]
    sources: tuple[str, ...]
    limit: str
    cuts: bool
    enamel: str


def plane_words(
    planes: Sequence[ArchPlane], settings: PlaneSettings, built_in: bool
) -> PlaneWords | None:
    """Return the section; None where nothing was worked out.

    Parameters
    ----------
    planes : sequence of ArchPlane
        What was found.
    settings : PlaneSettings
        Limits.
    built_in : bool
        Whether the teeth are the built-in ones.
    """
    if not planes:
        return None
    published = (f"{name[0].upper()}{name[1:]}: {b.source}." for name, b in CURVE_BANDS.items())
    return PlaneWords(
        arches=tuple(_arch(plane, settings) for plane in planes),
        sources=(*published, SPEE_IS_FLATTER, *((WHY_RADII_DIFFER,) if built_in else ())),
        limit=length(settings.limit_mm),
        cuts=any(tooth.reduce_mm > 0.0 for plane in planes for tooth in plane.teeth),
        enamel=ENAMEL,
    )


def _arch(plane: ArchPlane, settings: PlaneSettings) -> ArchPlaneWords:
    arch = "upper" if plane.upper else "lower"
    return ArchPlaneWords(
        title=f"{arch[0].upper()}{arch[1:]} arch",
        lead=_lead(plane),
        readings=Table(("reading", "found", "published"), tuple(_readings(plane))),
        teeth=_teeth(plane, settings),
        description=_description(plane, arch),
        drawn=is_drawn(plane),
    )


def _lead(plane: ArchPlane) -> str:
    told = []
    if not plane.natural:
        told.append("No natural tooth stands here: replacement teeth gave what follows.")
    out = plane.out_of_sphere
    crossed = [tooth.tooth for tooth in plane.teeth if tooth.crossed]
    if crossed:
        stand = "stands" if len(crossed) == 1 else "stand"
        told.append(
            f"{enumeration(crossed)} {stand} in crossbite: beside the row, and held by other cusps"
            " than those that the curve is laid through. So nothing is laid through them, and they"
            " are not judged."
        )
    if plane.sphere is None:
        told.append(
            "Too few natural back teeth stand here for an occlusal curve: at least four are needed,"
            " on both sides. Heights over it are not told."
        )
    elif math.isnan(plane.radius_mm):
        told.append(
            "Too few natural back teeth stand here to tell the radius of their sphere; the classic"
            " one, 101.6 mm, was laid through them."
        )
    if out:
        one = len(out) == 1
        told.append(
            f"The curve was laid without {enumeration(out)}, which"
            f" {'stands' if one else 'stand'} too far off it."
        )
    if plane.sphere is not None:
        told.append(f"The teeth in line scatter by {length(plane.scatter_mm)} about it.")
    return " ".join(told)


def _readings(plane: ArchPlane) -> Iterator[tuple[str, str, str]]:
    if plane.plane is not None:
        ahead, left = plane.falls_forward_deg, plane.falls_left_deg
        ways = "falls forward" if ahead >= 0.0 else "rises forward"
        side = "left" if left >= 0.0 else "right"
        yield ("occlusal plane, from the side", f"{ways} by {degrees(abs(ahead))}", _NONE)
        level = "level" if abs(left) < 0.05 else f"falls to the {side} by {degrees(abs(left))}"
        yield "occlusal plane, from the front", level, _NONE
    if math.isfinite(plane.radius_mm):
        yield RADIUS, _radius(plane.radius_mm), _band(CURVE_BANDS[RADIUS])
    yield from _curves(plane)


def _curves(plane: ArchPlane) -> Iterator[tuple[str, str, str]]:
    """Yield the curves of Spee and of Wilson, and of those left out by their teeth why they are."""
    sides = {curve.side: curve for curve in plane.spee}
    for side in ("right", "left"):
        if side not in sides:
            own = [tooth for tooth in plane.teeth if is_right(tooth.tooth) == (side == "right")]
            yield from _not_judged(plane, f"{SPEE_DEPTH}, {side}", SPEE_DEPTH, own)
            continue
        curve = sides[side]
        code, cusp = curve.deepest
        deepest = f"{length(curve.depth_mm)}, deepest at {code} {cusp}"
        yield f"{SPEE_DEPTH}, {curve.side}", deepest, _band(CURVE_BANDS[SPEE_DEPTH])
        yield f"radius of the curve of Spee, {curve.side}", _radius(curve.radius_mm), _NONE
    pairs = {curve.teeth: curve.radius_mm for curve in plane.wilson}
    standing = {tooth.tooth: tooth for tooth in plane.teeth if tooth.natural}
    for code in sorted(standing):
        pair = code, mirror(code)
        if not is_right(code) or place(code) not in MOLARS or pair[1] not in standing:
            continue
        named = f"{WILSON}, {pair[0]} and {pair[1]}"
        if pair in pairs:
            yield named, _radius(pairs[pair]), _band(CURVE_BANDS[WILSON])
        else:
            yield from _not_judged(plane, named, WILSON, [standing[code] for code in pair])


def _not_judged(
    plane: ArchPlane, named: str, band: str, teeth: Sequence[ToothHeight]
) -> Iterator[tuple[str, str, str]]:
    """Yield the row of a curve that is not told, where its teeth stand elsewhere than in line."""
    crossed = [tooth.tooth for tooth in teeth if tooth.crossed]
    out = [tooth.tooth for tooth in teeth if tooth.tooth in plane.out_of_sphere]
    for codes, where in ((crossed, "in crossbite"), (out, "too far off the occlusal curve")):
        if codes:
            stand = "stands" if len(codes) == 1 else "stand"
            why = f"not judged: {enumeration(codes)} {stand} {where}"
            yield named, why, _band(CURVE_BANDS[band])
            return


def _radius(radius_mm: float) -> str:
    if radius_mm < 0.0:
        return f"{number(-radius_mm, 0)} mm, arched the other way"
    return f"{number(radius_mm, 0)} mm" if radius_mm < 1000.0 else "over 1000 mm: nearly straight"


def _band(band: Band) -> str:
    decimals = 0 if band.low >= 10.0 else 1
    return f"{number(band.low, decimals)} to {number(band.high, decimals)} mm"


def _teeth(plane: ArchPlane, settings: PlaneSettings) -> Table:
    head = (
        "tooth",
        "height over the curve, along its axis",
        "over-eruption",
        "beside the line of supporting cusps",
        f"to come within {length(settings.limit_mm)}",
        "crown beyond that",
    )
    back = [tooth for tooth in plane.teeth if is_posterior(tooth.tooth)]
    if not any(math.isfinite(tooth.along_axis_mm) for tooth in back):
        return Table(head, ())
    return Table(head, tuple(_row(tooth, settings) for tooth in back))


def _row(tooth: ToothHeight, settings: PlaneSettings) -> tuple[str, ...]:
    if math.isnan(tooth.along_axis_mm):
        unknown = "not known: the other teeth do not tell the curve here"
        return (str(tooth.tooth), unknown, *[_NONE] * 4)
    beside = tooth.beside_line_mm
    towards = "the cheek" if beside > 0.0 else "the tongue"
    aside = _NONE if math.isnan(beside) else f"{length(abs(beside))} towards {towards}"
    if abs(beside) > settings.line_limit_mm:
        aside += ", out of line"
    change = [
        f"{way} {length(tip_mm)} at {tip.name}"
        for tip in tooth.tips
        for way, tip_mm in (("take off", tip.reduce_mm), ("add", tip.build_up_mm))
        if tip_mm > 0.0
    ]
    volume = tooth.above_limit_mm3
    return (
        f"{tooth.tooth}{'' if tooth.natural else ' (replaced)'}",
        f"{number(tooth.along_axis_mm, 2)} ± {_uncertainty(tooth)} mm",
        _class(tooth),
        aside,
        "; ".join(change) or _NONE,
        f"{number(volume, 1)} mm³" if volume > 0.0 else _NONE,
    )


def _uncertainty(tooth: ToothHeight) -> str:
    return number(tooth.uncertainty_mm, 2) if math.isfinite(tooth.uncertainty_mm) else "unknown"


def _class(tooth: ToothHeight) -> str:
    if not tooth.over_eruption:
        return "not judged: in crossbite" if tooth.crossed else "not judged"
    return tooth.over_eruption + ("" if tooth.class_is_sure else ", near the limit of 2 mm")


def _description(plane: ArchPlane, arch: str) -> str:
    told = (
        f"{tooth.tooth} {number(tooth.along_axis_mm, 2)} mm"
        for tooth in plane.teeth
        if tooth.over_eruption
    )
    return (
        f"The {arch} arch unrolled; heights over the curve of the other teeth: {', '.join(told)}."
    )
