"""Both casts as they were scanned, as one scene to pick points on."""

from typing import Final

import numpy as np

from kinematics.casts.casts import NO_TOOTH
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.geometry.poses import move_points
from kinematics.scans.settings import SIDES, Side
from scenes.scene import Part, Scene, View

#: More triangles of one cast are not drawn; points are found on all of them.
MOST_TRIANGLES: Final = 150_000
_FIRST_CUBE_MM: Final = 0.15
_WIDER: Final = 1.3


def drawn_casts(casts: dict[Side, tuple[Mesh, Ints]], view_from_scan: Floats) -> Scene:
    """Describe both casts in a frame with x anterior, y to the patient's left, z superior.

    Parameters
    ----------
    casts : mapping of side to Mesh and ndarray, shape (m,)
        Triangles in the coordinates of the scans, and the tooth number of each, 0 for none.
    view_from_scan : ndarray, shape (4, 4)
        Pose into that frame.
    """
    parts = []
    for side in SIDES:
        mesh, codes = casts[side]
        fewer, codes = coarser(mesh, codes)
        places = move_points(view_from_scan, fewer.vertices)
        known = bool((codes != NO_TOOTH).any())
        for role, chosen in (
            (f"{side} tooth", (codes != NO_TOOTH) | (not known)),
            ("gum", (codes == NO_TOOTH) & known),
        ):
            if chosen.any():
                used, faces = np.unique(fewer.faces[chosen], return_inverse=True)
                tooth = np.zeros(len(used), dtype=np.int64)
                tooth[faces.reshape(-1, 3)] = codes[chosen][:, None]
                parts.append(Part(role, places[used], faces.reshape(-1, 3), cast=side, tooth=tooth))
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


def coarser(mesh: Mesh, codes: Ints) -> tuple[Mesh, Ints]:
    """Return a mesh with no more triangles than are drawn: vertices in one small cube become one.

    Parameters
    ----------
    mesh : Mesh
        Is returned as it is where it has few enough.
    codes : ndarray, shape (m,)
        Of every triangle.
    """
    cube_mm = _FIRST_CUBE_MM
    fewer, kept = mesh, codes
    while len(fewer.faces) > MOST_TRIANGLES:
        cubes = np.floor(mesh.vertices / cube_mm).astype(np.int64)
        _, first, of_vertex = np.unique(cubes, axis=0, return_index=True, return_inverse=True)
        faces = first[of_vertex.reshape(-1)][mesh.faces]
        a, b, c = faces.T
        whole = (a != b) & (b != c) & (c != a)
        fewer, kept = Mesh(mesh.vertices, faces[whole]), codes[whole]
        cube_mm *= _WIDER
    return fewer, kept
