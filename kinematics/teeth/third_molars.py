"""Third molars set up behind the second molars of one side and settled into MI.

All other teeth stay as they are, bit by bit: third molars erupt years after them, into what room is
left. They follow the arch curve and the occlusal sphere; each touches its second molar.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from kinematics.checks import NotConverged
from kinematics.conventions import Floats
from kinematics.teeth.arch_form import Placement, arch_contacts, place_tooth
from kinematics.teeth.crown_table import THIRD_MOLARS, CrownTable
from kinematics.teeth.meeting import Teeth
from kinematics.teeth.posterior_pairs import with_every_pair
from kinematics.teeth.proximal_contacts import CLOSE_TO_MM, neighbour_gap, proximal_sides
from kinematics.teeth.settling import Settled, natural_freedoms, settle
from kinematics.teeth.settling_programme import Freedom
from kinematics.teeth.standing_tooth import StandingTooth, standing_tooth

MOST_ROUNDS: Final = 15
#: Rounds with large steps: nothing but its table height says where a third molar begins.
WIDE_ROUNDS: Final = 8


def _behind(table: CrownTable, kind: str, second: Placement) -> Placement:
    """Return the frame of a third molar that touches the second molar in front of it.

    Raises
    ------
    NotConverged
        The contact stays open.
    """
    front = kind[0] + "7"
    contacts = arch_contacts(table, kind[0], 8)[7:]
    distal, mesial = proximal_sides(table, front)[1], proximal_sides(table, kind)[0]
    slide = table.set_up.slide[kind]
    for _ in range(MOST_ROUNDS):
        place = place_tooth(table, kind, contacts, slide)
        gap = neighbour_gap(second, distal, place, mesial)
        if abs(gap) <= CLOSE_TO_MM:
            return place
        slide -= gap
    raise NotConverged("closing the contact between second and third molar, mm", gap, MOST_ROUNDS)


def standing_third_molars(
    table: CrownTable, places: Mapping[str, Placement], by: Floats, edges_mm: Mapping[str, float]
) -> dict[str, StandingTooth]:
    """Return upper and lower third molar of the left side, before they settle.

    Parameters
    ----------
    table : CrownTable
        With the set-up that was reached.
    places : mapping of str to Placement
        Frames of the other teeth in the arch frame.
    by : ndarray, shape (3,)
        From the arch frame to the hinge frame, mm.
    edges_mm : mapping of str to float
        Triangle edge by arch, mm.

    Raises
    ------
    NotConverged
        No room behind a second molar.
    """
    return {
        kind: standing_tooth(
            table,
            kind,
            _behind(table, kind, places[kind[0] + "7"]).moved(by),
            edges_mm[kind[0]],
            front_gap_mm=0.0,  # no front tooth
        )
        for kind in THIRD_MOLARS
    }


def with_third_molars(settled: Settled, thirds: Teeth, box_mm: float, mi_pose: Floats) -> Settled:
    """Return a side with its third molars settled against each other and the second molars.

    Parameters
    ----------
    settled : Settled
        The other teeth in MI.
    thirds : mapping of str to StandingTooth
        See `standing_third_molars`.
    box_mm : float
        How far settled cusps may leave their height, see `natural_freedoms`.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.

    Raises
    ------
    NotConverged
        They find no stop.
    """
    among = frozenset(thirds)

    def freedoms(standing: Teeth) -> list[Freedom]:
        return natural_freedoms({k: t for k, t in standing.items() if k in among}, box_mm)

    teeth = {**settled.teeth, **thirds}
    found = settle(teeth, freedoms(teeth), mi_pose, WIDE_ROUNDS, among)
    found = with_every_pair(found, freedoms, mi_pose, among, among)
    return replace(found, meetings=settled.meetings + found.meetings)
