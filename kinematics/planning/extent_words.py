"""Set-ups of a denture base in words: which teeth, what they leave, and why that is not enough."""

import math
from typing import Final

from kinematics.planning.extent import ITS_IMPLANT, Extent, FurtherTooth, SetUp
from kinematics.planning.wording import enumeration, length

#: Below this the jaw closes no further that could be told, mm.
NO_FURTHER_MM: Final = 0.0005


def teeth_words(item: SetUp) -> str:
    """Return the teeth that stay."""
    return enumeration(item.teeth) or "none of them"


def why_not_words(extent: Extent, item: SetUp) -> str:
    """Return what keeps a set-up from being enough; empty where it is."""
    told = []
    left = extent.leaves_more(item)
    if left:
        whom = "it" if len(left) == 1 else "them"
        told.append(f"{enumeration(left)} would have no stop and nothing to hold {whom}")
    if math.isinf(item.closes_mm):
        told.append("no teeth would meet in MI")
    elif not item.keeps_height:
        told.append(f"MI would close further, by {length(item.closes_mm)} at the incisal point")
    told += [f"no back teeth of the {side} side would meet" for side in item.bare_sides]
    if item.on_ridge:
        would = "would stand on the ascending ridge"
        told.append(f"{enumeration(item.on_ridge)} {would}")
    return enumeration(told)


def longer_words(extent: Extent, enough: SetUp) -> str:
    """Return that fewer teeth than a base has are enough, and what they leave."""
    base = f"base '{extent.base}' ({enumeration(extent.full.teeth)})"
    which = f"stops ask for no tooth of {base}"
    if enough.teeth:
        only = " alone" if len(enough.teeth) == 1 else ""
        which = f"as far as stops go, {teeth_words(enough)}{only} would be enough on {base}"
    more = "chewing and looks may ask for more"
    if extent.end == "tooth-bounded":
        more = "chewing, looks and neighbours that tip into the space may ask for more"
    unmet = f"; but {unmet_words(extent)}" if extent.unmet else ""
    without = enumeration(enough.dropped)
    return f"{which}: without {without} {_keeps_words(extent, enough)}{unmet}; {more}"


def needed_words(extent: Extent, fewer: SetUp) -> str:
    """Return that a base needs all its teeth, and what one fewer would leave."""
    whole = enumeration(extent.full.teeth)
    needs = f"all of {whole}" if len(extent.full.teeth) > 1 else whole
    without = f"without {enumeration(fewer.dropped)}"
    return f"base '{extent.base}' needs {needs}: {without}, {why_not_words(extent, fewer)}"


def further_words(extent: Extent, further: FurtherTooth) -> str:
    """Return what one more tooth behind a set-up would hold, and that this is told by place."""
    whom = enumeration(further.holds)
    nothing = "which has" if len(further.holds) == 1 else "which have"
    ridge = "how the ridge runs there is not known"
    if further.rise_deg is not None:
        ridge = "the ridge there is not steeper than the limit"
    return (
        f"one more tooth on base '{extent.base}', {further.tooth}, would stand opposite {whom},"
        f" {nothing} no stop and nothing else to hold"
        f" {'it' if len(further.holds) == 1 else 'them'}: by {length(further.facing_mm)} of its"
        f" {length(further.width_mm)} along the arch; {ridge}. This is told by place alone: no"
        " crown was set up there, so that height and contacts are to be tried"
    )


def held_words(item: SetUp) -> str:
    """Return which teeth without a stop are held, and by what; empty for none."""
    by_holder: dict[str, list[int]] = {}
    for tooth in item.held:
        by_holder.setdefault(tooth.held_by, []).append(tooth.tooth)
    return "; ".join(
        f"{enumeration(teeth)} by"
        f" {'their implants' if holder == ITS_IMPLANT and len(teeth) > 1 else holder}"
        for holder, teeth in by_holder.items()
    )


def unmet_words(extent: Extent) -> str:
    """Return that a base faces teeth which it does not meet as it is set up; empty for none."""
    if not extent.unmet:
        return ""
    meet, they = ("meets", "it is") if len(extent.unmet) == 1 else ("meet", "they are")
    return (
        f"{enumeration(extent.unmet)} {meet} nothing as it is set up: if {they} to, the teeth"
        " opposite are needed too"
    )


def _keeps_words(extent: Extent, item: SetUp) -> str:
    held = held_words(item)
    if not extent.opposing:
        return "no tooth is left without a stop, for none stands opposite"
    if item.left:
        return f"no further tooth is left without a stop{f' (held: {held})' if held else ''}"
    if held:
        return f"every opposing tooth still meets, or is held: {held}"
    return "every opposing tooth still meets"
