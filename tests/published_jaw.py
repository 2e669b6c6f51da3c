"""A jaw between two straight paths and a guide table, as the published relations describe it."""

import math
import tomllib
from pathlib import Path

import numpy as np
from scipy.optimize import brentq

from kinematics.geometry.poses import move_points
from kinematics.guidance import excursions
from kinematics.guidance.guidance import prepare
from kinematics.guidance.incisal_guide import table_opening
from kinematics.guidance.mandible import CENTRIC_RELATION, opened, place
from kinematics.guidance.settings import GuidanceSettings, IncisalTable, SideGuidance

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "kinematics.toml").read_text(encoding="utf-8")
)


def incisal_tip(height_mm, balkwill_deg):
    """Incisal point of a Bonwill triangle of that height."""
    phi = math.radians(balkwill_deg)
    return np.array([height_mm * math.cos(phi), 0.0, -height_mm * math.sin(phi)])


def jaw(condylar_deg, incisal_deg, wing_deg=0.0, shift_deg=0.0, distance_mm=100.0, **side):
    """Two equal straight sides and a guide table."""
    both = SideGuidance(
        condylar_inclination_deg=condylar_deg, progressive_shift_deg=shift_deg, **side
    )
    table = IncisalTable(sagittal_deg=incisal_deg, wing_right_deg=wing_deg, wing_left_deg=wing_deg)
    return prepare(
        GuidanceSettings(
            intercondylar_distance_mm=distance_mm, right=both, left=both, incisal_table=table
        )
    )


def guided(guidance, excursion, progress_mm, tip):
    """Positions and poses along a border excursion guided by the table."""
    course = excursions.along(guidance, excursion, CENTRIC_RELATION, np.atleast_1d(progress_mm))
    positions = place(guidance, *course)
    return positions, opened(positions, table_opening(guidance, positions, tip, tip))


def at_travel(guidance, excursion, travel_mm, tip):
    """Positions and pose at which the incisal point has travelled so far in a straight line."""

    def short(progress):
        return np.linalg.norm(moved(guided(guidance, excursion, progress, tip)[1][0], tip)) - (
            travel_mm
        )

    progress = brentq(short, 0.0, 1.9 * travel_mm, xtol=1e-13, rtol=1e-15)
    positions, poses = guided(guidance, excursion, progress, tip)
    return positions, poses[0]


def moved(pose, point):
    """Displacement of a point of the lower, mm."""
    return move_points(pose, point[None])[0] - point


def slope_deg(displacement):
    """Slope of a displacement below the horizontal."""
    return math.degrees(math.atan2(-displacement[2], math.hypot(*displacement[:2])))
