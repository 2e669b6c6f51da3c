"""OBJ files: places and faces line by line, in the order of the file."""

import re
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.scans.limits import ScanFile, refuse_too_many
from kinematics.scans.polygons import fans
from kinematics.scans.scan import Part, Scan, scan_of
from kinematics.scans.text_lines import excerpt, line_blocks, numbers_of, words_in_lines

#: Statements that say nothing of the surface: textures, normals, looks, lines and points.
_NOT_OF_THE_SURFACE: Final = frozenset(
    (b"vt", b"vn", b"vp", b"l", b"p", b"s", b"usemtl", b"mtllib", b"usemap", b"maplib")
)
OBJ_KEYWORDS: Final = frozenset((b"v", b"f", b"o", b"g")) | _NOT_OF_THE_SURFACE

#: Corners: a vertex, and perhaps a texture place and a normal behind slashes.
_CORNERS: Final = re.compile(rb"(?:-?\d{1,10}+(?:/-?\d*+){0,2}+(?:\s++|$))++")
_BEHIND_SLASH: Final = re.compile(rb"/\S*+")


@dataclass
class _Lines:
    """Lines of one kind in a block, without their first word."""

    texts: list[bytes] = field(default_factory=list)
    numbers: list[int] = field(default_factory=list)


@dataclass
class _Found:
    """What has been read so far, block by block.

    Attributes
    ----------
    vertices : list of ndarray, shape (n, 3)
    corners : list of ndarray, shape (k,)
        Vertex numbers counted from 0.
    counts, numbers : list of ndarray, shape (m,)
        Corners of every face, and the line it stands in.
    names : list of (int, str)
        Number of faces before a group or object, and its name.
    """

    vertices: list[Floats] = field(default_factory=list)
    corners: list[Ints] = field(default_factory=list)
    counts: list[Ints] = field(default_factory=list)
    numbers: list[Ints] = field(default_factory=list)
    names: list[tuple[int, str]] = field(default_factory=list)


def look_obj(file: ScanFile) -> Scan:
    """Read an OBJ file; materials and textures it names are not opened.

    trimesh renumbers vertices and leaves unused ones out, so that lists of labels would no longer
    fit; so the file is read here.

    Raises
    ------
    InputError
        A line that is not understood, a corner that is no vertex, or no triangle.
    """
    found = _Found()
    vertices = faces = 0
    for first, lines in line_blocks(file.content, 0, file.path):
        places, corners, seen = _sorted_lines(file, first, lines, (vertices, faces), found.names)
        if places.texts:
            found.vertices.append(_places(file, places))
        if corners.texts:
            _take_faces(file, corners, np.array(seen), found)
        vertices += len(places.texts)
        faces += len(corners.texts)
        refuse_too_many(faces, file.path)
    return _scan(file, found)


def _sorted_lines(
    file: ScanFile,
    first: int,
    lines: list[bytes],
    before: tuple[int, int],
    names: list[tuple[int, str]],
) -> tuple[_Lines, _Lines, list[int]]:
    """Return lines of vertices, lines of faces, and how many vertices stand before each face."""
    places, corners = _Lines(), _Lines()
    seen: list[int] = []
    for number, line in enumerate(lines, first):
        word, _, rest = line.strip().replace(b"\t", b" ").partition(b" ")
        if word in (b"v", b"f"):
            kind = places if word == b"v" else corners
            kind.texts.append(rest.partition(b"#")[0].strip())
            kind.numbers.append(number)
            if word == b"f":
                seen.append(before[0] + len(places.texts))
        elif word in (b"o", b"g"):
            faces = before[1] + len(corners.texts)
            if names and names[-1][0] == faces:  # a group of nothing, or a group in an object
                names.pop()
            names.append((faces, rest.strip().decode("utf-8", "replace")))
        elif word and not word.startswith(b"#") and word not in _NOT_OF_THE_SURFACE:
            known = ", ".join(sorted(one.decode() for one in OBJ_KEYWORDS))
            raise InputError(
                f"{file.path}: line {number} is {excerpt(line)}; lines of an OBJ file that are "
                f"read begin with # or {known}: export the surface as triangles, without curves"
            )
    return places, corners, seen


def _places(file: ScanFile, lines: _Lines) -> Floats:
    values, counts = numbers_of(lines.texts, np.array(lines.numbers), file.path)
    begins = np.cumsum(counts) - counts
    fits = (counts == 3) | (counts == 6) | (counts == 7)
    weighted = np.flatnonzero(counts == 4)
    fits[weighted] = values[begins[weighted] + 3] == 1.0
    if not fits.all():
        place = int(np.flatnonzero(~fits)[0])
        raise InputError(
            f"{file.path}: line {lines.numbers[place]} is {excerpt(b'v ' + lines.texts[place])}; "
            "wanted 'v' and 3 numbers, perhaps with a weight of 1 or a colour behind them"
        )
    places: Floats = values[begins[:, None] + np.arange(3)]
    return places


def _take_faces(file: ScanFile, lines: _Lines, seen: Ints, found: _Found) -> None:
    """Read corners, and count those that are given backwards from the last vertex before them."""
    for number, line in zip(lines.numbers, lines.texts, strict=True):
        if not _CORNERS.fullmatch(line):
            raise InputError(
                f"{file.path}: line {number} is {excerpt(b'f ' + line)}; wanted 'f' and 3 or more "
                "corners, each a vertex number as 7, 7/1, 7//2 or 7/1/2"
            )
    counts = words_in_lines(b"\n".join(lines.texts), len(lines.texts))
    given = np.fromstring(_BEHIND_SLASH.sub(b"", b" ".join(lines.texts)), dtype=np.int64, sep=" ")
    corners = np.where(given > 0, given - 1, np.repeat(seen, counts) + given)
    wrong = (given == 0) | (corners < 0)
    if wrong.any() or (counts < 3).any():
        few = counts < 3
        place = int(np.flatnonzero(np.add.reduceat(wrong, np.cumsum(counts) - counts) | few)[0])
        raise InputError(
            f"{file.path}: line {lines.numbers[place]} is "
            f"{excerpt(b'f ' + lines.texts[place])}; wanted 3 or more corners, counted from 1, or "
            f"backwards from -1 for the last of the {seen[place]} vertices before it"
        )
    found.corners.append(corners)
    found.counts.append(counts)
    found.numbers.append(np.array(lines.numbers))


def _scan(file: ScanFile, found: _Found) -> Scan:
    no_number = np.empty(0, dtype=np.int64)
    vertices = np.concatenate([np.empty((0, 3)), *found.vertices])
    corners = np.concatenate([no_number, *found.corners])
    counts = np.concatenate([no_number, *found.counts])
    beyond = np.flatnonzero(corners >= len(vertices))
    if len(beyond):
        face = int(np.searchsorted(np.cumsum(counts), beyond[0], side="right"))
        raise InputError(
            f"{file.path}: line {np.concatenate(found.numbers)[face]} has corner "
            f"{corners[beyond[0]] + 1}, but there are {len(vertices)} vertices, counted from 1: "
            "the file is broken off or damaged, export it again"
        )
    faces, polygon = fans(corners, counts)
    return scan_of(file, "OBJ", vertices, faces, parts=_parts(found.names, polygon))


def _parts(names: list[tuple[int, str]], polygon: Ints) -> tuple[Part, ...]:
    """Return the stretches of triangles between two names; `polygon` is that of each triangle."""
    parts = []
    begins = [(0, ""), *names]
    ends = [*(first for first, _ in names), int(polygon[-1]) + 1 if len(polygon) else 0]
    for (first, name), end in zip(begins, ends, strict=True):
        low, high = np.searchsorted(polygon, (first, end))
        if high > low:
            parts.append(Part(name, int(low), int(high) - 1))
    return tuple(parts)
