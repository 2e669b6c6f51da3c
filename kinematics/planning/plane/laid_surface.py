"""A plane or a sphere laid through the teeth of an arch, so that a few out of line do not move it.

Every choice of up to three teeth to leave out is tried. A tooth that takes part costs the square of
its mean distance, one that is left out the square of a distance that is agreed: the choice that
costs least is taken. There is no start to choose and no chance in it.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.planning.plane.curved_surface import CURVATURE, CurvedSurface, fitted_surface
from kinematics.planning.plane.standing_points import Points

#: Radius of the sphere of Monson, mm: four inches.
CLASSIC_RADIUS_MM: Final = 101.6
#: At most so many teeth are left out, and never so many that fewer than one more than the surface
#: needs would be left. Chosen for this program.
_MOST_LEFT_OUT: Final = 3
#: Choices of as many teeth that are worked out in full, and what keeps others solvable.
_IN_FULL: Final = 6
_RIDGE: Final = 1e-12
#: Half the length and the depth of a curve of Spee, mm, its scatter among people (2.0 +/- 0.7 mm;
#: Marshall et al., Am J Orthod Dentofacial Orthop 2008;134:344-352), and of teeth along it (chosen
#: for this program): a sphere whose curve departs from the classic one by 0.7 mm costs as much as a
#: tooth that stands 0.15 mm off it. Where the teeth tell its radius that hardly moves it; where
#: the last molars are left out it keeps the others from being turned into a small ball.
_HALF_CHORD_MM: Final = 21.0
_DEPTH_SCATTER_MM: Final = 0.7
_TOOTH_SCATTER_MM: Final = 0.15
_HELD_BY: Final = (0.5 * _HALF_CHORD_MM**2 * _TOOTH_SCATTER_MM / _DEPTH_SCATTER_MM) ** 2
#: Scatter of teeth in line is never taken for less, mm: few teeth can lie on a sphere by chance.
#: Chosen for this program; teeth of the built-in arches scatter by as much.
LEAST_SCATTER_MM: Final = 0.1


@dataclass(frozen=True)
class Laying:
    """How a surface is laid.

    Attributes
    ----------
    free : tuple of bool
        Which of its four numbers are sought.
    curvature_per_mm : float
        Curvature where it is not sought, or to start from.
    leave_out_mm : float
        Mean distance beyond which a tooth is rather left out.
    held_by : float
        What the square of a departure from that curvature costs, mm4.
    """

    free: tuple[bool, bool, bool, bool]
    curvature_per_mm: float
    leave_out_mm: float
    held_by: float = 0.0

    @property
    def count(self) -> int:
        """How many numbers are sought."""
        return sum(self.free)

    def least(self, points: Points, teeth: Bools) -> CurvedSurface | None:
        """Return the surface nearest to some teeth (t,), by least squares."""
        if np.count_nonzero(teeth) < self.count:
            return None
        chosen = points.of(teeth)
        return fitted_surface(
            points.points[chosen],
            points.weights[chosen],
            np.array(self.free),
            self.curvature_per_mm,
            self.held_by,
        )

    @property
    def of_usual_curvature(self) -> "Laying":
        """The same with its curvature kept."""
        ahead, left, height, _ = self.free
        return replace(self, free=(ahead, left, height, False), held_by=0.0)

    def cost_of_curvature(self, surface: CurvedSurface) -> float:
        """Return what the departure of a surface from the usual curvature costs, mm2."""
        return self.held_by * (surface.curvature_per_mm - self.curvature_per_mm) ** 2


#: The plane through buccal cusps and front edges: the curve of an arch alone moves its cusps up to
#: a millimetre off it. Distances chosen for this program.
PLANE: Final = Laying((True, True, True, False), 0.0, 1.5)
SPHERE: Final = Laying((True, True, True, True), 1.0 / CLASSIC_RADIUS_MM, 0.4, _HELD_BY)
#: The same by the teeth alone, to compare its radius with published ones.
FREE_SPHERE: Final = Laying((True, True, True, True), 1.0 / CLASSIC_RADIUS_MM, 0.4)
#: Where teeth are too few to tell its radius, that is taken.
CLASSIC_SPHERE: Final = Laying((True, True, True, False), 1.0 / CLASSIC_RADIUS_MM, 0.4)


@dataclass(frozen=True)
class LaidSurface:
    """A surface and the teeth that it passes.

    Attributes
    ----------
    surface : CurvedSurface
        Through the teeth in line.
    in_line : ndarray, shape (t,)
        Which teeth took part to the end.
    scatter_mm : float
        Root of their mean squared distance, each counted once, less what the fit takes up; never
        below `LEAST_SCATTER_MM`.
    cost : float
        What it cost, mm2.
    """

    surface: CurvedSurface
    in_line: Bools
    scatter_mm: float
    cost: float


def laid(points: Points, laying: Laying) -> LaidSurface | None:
    """Return the surface that costs least; None where the teeth do not tell one."""
    near = laying.of_usual_curvature.least(points, np.ones(len(points.codes), dtype=bool))
    if near is None:
        return None
    best: LaidSurface | None = None
    for left_out in range(_most_left_out(points, laying) + 1):
        if best is not None and left_out * laying.leave_out_mm**2 >= best.cost:
            break
        for teeth in _promising(points, laying, near, left_out):
            surface = laying.least(points, teeth)
            found = None if surface is None else _outcome(points, laying, teeth, surface)
            if found is not None and (best is None or found.cost < best.cost):
                best = found
    return best


def _outcome(points: Points, laying: Laying, teeth: Bools, surface: CurvedSurface) -> LaidSurface:
    squares = points.means(surface.heights(points.points))[teeth] ** 2
    left_out = len(teeth) - np.count_nonzero(teeth)
    price = left_out * laying.leave_out_mm**2
    cost = math.fsum(squares) + price + laying.cost_of_curvature(surface)
    spare = max(1, int(np.count_nonzero(teeth)) - laying.count)
    scatter = math.sqrt(math.fsum(squares) / spare)
    return LaidSurface(surface, teeth, max(scatter, LEAST_SCATTER_MM), cost)


def _most_left_out(points: Points, laying: Laying) -> int:
    spare = len(points.codes) - laying.count - 1
    return max(0, min(_MOST_LEFT_OUT, spare))


def _promising(
    points: Points, laying: Laying, near: CurvedSurface, left_out: int
) -> Iterator[Bools]:
    """Yield the choices of teeth (t,) that cost least to first order, cheapest first.

    A surface changes little from choice to choice, so that first order puts all choices in order in
    one go; what the first few of them cost is then worked out in full.
    """
    count, free = len(points.codes), np.array(laying.free)
    choices = np.ones((math.comb(count, left_out), count), dtype=bool)
    for row, chosen in enumerate(combinations(range(count), left_out)):
        choices[row, list(chosen)] = False
    heights = near.heights(points.points)
    rows = near.changes(points.points, heights)[:, free]
    weighted = points.weights[:, None] * rows
    owners = points.owners == np.arange(count)[:, None]
    own = owners.astype(float)
    squares = np.einsum("tn,ni,nj->tij", own, weighted, rows)
    pulls = np.einsum("tn,ni,n->ti", own, weighted, heights)
    known = np.einsum("ct,tij->cij", choices.astype(float), squares)
    pull = np.einsum("ct,ti->ci", choices.astype(float), pulls)
    if laying.held_by:
        known[:, -1, -1] += laying.held_by
        pull[:, -1] += laying.held_by * (near.curvature_per_mm - laying.curvature_per_mm)
    known += _RIDGE * np.eye(known.shape[1]) * np.einsum("cii->ci", known)[:, None]
    steps = np.linalg.solve(known, -pull[..., None])[..., 0]
    means = points.means(heights) + steps @ points.means(rows).T
    costs = np.where(choices, means**2, 0.0).sum(axis=1)
    if laying.held_by:
        curvature = near.curvature_per_mm + steps[:, -1] - laying.curvature_per_mm
        costs += laying.held_by * curvature**2
    for row in np.argsort(costs, kind="stable")[:_IN_FULL]:
        yield choices[row]


@dataclass(frozen=True)
class Reading:
    """The surface that the other teeth give for one of them.

    Attributes
    ----------
    surface : CurvedSurface
        Through all teeth in line but this one.
    uncertainty_mm : float
        Twice the standard error of a height of this tooth over it: how much the others scatter, and
        how far it stands from them.
    """

    surface: CurvedSurface
    uncertainty_mm: float


def reading(points: Points, laying: Laying, through: LaidSurface, at: Floats, code: int) -> Reading:
    """Return the surface of the other teeth, and how well it is known where a tooth stands.

    Parameters
    ----------
    points : Points
        What the surface was laid through.
    laying : Laying
        How.
    through : LaidSurface
        The outcome.
    at : ndarray, shape (n, 3)
        The tips of the tooth that is read, mm.
    code : int
        That tooth; it need not be among those of `points`.
    """
    others = through.in_line & (np.array(points.codes) != code)
    surface = laying.least(points, others)
    if surface is None:
        return Reading(through.surface, float("inf"))
    free = np.array(laying.free)
    chosen = points.of(others)
    rows = _changes(surface, points.points[chosen])[:, free]
    known = rows.T @ (points.weights[chosen][:, None] * rows)
    if free[CURVATURE]:
        known[-1, -1] += laying.held_by
    change = _changes(surface, at)[:, free].mean(axis=0)
    away = float(change @ np.linalg.solve(known, change))
    return Reading(surface, 2.0 * through.scatter_mm * float(np.sqrt(1.0 + max(0.0, away))))


def _changes(surface: CurvedSurface, points: Floats) -> Floats:
    return surface.changes(points, surface.heights(points))
