"""GLB files: the triangles of every mesh of the scene, where its nodes put them."""

from collections.abc import Iterator
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.scans.glb_nodes import placed_meshes
from kinematics.scans.glb_tree import Tree, read_tree
from kinematics.scans.limits import LARGEST_TRIANGLES, ScanFile, refuse_too_many
from kinematics.scans.scan import Part, Scan, scan_of

_NUMBER_TYPES: Final = {5121: "u1", 5123: "<u2", 5125: "<u4", 5126: "<f4"}
_INDEX_TYPES: Final = (5121, 5123, 5125)
_PLACE_TYPE: Final = 5126
_TRIANGLES: Final = 4
#: Modes of primitives that are points or lines.
_NO_SURFACE: Final = (0, 1, 2, 3)
#: A scan has a few parts; many nodes that show many parts each would take for ever.
_MOST_PARTS: Final = 10_000


def look_glb(file: ScanFile) -> Scan:
    """Read a GLB file. Lengths in such files are metres, unless their writer erred.

    trimesh opens pictures and other files that a GLB file names, and takes room for whatever
    counts it announces; so the file is read here.

    Raises
    ------
    InputError
        The file is not as its header or its description says, its triangles are packed in a way
        that is not read, or there are none.
    """
    tree = read_tree(file)
    vertices: list[Floats] = []
    faces: list[Ints] = []
    parts: list[Part] = []
    points = triangles = 0
    for name, primitive, where, placement in _primitives(tree):
        # Many nodes can show one mesh: what they make is counted before it is made.
        wanted = _index_count(tree, primitive, where) // 3
        refuse_too_many(triangles + wanted, file.path)
        places = _places(tree, primitive, where)
        _refuse_too_many_points(points + len(places), file.path)
        corners = _corners(tree, primitive, where, len(places))
        with np.errstate(over="ignore", invalid="ignore"):
            vertices.append(places @ placement[:3, :3].T + placement[:3, 3])
        # What is mirrored is wound the other way round.
        mirrored = np.linalg.det(placement[:3, :3]) < 0.0
        faces.append(points + (corners[:, ::-1] if mirrored else corners))
        if len(corners):
            parts.append(Part(name, triangles, triangles + len(corners) - 1))
        points += len(places)
        triangles += len(corners)
    return scan_of(
        file,
        "GLB",
        np.concatenate([np.empty((0, 3)), *vertices]),
        np.concatenate([np.empty((0, 3), dtype=np.int64), *faces]),
        parts=tuple(parts),
    )


def _primitives(tree: Tree) -> Iterator[tuple[str, dict[str, Any], str, Floats]]:
    """Yield name, description, place in the tree and placement of all that has triangles."""
    shown = 0
    for name, number, placement in placed_meshes(tree):
        primitives = tree.entry("meshes", number).get("primitives")
        if not isinstance(primitives, list):
            tree.refuse(f"meshes[{number}].primitives is no list")
        shown += len(primitives)
        if shown > _MOST_PARTS:
            tree.refuse(f"its scene shows more than {_MOST_PARTS} parts")
        for place, primitive in enumerate(primitives):
            where = f"meshes[{number}].primitives[{place}]"
            if not isinstance(primitive, dict):
                tree.refuse(f"{where} is no table")
            mode = primitive.get("mode", _TRIANGLES)
            if mode in _NO_SURFACE:
                continue
            if mode != _TRIANGLES:
                tree.refuse(f"{where} has mode {mode!r}, wanted {_TRIANGLES} (triangles)")
            if "targets" in primitive:
                tree.refuse(f"{where} has shapes to blend, which are not read")
            yield (
                f"{name} {place + 1}" if len(primitives) > 1 else name,
                primitive,
                where,
                placement,
            )


def _refuse_too_many_points(points: int, path: str) -> None:
    if points > 3 * LARGEST_TRIANGLES:
        raise InputError(
            f"{path}: GLB: more than {3 * LARGEST_TRIANGLES} vertices; export the scan alone"
        )


def _index_count(tree: Tree, primitive: dict[str, Any], where: str) -> int:
    """Return how many corners all its triangles have."""
    number = primitive.get("indices")
    if number is None:
        number = _attributes(tree, primitive, where).get("POSITION")
    accessor = tree.entry("accessors", number)
    return tree.whole(accessor, "count", f"accessors[{number}]", len(tree.binary))


def _attributes(tree: Tree, primitive: dict[str, Any], where: str) -> dict[str, Any]:
    attributes = primitive.get("attributes")
    if not isinstance(attributes, dict) or "POSITION" not in attributes:
        tree.refuse(f"{where} has no attribute POSITION")
    return attributes


def _places(tree: Tree, primitive: dict[str, Any], where: str) -> Floats:
    number = _attributes(tree, primitive, where)["POSITION"]
    return _accessed(tree, number, "VEC3", (_PLACE_TYPE,)).astype(np.float64)


def _corners(tree: Tree, primitive: dict[str, Any], where: str, points: int) -> Ints:
    """Return vertex numbers of all triangles of a primitive, shape (m, 3)."""
    if primitive.get("indices") is None:
        indices = np.arange(points)
    else:
        accessed = _accessed(tree, primitive["indices"], "SCALAR", _INDEX_TYPES)
        indices = accessed[:, 0].astype(np.int64)
    if len(indices) % 3:
        tree.refuse(f"{where} has {len(indices)} corners, which is no multiple of 3")
    if len(indices) and indices.max() >= points:
        at = int(np.flatnonzero(indices >= points)[0])
        tree.refuse(
            f"{where}: triangle {at // 3} (counted from 0) has corner {indices[at]}, but there are "
            f"{points} vertices, counted from 0"
        )
    return indices.reshape(-1, 3)


def _accessed(tree: Tree, number: Any, kind: str, types: tuple[int, ...]) -> NDArray[Any]:
    """Return a table of the binary block, shape (n, 1) or (n, 3); nothing is copied."""
    accessor = tree.entry("accessors", number)
    where = f"accessors[{number}]"
    number_type = accessor.get("componentType")
    if accessor.get("type") != kind or type(number_type) is not int or number_type not in types:
        tree.refuse(
            f"{where} is {accessor.get('type')!r} of type {number_type!r}; wanted {kind!r} of "
            f"{' or '.join(map(str, types))}"
        )
    if "sparse" in accessor or "bufferView" not in accessor:
        tree.refuse(f"{where} is not written out in full (sparse or compressed)")
    view = tree.entry("bufferViews", accessor["bufferView"])
    view_name = f"bufferViews[{accessor['bufferView']}]"
    size = len(tree.binary)
    dtype = np.dtype(_NUMBER_TYPES[number_type])
    columns = 3 if kind == "VEC3" else 1
    if view.get("buffer") != 0:
        tree.refuse(f"{view_name}.buffer is {view.get('buffer')!r}; wanted 0")
    start = tree.whole(view, "byteOffset", view_name, size, 0)
    end = start + tree.whole(view, "byteLength", view_name, size - start)
    step = tree.whole(view, "byteStride", view_name, 252, columns * dtype.itemsize)
    count = tree.whole(accessor, "count", where, size)
    first = start + tree.whole(accessor, "byteOffset", where, size, 0)
    if step < columns * dtype.itemsize:
        tree.refuse(f"{view_name}.byteStride is {step}, less than one entry takes")
    if count < 1 or first + (count - 1) * step + columns * dtype.itemsize > end:
        tree.refuse(
            f"{where} announces {count} entries, but {view_name} has {end - start} bytes of the "
            f"{size} that there are"
        )
    return np.ndarray((count, columns), dtype, tree.binary, first, (step, dtype.itemsize))
