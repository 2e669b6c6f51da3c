"""Both arches side by side, leaning towards the viewer, with the marks of every main excursion."""

from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.checkup_result import Checkup
from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points, pose_of, rotation_about
from scenes.arch_scenes import (
    LOWER,
    UPPER,
    arch_parts,
    cast_vertices,
    crown_vertices,
    excursion_marks,
    stop_marks,
    tooth_labels,
)
from scenes.scene import Label, Marks, Note, Part, Scene, View

#: How far each arch is turned towards the viewer, from the side view of a closed mouth.
_TURN_RAD: Final = np.radians(64.0)
#: Room for the tooth numbers around the crowns, and around and between whole casts.
_AROUND_CROWNS_MM: Final = 7.5
_AROUND_MM: Final = 1.0
_BETWEEN_MM: Final = 8.0
#: Excursions with their marks in this picture.
_SHOWN: Final = ("protrusion", "right lateral", "left lateral")


def mouth_scene(
    upper: Arch, lower: Arch, replacement_teeth: tuple[int, ...], below_mm: float = 0.0
) -> Scene:
    """Describe both arches as when looking into an open mouth, with tooth numbers.

    Parameters
    ----------
    upper, lower : Arch
        What is shown; the lower in lower coordinates.
    replacement_teeth : tuple of int
        Drawn in a colour of their own.
    below_mm : float
        Room at the bottom, for a legend.
    """
    parts: list[Part] = []
    labels: list[Label] = []
    notes: list[Note] = []
    for side, arch in ((UPPER, upper), (LOWER, lower)):
        pose = _leaning(arch, side)
        moved = [
            replace(part, vertices=move_points(pose, part.vertices))
            for part in arch_parts(arch, side, replacement_teeth)
        ]
        parts += moved
        labels += _labels(arch, pose, replacement_teeth)
        notes += _notes(side, pose, moved, 0.5 * below_mm)
    size = 2.0 * np.abs(np.concatenate([_corners(part) for part in parts])).max(axis=0)
    view = _front_view(
        float(np.ceil(size[1])),
        float(np.ceil(size[2])) + below_mm,
        0.5 * below_mm,
    )
    return Scene(
        view,
        tuple(parts),
        labels=tuple(labels),
        notes=tuple(notes),
        scale_at=(4.0, 0.5 * below_mm - 0.5 * float(size[2]) + 2.5),
    )


def _corners(part: Part) -> Floats:
    """Return the corners (2, 3) of a box that holds a part and what stands around it."""
    around = _AROUND_MM if part.around_teeth else _AROUND_CROWNS_MM
    return np.stack([part.vertices.min(axis=0) - around, part.vertices.max(axis=0) + around])


def mouth_marks(checkup: Checkup) -> tuple[Marks, ...]:
    """Return the stops and the contacts of the main excursions, as they lie in that scene."""
    marks: list[Marks] = []
    for side, arch in ((UPPER, checkup.upper), (LOWER, checkup.lower)):
        pose = _leaning(arch, side)
        own = (*stop_marks(checkup.stops, checkup.mi_pose, side), *_shown_marks(checkup, side))
        marks += [replace(group, points=move_points(pose, group.points)) for group in own]
    return tuple(marks)


def _shown_marks(checkup: Checkup, side: str) -> list[Marks]:
    return [
        group
        for sweep in checkup.sweeps
        if sweep.excursion.start == "MI" and sweep.excursion.name in _SHOWN
        for group in excursion_marks(sweep, side)
    ]


def _labels(arch: Arch, pose: Floats, replacement_teeth: tuple[int, ...]) -> list[Label]:
    """Return the tooth numbers, placed as the leaning arch is seen."""
    front = _front_view(1.0, 1.0, 0.0)
    back = pose[:3, :3].T
    seen = replace(front, towards=back @ front.towards, up=back @ front.up)
    return [
        replace(label, point=move_points(pose, label.point[None])[0])
        for label in tooth_labels(arch, seen, replacement_teeth)
    ]


def _notes(side: str, pose: Floats, parts: list[Part], raised_mm: float) -> list[Note]:
    """Name the arch and the sides of the patient inside the arch."""
    reach = np.concatenate([part.vertices for part in parts])
    high, back = reach[:, 2].max(), -1.0 if side == UPPER else 1.0
    middle, low = float(pose[1, 3]), back * 0.62 * float(high) + raised_mm
    return [
        Note(f"{side} arch", (middle, raised_mm)),
        Note("patient's\nright", (middle - 7.8, low)),
        Note("patient's\nleft", (middle + 7.8, low)),
    ]


def _front_view(width_mm: float, height_mm: float, down_mm: float) -> View:
    """Look at the patient from in front: the patient's right is on the left of the picture."""
    return View(
        "both arches, as when looking into an open mouth",
        towards=np.array([-1.0, 0.0, 0.0]),
        up=np.array([0.0, 0.0, 1.0]),
        centre=np.array([0.0, 0.0, -down_mm]),
        width_mm=width_mm,
        height_mm=height_mm,
    )


def _leaning(arch: Arch, side: str) -> Floats:
    """Return the pose that turns an arch's chewing surfaces to the viewer, left or right."""
    sign = 1.0 if side == UPPER else -1.0
    turn = rotation_about(np.array([0.0, -sign, 0.0]), _TURN_RAD)
    turned, crowns = cast_vertices(arch) @ turn.T, crown_vertices(arch) @ turn.T
    low, high = turned.min(axis=0), turned.max(axis=0)
    middle = 0.5 * (low + high)
    wide = max(high[1] - low[1], float(np.ptp(crowns[:, 1])) + _AROUND_CROWNS_MM)
    aside = 0.5 * (_BETWEEN_MM + wide)
    return pose_of(turn, np.array([-middle[0], -sign * aside, -middle[2]]))
