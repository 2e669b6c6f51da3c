"""How casts without labels probably lie: from their shapes alone, for a first look at them."""

from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.scans.head_frame import frame_at

#: A look needs no more places than these.
_ENOUGH: Final = 5000


def guessed_head_from_scan(upper: Floats, lower: Floats) -> Floats:
    """Return a pose (4, 4) into a frame with x anterior, y to the left, z superior, as a guess.

    Both arches together are flattest from above to below, the upper lies above, and an arch is
    closed in front: there it has more surface than behind. Nothing is computed from this but where
    one looks from.

    Parameters
    ----------
    upper, lower : ndarray, shape (n, 3)
        Places on both casts, as they bite on each other, mm.
    """
    both = np.concatenate([places[:: 1 + len(places) // _ENOUGH] for places in (upper, lower)])
    middle = both.mean(axis=0)
    _, _, axes = np.linalg.svd(both - middle, full_matrices=False)
    up = axes[2] * (1.0 if (upper.mean(axis=0) - lower.mean(axis=0)) @ axes[2] >= 0.0 else -1.0)
    along = (both - middle) @ axes[:2].T
    low, high = along.min(axis=0), along.max(axis=0)
    # the mean lies nearer to the closed end than the middle of the extent does
    lean = -0.5 * (low + high) / (high - low)
    front = int(np.argmax(np.abs(lean)))
    ahead = axes[front] * np.sign(lean[front] or 1.0)
    return frame_at(middle, ahead, np.cross(up, ahead))
