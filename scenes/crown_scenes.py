"""The crowns of one side, each alone and seen from four sides, in rows as on a plate of a book."""

from typing import Final

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.conventions import Floats
from kinematics.geometry.meshes import part_of
from kinematics.tooth_codes import is_right
from scenes.arch_scenes import LOWER, UPPER
from scenes.scene import Note, Part, Scene, View
from scenes.tooth_names import tooth_name

#: From where the crowns of a row are seen, top row first.
SEEN_FROM: Final = ("occlusal,\nincisal", "facial", "lingual", "mesial")
#: Room of one crown across and upward: no crown of common size is larger.
_COLUMN_MM: Final = 12.6
_ROW_MM: Final = 12.2
_ROW_NAMES_MM: Final = 9.0
_COLUMN_NAMES_MM: Final = 7.5
_SCALE_ROW_MM: Final = 6.0
#: White at the top and at the right, so that names do not touch the edge.
_AROUND_MM: Final = 1.0


def crown_types_scene(upper: Arch, lower: Arch) -> Scene:
    """Describe every tooth of the patient's left side from four sides, all to one scale.

    Seen as when facing the patient: the midline is on the left, edges and cusps of the upper
    crowns point down and those of the lower up, and the facial side of an occlusal view lies on
    the outside of the mouth (upper: up, lower: down).

    Parameters
    ----------
    upper, lower : Arch
        At least two teeth each on the left side, of common size.
    """
    sides = {
        side: [(arch, tooth) for tooth in arch.teeth if not is_right(tooth.code)]
        for side, arch in ((UPPER, upper), (LOWER, lower))
    }
    block_mm = _COLUMN_NAMES_MM + len(SEEN_FROM) * _ROW_MM
    width = _ROW_NAMES_MM + max(map(len, sides.values())) * _COLUMN_MM + _AROUND_MM
    height = 2.0 * block_mm + _SCALE_ROW_MM + _AROUND_MM
    left, top = -0.5 * width, 0.5 * height
    parts: list[Part] = []
    notes: list[Note] = []
    for block, (side, teeth) in enumerate(sides.items()):
        under = top - _AROUND_MM - block * block_mm
        columns_at = [left + _ROW_NAMES_MM + (k + 0.5) * _COLUMN_MM for k in range(len(teeth))]
        rows_at = [under - _COLUMN_NAMES_MM - (k + 0.5) * _ROW_MM for k in range(len(SEEN_FROM))]
        notes += _names(side, [tooth for _, tooth in teeth], left, under, rows_at, columns_at)
        for (arch, tooth), x in zip(teeth, columns_at, strict=True):
            parts += _crown(arch, tooth, side, x, rows_at)
    view = _paper(width, height)
    return Scene(view, tuple(parts), notes=tuple(notes), scale_at=(0.0, -top + 1.2))


def _names(
    side: str, teeth: list[Tooth], left: float, top: float, rows: list[float], columns: list[float]
) -> list[Note]:
    """Name the rows of a block at its left and the columns at its top."""
    middle = left + 0.5 * _ROW_NAMES_MM
    names = [
        f"{side} " + tooth_name(tooth.code).removeprefix(f"{side} left ").replace(" ", "\n")
        for tooth in teeth
    ]
    return [
        *(Note(name, (middle, y + 1.0)) for name, y in zip(SEEN_FROM, rows, strict=True)),
        *(Note(name, (x, top - 0.4)) for name, x in zip(names, columns, strict=True)),
    ]


def _crown(arch: Arch, tooth: Tooth, side: str, x: float, rows_at: list[float]) -> list[Part]:
    """Return a crown turned four times, with its middle at (x, row)."""
    crown, _ = part_of(arch.mesh, arch.tooth_of_face == tooth.code)
    parts = []
    for (towards, up), y in zip(_looks(arch, tooth, side), rows_at, strict=True):
        seen = crown.vertices @ np.stack([np.cross(towards, up), up, -towards], axis=1)
        middle = 0.5 * (seen.min(axis=0) + seen.max(axis=0))
        moved = seen - middle + np.array([x, y, 0.0])
        parts.append(Part(f"{side} tooth", moved, crown.faces))
    return parts


def _looks(arch: Arch, tooth: Tooth, side: str) -> list[tuple[Floats, Floats]]:
    """Return direction of sight and what is up in the picture, for each row."""
    sign = 1.0 if side == UPPER else -1.0
    axis = tooth.long_axis
    centres = np.array([other.centre for other in arch.teeth])
    along = np.gradient(centres, axis=0)[[other.code for other in arch.teeth].index(tooth.code)]
    distal = along - (along @ axis) * axis
    distal /= np.linalg.norm(distal)
    facial = sign * np.cross(axis, distal)
    up = -sign * axis
    return [(-axis, sign * facial), (-facial, up), (facial, up), (distal, up)]


def _paper(width_mm: float, height_mm: float) -> View:
    """Look straight down on the plane in which the crowns are laid out."""
    return View(
        "crowns of the left side, each seen from four sides",
        towards=np.array([0.0, 0.0, -1.0]),
        up=np.array([0.0, 1.0, 0.0]),
        centre=np.zeros(3),
        width_mm=width_mm,
        height_mm=height_mm,
    )
