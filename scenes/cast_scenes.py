"""Casts seen from the front and the right: both slightly open, or one alone."""

from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points, opening_rotation
from scenes.arch_scenes import LOWER, UPPER, arch_parts
from scenes.scene import Part, Scene, View

#: How far both casts are opened about the hinge axis.
OPEN_RAD: Final = np.radians(11.0)
#: Direction of sight: from how far on the patient's right, and on one cast from how far above.
_FROM_RIGHT_RAD: Final = np.radians(38.0)
#: Both are seen a little from below, so that the flat top of the upper base stays out of sight.
_BOTH_FROM_ABOVE_RAD: Final = np.radians(-3.0)
_ONE_FROM_ABOVE_RAD: Final = np.radians(32.0)
_AROUND_MM: Final = 2.0


def open_casts_scene(
    upper: Arch, lower: Arch, mi_pose: Floats, replacement_teeth: tuple[int, ...]
) -> Scene:
    """Describe both casts slightly open, seen from the front and the patient's right.

    Parameters
    ----------
    upper, lower : Arch
        What is shown; the lower in lower coordinates.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI, from which the lower is opened.
    replacement_teeth : tuple of int
        Drawn in a colour of their own.
    """
    pose = mi_pose @ opening_rotation(OPEN_RAD)
    moved = [
        replace(part, vertices=move_points(pose, part.vertices))
        for part in arch_parts(lower, LOWER, replacement_teeth)
    ]
    parts = [*arch_parts(upper, UPPER, replacement_teeth), *moved]
    return _seen(parts, "both casts, slightly open", _BOTH_FROM_ABOVE_RAD, 1.0)


def one_cast_scene(arch: Arch, side: str, replacement_teeth: tuple[int, ...]) -> Scene:
    """Describe one cast standing on its base, seen from the front and the patient's right."""
    parts = arch_parts(arch, side, replacement_teeth)
    if side == LOWER:
        return _seen(list(parts), "lower cast", _ONE_FROM_ABOVE_RAD, 1.0)
    over = np.diag([1.0, -1.0, -1.0, 1.0])
    turned = [replace(part, vertices=move_points(over, part.vertices)) for part in parts]
    return _seen(turned, "upper cast, turned over", _ONE_FROM_ABOVE_RAD, -1.0)


def _seen(parts: list[Part], name: str, from_above_rad: float, side: float) -> Scene:
    """Return a scene in which all parts just have room; `side`: -1 to look from the other side."""
    level, steep = np.cos(from_above_rad), np.sin(from_above_rad)
    ahead, aside = np.cos(_FROM_RIGHT_RAD), side * np.sin(_FROM_RIGHT_RAD)
    towards = np.array([-level * ahead, level * aside, -steep])
    up = np.array([-steep * ahead, steep * aside, level])
    view = View(name, towards, up, np.zeros(3), 1.0, 1.0)
    points = np.concatenate([part.vertices for part in parts])
    seen = view.project(points)
    low, high = seen.min(axis=0), seen.max(axis=0)
    middle = 0.5 * (low + high)
    depth = view.depth(points)
    centre = middle[0] * view.right + middle[1] * up + 0.5 * (depth.min() + depth.max()) * towards
    width, height = np.ceil(high - low) + 2.0 * _AROUND_MM
    return Scene(
        replace(view, centre=centre, width_mm=float(width), height_mm=float(height)), tuple(parts)
    )
