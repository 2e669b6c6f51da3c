"""Where the marks of contacts stand in the window, and which shape each has."""

from dataclasses import dataclass

import numpy as np

from kinematics.contact.mounted import GUIDED_BY_TEETH
from kinematics.conventions import Floats
from kinematics.live import PoseAt
from scenes.movement_styles import MI, style_of
from scenes.phrases import role_of


@dataclass(frozen=True)
class ContactMarks:
    """Places (k, 3) in the hinge frame, mm, and the colour of all of them.

    Attributes
    ----------
    guides : ndarray
        The contact that holds the jaw: a large ball.
    touches : ndarray
        Contacts of the working side, or of both where neither works: balls.
    nonworking : ndarray
        Contacts of the nonworking side: cubes.
    colour : str
        That of the movement.
    """

    guides: Floats
    touches: Floats
    nonworking: Floats
    colour: str


def contact_marks(at: PoseAt) -> ContactMarks:
    """Return the marks of a pose."""
    patches = at.patches
    apart = np.array(
        [
            at.travel_mm > 0.0 and role_of(int(code), at.excursion) == "nonworking"
            for code in patches.tooth_upper
        ],
        dtype=bool,
    )
    first = at.closures.point[:1] if at.guide == GUIDED_BY_TEETH else np.empty((0, 3))
    return ContactMarks(
        guides=first[np.isfinite(first).all(axis=1)],
        touches=patches.centroid[~apart],
        nonworking=patches.centroid[apart],
        colour=(style_of(at.excursion) if at.travel_mm else MI).colour,
    )
