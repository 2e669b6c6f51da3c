"""Where the marks of contacts stand in the window, and which shape each has."""

from dataclasses import dataclass

import numpy as np

from kinematics.contact.closure import MEETS
from kinematics.contact.mounted import GUIDED_BY_TEETH
from kinematics.conventions import Bools, Floats, Ints
from kinematics.live import PoseAt
from scenes.movement_styles import MI, style_of
from scenes.phrases import role_of


@dataclass(frozen=True)
class ContactMarks:
    """Places (k, 3) in the hinge frame, mm, and the colour of all of them.

    Attributes
    ----------
    touches : ndarray
        Contacts of the working side, or of both where neither works: balls.
    nonworking : ndarray
        Contacts of the nonworking side: cubes.
    guides, guides_nonworking : ndarray
        The contact that holds the jaw, where it does on that side: a large ball or cube.
    colour : str
        That of the movement.
    """

    touches: Floats
    nonworking: Floats
    guides: Floats
    guides_nonworking: Floats
    colour: str


def contact_marks(at: PoseAt) -> ContactMarks:
    """Return the marks of a pose."""
    patches, closed = at.patches, at.closures
    apart = _is_nonworking(at, patches.tooth_upper)
    holds = (closed.status[:1] == MEETS) & (at.guide == GUIDED_BY_TEETH)
    first_apart = _is_nonworking(at, closed.tooth_upper[:1])
    return ContactMarks(
        touches=patches.centroid[~apart],
        nonworking=patches.centroid[apart],
        guides=closed.point[:1][holds & ~first_apart],
        guides_nonworking=closed.point[:1][holds & first_apart],
        colour=(style_of(at.excursion) if at.travel_mm else MI).colour,
    )


def _is_nonworking(at: PoseAt, uppers: Ints) -> Bools:
    """Tell which upper teeth are on the nonworking side, once the jaw has gone anywhere."""
    roles = [role_of(int(code), at.excursion) if at.travel_mm else "" for code in uppers]
    return np.array([role == "nonworking" for role in roles], dtype=bool)
