"""Lines of which the outlines of border movements are made, and their names."""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.borders.tracks import opening_without_teeth
from kinematics.contact.mounted import MountedCasts, incisal_points
from kinematics.contact.places import Places
from kinematics.conventions import LEFT, RIGHT, Floats
from kinematics.guidance.mandible import JawPositions, opened, place

Seen = Literal["side", "front", "above"]

CR_TO_MI: Final = "CR to MI on the teeth"
PROTRUSION: Final = "protrusion on the teeth"
HINGE_OPENING: Final = "hinge opening"
WITH_TRANSLATION: Final = "opening with translation"
PROTRUDED: Final = "protruded opening"
ON_TEETH: Final = {RIGHT: "right lateral on the teeth", LEFT: "left lateral on the teeth"}
OPENING: Final = {RIGHT: "right lateral opening", LEFT: "left lateral opening"}
ARCH_AHEAD: Final = "protrusion without teeth"
ARCH: Final = {RIGHT: "right lateral without teeth", LEFT: "left lateral without teeth"}
FORWARD: Final = {RIGHT: "right lateral to protrusion", LEFT: "left lateral to protrusion"}


@dataclass(frozen=True)
class BorderLine:
    """One part of an outline, n places in the order in which the jaw passes them.

    Attributes
    ----------
    name : str
        Which.
    seen : "side", "front" or "above"
        From where the outline is looked at that it belongs to.
    on_teeth : bool
        Whether teeth guide it.
    positions : JawPositions
        Condyles.
    opening_rad : ndarray, shape (n,)
        Opening.
    incisal_point : ndarray, shape (n, 3)
        Lower incisal point, hinge frame, mm.
    """

    name: str
    seen: Seen
    on_teeth: bool
    positions: JawPositions
    opening_rad: Floats
    incisal_point: Floats

    @property
    def poses(self) -> Floats:
        """hinge_from_lower, shape (n, 4, 4)."""
        return opened(self.positions, self.opening_rad)


def line_on_teeth(name: str, seen: Seen, places: Places) -> BorderLine:
    """Return a line through closed places."""
    return BorderLine(
        name, seen, True, places.positions, places.closure.opening_rad, places.incisal_point
    )


def line_without_teeth(
    casts: MountedCasts,
    name: str,
    seen: Seen,
    advances_mm: Floats,
    shift_mm: Floats,
    opening_rad: Floats | None = None,
) -> BorderLine:
    """Return a line without teeth through advances (n, 2); at no opening given, as without."""
    positions = place(casts.guidance, advances_mm[:, 0], advances_mm[:, 1], shift_mm)
    opening = opening_without_teeth(casts, positions) if opening_rad is None else opening_rad
    return BorderLine(
        name, seen, False, positions, opening, incisal_points(casts, positions, opening)
    )


def sideways_mm(points: Floats) -> Floats:
    """Return how far points (n, 3) lie to either side of the first, (n,), mm."""
    return np.asarray(np.abs(points[:, 1] - points[0, 1]))


def advances_mm(places: Places) -> Floats:
    """Return the advances (n, 2) of right and left condyle, mm."""
    at = places.positions
    return np.stack([at.advance_right_mm, at.advance_left_mm], axis=1)
