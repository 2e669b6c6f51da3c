"""Which contacts stand in the way of the aim of an adjustment, and which teeth are cut for it."""

from collections.abc import Iterable, Sequence

from kinematics.contact.sweep import Sweep
from kinematics.planning.adjusting.cutting_rules import CuttingRule
from kinematics.planning.adjusting.high_contacts import (
    HighContact,
    high_contacts,
    tooth_to_cut,
)
from kinematics.planning.adjusting.settings import ONLY_GUIDE, Adjustment
from kinematics.planning.adjusting.wanted_paths import (
    excursions_wanted,
    guiding_pairs,
    mi_without,
    path_of_guides,
    path_without,
)
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.stops import Stop


def too_high(
    occlusion: Occlusion, sweeps: Sequence[Sweep], adjustment: Adjustment
) -> tuple[list[HighContact], list[str]]:
    """Return all contacts that stand in the way of the aim, and why it cannot be reached."""
    if adjustment.is_in_mi:
        return _high_in_mi(occlusion, sweeps[0], adjustment.teeth)
    found, hinders = [], []
    guides = guiding_pairs(occlusion, adjustment.teeth)
    for sweep in excursions_wanted(sweeps, adjustment.excursions):
        if adjustment.so_that == ONLY_GUIDE:
            path, lost = path_of_guides(occlusion, sweep, guides)
            in_the_way = frozenset(_pairs(occlusion)) - guides
        else:
            path, lost = path_without(occlusion, sweep, frozenset(adjustment.teeth))
            in_the_way = _pairs_of(occlusion, adjustment.teeth)
        if lost is not None:
            who = "the teeth named" if adjustment.so_that == ONLY_GUIDE else "no other teeth"
            meet = "do not meet" if adjustment.so_that == ONLY_GUIDE else "meet"
            hinders.append(
                f"in {path.words}, from {lost:.1f} mm of travel on, {who} {meet}: there"
                " is nothing to guide the jaw, and nothing was worked out there"
            )
        found += high_contacts(occlusion, path, in_the_way, adjustment.margin_mm)
    return found, hinders


def _high_in_mi(
    occlusion: Occlusion, sweep: Sweep, teeth: Sequence[int]
) -> tuple[list[HighContact], list[str]]:
    """Return contacts of some teeth that hold the jaw open in MI."""
    path = mi_without(occlusion, sweep, frozenset(teeth))
    if path is None:
        return [], ["in MI nothing else would meet: these teeth alone hold the jaw"]
    found = high_contacts(occlusion, path, _pairs_of(occlusion, teeth), 0.0)
    if not found:
        return [], ["none of these teeth is high in MI: others meet at least as early"]
    return found, []


def _pairs(occlusion: Occlusion) -> Iterable[Pair]:
    casts = occlusion.casts
    return ((upper, lower) for upper in casts.upper.codes for lower in casts.lower.codes)


def _pairs_of(occlusion: Occlusion, teeth: Sequence[int]) -> frozenset[Pair]:
    return frozenset(pair for pair in _pairs(occlusion) if not set(teeth).isdisjoint(pair))


def shared_out(
    occlusion: Occlusion,
    sweeps: Sequence[Sweep],
    stops: tuple[Stop, ...],
    adjustment: Adjustment,
    contacts: list[HighContact],
) -> dict[int, tuple[list[HighContact], list[CuttingRule]]]:
    """Return the high contacts of every tooth that is cut, with the rows of the table."""
    both: frozenset[Pair] = frozenset()
    if adjustment.is_in_mi and contacts:
        both = _also_in_excursions(occlusion, sweeps, contacts)
    shared: dict[int, tuple[list[HighContact], list[CuttingRule]]] = {}
    for one in contacts:
        code, rule = tooth_to_cut(occlusion, one, adjustment.cut, stops, both)
        own, rules = shared.setdefault(code, ([], []))
        own.append(one)
        if rule not in rules:
            rules.append(rule)
    return shared


def _also_in_excursions(
    occlusion: Occlusion, sweeps: Sequence[Sweep], contacts: list[HighContact]
) -> frozenset[Pair]:
    """Return those pairs that are high in MI which hold the jaw open in an excursion as well."""
    pairs = frozenset(one.pair for one in contacts)
    teeth = frozenset(code for pair in pairs for code in pair)
    found: set[Pair] = set()
    for sweep in excursions_wanted(sweeps, ()):
        path, _ = path_without(occlusion, sweep, teeth)
        found.update(one.pair for one in high_contacts(occlusion, path, pairs, 0.0))
    return frozenset(found)
