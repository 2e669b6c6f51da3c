"""Crowns turned so that one side of each faces the eye, side by side in one picture."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh
from scenes.scene import Note, Part, Scene, View

#: Room of one crown across and upward, for names, and at the edge, mm.
_COLUMN_MM: Final = 13.0
_ROW_MM: Final = 12.6
_ROW_NAMES_MM: Final = 11.0
_COLUMN_NAMES_MM: Final = 5.0
_EDGE_MM: Final = 1.0


@dataclass(frozen=True)
class SideView:
    """One crown from one side, where it lies in the picture.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    axes : ndarray, shape (3, 2)
        What is right and what is up in the picture, in the coordinates of the arch.
    facing : ndarray, shape (3,)
        Unit, out of the picture.
    from_middle : ndarray, shape (2,)
        Added to a place of the crown, it gives the place in the picture, mm from its middle.
    middle : ndarray, shape (3,)
        Of the crown: what lies behind it is not seen.
    """

    tooth: int
    axes: Floats
    facing: Floats
    from_middle: Floats
    middle: Floats

    def place(self, points: Floats) -> Floats:
        """Return places (n, 2) in the picture of points (n, 3), mm from its middle."""
        return np.asarray(points @ self.axes + self.from_middle)


def turned_crown(
    tooth: int, crown: Mesh, up: Floats, towards: Floats, at: Floats
) -> tuple[Floats, SideView]:
    """Return the vertices (n, 3) of a crown as it is drawn, its middle at a place, and how.

    Parameters
    ----------
    tooth : int
        ISO 3950 number.
    crown : Mesh
        Its surface.
    up : ndarray, shape (3,)
        What is up in the picture, a unit vector.
    towards : ndarray, shape (3,)
        What faces the eye, as far as it is square to that.
    at : ndarray, shape (2,)
        Where its middle lies, mm from that of the picture.
    """
    facing = towards - (towards @ up) * up
    facing /= np.linalg.norm(facing)
    right = np.cross(up, facing)
    seen = crown.vertices @ np.stack([right, up, facing], axis=1)
    middle = 0.5 * (seen.min(axis=0) + seen.max(axis=0))
    centre = 0.5 * (crown.vertices.min(axis=0) + crown.vertices.max(axis=0))
    axes = np.stack([right, up], axis=1)
    view = SideView(tooth, axes, facing, at - middle[:2], centre)
    return seen - middle + np.array([*at, 0.0]), view


@dataclass(frozen=True)
class Grid:
    """Places of crowns in a picture: a column for each, a row for each side.

    Attributes
    ----------
    columns, rows : sequence of str
        What stands above each column, and beside each row.
    """

    columns: Sequence[str]
    rows: Sequence[str]

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height of the picture."""
        return (
            _ROW_NAMES_MM + len(self.columns) * _COLUMN_MM + _EDGE_MM,
            _COLUMN_NAMES_MM + len(self.rows) * _ROW_MM + _EDGE_MM,
        )

    def at(self, column: int, row: int) -> Floats:
        """Return the middle (2,) of a place, mm from that of the picture."""
        width, height = self.size_mm
        across = _ROW_NAMES_MM + (column + 0.5) * _COLUMN_MM - 0.5 * width
        return np.array([across, 0.5 * height - _COLUMN_NAMES_MM - (row + 0.5) * _ROW_MM])

    def scene(self, name: str, parts: Sequence[Part]) -> Scene:
        """Return the picture of some parts, with the names of columns and rows."""
        width, height = self.size_mm
        beside = 0.5 * (_ROW_NAMES_MM - width)
        notes = [Note(row, (beside, self.at(0, k)[1] + 1.5)) for k, row in enumerate(self.rows)]
        notes += [
            Note(column, (self.at(k, 0)[0], 0.5 * height - 0.6))
            for k, column in enumerate(self.columns)
        ]
        view = View(
            name,
            towards=np.array([0.0, 0.0, -1.0]),
            up=np.array([0.0, 1.0, 0.0]),
            centre=np.zeros(3),
            width_mm=width,
            height_mm=height,
        )
        return Scene(view, tuple(parts), notes=tuple(notes))
