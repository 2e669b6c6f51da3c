"""Small scan files made byte by byte, so that every byte of them can be spoilt."""

import json

import numpy as np

#: A pyramid without its base: an open surface of four triangles.
POINTS = np.array([[0, 0, 0], [40, 0, 0], [40, 30, 0], [0, 30, 0], [20, 15, 10]], dtype=float)
FACES = np.array([[0, 1, 4], [1, 2, 4], [2, 3, 4], [3, 0, 4]])


def binary_stl(points=POINTS, faces=FACES, header=b"made", announced=None):
    """Return a binary STL file; its normals and attributes are left zero."""
    rows = np.zeros(len(faces), dtype=[("n", "<f4", 3), ("p", "<f4", (3, 3)), ("a", "<u2")])
    rows["p"] = points[faces]
    count = len(faces) if announced is None else announced
    return header.ljust(80) + count.to_bytes(4, "little") + rows.tobytes()


def ascii_stl(points=POINTS, faces=FACES, name="jaw"):
    """Return an ASCII STL file of one solid."""
    lines = [f"solid {name}"]
    for corners in points[faces]:
        lines += ["facet normal 0 0 1", "  outer loop"]
        lines += [f"    vertex {x!r} {y!r} {z!r}" for x, y, z in corners.tolist()]
        lines += ["  endloop", "endfacet"]
    return "\n".join([*lines, f"endsolid {name}", ""]).encode()


def ply_header(kind, vertices=5, faces=4, extra_vertex="", extra_face="", count_type="uchar"):
    """Return the header of a PLY file with places in double floats."""
    return (
        f"ply\nformat {kind} 1.0\ncomment made\nelement vertex {vertices}\n"
        "property double x\nproperty double y\nproperty double z\n"
        f"{extra_vertex}element face {faces}\n"
        f"property list {count_type} int vertex_indices\n{extra_face}end_header\n"
    ).encode()


#: Of PLY files with scalars: a quality and a label at vertices, a label at faces.
SCALARS = {
    "extra_vertex": "property float quality\nproperty uchar red\nproperty short label\n",
    "extra_face": "property int tooth\n",
}
QUALITY = np.array([0.5, 1.5, -2.5, 3.5, 4.5], dtype=np.float32)
LABEL = np.array([11, 12, 13, -14, 15], dtype=np.int16)
TOOTH = np.array([36, 37, 46, 47], dtype=np.int32)


def ascii_ply(**header):
    """Return an ASCII PLY file without scalars."""
    rows = [" ".join(map(repr, row)) for row in POINTS.tolist()]
    rows += [" ".join(map(str, (3, *row))) for row in FACES.tolist()]
    return ply_header("ascii", **header) + "\n".join(rows).encode() + b"\n"


def ascii_ply_with_scalars():
    """Return an ASCII PLY file with scalars at vertices and faces."""
    rows = [
        f"{x!r} {y!r} {z!r} {quality} 200 {label}"
        for (x, y, z), quality, label in zip(POINTS.tolist(), QUALITY, LABEL, strict=True)
    ]
    rows += [f"3 {a} {b} {c} {t}" for (a, b, c), t in zip(FACES.tolist(), TOOTH, strict=True)]
    return ply_header("ascii", **SCALARS) + "\n".join(rows).encode() + b"\n"


def binary_ply(order="<", **header):
    """Return a binary PLY file without scalars."""
    kind = {"<": "binary_little_endian", ">": "binary_big_endian"}[order]
    rows = np.zeros(len(FACES), dtype=[("n", "u1"), ("c", order + "i4", 3)])
    rows["n"], rows["c"] = 3, FACES
    return ply_header(kind, **header) + POINTS.astype(order + "f8").tobytes() + rows.tobytes()


def binary_ply_with_scalars(order="<"):
    """Return a binary PLY file with scalars at vertices and faces."""
    kind = {"<": "binary_little_endian", ">": "binary_big_endian"}[order]
    vertex = np.zeros(
        len(POINTS),
        dtype=[("p", order + "f8", 3), ("q", order + "f4"), ("r", "u1"), ("l", order + "i2")],
    )
    vertex["p"], vertex["q"], vertex["r"], vertex["l"] = POINTS, QUALITY, 200, LABEL
    face = np.zeros(len(FACES), dtype=[("n", "u1"), ("c", order + "i4", 3), ("t", order + "i4")])
    face["n"], face["c"], face["t"] = 3, FACES, TOOTH
    return ply_header(kind, **SCALARS) + vertex.tobytes() + face.tobytes()


def obj(points=POINTS, faces=FACES):
    """Return an OBJ file."""
    rows = [f"v {x!r} {y!r} {z!r}" for x, y, z in points.tolist()]
    rows += [f"f {a} {b} {c}" for a, b, c in (faces + 1).tolist()]
    return "\n".join(["# made", *rows, ""]).encode()


def glb_tree():
    """Return the description of a GLB file of one mesh, and its binary block."""
    places = POINTS.astype("<f4").tobytes()
    corners = FACES.astype("<u2").tobytes()
    tree = {
        "asset": {"version": "2.0"},
        "scene": 0,
        "scenes": [{"nodes": [0]}],
        "nodes": [{"name": "upper", "mesh": 0}],
        "meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "indices": 1}]}],
        "accessors": [
            {
                **{"bufferView": 0, "componentType": 5126, "count": 5, "type": "VEC3"},
                **{"min": POINTS.min(axis=0).tolist(), "max": POINTS.max(axis=0).tolist()},
            },
            {"bufferView": 1, "componentType": 5123, "count": 12, "type": "SCALAR"},
        ],
        "bufferViews": [
            {"buffer": 0, "byteOffset": 0, "byteLength": len(places)},
            {"buffer": 0, "byteOffset": len(places), "byteLength": len(corners)},
        ],
        "buffers": [{"byteLength": len(places) + len(corners)}],
    }
    return tree, places + corners


def glb(tree=None, binary=None, version=2):
    """Return a GLB file of a description and a binary block."""
    own_tree, own_binary = glb_tree()
    text = tree if isinstance(tree, bytes) else json.dumps(tree or own_tree).encode()
    text += b" " * (-len(text) % 4)
    binary = own_binary if binary is None else binary
    chunks = len(text).to_bytes(4, "little") + b"JSON" + text
    chunks += len(binary).to_bytes(4, "little") + b"BIN\0" + binary
    return (
        b"glTF" + version.to_bytes(4, "little") + (12 + len(chunks)).to_bytes(4, "little") + chunks
    )


def changed_glb(*path, to):
    """Return a GLB file in whose description one value is another; `...` takes it out."""
    tree, _ = glb_tree()
    inner = tree
    for key in path[:-1]:
        inner = inner[key]
    if to is ...:
        del inner[path[-1]]
    else:
        inner[path[-1]] = to
    return glb(tree)
