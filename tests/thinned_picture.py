"""A recorded picture of the casts with few triangles: the same teeth in the same places, coarser.

To take in thousands of triangles costs a browser seconds, which who only handles the page need not
spend.
"""

import numpy as np

#: Vertices of an arch that lie in the same cube become one.
CUBE_MM = 1.6


def thinned(recorded):
    """Return recorded messages, header and arrays by kind, with fewer triangles.

    What is closed stays closed: vertices at the same place go to the same place, whichever part
    they belong to.
    """
    header, arrays = recorded["teeth"]
    places = _places(header["parts"], arrays)
    made, kept = {}, {"upper": [], "lower": []}
    for part in header["parts"]:
        vertices, first, faces = _thin_part(part, arrays, places[part["arch"]])
        made[part["vertices"]], made[part["faces"]] = vertices, faces
        for name in filter(None, (part["tooth"], part["place"])):
            made[name] = arrays[name][first]
        if part["tooth"]:
            count = sum(len(arrays[name]) for name, _ in kept[part["arch"]])
            kept[part["arch"]].append((part["tooth"], first + count))
    told = dict(recorded)
    told["teeth"] = header, made
    for kind in ("pose", "reach"):
        gaps = {
            f"gap_{arch}": recorded[kind][1][f"gap_{arch}"][np.concatenate([at for _, at in rows])]
            for arch, rows in kept.items()
        }
        told[kind] = recorded[kind][0], recorded[kind][1] | gaps
    return told


def _cubes(vertices):
    return np.floor(vertices / CUBE_MM).astype(np.int64)


def _places(parts, arrays):
    """Return by arch where the vertices in each cube go: to their middle."""
    places = {}
    for arch in ("upper", "lower"):
        vertices = np.vstack([arrays[p["vertices"]] for p in parts if p["arch"] == arch])
        cubes, row = np.unique(_cubes(vertices), axis=0, return_inverse=True)
        sums = np.zeros((len(cubes), 3))
        np.add.at(sums, row.ravel(), vertices)
        middles = sums / np.bincount(row.ravel())[:, None]
        places[arch] = {tuple(cube): middle for cube, middle in zip(cubes, middles, strict=True)}
    return places


def _thin_part(part, arrays, places):
    """Return vertices, which of the old ones stand for them, and faces of one part."""
    vertices, faces = arrays[part["vertices"]], arrays[part["faces"]]
    codes = arrays[part["tooth"]] if part["tooth"] else np.zeros(len(vertices), np.uint8)
    keys = np.column_stack([codes, _cubes(vertices)])
    keys, first, row = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    moved = np.array([places[tuple(key[1:])] for key in keys], dtype=np.float32)
    faces = row.ravel()[faces.reshape(-1, 3)].astype(np.uint32)
    a, b, c = faces.T
    return moved, first, faces[(a != b) & (b != c) & (c != a)]
