"""Items of one tooth that contradict each other or belong together, told and put right."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from typing import Final

from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.sequence.ordering import Wanted
from kinematics.planning.sequence.steps import Item, StepKind
from kinematics.planning.wording import enumeration, length

#: What is shaped on a crown, not on the tooth below it.
_ON_CROWNS: Final[dict[StepKind, str]] = {
    "occlusal plane": "make its crown to the curve of the arch",
    "adjustment": "shape its crown so that it does not interfere",
    "guide planes": "shape the guide plane in its wax pattern",
    "clasp undercuts": "shape the undercut in its wax pattern",
    "rest seats": (
        "shape the rest seat in its wax pattern, and prepare the tooth deep enough for crown and"
        " rest"
    ),
}


def reconciled(
    wanted: Iterable[Wanted],
    crowned: Collection[int],
    opposite: Mapping[int, str],
    conditions: Iterable[ToothCondition],
) -> tuple[Wanted, ...]:
    """Return items without contradictions between them, and with what is to be known of others.

    What is cut on a tooth that gets a crown goes into the crown. Amounts of one tooth that two
    steps take off its table are not added up: both say so.

    Parameters
    ----------
    wanted : iterable of Wanted
        Items with their steps.
    crowned : collection of int
        Teeth that get a crown.
    opposite : mapping of int to str
        Teeth whose rest lacks room to a tooth that changes its height before, and what that means.
    conditions : iterable of ToothCondition
        How natural teeth stand.
    """
    moved = [_into_crown(kind, item, crowned) for kind, item in wanted]
    told = _told_of_both(moved)
    covered = {one.tooth: _cover(one) for one in conditions if _cover(one)}
    return tuple((kind, _with_cautions(kind, item, opposite, covered)) for kind, item in told)


def _into_crown(kind: StepKind, item: Item, crowned: Collection[int]) -> Wanted:
    if kind not in _ON_CROWNS or not item.teeth or not set(item.teeth) <= set(crowned):
        return kind, item
    note = "measured on the tooth as it is: do not cut this from the tooth as well"
    text = _ON_CROWNS[kind]
    return "crowns", replace(
        item,
        text=f"{text[0].upper()}{text[1:]}.",
        choices=(),
        cautions=(note,),
        cuts=False,
    )


def _told_of_both(wanted: list[Wanted]) -> list[Wanted]:
    """Say at both items where a tooth is brought into the plane and adjusted as well."""
    planes = _by_tooth(wanted, "occlusal plane")
    cuts = _by_tooth(wanted, "adjustment")
    both = planes.keys() & cuts.keys()
    told = []
    for kind, item in wanted:
        known = [code for code in item.teeth if code in both]
        if kind in ("occlusal plane", "adjustment") and known:
            words = [_both_words(planes[code], cuts[code], code) for code in known]
            item = replace(item, cautions=(*item.cautions, *words))
        told.append((kind, item))
    return told


def _by_tooth(wanted: list[Wanted], kind: StepKind) -> dict[int, list[Item]]:
    found: dict[int, list[Item]] = {}
    for own, item in wanted:
        if own == kind:
            for code in item.teeth:
                found.setdefault(code, []).append(item)
    return found


def _both_words(planes: list[Item], cuts: list[Item], code: int) -> str:
    plane, cut = _most_mm(planes, code), _most_mm(cuts, code)
    if not any(item.cuts for item in planes):
        return (
            f"{code} is to be built up by {length(plane)} and adjusted by {length(cut)}: that"
            " contradicts; decide on its height first"
        )
    return (
        f"{code} is brought down ({length(plane)}) and adjusted ({length(cut)}): do not add both"
        f" up; bring it down first, measure again, and take in all about the greater,"
        f" {length(max(plane, cut))}"
    )


def _most_mm(items: list[Item], code: int) -> float:
    return max(
        (
            amount.value
            for item in items
            for amount in item.amounts
            if amount.unit == "mm" and amount.tooth in (code, 0)
        ),
        default=0.0,
    )


def _with_cautions(
    kind: StepKind, item: Item, opposite: Mapping[int, str], covered: Mapping[int, str]
) -> Item:
    more = []
    if kind in ("rest seats", "crowns"):
        more += [
            opposite[code] for code in item.teeth if code in opposite and "rest seat" in item.where
        ]
    if item.cuts and kind != "settle":
        more += [
            f"{code} {covered[code]}: no enamel is cut there; a new crown may be better"
            for code in item.teeth
            if code in covered
        ]
    return replace(item, cautions=(*item.cautions, *more)) if more else item


def _cover(condition: ToothCondition) -> str:
    if condition.implant:
        return "stands on an implant"
    return "bears a crown" if condition.crown else ""


def decisions(wanted: Iterable[Wanted]) -> str:
    """Return for what the clinician has to choose, tooth by tooth; empty where nothing is open."""
    told = [
        f"{enumeration(item.teeth)} ({item.where})" if item.where else enumeration(item.teeth)
        for _, item in wanted
        if item.choices
    ]
    return enumeration(dict.fromkeys(told))
