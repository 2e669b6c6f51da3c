"""Where a scan lies on a cast: all places that it may have, tried, and the one that it has."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.geometry.poses import identity_poses, move_points, pose_of
from kinematics.scans.coarse_registration import SAME_PLACE_MM, coarse_places
from kinematics.scans.fine_registration import FinePlace, fine_place
from kinematics.scans.registration_target import Target
from kinematics.scans.spread_points import SurfacePoints, surface_points, thinned

#: How many turns are tried all around: neighbours are some 30 degrees apart.
_TURNS: Final = 400
#: How many places of the casts a scan may have its middle at, at most, and how far apart, mm.
_MIDDLES: Final = 16
_MIDDLES_APART_MM: Final = 6.0
#: Shifts and turns tried about a place that is nearly right, mm and degrees.
_SHIFTS_MM: Final = (-4.0, 0.0, 4.0)
_SHARE_TURN_DEG: Final = 8.0
#: Coarse places looked at again, and those that are tried exactly.
_COARSE: Final = 16
_TRIED: Final = 8
#: So many of the likely places are also tried exactly as they are.
_AS_THEY_ARE: Final = 2
_QUICK_ROUNDS: Final = 9
#: Points of a scan for coarse places, for the first exact ones, and for the last.
_COARSE_POINTS: Final = 150
_QUICK_POINTS: Final = 900
_FINE_POINTS: Final = 3000
#: Points of a scan are at least so far apart, mm.
_APART_MM: Final = 0.5
#: A scan lies on a cast if this share of what lies beside it does. Chosen for this program: scans
#: of one arch reach 0.95 and more, those of other people's stay below 0.5.
LEAST_SHARE: Final = 0.7
#: Another place is as good if it has this share of the points on the cast; chosen for this program.
_AS_GOOD: Final = 0.7
#: A coarse place this near to a good one, mm, is led there, and not tried: less than half a tooth.
_LEADS_THERE_MM: Final = 3.0
#: So few points say nothing of a place.
_FEWEST: Final = 12


@dataclass(frozen=True)
class SoughtScan:
    """A scan whose place is sought.

    Attributes
    ----------
    surface : SurfacePoints
        Points all over it.
    fine : ndarray of int, shape (n,)
        Those that are compared exactly.
    """

    surface: SurfacePoints
    fine: Ints

    @cached_property
    def apart_mm(self) -> float:
        """About how far the points compared exactly lie apart."""
        corners = self.surface.corners
        across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        area_mm2 = 0.5 * float(np.linalg.norm(across, axis=1).sum())
        return max(float(np.sqrt(area_mm2 / len(self.fine))), 1e-3)

    @property
    def points(self) -> Floats:
        """Points compared exactly, (n, 3)."""
        return np.asarray(self.surface.points[self.fine])

    @property
    def normals(self) -> Floats:
        """Their normals, (n, 3)."""
        return np.asarray(self.surface.normals[self.fine])

    def without(self, gone: Bools) -> "SoughtScan":
        """Return the scan without some of the points compared exactly, (n,)."""
        return SoughtScan(self.surface, self.fine[~gone])

    def some(self, most: int) -> tuple[Floats, Floats]:
        """Return about so many of the points and normals, evenly spread."""
        rows = _scattered(len(self.fine), most)
        return self.points[rows], self.normals[rows]


def _scattered(count: int, most: int) -> Ints:
    """Return some of `count` numbers that are in no step with each other, always the same."""
    order = np.random.default_rng(0).permutation(count)
    return np.sort(order[:most])


def sought_scan(mesh: Mesh) -> SoughtScan:
    """Prepare a scan whose place is sought."""
    surface = surface_points(mesh, _APART_MM)
    return SoughtScan(surface, thinned(surface, _FINE_POINTS, _APART_MM))


@dataclass(frozen=True)
class CastTarget:
    """A cast on which a scan is sought.

    Attributes
    ----------
    whole : Target
        Teeth and gums, for coarse places.
    teeth : Target
        Teeth alone, for exact ones: gums yield and change.
    """

    whole: Target
    teeth: Target


@dataclass(frozen=True)
class Found:
    """What a search on a cast has found.

    Attributes
    ----------
    best : FinePlace or None
        The best place, whether it is good or not; None where nothing came near.
    as_good_mm : float
        How far, at the teeth, the best other place that is as good lies; 0 where there is none.
    """

    best: FinePlace | None
    as_good_mm: float

    @property
    def lies_on(self) -> bool:
        """Whether the scan lies on the cast at all."""
        return self.best is not None and _is_good(self.best)


def starts_anywhere(both: Target, scan: SoughtScan) -> Floats:
    """Return poses to begin with, for a scan in any coordinates, (s, 4, 4); the first is none.

    Its middle is brought to the middle of parts of the casts as large as the scan.
    """
    points, _ = scan.some(_COARSE_POINTS)
    middle = points.mean(axis=0)
    radius_mm = float(np.linalg.norm(points - middle, axis=1).max())
    some = both.surface.points[_scattered(len(both.surface.points), 4000)]
    centres = [both.middle]
    for _ in range(_MIDDLES - 1):
        away = np.min([np.linalg.norm(some - centre, axis=1) for centre in centres], axis=0)
        centres.append(some[int(np.argmax(away))])
    middles: list[Floats] = []
    for centre in centres:
        part = some[np.linalg.norm(some - centre, axis=1) <= radius_mm].mean(axis=0)
        if all(np.linalg.norm(part - other) > _MIDDLES_APART_MM for other in middles):
            middles.append(part)
    turns = _turns_all_around()
    shifts = [there - turns @ middle for there in middles]
    return np.concatenate([identity_poses(1), *(pose_of(turns, shift) for shift in shifts)])


def likely_places(both: Target, scan: SoughtScan) -> Floats:
    """Return likely places of a scan in any coordinates on two casts in MI, (k, 4, 4)."""
    starts = starts_anywhere(both, scan)
    found = coarse_places(both, *scan.some(_COARSE_POINTS), starts, _COARSE, far=True)
    return np.concatenate([starts[:1], found.poses])


def _starts_about(poses: Floats, about: Floats, turned: bool) -> Floats:
    """Return poses (k, 4, 4) and others about them, shifted, and turned about a point too."""
    steps = np.array(_SHIFTS_MM)
    shifts = np.stack(np.meshgrid(steps, steps, steps, indexing="ij"), axis=-1).reshape(-1, 3)
    moves = pose_of(np.tile(np.eye(3), (len(shifts), 1, 1)), shifts)
    if turned:
        moves = np.concatenate([moves @ turn for turn in _small_turns(about)])
    return np.asarray((moves[None] @ poses[:, None]).reshape(-1, 4, 4))


def find_on(cast: CastTarget, scan: SoughtScan, likely: Floats, *, turned: bool = False) -> Found:
    """Find where a scan lies on a cast.

    Parameters
    ----------
    cast : CastTarget
        The cast.
    scan : SoughtScan
        The scan, which may show much else.
    likely : ndarray, shape (k, 4, 4)
        Poses to begin with, some millimetres near.
    turned : bool
        Whether they may also be turned by more than a few degrees.
    """
    starts = _starts_about(likely, cast.teeth.middle, turned)
    places = coarse_places(cast.whole, *scan.some(_COARSE_POINTS), starts, _TRIED, far=False)
    points, normals = scan.some(_QUICK_POINTS)
    apart_mm = scan.apart_mm * float(np.sqrt(len(scan.fine) / len(points)))
    tried: list[FinePlace] = []
    for pose in (*likely[:_AS_THEY_ARE], *places.poses):
        good = (place.pose for place in tried if _is_good(place))
        if any(_apart_mm(cast.teeth, pose, end) < _LEADS_THERE_MM for end in good):
            continue
        place = fine_place(cast.teeth, points, normals, pose, apart_mm, _QUICK_ROUNDS)
        if place.on.sum() >= _FEWEST:
            tried.append(place)
    if not tried:
        return Found(None, 0.0)
    best = max(tried, key=_worth)
    ways_mm = {id(other): _apart_mm(cast.teeth, best.pose, other.pose) for other in tried}
    rivals = [
        other
        for other in tried
        if _is_good(other)
        and _worth(other) > _AS_GOOD * _worth(best)
        and ways_mm[id(other)] > SAME_PLACE_MM
    ]
    as_good_mm = ways_mm[id(max(rivals, key=_worth))] if rivals else 0.0
    if _is_good(best):
        best = fine_place(cast.teeth, scan.points, scan.normals, best.pose, scan.apart_mm)
    return Found(best, as_good_mm)


def _worth(place: FinePlace) -> float:
    return float(place.on.sum()) * place.share


def _is_good(place: FinePlace) -> bool:
    return place.share >= LEAST_SHARE


def _apart_mm(teeth: Target, one: Floats, other: Floats) -> float:
    """Return how far two poses put the same scan apart, at most, at the teeth."""
    points = teeth.surface.points
    back = np.linalg.inv(one)
    return float(np.linalg.norm(move_points(other @ back, points) - points, axis=1).max())


def _small_turns(about: Floats) -> Sequence[Floats]:
    """Return no turn, and turns both ways about each axis through a point, (4, 4) each."""
    angle = np.radians(_SHARE_TURN_DEG)
    found = [np.eye(4)]
    for axis in range(3):
        for sign in (-1.0, 1.0):
            cross = np.zeros((3, 3))
            cross[(axis + 2) % 3, (axis + 1) % 3] = sign
            cross[(axis + 1) % 3, (axis + 2) % 3] = -sign
            turn = np.eye(3) + np.sin(angle) * cross + (1.0 - np.cos(angle)) * cross @ cross
            found.append(pose_of(turn[None], (about - turn @ about)[None])[0])
    return found


def _turns_all_around() -> Floats:
    """Return turns (n, 3, 3) spread evenly over all there are: a spiral on the unit quaternions.

    Alexa, Proc IEEE/CVF Conf Comput Vis Pattern Recognit 2022, "Super-Fibonacci spirals".
    """
    step = np.arange(_TURNS) + 0.5
    inner, outer = np.sqrt(step / _TURNS), np.sqrt(1.0 - step / _TURNS)
    first = 2.0 * np.pi * step / np.sqrt(2.0)
    second = 2.0 * np.pi * step / 1.533751168755204
    x, y = inner * np.sin(first), inner * np.cos(first)
    z, w = outer * np.sin(second), outer * np.cos(second)
    rows = [
        [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
        [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
        [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
    ]
    return np.moveaxis(np.array(rows), 2, 0)
