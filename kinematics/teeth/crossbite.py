"""Back teeth in crossbite: upper ones stand inside, lower ones outside, and supporting cusps swap.

The upper tooth is moved and leaned to the palate, the lower one to the cheek, by a cusp's width
together; the buccal cusps of the upper and the lingual cusps of the lower are then the ones that
rest in fossae (Glossary of Prosthodontic Terms: reverse articulation). Teeth in front of them stay
where they are; those moved, and those behind them, are slid along the arch until all touch again.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from kinematics.teeth.arch_form import Placement
from kinematics.teeth.crown_table import KINDS, CrownTable, PosteriorForm
from kinematics.teeth.meeting import Teeth
from kinematics.teeth.proximal_contacts import closed_slides, proximal_sides
from kinematics.teeth.settling_programme import LIFT, Freedom

#: How far each tooth of a pair is moved across the arch, mm, and leaned, degrees. Together they
#: bring the upper buccal cusp from outside the lower buccal one into the fossa; tuned by us.
UPPER_INWARD_MM: Final = 3.2
LOWER_OUTWARD_MM: Final = 3.0
LEAN_DEG: Final = 12.0
#: How far such a tooth may rise or sink until it meets, mm, and what that costs per mm.
RISE_MM: Final = 2.0
RISE_COST: Final = 0.3


def in_crossbite(
    table: CrownTable, places: Mapping[str, Placement], numbers: frozenset[int]
) -> tuple[CrownTable, dict[str, Placement]]:
    """Return table and frames of the left side with some pairs of back teeth in crossbite.

    Parameters
    ----------
    table : CrownTable
        With the set-up that was reached.
    places : mapping of str to Placement
        Frames of the teeth in the arch frame, by crown type.
    numbers : frozenset of int
        Places from the midline, 5 to 7, of the pairs in crossbite.

    Raises
    ------
    NotConverged
        Neighbours do not come to touch.
    """
    if not numbers:
        return table, dict(places)
    set_up = table.set_up
    torque, offset = dict(set_up.torque), dict(set_up.buccal_offset)
    for kind in _kinds(numbers):
        upper = kind[0] == "U"
        torque[kind] = torque.get(kind, 0.0) + (-LEAN_DEG if upper else LEAN_DEG)
        offset[kind] = offset.get(kind, 0.0) + (-UPPER_INWARD_MM if upper else LOWER_OUTWARD_MM)
    posterior = {
        kind: _swapped(form) if kind in _kinds(numbers) else form
        for kind, form in table.posterior.items()
    }
    set_up = replace(set_up, torque=torque, buccal_offset=offset)
    table = replace(table, posterior=posterior, set_up=set_up)
    slides, places = closed_slides(table, {kind: proximal_sides(table, kind) for kind in KINDS})
    return replace(table, set_up=replace(set_up, slide=slides)), places


def crossbite_freedoms(teeth: Teeth, numbers: frozenset[int]) -> list[Freedom]:
    """Return what lets the teeth in crossbite come to meet: they rise and sink as a whole."""
    return [
        Freedom(kind, LIFT, RISE_MM, RISE_MM, RISE_COST, RISE_COST)
        for kind in sorted(_kinds(numbers) & set(teeth))
    ]


def _kinds(numbers: frozenset[int]) -> frozenset[str]:
    return frozenset(f"{arch}{number}" for arch in "UL" for number in numbers)


def _swapped(form: PosteriorForm) -> PosteriorForm:
    """Return a crown whose other cusps support: buccal ones above, lingual ones below."""
    buccal = form.kind[0] == "U"
    supporting = tuple(cusp.name for cusp in form.cusps if (cusp.at[1] > 0.0) == buccal)
    return replace(form, supporting=supporting, settled=supporting)
