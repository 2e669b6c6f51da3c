"""Tripod marks: three places of a cast in one plane square to the path, far from each other."""

from itertools import combinations
from typing import Final

import numpy as np
from scipy.spatial import ConvexHull, Delaunay, QhullError, cKDTree

from kinematics.casts.cast_bodies import SOFT
from kinematics.casts.casts import Arch
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh, part_of
from kinematics.planning.surveying.path_frames import PathFrame
from kinematics.planning.surveying.survey_lines import edges_of

#: So many heights are tried.
_LEVELS: Final = 15
#: A mark is made on surface that looks up at least so steeply, as a share of 1.
_LEAST_UPWARD: Final = 0.25
#: It stands so far from teeth, mm (chosen for this program).
_CLEAR_MM: Final = 2.0
#: At most so many places of a level are compared.
_MOST_PLACES: Final = 40


def markable(arch: Arch, natural: tuple[int, ...], frame: PathFrame) -> Mesh:
    """Return what of a cast tripod marks may be put on.

    Bare mucosa inside the arch of the teeth or behind it, clear of the teeth; all bare mucosa where
    there is none such, and the teeth where there is no mucosa.

    Parameters
    ----------
    arch : Arch
        The cast.
    natural : tuple of int
        ISO 3950 numbers of the teeth that stand on it.
    frame : PathFrame
        Directions.
    """
    teeth, _ = part_of(arch.mesh, np.isin(arch.tooth_of_face, natural))
    body = arch.body
    if body is None or not np.isin(body.kind, SOFT).any():
        return teeth
    plan = frame.plan(body.mesh.vertices)
    apart, _ = cKDTree(frame.plan(teeth.vertices)).query(plan)
    clear = np.asarray(np.asarray(apart) >= _CLEAR_MM, dtype=bool)
    middles = frame.plan(np.array([tooth.centre for tooth in arch.teeth]))
    behind = plan[:, 0] < middles[:, 0].min()
    soft = np.isin(body.kind, SOFT)
    for good in (clear & (behind | _inside(middles, plan)), clear):
        chosen = soft & good[body.mesh.faces].all(axis=1)
        if chosen.any():
            return part_of(body.mesh, chosen)[0]
    return teeth


def _inside(corners: Floats, places: Floats) -> Bools:
    """Tell which places (n, 2) lie within the hull of some others."""
    try:
        return np.asarray(Delaunay(corners).find_simplex(places) >= 0)
    except (QhullError, ValueError):  # too few, or all in one line
        return np.zeros(len(places), dtype=bool)


def tripod_marks(mesh: Mesh, frame: PathFrame) -> Floats:
    """Return three places (3, 3) of a surface at one height, that span the largest triangle.

    Parameters
    ----------
    mesh : Mesh
        What marks may be put on, mm.
    frame : PathFrame
        Directions.

    Returns
    -------
    ndarray, shape (3, 3)
        Of the triangle the one most forward first; (0, 3) where no height has three places.
    """
    crosses = np.cross(
        mesh.corners[:, 1] - mesh.corners[:, 0], mesh.corners[:, 2] - mesh.corners[:, 0]
    )
    upward = frame.height(crosses) > _LEAST_UPWARD * np.linalg.norm(crosses, axis=1)
    faces = mesh.faces[upward]
    if len(faces) == 0:
        return np.empty((0, 3))
    sides = edges_of(faces)
    height = frame.height(mesh.vertices)
    levels = np.quantile(height[np.unique(faces)], (np.arange(_LEVELS) + 1.0) / (_LEVELS + 1.0))
    found = [_spanned(_crossings(mesh, frame, sides, height, level), frame) for level in levels]
    areas = [area for _, area in found]
    best = int(np.argmax(areas))
    marks = found[best][0]
    if len(marks) == 0:
        return marks
    return np.asarray(marks[np.argsort(-frame.plan(marks)[:, 0], kind="stable")])


def _crossings(mesh: Mesh, frame: PathFrame, sides: Ints, height: Floats, level: float) -> Floats:
    """Return where edges cross a height (k, 3), exactly at it, in an order of their own."""
    ends = height[sides]
    crossing = (ends.min(axis=1) < level) & (ends.max(axis=1) >= level)
    one, other = sides[crossing].T
    share = (level - height[one]) / (height[other] - height[one])
    points = mesh.vertices[one] + share[:, None] * (mesh.vertices[other] - mesh.vertices[one])
    places = np.unique(frame.plan(points), axis=0)
    return frame.points(places, np.full(len(places), level))


def _spanned(points: Floats, frame: PathFrame) -> tuple[Floats, float]:
    """Return the three of some points that span the largest triangle, and its area, mm2."""
    nothing = np.empty((0, 3)), 0.0
    if len(points) < 3:
        return nothing
    plan = frame.plan(points)
    try:
        hull = np.sort(ConvexHull(plan).vertices)
    except QhullError:  # all in one line
        return nothing
    if len(hull) > _MOST_PLACES:
        hull = hull[np.linspace(0, len(hull) - 1, _MOST_PLACES).round().astype(int)]
    corners = plan[hull]
    i, j, k = np.array(list(combinations(range(len(hull)), 3))).T
    one, other = corners[j] - corners[i], corners[k] - corners[i]
    areas = 0.5 * np.abs(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])
    best = int(np.argmax(areas))
    return points[hull[[i[best], j[best], k[best]]]], float(areas[best])
