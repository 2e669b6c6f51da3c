"""Both casts as they move: one scene with the lower where it stands in MI, and its frames."""

from dataclasses import replace

import numpy as np

from kinematics.casts.casts import NO_TOOTH, Arch, carried
from kinematics.casts.crown_directions import crown_of
from kinematics.contact.gap_maps import DistanceMap
from kinematics.contact.mounted import MountedCasts
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse
from kinematics.planning.tooth_regions import region_names
from scenes.arch_scenes import (
    LOWER,
    UPPER,
    arch_parts,
    cast_vertices,
    crown_labels,
    has_base,
    tooth_labels,
)
from scenes.scene import Frame, Gaps, Label, Part, Scene, View

_AROUND_MM = 6.0


def moving_casts(casts: MountedCasts, replacement_teeth: tuple[int, ...]) -> Scene:
    """Describe both casts in maximal intercuspation, seen from in front, in the hinge frame.

    Guidance does not change it: it moves the lower from here.

    Parameters
    ----------
    casts : MountedCasts
        What is shown.
    replacement_teeth : tuple of int
        Drawn in a colour of their own.
    """
    lower = carried(casts.lower, casts.mi_pose)
    points = np.concatenate([cast_vertices(casts.upper), cast_vertices(lower)])
    low, high = points.min(axis=0) - _AROUND_MM, points.max(axis=0) + _AROUND_MM
    view = View(
        "from the front",
        towards=np.array([-1.0, 0.0, 0.0]),
        up=np.array([0.0, 0.0, 1.0]),
        centre=0.5 * (low + high),
        width_mm=float(high[1] - low[1]),
        height_mm=float(high[2] - low[2]),
    )
    parts = [
        _with_places(part, arch)
        for side, arch in ((UPPER, casts.upper), (LOWER, lower))
        for part in arch_parts(arch, side, replacement_teeth)
    ]
    labels: list[Label] = []
    above = View("", np.array([0.0, 0.0, -1.0]), np.array([1.0, 0, 0]), view.centre, 1, 1)
    for side, arch in ((UPPER, casts.upper), (LOWER, lower)):
        # Beyond crowns of a scan there may be nothing for a number to stand on.
        labels += (
            tooth_labels(arch, above, replacement_teeth)
            if has_base(arch)
            else crown_labels(arch, side, above, replacement_teeth)
        )
    return Scene(view, tuple(parts), labels=tuple(labels))


def _with_places(part: Part, arch: Arch) -> Part:
    """Return a part that can say where on its tooth each vertex lies."""
    if not len(part.tooth):
        return part
    words = np.full(len(part.vertices), "", dtype="<U60")
    for code in np.unique(part.tooth):
        own = part.tooth == code
        if code != NO_TOOTH:
            words[own] = region_names(crown_of(arch, int(code)), part.vertices[own])
    return replace(part, place=words)


def frame_at(casts: MountedCasts, pose: Floats, near: DistanceMap | None, limit_mm: float) -> Frame:
    """Return the frame in which the lower stands in a pose.

    Parameters
    ----------
    casts : MountedCasts
        What is shown.
    pose : ndarray, shape (4, 4)
        hinge_from_lower.
    near : DistanceMap or None
        Shortest distances there.
    limit_mm : float
        Up to which they were measured.
    """
    gaps = None if near is None else Gaps(near.upper_mm, near.lower_mm, limit_mm)
    return Frame(moves(casts, pose), gaps)


def moves(casts: MountedCasts, poses: Floats) -> Floats:
    """Return what moves the lower from MI to some poses (…, 4, 4)."""
    return np.asarray(poses @ inverse(casts.mi_pose))
