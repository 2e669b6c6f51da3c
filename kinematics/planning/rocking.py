"""What it takes of the jaw that the canine touches although a nonworking contact comes first."""

from typing import Final

import numpy as np

from kinematics.checks import NotConverged
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.sweep import Sweep
from kinematics.conventions import RIGHT, Floats
from kinematics.geometry.poses import move_points, pose_of, rotation_about
from kinematics.planning.contact_runs import contact_place, least_gap_over, pair_gaps_of
from kinematics.planning.farther_gaps import measured_at
from kinematics.planning.guidance_kinds import Pair, role, working_side
from kinematics.planning.occlusion import Occlusion

#: The canine touches when it is nearer than this.
_TOUCH_MM: Final = 1e-4
#: Beyond this no jaw rocks on its own: the answer is then that the canine cannot touch.
_MOST_MM: Final = 3.0
_MOST_ROUNDS: Final = 400


def condyle_distraction_mm(
    occlusion: Occlusion, sweep: Sweep, pose: int, pair: Pair
) -> float | None:
    """Return how far the nonworking condyle leaves its place when the jaw rocks.

    The jaw turns about the line from a nonworking contact to the working condyle, in the sense
    that takes the nonworking condyle down, until the upper canine of the working side touches.
    Steps are as long as no point of the lower canine can pass the upper one: the gap over its
    greatest distance from the line.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    sweep : Sweep
        A lateral excursion.
    pose : int
        Index of the pose, at closure.
    pair : (int, int)
        The nonworking pair in contact.

    Returns
    -------
    float or None
        Straight distance moved by the condyle centre, mm; None where the contact has no place,
        there is no canine near, or the canine does not touch within 3 mm of distraction.

    Raises
    ------
    NotConverged
        The canines come ever nearer without meeting.
    """
    side = working_side(sweep.excursion)
    canines = [
        (upper, lower)
        for upper in sweep.upper_codes
        for lower in sweep.lower_codes
        if role((upper, lower), side) == "canine"
    ]
    sweep = measured_at(occlusion, sweep, np.array([pose]), canines, sweep.gap_limit_mm)
    place = contact_place(sweep, pose, pair)
    canines = [teeth for teeth in canines if np.isfinite(pair_gaps_of(sweep, *teeth)[pose])]
    if place is None or not canines:
        return None
    uppers, lowers = (tuple(sorted(set(codes))) for codes in zip(*canines, strict=True))
    right, left = sweep.positions.condyle_right[pose], sweep.positions.condyle_left[pose]
    working, nonworking = (right, left) if side == RIGHT else (left, right)
    axis, arm = _rocking_axis(np.asarray(place), working, nonworking)
    lower_points = move_points(sweep.poses[pose], _tooth_points(occlusion, lowers))
    reach = float(np.linalg.norm(np.cross(lower_points - working, axis), axis=1).max())
    turned, least = 0.0, float(least_gap_over(sweep, canines)[pose])
    for _ in range(_MOST_ROUNDS):
        if least <= _TOUCH_MM:
            return 2.0 * arm * float(np.sin(0.5 * turned))
        turned += least / reach
        if arm * turned > _MOST_MM:
            return None
        rocked = _turned_about(working, axis, turned) @ sweep.poses[pose]
        # The step moved no point by more than `least`: the gap is at most twice that.
        limit = 2.0 * least + _TOUCH_MM
        gaps = pair_gaps(occlusion.casts.pair, rocked[None], limit, uppers, lowers, occlusion.alone)
        least = float(gaps.min())
    raise NotConverged(
        f"rocking about {pair[0]} on {pair[1]}: the canines come ever nearer, yet do not touch; "
        "look at the canines of this case, mm",
        least,
        _MOST_ROUNDS,
    )


def _rocking_axis(place: Floats, working: Floats, nonworking: Floats) -> tuple[Floats, float]:
    """Return the line's unit vector, signed to take the nonworking condyle down, and its arm."""
    axis = (working - place) / np.linalg.norm(working - place)
    move = np.cross(axis, nonworking - working)
    return (axis if move[2] <= 0.0 else -axis), float(np.linalg.norm(move))


def _turned_about(point: Floats, axis: Floats, angle_rad: float) -> Floats:
    """Return the pose (4, 4) that turns the hinge frame about a line through a point."""
    turn = rotation_about(axis, angle_rad)
    return pose_of(turn, point - turn @ point)


def _tooth_points(occlusion: Occlusion, codes: tuple[int, ...]) -> Floats:
    """Return all vertices of some lower teeth, lower coordinates, mm."""
    arch = occlusion.casts.lower
    mine = np.logical_or.reduce([arch.tooth_of_face == code for code in codes])
    used = np.zeros(len(arch.mesh.vertices), dtype=np.bool_)
    used[arch.mesh.faces[mine]] = True
    return np.asarray(arch.mesh.vertices[used])
