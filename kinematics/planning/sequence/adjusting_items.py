"""Cuts that adjustments ask for, as items: natural teeth in the mouth, others in the set-up."""

from collections.abc import Collection, Iterable, Iterator

from kinematics.planning.adjusting.outcome import Outcome
from kinematics.planning.adjusting.planned import Planned, ToothCut
from kinematics.planning.sequence.ordering import Wanted
from kinematics.planning.sequence.plane_items import FOSSA_ENAMEL_MM
from kinematics.planning.sequence.steps import Amount, Item
from kinematics.planning.wording import enumeration, length, sentence


def adjusting_items(
    adjusted: Iterable[tuple[Planned, Outcome]],
    replaced: Collection[int],
    scatter_mm: float,
) -> Iterator[Wanted]:
    """Yield every cut, in the order of cutting, with the step in which it is made.

    Parameters
    ----------
    adjusted : iterable of (Planned, Outcome)
        Adjustments of a case, in the order in which they are made.
    replaced : collection of int
        Replacement teeth and pontics: they are adjusted on the articulator.
    scatter_mm : float
        Scatter of the records; 0 where it is not known.
    """
    for planned, outcome in adjusted:
        for cut in planned.cuts:
            in_set_up = cut.tooth in replaced
            item = _item(planned, outcome, cut, scatter_mm, natural=not in_set_up)
            yield ("set-up" if in_set_up else "adjustment"), item


def _item(
    planned: Planned, outcome: Outcome, cut: ToothCut, scatter_mm: float, *, natural: bool
) -> Item:
    scatter = scatter_mm if scatter_mm > 0.0 else None
    amounts = (
        Amount("deepest, along the bite", cut.deepest_mm, plus_minus=scatter, tooth=cut.tooth),
        Amount("deepest, square to the surface", cut.deepest_square_mm, tooth=cut.tooth),
    )
    asked = planned.adjustment
    return Item(
        teeth=(cut.tooth,),
        where=cut.region,
        text=sentence(
            f"take off up to {length(cut.deepest_mm)}, deepest at the {cut.region}, against"
            f" {enumeration(cut.against)}"
        ),
        part="adjustments",
        because=f"Asked for: {enumeration(asked.teeth)}, “{asked.so_that}”.",
        amounts=amounts,
        cautions=tuple(_cautions(planned, outcome, cut, natural=natural)),
        cuts=natural,
    )


def _cautions(planned: Planned, outcome: Outcome, cut: ToothCut, *, natural: bool) -> Iterator[str]:
    if not outcome.is_reached:
        yield "the aim is not reached by this; see why before anything is cut"
    if outcome.stops_lost:
        lost = enumeration(f"{upper}/{lower}" for upper, lower in outcome.stops_lost)
        yield f"stops in MI are lost by this adjustment: {lost}"
    if outcome.stops_fewer:
        fewer = enumeration(one.words for one in outcome.stops_fewer)
        yield f"of their stops in MI, {fewer} after this adjustment"
    if natural and cut.deepest_square_mm > FOSSA_ENAMEL_MM:
        yield (
            f"{length(cut.deepest_square_mm)} square to the surface: in a fossa enamel may be only"
            f" {FOSSA_ENAMEL_MM:g} mm thick (textbooks, from memory; of people, not of this tooth)"
        )
    if planned.hinders:
        yield from planned.hinders
