"""A tooth cut flat: everything above a plane goes down onto it, and the surface stays whole.

Triangles that cross the plane are parted along it. What lies above is let down along the long axis
where every triangle of it faces that way; where some overhang, as below the edge of an incisor, it
is spread out within the border of the cut.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.casts.casts import Tooth
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.nearest_points import nearest_on
from kinematics.trial.spreading import spread_flat
from kinematics.trial.standing import NEW_VERTEX, TrialTooth

#: A vertex this near to the plane is put onto it, so that no sliver is cut off, mm.
ON_PLANE_MM: Final = 1e-6
#: Least share of a triangle above the plane that is seen along the direction in which it is let
#: down; with less it would fold or vanish. Chosen for this program.
LEAST_FACING: Final = 1e-3


@dataclass(frozen=True)
class Plane:
    """A plane through a point.

    Attributes
    ----------
    point, normal : ndarray, shape (3,)
        Any of its points, mm; unit normal away from what is kept.
    """

    point: Floats
    normal: Floats

    def heights(self, points: Floats) -> Floats:
        """Return how far points (n, 3) stand above it (n,), mm, each by itself."""
        return along(points - self.point, self.normal)


class Overhangs(Exception):
    """What stands above the plane cannot be flattened: it overhangs, and would fold.

    Parameters
    ----------
    height_mm : float
        Height over the plane below which nothing may be cut.
    """

    def __init__(self, height_mm: float) -> None:
        super().__init__(f"overhangs up to {height_mm:.3f} mm above the plane")
        self.height_mm = height_mm


def along(points: Floats, direction: Floats) -> Floats:
    """Return the lengths (n,) of points (n, 3) along a direction: no bit depends on their order."""
    return np.asarray(
        points[:, 0] * direction[0] + points[:, 1] * direction[1] + points[:, 2] * direction[2]
    )


def cut_flat(tooth: TrialTooth, plane: Plane) -> TrialTooth:
    """Return a tooth without what stands above a plane; a flat facet closes it.

    Landmarks above the plane come down onto it along the tooth's long axis.

    Raises
    ------
    Overhangs
        The surface above the plane cannot be flattened without folds.
    """
    height = plane.heights(tooth.vertices)
    height[np.abs(height) <= ON_PLANE_MM] = 0.0
    if not (height > 0.0).any():
        return tooth
    parted = _parted(tooth, height)
    height = np.concatenate([height, np.zeros(len(parted.vertices) - len(height))])
    vertices, above = parted.vertices.copy(), _above(parted, height)
    axis = parted.axes[:, 2]
    over = height >= 0.0 if _faces(vertices, above, axis, LEAST_FACING).all() else height == 0.0
    drop = plane.heights(vertices[over]) / float(axis @ plane.normal)
    vertices[over] -= drop[:, None] * axis
    lowered = _landmarks_cut(parted, plane)
    if (height > 0.0)[over].any():
        return replace(parted, vertices=vertices, tooth=lowered)
    vertices = _spread_out(parted, height, vertices, above, plane)
    return replace(parted, vertices=vertices, tooth=_on_facet(lowered, vertices, above, plane))


def _above(tooth: TrialTooth, height: Floats) -> Ints:
    """Return the triangles (m, 3) above the plane."""
    heights = height[tooth.faces]
    return tooth.faces[(heights >= 0.0).all(axis=1) & (heights > 0.0).any(axis=1)]


def _faces(vertices: Floats, faces: Ints, direction: Floats, least: float) -> Bools:
    """Tell which triangles are seen along a direction, with more than a share of their area."""
    corners = vertices[faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    lengths = np.sqrt(along(normals * normals, np.ones(3)))
    return np.asarray(along(normals, direction) > least * lengths)


def _spread_out(
    tooth: TrialTooth, height: Floats, vertices: Floats, above: Ints, plane: Plane
) -> Floats:
    """Return the vertices, what lies above the plane spread out within its border.

    Raises
    ------
    Overhangs
        It folds, or the surface ends above the plane.
    """
    edges = np.sort(np.concatenate([above[:, [0, 1]], above[:, [1, 2]], above[:, [2, 0]]]), axis=1)
    ends, counts = np.unique(edges, axis=0, return_counts=True)
    whole = (height[ends[counts == 1]] == 0.0).all()
    if whole:
        vertices = spread_flat(vertices, above, height == 0.0)
        if _faces(vertices, above, plane.normal, 0.0).all():
            return vertices
    folds = ~_faces(tooth.vertices, above, tooth.axes[:, 2], LEAST_FACING)
    raise Overhangs(float(height[above[folds]].max()))


def _on_facet(tooth: Tooth, vertices: Floats, above: Ints, plane: Plane) -> Tooth:
    """Return landmarks, those that came to lie on the plane beside the facet brought to its rim."""
    facet = mesh_of(vertices, above)

    def brought(points: Floats) -> Floats:
        cut = np.abs(plane.heights(points)) <= ON_PLANE_MM
        places = points.copy()
        if cut.any():
            places[cut] = nearest_on(facet, points[cut])[0]
        return places

    tips = {name: brought(tip[None])[0] for name, tip in tooth.cusp_tips.items()}
    return replace(tooth, edge=brought(tooth.edge), cusp_tips=tips)


def _landmarks_cut(tooth: TrialTooth, plane: Plane) -> Tooth:
    """Return the landmarks, those above the plane on the facet below them."""
    axis, at = tooth.axes[:, 2], tooth.tooth
    slope = float(axis @ plane.normal)

    def lowered(points: Floats) -> Floats:
        over = np.maximum(plane.heights(points), 0.0) / slope
        return np.asarray(points - over[:, None] * axis)

    tips = {name: lowered(tip[None])[0] for name, tip in at.cusp_tips.items()}
    return replace(at, edge=lowered(at.edge), cusp_tips=tips)


def _parted(tooth: TrialTooth, height: Floats) -> TrialTooth:
    """Return the tooth with every triangle that crosses the plane parted along it.

    New vertices lie behind the others, where edges cross the plane.
    """
    faces, sign = tooth.faces, np.sign(height)
    signs = sign[faces]
    crosses = (signs.min(axis=1) < 0) & (signs.max(axis=1) > 0)
    if not crosses.any():
        return tooth
    crossed = faces[crosses]
    edges = np.concatenate([crossed[:, [0, 1]], crossed[:, [1, 2]], crossed[:, [2, 0]]])
    edges = edges[sign[edges].prod(axis=1) < 0]
    first, second = _in_order(tooth.vertices, edges)
    keys, one = np.unique(first * len(height) + second, return_index=True)
    first, second = first[one], second[one]
    share = height[first] / (height[first] - height[second])
    start, end = tooth.vertices[first], tooth.vertices[second]
    vertices = np.concatenate([tooth.vertices, start + share[:, None] * (end - start)])

    def between(a: Ints, b: Ints) -> Ints:
        low, high = _in_order(tooth.vertices, np.stack([a, b], axis=1))
        return np.asarray(len(height) + np.searchsorted(keys, low * len(height) + high))

    pieces = [faces[~crosses], *_pieces(crossed, sign, vertices, between)]
    new = np.full(len(vertices) - len(height), NEW_VERTEX, dtype=np.int64)
    return replace(
        tooth,
        vertices=vertices,
        faces=np.concatenate(pieces),
        vertex_before=np.concatenate([tooth.vertex_before, new]),
    )


def _in_order(vertices: Floats, pairs: Ints) -> tuple[Ints, Ints]:
    """Return the ends of edges (n, 2), the one with the lesser coordinates first."""
    swapped = _comes_later(vertices[pairs[:, 0]], vertices[pairs[:, 1]])
    return (
        np.where(swapped, pairs[:, 1], pairs[:, 0]),
        np.where(swapped, pairs[:, 0], pairs[:, 1]),
    )


def _comes_later(one: Floats, other: Floats) -> Bools:
    """Tell of points (n, 3) which come after others by x, then y, then z."""
    later = one[:, 2] > other[:, 2]
    for axis in (1, 0):
        same = one[:, axis] == other[:, axis]
        later = np.where(same, later, one[:, axis] > other[:, axis])
    return np.asarray(later)


def _pieces(
    faces: Ints, sign: Floats, vertices: Floats, between: Callable[[Ints, Ints], Ints]
) -> Iterator[Ints]:
    """Yield the parts of triangles that cross the plane, each wound as its triangle.

    Parameters
    ----------
    faces : ndarray, shape (m, 3)
        Triangles with corners on both sides.
    sign : ndarray, shape (n,)
        Of every vertex: 1 above, 0 on, -1 below the plane.
    vertices : ndarray, shape (k, 3)
        Places of all vertices, mm.
    between : callable
        Gives the new vertices on edges between two lists of vertices.
    """
    signs = sign[faces]
    touching = (signs == 0).any(axis=1)
    apex = np.argmin(np.abs(signs), axis=1)
    o, a, b = _turned_to(faces[touching], apex[touching])
    middle = between(a, b)
    yield np.stack([o, a, middle], axis=1)
    yield np.stack([o, middle, b], axis=1)
    # The corner that stands alone on its side has the sign that is not that of the sum.
    alone = np.argmin(signs * signs.sum(axis=1, keepdims=True), axis=1)
    lone, p, q = _turned_to(faces[~touching], alone[~touching])
    to_p, to_q = between(lone, p), between(lone, q)
    yield np.stack([lone, to_p, to_q], axis=1)
    from_q = _comes_later(vertices[p], vertices[q])
    yield np.stack([to_p, p, np.where(from_q, q, to_q)], axis=1)
    yield np.stack([np.where(from_q, to_p, p), q, to_q], axis=1)


def _turned_to(faces: Ints, first: Ints) -> tuple[Ints, Ints, Ints]:
    """Return the corners of triangles (m, 3), from a given one on."""
    rows = np.arange(len(faces))
    return (
        faces[rows, first],
        faces[rows, (first + 1) % 3],
        faces[rows, (first + 2) % 3],
    )
