"""How teeth and implants give way in their sockets: along the axis and across it."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.load.links import Law, Model, Part

#: Along the axis: N/mm up to the knee and beyond it, and the knee, N. The knee and that there are
#: two phases: Picton, Arch Oral Biol 1963;8:109-118. Stiffness so that 20 N push a molar in by some
#: 37 micrometres, of the 25 to 100 that a tooth gives way: Kim, Oh, Misch & Wang, Clin Oral
#: Implants Res 2005;16:26-35 (its table from memory).
AXIAL_FIRST_N_PER_MM: Final = 175.0
AXIAL_N_PER_MM: Final = 1000.0
AXIAL_KNEE_N: Final = 3.5
#: Across it, mm at 5 N, by place from the midline (incisors, canine, premolars, molars): middles of
#: the ranges of Muehlemann's school (from memory).
LATERAL_MM_AT_5_N: Final = (0.11, 0.11, 0.07, 0.09, 0.09, 0.06, 0.06, 0.06)
LATERAL_KNEE_N: Final = 5.0
#: Beyond 5 N a tooth gives way less: how many times stiffer it is (chosen for this program).
LATERAL_STIFFENING: Final = 4.0
#: An implant gives way about a tenth as far along its axis and a third as far across it (the review
#: of 2005 named above, from memory), in one phase.
IMPLANT_AXIAL: Final = 10.0
IMPLANT_LATERAL: Final = 3.0
#: How far below the middle of the crown the root of a joined tooth is held a second time, mm, so
#: that it also resists tipping (chosen for this program: about a root's length).
ROOT_MM: Final = 12.0


@dataclass(frozen=True)
class Socket:
    """What holds one tooth.

    Attributes
    ----------
    axial, lateral : Law
        Along the axis, and in every direction across it.
    """

    axial: Law
    lateral: Law


def socket_of(code: int, implant: bool = False, two_phase: bool = True) -> Socket:
    """Return how a tooth is held, by its ISO 3950 number."""
    first = LATERAL_KNEE_N / LATERAL_MM_AT_5_N[code % 10 - 1]
    lateral = LATERAL_STIFFENING * first
    if implant:
        return Socket(Law(IMPLANT_AXIAL * AXIAL_N_PER_MM), Law(IMPLANT_LATERAL * lateral))
    if not two_phase:
        return Socket(Law(AXIAL_N_PER_MM), Law(lateral))
    return Socket(
        Law(AXIAL_N_PER_MM, AXIAL_FIRST_N_PER_MM, AXIAL_KNEE_N),
        Law(lateral, first, LATERAL_KNEE_N),
    )


def hold_tooth(
    model: Model, tooth: Part, jaw: Part, centre: Floats, root: Floats, socket: Socket
) -> tuple[int, ...]:
    """Hold a tooth that shifts without turning; return the numbers of its three links.

    Parameters
    ----------
    model : Model
        To which the links are added.
    tooth, jaw : Part
        The tooth, and what its socket is in.
    centre, root : ndarray, shape (3,)
        Middle of the crown, mm, and unit vector towards the root.
    socket : Socket
        How it is held.
    """
    return (
        model.link(tooth, jaw, centre, root, socket.axial),
        *(model.link(tooth, jaw, centre, across, socket.lateral) for across in across_axes(root)),
    )


def hold_joined(
    model: Model, unit: Part, jaw: Part, centre: Floats, root: Floats, socket: Socket
) -> tuple[int, ...]:
    """Hold a rigid unit by the root of one of its teeth, also against tipping; return its links."""
    law = socket.lateral
    half = Law(0.5 * law.stiffness_n_per_mm, 0.5 * law.first_n_per_mm, 0.5 * law.knee_n)
    return (
        model.link(unit, jaw, centre, root, socket.axial),
        *(
            model.link(unit, jaw, centre + depth * root, across, half)
            for depth in (0.0, ROOT_MM)
            for across in across_axes(root)
        ),
    )


def across_axes(axis: Floats) -> tuple[Floats, Floats]:
    """Return two unit vectors square to a unit vector and to each other, the first mostly ahead.

    Those of a mirrored axis are mirrored, up to their sign.
    """
    ahead = np.array([1.0, 0.0, 0.0] if abs(axis[0]) < 0.9 else [0.0, 0.0, 1.0])
    first = ahead - (ahead @ axis) * axis
    first /= np.linalg.norm(first)
    return first, np.cross(axis, first)
