"""How far back replacement teeth must go, as the report tells it: tables and sentences."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.planning.extent import BaseEnd, Extent, LoadAcross, OpposingTooth, SetUp
from kinematics.planning.extent_rules import EXTENT_RULES, OVER_ERUPTION_PUBLISHED
from kinematics.planning.extent_words import (
    NO_FURTHER_MM,
    further_words,
    held_words,
    unmet_words,
    why_not_words,
)
from kinematics.planning.given_marks import excursion_named
from kinematics.planning.set_up_loads import EVERY_MM
from kinematics.planning.wording import enumeration, excursion_words, sentence
from scenes import colours
from scenes.phrases import degrees, length, number
from scenes.report_tables import Table

_NONE: Final = "–"
_ENDS: Final[dict[BaseEnd, str]] = {
    "distal extension": "No tooth stands behind it (distal extension).",
    "tooth-bounded": "Teeth stand ahead of it and behind it (tooth-bounded).",
    "front teeth only": (
        "It carries front teeth alone: looks, speech and guidance decide about them."
    ),
    "complete denture": "No natural tooth stands in its arch (complete denture).",
}


@dataclass(frozen=True)
class BaseLengths:
    """What is said of one base.

    Attributes
    ----------
    title, lead : str
        Its name, and where it ends with what that means.
    opposing : Table
        Teeth opposite, their stops and what else holds them.
    set_ups : Table
        Every set-up compared.
    further : tuple of str
        What one more tooth behind it would hold.
    ridge : str
        How the ridge runs below its back teeth; empty where that is not known or not asked.
    """

    title: str
    lead: str
    opposing: Table
    set_ups: Table
    further: tuple[str, ...]
    ridge: str


@dataclass(frozen=True)
class SetUpLengths:
    """The section about the lengths of set-ups.

    Attributes
    ----------
    bases : tuple of BaseLengths
        One a denture base.
    rule_lead : str
        What the table of rules is.
    rules : Table
        How severe what is.
    published : tuple of str
        Published frequencies of over-eruption.
    """

    bases: tuple[BaseLengths, ...]
    rule_lead: str
    rules: Table
    published: tuple[str, ...]


def set_up_lengths(extents: Sequence[Extent]) -> SetUpLengths | None:
    """Return the section; None in a case without denture bases."""
    if not extents:
        return None
    return SetUpLengths(
        bases=tuple(_base(extent) for extent in extents),
        rule_lead="By this table, each row with its source.",
        rules=_rules(),
        published=OVER_ERUPTION_PUBLISHED,
    )


def _base(extent: Extent) -> BaseLengths:
    lead = _ENDS[extent.end]
    if extent.is_told_by_stops:
        shortest = extent.shortest
        lead += f" {_answer(extent, shortest)}"
    elif extent.end != "front teeth only":
        lead += " How far back its teeth go is told by balance and hold, not by stops."
    return BaseLengths(
        title=f"Base '{extent.base}': {enumeration(extent.full.teeth)}",
        lead=lead,
        opposing=_opposing(extent.opposing),
        set_ups=_set_ups(extent) if len(extent.set_ups) > 1 else Table((), ()),
        further=tuple(sentence(further_words(extent, item)) for item in extent.further),
        ridge=_ridge(extent),
    )


def _answer(extent: Extent, shortest: SetUp | None) -> str:
    if shortest is None:
        best = extent.best_off_ridge
        return (
            "No set-up that keeps off the ascending ridge does all that is asked; the nearest to"
            f" it: {enumeration(best.teeth) or 'no teeth'}."
        )
    if not shortest.teeth:
        told = "The shortest set-up that is enough: no teeth at all."
    else:
        told = f"The shortest set-up that is enough: {enumeration(shortest.teeth)}."
    return f"{told} But {unmet_words(extent)}." if extent.unmet else told


def _opposing(teeth: Sequence[OpposingTooth]) -> Table:
    head = (
        "tooth opposite",
        "stops in MI, as set up",
        "of these with this base",
        "stops when this base is left out",
        "held in another way, this base left out",
    )
    rows = tuple(
        (
            f"{tooth.tooth} (behind what the base faces)" if tooth.is_behind else str(tooth.tooth),
            str(tooth.stops),
            str(tooth.stops_with_base),
            str(tooth.stops_without_base),
            tooth.held_by or _NONE,
        )
        for tooth in teeth
    )
    return Table(head, rows)


def _set_ups(extent: Extent) -> Table:
    head: tuple[str, ...] = (
        "teeth that stay",
        "left without a stop, held by nothing",
        "without a stop, but held",
        "MI closes further, at the lower incisal point",
        "is it enough?",
    )
    loads = [item.load for item in extent.set_ups]
    if any(loads):
        head += (
            "largest force across its teeth beyond the start of an excursion, for 100 N of closing"
            f" (looked for every {EVERY_MM:g} mm, then in every pose near it), and its range there"
            " over force tilt and mucosa",
            "turning about the fulcrum line there, and its range",
        )
    rows = tuple(
        (
            enumeration(item.teeth) or "none",
            enumeration(item.left) or _NONE,
            held_words(item) or _NONE,
            _closes(item),
            _enough(extent, item),
            *(_load_cells(item.load) if any(loads) else ()),
        )
        for item in extent.set_ups
    )
    return Table(head, rows)


def _closes(item: SetUp) -> str:
    if math.isinf(item.closes_mm):
        return "no teeth meet"
    return length(item.closes_mm) if abs(item.closes_mm) >= NO_FURTHER_MM else "no"


def _enough(extent: Extent, item: SetUp) -> str:
    if not extent.is_told_by_stops:
        return "as set up" if item is extent.full else "not told by stops"
    whose = " (as set up)" if item is extent.full else ""
    if item is extent.shortest:
        return f"yes, the shortest{whose}"
    return (
        f"no: {why_not_words(extent, item)}{whose}" if not extent.is_enough(item) else f"yes{whose}"
    )


def _load_cells(load: LoadAcross | None) -> tuple[str, str]:
    if load is None:
        return _NONE, _NONE
    if not load.excursion:
        return "none", "none"
    turning = load.about_fulcrum_nmm
    where = f"{excursion_words(excursion_named(load.excursion))}, {number(load.travel_mm, 1)} mm"
    across = f"{number(load.across_n, 1)} N{_range(load.across_range_n, 1, 'N')}"
    told = "no such line"
    if turning is not None:
        told = f"{number(turning, 0)} N mm{_range(load.about_fulcrum_range_nmm, 0, 'N mm')}"
    unsure = "" if load.always_balanced else "; not over the whole range can supports balance it"
    return f"{across}, in {where}{unsure}", told


def _range(ends: tuple[float, float] | None, decimals: int, unit: str) -> str:
    if ends is None:
        return ""
    return f" ({number(ends[0], decimals)} to {number(ends[1], decimals)} {unit})"


def _ridge(extent: Extent) -> str:
    if not extent.slopes:
        return ""
    crest = (
        "as the case gives it" if extent.crest_given else "worked out below the teeth, not given"
    )
    told = enumeration(f"{item.tooth} {_slope(item.rise_deg)}" for item in extent.slopes)
    return (
        f"Crest of the ridge ({crest}) against the occlusal plane, towards the back, below {told};"
        " on a steeper slope than the limit (ascending_ridge_deg) no tooth is proposed."
    )


def _slope(rise_deg: float) -> str:
    shown = degrees(abs(rise_deg))
    if abs(rise_deg) < 0.5:
        return "level"
    return f"rising by {shown}" if rise_deg > 0.0 else f"falling by {shown}"


def _rules() -> Table:
    signs = colours.SEVERITY_SIGN
    rows = tuple(
        (f"{signs[rule.severity]} {rule.severity}", rule.kind, rule.text, rule.source)
        for rule in EXTENT_RULES
    )
    return Table(("severity", "what is found", "when", "source"), rows)
