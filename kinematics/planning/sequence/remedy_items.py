"""What the search for the smallest change found, as items: one way a tooth, with the others."""

from collections.abc import Collection, Iterable, Iterator

from kinematics.planning.remedies.found import WAYS, Remedy, ToothRemedies
from kinematics.planning.sequence.ordering import Wanted
from kinematics.planning.sequence.steps import Amount, Item
from kinematics.planning.wording import length


def remedy_items(
    remedies: Iterable[ToothRemedies], replaced: Collection[int], cut: Collection[int]
) -> Iterator[Wanted]:
    """Yield one item a tooth for which a change was found or none helps.

    Parameters
    ----------
    remedies : iterable of ToothRemedies
        What was found for each.
    replaced : collection of int
        Replacement teeth and pontics: they are changed in the set-up.
    cut : collection of int
        Teeth that adjustments of the case cut already.
    """
    for tooth in remedies:
        if tooth.remedies:
            item = _item(tooth, tooth.tooth in cut)
            yield ("set-up" if tooth.tooth in replaced else "adjustment"), item


def cleared_teeth(remedies: Iterable[ToothRemedies]) -> frozenset[int]:
    """Return the teeth that a change was found for."""
    return frozenset(tooth.tooth for tooth in remedies if tooth.smallest is not None)


def _item(tooth: ToothRemedies, is_cut: bool) -> Item:
    ways = tuple(one for one in tooth.remedies if one.is_found and one.keeps_stops)
    smallest = tooth.smallest
    clear = f"clears it by {length(tooth.margin_mm)} in every excursion and keeps its stops"
    if smallest is None:
        text = f"No single change was found that {clear}: look at guidance or set-up as a whole."
    else:
        text = f"Smallest single change that {clear}: {WAYS[smallest.kind]}."
    cautions = [
        "each way is for this tooth alone: of two teeth that meet, one is changed, not both"
    ]
    if is_cut:
        cautions.insert(0, "an adjustment of this case cuts this tooth too: one of both, not both")
    return Item(
        teeth=(tooth.tooth,),
        where="advice",
        text=text,
        part="remedies",
        because="Found by search, each tried by a full run.",
        amounts=tuple(_amount(tooth, one) for one in ways),
        choices=tuple(WAYS[one.kind] for one in ways) if len(ways) > 1 else (),
        cautions=tuple(cautions),
        cuts=smallest is not None and bool(smallest.natural_cut),
    )


def _amount(tooth: ToothRemedies, remedy: Remedy) -> Amount:
    own = 0 if remedy.kind == "steepen" else tooth.tooth
    return Amount(
        WAYS[remedy.kind], remedy.amount, "deg" if remedy.unit == "deg" else "mm", tooth=own
    )
