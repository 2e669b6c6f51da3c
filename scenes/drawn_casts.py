"""Both casts as they were scanned, as one scene to pick points on."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import NO_TOOTH
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.geometry.poses import move_points
from kinematics.scans.settings import SIDES, Side
from scenes.scene import Part, Scene, View

#: More triangles of one cast are not drawn; points are found on all of them.
MOST_TRIANGLES: Final = 150_000
_FIRST_CUBE_MM: Final = 0.15
_WIDER: Final = 1.3


@dataclass(frozen=True)
class CastToDraw:
    """One cast in the coordinates of the scans.

    Attributes
    ----------
    mesh : Mesh
        Its triangles.
    codes : ndarray, shape (m,)
        Tooth number of each, 0 for none.
    doubtful : ndarray, shape (m,)
        Which of them may belong to another.
    """

    mesh: Mesh
    codes: Ints
    doubtful: Bools


def drawn_casts(casts: dict[Side, CastToDraw], view_from_scan: Floats) -> Scene:
    """Describe both casts in a frame with x anterior, y to the patient's left, z superior.

    Parameters
    ----------
    casts : mapping of side to CastToDraw
        Both; neighbouring teeth get two colours in turn.
    view_from_scan : ndarray, shape (4, 4)
        Pose into that frame.
    """
    parts = [part for side in SIDES for part in cast_parts(casts[side], side, view_from_scan)]
    points = np.concatenate([part.vertices for part in parts])
    low, high = points.min(axis=0), points.max(axis=0)
    size = high - low
    view = View(
        "from the front",
        np.array([-1.0, 0.0, 0.0]),
        np.array([0.0, 0.0, 1.0]),
        0.5 * (low + high),
        float(size[1]),
        float(size[2]),
    )
    return Scene(view, tuple(parts))


def cast_parts(cast: CastToDraw, side: Side, view_from_scan: Floats) -> Iterator[Part]:
    """Yield the parts of one cast: teeth in two colours in turn, what is doubtful, gums.

    Parameters
    ----------
    cast : CastToDraw
        The cast; without tooth numbers it is one part.
    side : "upper" or "lower"
        Which.
    view_from_scan : ndarray, shape (4, 4)
        Pose into the frame of the picture.
    """
    mesh, kept = coarser(cast.mesh)
    codes, doubtful = cast.codes[kept], cast.doubtful[kept]
    places = move_points(view_from_scan, mesh.vertices)
    tooth = codes != NO_TOOTH
    if not tooth.any():
        tooth = np.ones(len(codes), dtype=bool)
    even = (codes + np.isin(codes // 10, (2, 3))) % 2 == 0  # 11 and 21 stand side by side
    for role, chosen in (
        (f"{side} tooth", tooth & even & ~doubtful),
        ("next tooth", tooth & ~even & ~doubtful),
        ("doubtful", doubtful),
        ("gum", ~tooth & ~doubtful),
    ):
        if chosen.any():
            used, faces = np.unique(mesh.faces[chosen], return_inverse=True)
            number = np.zeros(len(used), dtype=np.int64)
            number[faces.reshape(-1, 3)] = codes[chosen][:, None]
            yield Part(role, places[used], faces.reshape(-1, 3), cast=side, tooth=number)


def coarser(mesh: Mesh) -> tuple[Mesh, Ints]:
    """Return a mesh with no more triangles than are drawn: vertices in one small cube become one.

    Parameters
    ----------
    mesh : Mesh
        Is returned as it is where it has few enough.

    Returns
    -------
    fewer : Mesh
    kept : ndarray, shape (k,)
        Of its triangles the numbers in the mesh.
    """
    cube_mm = _FIRST_CUBE_MM
    fewer, kept = mesh, np.arange(len(mesh.faces))
    while len(fewer.faces) > MOST_TRIANGLES:
        cubes = np.floor(mesh.vertices / cube_mm).astype(np.int64)
        _, first, of_vertex = np.unique(cubes, axis=0, return_index=True, return_inverse=True)
        faces = first[of_vertex.reshape(-1)][mesh.faces]
        a, b, c = faces.T
        whole = (a != b) & (b != c) & (c != a)
        fewer, kept = Mesh(mesh.vertices, faces[whole]), np.flatnonzero(whole)
        cube_mm *= _WIDER
    return fewer, kept
