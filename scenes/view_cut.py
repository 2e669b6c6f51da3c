"""A plane that cuts both casts in the window: what stands before it goes, its outlines stay."""

from dataclasses import dataclass
from typing import Final

import numpy as np
import pyvista
from vtkmodules.vtkCommonDataModel import vtkPlane

from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse
from scenes.view_state import PLANES, ViewState

#: Colour and breadth, pixels, of the outline of each cast.
LINES: Final = {"upper": ("#0072B2", 2.5), "lower": ("#D55E00", 5.0)}


@dataclass(frozen=True)
class Cut:
    """A plane: a place on it, and its direction away from the eye; what lies that way is kept."""

    place: Floats
    away: Floats

    def nearer(self, way_mm: float) -> "Cut":
        """Return a plane some way nearer to the eye."""
        return Cut(self.place - way_mm * self.away, self.away)


def cut_of(state: ViewState, towards: Floats) -> Cut | None:
    """Return the plane that cuts, seen in some direction; None where nothing is cut."""
    if not state.plane:
        return None
    axis = PLANES[state.plane]
    away = np.zeros(3)
    away[axis] = 1.0 if towards[axis] >= 0.0 else -1.0
    return Cut(np.eye(3)[axis] * state.places_mm[axis], away)


def clip(actor: pyvista.Actor, cut: Cut | None) -> None:
    """Let an actor be drawn on the far side of a plane alone."""
    actor.mapper.RemoveAllClippingPlanes()
    if cut is not None:
        plane = vtkPlane()
        plane.SetOrigin(*cut.place)
        plane.SetNormal(*cut.away)
        actor.mapper.AddClippingPlane(plane)


def outline(surfaces: list[pyvista.PolyData], cut: Cut, move: Floats) -> pyvista.PolyData:
    """Return the lines in which a plane meets surfaces, in their own coordinates.

    Parameters
    ----------
    surfaces : list of PolyData
        As they stand before anything moves.
    cut : Cut
        In the hinge frame.
    move : ndarray, shape (4, 4)
        Brings the surfaces where they are seen.
    """
    back = inverse(move)
    place = back[:3, :3] @ cut.place + back[:3, 3]
    lines = [one.slice(normal=back[:3, :3] @ cut.away, origin=place) for one in surfaces]
    return pyvista.PolyData().append_polydata(*lines)
