"""Whether one tooth, as it is or changed, stands as far away as is wanted: the quick judgement.

The jaw moves as it does when the tooth is not there. Once a tooth clears all others it does just
so, whatever its shape: so poses are found once, and a changed tooth is put into them alone.
"""

from collections.abc import Iterator, Sequence
from copy import copy
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.contact.closure import MEETS, close
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.mounted import GUIDED_BY_NOTHING, MountedCasts, mount
from kinematics.contact.pair import LeaveOut, Pair, lower_tree, upper_tree
from kinematics.contact.sweep import Sweep
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, part_of
from kinematics.planning.heights import heights_mm
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.remedies.wanted import FREE, Wanted, shares
from kinematics.planning.wording import excursion_words
from kinematics.tooth_codes import is_upper

#: Of the poses of an excursion so many are looked at first: most changes that do not help fail
#: there.
_FIRST_OF: Final = 5


@dataclass(frozen=True)
class Path:
    """Poses in which a tooth is judged, MI first, the jaw closed on all other teeth.

    Attributes
    ----------
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower.
    wanted_mm : ndarray, shape (n, opponents)
        How far the tooth is to stand from each opponent; `FREE` where it may stand as it will.
    held_mm : ndarray, shape (n,)
        By how much it may hold the jaw open, along the closing arc.
    sweep : ndarray, shape (n,)
        Number of the excursion.
    travel_mm : ndarray, shape (n,)
        Travel there.
    others : tuple of int
        The opponents.
    """

    poses: Floats
    wanted_mm: Floats
    held_mm: Floats
    sweep: Ints
    travel_mm: Floats
    others: tuple[int, ...]

    def some(self, rows: Ints) -> "Path":
        """Return some of the poses."""
        return replace(
            self,
            poses=self.poses[rows],
            wanted_mm=self.wanted_mm[rows],
            held_mm=self.held_mm[rows],
            sweep=self.sweep[rows],
            travel_mm=self.travel_mm[rows],
        )


@dataclass(frozen=True)
class TooNear:
    """Where a tooth is nearest to an opponent, measured by what is wanted.

    Attributes
    ----------
    other : int
        The opponent.
    sweep : int
        Number of the excursion; -1 in MI.
    travel_mm : float
        Travel there.
    lacks_mm : float
        How much is wanting.
    """

    other: int
    sweep: int
    travel_mm: float
    lacks_mm: float


def casts_without(casts: MountedCasts, tooth: int) -> MountedCasts:
    """Return casts without one tooth, closed in MI again.

    Raises
    ------
    InputError
        Nothing else meets.
    """
    arches = {"upper": casts.upper, "lower": casts.lower}
    side = "upper" if is_upper(tooth) else "lower"
    arches[side] = _without(arches[side], tooth)
    build = upper_tree if side == "upper" else lower_tree
    trees = {"upper": casts.pair.upper, "lower": casts.pair.lower, side: build(arches[side])}
    start = replace(casts.mi, opening_rad=0.0)
    return mount(
        arches["upper"],
        arches["lower"],
        Pair(**trees),
        casts.guidance,
        start,
        casts.incisal_point,
    )


def _without(arch: Arch, tooth: int) -> Arch:
    kept = arch.tooth_of_face != tooth
    mesh, _ = part_of(arch.mesh, kept)
    teeth = tuple(one for one in arch.teeth if one.code != tooth)
    return Arch(mesh, arch.tooth_of_face[kept], teeth)


def may_hold_mi_mm(occlusion: Occlusion, in_mi: Sweep, tooth: int) -> float:
    """Return by how much a tooth may hold the jaw open in MI, along the closing arc, mm.

    As much as a stop, or as it does; where that is more than the contact tolerance it is too high.

    Parameters
    ----------
    occlusion : Occlusion
        The arches, with the tooth.
    in_mi : Sweep
        Any of their excursions from MI.
    tooth : int
        ISO 3950 number.
    """
    settings = occlusion.settings
    held = float(heights_mm(occlusion, in_mi, frozenset({tooth}))[0])
    least = settings.stop_tolerance_mm
    return max(held, least) if held <= settings.tolerance_mm else least


def path_of(
    occlusion: Occlusion,
    sweeps: Sequence[Sweep],
    tooth: int,
    wanted: Sequence[Wanted],
    held_in_mi_mm: float,
) -> tuple[Path, str]:
    """Return where a tooth is judged.

    Parameters
    ----------
    occlusion : Occlusion
        The arches, with the tooth.
    sweeps : sequence of Sweep
        Excursions of the casts without it.
    tooth : int
        ISO 3950 number.
    wanted : sequence of Wanted
        What is wanted of it.
    held_in_mi_mm : float
        By how much it may hold the jaw open in MI.

    Returns
    -------
    path : Path
        Poses in which nothing else meets are left out.
    lost : str
        Where that is; empty where something meets everywhere.
    """
    others = tuple(sorted({code for one in wanted for code in one.distance_mm}))
    mi = next(number for number, sweep in enumerate(sweeps) if sweep.excursion.start == "MI")
    poses, distances = [sweeps[mi].poses[:1]], [np.zeros((1, len(others)))]
    held, number, travel = [np.full(1, held_in_mi_mm)], [np.full(1, -1)], [np.zeros(1)]
    lost = ""
    for one in wanted:
        sweep = sweeps[one.excursion]
        asked, share = shares(occlusion, sweep)
        alone = asked & (sweep.guide == GUIDED_BY_NOTHING)
        if alone.any() and not lost:
            lost = (
                f"in {excursion_words(sweep.excursion)}, from {sweep.travel_mm[alone][0]:.1f} mm of"
                f" travel on, nothing but {tooth} meets"
            )
        rows = np.flatnonzero(asked & ~alone)
        most = np.array([one.distance_mm.get(code, FREE) for code in others])
        poses.append(sweep.poses[rows])
        distances.append(np.where(most > FREE, share[rows, None] * most, FREE))
        held.append(np.zeros(len(rows)))
        number.append(np.full(len(rows), one.excursion))
        travel.append(sweep.travel_mm[rows])
    path = Path(
        np.concatenate(poses),
        np.concatenate(distances),
        np.concatenate(held),
        np.concatenate(number),
        np.concatenate(travel),
        others,
    )
    return path, lost


class Judge:
    """Judges one tooth in the poses of a path against the teeth that it is to clear.

    Parameters
    ----------
    casts : MountedCasts
        The arches.
    tooth : int
        ISO 3950 number.
    path : Path
        Where it is judged.
    workers : Workers
        Threads; results do not depend on them.
    """

    def __init__(self, casts: MountedCasts, tooth: int, path: Path, workers: Workers) -> None:
        self.path, self._tooth, self._workers = path, tooth, workers
        self._upper = is_upper(tooth)
        other = casts.lower if self._upper else casts.upper
        chosen = np.isin(other.tooth_of_face, path.others)
        facing = Arch(part_of(other.mesh, chosen)[0], other.tooth_of_face[chosen], ())
        self._other = lower_tree(facing) if self._upper else upper_tree(facing)
        spread = np.arange(len(path.poses))
        self._first = np.flatnonzero(spread % _FIRST_OF == 0)
        self._worst: tuple[int, ...] = ()

    def at(self, poses: Floats) -> "Judge":
        """Return the judge with the jaw in other poses (n, 4, 4) of the same path."""
        other = copy(self)
        other.path = replace(self.path, poses=poses)
        return other

    def of(self, rows: Ints) -> "Judge":
        """Return the judge of some of the poses."""
        other = copy(self)
        other.path, other._first, other._worst = self.path.some(rows), np.arange(0), ()
        return other

    def clears(self, mesh: Mesh) -> bool:
        """Tell whether the tooth, its triangles given in the coordinates of its arch, is clear."""
        pair = self._pair(mesh)
        rows = np.unique(np.array([*self._first, *self._worst], dtype=np.int64))
        for some in (rows, np.arange(len(self.path.poses))):
            near = self._nearest(pair, some)
            if near is not None:
                self._worst = (*self._worst[-8:], near[0])
                return False
        return True

    def too_near(self, mesh: Mesh) -> TooNear | None:
        """Return where the tooth lacks most of what is wanted; None where it is clear."""
        near = self._nearest(self._pair(mesh), np.arange(len(self.path.poses)))
        if near is None:
            return None
        row, other, lacks = near
        return TooNear(
            other, int(self.path.sweep[row]), float(self.path.travel_mm[row]), float(lacks)
        )

    def _pair(self, mesh: Mesh) -> Pair:
        own = Arch(mesh, np.full(len(mesh.faces), self._tooth), ())
        if self._upper:
            return Pair(upper_tree(own), self._other)
        return Pair(self._other, lower_tree(own))

    def _nearest(self, pair: Pair, rows: Ints) -> tuple[int, int, float] | None:
        """Return pose, opponent and what is wanting where that is most; None: nothing is."""
        if len(rows) == 0:
            return None
        path = self.path.some(rows)
        found = [*self._overlapping(pair, path), *self._within(pair, path)]
        if not found:
            return None
        row, other, lacks = max(found, key=lambda one: one[2])
        return int(rows[row]), other, lacks

    def _overlapping(self, pair: Pair, path: Path) -> Iterator[tuple[int, int, float]]:
        """Yield the pose in which the tooth holds the jaw open most, if it does."""
        for free in sorted({tuple(np.flatnonzero(row <= FREE)) for row in path.wanted_mm}):
            same = [tuple(np.flatnonzero(row <= FREE)) == free for row in path.wanted_mm]
            rows = np.flatnonzero(same)
            left = frozenset(path.others[index] for index in free)
            leave = LeaveOut(lower=left) if self._upper else LeaveOut(upper=left)
            met = close(pair, path.poses[rows], leave, self._workers)
            meets = met.status == MEETS
            high = np.where(meets, np.where(meets, met.opening_rad, 0.0) * met.radius_mm, -np.inf)
            over = high - path.held_mm[rows]
            most = int(np.argmax(over))
            if over[most] > 0.0:
                codes = met.tooth_lower if self._upper else met.tooth_upper
                wanted = max(path.wanted_mm[rows[most], path.others.index(int(codes[most]))], 0.0)
                yield int(rows[most]), int(codes[most]), float(over[most] + wanted)

    def _within(self, pair: Pair, path: Path) -> Iterator[tuple[int, int, float]]:
        """Yield pose and opponent of the shortest distance that lacks most, if one does."""
        limits = np.maximum(path.wanted_mm.max(axis=1), 0.0)
        rows = np.flatnonzero(limits > 0.0)
        if len(rows) == 0:
            return
        one = (self._tooth,)
        uppers, lowers = (one, path.others) if self._upper else (path.others, one)
        gaps = pair_gaps(pair, path.poses[rows], limits[rows], uppers, lowers, self._workers)
        gaps = gaps.reshape(len(rows), len(path.others))
        lacks = path.wanted_mm[rows] - gaps
        lacks[path.wanted_mm[rows] <= 0.0] = -np.inf
        row, column = np.unravel_index(int(np.argmax(lacks)), lacks.shape)
        if lacks[row, column] > 0.0:
            yield int(rows[row]), path.others[column], float(lacks[row, column])
