"""How the joints support the jaw: across the condylar paths, and what holds it along them."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.load.links import SKULL, Law, Model, Part

#: Stiffness of a joint, N/mm (chosen for this program: stiff beside teeth, so that the joints keep
#: the condyles on their paths).
CONDYLE_N_PER_MM: Final = 2000.0

_SAME: Final = np.eye(3)


@dataclass(frozen=True)
class CondyleLinks:
    """Numbers of the links of one condyle.

    Attributes
    ----------
    against : int
        Against the slope of the eminence; it pushes only.
    sideways : int
        Across the path and level.
    along : int
        What muscles must hold along the path, so that the jaw does not slide home.
    """

    against: int
    sideways: int
    along: int


def support_condyle(
    model: Model, jaw: Part, centre: Floats, inclination_rad: float, jaw_from_hinge: Floats = _SAME
) -> CondyleLinks:
    """Support one condyle on its path.

    Parameters
    ----------
    model : Model
        To which the links are added.
    jaw : Part
        The lower jaw.
    centre : ndarray, shape (3,)
        Condyle centre, in the frame in which the jaw is told, mm.
    inclination_rad : float
        Slope of its path where it stands, downward ahead, to the reference plane.
    jaw_from_hinge : ndarray, shape (3, 3)
        Turns directions of the hinge frame into that frame; the same frame if not given.
    """
    cos, sin = np.cos(inclination_rad), np.sin(inclination_rad)
    ahead, up, left = np.array([[cos, 0.0, -sin], [sin, 0.0, cos], [0.0, 1.0, 0.0]]) @ (
        jaw_from_hinge.T
    )
    held = Law(CONDYLE_N_PER_MM)
    return CondyleLinks(
        against=model.link(jaw, SKULL, centre, up, Law(CONDYLE_N_PER_MM, one_sided=True)),
        sideways=model.link(jaw, SKULL, centre, left, held),
        along=model.link(jaw, SKULL, centre, ahead, held),
    )
