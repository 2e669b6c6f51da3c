"""Settings made ready for computing: radians, curves, directions, planes."""

import math
from dataclasses import dataclass

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import LEFT, RIGHT, Floats
from kinematics.geometry.curves import (
    Curve,
    StraightCurve,
    circular_curve,
    displacement,
    measured_curve,
    turned,
)
from kinematics.guidance.guide_table import Table, prepare_table
from kinematics.guidance.settings import (
    DEFAULT_PROGRESSIVE_SHIFT_DEG,
    GuidanceSettings,
    SideGuidance,
)


@dataclass(frozen=True)
class Side:
    """Guidance of one side, ready for computing.

    Attributes
    ----------
    sign : int
        RIGHT (-1) or LEFT (1): sign of y outward.
    name : str
        "right" or "left".
    path : Curve
        Protrusive path of the condyle centre, from CR.
    fischer_rad : float
        How much steeper the lateral path is.
    progressive_rad : float or ndarray, shape (n,)
        Progressive side shift when this condyle is the nonworking one; an array gives each of n
        places its own.
    shift_limit_mm : float
        Immediate side shift when this condyle is the nonworking one.
    early_over_mm : float
        Excess advance over which that shift is spread; 0 for an immediate one.
    outward : ndarray, shape (3,)
        Unit direction in which this condyle slides when it is the working one.
    pure_rotation : bool
        True where it does not slide.
    """

    sign: int
    name: str
    path: Curve
    fischer_rad: float
    progressive_rad: float | Floats
    shift_limit_mm: float
    early_over_mm: float
    outward: Floats
    pure_rotation: bool


@dataclass(frozen=True)
class Guidance:
    """Guidance of the whole jaw, ready for computing.

    Attributes
    ----------
    reference_plane : str
        Plane to which the settings referred.
    half_distance_mm : float
        Half the distance between the condyle centres.
    right, left : Side
        The two sides.
    table : Table or None
        Incisal guide table.
    """

    reference_plane: str
    half_distance_mm: float
    right: Side
    left: Side
    table: Table | None


def prepare(settings: GuidanceSettings) -> Guidance:
    """Turn settings into radians, curves and directions.

    Raises
    ------
    InputError
        A measured path or table that cannot be used, or a Bennett angle smaller than its
        immediate side shift alone gives at the advance where it was read.
    """
    table = settings.incisal_table
    return Guidance(
        settings.reference_plane,
        0.5 * settings.intercondylar_distance_mm,
        _side(settings.right, "right", RIGHT),
        _side(settings.left, "left", LEFT),
        None if table is None else prepare_table(table),
    )


def _side(given: SideGuidance, name: str, sign: int) -> Side:
    path = _path(given, name)
    elevation = math.radians(given.working_elevation_deg)
    retrusion = math.radians(given.working_retrusion_deg)
    outward = np.array(
        [
            -math.sin(retrusion) * math.cos(elevation),
            sign * math.cos(retrusion) * math.cos(elevation),
            math.sin(elevation),
        ]
    )
    outward.setflags(write=False)
    return Side(
        sign,
        name,
        path,
        math.radians(given.fischer_deg),
        _progressive_rad(given, name, path),
        given.immediate_shift_mm,
        given.early_over_mm if given.shift_timing == "early" else 0.0,
        outward,
        given.pure_rotation,
    )


def _path(given: SideGuidance, name: str) -> Curve:
    inclination = math.radians(given.condylar_inclination_deg)
    if given.path == "straight":
        return StraightCurve(inclination, given.path_length_mm)
    if given.path == "curved":
        return circular_curve(
            inclination, given.eminence_radius_mm, given.record_distance_mm, given.path_length_mm
        )
    points = np.array(given.measured_points)
    return measured_curve(points, f"guidance {name} measured_points", given.path_length_mm)


def _progressive_rad(given: SideGuidance, name: str, path: Curve) -> float:
    """Return the progressive angle, from itself or from the Bennett angle and where it was read.

    The Bennett angle contains the immediate shift: tan(Bennett) = shift / forward + tan(b).
    """
    if given.bennett_angle_deg is None:
        angle = given.progressive_shift_deg
        return math.radians(DEFAULT_PROGRESSIVE_SHIFT_DEG if angle is None else angle)
    bennett = math.radians(given.bennett_angle_deg)
    if given.immediate_shift_mm == 0.0 or given.bennett_read_at_mm is None:
        return bennett
    read_at = given.bennett_read_at_mm
    if read_at > path.length_mm:
        raise InputError(
            f"guidance {name} bennett_read_at_mm = {read_at:g} mm: the condylar path ends at "
            f"{path.length_mm:g} mm; give an advance on the path"
        )
    lateral = turned(displacement(path, np.array([read_at])), math.radians(given.fischer_deg))
    early = given.shift_timing == "early"
    used = given.immediate_shift_mm * (min(1.0, read_at / given.early_over_mm) if early else 1.0)
    tangent = math.tan(bennett) - used / float(lateral[0, 0])
    if tangent < 0.0:
        least = math.degrees(math.atan2(used, float(lateral[0, 0])))
        raise InputError(
            f"guidance {name} bennett_angle_deg = {given.bennett_angle_deg:g} degrees: the "
            f"immediate side shift of {given.immediate_shift_mm:g} mm alone gives {least:.2f} "
            f"degrees at an advance of {read_at:g} mm; give at least that or a smaller shift"
        )
    return math.atan(tangent)
