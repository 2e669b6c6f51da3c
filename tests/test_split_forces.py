"""Forces along and across long axes are the two parts of the force, whatever the axis."""

import numpy as np
import pytest

from kinematics.planning.frame_forces import QUANTITIES, FrameForces
from kinematics.planning.split_forces import split_forces


def made_frame(seed, poses=4):
    """Return a framework with planted forces and axes, and what was planted of them."""
    rng = np.random.default_rng(seed)
    t, a = int(rng.integers(1, 6)), int(rng.integers(0, 4))
    planted = []
    for count in (t, a):
        roots = rng.normal(size=(poses, count, 3))
        roots /= np.linalg.norm(roots, axis=2, keepdims=True)
        aside = np.cross(roots, rng.normal(size=(poses, count, 3)))
        planted.append((roots, rng.normal(size=(poses, count, 1)) * 30.0 * roots, aside))
    (tooth_roots, *teeth), (abutment_roots, *abutments) = planted
    other = np.full((1, poses), True)
    frame = FrameForces(
        framework="made",
        has_fulcrum=False,
        teeth=tuple(range(11, 11 + t)),
        abutments=tuple(range(21, 21 + a)),
        balanced=np.vstack([rng.random((1, poses)) < 0.7, other]),
        figures=np.zeros((2, poses, len(QUANTITIES))),
        teeth_n=np.stack([sum(teeth), np.ones((poses, t, 3))]),
        tooth_roots=tooth_roots,
        places=np.zeros((poses, t, 3)),
        abutments_n=np.stack([sum(abutments), np.ones((poses, a, 3))]),
        abutment_roots=abutment_roots,
        opponents_n=np.zeros((2, poses, a, 3)),
        lever_mm=np.zeros((poses, t)),
    )
    return frame, teeth, abutments


@pytest.mark.parametrize("seed", range(60))
def test_planted_parts_are_found_again(seed):
    """Of the first variant, for teeth and abutments, and with what is balanced there."""
    frame, teeth, abutments = made_frame(seed)
    split = split_forces(frame)
    np.testing.assert_array_equal(split.balanced, frame.balanced[0])
    found = (
        split.teeth_along_n, split.teeth_across_n,
        split.abutments_along_n, split.abutments_across_n,
    )  # fmt: skip
    for one, planted in zip(found, (*teeth, *abutments), strict=True):
        np.testing.assert_allclose(one, planted, atol=1e-12 * 100.0)
