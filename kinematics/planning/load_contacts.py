"""What can carry a load in the poses of a sweep: contacts, and what comes near to touching."""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.contact.contacts import Patches, patches
from kinematics.contact.pose_rows import joined, picked
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats, Ints
from kinematics.guidance.mandible import JawPositions, opened
from kinematics.planning.heights import openings_without
from kinematics.planning.occlusion import Occlusion

#: How far apart teeth may stand that are looked at: more than they give way under 100 N. Nearer
#: ones are looked for first, so that each pair is read where it touches first (chosen for this
#: program).
REACHES_MM: Final = (0.02, 0.08, 0.2, 0.4)


@dataclass(frozen=True)
class LoadPoses:
    """Some poses of a sweep, and what can carry a load in each.

    Attributes
    ----------
    rows : ndarray, shape (p,)
        Which poses of the sweep.
    poses : ndarray, shape (p, 4, 4)
        hinge_from_lower.
    positions : JawPositions
        Condyles there.
    near : Patches
        What touches or comes near, `pose` counted among the p.
    """

    rows: Ints
    poses: Floats
    positions: JawPositions
    near: Patches


def load_poses(occlusion: Occlusion, sweep: Sweep, wanted: Bools) -> LoadPoses:
    """Return what can carry a load in some poses of a sweep, mask of shape (n,)."""
    rows = np.flatnonzero(wanted)
    poses = sweep.poses[rows]
    return LoadPoses(rows, poses, picked(sweep.positions, wanted), _near(occlusion, poses))


def load_poses_without(
    occlusion: Occlusion, sweep: Sweep, wanted: Bools, teeth: frozenset[int]
) -> LoadPoses:
    """Return the same with the jaw closed as if some teeth were not there.

    Poses in which nothing else would meet are left out.
    """
    opening_rad = openings_without(occlusion, sweep, teeth, wanted)
    shut = wanted & np.isfinite(opening_rad)
    positions = picked(sweep.positions, shut)
    poses = opened(positions, opening_rad[shut])
    near = _near(occlusion, poses)
    others = ~np.isin(near.tooth_upper, list(teeth)) & ~np.isin(near.tooth_lower, list(teeth))
    return LoadPoses(np.flatnonzero(shut), poses, positions, picked(near, others))


def some_poses(of: LoadPoses, wanted: Bools) -> LoadPoses:
    """Return some of these poses, mask of shape (p,)."""
    number = np.cumsum(wanted) - 1
    near = picked(of.near, wanted[of.near.pose])
    return LoadPoses(
        of.rows[wanted],
        of.poses[wanted],
        picked(of.positions, wanted),
        replace(near, pose=number[near.pose]),
    )


def _near(occlusion: Occlusion, poses: Floats) -> Patches:
    """Return patches of every tooth pair, those of the least reach at which it has any."""
    found: list[Patches] = []
    seen = np.zeros(0, np.int64)
    for reach in REACHES_MM:
        wider = patches(occlusion.casts.pair, poses, reach, occlusion.workers)
        keys = _keys(wider)
        teeth = (wider.tooth_upper > 0) & (wider.tooth_lower > 0)
        found.append(picked(wider, teeth & ~np.isin(keys, seen)))
        seen = np.union1d(seen, keys)
    every = joined(found)
    return picked(every, np.argsort(every.pose, kind="stable"))


def _keys(within: Patches) -> Ints:
    return np.asarray((within.pose * 100 + within.tooth_upper) * 100 + within.tooth_lower)
