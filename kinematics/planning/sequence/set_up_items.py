"""Replacement teeth as items: which, how far back, by which scheme, and what is to clear."""

import math
from collections.abc import Iterable, Iterator, Sequence

from kinematics.planning.extent import Extent
from kinematics.planning.extent_words import unmet_words, why_not_words
from kinematics.planning.given_marks import excursion_named
from kinematics.planning.joined_teeth import Bridge
from kinematics.planning.judging import DentureBase
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.sequence.steps import Amount, Item
from kinematics.planning.wording import enumeration, excursion_words, length, sentence

_MI_ONLY = "contacts only in MI"


def set_up_items(
    bases: Iterable[DentureBase],
    bridges: Iterable[Bridge],
    extents: Sequence[Extent],
    contacts: Sequence[ReplacementContact],
    margin_mm: float,
) -> Iterator[Item]:
    """Yield base by base how far back its teeth go and its scheme, then every tooth to clear.

    Parameters
    ----------
    bases, bridges : iterable of DentureBase, of Bridge
        What carries replacement teeth.
    extents : sequence of Extent
        How far back those of bases must go.
    contacts : sequence of ReplacementContact
        What replacement teeth do in excursions.
    margin_mm : float
        What they are to clear by.
    """
    by_name = {extent.base: extent for extent in extents}
    for base in bases:
        yield _base(base, by_name.get(base.name), margin_mm)
        yield from _to_clear(base, contacts, margin_mm)
    for bridge in bridges:
        yield Item(
            teeth=bridge.pontics,
            where=f"bridge '{bridge.name}'",
            text="Wax its pontics against the mounted casts.",
            part="replacement teeth",
            cautions=("leave this out where the bridge is in the mouth already",),
            base=bridge.name,
        )


def _base(base: DentureBase, extent: Extent | None, margin_mm: float) -> Item:
    amounts: tuple[Amount, ...] = ()
    if base.scheme == _MI_ONLY:
        amounts = (Amount("to clear in excursions by more than", margin_mm),)
    return Item(
        teeth=base.teeth,
        where=f"base '{base.name}'",
        text=sentence(f"set {'it' if len(base.teeth) == 1 else 'them'} up; scheme: {base.scheme}"),
        part="set-up lengths",
        because="" if extent is None else sentence(_how_far(extent)),
        amounts=amounts,
        cautions=() if extent is None else tuple(_left(extent)),
        base=base.name,
    )


def _how_far(extent: Extent) -> str:
    """Say how far back the teeth of a base go, as stops tell it."""
    if not extent.is_told_by_stops:
        return "how far back is told by balance, hold or looks here, not by stops"
    shortest = extent.shortest
    if shortest is None:
        off = extent.best_off_ridge
        teeth = enumeration(off.teeth) or "no tooth"
        return f"without a tooth on the ascending ridge {teeth}; then {why_not_words(extent, off)}"
    if not shortest.dropped:
        return f"as far back as {enumeration(extent.full.teeth[-1:])}: stops ask for all of them"
    if not shortest.teeth:
        return "stops ask for none of them; chewing and looks may"
    return f"as far as stops go, {enumeration(shortest.teeth)} would be enough"


def _left(extent: Extent) -> Iterator[str]:
    unmet = unmet_words(extent)
    if unmet:
        yield unmet
    for further in extent.further:
        holds = enumeration(further.holds)
        yield f"one more tooth, {further.tooth}, would stand opposite {holds}, told by place alone"


def _to_clear(
    base: DentureBase, contacts: Sequence[ReplacementContact], margin_mm: float
) -> Iterator[Item]:
    against: dict[int, list[ReplacementContact]] = {}
    for contact in contacts:
        if contact.base == base.name and contact.standing == "against its scheme":
            against.setdefault(contact.tooth, []).append(contact)
    for tooth, own in sorted(against.items()):
        yield _clear(base, tooth, own, margin_mm)


def _clear(
    base: DentureBase, tooth: int, own: Sequence[ReplacementContact], margin_mm: float
) -> Item:
    opponents = enumeration(sorted({contact.opponent for contact in own}))
    done = f"clear {opponents} by more than {length(margin_mm)}, keeping its stops in MI"
    return Item(
        teeth=(tooth,),
        where=f"base '{base.name}'",
        text=sentence(done),
        part="replacement teeth",
        because=_against_words(own),
        amounts=tuple(_clear_amounts(tooth, own)),
        base=base.name,
    )


def _against_words(own: Sequence[ReplacementContact]) -> str:
    """Return in which movements a tooth touches, and in which others it comes near."""
    touched = dict.fromkeys(_movement(item.excursion) for item in own if item.touches)
    every = dict.fromkeys(_movement(item.excursion) for item in own)
    near = [movement for movement in every if movement not in touched]
    told = [f"touches in {enumeration(touched)}"] if touched else []
    told += [f"comes near in {enumeration(near)}"] if near else []
    return f"Against its scheme it {' and '.join(told)}."


def _movement(label: str) -> str:
    name = label.removesuffix(" from CR")
    from_cr = " from CR" if name != label else ""
    words = name if name == "retrusion" else excursion_words(excursion_named(name))
    return f"{words}{from_cr}"


def _clear_amounts(tooth: int, own: Sequence[ReplacementContact]) -> Iterator[Amount]:
    heights = [item.height_mm for item in own if item.touches and math.isfinite(item.height_mm)]
    if max(heights, default=0.0) > 0.0:
        yield Amount("holds the other teeth open by up to", max(heights), tooth=tooth)
    gaps = [item.least_gap_mm for item in own if not item.touches]
    if gaps:
        yield Amount("comes as near as", min(gaps), tooth=tooth)
