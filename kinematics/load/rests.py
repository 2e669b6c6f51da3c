"""How a base holds on to an abutment: rest, bracing across the axis, and guide plane."""

from dataclasses import dataclass
from typing import Final

from kinematics.conventions import Floats
from kinematics.load.links import Law, Model, Part
from kinematics.load.tooth_support import across_axes

#: Metal on enamel, and enamel on enamel: stiff beside everything else (chosen for this program).
CONTACT_N_PER_MM: Final = 20000.0
PUSHES: Final = Law(CONTACT_N_PER_MM, one_sided=True)


@dataclass(frozen=True)
class RestLinks:
    """Numbers of the links of one rest.

    Attributes
    ----------
    rest : int
        The rest itself, along the axis; it pushes only and may lift.
    braces : tuple of int
        Clasp arms and minor connector, across the axis.
    """

    rest: int
    braces: tuple[int, ...]


def add_rest(model: Model, base: Part, tooth: Part, point: Floats, press: Floats) -> RestLinks:
    """Let a base rest on a tooth, and brace it across its axis.

    A clasp that reaches more than half around a tooth, with its minor connector, holds it in every
    direction across its axis and lets it go along it (common practice). What a clasp holds against
    lifting is left out.

    Parameters
    ----------
    model : Model
        To which the links are added.
    base, tooth : Part
        The base, and its abutment.
    point, press : ndarray, shape (3,)
        Seat, mm, and unit vector in which the rest presses on the tooth.
    """
    return RestLinks(
        model.link(base, tooth, point, press, PUSHES),
        tuple(
            model.link(base, tooth, point, across, Law(CONTACT_N_PER_MM))
            for across in across_axes(press)
        ),
    )


def add_guide_plane(model: Model, base: Part, tooth: Part, point: Floats, press: Floats) -> int:
    """Let a base lie against the guide plane of a tooth; return the number of its link."""
    return model.link(base, tooth, point, press, PUSHES)
