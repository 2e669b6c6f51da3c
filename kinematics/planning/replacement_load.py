"""Where a replacement tooth is pushed in one pose, how slanting, and on which lever."""

from dataclasses import dataclass

import numpy as np

from kinematics.contact.contacts import Patches, patches
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.planning.contact_runs import pair_gaps_of, point_of
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.judging import DentureBase
from kinematics.planning.lateral_load import (
    across_per_along,
    angle_to_axis_deg,
    sliding_at,
    with_friction,
)
from kinematics.planning.occlusion import Occlusion, centre_of, root_direction
from kinematics.tooth_codes import is_upper


@dataclass(frozen=True)
class Push:
    """The push of a contact, or of a near approach, on a replacement tooth.

    Attributes
    ----------
    place : tuple of float
        Hinge frame, mm.
    normal_to_axis_deg : float
        Angle between the contact normal and the tooth's long axis.
    across_per_along : float
        N across the axis for every N along it, friction added if asked; inf where the force has
        no part along it.
    abutment : int
        The nearest abutment, 0 for none.
    lever_mm : float
        Horizontal distance from the place to the centre of that abutment; 0 for none.
    """

    place: tuple[float, float, float]
    normal_to_axis_deg: float
    across_per_along: float
    abutment: int
    lever_mm: float

    @property
    def turning_mm(self) -> float:
        """N across per N along times the lever; 0 where there is no abutment to turn about."""
        return self.across_per_along * self.lever_mm if self.lever_mm > 0.0 else 0.0


def push_on(occlusion: Occlusion, sweep: Sweep, base: DentureBase, pose: int, pair: Pair) -> Push:
    """Read the push of a pair on the replacement tooth in it.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    sweep : Sweep
        One excursion.
    base : DentureBase
        The base that carries the tooth.
    pose : int
        Index of the pose.
    pair : (int, int)
        Upper and lower tooth.
    """
    upper_base = is_upper(base.teeth[0])
    tooth, sign = (pair[0], 1.0) if upper_base else (pair[1], -1.0)
    place, normal = _place_and_normal(occlusion, sweep, pose, pair)
    root = root_direction(occlusion, tooth, sweep.poses[pose])
    push, friction = normal, occlusion.settings.friction_coefficient
    if friction > 0.0:
        push = with_friction(normal, sliding_at(sweep, pose, place), friction)
    abutment, lever = _lever(occlusion, base, sweep.poses[pose], place)
    return Push(
        place=point_of(place),
        normal_to_axis_deg=angle_to_axis_deg(sign * normal, root),
        across_per_along=across_per_along(sign * push, root),
        abutment=abutment,
        lever_mm=lever,
    )


def _place_and_normal(
    occlusion: Occlusion, sweep: Sweep, pose: int, pair: Pair
) -> tuple[Floats, Floats]:
    """Return place and unit normal (lower pushes upper) where a pair is nearest in one pose.

    The mean normal of the contact patch is taken, since that of a single triangle or edge depends
    on the mesh. For an approach the patch is drawn with a tolerance just above the gap.
    """
    within = sweep.patches
    row = _nearest_row(within, pose, pair)
    if row is None:
        reach = float(pair_gaps_of(sweep, *pair)[pose]) + sweep.tolerance_mm
        poses = sweep.poses[pose][None]
        within = patches(occlusion.casts.pair, poses, reach, occlusion.alone, pair)
        row = _nearest_row(within, 0, pair)
    if row is None:
        raise RuntimeError(
            f"{pair} at {sweep.travel_mm[pose]} mm: nearer than {reach} mm, no patch"
        )
    return within.centroid[row], within.normal[row]


def _nearest_row(within: Patches, pose: int, pair: Pair) -> int | None:
    rows = np.flatnonzero(
        (within.pose == pose) & (within.tooth_upper == pair[0]) & (within.tooth_lower == pair[1])
    )
    if len(rows) == 0:
        return None
    order = np.lexsort((-within.area_mm2[rows], within.least_gap_mm[rows]))
    return int(rows[order[0]])


def _lever(
    occlusion: Occlusion, base: DentureBase, pose: Floats, place: Floats
) -> tuple[int, float]:
    """Return the nearest abutment and the horizontal distance to its centre; (0, 0) for none."""
    apart = [
        (float(np.linalg.norm((centre_of(occlusion, code, pose) - place)[:2])), code)
        for code in base.abutments
    ]
    distance, code = min(apart, default=(0.0, 0))
    return code, distance
