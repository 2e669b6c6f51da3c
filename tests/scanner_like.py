"""Casts as a scanner would have them, made from arches whose truth is known.

One open surface of crowns and gums seen from the other arch, with noise, holes, a rim, in any
place and unit. Nothing here looks at which tooth a triangle belongs to; the numbers are only
carried along, as labelled scans have them.
"""

import json
from dataclasses import dataclass

import numpy as np
from scipy import sparse

from kinematics.geometry.meshes import Mesh, face_areas_normals, mesh_of
from kinematics.geometry.poses import move_points, pose_of, rotation_about

#: Steepest undercut that a scanner still sees, as the part of a normal that faces it.
SEEN = -0.25


@dataclass(frozen=True)
class Scanned:
    """Vertices (n, 3), faces (m, 3), tooth number of every vertex (n,)."""

    vertices: np.ndarray
    faces: np.ndarray
    labels: np.ndarray


def scanned(arch, towards, seed, noise_um=8.0, waves_um=10.0, holes=0):
    """Return an arch as scanned.

    Parameters
    ----------
    arch : Arch
        With its body.
    towards : float
        Sign of z towards the other arch.
    seed : int
        Of noise and holes.
    noise_um : float
        Standard deviation of what differs from vertex to vertex, along the normals.
    waves_um : float
        The same of what is alike over some millimetres.
    holes : int
        How many round holes of about 1 mm across.
    """
    rng = np.random.default_rng(seed)
    crowns, codes = _seen(arch.mesh, arch.tooth_of_face, towards)
    gum = arch.body.kind <= 3
    soft = Mesh(arch.body.mesh.vertices, np.ascontiguousarray(arch.body.mesh.faces[gum]))
    gums, none = _seen(soft, np.zeros(len(soft.faces), dtype=int), towards)
    vertices = np.concatenate([crowns.vertices, gums.vertices])
    faces = np.concatenate([crowns.faces, gums.faces + len(crowns.vertices)])
    labels = np.zeros(len(vertices), dtype=int)
    labels[crowns.faces] = codes[:, None]
    assert not none.any()
    vertices = vertices + roughness(vertices, faces, rng, noise_um, waves_um)
    faces = _with_holes(vertices, faces, rng, holes)
    return Scanned(vertices, faces, labels)


def _seen(mesh, codes, towards):
    """Return the part of a surface that faces the scanner."""
    _, normals = face_areas_normals(mesh)
    keep = towards * normals[:, 2] > SEEN
    used, faces = np.unique(mesh.faces[keep], return_inverse=True)
    return mesh_of(mesh.vertices[used], faces.reshape(-1, 3)), codes[keep]


def roughness(vertices, faces, rng, noise_um, waves_um):
    """Return displacements (n, 3): along normals, rough from vertex to vertex and in waves."""
    mesh = Mesh(vertices, faces)
    areas, normals = face_areas_normals(mesh)
    along = np.zeros_like(vertices)
    for corner in range(3):
        np.add.at(along, faces[:, corner], areas[:, None] * normals)
    along /= np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-12)
    rough = rng.normal(0.0, noise_um, len(vertices))
    waves = np.zeros(len(vertices))
    for _ in range(24):
        direction = rng.normal(size=3)
        direction *= 2.0 * np.pi / (rng.uniform(2.0, 8.0) * np.linalg.norm(direction))
        waves += np.sin(vertices @ direction + rng.uniform(0.0, 2.0 * np.pi))
    height_um = rough + waves_um * waves / max(waves.std(), 1e-12)
    return 1e-3 * height_um[:, None] * along


def _with_holes(vertices, faces, rng, holes):
    """Return the faces without those in round holes."""
    middles = vertices[faces].mean(axis=1)
    keep = np.ones(len(faces), dtype=bool)
    for face in rng.choice(len(faces), holes, replace=False):
        keep &= np.linalg.norm(middles - middles[face], axis=1) > 0.5
    return faces[keep]


def smoothed(scan, rounds):
    """Return a scan with smoothed fissures: every vertex moved towards its neighbours' middle."""
    sides = np.concatenate([scan.faces[:, [0, 1]], scan.faces[:, [1, 2]], scan.faces[:, [2, 0]]])
    count = len(scan.vertices)
    ones = np.ones(len(sides))
    beside = sparse.coo_matrix((ones, (sides[:, 0], sides[:, 1])), (count, count)).tocsr()
    beside = beside + beside.T
    total = np.maximum(np.asarray(beside.sum(axis=1)).ravel(), 1.0)
    vertices = scan.vertices
    for _ in range(rounds):
        vertices = 0.5 * vertices + 0.5 * (beside @ vertices) / total[:, None]
    return Scanned(vertices, scan.faces, scan.labels)


def moved(scan, pose):
    """Return a scan in other coordinates."""
    return Scanned(move_points(pose, scan.vertices), scan.faces, scan.labels)


def any_place(seed):
    """Return a rigid motion (4, 4) to coordinates as a scanner may choose them."""
    rng = np.random.default_rng(seed)
    axis = rng.normal(size=3)
    turn = rotation_about(axis / np.linalg.norm(axis), rng.uniform(-np.pi, np.pi))
    return pose_of(turn, rng.uniform(-200.0, 200.0, 3))


def seeds_on(arch):
    """Return a point near the middle of every crown, on its surface."""
    found = {}
    for tooth in arch.teeth:
        crown = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == tooth.code]].reshape(-1, 3)
        top = crown[(crown - tooth.centre) @ tooth.long_axis > 2.0]
        found[tooth.code] = top[np.argmin(np.linalg.norm(top - top.mean(axis=0), axis=1))]
    return found


def write_obj(path, scan):
    """Write a scan as OBJ, and its labels beside it as public labelled-scan datasets have them."""
    lines = [f"v {x!r} {y!r} {z!r}" for x, y, z in scan.vertices.tolist()]
    lines += [f"f {a} {b} {c}" for a, b, c in (scan.faces + 1).tolist()]
    path.write_text("\n".join(lines) + "\n")
    path.with_suffix(".json").write_text(json.dumps({"labels": scan.labels.tolist()}))


def write_ply(path, scan):
    """Write a scan as binary PLY with the tooth number of every vertex as a scalar."""
    head = (
        "ply\nformat binary_little_endian 1.0\n"
        f"element vertex {len(scan.vertices)}\n"
        "property double x\nproperty double y\nproperty double z\nproperty int tooth\n"
        f"element face {len(scan.faces)}\nproperty list uchar int vertex_indices\nend_header\n"
    )
    kind = [("x", "<f8"), ("y", "<f8"), ("z", "<f8"), ("tooth", "<i4")]
    points = np.empty(len(scan.vertices), dtype=kind)
    points["x"], points["y"], points["z"] = scan.vertices.T
    points["tooth"] = scan.labels
    corners = np.empty(len(scan.faces), dtype=[("n", "u1"), ("v", "<i4", 3)])
    corners["n"], corners["v"] = 3, scan.faces
    path.write_bytes(head.encode() + points.tobytes() + corners.tobytes())
