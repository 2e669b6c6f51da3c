"""Writer of moving scenes as glTF 2.0 binary (.glb), which any viewer of that open format plays.

The lower is one node; every movement is an animation of it. glTF is in metres with y up, z towards
the viewer: one node at the root turns and shrinks everything, so that all below it are millimetres
in the hinge frame. Colours of vertices cannot move; those given stay.
"""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray
from scipy.spatial.transform import Rotation

from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points
from scenes import colours
from scenes.gap_colours import rgb
from scenes.scene import Part, Scene

_MAGIC: Final = 0x46546C67
_JSON: Final = 0x4E4F534A
_BINARY: Final = 0x004E4942
_FLOAT: Final = 5126
_UNSIGNED: Final = 5125
_ARRAY_BUFFER: Final = 34962
_ELEMENT_BUFFER: Final = 34963
#: Hinge frame, mm, to glTF, m: left is x, up is y, forward is z; by columns.
_TO_METRES: Final = [
    0.0, 0.0, 0.001, 0.0, 0.001, 0.0, 0.0, 0.0, 0.0, 0.001, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0,
]  # fmt: skip
_ROUGHNESS: Final = 0.55


@dataclass(frozen=True)
class Motion:
    """One movement of the lower.

    Attributes
    ----------
    name : str
        What viewers list.
    times_s : ndarray, shape (n,)
        From 0, ascending.
    moves : ndarray, shape (n, 4, 4)
        Move the parts of the lower from where the scene has them.
    """

    name: str
    times_s: Floats
    moves: Floats


def animated_file(scene: Scene, motions: Sequence[Motion], title: str, maker: str) -> bytes:
    """Return a scene with its movements as one file.

    Parameters
    ----------
    scene : Scene
        Its parts; those with paint keep it.
    motions : sequence of Motion
        At least one.
    title, maker : str
        What it shows, and by which program it was made.
    """
    file = _File()
    lower = [part for part in scene.parts if part.cast == "lower"]
    # Numbers of a file have seven digits: vertices are told from the middle of the lower, so that
    # a turn that is off by the last digit moves none of them by more than a few nanometres.
    pivot = np.mean([part.vertices.mean(axis=0) for part in lower], axis=0)
    nodes: list[dict[str, Any]] = [
        {"name": "hinge frame, mm", "matrix": _TO_METRES, "children": [1, 2]},
        {"name": "upper", "children": []},
        {"name": "lower", "children": [], "translation": pivot.tolist()},
    ]
    for part in scene.parts:
        owner, origin = (nodes[2], pivot) if part.cast == "lower" else (nodes[1], np.zeros(3))
        owner["children"].append(len(nodes))
        nodes.append({"name": part.role, "mesh": file.add_mesh(part, origin)})
    document = {
        "asset": {"version": "2.0", "generator": maker},
        "scene": 0,
        "scenes": [{"name": title, "nodes": [0]}],
        "nodes": nodes,
        "animations": [file.animation(motion, pivot) for motion in motions],
    }
    return file.whole(document)


class _File:
    """Bytes of a file and what its document says of them, as they are put together."""

    def __init__(self) -> None:
        self._content = bytearray()
        self._views: list[dict[str, Any]] = []
        self._accessors: list[dict[str, Any]] = []
        self._meshes: list[dict[str, Any]] = []
        self._materials: dict[str, int] = {}
        self._looks: list[dict[str, Any]] = []

    def add_mesh(self, part: Part, origin: Floats) -> int:
        """Keep one part, and return its number."""
        attributes = {
            "POSITION": self._floats(part.vertices - origin, "VEC3", _ARRAY_BUFFER, ranged=True),
            "NORMAL": self._floats(_normals(part), "VEC3", _ARRAY_BUFFER),
        }
        if len(part.paint):
            attributes["COLOR_0"] = self._floats(_linear(part.paint), "VEC3", _ARRAY_BUFFER)
        corners = np.ascontiguousarray(part.faces.reshape(-1), dtype="<u4")
        indices = self._accessor(corners, _UNSIGNED, "SCALAR", _ELEMENT_BUFFER)
        look = self._look(part)
        primitive = {"attributes": attributes, "indices": indices, "material": look, "mode": 4}
        self._meshes.append({"name": part.role, "primitives": [primitive]})
        return len(self._meshes) - 1

    def animation(self, motion: Motion, pivot: Floats) -> dict[str, Any]:
        """Return a movement of the lower: turns about a point of it, and where that point is."""
        quaternions = Rotation.from_matrix(motion.moves[:, :3, :3]).as_quat()
        # The same turn has two signs; between frames the shorter way is taken.
        turns_back = np.einsum("ij,ij->i", quaternions[1:], quaternions[:-1]) < 0.0
        quaternions[1:][np.cumsum(turns_back) % 2 == 1] *= -1.0
        places = move_points(motion.moves, pivot[None])[:, 0]
        times = self._floats(motion.times_s, "SCALAR", None, ranged=True)
        told = (
            ("translation", self._floats(places, "VEC3", None)),
            ("rotation", self._floats(quaternions, "VEC4", None)),
        )
        samplers = [
            {"input": times, "output": output, "interpolation": "LINEAR"} for _, output in told
        ]
        channels = [
            {"sampler": number, "target": {"node": 2, "path": path}}
            for number, (path, _) in enumerate(told)
        ]
        return {"name": motion.name, "samplers": samplers, "channels": channels}

    def whole(self, document: dict[str, Any]) -> bytes:
        """Return the file: header, document, and all arrays."""
        document |= {
            "meshes": self._meshes,
            "materials": self._looks,
            "accessors": self._accessors,
            "bufferViews": self._views,
            "buffers": [{"byteLength": len(self._content)}],
        }
        text = json.dumps(document, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
        told = text.encode()
        told += b" " * (-len(told) % 4)
        chunks = b"".join(
            (
                *(_words(len(told), _JSON), told),
                *(_words(len(self._content), _BINARY), bytes(self._content)),
            )
        )
        return _words(_MAGIC, 2, 12 + len(chunks)) + chunks

    def _look(self, part: Part) -> int:
        """Return the number of a material; paint is multiplied with it, so there it is white."""
        name = f"{part.role}, painted" if len(part.paint) else part.role
        if name not in self._materials:
            base = np.ones(3) if len(part.paint) else _linear(rgb(colours.SURFACE[part.role]))
            self._materials[name] = len(self._looks)
            surface = {
                "baseColorFactor": [*base.tolist(), 1.0],
                "metallicFactor": 0.0,
                "roughnessFactor": _ROUGHNESS,
            }
            self._looks.append({"name": name, "pbrMetallicRoughness": surface, "doubleSided": True})
        return self._materials[name]

    def _floats(self, values: Floats, shape: str, target: int | None, ranged: bool = False) -> int:
        single = np.ascontiguousarray(values, dtype="<f4")
        number = self._accessor(single, _FLOAT, shape, target)
        if ranged:
            rows = single.reshape(len(single), -1)
            ends = {"min": rows.min(axis=0).tolist(), "max": rows.max(axis=0).tolist()}
            self._accessors[number] |= ends
        return number

    def _accessor(self, array: NDArray[Any], kind: int, shape: str, target: int | None) -> int:
        view = {"buffer": 0, "byteOffset": len(self._content), "byteLength": array.nbytes}
        self._views.append(view if target is None else {**view, "target": target})
        self._content += array.tobytes()
        self._accessors.append(
            {
                "bufferView": len(self._views) - 1,
                "componentType": kind,
                "count": len(array),
                "type": shape,
            }
        )
        return len(self._accessors) - 1


def _words(*numbers: int) -> bytes:
    return b"".join(number.to_bytes(4, "little") for number in numbers)


def _normals(part: Part) -> Floats:
    """Return the unit normal of every vertex: mean of its triangles, the larger ones more."""
    corners = part.vertices[part.faces]
    of_faces = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    sums = np.zeros_like(part.vertices)
    for corner in range(3):
        np.add.at(sums, part.faces[:, corner], of_faces)
    sizes = np.linalg.norm(sums, axis=1, keepdims=True)
    return np.where(sizes > 0.0, sums / np.where(sizes > 0.0, sizes, 1.0), (0.0, 0.0, 1.0))


def _linear(values: Floats) -> Floats:
    """Return colours in amounts of light, as glTF wants them, from how screens number them."""
    return np.asarray(
        np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)
    )
