"""What a scan file holds, as it was read."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from numpy.typing import NDArray

from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.scans.limits import ScanFile, refuse_too_many

Scalars = Mapping[str, NDArray[Any]]


@dataclass(frozen=True)
class Part:
    """One named mesh of a file: a group or object of OBJ, a node of GLB, a solid of ASCII STL.

    Attributes
    ----------
    name : str
        As the file says; empty where it says none.
    first_face, last_face : int
        Its triangles, both included.
    """

    name: str
    first_face: int
    last_face: int


@dataclass(frozen=True)
class Scan:
    """One scan file as read: nothing is cleaned, ordered or scaled. All arrays are read-only.

    Attributes
    ----------
    name : str
        Name of the file without its folder.
    kind : str
        "binary STL", "ASCII STL", "binary PLY", "ASCII PLY", "OBJ" or "GLB".
    sha256 : str
        Fingerprint of the file.
    vertices : ndarray, shape (n, 3)
        In units of the file. PLY and OBJ: in the order of the file, unused ones too. STL: corners
        with equal coordinates are one vertex, in the order of their first mention. GLB: moved as
        its nodes say. Binary files can hold numbers that are not finite; they stay.
    faces : ndarray, shape (m, 3)
        Vertex numbers of every triangle; polygons are cut into fans from their first corner.
    vertex_scalars : mapping of str to ndarray, shape (n,)
        Numbers at the vertices of a PLY file other than places, normals and colours.
    face_scalars : mapping of str to ndarray, shape (m,)
        Numbers at the faces of a PLY file other than colours, once for each triangle of a polygon.
    parts : tuple of Part
        Empty where the file has just one mesh.
    """

    name: str
    kind: str
    sha256: str
    vertices: Floats
    faces: Ints
    vertex_scalars: Scalars
    face_scalars: Scalars
    parts: tuple[Part, ...]


def scan_of(
    file: ScanFile,
    kind: str,
    vertices: Floats,
    faces: Ints,
    *,
    vertex_scalars: Scalars = MappingProxyType({}),
    face_scalars: Scalars = MappingProxyType({}),
    parts: tuple[Part, ...] = (),
) -> Scan:
    """Freeze what was read from a file.

    Raises
    ------
    InputError
        No triangle, or more than are accepted.
    """
    if len(faces) == 0:
        raise InputError(
            f"{file.path}: the {kind} file holds {len(vertices)} vertices but no triangle; export "
            "the surface, not only its points or lines"
        )
    refuse_too_many(len(faces), file.path)
    for array in (vertices, faces, *vertex_scalars.values(), *face_scalars.values()):
        array.setflags(write=False)
    return Scan(
        file.name,
        kind,
        file.sha256,
        vertices,
        faces,
        MappingProxyType(dict(vertex_scalars)),
        MappingProxyType(dict(face_scalars)),
        parts if len(parts) > 1 else (),
    )
