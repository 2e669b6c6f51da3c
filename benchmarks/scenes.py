"""What is timed: two arches and the paths of poses that they are taken through."""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from benchmarks.bodies import waved_body
from kinematics.case import Case
from kinematics.casts.casts import Arch
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.pair import Pair, prepare
from kinematics.conventions import Floats
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import (
    inverse,
    move_points,
    opening_rotation,
    pose_of,
    rotation_about,
)
from kinematics.guidance.excursions import along, left_lateral, protrusion, right_lateral
from kinematics.guidance.mandible import place
from kinematics.mounting import mounted_casts
from kinematics.teeth.dentition_settings import DentitionSettings

TRIANGLES = 200_000
#: Paths are not cut to fewer poses than this: the first of each has nothing to go by.
_FEWEST = 10
#: How far the lower body of `conforming` is open at opening 0.
_BODIES_OPEN_RAD = 0.05


@dataclass(frozen=True)
class Scene:
    """Arches and paths; along a path each pose is near the one before.

    Attributes
    ----------
    name : str
        What the table calls it.
    upper, lower : Arch
        The arches, as other libraries get them.
    pair : Pair
        The same, prepared.
    paths : ndarray, shape (k, n, 4, 4)
        hinge_from_lower at opening 0, k paths of n poses.
    """

    name: str
    upper: Arch
    lower: Arch
    pair: Pair
    paths: Floats

    @property
    def poses(self) -> Floats:
        """All poses, path after path, shape (k n, 4, 4)."""
        return self.paths.reshape(-1, 4, 4)

    def shortened(self, poses: int) -> "Scene":
        """Return the scene with so many poses: the same stretch of all paths, or of the first."""
        paths = self.paths if poses >= _FEWEST * len(self.paths) else self.paths[:1]
        each = poses // len(paths)
        first = max(0, (self.paths.shape[1] - each) // 2)
        return replace(self, paths=paths[:, first : first + each])


@lru_cache(maxsize=3)
def casts_of(triangles: int) -> MountedCasts:
    """Build the teeth of the default case, about so many triangles in each arch."""
    return mounted_casts(Case(dentition=DentitionSettings(triangles_per_arch=triangles)))


def smooth_paths(
    casts: MountedCasts, poses_each: int, first_mm: float = 0.0, last_mm: float = 4.0
) -> Floats:
    """Return poses (3 k, 4, 4) at opening 0 along protrusion and both lateral excursions."""
    parts = []
    for excursion in (protrusion(), left_lateral(), right_lateral()):
        progress = np.linspace(first_mm, last_mm, poses_each)
        advances = along(casts.guidance, excursion, casts.mi, progress)
        parts.append(place(casts.guidance, *advances).pose_at_zero)
    return np.concatenate(parts)


def unrelated_poses(casts: MountedCasts, count: int) -> Floats:
    """Return poses (n, 4, 4) of which none helps the next: random advances, shifts and turns."""
    rng = np.random.default_rng(0)
    advances = rng.uniform(0.0, 4.0, (2, count))
    poses = place(casts.guidance, *advances).pose_at_zero
    turns = _small_motions(rng, count, 0.005, 0.3)
    return np.asarray(poses @ turns)


def _small_motions(rng: np.random.Generator, count: int, most_rad: float, most_mm: float) -> Floats:
    """Return rigid motions (n, 4, 4): turns about random axes and random shifts."""
    axes = rng.normal(size=(count, 3))
    axes /= np.linalg.norm(axes, axis=1, keepdims=True)
    turns = rotation_about(axes, rng.uniform(-most_rad, most_rad, count))
    return pose_of(turns, rng.uniform(-most_mm, most_mm, (count, 3)))


def _scene(name: str, casts: MountedCasts, poses: Floats) -> Scene:
    paths = poses.reshape(3, -1, 4, 4)
    return Scene(name, casts.upper, casts.lower, casts.pair, paths)


def tight(casts: MountedCasts, poses_each: int = 80) -> Scene:
    """Return protrusion and both lateral excursions, from MI to 4 mm."""
    return _scene("tight", casts, smooth_paths(casts, poses_each))


def loose(casts: MountedCasts, poses_each: int = 80) -> Scene:
    """Return the same excursions from 3 to 5 mm, where few teeth are near each other."""
    return _scene("loose", casts, smooth_paths(casts, poses_each, 3.0, 5.0))


def near_mi(casts: MountedCasts, poses_each: int = 20) -> Scene:
    """Return the same excursions within 0.05 mm of MI, where all teeth all but touch."""
    return _scene("near MI", casts, smooth_paths(casts, poses_each, 0.0, 0.05))


def conforming(triangles: int, poses: int = 24) -> Scene:
    """Return two bodies with the same waved side, the lower opened: closed again, all touches.

    In the first pose exactly so; on the path from there a motion of a few micrometres grows.
    """
    points_a_side = 1 + round((triangles / 2) ** 0.5)
    upper, closed = waved_body(points_a_side, 5.0), waved_body(points_a_side, -5.0)
    opened = move_points(opening_rotation(_BODIES_OPEN_RAD), closed.mesh.vertices)
    lower = Arch(mesh_of(opened, closed.mesh.faces), closed.tooth_of_face, ())
    share = np.linspace(0.0, 1.0, poses)
    turns = rotation_about(np.array([0.48, 0.6, 0.64]), 5e-5 * share)
    motions = pose_of(turns, share[:, None] * np.array([1e-3, 2e-3, 0.0]))
    # The motion acts on the closed bodies: the lower is closed, moved, and opened again.
    closing = opening_rotation(-_BODIES_OPEN_RAD)
    paths = (closing @ motions @ inverse(closing))[None]
    return Scene("conforming", upper, lower, prepare(upper, lower), paths)
