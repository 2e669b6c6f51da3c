"""A scan made fit for computing: what is no surface is removed, and told; no shape is changed."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh, mesh_of
from kinematics.scans.cleaning_report import CleaningReport
from kinematics.scans.edges import Edges, edges_of, open_loops, pieces
from kinematics.scans.equal_rows import equal_rows
from kinematics.scans.scan import Scan
from kinematics.scans.winding import to_turn

#: A loose piece is a speck if it has less than this share of all triangles, and is smaller than
#: this in every direction. Chosen for this program: a tooth is larger than 5 mm.
SPECK_SHARE: Final = 0.01
SPECK_MM: Final = 2.0

#: A triangle has no area if it is flatter than this share of its longest edge: coordinates of
#: 100 mm in double floats leave about so much.
_FLAT: Final = 1e-12


@dataclass(frozen=True)
class Cleaned:
    """A cleaned scan.

    Attributes
    ----------
    mesh : Mesh
        Vertices and triangles that are kept, in the order of the scan.
    face_of : ndarray, shape (k,)
        Of every triangle its number in the scan.
    vertex_of : ndarray, shape (n,)
        Of every vertex its number in the scan; of several at one place the lowest.
    report : CleaningReport
    """

    mesh: Mesh
    face_of: Ints
    vertex_of: Ints
    report: CleaningReport


def cleaned(scan: Scan, vertices_mm: Floats) -> Cleaned:
    """Remove what is no surface, and wind neighbours alike.

    Which side is outside is not decided. Holes stay. Triangles given in another order give the
    same surface and the same report.

    Parameters
    ----------
    scan : Scan
    vertices_mm : ndarray, shape (n, 3)
        Its vertices in millimetres.

    Raises
    ------
    InputError
        Nothing is left.
    """
    # Vertices are numbered by where they are, so that no choice depends on the order of the file.
    places, lowest, number = _by_place(vertices_mm)
    finite = np.asarray(np.isfinite(places).all(axis=1))
    face_of = np.arange(len(scan.faces))
    faces = number[scan.faces]

    face_of, not_finite = _kept(face_of, np.asarray(finite[faces].all(axis=1)))
    face_of, without_area = _kept(face_of, _has_area(places, faces[face_of]))
    face_of, doubled = _kept(face_of, _is_first(faces[face_of]))
    _refuse_nothing(face_of, scan)
    edges = edges_of(faces[face_of])
    speck, specks, pieces_left = _specks(places, faces[face_of], edges)
    face_of, speck_triangles = _kept(face_of, ~speck)
    _refuse_nothing(face_of, scan)
    if specks:
        edges = edges_of(faces[face_of])

    kept = faces[face_of]
    turn, one_sided = to_turn(kept, edges)
    kept[turn] = kept[turn][:, [0, 2, 1]]
    loops = open_loops(edges, places)
    used = np.zeros(len(places), dtype=bool)
    used[kept] = True
    report = CleaningReport(
        triangles_read=len(scan.faces),
        triangles_kept=len(kept),
        not_finite=not_finite,
        without_area=without_area,
        doubled=doubled,
        specks=specks,
        speck_triangles=speck_triangles,
        vertices_merged=len(vertices_mm) - len(places),
        vertices_unused=int(len(places) - used.sum()),
        turned=int(turn.sum()),
        one_sided=one_sided,
        pieces=pieces_left,
        open_edges=int((edges.counts == 1).sum()),
        shared_by_many=int((edges.counts > 2).sum()),
        holes=len(loops.holes_mm),
        rim_length_mm=float(loops.borders_mm.max(initial=0.0)),
        largest_hole_mm=float(loops.holes_mm.max(initial=0.0)),
    )
    vertex_of = np.sort(lowest[used])
    place_of = np.empty(len(vertices_mm), dtype=np.int64)
    place_of[vertex_of] = np.arange(len(vertex_of))
    mesh = mesh_of(vertices_mm[vertex_of], place_of[lowest[kept]], scan.name)
    face_of.setflags(write=False)
    vertex_of.setflags(write=False)
    return Cleaned(mesh, face_of, vertex_of, report)


def _by_place(vertices_mm: Floats) -> tuple[Floats, Ints, Ints]:
    """Sort vertices by x, y, z and make one of those that are equal and finite.

    Returns places (k, 3), of each the lowest number in the scan, and of every vertex of the scan
    the number of its place.
    """
    points = vertices_mm + 0.0  # of minus zero makes zero
    order = np.lexsort(points.T[::-1])
    ordered = points[order]
    new = np.ones(len(points), dtype=bool)
    new[1:] = (ordered[1:] != ordered[:-1]).any(axis=1) | np.isinf(ordered[1:]).any(axis=1)
    number = np.empty(len(points), dtype=np.int64)
    number[order] = np.cumsum(new) - 1
    return ordered[new], order[new], number


def _kept(face_of: Ints, keep: Bools) -> tuple[Ints, int]:
    """Return the triangles to keep, and how many that leaves out."""
    return face_of[keep], int(len(keep) - keep.sum())


def _has_area(places: Floats, faces: Ints) -> Bools:
    """Whether triangles are higher than rounding over their longest edge."""
    one, two, three = (places[faces[:, corner]] for corner in range(3))
    with np.errstate(over="ignore", invalid="ignore"):
        double_area = np.linalg.norm(np.cross(two - one, three - one), axis=1)
        longest = np.max([((b - a) ** 2).sum(axis=1) for a, b in _pairs(one, two, three)], axis=0)
        return np.asarray(double_area > _FLAT * longest)


def _pairs(one: Floats, two: Floats, three: Floats) -> tuple[tuple[Floats, Floats], ...]:
    return (one, two), (two, three), (three, one)


def _is_first(faces: Ints) -> Bools:
    """Whether a triangle is the one to keep of those with the same corners.

    Of some that are wound differently it is one whose vertex numbers rise.
    """
    keep = np.zeros(len(faces), dtype=bool)
    if len(faces) == 0:
        return keep
    ordered = np.sort(faces, axis=1)
    following = np.take_along_axis(faces, (faces.argmin(axis=1)[:, None] + 1) % 3, axis=1)[:, 0]
    falls = following != ordered[:, 1]
    rising_first = np.argsort(falls, kind="stable")
    first, _ = equal_rows(ordered[rising_first])
    keep[rising_first[first]] = True
    return keep


def _specks(places: Floats, faces: Ints, edges: Edges) -> tuple[Bools, int, int]:
    """Return which triangles are of specks, and how many pieces are specks and are none."""
    piece = pieces(edges)
    sizes = np.bincount(piece)
    order = np.argsort(piece, kind="stable")
    starts = np.cumsum(sizes) - sizes
    corners = places[faces[order]]
    lows = np.minimum.reduceat(corners.min(axis=1), starts, axis=0)
    highs = np.maximum.reduceat(corners.max(axis=1), starts, axis=0)
    is_speck = (sizes < SPECK_SHARE * len(faces)) & ((highs - lows).max(axis=1) < SPECK_MM)
    return is_speck[piece], int(is_speck.sum()), int((~is_speck).sum())


def _refuse_nothing(face_of: Ints, scan: Scan) -> None:
    if len(face_of) == 0:
        raise InputError(
            f"{scan.name}: of its {len(scan.faces)} triangles none is left after those without "
            "area, doubled ones and specks are removed; export the surface of the arch again"
        )
