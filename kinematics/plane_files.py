"""What result files tell of occlusal planes: entries of findings.json, and a table."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final

from kinematics.conventions import Floats
from kinematics.planning.plane.arch_heights import ArchPlane, TipHeight, ToothHeight
from kinematics.planning.plane.curved_surface import CurvedSurface
from kinematics.table_cells import Row, numbers, xyz, yes_no

PLANE_FILE: Final = "occlusal_plane.csv"
PLANE_COLUMNS: Final = [
    "arch", "tooth", "natural", "in_crossbite", "takes_part", "tip", "supporting",
    *xyz("tip_in_mi"),
    "over_sphere_mm", "over_plane_mm", "reduce_mm", "build_up_mm",
    "tooth_height_mm", "tooth_height_along_axis_mm", "uncertainty_mm", "over_eruption",
    "class_is_sure", "beside_line_mm", "above_limit_mm3",
]  # fmt: skip


def plane_entries(planes: Iterable[ArchPlane]) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of the planes of both arches."""
    return [
        {
            "arch": _arch(plane),
            "laid_through_natural_teeth": plane.natural,
            "plane": None if plane.plane is None else _plane_entry(plane),
            "sphere": None if plane.sphere is None else _sphere_entry(plane, plane.sphere),
            "curve_of_spee": plane.spee,
            "curve_of_wilson": plane.wilson,
            "teeth": [_tooth_entry(tooth) for tooth in plane.teeth],
        }
        for plane in planes
    ]


def _arch(plane: ArchPlane) -> str:
    return "upper" if plane.upper else "lower"


def _plane_entry(plane: ArchPlane) -> Mapping[str, Any]:
    assert plane.plane is not None
    return {
        "normal": plane.plane.normal,
        "point_mm": _foot(plane.plane),
        "falls_forward_deg": plane.falls_forward_deg,
        "falls_left_deg": plane.falls_left_deg,
        "left_out": plane.out_of_plane,
    }


def _sphere_entry(plane: ArchPlane, sphere: CurvedSurface) -> Mapping[str, Any]:
    return {
        "centre_mm": sphere.centre,
        "radius_mm": sphere.radius_mm,
        "radius_by_the_teeth_alone_mm": plane.radius_mm,
        "scatter_mm": plane.scatter_mm,
        "left_out": plane.out_of_sphere,
    }


def _foot(surface: CurvedSurface) -> Floats:
    """Return the point of a plane that lies nearest to where it was counted from."""
    return surface.origin - surface.offset_mm * surface.normal


def _tooth_entry(tooth: ToothHeight) -> Mapping[str, Any]:
    return {
        "tooth": tooth.tooth,
        "natural": tooth.natural,
        "in_crossbite": tooth.crossed,
        "takes_part": tooth.takes_part,
        "height_mm": tooth.height_mm,
        "height_along_axis_mm": tooth.along_axis_mm,
        "uncertainty_mm": tooth.uncertainty_mm,
        "over_eruption": tooth.over_eruption or None,
        "class_is_sure": tooth.class_is_sure,
        "beside_line_mm": tooth.beside_line_mm,
        "above_limit_mm3": tooth.above_limit_mm3,
        "tips": tooth.tips,
    }


def plane_rows(planes: Iterable[ArchPlane]) -> Iterator[Row]:
    """Yield one row for every cusp tip and edge; columns `PLANE_COLUMNS`."""
    for plane in planes:
        for tooth in plane.teeth:
            for tip in tooth.tips:
                yield _row(plane, tooth, tip)


def _row(plane: ArchPlane, tooth: ToothHeight, tip: TipHeight) -> Row:
    return [
        _arch(plane),
        str(tooth.tooth),
        yes_no(tooth.natural),
        yes_no(tooth.crossed),
        yes_no(tooth.takes_part),
        tip.name,
        yes_no(tip.supporting),
        *numbers(*tip.point),
        *numbers(tip.over_sphere_mm, tip.over_plane_mm, tip.reduce_mm, tip.build_up_mm),
        *numbers(tooth.height_mm, tooth.along_axis_mm, tooth.uncertainty_mm),
        tooth.over_eruption,
        yes_no(tooth.class_is_sure) if tooth.over_eruption else "",
        *numbers(tooth.beside_line_mm, tooth.above_limit_mm3),
    ]
