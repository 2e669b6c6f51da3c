"""A plane or a sphere laid through the teeth of an arch, so that a few out of line do not move it.

Every choice of up to three teeth to leave out is tried. A tooth that takes part costs the square of
its mean distance, one that is left out the square of a distance that is agreed: the choice that
costs least is taken. There is no start to choose and no chance in it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
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
    """

    surface: CurvedSurface
    in_line: Bools
    scatter_mm: float


def laid(points: Points, laying: Laying) -> LaidSurface | None:
    """Return the surface that costs least; None where the teeth do not tell one."""
    best, least_cost = None, np.inf
    for left_out in range(_most_left_out(points, laying) + 1):
        price = laying.leave_out_mm**2
        if left_out * price >= least_cost:
            break
        for teeth in _choices(len(points.codes), left_out):
            surface = laying.least(points, teeth)
            if surface is None:
                continue
            squares = _squares(points, surface)[teeth]
            cost = float(squares.sum()) + price * left_out + laying.cost_of_curvature(surface)
            if cost < least_cost:
                spare = max(1, np.count_nonzero(teeth) - laying.count)
                scatter = float(np.sqrt(squares.sum() / spare))
                best = LaidSurface(surface, teeth, max(scatter, LEAST_SCATTER_MM))
                least_cost = cost
    return best


def _most_left_out(points: Points, laying: Laying) -> int:
    spare = len(points.codes) - laying.count - 1
    return max(0, min(_MOST_LEFT_OUT, spare))


def _choices(count: int, left_out: int) -> Iterator[Bools]:
    for chosen in combinations(range(count), left_out):
        teeth = np.ones(count, dtype=bool)
        teeth[list(chosen)] = False
        yield teeth


def _squares(points: Points, surface: CurvedSurface) -> Floats:
    return np.asarray(points.means(surface.heights(points.points)) ** 2)


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
    rows = surface.changes(points.points[chosen])[:, free]
    known = rows.T @ (points.weights[chosen][:, None] * rows)
    if free[CURVATURE]:
        known[-1, -1] += laying.held_by
    change = surface.changes(at)[:, free].mean(axis=0)
    away = float(change @ np.linalg.solve(known, change))
    return Reading(surface, 2.0 * through.scatter_mm * float(np.sqrt(1.0 + max(0.0, away))))
