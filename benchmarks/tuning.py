"""A library made ready for one scene: of several ways to use it, the quickest that is as exact."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats

#: When so many seconds have gone, no further way is tried.
_PATIENCE_S: Final = 20.0
#: So many runs are made where they are short, since other work on the machine disturbs them.
_SHORT_RUNS: Final = 4
_SHORT_S: Final = 0.5


@dataclass(frozen=True)
class Way:
    """One way to use a library.

    Attributes
    ----------
    words : str
        Its settings, for the table.
    close : callable
        Gets poses (n, 4, 4) at opening 0; returns openings at first contact (n,) and how many
        tests, casts or the like a pose took.
    """

    words: str
    close: Callable[[Floats], tuple[Floats, float]]


def quickest(ways: Sequence[Way], poses: Floats, worse_rad: float) -> tuple[Way, float]:
    """Return the quickest way on some poses, of those as exact as the first, and its seconds.

    The least of a few short runs counts, or a single long one. A way that is far behind after a
    few poses is not followed further, and where poses take seconds not all ways are tried.

    Parameters
    ----------
    ways : sequence of Way
        The most promising first.
    poses : ndarray, shape (n, 4, 4)
        Some poses of the scene.
    worse_rad : float
        How far answers may be from those of the first way.
    """
    begin = time.perf_counter()
    best, least, least_few, wanted = ways[0], np.inf, np.inf, None
    few = poses[:8]
    for way in ways:
        if len(few) < len(poses):
            spent, _ = _run(way, few)
            if spent > 4.0 * least_few:
                continue
            least_few = min(least_few, spent)
        spent, answers = _run(way, poses)
        wanted = answers if wanted is None else wanted
        if spent < least and float(np.abs(answers - wanted).max()) <= worse_rad:
            best, least = way, spent
        if time.perf_counter() - begin > _PATIENCE_S:
            break
    return best, least


def _run(way: Way, poses: Floats) -> tuple[float, Floats]:
    """Return the least time of some runs, seconds, and the answers."""
    least, answers = np.inf, np.empty(0)
    for _ in range(_SHORT_RUNS):
        begin = time.perf_counter()
        answers, _ = way.close(poses)
        least = min(least, time.perf_counter() - begin)
        if least > _SHORT_S:
            break
    return least, answers


def reach_mm(lower: Arch) -> float:
    """Return the greatest distance of a lower arch from its hinge axis, mm."""
    vertices = lower.mesh.vertices
    return float(np.hypot(vertices[:, 0], vertices[:, 2]).max())
