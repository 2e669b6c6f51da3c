"""One description of a picture: parts, marks, labels and how it is looked at.

Writers draw its parts, in three dimensions (`stage`) or by the painter's method (`drawing2d`);
`annotation` lays out what lies over either. None of them computes anything of the trade, and this
description does not know where it came from.
"""

from dataclasses import dataclass

import numpy as np

from kinematics.conventions import Bools, Floats, Ints
from scenes import colours


@dataclass(frozen=True)
class View:
    """A parallel projection with a fixed frame.

    Attributes
    ----------
    name : str
        What is seen, in words.
    towards, up : ndarray, shape (3,)
        Direction in which one looks, and what is up in the picture; unit, at right angles.
    centre : ndarray, shape (3,)
        Middle of the picture, mm.
    width_mm, height_mm : float
        Size of the frame.
    """

    name: str
    towards: Floats
    up: Floats
    centre: Floats
    width_mm: float
    height_mm: float

    @property
    def right(self) -> Floats:
        """Direction to the right of the picture."""
        return np.cross(self.towards, self.up)

    def project(self, points: Floats) -> Floats:
        """Return places in the picture (n, 2), mm to the right of and above its middle."""
        return (points - self.centre) @ np.stack([self.right, self.up], axis=1)

    def depth(self, points: Floats) -> Floats:
        """Return how far away points lie (n,), mm; greater is farther."""
        return np.asarray((points - self.centre) @ self.towards)


@dataclass(frozen=True)
class Part:
    """Triangles of one role, already in the coordinates of the scene, mm.

    `around_teeth`: gums and base, which simplified drawings leave out.
    """

    role: str
    vertices: Floats
    faces: Ints
    around_teeth: bool = False


@dataclass(frozen=True)
class Marks:
    """Contact marks of one meaning.

    Attributes
    ----------
    label : str
        What they are, for the legend.
    style : Style
        Colour and shape.
    filled : bool
        False: drawn hollow (nonworking side).
    points : ndarray, shape (k, 3)
        Places in the coordinates of the scene, mm.
    shaped : ndarray, shape (k,)
        True where the shape is drawn, False for the fine dots between.
    """

    label: str
    style: colours.Style
    filled: bool
    points: Floats
    shaped: Bools


@dataclass(frozen=True)
class Label:
    """A text at a point of the scene; `strong` for tooth numbers that need attention."""

    text: str
    point: Floats
    strong: bool = False


@dataclass(frozen=True)
class Note:
    """A text at a place of the picture, mm right of and above its middle."""

    text: str
    place: tuple[float, float]


@dataclass(frozen=True)
class Scene:
    """Everything a writer needs for one picture.

    Attributes
    ----------
    view : View
        How it is looked at.
    parts : tuple of Part
        Surfaces.
    marks : tuple of Marks
        Contact marks, the later ones on top.
    labels : tuple of Label
        Tooth numbers.
    notes : tuple of Note
        Other words in the picture.
    scale_at : tuple of float or None
        Where the middle of the scale line stands, mm from the middle of the picture.
    legend : bool
        Whether the kinds of marks are named at the bottom of the picture.
    """

    view: View
    parts: tuple[Part, ...]
    marks: tuple[Marks, ...] = ()
    labels: tuple[Label, ...] = ()
    notes: tuple[Note, ...] = ()
    scale_at: tuple[float, float] | None = None
    legend: bool = False
