"""Condylar paths as measured points, from protrusive tracks."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.records.sought import SIDE_NAMES, SideName
from kinematics.tracks.found_tracks import MeasuredPath

#: Rows that are this near to each other, forward, mm, give one point, their mean. Chosen for this
#: program: far below what changes a slope by a degree on the usual curve of 19 mm.
_BIN_MM: Final = 0.2
#: The path begins with a straight piece of this length, mm, so that a recorder fixed a little wrong
#: makes no step at its start. Chosen for this program.
_BEGINS_MM: Final = 0.5
#: Points that lie nearer than this to the line between their neighbours are left out, mm, and those
#: that are no farther from it than rows at one place usually are from each other. Chosen for this
#: program: far below any error of a record.
_TOLERANCE_MM: Final = 0.01
#: A path must reach this far forward, mm; the shortest that can be set is 3 mm long.
_LEAST_MM: Final = 3.0


def measured_paths(centres: Sequence[Floats]) -> tuple[MeasuredPath, ...]:
    """Return the paths of both condyles.

    Parameters
    ----------
    centres : sequence of ndarray, shape (n, 2, 3)
        Condyle centres along each protrusive track, hinge frame, mm.
    """
    if not centres:
        return ()
    together = np.concatenate(list(centres))
    return tuple(
        _path(name, together[:, side, 0], -together[:, side, 2])
        for side, name in enumerate(SIDE_NAMES)
    )


def _path(name: SideName, forward: Floats, drop: Floats) -> MeasuredPath:
    used = forward >= _BEGINS_MM
    forward, drop = forward[used], drop[used]
    if forward.max(initial=0.0) < _LEAST_MM:
        reason = (
            f"the {name} condyle goes {forward.max(initial=0.0):.1f} mm forward at most; a path"
            f" needs at least {_LEAST_MM:g} mm"
        )
        return MeasuredPath(name, (), 0.0, 0, reason)
    place = np.floor((forward - _BEGINS_MM) / _BIN_MM).astype(int)
    _, place, counts = np.unique(place, return_inverse=True, return_counts=True)
    means = np.stack([np.bincount(place, of) / counts for of in (forward, drop)], axis=1)
    points = np.concatenate([np.zeros((1, 2)), means])
    inside = forward <= points[-1, 0]
    beside = drop[inside] - np.interp(forward[inside], points[:, 0], points[:, 1])
    spread_mm = float(np.sqrt(np.mean(beside**2)))
    chosen = points[_thinned(points, max(_TOLERANCE_MM, spread_mm))]
    return MeasuredPath(
        name, tuple((float(f), float(d)) for f, d in chosen), spread_mm, len(forward), ""
    )


def _thinned(points: Floats, tolerance_mm: float) -> list[int]:
    """Return which points are needed: the others lie near the lines between them.

    Douglas & Peucker, Cartographica 1973;10:112-122.
    """
    needed, open_pieces = {0, len(points) - 1}, [(0, len(points) - 1)]
    while open_pieces:
        first, last = open_pieces.pop()
        inner = points[first + 1 : last]
        if not len(inner):
            continue
        along = points[last] - points[first]
        beside = np.abs(
            (inner[:, 0] - points[first, 0]) * along[1]
            - (inner[:, 1] - points[first, 1]) * along[0]
        ) / np.hypot(*along)
        worst = int(np.argmax(beside))
        if beside[worst] > tolerance_mm:
            middle = first + 1 + worst
            needed.add(middle)
            open_pieces += [(first, middle), (middle, last)]
    return sorted(needed)
