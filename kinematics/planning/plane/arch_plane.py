"""Occlusal plane and occlusal sphere of one arch, and how every tooth stands to them."""

import math
from collections.abc import Collection
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats
from kinematics.planning.plane.arch_curves import spee_curves, wilson_curves
from kinematics.planning.plane.arch_heights import (
    MODERATE,
    MODERATE_FROM_MM,
    NONE,
    SLIGHT,
    ArchPlane,
    TipHeight,
    ToothHeight,
)
from kinematics.planning.plane.arch_line import beside_line_mm
from kinematics.planning.plane.curved_surface import CurvedSurface
from kinematics.planning.plane.cut_volume import volume_above_mm3
from kinematics.planning.plane.laid_surface import (
    CLASSIC_SPHERE,
    FREE_SPHERE,
    PLANE,
    SPHERE,
    LaidSurface,
    Laying,
    Reading,
    laid,
    reading,
)
from kinematics.planning.plane.settings import PlaneSettings
from kinematics.planning.plane.standing_points import (
    Points,
    StandingTooth,
    outer_points,
    standing_teeth,
    supporting_points,
    taking_part,
)
from kinematics.tooth_codes import is_posterior, is_right, is_upper

#: Back teeth from which the radius of a sphere is told (four numbers, and two teeth to find one out
#: of line), from which heights are, and of those on either side. Chosen for this program.
_RADIUS_FROM: Final = 6
_HEIGHTS_FROM: Final = 4
_ON_EITHER_SIDE: Final = 1
#: A tooth that leans farther off the sphere than this (cosine) is read square to it instead.
_LEAST_UPRIGHT: Final = 0.7
#: A height that the other teeth leave open by more, mm, is not told. Chosen for this program.
_MOST_UNCERTAIN_MM: Final = 1.0


@dataclass(frozen=True)
class _Laid:
    """Points of back teeth and what was laid through them."""

    points: Points
    laying: Laying
    through: LaidSurface


def arch_plane(
    arch: Arch,
    replaced: Collection[int],
    settings: PlaneSettings,
    crossed: Collection[int] = (),
) -> ArchPlane:
    """Return the plane and the sphere of an arch, and how its teeth stand to them.

    Parameters
    ----------
    arch : Arch
        Where it stands in MI, hinge frame.
    replaced : collection of int
        Replacement teeth and pontics: they are told, but nothing is laid through them unless there
        is nothing else.
    settings : PlaneSettings
        Limits.
    crossed : collection of int
        Teeth in crossbite: they stand beside the row, and are told alone.
    """
    teeth = standing_teeth(arch, replaced, crossed)
    part = taking_part(teeth)
    upper = is_upper(teeth[0].code)
    outer, supporting = outer_points(part), supporting_points(part)
    plane = laid(outer, PLANE)
    level = np.array([0.0, 0.0, 1.0]) if plane is None else plane.surface.normal
    sphere = _sphere(supporting)
    beside = beside_line_mm(supporting, settings.line_limit_mm)
    alone = _alone(sphere)
    out = () if sphere is None else _left_out(sphere.points, sphere.through)
    in_line = tuple(tooth for tooth in part if tooth.code not in out)
    return ArchPlane(
        upper=upper,
        natural=all(tooth.natural for tooth in part),
        plane=None if plane is None else plane.surface,
        falls_forward_deg=_fall_deg(level, 0),
        falls_left_deg=_fall_deg(level, 1),
        sphere=None if sphere is None else sphere.through.surface,
        radius_mm=math.nan if alone is None else alone.radius_mm,
        scatter_mm=math.nan if sphere is None else sphere.through.scatter_mm,
        out_of_plane=() if plane is None else _left_out(outer, plane),
        out_of_sphere=out,
        spee=spee_curves(in_line, level),
        wilson=wilson_curves(in_line, level),
        teeth=tuple(
            _tooth_height(
                tooth,
                arch.mesh.corners[arch.tooth_of_face == tooth.code],
                sphere,
                None if plane is None else plane.surface,
                beside.get(tooth.code, math.nan),
                settings.limit_mm,
            )
            for tooth in teeth
        ),
    )


def _fall_deg(normal: Floats, axis: int) -> float:
    """Return how far a plane falls along an axis: its normal leans that way."""
    return math.degrees(math.atan2(float(normal[axis]), float(normal[2]))) + 0.0


def _left_out(points: Points, through: LaidSurface) -> tuple[int, ...]:
    kept = zip(points.codes, through.in_line, strict=True)
    return tuple(code for code, in_line in kept if not in_line)


def _sphere(points: Points) -> _Laid | None:
    right = sum(is_right(code) for code in points.codes)
    count = len(points.codes)
    if count < _HEIGHTS_FROM or min(right, count - right) < _ON_EITHER_SIDE:
        return None
    laying = SPHERE if count >= _RADIUS_FROM else CLASSIC_SPHERE
    through = laid(points, laying)
    return None if through is None else _Laid(points, laying, through)


def _alone(sphere: _Laid | None) -> CurvedSurface | None:
    """Return the sphere through the teeth in line without help; None where they are too few."""
    if sphere is None or sphere.laying is not SPHERE:
        return None
    return FREE_SPHERE.least(sphere.points, sphere.through.in_line)


def _tooth_height(
    tooth: StandingTooth,
    corners: Floats,
    sphere: _Laid | None,
    plane: CurvedSurface | None,
    beside_mm: float,
    limit_mm: float,
) -> ToothHeight:
    sign = -1.0 if is_upper(tooth.code) else 1.0
    names = tuple(tooth.tips)
    points = np.array([tooth.tips[name] for name in names])
    over = over_plane = np.full(len(points), math.nan)
    if plane is not None:
        over_plane = sign * plane.heights(points)
    height, along, uncertainty, volume = math.nan, math.nan, math.nan, 0.0
    others = _others(tooth, sphere)
    told = others is not None and _is_judged(tooth)
    out = False
    if others is not None:
        at = np.array([tooth.tips[name] for name in tooth.supporting])
        over = sign * others.surface.heights(points)
        height = sign * float(others.surface.heights(at).mean())
        lean = sign * float(others.surface.upward(at.mean(axis=0)[None])[0] @ tooth.long_axis)
        along = height / lean if lean > _LEAST_UPRIGHT else height
        uncertainty = others.uncertainty_mm
        out = told and max(limit_mm, uncertainty) < abs(along)
        if out:
            volume = volume_above_mm3(corners, others.surface, limit_mm, sign)
    return ToothHeight(
        tooth=tooth.code,
        natural=tooth.natural,
        crossed=tooth.crossed,
        takes_part=sphere is not None and tooth.code in sphere.points.codes,
        height_mm=height,
        along_axis_mm=along,
        uncertainty_mm=uncertainty,
        over_eruption=_class_of(along, uncertainty) if told else "",
        class_is_sure=told and abs(along - MODERATE_FROM_MM) > uncertainty,
        beside_line_mm=beside_mm,
        tips=tuple(
            TipHeight(
                name,
                (float(point[0]), float(point[1]), float(point[2])),
                name in tooth.supporting,
                float(over[i]),
                float(over_plane[i]),
                max(0.0, float(over[i]) - limit_mm) if out else 0.0,
                max(0.0, -limit_mm - float(over[i])) if out and name in tooth.supporting else 0.0,
            )
            for i, (name, point) in enumerate(zip(names, points, strict=True))
        ),
        above_limit_mm3=volume,
    )


def _others(tooth: StandingTooth, sphere: _Laid | None) -> Reading | None:
    """Return the sphere of the other teeth; None where it is not known well enough at this one."""
    if sphere is None:
        return None
    at = np.array([tooth.tips[name] for name in tooth.supporting])
    found = reading(sphere.points, sphere.laying, sphere.through, at, tooth.code)
    return found if found.uncertainty_mm <= _MOST_UNCERTAIN_MM else None


def _is_judged(tooth: StandingTooth) -> bool:
    return tooth.natural and not tooth.crossed and is_posterior(tooth.code)


def _class_of(along_mm: float, uncertainty_mm: float) -> str:
    """Return the class of over-eruption; what may be chance is none."""
    if along_mm >= MODERATE_FROM_MM:
        return MODERATE
    return SLIGHT if along_mm > uncertainty_mm else NONE
