"""What a film shows: casts, from where they are looked at, and its moments one after another."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.geometry.poses import move_points
from scenes.colours import Style
from scenes.movement_styles import MI
from scenes.scene import Part, Scene, View

#: Names of views, which way one looks and what is up (both in the hinge frame), and which casts are
#: seen: along the vertical the arch looked at alone, with its front teeth up.
_LOOKS: Final = {
    "front": ((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), ("upper", "lower"), "from in front"),
    "right": ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0), ("upper", "lower"), "from the patient's right"),
    "left": ((0.0, -1.0, 0.0), (0.0, 0.0, 1.0), ("upper", "lower"), "from the patient's left"),
    "back": ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), ("upper", "lower"), "from behind"),
    "upper": ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), ("upper",), "upper arch from below"),
    "lower": ((0.0, 0.0, -1.0), (1.0, 0.0, 0.0), ("lower",), "lower arch from above"),
}
#: Stands below every picture.
FOOT: Final = "Planning and teaching aid, not a medical device."
#: Room around the crowns, mm: gums are seen, stone is cut off by the edge of the picture.
_AROUND_MM: Final = 7.0


@dataclass(frozen=True)
class ShotView:
    """One panel: how the casts are looked at, and which of them are seen."""

    view: View
    casts: tuple[str, ...]


@dataclass(frozen=True)
class Shot:
    """What stays the same in every moment of a film.

    Attributes
    ----------
    scene : Scene
        Both casts in MI.
    views : tuple of ShotView
        One or two, from left to right.
    size : (int, int)
        Width and height of the picture, pixels; both even, as films want them.
    limit_mm : float
        Distance at which the colours end.
    title, foot : str
        Above and below everything.
    tracks : tuple of ndarray, shape (k, 3)
        Lines that moments with a point show, hinge frame, mm.
    """

    scene: Scene
    views: tuple[ShotView, ...]
    size: tuple[int, int]
    limit_mm: float
    title: str
    foot: str
    tracks: tuple[Floats, ...] = ()


#: How a mark is drawn: filled; with an empty middle; as an outline alone, for what is behind
#: others; four strokes around a place; and a line where a point goes.
MarkLook = Literal["filled", "hollow", "hidden", "strokes", "track"]


@dataclass(frozen=True)
class MomentMarks:
    """Where teeth touch at one moment.

    Attributes
    ----------
    movement : str
        Whose colour and shape the marks have: an excursion, or "MI".
    style : Style
        These.
    places : ndarray, shape (k, 3)
        Middles of contacts, hinge frame, mm.
    nonworking : ndarray, shape (k,)
        Whether they are on the nonworking side: drawn hollow.
    first : ndarray, shape (3,), or None
        Where teeth hold the jaw open; None where they do not, or in MI, where many do.
    keys : tuple of (MarkLook, str)
        What is explained, and in which words.
    """

    movement: str
    style: Style
    places: Floats
    nonworking: Bools
    first: Floats | None
    keys: tuple[tuple[MarkLook, str], ...]


NO_MARKS: Final = MomentMarks("MI", MI, np.empty((0, 3)), np.empty(0, dtype=bool), None, ())


@dataclass(frozen=True)
class Moment:
    """One picture of a film.

    Attributes
    ----------
    move : ndarray, shape (4, 4)
        Moves the lower from MI.
    upper_mm, lower_mm : ndarray, shape (u,) and (v,)
        How far every vertex is from the other arch.
    head, travel, told : str
        Which movement, how far it has come, and what is to be said there.
    marks : MomentMarks
        Where teeth touch.
    point : ndarray, shape (3,), or None
        Where the lower incisal point is, if its way is shown; hinge frame, mm.
    """

    move: Floats
    upper_mm: Floats
    lower_mm: Floats
    head: str
    travel: str
    told: str
    marks: MomentMarks = NO_MARKS
    point: Floats | None = None


def shot_views(scene: Scene, names: Sequence[str], moves: Floats) -> tuple[ShotView, ...]:
    """Return views that hold what they show in all moments.

    Parameters
    ----------
    scene : Scene
        Both casts in MI.
    names : sequence of str
        Of `VIEWS`.
    moves : ndarray, shape (n, 4, 4)
        Where the lower goes.
    """
    found = []
    for name in names:
        towards, up, casts, words = _LOOKS[name]
        shown = [part for part in scene.parts if part.cast in casts and not part.around_teeth]
        corners = np.concatenate([_reach(part, moves) for part in shown])
        low, high = corners.min(axis=0) - _AROUND_MM, corners.max(axis=0) + _AROUND_MM
        view = View(words, np.array(towards), np.array(up), 0.5 * (low + high), 1.0, 1.0)
        size = np.abs(view.project(np.stack([low, high]))).max(axis=0) * 2.0
        found.append(
            ShotView(replace(view, width_mm=float(size[0]), height_mm=float(size[1])), casts)
        )
    return tuple(found)


def _reach(part: Part, moves: Floats) -> Floats:
    """Return the outermost places of a part, wherever it goes."""
    ends = np.stack([part.vertices.min(axis=0), part.vertices.max(axis=0)])
    if part.cast == "upper":
        return ends
    corners = np.array([[ends[i, 0], ends[j, 1], ends[k, 2]] for i, j, k in np.ndindex(2, 2, 2)])
    return np.asarray(move_points(moves, corners)).reshape(-1, 3)
