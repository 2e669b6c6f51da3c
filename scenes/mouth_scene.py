"""Both arches in one picture, opened like a book, with the marks of every excursion."""

from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.casts.casts import NO_TOOTH, Arch
from kinematics.checkup import Checkup
from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points, pose_of, rotation_about
from scenes.scene import (
    LOWER,
    UPPER,
    Label,
    Marks,
    Note,
    Part,
    Scene,
    View,
    arch_parts,
    excursion_marks,
    stop_marks,
    tooth_labels,
)

#: How far each arch is turned towards the viewer, from the side view of a closed mouth.
_TURN_RAD: Final = np.radians(62.0)
#: Room between the two arches, and around both.
_BETWEEN_MM: Final = 4.0
_AROUND_MM: Final = 9.0
#: Excursions with their marks in this picture.
_SHOWN: Final = ("protrusion", "right lateral", "left lateral")


def mouth_scene(checkup: Checkup, replacement_teeth: tuple[int, ...]) -> Scene:
    """Describe both arches as when looking into an open mouth, with marks and tooth numbers."""
    parts: list[Part] = []
    marks: list[Marks] = []
    labels: list[Label] = []
    view = _front_view(1.0, 1.0)
    for side, arch in ((UPPER, checkup.upper), (LOWER, checkup.lower)):
        pose = _opened(arch, side)
        shown = [
            group
            for sweep in checkup.sweeps
            if sweep.excursion.start == "MI" and sweep.excursion.name in _SHOWN
            for group in excursion_marks(sweep, side)
        ]
        for part in arch_parts(arch, side, replacement_teeth):
            parts.append(replace(part, vertices=move_points(pose, part.vertices)))
        for group in (*stop_marks(checkup, side), *shown):
            marks.append(replace(group, points=move_points(pose, group.points)))
        turned = replace(
            view,
            towards=pose[:3, :3].T @ view.towards,
            up=pose[:3, :3].T @ view.up,
        )
        for label in tooth_labels(arch, turned, replacement_teeth):
            labels.append(replace(label, point=move_points(pose, label.point[None])[0]))
    corners = view.project(np.concatenate([part.vertices for part in parts]))
    size = corners.max(axis=0) - corners.min(axis=0) + 2.0 * _AROUND_MM
    view = _front_view(*(float(np.ceil(side)) for side in size))
    aside = 0.5 * view.width_mm - 2.0
    return Scene(
        view,
        tuple(parts),
        tuple(marks),
        tuple(labels),
        notes=(
            Note("patient's right", (-aside, 0.0), "left"),
            Note("patient's left", (aside, 0.0), "right"),
        ),
        scale_at=(0.0, -1.0),
    )


def _front_view(width_mm: float, height_mm: float) -> View:
    """Look at the patient from in front: the patient's right is on the left of the picture."""
    return View(
        "both arches, as when looking into an open mouth",
        towards=np.array([-1.0, 0.0, 0.0]),
        up=np.array([0.0, 0.0, 1.0]),
        centre=np.zeros(3),
        width_mm=width_mm,
        height_mm=height_mm,
    )


def _opened(arch: Arch, side: str) -> Floats:
    """Return the pose that turns an arch's chewing surfaces to the viewer, above or below."""
    sign = 1.0 if side == UPPER else -1.0
    turn = rotation_about(np.array([0.0, -sign, 0.0]), _TURN_RAD)
    teeth = arch.mesh.vertices[np.unique(arch.mesh.faces[arch.tooth_of_face != NO_TOOTH])]
    turned = teeth @ turn.T
    low, high = turned.min(axis=0), turned.max(axis=0)
    edge = low[2] if side == UPPER else high[2]
    middle = 0.5 * (low + high)
    return pose_of(turn, np.array([-middle[0], 0.0, sign * _BETWEEN_MM - edge]))
