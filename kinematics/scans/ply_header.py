"""The header of a PLY file: which elements follow, how many, and what each is made of."""

from dataclasses import dataclass
from typing import Final

from kinematics.checks import InputError
from kinematics.scans.limits import LARGEST_TRIANGLES, ScanFile, refuse_too_many
from kinematics.scans.text_lines import excerpt

#: Headers are a page of text; one without end must not be searched for it.
_LARGEST_HEADER: Final = 100_000

#: Every vertex of a mesh of triangles that share none.
_LARGEST_VERTICES: Final = 3 * LARGEST_TRIANGLES

_FORMATS: Final = {"ascii": "", "binary_little_endian": "<", "binary_big_endian": ">"}

#: Names of number types, as numpy calls them.
_TYPES: Final = {
    **dict.fromkeys(("char", "int8"), "i1"),
    **dict.fromkeys(("uchar", "uint8"), "u1"),
    **dict.fromkeys(("short", "int16"), "i2"),
    **dict.fromkeys(("ushort", "uint16"), "u2"),
    **dict.fromkeys(("int", "int32"), "i4"),
    **dict.fromkeys(("uint", "uint32"), "u4"),
    **dict.fromkeys(("float", "float32"), "f4"),
    **dict.fromkeys(("double", "float64"), "f8"),
}
_CORNER_LISTS: Final = ("vertex_indices", "vertex_index")


@dataclass(frozen=True)
class Property:
    """One number of an element, or a list of them.

    Attributes
    ----------
    name : str
    kind : str
        Type of the number, as numpy calls it, without byte order.
    count_kind : str
        Type of the length that precedes a list; empty for a single number.
    """

    name: str
    kind: str
    count_kind: str


@dataclass(frozen=True)
class Element:
    """A table of the file: `count` rows of `properties`; at most one of them is a list."""

    name: str
    count: int
    properties: tuple[Property, ...]

    @property
    def list_place(self) -> int:
        """Which property is a list; -1 if none is."""
        return next((n for n, one in enumerate(self.properties) if one.count_kind), -1)


@dataclass(frozen=True)
class Header:
    """What a file announces.

    Attributes
    ----------
    byte_order : str
        "<" or ">"; empty for a text file.
    elements : tuple of Element
        In the order of the file.
    size : int
        Where the rows begin, bytes.
    """

    byte_order: str
    elements: tuple[Element, ...]
    size: int


def read_header(file: ScanFile) -> Header:
    """Read and check the header.

    Raises
    ------
    InputError
        It does not end, has a line that is not understood, announces too much, or lists other
        than the corners of faces.
    """
    lines, size = _header_lines(file)
    byte_order = ""
    elements: list[Element] = []
    for number, line in enumerate(lines[1:], 2):
        where = f"{file.path}: line {number} of the header is {excerpt(line)}"
        words = line.decode("ascii", "replace").split()
        match words:
            case [] | ["comment" | "obj_info", *_]:
                pass
            case ["format", kind, "1.0"] if kind in _FORMATS and number == 2:
                byte_order = _FORMATS[kind]
            case ["element", name, count] if count.isdecimal() and len(count) < 19:
                if any(one.name == name for one in elements):
                    raise InputError(f"{where}: there is such an element already")
                elements.append(Element(name, int(count), ()))
            case ["property", *rest] if elements:
                added = _property(rest, where)
                last = elements[-1]
                if any(one.name == added.name for one in last.properties):
                    raise InputError(f"{where}: there is such a property already")
                elements[-1] = Element(last.name, last.count, (*last.properties, added))
            case _:
                raise InputError(
                    f"{where}; wanted 'format' with {', '.join(_FORMATS)} and 1.0 in line 2, then "
                    "'element' with a name and a count, 'property' with a type and a name, "
                    "or 'comment'"
                )
    if len(lines) < 2 or not lines[1].startswith(b"format"):
        raise InputError(
            f"{file.path}: line 2 of a PLY file must be its format, as 'format ascii 1.0'"
        )
    for element in elements:
        _check_element(element, file)
    _check_wanted(elements, file)
    return Header(byte_order, tuple(elements), size)


def _header_lines(file: ScanFile) -> tuple[list[bytes], int]:
    """Return the lines before "end_header", and where the line after it begins."""
    head = file.content[:_LARGEST_HEADER]
    lines: list[bytes] = []
    for line in head.splitlines(keepends=True):
        if line.strip() == b"end_header" and line.endswith(b"\n"):
            return [one.rstrip() for one in lines], sum(map(len, lines)) + len(line)
        lines.append(line)
    raise InputError(
        f"{file.path}: no line 'end_header' in the first {len(head)} bytes: the file is broken off "
        "or is no PLY file; export it again"
    )


def _property(words: list[str], where: str) -> Property:
    match words:
        case ["list", count_kind, kind, name]:
            pass
        case [kind, name]:
            count_kind = ""
        case _:
            raise InputError(
                f"{where}; wanted 'property' with a type and a name, or 'property list' with the "
                "types of length and entries and a name"
            )
    for one in (kind, count_kind):
        if one and one not in _TYPES:
            raise InputError(f"{where}: type {one!r} is not known; known: {', '.join(_TYPES)}")
    return Property(name, _TYPES[kind], _TYPES[count_kind] if count_kind else "")


def _check_element(element: Element, file: ScanFile) -> None:
    where = f"{file.path}: element {element.name!r}"
    for one in element.properties:
        if one.count_kind and (element.name != "face" or one.name not in _CORNER_LISTS):
            raise InputError(
                f"{where} has a list {one.name!r}; lists other than {' or '.join(_CORNER_LISTS)} "
                "of faces are not read: export without them (textures, strips)"
            )
        if one.count_kind and "f" in one.count_kind + one.kind:
            raise InputError(f"{where}: its list {one.name!r} must be of whole numbers, not floats")
    if sum(bool(one.count_kind) for one in element.properties) > 1:
        raise InputError(f"{where} has two lists of corners; export it with one")
    if element.count and not element.properties:
        raise InputError(f"{where} announces {element.count} rows of nothing; export it again")
    # No row takes less than a byte; what is wanted of them is compared with the size later.
    if element.count > len(file.content):
        raise InputError(
            f"{where} announces {element.count} rows, more than the file has bytes "
            f"({len(file.content)}): it is broken off or its header is wrong, export it again"
        )


def _check_wanted(elements: list[Element], file: ScanFile) -> None:
    """Refuse a header without vertices with places, or without faces with corners."""
    counts = {element.name: element.count for element in elements}
    names = {e.name: {one.name for one in e.properties} for e in elements}
    missing = {"x", "y", "z"} - names.get("vertex", set())
    if missing:
        raise InputError(
            f"{file.path}: the header has no element 'vertex' with {', '.join(sorted(missing))}; "
            "wanted x, y and z"
        )
    if not any(e.name == "face" and e.list_place >= 0 for e in elements):
        raise InputError(
            f"{file.path}: the header has no element 'face' with a list {_CORNER_LISTS[0]!r}; "
            "export the surface, not only its points"
        )
    refuse_too_many(counts["face"], file.path)
    if counts["vertex"] > _LARGEST_VERTICES:
        raise InputError(
            f"{file.path}: {counts['vertex']} vertices; at most {_LARGEST_VERTICES} are accepted"
        )
