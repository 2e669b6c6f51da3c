"""Arches for tests of first contact: loose triangles, sheets with waves or cusps, open bodies.

All lie ahead of the hinge axis at the height of teeth, in several labels, drawn from a seed.
"""

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import pose_of, rotation_about

CODES = (11, 12, 13, 14)
#: Least and greatest x and y of a sheet, mm.
AHEAD, ASIDE = (45.0, 80.0), (-20.0, 20.0)


def soup(corners, codes=None):
    """Make an arch of loose triangles (m, 3, 3)."""
    corners = np.asarray(corners, dtype=float)
    faces = np.arange(3 * len(corners)).reshape(-1, 3)
    codes = np.full(len(corners), 11) if codes is None else np.asarray(codes)
    return Arch(mesh_of(corners.reshape(-1, 3), faces), codes, ())


def patchwork(seed, n, z, wave):
    """Make a waved sheet of 2 (n - 1)^2 triangles ahead of the hinge axis, in four labels."""
    x, y = np.meshgrid(np.linspace(45, 80, n), np.linspace(-20, 20, n), indexing="ij")
    rng = np.random.default_rng(seed)
    h = z + wave * np.sin(0.5 * x + seed) * np.cos(0.4 * y) + rng.normal(0, 0.02, x.shape)
    i = np.arange(n * n).reshape(n, n)
    a, b, c, d = i[:-1, :-1].ravel(), i[1:, :-1].ravel(), i[1:, 1:].ravel(), i[:-1, 1:].ravel()
    faces = np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)])
    mesh = mesh_of(np.stack([x.ravel(), y.ravel(), h.ravel()], 1), faces)
    codes = 11 + np.clip((mesh.corners.mean(1)[:, 1] + 20) // 10, 0, 3).astype(int)
    return Arch(mesh, codes, ())


def grid(x, y, z):
    """Return an arch over a grid of points (n, m), labelled in four strips along y."""
    i = np.arange(x.size).reshape(x.shape)
    a, b, c, d = i[:-1, :-1].ravel(), i[1:, :-1].ravel(), i[1:, 1:].ravel(), i[:-1, 1:].ravel()
    # Diagonals in turn, so that no direction is preferred.
    odd = np.add.outer(np.arange(x.shape[0] - 1), np.arange(x.shape[1] - 1)).ravel() % 2 == 1
    first = np.where(odd[:, None], np.stack([a, b, d], 1), np.stack([a, b, c], 1))
    second = np.where(odd[:, None], np.stack([b, c, d], 1), np.stack([a, c, d], 1))
    mesh = mesh_of(np.stack([x.ravel(), y.ravel(), z.ravel()], 1), np.concatenate([first, second]))
    strip = (mesh.corners.mean(1)[:, 1] - ASIDE[0]) / (ASIDE[1] - ASIDE[0]) * len(CODES)
    return Arch(mesh, np.array(CODES)[np.clip(strip.astype(int), 0, len(CODES) - 1)], ())


def _places(rng, n, m, jitter):
    """Return grid points whose inner ones are moved by a fraction of their distance."""
    x, y = np.meshgrid(np.linspace(*AHEAD, n), np.linspace(*ASIDE, m), indexing="ij")
    steps = (AHEAD[1] - AHEAD[0]) / (n - 1), (ASIDE[1] - ASIDE[0]) / (m - 1)
    for values, step in zip((x, y), steps, strict=True):
        values[1:-1, 1:-1] += jitter * step * rng.uniform(-1, 1, values[1:-1, 1:-1].shape)
    return x, y


def waves(seed, z, n=12):
    """Make a waved and noisy sheet."""
    rng = np.random.default_rng(seed)
    x, y = _places(rng, n, n, 0.25)
    height = rng.uniform(0.5, 1.5) * np.sin(0.5 * x + seed) * np.cos(0.4 * y)
    return grid(x, y, z + height + rng.normal(0, 0.05, x.shape))


def cusps(seed, z, n=13, towards=1.0):
    """Make a sheet of teeth-like bumps, up where `towards` is positive, with steep sides."""
    rng = np.random.default_rng(seed)
    x, y = _places(rng, n, n, 0.25)
    height = np.zeros(x.shape)
    for centre in rng.uniform([AHEAD[0], ASIDE[0]], [AHEAD[1], ASIDE[1]], (14, 2)):
        apart = np.hypot(x - centre[0], y - centre[1])
        height += rng.uniform(1.0, 4.0) * np.exp(-0.5 * (apart / rng.uniform(1.5, 3.0)) ** 2)
    return grid(x, y, z + towards * height + rng.normal(0, 0.02, x.shape))


def needles(seed, z):
    """Make a waved sheet of triangles ten times as long as they are wide."""
    rng = np.random.default_rng(seed)
    shape = (3, 30) if rng.random() < 0.5 else (30, 3)
    x, y = _places(rng, *shape, 0.3)
    height = np.sin(0.3 * x + seed) + np.cos(0.5 * y)
    return grid(x, y, z + height + rng.normal(0, 0.02, x.shape))


def bodies(seed, z):
    """Make four bumpy bodies that overlap or stand apart, each a ball with an open pole."""
    rng = np.random.default_rng(seed)
    vertices, faces, codes = [], [], []
    rings, spokes = 5, 8
    for number, code in enumerate(CODES):
        lat, turn = np.linspace(0.2, 2.8, rings), 2 * np.pi * np.arange(spokes) / spokes
        unit = np.stack(
            [
                np.outer(np.sin(lat), np.cos(turn)),
                np.outer(np.sin(lat), np.sin(turn)),
                np.outer(np.cos(lat), np.ones(spokes)),
            ],
            axis=-1,
        )
        sizes = rng.uniform(3.0, 7.0, 3) * rng.uniform(0.8, 1.2, (rings, spokes, 1))
        centre = [rng.uniform(*AHEAD), rng.uniform(*ASIDE), z + rng.uniform(-1, 1)]
        vertices.append((centre + unit * sizes).reshape(-1, 3))
        i = np.arange(rings * spokes).reshape(rings, spokes)
        a, b = i[:-1], np.roll(i, -1, axis=1)[:-1]
        c, d = np.roll(i, -1, axis=1)[1:], i[1:]
        part = np.concatenate([np.stack([a, b, c], -1), np.stack([a, c, d], -1)]).reshape(-1, 3)
        faces.append(part + number * rings * spokes)
        codes += [code] * len(part)
    return Arch(mesh_of(np.concatenate(vertices), np.concatenate(faces)), np.array(codes), ())


FAMILIES = {
    "waves": lambda seed: (waves(seed, -30.0), waves(seed + 1, -35.0)),
    "cusps": lambda seed: (cusps(seed, -28.0, towards=-1.0), cusps(seed + 1, -38.0)),
    "needles on waves": lambda seed: (needles(seed, -30.0), waves(seed + 1, -36.0)),
    "cusps on needles": lambda seed: (cusps(seed, -28.0, towards=-1.0), needles(seed + 1, -36.0)),
    "bodies": lambda seed: (bodies(seed, -28.0), bodies(seed + 1, -45.0)),
    "bodies on waves": lambda seed: (bodies(seed, -28.0), waves(seed + 1, -42.0)),
}


def slightly_moved(n, seed, turn=0.05, way=1.0):
    """Return n rigid motions: turns up to `turn`, rad, and ways up to `way`, mm, at random."""
    rng = np.random.default_rng(seed)
    axes = rng.normal(size=(n, 3))
    axes /= np.linalg.norm(axes, axis=1, keepdims=True)
    return pose_of(
        rotation_about(axes, rng.uniform(-turn, turn, n)), rng.uniform(-way, way, (n, 3))
    )
