"""A triangle mesh with numbers at its vertices as a file: binary PLY that tells its units."""

from collections.abc import Mapping, Sequence

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh


def ply_content(mesh: Mesh, numbers: Mapping[str, Floats], comments: Sequence[str]) -> bytes:
    """Return the content of a PLY file, the same bytes for the same mesh.

    Parameters
    ----------
    mesh : Mesh
        Vertices and faces, mm, written with every digit.
    numbers : mapping of str to ndarray, shape (n,)
        Further properties of the vertices, by their names, which carry their units.
    comments : sequence of str
        Lines of ASCII for whoever reads the header.
    """
    columns = ["x", "y", "z", *numbers]
    header = [
        "ply",
        "format binary_little_endian 1.0",
        *(f"comment {line}" for line in comments),
        f"element vertex {len(mesh.vertices)}",
        *(f"property double {name}" for name in columns),
        f"element face {len(mesh.faces)}",
        "property list uchar int vertex_indices",
        "end_header",
    ]
    vertices = np.column_stack([mesh.vertices, *numbers.values()]).astype("<f8")
    faces = np.empty(len(mesh.faces), dtype=[("count", "u1"), ("corners", "<i4", 3)])
    faces["count"], faces["corners"] = 3, mesh.faces
    return "\n".join([*header, ""]).encode("ascii") + vertices.tobytes() + faces.tobytes()
