"""One description of a picture: parts, marks, labels and how it is looked at.

Writers draw its parts, in three dimensions (`stage`) or by the painter's method (`drawing2d`);
`annotation` lays out what lies over either. None of them computes anything of the trade, and this
description does not know where it came from.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

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

    Attributes
    ----------
    role : str
        What it is, for its colour.
    vertices : ndarray, shape (n, 3)
        Where it stands before anything moves.
    faces : ndarray, shape (m, 3)
        Triangles.
    around_teeth : bool
        Gums and base, which simplified drawings leave out.
    cast : "upper" or "lower"
        What it moves with.
    tooth : ndarray, shape (n,)
        ISO 3950 number of every vertex; empty around teeth.
    vertex_of : ndarray, shape (n,)
        Number of every vertex in the mesh of its arch, as gap maps count them; empty around teeth.
    place : ndarray of str, shape (n,)
        Where on its tooth every vertex lies, in words; empty where nobody points at it.
    paint : ndarray, shape (n, 3)
        Red, green and blue of every vertex, 0 to 1; empty where its role says the colour.
    """

    role: str
    vertices: Floats
    faces: Ints
    around_teeth: bool = False
    cast: str = "upper"
    tooth: Ints = field(default_factory=lambda: np.empty(0, dtype=np.int64))
    vertex_of: Ints = field(default_factory=lambda: np.empty(0, dtype=np.int64))
    place: NDArray[np.str_] = field(default_factory=lambda: np.empty(0, dtype=np.str_))
    paint: Floats = field(default_factory=lambda: np.empty((0, 3)))


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
    """A text at a point of the scene.

    Attributes
    ----------
    text : str
        What is written.
    point : ndarray, shape (3,)
        Where, mm.
    strong : bool
        For tooth numbers that need attention.
    on_crown : bool
        Whether the point lies on the crown, and not beyond it.
    """

    text: str
    point: Floats
    strong: bool = False
    on_crown: bool = False


@dataclass(frozen=True)
class Note:
    """A text at a place of the picture, mm right of and above its middle."""

    text: str
    place: tuple[float, float]


@dataclass(frozen=True)
class Gaps:
    """How far every vertex is from the other arch, numbered as in the meshes of the arches.

    Attributes
    ----------
    upper_mm, lower_mm : ndarray, shape (u,) and (v,)
        Shortest distance, mm; inf beyond the limit.
    limit_mm : float
        Distance up to which is measured; where the colours end.
    """

    upper_mm: Floats
    lower_mm: Floats
    limit_mm: float


@dataclass(frozen=True)
class Frame:
    """One moment of a scene that moves: its parts are the same in all of them.

    Attributes
    ----------
    move : ndarray, shape (4, 4)
        Moves the parts of the lower from where the scene has them.
    gaps : Gaps or None
        What the teeth are coloured by; None: they have the colours of their roles.
    """

    move: Floats
    gaps: Gaps | None = None


@dataclass(frozen=True)
class Scene:
    """Everything a writer needs for one picture, or for every frame of a moving one.

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
