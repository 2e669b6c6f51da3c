"""STL files: checked against their own counts and words, then read."""

import re
from io import BytesIO
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.scans.equal_rows import equal_rows
from kinematics.scans.limits import ScanFile, refuse_too_many
from kinematics.scans.scan import Part, Scan, scan_of
from kinematics.scans.text_lines import NUMBER, excerpt

_HEADER_BYTES: Final = 84
_TRIANGLE_BYTES: Final = 50

_THREE: Final = rb"\s++" + rb"\s++".join([rb"(?:" + NUMBER + rb")"] * 3)
_CORNER: Final = rb"\s++vertex(" + _THREE + rb")"
_FACET: Final = re.compile(
    rb"\s*+facet\s++normal\s++\S++\s++\S++\s++\S++\s++outer\s++loop"
    + _CORNER * 3
    + rb"\s++endloop\s++endfacet(?!\S)",
    re.IGNORECASE,
)
_SOLID: Final = re.compile(rb"\s*+solid(?!\S)([^\r\n]*+)", re.IGNORECASE)
_BLANK: Final = re.compile(rb"\s*+")
_TEXT: Final = re.compile(rb"\s*+([^\r\n]*+)")
_END: Final = re.compile(rb"\s*+endsolid(?!\S)[^\r\n]*+", re.IGNORECASE)
#: What the lines of a triangle look like, to find the first one that does not.
_LINES: Final = tuple(
    re.compile(rb"\s*+" + pattern + rb"\s*+", re.IGNORECASE)
    for pattern in (
        rb"facet\s++normal(?:\s++\S++){3}",
        rb"outer\s++loop",
        *[rb"vertex" + _THREE] * 3,
        rb"endloop",
        rb"endfacet",
    )
)
_WANTED: Final = (
    "'facet normal' and three numbers",
    "'outer loop'",
    *["'vertex' and three finite numbers"] * 3,
    "'endloop'",
    "'endfacet'",
)
#: Triangles whose numbers are taken over at once: text of them takes many times their room.
_AT_ONCE: Final = 20_000


def announced_triangles(content: bytes) -> int:
    """Return how many triangles a binary STL file says it has; -1 if it is shorter than that."""
    if len(content) < _HEADER_BYTES:
        return -1
    return int.from_bytes(content[_HEADER_BYTES - 4 : _HEADER_BYTES], "little")


def is_binary_stl(content: bytes) -> bool:
    """Whether the size of a file is that of as many triangles as it announces."""
    return len(content) == _HEADER_BYTES + _TRIANGLE_BYTES * announced_triangles(content)


def look_stl(file: ScanFile) -> Scan:
    """Read a binary or ASCII STL file.

    Raises
    ------
    InputError
        Size and announced number of triangles differ, a line is broken, or there is no triangle.
    """
    # Some programs write "solid" into the header of binary files, so size decides.
    text = file.content[:1000].lstrip()[:5].lower() == b"solid" and b"\0" not in file.content[:1000]
    if is_binary_stl(file.content) or not text:
        return _binary(file)
    return _ascii(file)


def _binary(file: ScanFile) -> Scan:
    announced = announced_triangles(file.content)
    there, left = divmod(len(file.content) - _HEADER_BYTES, _TRIANGLE_BYTES)
    if announced < 0:
        raise InputError(
            f"{file.path}: {len(file.content)} bytes; a binary STL file has a header of "
            f"{_HEADER_BYTES} bytes: the file is broken off, export or copy it again"
        )
    if there < announced:
        raise InputError(
            f"{file.path}: announces {announced} triangles, but there are {there}"
            f"{f' and {left} bytes of another' if left else ''}: the file is broken off or its "
            "header is wrong, export or copy it again"
        )
    if not is_binary_stl(file.content):
        more = (there - announced) * _TRIANGLE_BYTES + left
        raise InputError(
            f"{file.path}: announces {announced} triangles, but {more} bytes follow them: the "
            "header is wrong or something was appended, export it again"
        )
    refuse_too_many(announced, file.path)
    if not announced:
        return scan_of(file, "binary STL", np.empty((0, 3)), np.empty((0, 3), dtype=np.int64))
    # Fetched when it is needed: it brings libraries that a case without scans can do without.
    from trimesh.exchange.stl import load_stl_binary

    corners = load_stl_binary(BytesIO(file.content))["vertices"]
    with np.errstate(invalid="ignore"):  # not-a-number of a kind that warns stays what it is
        return _scan(file, "binary STL", corners.astype(np.float64), ())


def _ascii(file: ScanFile) -> Scan:
    """Read the text triangle by triangle.

    trimesh takes every "vertex" for a corner, in names too, and stops at what is no number
    without saying so.
    """
    content, position = file.content, 0
    blocks: list[Floats] = []
    parts: list[Part] = []
    rows: list[bytes] = []
    triangles = 0
    while not _BLANK.fullmatch(content, position):
        solid = _SOLID.match(content, position)
        if not solid:
            raise _broken(file, position, "'solid'")
        first, position = triangles, solid.end()
        while facet := _FACET.match(content, position):
            rows.extend(facet.groups())
            triangles += 1
            position = facet.end()
            if len(rows) >= 3 * _AT_ONCE:
                blocks.append(_corner_places(file, rows))
                rows.clear()
                refuse_too_many(triangles, file.path)
        end = _END.match(content, position)
        if not end:
            raise _broken_facet(file, position)
        position = end.end()
        if triangles > first:
            name = solid[1].strip().decode("utf-8", "replace")
            parts.append(Part(name, first, triangles - 1))
    blocks.append(_corner_places(file, rows))
    return _scan(file, "ASCII STL", np.concatenate(blocks), tuple(parts))


def _corner_places(file: ScanFile, rows: list[bytes]) -> Floats:
    """Return the numbers of corners, three a row; the pattern has made sure that they are such."""
    places = np.fromstring(b" ".join(rows), dtype=np.float64, sep=" ").reshape(-1, 3)
    if not np.isfinite(places).all():
        row = int(np.flatnonzero(~np.isfinite(places).all(axis=1))[0])
        raise InputError(
            f"{file.path}: corner {excerpt(rows[row])} has a number that is too large to be kept"
        )
    return places


def _broken_facet(file: ScanFile, position: int) -> InputError:
    """Say which line of a triangle is not as it must be."""
    for pattern, wanted in zip(_LINES, _WANTED, strict=True):
        line, after = _next_line(file.content, position)
        if not pattern.fullmatch(line):
            if wanted == _WANTED[0]:
                wanted += ", or 'endsolid'"
            return _broken(file, position, wanted)
        position = after
    return InputError(
        f"{file.path}: a triangle near line {_line_number(file.content, position) - 1} is not "
        "written in seven lines of its own; export it again, or as binary STL"
    )


def _broken(file: ScanFile, position: int, wanted: str) -> InputError:
    line, after = _next_line(file.content, position)
    if not line.strip():
        return InputError(
            f"{file.path}: the text ends after line "
            f"{_line_number(file.content, len(file.content.rstrip()))}; wanted {wanted}: the file "
            "is broken off, export or copy it again"
        )
    number = _line_number(file.content, after - 1)
    return InputError(f"{file.path}: line {number} is {excerpt(line)}; wanted {wanted}")


def _next_line(content: bytes, position: int) -> tuple[bytes, int]:
    """Return the next line that is not blank, and where it ends."""
    text = next(_TEXT.finditer(content, position))
    return text[1], text.end()


def _line_number(content: bytes, position: int) -> int:
    return content.count(b"\n", 0, max(position, 0)) + 1


def _scan(file: ScanFile, kind: str, corners: Floats, parts: tuple[Part, ...]) -> Scan:
    """Make one vertex of all corners with equal coordinates."""
    if len(corners) == 0:
        return scan_of(file, kind, corners, np.empty((0, 3), dtype=np.int64))
    first, number = equal_rows(corners)
    faces: Ints = number.reshape(-1, 3)
    return scan_of(file, kind, corners[first], faces, parts=parts)
