"""Interocclusal records made from known guidance: exact, noisy, mirrored, as pairs of points."""

from dataclasses import replace

import numpy as np
from scipy.spatial.transform import Rotation

from kinematics.conventions import LEFT, RIGHT
from kinematics.geometry.poses import move_points, opening_rotation, pose_of
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import CENTRIC_RELATION, place
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.records.from_records import settings_from_records
from kinematics.records.recorded import Recorded
from kinematics.records.settings import InterocclusalRecord, RecordFitting

#: Places of a lower arch in lower coordinates: incisal point, canines, second molars.
TEETH = np.array(
    [[84.0, 0.0, -33.0], [78.0, -14.0, -32.0], [78.0, 14.0, -32.0], [50.0, -26.0, -31.0],
     [50.0, 26.0, -31.0]]
)  # fmt: skip
USUAL = RecordFitting()
ABOUT = np.array(USUAL.scatter_about_mm)
#: Kinds with their advances, mm: of both condyles, or of the nonworking one beyond the other.
SET = (
    ("protrusive", 3.0), ("protrusive", 7.0), ("right lateral", 3.0), ("right lateral", 7.5),
    ("left lateral", 3.5), ("left lateral", 8.0),
)  # fmt: skip


def any_jaw(seed):
    """Return guidance settings over all that records may find."""
    rng = np.random.default_rng(seed)
    curved = bool(rng.integers(2))
    sides = [
        SideGuidance(
            condylar_inclination_deg=rng.uniform(10, 65 if not curved else 55),
            path="curved" if curved else "straight",
            eminence_radius_mm=rng.uniform(12, 40),
            path_length_mm=12.0,
            record_distance_mm=rng.uniform(3, 7),
            progressive_shift_deg=rng.uniform(0, 25),
            immediate_shift_mm=rng.uniform(0, 2),
            fischer_deg=rng.choice([0.0, rng.uniform(-5, 8)]),
            working_retrusion_deg=rng.choice([0.0, rng.uniform(-20, 30)]),
            working_elevation_deg=rng.choice([0.0, rng.uniform(-30, 30)]),
        )
        for _ in range(2)
    ]
    return GuidanceSettings(
        intercondylar_distance_mm=rng.uniform(90, 124), right=sides[0], left=sides[1]
    )


def unlike(given):
    """Return settings that know nothing of the paths and shifts of the given ones."""

    def blank(side):
        return replace(
            side,
            condylar_inclination_deg=35.0,
            path="straight",
            eminence_radius_mm=19.0,
            progressive_shift_deg=None,
            immediate_shift_mm=0.0,
        )

    return replace(given, right=blank(given.right), left=blank(given.left))


def truth(given, side, quantity):
    """Return what settings say, in the unit in which an estimate is told."""
    of = getattr(given, side)
    return {
        "condylar inclination": of.condylar_inclination_deg,
        "curvature": 1.0 / of.eminence_radius_mm if of.path == "curved" else 0.0,
        "progressive shift": of.progressive_shift_deg,
        "immediate shift": of.immediate_shift_mm,
    }[quantity]


def pose_in(given, kind, far_mm, rng=None):
    """Return hinge_from_lower in a record of given guidance: sided, opened, a little uneven."""
    rng = rng or np.random.default_rng(0)
    guidance = prepare(given)
    common = rng.uniform(0.0, 0.4)
    if kind == "protrusive":
        right, left, shift = far_mm, far_mm + rng.uniform(-0.6, 0.6), 0.0
    else:
        sign = LEFT if kind == "right lateral" else RIGHT
        side = guidance.left if sign == LEFT else guidance.right
        right, left = (common + far_mm, common) if sign == RIGHT else (common, common + far_mm)
        share = 1.0 if side.early_over_mm == 0.0 else min(1.0, far_mm / side.early_over_mm)
        shift = -sign * side.shift_limit_mm * share
    at = place(guidance, right, left, shift).pose_at_zero[0]
    return at @ opening_rotation(rng.uniform(0.0, 0.06))


def poses_in(given, kinds=SET, seed=0):
    """Return poses of the lower in records of given kinds and advances."""
    rng = np.random.default_rng(seed + 4000)
    return [pose_in(given, kind, far_mm, rng) for kind, far_mm in kinds]


def noisy(pose, rng, fitting=USUAL):
    """Return a pose as a record that is off would put it: shifted and turned."""
    turn = Rotation.from_rotvec(rng.normal(0.0, np.radians(fitting.rotation_scatter_deg), 3))
    shift = rng.normal(0.0, fitting.translation_scatter_mm, 3)
    matrix = turn.as_matrix()
    return pose_of(matrix, ABOUT - matrix @ ABOUT + shift) @ pose


def records_of(poses, kinds=SET):
    """Return records of built-in teeth, as transforms."""
    return [
        InterocclusalRecord(kind=kind, transform=tuple(map(tuple, pose.tolist())))
        for (kind, _), pose in zip(kinds, poses, strict=True)
    ]


def paired_records(poses, mi_pose, kinds=SET):
    """Return the same records as pairs of points of the teeth in MI and in the record."""
    in_mi = move_points(mi_pose, TEETH)
    return [
        InterocclusalRecord(
            kind=kind,
            points_in_mi=tuple(map(tuple, in_mi.tolist())),
            points_in_record=tuple(map(tuple, move_points(pose, TEETH).tolist())),
        )
        for (kind, _), pose in zip(kinds, poses, strict=True)
    ]


def found(records, settings, fitting=USUAL, *, scans=None, mi=CENTRIC_RELATION):
    """Return what records say of guidance."""
    return settings_from_records(Recorded(records, fitting, settings, scans, mi))
