"""Numbers of teeth in the window, each before its crown from wherever one looks."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np
import pyvista
from vtkmodules.vtkRenderingCore import vtkBillboardTextActor3D

from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points
from scenes import colours
from scenes.scene import Scene
from scenes.view_cut import Cut

#: Height of numbers as a share of that of the window.
_LETTERS: Final = 0.021
#: So far before its crown a number stands, mm.
_BEFORE_MM: Final = 0.4
#: A plane that is seen at less than this share of its size is seen edge on; then numbers stand so
#: far from it, mm.
_EDGE_ON, _INSIDE_MM = 0.3, 1.5
_OFF_MM: Final = 2.5
#: So far before its place beside the arch, where gums of scans may reach.
_ABOVE_MM: Final = 12.0
#: From this share of the direction of sight along the vertical, numbers stand beside the arch.
_FROM_ABOVE: Final = 0.8


@dataclass(frozen=True)
class ToothNumber:
    """One number.

    Attributes
    ----------
    cast : str
        "upper" or "lower".
    beside : ndarray, shape (3,)
        Place outside the arch.
    crown : ndarray, shape (n, 3)
        Vertices of the tooth.
    actor : vtkBillboardTextActor3D
        What is drawn.
    """

    cast: str
    beside: Floats
    crown: Floats
    actor: vtkBillboardTextActor3D


def tooth_numbers(scene: Scene) -> Iterator[ToothNumber]:
    """Yield the numbers of all teeth of a scene."""
    for label in scene.labels:
        code = int(label.text)
        own = [part for part in scene.parts if len(part.tooth) and (part.tooth == code).any()]
        if own:
            crown = np.concatenate([part.vertices[part.tooth == code] for part in own])
            yield ToothNumber(own[0].cast, label.point, crown, _drawn(label.text))


def place_number(
    number: ToothNumber, towards: Floats, move: Floats, window_height: int, cut: Cut | None
) -> None:
    """Put a number where it is seen.

    Parameters
    ----------
    number : ToothNumber
        Of the upper or the lower.
    towards : ndarray, shape (3,)
        Direction of sight.
    move : ndarray, shape (4, 4)
        Moves its cast.
    window_height : int
        Pixels; numbers grow with it.
    cut : Cut or None
        Then only teeth that it meets have numbers; seen edge on, those that are left.
    """
    crown = move_points(move, number.crown)
    middle = crown.mean(axis=0)
    if abs(towards[2]) > _FROM_ABOVE:
        place = move_points(move, number.beside[None])[0] - _ABOVE_MM * towards
    else:
        if cut is not None:  # off the outlines of the chewing surfaces
            middle = middle + np.array([0.0, 0.0, _OFF_MM if number.cast == "upper" else -_OFF_MM])
        before_mm = float(((crown - middle) @ -towards).max()) + _BEFORE_MM
        place = middle - before_mm * towards
    number.actor.SetPosition(*place)
    number.actor.GetTextProperty().SetFontSize(round(_LETTERS * window_height))
    if cut is not None:
        depths = (crown - cut.place) @ cut.away
        if abs(towards @ cut.away) < _EDGE_ON:
            seen = (middle - cut.place) @ cut.away > _INSIDE_MM
        else:
            seen = depths.min() < 0.0 < depths.max()
        number.actor.SetVisibility(bool(seen))


def _drawn(text: str) -> vtkBillboardTextActor3D:
    actor = vtkBillboardTextActor3D()
    actor.SetInput(text)
    letters = actor.GetTextProperty()
    letters.SetColor(*pyvista.Color(colours.INK).float_rgb)
    letters.SetBold(True)
    letters.SetJustificationToCentered()
    letters.SetVerticalJustificationToCentered()
    return actor
