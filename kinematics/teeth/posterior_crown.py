"""A premolar or molar as a closed surface: table, dome, walls down to the cervical line, base.

The crown is a stack of rings over a star-shaped outline. Inside the height of contour the surface
is a height field, the smooth minimum of the occlusal table and of a dome that ends exactly on the
ring of greatest contour; from there walls are lofted down to the cervical line.
"""

from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np
from scipy.interpolate import CubicSpline
from scipy.special import expit

from kinematics.conventions import Floats, Ints
from kinematics.teeth.crown_table import PosteriorForm, crown_table
from kinematics.teeth.occlusal_table import TableShape, table_shape
from kinematics.teeth.ring_mesh import stacked_rings, triangle_count

#: Sharpness of the smooth minimum of table and dome, per mm.
DOME_BLEND_PER_MM: Final = 5.0
DOME_EXPONENT: Final = 2.6
#: How straight the dome rises from its rim: 0.5 upright, 1 leaning inward at once.
STRAIGHT_DOME: Final = 0.5
#: The dome would reach this multiple of the crown height above the axis.
DOME_HEIGHT: Final = 1.25
#: How the walls leave the ring of contour: radius moves in with this power of the way down.
WALL_EXPONENT: Final = 1.7
#: Share of the radius up to which rings are evenly spaced; outside they crowd to the steep rim.
EVEN_SHARE: Final = 0.72
#: Triangle edges on walls and base, in units of the edge on the occlusal table.
WALL_COARSENESS: Final = 1.9
BASE_COARSENESS: Final = 3.0
#: Corners of the outline's fine sampling.
_FINE: Final = 720


@dataclass(frozen=True)
class Outline:
    """The outline at the height of contour, at equal steps of its arc length.

    Attributes
    ----------
    angle, radius : ndarray, shape (n + 1,)
        Polar coordinates about the axis; the last point repeats the first.
    perimeter : float
        Length, mm.
    """

    angle: Floats
    radius: Floats
    perimeter: float

    def at(self, share: Floats) -> tuple[Floats, Floats]:
        """Return angle and radius at shares (0 to 1) of the way round."""
        steps = np.linspace(0.0, 1.0, len(self.angle))
        return np.interp(share, steps, self.angle), np.interp(share, steps, self.radius)


@cache
def _outline(kind: str) -> Outline:
    """Return the outline of a crown type, rescaled to the exact size of the table."""
    form = crown_table().posterior[kind]
    points = form.outline * np.array(form.size[:2])
    angle = np.unwrap(np.arctan2(points[:, 1], points[:, 0]))
    order = np.append(angle, angle[0] + 2.0 * np.pi)
    radius = np.hypot(points[:, 0], points[:, 1])
    spline = CubicSpline(order, np.append(radius, radius[0]), bc_type="periodic")
    fine = angle[0] + np.linspace(0.0, 2.0 * np.pi, _FINE + 1)
    curve = np.stack([np.cos(fine), np.sin(fine)]) * spline(fine)
    spread = curve.max(axis=1) - curve.min(axis=1)
    curve = curve * (np.array(form.size[:2]) / spread)[:, None]
    curve = curve - 0.5 * (curve.max(axis=1) + curve.min(axis=1))[:, None]
    length = np.append(0.0, np.cumsum(np.hypot(*np.diff(curve, axis=1))))
    even = np.interp(np.linspace(0.0, length[-1], _FINE + 1), length, np.arange(_FINE + 1))
    even_x = np.interp(even, np.arange(_FINE + 1), curve[0])
    even_y = np.interp(even, np.arange(_FINE + 1), curve[1])
    return Outline(
        np.unwrap(np.arctan2(even_y, even_x)), np.hypot(even_x, even_y), float(length[-1])
    )


@dataclass(frozen=True)
class RingPlan:
    """How many points each ring has and where it lies.

    Attributes
    ----------
    counts : tuple of int
        Points on each ring from the pole of the table to the pole of the base.
    rho : ndarray
        Of the table's rings: share of the outline's radius, 0 to 1.
    wall : ndarray
        Of the wall's rings: share of the way down from the ring of contour, over 0 to 1.
    base : ndarray
        Of the base's rings: share of the cervical outline's radius, under 1 to 0.
    """

    counts: tuple[int, ...]
    rho: Floats
    wall: Floats
    base: Floats


def ring_plan(kind: str, edge_mm: float) -> RingPlan:
    """Return the rings of a crown type for a wanted triangle edge on the occlusal table, mm."""
    form = crown_table().posterior[kind]
    perimeter = _outline(kind).perimeter
    radius = perimeter / (2.0 * np.pi)
    mean_contour = float(np.mean(form.contour)) * form.size[2]
    even = max(4, round(EVEN_SHARE * radius / (0.9 * edge_mm)))
    steep = max(3, round(0.55 * (form.size[2] - mean_contour + radius * 0.28) / edge_mm))
    rim = EVEN_SHARE + (1.0 - EVEN_SHARE) * np.sin(0.5 * np.pi * np.arange(1, steep + 1) / steep)
    rho = np.concatenate([np.linspace(0.0, EVEN_SHARE, even + 1), rim])
    rows = max(2, round(mean_contour / (WALL_COARSENESS * edge_mm)))
    wall = np.arange(1, rows + 1) / rows
    floors = max(1, round(radius * 0.85 / (BASE_COARSENESS * edge_mm)))
    base = np.arange(floors - 1, -1, -1) / floors
    table = [max(1 if share == 0.0 else 6, round(share * perimeter / edge_mm)) for share in rho]
    # The walls coarsen within their first rows, so that no band joins very different rings.
    loose = 1.0 + (WALL_COARSENESS - 1.0) * np.minimum(1.0, 2.0 * wall)
    walls = [max(8, round(perimeter / (edge_mm * factor))) for factor in loose]
    bases = [
        max(1 if share == 0.0 else 6, round(share * walls[-1] * WALL_COARSENESS / BASE_COARSENESS))
        for share in base
    ]
    return RingPlan((*table, *walls, *bases), rho, wall, base)


def triangles_of(kind: str, edge_mm: float) -> int:
    """Return the number of triangles of a crown type at a wanted edge."""
    return triangle_count(ring_plan(kind, edge_mm).counts)


@dataclass(frozen=True)
class PosteriorCrown:
    """A crown's surface with the heights of its cusps and ridges left open.

    Attributes
    ----------
    form : PosteriorForm
        What it was made from.
    x, y : ndarray, shape (n,)
        Places of the vertices in the crown's own frame, mm.
    faces : ndarray, shape (m, 3)
        Counter-clockwise seen from outside in the right-handed frame.
    table : TableShape
        The occlusal table at the first `table_points` vertices.
    dome : ndarray, shape (table_points,)
        Height of the dome there, mm.
    below : ndarray, shape (n - table_points,)
        Heights of the other vertices as share between cervical line (0) and rim (1).
    rim_of : ndarray, shape (n - table_points, 2)
        The two vertices of the rim ring between which a lower vertex stands, and
    rim_share : ndarray, shape (n - table_points,)
        how far it stands towards the second.
    cervical : ndarray, shape (n - table_points,)
        Height of the cervical line below each lower vertex, mm.
    """

    form: PosteriorForm
    x: Floats
    y: Floats
    faces: Ints
    table: TableShape
    dome: Floats
    below: Floats
    rim_of: Ints
    rim_share: Floats
    cervical: Floats

    def vertices(self, heights: Floats) -> Floats:
        """Return the vertices (n, 3) in the crown's own frame for `PosteriorForm.heights`, mm."""
        top = _smooth_minimum(self.table.heights(heights), self.dome)
        rim = (1.0 - self.rim_share) * top[self.rim_of[:, 0]]
        rim = rim + self.rim_share * top[self.rim_of[:, 1]]
        lower = self.cervical + self.below * (rim - self.cervical)
        return np.stack([self.x, self.y, np.concatenate([top, lower])], axis=1)

    def rises(self, heights: Floats) -> Floats:
        """Return by how much each vertex rises per mm of each of `heights`, (parts, n).

        The walls are taken to stay: their rim lies on the dome.
        """
        table = self.table.heights(heights)
        on_table = expit(DOME_BLEND_PER_MM * (self.dome - table))
        rises = np.zeros((len(heights), len(self.x)))
        rises[:, : len(table)] = self.table.shares(heights) * on_table
        return rises


def surface_heights(form: PosteriorForm, heights: Floats, x: Floats, y: Floats) -> Floats:
    """Return the height of the crown at places (x, y) inside its outline, mm.

    Parameters
    ----------
    form : PosteriorForm
        The crown.
    heights : ndarray, shape (parts,)
        Of cusps and ridges, see `PosteriorForm.heights`.
    x, y : ndarray, shape (n,)
        Places in the crown's own frame, mm.
    """
    outline = _outline(form.kind)
    angle = np.arctan2(y, x)
    start = outline.angle[0]
    turned = start + np.mod(angle - start, 2.0 * np.pi)
    rho = np.hypot(x, y) / np.interp(turned, outline.angle, outline.radius)
    table = table_shape(form, x, y, rho).heights(heights)
    return _smooth_minimum(table, _dome(form, angle, rho))


def cusp_tips(form: PosteriorForm, heights: Floats) -> Floats:
    """Return the cusp tips (cusps, 3) in the crown's own frame for heights (parts,), mm."""
    places = np.array([cusp.at for cusp in form.cusps]) * np.array(form.size[:2])
    z = surface_heights(form, heights, places[:, 0], places[:, 1])
    return np.column_stack([places, z])


def _smooth_minimum(table: Floats, dome: Floats) -> Floats:
    softest = np.logaddexp(-DOME_BLEND_PER_MM * table, -DOME_BLEND_PER_MM * dome)
    return np.asarray(-softest / DOME_BLEND_PER_MM)


def _dome(form: PosteriorForm, angle: Floats, rho: Floats) -> Floats:
    """Return the height of the dome, which meets the height of contour at the rim, mm."""
    mesial, buccal, distal, lingual = (share * form.size[2] for share in form.contour)
    cos, sin = np.cos(angle), np.sin(angle)
    contour = cos**2 * np.where(cos > 0, mesial, distal) + sin**2 * np.where(
        sin > 0, buccal, lingual
    )
    facial = np.where(sin > 0, sin**2, 0.0)
    power = STRAIGHT_DOME + facial * (form.facial_lean - STRAIGHT_DOME)
    rise = np.maximum(0.0, 1.0 - rho**DOME_EXPONENT) ** power
    return np.asarray(contour + (DOME_HEIGHT * form.size[2] - contour) * rise)


def _cervical_radius(form: PosteriorForm, angle: Floats, radius: Floats) -> Floats:
    """Return the radius of the cervical outline: rounder than the crown's."""
    half = 0.5 * np.array(form.cervix)
    power = 2.4
    oval = (
        np.abs(np.cos(angle) / half[0]) ** power + np.abs(np.sin(angle) / half[1]) ** power
    ) ** (-1.0 / power)
    like_crown = radius * np.sqrt(half[0] * half[1] / (0.25 * form.size[0] * form.size[1]))
    return np.asarray(0.7 * oval + 0.3 * like_crown)


def _shares(counts: tuple[int, ...]) -> Floats:
    """Return where on its ring each point stands, 0 to 1, ring after ring."""
    return np.concatenate([np.arange(count) / count for count in counts])


def posterior_crown(form: PosteriorForm, edge_mm: float) -> PosteriorCrown:
    """Return a crown of the wanted triangle edge on the occlusal table, mm."""
    plan = ring_plan(form.kind, edge_mm)
    outline = _outline(form.kind)
    tops, walls = len(plan.rho), len(plan.wall)
    table_points = sum(plan.counts[:tops])
    angle, radius = outline.at(_shares(plan.counts))
    counts = np.array(plan.counts)
    rho = np.repeat(plan.rho, counts[:tops])
    way_down = np.repeat(plan.wall, counts[tops : tops + walls])
    inward = np.repeat(plan.base, counts[tops + walls :])
    angle_low, radius_low = angle[table_points:], radius[table_points:]
    cervix = _cervical_radius(form, angle_low, radius_low)
    on_wall = len(way_down)
    moved = np.concatenate([way_down**WALL_EXPONENT, np.ones(len(inward))])
    low = radius_low + (cervix - radius_low) * moved
    low[on_wall:] *= inward
    x = np.concatenate([rho * radius[:table_points], low]) * np.cos(angle)
    y = np.concatenate([rho * radius[:table_points], low]) * np.sin(angle)
    y[table_points:] += form.cervix_shift * moved
    cos = np.cos(angle_low)
    cervical = np.where(cos > 0, form.cej[0], form.cej[1]) * cos**2
    # The base is a saddle: towards its middle the cervical line's rise fades.
    cervical[on_wall:] *= inward**2
    rim_first = table_points - plan.counts[tops - 1]
    place = _shares(plan.counts[tops:]) * plan.counts[tops - 1]
    rim_of = np.stack([np.floor(place), np.floor(place) + 1], axis=1).astype(np.int64)
    return PosteriorCrown(
        form=form,
        x=x,
        y=y,
        faces=stacked_rings(plan.counts),
        table=table_shape(form, x[:table_points], y[:table_points], rho),
        dome=_dome(form, angle[:table_points], rho),
        below=np.concatenate([1.0 - way_down, np.zeros(len(inward))]),
        rim_of=rim_first + rim_of % plan.counts[tops - 1],
        rim_share=place - np.floor(place),
        cervical=cervical,
    )
