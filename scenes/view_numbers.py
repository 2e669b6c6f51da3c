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

_POINTS: Final = 14
#: So far before its crown a number stands, mm.
_BEFORE_MM: Final = 0.4
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


def place_number(number: ToothNumber, towards: Floats, move: Floats, cut: Cut | None) -> None:
    """Put a number where it is seen.

    Parameters
    ----------
    number : ToothNumber
        Of the upper or the lower.
    towards : ndarray, shape (3,)
        Direction of sight.
    move : ndarray, shape (4, 4)
        Moves its cast.
    cut : Cut or None
        Then only teeth that it meets have numbers.
    """
    crown = move_points(move, number.crown)
    middle = crown.mean(axis=0)
    if abs(towards[2]) > _FROM_ABOVE:
        place = move_points(move, number.beside[None])[0]
    else:
        before_mm = float(((crown - middle) @ -towards).max()) + _BEFORE_MM
        place = middle - before_mm * towards
    number.actor.SetPosition(*place)
    if cut is not None:
        depths = (crown - cut.place) @ cut.away
        number.actor.SetVisibility(bool(depths.min() < 0.0 < depths.max()))


def _drawn(text: str) -> vtkBillboardTextActor3D:
    actor = vtkBillboardTextActor3D()
    actor.SetInput(text)
    letters = actor.GetTextProperty()
    letters.SetFontSize(_POINTS)
    letters.SetColor(*pyvista.Color(colours.INK).float_rgb)
    letters.SetBold(True)
    letters.SetJustificationToCentered()
    letters.SetVerticalJustificationToCentered()
    return actor
