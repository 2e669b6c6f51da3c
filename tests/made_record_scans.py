"""Scans of interocclusal records made from casts whose truth is known: noisy, cut, moved."""

from dataclasses import dataclass
from functools import cache

import numpy as np
from scipy.spatial.transform import Rotation

from kinematics.geometry.meshes import joined, mesh_of, moved_mesh, part_of
from kinematics.geometry.poses import inverse, move_points, pose_of
from kinematics.records.record_scans import bitten_casts
from tests.scanned_case import scans_in_mi
from tests.scanner_like import Scanned

TRIANGLES = 10_000
#: Where the lower scan stands in MI: it was scanned in other coordinates than the upper.
BITE = pose_of(Rotation.from_rotvec([0.4, -0.7, 0.2]).as_matrix(), np.array([12.0, -40.0, 25.0]))


def uneven(vertices):
    """Return places as no mouth is: without them the built-in teeth would be their mirror image."""
    x, y, _ = vertices.T
    aside = 0.8 * np.sin(y / 7.0 + 0.5)
    ahead = 0.5 * np.sin(y / 9.0 + 1.0) + 0.3 * np.sin(x / 5.0)
    return vertices + np.stack([ahead, aside, 0.3 * np.sin(y / 6.0 + 2.0)], axis=1)


def of_somebody_else(mesh):
    """Return the same teeth in other sizes and places: by tenths of a millimetre and more."""
    x, y, z = mesh.vertices.T
    moves = [0.4 * np.sin(y / 4.0), 0.4 * np.sin(x / 4.0 + z / 3.0), 0.4 * np.sin(y / 3.0 + 1.0)]
    return mesh_of(mesh.vertices * [1.02, 0.98, 1.0] + np.stack(moves, axis=1), mesh.faces)


@cache
def own_scans():
    """Return upper and lower scan in MI, in the coordinates of the upper; uneven."""
    return tuple(
        Scanned(uneven(scan.vertices), scan.faces, scan.labels)
        for scan in scans_in_mi(TRIANGLES, noise_um=4.0, waves_um=4.0)
    )


@cache
def own_meshes():
    """Return of both scans, in MI, the whole, the teeth and the gums."""
    found = []
    for scan in own_scans():
        mesh = mesh_of(scan.vertices, scan.faces)
        tooth = (scan.labels[scan.faces] > 0).all(axis=1)
        found.append((mesh, part_of(mesh, tooth)[0], part_of(mesh, ~tooth)[0]))
    return tuple(found)


@cache
def own_casts():
    """Return both casts, prepared; the lower in coordinates of its own."""
    upper, lower = own_meshes()
    there = inverse(BITE)
    return bitten_casts(upper[:2], tuple(moved_mesh(part, there) for part in lower[:2]), BITE)


def any_move(seed):
    """Return a motion of the lower from MI as in a record: ahead, aside, open, a little turned."""
    rng = np.random.default_rng(seed + 300)
    turn = Rotation.from_rotvec(np.radians(rng.normal(0.0, [1.0, 2.0, 2.0]))).as_matrix()
    about = own_meshes()[1][1].vertices.mean(axis=0)
    ahead = [rng.uniform(2.0, 6.0), rng.uniform(-3.0, 3.0), -rng.uniform(2.0, 5.0)]
    return pose_of(turn, about - turn @ about + np.array(ahead))


@dataclass(frozen=True)
class View:
    """What of the casts a record shows: see `record_mesh`."""

    of: str = "whole"
    arches: tuple = ("upper", "lower")
    least_y: float = -np.inf
    most_y: float = np.inf
    least_x: float = -np.inf


def record_mesh(move, seed, view=None, noise_um=10.0, place=None, changed=lambda mesh: mesh):
    """Return the vestibular faces of both arches in a record as a mesh.

    `move` leads the lower from MI to the record, in the coordinates of the upper scan; `place` from
    there to coordinates of the record's own.
    """
    view, rng = view or View(), np.random.default_rng(seed)
    parts = []
    for name in view.arches:
        part = _seen_from_outside(name, view)
        parts.append(moved_mesh(part, move) if name == "lower" else part)
    mesh = changed(joined(parts))
    noise = rng.normal(0.0, 1e-3 * noise_um, mesh.vertices.shape)
    mesh = mesh_of(mesh.vertices + noise, mesh.faces)
    return mesh if place is None else moved_mesh(mesh, place)


@cache
def _seen_from_outside(name, view):
    mesh = own_meshes()[name == "lower"][("whole", "teeth", "gums").index(view.of)]
    corners = mesh.corners
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals /= np.linalg.norm(normals, axis=1, keepdims=True)
    middles = corners.mean(axis=1)
    outward = middles - (mesh.vertices.mean(axis=0) - [15.0, 0.0, 0.0])
    outward[:, 2] = 0.0
    outward /= np.linalg.norm(outward, axis=1, keepdims=True)
    facing = (normals * outward).sum(axis=1)
    seen = facing * np.sign(facing.sum()) > 0.25
    x, y, _ = middles.T
    seen &= (y > view.least_y) & (y < view.most_y) & (x > view.least_x)
    return part_of(mesh, seen)[0]


def off(record, move):
    """Return how far a transform found is off at the lower teeth, mm, and turned, degrees."""
    error = inverse(move) @ record @ inverse(BITE)
    teeth = own_meshes()[1][1].vertices
    apart_mm = np.linalg.norm(move_points(error, teeth) - teeth, axis=1).max()
    return apart_mm, np.degrees(Rotation.from_matrix(error[:3, :3]).magnitude())
