"""Fused scans of several kinds of built-in dentitions, and seeds that a person may pick on them."""

from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from kinematics.casts.casts import NO_TOOTH
from kinematics.geometry.meshes import Mesh, face_areas_normals, mesh_of
from kinematics.geometry.poses import move_points, rotation_about
from kinematics.scans.labels import face_labels
from kinematics.scans.seeded_teeth import SeededTeeth, teeth_from_seeds
from kinematics.teeth.cast_body import with_body
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import MADE, DentitionSettings
from tests.fused_scanner import REACH_MM, FusedScan, fused_scan

#: Kinds of dentitions. What is worn has lost 0.8 mm of all tops.
KINDS = {
    "plain": {},
    "worn": {"wear_mm": dict.fromkeys(MADE, 0.8)},
    "gaps": {"missing": (14, 16, 22, 25, 34, 36, 42, 45)},
    "thirds": {"cusp_inclination_change_deg": -8.0, "third_molars": (18, 28, 38, 48)},
}
#: Sign of z in which the crowns of each arch point.
UP = {"upper": -1.0, "lower": 1.0}
#: Crown triangles that face the other arch within 60 degrees are the occlusal surface.
FACING = 0.5
#: A person picks so near to the middle of the occlusal surface, mm. Chosen for this program.
PICKED_MM = 2.0


@dataclass(frozen=True)
class Cast:
    """A fused scan of one arch.

    Attributes
    ----------
    scan : FusedScan
    side : str
        "upper" or "lower".
    area_mm2 : ndarray, shape (m,)
    occlusal : ndarray, shape (m,)
        Which triangles are of the occlusal surface of a tooth.
    """

    scan: FusedScan
    side: str
    area_mm2: np.ndarray
    occlusal: np.ndarray

    @property
    def codes(self):
        """Numbers of the teeth."""
        return [int(code) for code in np.unique(self.scan.tooth_of_face) if code != NO_TOOTH]

    def share(self, chosen, of):
        """Return how much of the area of some triangles others have too."""
        return self.area_mm2[of & chosen].sum() / self.area_mm2[of].sum()

    def candidates(self, code, reach_mm=PICKED_MM):
        """Return vertices of a tooth about the middle of its occlusal surface."""
        own = self.occlusal & (self.scan.tooth_of_face == code)
        middles = self.scan.mesh.corners[own].mean(axis=1)
        middle = np.average(middles, axis=0, weights=self.area_mm2[own])
        near = np.linalg.norm((middles - middle)[:, :2], axis=1) < reach_mm
        return self.scan.mesh.vertices[self.scan.mesh.faces[own][near, 0]]

    def seeds(self, seed):
        """Return a random seed (1, 3) on every tooth."""
        rng = np.random.default_rng(seed)
        return {code: rng.choice(self.candidates(code))[None] for code in self.codes}


@cache
def fused_cast(kind, side, voxel_mm, reach_mm=REACH_MM):
    """Return a fused scan; "crowded 1" and "crowded 2" are of crowded plain teeth."""
    arch = getattr(_dentition(kind.split()[0]), side)
    if kind.startswith("crowded"):
        arch = _crowded(arch, int(kind.split()[1]))
    scan = fused_scan(with_body(arch), UP[side], 1, voxel_mm, reach_mm=reach_mm)
    area_mm2, normals = face_areas_normals(scan.mesh)
    occlusal = (UP[side] * normals[:, 2] > FACING) & (scan.tooth_of_face != NO_TOOTH)
    return Cast(scan, side, area_mm2, occlusal)


@cache
def _dentition(kind):
    if kind == "crowded":
        return _dentition("plain")
    return build(DentitionSettings(triangles_per_arch=12_000, **KINDS[kind]))


def _crowded(arch, seed):
    """Return an arch with teeth turned up to 14 degrees, tipped 5, and moved in or out 0.8 mm."""
    rng = np.random.default_rng(seed)
    vertices, teeth = arch.mesh.vertices.copy(), []
    behind = np.array([vertices[:, 0].mean() - 12.0, 0.0, 0.0])
    for tooth in arch.teeth:
        share = 1.0 if tooth.code % 10 < 6 else 0.4
        turn, tip = np.radians(rng.uniform(-1.0, 1.0, 2) * share * (14.0, 5.0))
        turned = rotation_about(tooth.long_axis, turn) @ rotation_about(np.eye(3)[0], tip)
        outward = (tooth.centre - behind) * (1.0, 1.0, 0.0)
        outward *= rng.uniform(-0.8, 0.8) * share / np.linalg.norm(outward)
        pose = np.eye(4)
        pose[:3, :3], pose[:3, 3] = turned, tooth.centre + outward - turned @ tooth.centre
        own = np.unique(arch.mesh.faces[arch.tooth_of_face == tooth.code])
        vertices[own] = move_points(pose, vertices[own])
        teeth.append(
            replace(
                tooth,
                centre=tooth.centre + outward,
                long_axis=turned @ tooth.long_axis,
                edge=move_points(pose, tooth.edge),
            )
        )
    return replace(arch, mesh=mesh_of(vertices, arch.mesh.faces), teeth=tuple(teeth))


@dataclass(frozen=True)
class Trial:
    """What seeds made of a cast: the tooth of every triangle, and where it is doubtful."""

    cast: Cast
    found: SeededTeeth
    tooth_of_face: np.ndarray
    doubtful: np.ndarray

    @property
    def right(self):
        """Which triangles are on the right tooth, or rightly on none."""
        return self.tooth_of_face == self.cast.scan.tooth_of_face

    def occlusal_right(self):
        """Return the share of the occlusal area on the right tooth."""
        return self.cast.share(self.right, self.cast.occlusal)


def tried(cast, seeds, place=None, mirrored_faces=False, gum_seeds=None):
    """Part a cast by seeds, as it is or in another place, wound as it is or the other way."""
    mesh = cast.scan.mesh
    place = np.eye(4) if place is None else place
    faces = mesh.faces[:, ::-1] if mirrored_faces else mesh.faces
    moved = {code: move_points(place, points) for code, points in seeds.items()}
    gum = None if gum_seeds is None else move_points(place, gum_seeds)
    found = teeth_from_seeds(Mesh(move_points(place, mesh.vertices), faces), moved, gum)
    return trial(cast, found)


def trial(cast, found):
    """Return what was found, as a trial."""
    faces = cast.scan.mesh.faces
    teeth = face_labels(found.tooth_of_vertex, faces)
    return Trial(cast, found, teeth, found.doubtful[faces].any(axis=1))
