"""PLY files: the header is compared with the size of the file, then all rows are read."""

from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.scans.limits import ScanFile
from kinematics.scans.ply_header import Header, read_header
from kinematics.scans.ply_rows import Lines, Rows, ascii_rows, binary_rows
from kinematics.scans.polygons import fans, refuse_wrong_faces
from kinematics.scans.scan import Scan, scan_of
from kinematics.scans.text_lines import excerpt, line_blocks

#: What is no scalar of its own: places, normals, colours.
_NO_SCALARS: Final = frozenset(("x", "y", "z", "nx", "ny", "nz", "red", "green", "blue", "alpha"))


def look_ply(file: ScanFile) -> Scan:
    """Read a PLY file, text or binary of either byte order.

    trimesh keeps the numbers beside places only in a place of its own that may change, and takes
    the counts of the header on trust; so the file is read here.

    Raises
    ------
    InputError
        Anything that does not fit the header, an index that no vertex has, or no triangle.
    """
    header = read_header(file)
    rows = _binary(file, header) if header.byte_order else _ascii(file, header)
    vertex, face = rows["vertex"], rows["face"]
    with np.errstate(invalid="ignore"):  # not-a-number of a kind that warns stays what it is
        vertices = np.column_stack([vertex.scalars[axis].astype(np.float64) for axis in "xyz"])
    refuse_wrong_faces(face.corners, face.counts, len(vertices), file.path)
    faces, polygon = fans(face.corners, face.counts)
    return scan_of(
        file,
        "binary PLY" if header.byte_order else "ASCII PLY",
        vertices,
        faces,
        vertex_scalars={k: v for k, v in vertex.scalars.items() if k not in _NO_SCALARS},
        face_scalars={k: v[polygon] for k, v in face.scalars.items() if k not in _NO_SCALARS},
    )


def _binary(file: ScanFile, header: Header) -> dict[str, Rows]:
    rows = {}
    start = header.size
    for element in header.elements:
        rows[element.name], start = binary_rows(file, element, header.byte_order, start)
    if start < len(file.content):
        raise InputError(
            f"{file.path}: {len(file.content) - start} bytes follow the last announced row: the "
            "header is wrong or something was appended, export it again"
        )
    return rows


def _ascii(file: ScanFile, header: Header) -> dict[str, Rows]:
    lines: Lines = (
        (number + place, line)
        for number, block in line_blocks(file.content, header.size, file.path)
        for place, line in enumerate(block)
        if line.strip()
    )
    rows = {element.name: ascii_rows(file, element, lines) for element in header.elements}
    after = next(lines, None)
    if after:
        raise InputError(
            f"{file.path}: line {after[0]} is {excerpt(after[1])}, after the last announced row: "
            "the header is wrong or something was appended, export it again"
        )
    return rows
