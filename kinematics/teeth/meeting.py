"""Which parts of the left side's teeth meet in MI, and how a gap answers to moving them.

The exact closure tells teeth apart by their numbers. Here every cusp counts as a tooth of its
own, so the closure finds the arc gap of every pair of cusp regions.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from scipy.spatial import KDTree

from kinematics.casts.casts import Arch
from kinematics.contact.closure import MEETS, close
from kinematics.contact.pair import LeaveOut, Pair, lower_tree, upper_tree
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import inverse, move_points
from kinematics.geometry.trees import Tree
from kinematics.teeth.standing_tooth import StandingTooth

#: Upper and lower crown type.
KindPair = tuple[str, str]
#: Teeth of the left side by crown type.
Teeth = Mapping[str, StandingTooth]


def pair_name(kinds: KindPair) -> str:
    """Return the two teeth in words, counted from the midline, whatever the side."""
    upper, lower = kinds
    return f"upper {upper[1]} on lower {lower[1]}"


@dataclass(frozen=True)
class Footing:
    """Where a contact lies on one tooth.

    Attributes
    ----------
    kind : str
        Crown type.
    cusp : int
        Index of the cusp whose region it is, -1 on a front tooth.
    corners : ndarray, shape (3,)
        Vertices of the touching triangle.
    shares : ndarray, shape (3,)
        Barycentric coordinates of the contact in it.
    """

    kind: str
    cusp: int
    corners: Ints
    shares: Floats


@dataclass(frozen=True)
class Meeting:
    """First contact of one pair of regions.

    Attributes
    ----------
    upper, lower : Footing
        Where it lies.
    gap_mm : float
        Arc gap in MI; negative where the regions overlap.
    point, normal : ndarray, shape (3,)
        In the hinge frame; the normal points from lower to upper.
    closing : ndarray, shape (3,)
        Unit direction in which the lower closes at that point.
    """

    upper: Footing
    lower: Footing
    gap_mm: float
    point: Floats
    normal: Floats
    closing: Floats

    @property
    def kinds(self) -> KindPair:
        """Crown types of the upper and the lower tooth."""
        return self.upper.kind, self.lower.kind

    def gap_per_move(self, upper_move: Floats, lower_move: Floats) -> float:
        """Return the change of the gap for small moves (3,) of the two surfaces, mm."""
        return float((upper_move - lower_move) @ self.normal / (self.closing @ self.normal))


def near_faces(
    teeth: Teeth, reach_mm: float, among: frozenset[str] | None = None
) -> dict[str, Ints]:
    """Return, per tooth, the triangles within about `reach_mm` of the other arch.

    With `among`, only what is near one of those crown types, or on them, is looked for.
    """
    points = {kind: tooth.vertices() for kind, tooth in teeth.items()}
    found: dict[str, Ints] = {}
    for arch, other in (("U", "L"), ("L", "U")):
        opposite = [kind for kind in teeth if kind[0] == other]
        chosen = opposite if among is None else [kind for kind in opposite if kind in among]
        everything, part = (
            KDTree(np.concatenate([points[kind] for kind in kinds])) if kinds else None
            for kinds in (opposite, chosen)
        )
        for kind, tooth in teeth.items():
            tree = everything if among is None or kind in among else part
            if kind[0] == arch and tree is not None:
                own = points[kind]
                # Most points of a tooth are far above or below all of the other arch.
                low, high = tree.mins - reach_mm, tree.maxes + reach_mm
                level = np.flatnonzero(((own >= low) & (own <= high)).all(axis=1))
                distance, _ = tree.query(own[level], distance_upper_bound=reach_mm)
                near = np.zeros(len(own), dtype=bool)
                near[level[np.isfinite(distance)]] = True
                found[kind] = np.flatnonzero(near[tooth.faces].any(axis=1))
    return found


@dataclass(frozen=True)
class Regions:
    """The triangles of one arch that take part, numbered by region.

    Attributes
    ----------
    tree : Tree
        Over the triangles, the lower arch in lower coordinates. The number of a region is ten times
        the tooth's place from the midline plus the region in that tooth.
    kinds : tuple of str
        Crown types.
    points : tuple of ndarray, shape (n, 3)
        Vertices of each tooth in the hinge frame as it stands in MI, mm.
    tooth_of, face_of : ndarray, shape (m,)
        Index in `kinds`, and triangle in that tooth, of every triangle of the tree.
    """

    tree: Tree
    kinds: tuple[str, ...]
    points: tuple[Floats, ...]
    tooth_of: Ints
    face_of: Ints


def regions_of(
    teeth: Teeth, faces: Mapping[str, Ints], arch: str, mi_pose: Floats
) -> Regions | None:
    """Return the regions of the "U" or "L" arch, None if no triangle takes part.

    Teeth, faces and pose are those of `meetings`.
    """
    kinds = tuple(kind for kind in teeth if kind[0] == arch and len(faces.get(kind, ())))
    if not kinds:
        return None
    points = tuple(teeth[kind].vertices() for kind in kinds)
    counts = np.cumsum([0, *map(len, points)])
    pose = np.eye(4) if arch == "U" else inverse(mi_pose)
    mesh = mesh_of(
        move_points(pose, np.concatenate(points)),
        np.concatenate([teeth[k].faces[faces[k]] + c for k, c in zip(kinds, counts, strict=False)]),
    )
    labels = [10 * teeth[kind].number + teeth[kind].region[faces[kind]] for kind in kinds]
    cast = Arch(mesh, np.concatenate(labels), ())
    return Regions(
        upper_tree(cast) if arch == "U" else lower_tree(cast),
        kinds,
        points,
        np.repeat(np.arange(len(kinds)), [len(faces[kind]) for kind in kinds]),
        np.concatenate([faces[kind] for kind in kinds]),
    )


def _footing(teeth: Teeth, regions: Regions, face_in_arch: int, point: Floats) -> Footing:
    place = regions.tooth_of[face_in_arch]
    kind = regions.kinds[place]
    face = regions.face_of[face_in_arch]
    tooth = teeth[kind]
    corners = tooth.faces[face]
    triangle = regions.points[place][corners]
    return Footing(kind, int(tooth.region[face]) - 1, corners, _shares(triangle, point))


def _shares(triangle: Floats, point: Floats) -> Floats:
    """Return the barycentric coordinates (3,) of a point (3,) in a triangle (3, 3)."""
    (first, second), away = triangle[1:] - triangle[0], point - triangle[0]
    one, both, two = float(first @ first), float(first @ second), float(second @ second)
    along_first, along_second = float(away @ first), float(away @ second)
    area = one * two - both * both
    b = (two * along_first - both * along_second) / area
    c = (one * along_second - both * along_first) / area
    return np.array([1.0 - b - c, b, c])


def meetings(
    teeth: Teeth,
    faces: Mapping[str, Ints],
    mi_pose: Floats,
    reach_mm: float,
    among: frozenset[str] | None = None,
    known: Mapping[str, Regions | None] = MappingProxyType({}),
) -> list[Meeting]:
    """Return all pairs of regions that meet within an arc gap of `reach_mm` in MI, nearest first.

    Parameters
    ----------
    teeth : mapping of str to StandingTooth
        In the hinge frame as they stand in MI.
    faces : mapping of str to ndarray
        Triangles that take part, per tooth, see `near_faces`.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.
    reach_mm : float
        Pairs that are farther apart are not listed.
    among : frozenset of str, optional
        Only pairs of which at least one tooth is of these crown types.
    known : mapping of str to Regions or None, optional
        Regions of an arch ("U" or "L") that were made before for the same teeth, faces and pose.
    """
    upper, lower = (
        known[arch] if arch in known else regions_of(teeth, faces, arch, mi_pose) for arch in "UL"
    )
    if upper is None or lower is None:
        return []
    pair = Pair(upper.tree, lower.tree)
    axis, centre = mi_pose[:3, 1], mi_pose[:3, 3]
    seen = set() if among is None else _others(pair, among)
    found: list[Meeting] = []
    while True:
        met = close(pair, mi_pose[None], LeaveOut(pairs=frozenset(seen)))
        if met.status[0] != MEETS:
            return found
        gap = -float(met.opening_rad[0] * met.radius_mm[0])
        if gap > reach_mm:
            return found
        seen.add((int(met.tooth_upper[0]), int(met.tooth_lower[0])))
        # Contact points are given as the lower stands at contact; the gap is small beside them.
        point = met.point[0]
        found.append(
            Meeting(
                _footing(teeth, upper, int(met.face_upper[0]), point),
                _footing(teeth, lower, int(met.face_lower[0]), point),
                gap,
                point,
                met.normal[0],
                np.cross(point - centre, axis) / met.radius_mm[0],
            )
        )


def _others(pair: Pair, among: frozenset[str]) -> set[tuple[int, int]]:
    """Return the pairs of regions of which neither tooth is among the crown types."""
    uppers = [code for code in pair.upper.groups if f"U{code // 10}" not in among]
    lowers = [code for code in pair.lower.groups if f"L{code // 10}" not in among]
    return {(u, low) for u in uppers for low in lowers}
