"""Built-in crowns with seats of known depth cut into them, and needles at known distance above."""

from functools import cache
from types import SimpleNamespace

import numpy as np
import trimesh

from kinematics.casts.casts import Arch, Tooth
from kinematics.contact.pair import prepare
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import joined, mesh_of, part_of
from kinematics.planning.crown_places import crown_frame
from kinematics.planning.framework import PlacedRest
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.rooms.opposing import Poses
from kinematics.planning.rooms.rest_outlines import outline_of
from kinematics.planning.rooms.seat_depth import outside_mm
from kinematics.tooth_codes import is_upper
from tests.built_dentition import coarse

BACK_TEETH = (14, 15, 16, 17, 24, 26, 34, 35, 36, 37, 44, 46)
#: Over so much inside the outline a seat gets its full depth.
WALL_MM = 0.15


@cache
def fine_arch(code, quartered=True):
    """Return an arch of a tooth, its triangles quartered, and the teeth beside it."""
    whole = coarse().upper if is_upper(code) else coarse().lower
    here = whole.codes.index(code)
    kept = [whole.codes[k] for k in {max(here - 1, 0), here, min(here + 1, len(whole.codes) - 1)}]
    meshes, codes = [], []
    for other in kept:
        part, _ = part_of(whole.mesh, whole.tooth_of_face == other)
        if other == code and quartered:
            points, faces = part.vertices, part.faces
            points, faces = trimesh.remesh.subdivide(points, faces)
            part = mesh_of(points, faces)
        meshes.append(part)
        codes += [other] * len(part.faces)
    teeth = tuple(tooth for tooth in whole.teeth if tooth.code in kept)
    return Arch(joined(meshes), np.array(codes), teeth)


def rest_on(arch, code, place, depth_mm=0.0):
    """Return a rest where it usually lies, so far below the surface."""
    crown = crown_frame(arch, code)
    point = crown.rest_at(place, np.empty((0, 3))) - depth_mm * crown.up
    return PlacedRest(code, place, tuple(point), tuple(-crown.up), "base", False)


def seated(arch, code, place, depth_mm):
    """Return an arch with a seat cut along the long axis, so deep everywhere but at its walls."""
    crown = crown_frame(arch, code)
    outline = outline_of(crown, rest_on(arch, code, place))
    axes = np.stack([crown.mesial, crown.facial, crown.up])
    own = np.unique(arch.mesh.faces[arch.tooth_of_face == code])
    seen = (arch.mesh.vertices[own] - crown.tooth.centre) @ axes.T
    share = np.clip(-outside_mm(outline, seen[:, :2]) / WALL_MM, 0.0, 1.0)
    low, high = seen[:, 2].min(), seen[:, 2].max()
    share[seen[:, 2] < low + 0.35 * (high - low)] = 0.0
    points = arch.mesh.vertices.copy()
    points[own] -= depth_mm * share[:, None] * crown.up
    return Arch(mesh_of(points, arch.mesh.faces), arch.tooth_of_face, arch.teeth)


def needle(tip, up, code):
    """Return an arch of one thin needle whose tip points at a crown, against its `up`."""
    aside = np.cross(up, [1.0, 0.0, 0.0])
    aside /= np.linalg.norm(aside)
    other = np.cross(up, aside)
    turns = 2.0 * np.pi * np.arange(3) / 3.0
    ring = np.outer(np.cos(turns), aside) + np.outer(np.sin(turns), other)
    points = np.vstack([tip, tip + 5.0 * up + 0.2 * ring])
    faces = np.array([[0, 2, 1], [0, 3, 2], [0, 1, 3], [1, 2, 3]])
    tooth = Tooth(code, points.mean(axis=0), -up, tip[None])
    return Arch(mesh_of(points, faces), np.full(4, code), (tooth,))


def facing(own, other, code, workers=None):
    """Return what is measured: an arch and the one opposite, the jaw in MI at the identity."""
    upper, lower = (own, other) if is_upper(code) else (other, own)
    casts = SimpleNamespace(upper=upper, lower=lower, pair=prepare(upper, lower), mi_pose=np.eye(4))
    return Occlusion(casts, JudgingSettings(), workers=workers or Workers())


def lifted(heights_mm, up, code):
    """Return poses in which what stands opposite is lifted off along `up`, the first MI."""
    poses = np.tile(np.eye(4), (len(heights_mm), 1, 1))
    sign = 1.0 if is_upper(code) else -1.0
    poses[:, :3, 3] = sign * np.outer(heights_mm, up)
    labels = ("", *("protrusion" for _ in heights_mm[1:]))
    return Poses(poses, labels, np.arange(len(heights_mm), dtype=float))


def nearest_places(mesh, point):
    """Return how far a point is from every triangle, and where on it, by a second library."""
    corners = mesh.corners
    places = trimesh.triangles.closest_point(corners, np.tile(point, (len(corners), 1)))
    return np.linalg.norm(places - point, axis=1), places


def distances_mm(mesh, point):
    """Return how far a point is from every triangle of a surface."""
    return nearest_places(mesh, point)[0]
