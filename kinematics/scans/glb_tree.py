"""A GLB file as a container: its header, its tree of JSON and its binary block."""

import json
from dataclasses import dataclass
from typing import Any, Final, NoReturn

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.scans.limits import ScanFile

#: A description of meshes is some kilobytes; parsed, it takes many times its room.
_LARGEST_JSON: Final = 4_000_000
_JSON: Final = 0x4E4F534A
_BINARY: Final = 0x004E4942

#: Extensions that pack the triangles in a way that is not read.
_PACKED: Final = ("compression", "quantization")


@dataclass(frozen=True)
class Tree:
    """What a GLB file holds.

    Attributes
    ----------
    path : str
        What to call the file.
    values : dict
        The description; nothing in it has been checked.
    binary : memoryview
        What the description speaks of.
    """

    path: str
    values: dict[str, Any]
    binary: memoryview

    def entry(self, kind: str, number: Any) -> dict[str, Any]:
        """Return an entry of a list of the description, as `meshes[2]`."""
        entries = self.values.get(kind)
        if (
            type(number) is not int
            or not isinstance(entries, list)
            or not 0 <= number < len(entries)
            or not isinstance(entries[number], dict)
        ):
            count = len(entries) if isinstance(entries, list) else 0
            self.refuse(f"{kind}[{number!r}] is asked for, but there are {count} such entries")
        found: dict[str, Any] = entries[number]
        return found

    def whole(
        self, table: dict[str, Any], key: str, where: str, most: int, default: int | None = None
    ) -> int:
        """Return a whole number from 0 to `most`."""
        value = table.get(key, default)
        if type(value) is not int or not 0 <= value <= most:
            self.refuse(f"{where}.{key} is {value!r}; wanted a whole number from 0 to {most}")
        return value

    def numbers(self, table: dict[str, Any], key: str, default: list[float], where: str) -> Floats:
        """Return a list of finite numbers, as long as its default."""
        value = table.get(key, default)
        if (
            not isinstance(value, list)
            or len(value) != len(default)
            or not all(type(one) in (int, float) and abs(one) < 1e30 for one in value)
        ):
            self.refuse(f"{where}.{key} is not a list of {len(default)} finite numbers")
        return np.array(value, dtype=np.float64)

    def refuse(self, what: str) -> NoReturn:
        """Say what is wrong with the description."""
        raise InputError(f"{self.path}: GLB: {what}: export the file again")


def read_tree(file: ScanFile) -> Tree:
    """Take a GLB file apart.

    Raises
    ------
    InputError
        Lengths that do not fit, no JSON, data in other files, or packed triangles.
    """
    content = memoryview(file.content)
    version, length = (int.from_bytes(content[at : at + 4], "little") for at in (4, 8))
    if len(content) < 12 or length != len(content):
        raise InputError(
            f"{file.path}: GLB: its header says {length} bytes, but the file has {len(content)}: "
            "it is broken off or something was appended, export or copy it again"
        )
    if version != 2:
        raise InputError(f"{file.path}: GLB of version {version}; export it as version 2")
    description, binary = _chunks(file, content)
    if len(description) > _LARGEST_JSON:
        raise InputError(
            f"{file.path}: GLB: its description is {len(description)} bytes long; at most "
            f"{_LARGEST_JSON} are accepted: export the scan alone, without a scene around it"
        )
    tree = Tree(file.path, _parsed(file, bytes(description)), binary)
    _refuse_foreign(tree)
    return tree


def _chunks(file: ScanFile, content: memoryview) -> tuple[memoryview, memoryview]:
    """Return the first chunk, which must be JSON, and the binary one."""
    chunks: list[tuple[int, memoryview]] = []
    at = 12
    # A third chunk and later ones belong to extensions.
    while at < len(content) and len(chunks) < 2:
        size, kind = (int.from_bytes(content[i : i + 4], "little") for i in (at, at + 4))
        if at + 8 + size > len(content):
            raise InputError(
                f"{file.path}: GLB: the chunk at byte {at} says {size} bytes, but "
                f"{max(len(content) - at - 8, 0)} are left: the file is damaged, export it again"
            )
        chunks.append((kind, content[at + 8 : at + 8 + size]))
        at += 8 + size
    if not chunks or chunks[0][0] != _JSON:
        raise InputError(f"{file.path}: GLB: its first chunk is not JSON; export the file again")
    return chunks[0][1], chunks[1][1] if chunks[1:] and chunks[1][0] == _BINARY else content[:0]


def _parsed(file: ScanFile, text: bytes) -> dict[str, Any]:
    try:
        values = json.loads(text.decode("utf-8"))
    except (ValueError, RecursionError) as error:
        raise InputError(
            f"{file.path}: GLB: its description is not valid JSON ({error}); export the file again"
        ) from error
    if not isinstance(values, dict):
        raise InputError(f"{file.path}: GLB: its description is not a table; export it again")
    return values


def _refuse_foreign(tree: Tree) -> None:
    """Refuse what would need another file, or a way of reading that there is not."""
    required = tree.values.get("extensionsRequired", [])
    for name in required if isinstance(required, list) else [required]:
        packed = any(word in str(name) for word in _PACKED)
        advice = "without compression" if packed else "without it"
        raise InputError(f"{tree.path}: GLB: needs the extension {name!r}; export it {advice}")
    buffers = tree.values.get("buffers", [])
    if not isinstance(buffers, list) or len(buffers) > 1:
        tree.refuse("its data are not in one buffer")
    if buffers:
        buffer = tree.entry("buffers", 0)
        if "uri" in buffer:
            raise InputError(
                f"{tree.path}: GLB: its data are in {str(buffer['uri'])[:60]!r}; no other file is "
                "opened: export it with all data inside"
            )
        tree.whole(buffer, "byteLength", "buffers[0]", len(tree.binary))
