"""What adjusting teeth would take and bring about, as the report tells it: tables and sentences."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from kinematics.case_adjusted import Adjusted
from kinematics.guidance.excursions import RETRUSION, Excursion, retrusion
from kinematics.planning.adjusting.cutting_rules import (
    CUT_CAUTION,
    CUTTING_ORDER,
    CUTTING_RULES,
    ENAMEL_RANGES,
)
from kinematics.planning.adjusting.outcome import ContactRange, Outcome
from kinematics.planning.adjusting.planned import ToothCut
from kinematics.planning.adjusting.settings import (
    FLAT_STOP,
    KEEPS_STOP,
    ONLY_GUIDE,
    Adjustment,
)
from kinematics.planning.adjusting.wanted_paths import IN_MI
from kinematics.planning.given_marks import excursion_named
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.wording import enumeration, pair_name, sentence
from scenes.phrases import excursion_title, length, number, start_words, travel
from scenes.report_tables import Table

_NONE: Final = "–"


@dataclass(frozen=True)
class AdjustmentPart:
    """One adjustment.

    Attributes
    ----------
    title, lead : str
        What it is for, and whether it gets there.
    reasons : tuple of str
        What keeps it from getting there.
    cuts : Table
        Tooth by tooth what comes off.
    after : tuple of str
        What holds afterwards, sentence by sentence.
    new_contacts : Table
        Contacts that were not there before.
    """

    title: str
    lead: str
    reasons: tuple[str, ...]
    cuts: Table
    after: tuple[str, ...]
    new_contacts: Table


@dataclass(frozen=True)
class AdjustmentSection:
    """The section about adjusting teeth.

    Attributes
    ----------
    parts : tuple of AdjustmentPart
        In the order in which they are made.
    caution, order : str
        What must be kept in mind, and what is cut first.
    rules : Table
        Which surface is cut, each row with its source.
    enamel : tuple of str
        Published thickness of enamel.
    """

    parts: tuple[AdjustmentPart, ...]
    caution: str
    order: str
    rules: Table
    enamel: tuple[str, ...]


def adjustment_section(adjusted: Sequence[Adjusted]) -> AdjustmentSection | None:
    """Return the section; None where no adjustment is asked for."""
    if not adjusted:
        return None
    return AdjustmentSection(
        parts=tuple(_part(number, item) for number, item in enumerate(adjusted, start=1)),
        caution=CUT_CAUTION,
        order=CUTTING_ORDER,
        rules=_rules(),
        enamel=ENAMEL_RANGES,
    )


def aim_words(asked: Adjustment) -> str:
    """Return what an adjustment is for."""
    teeth = enumeration(asked.teeth)
    one = len(asked.teeth) == 1
    where = ""
    if asked.excursions:
        names = (excursion_title(excursion_named(name)).lower() for name in asked.excursions)
        where = f" in {enumeration(names)}"
    if asked.so_that == ONLY_GUIDE:
        return f"{teeth} alone {'guides' if one else 'guide'}{where}"
    if asked.so_that == KEEPS_STOP:
        stop = "keeps its stop and clears" if one else "keep their stops and clear"
        return f"{teeth} {stop} {where.removeprefix(' in ') or 'all excursions'}"
    if asked.so_that == FLAT_STOP:
        return f"{teeth}: a flat stop, {asked.width_mm:g} mm wide, in place of a hump"
    return f"{teeth} no higher in MI than the teeth around"


def _part(count: int, item: Adjusted) -> AdjustmentPart:
    planned, found = item.planned, item.outcome
    return AdjustmentPart(
        title=f"{count}. {aim_words(planned.adjustment)}",
        lead=reached_words(item),
        reasons=tuple(_reasons(item)),
        cuts=_cuts(planned.cuts),
        after=tuple(_after(found)) if planned.cuts else (),
        new_contacts=_contacts(found.new_contacts),
    )


def reached_words(item: Adjusted) -> str:
    """Return whether an adjustment gets where it is to."""
    planned, found = item.planned, item.outcome
    if found.is_reached and planned.cuts:
        whole = (
            "every tooth pair keeps a stop in MI" if found.stops_fewer else "every stop in MI stays"
        )
        told = f"The aim is reached and {whole}."
    elif found.is_reached and not planned.hinders:
        told = "Nothing need come off: the aim is reached as it is."
    elif not planned.cuts:
        told = "Nothing was cut."
    else:
        told = "The aim is not reached by this."
    if found.still_high_mm > 0.0 and not found.is_reached:
        told += f" Still too high in MI by {length(found.still_high_mm)}."
    return told


def _reasons(item: Adjusted) -> Iterator[str]:
    """Yield what keeps an adjustment from its aim, then what still touches against it."""
    yield from map(sentence, item.planned.hinders)
    still = [_contact_words(one) for one in item.outcome.still_there]
    if still:
        yield f"Still touching: {'; '.join(still)}."


def _contact_words(one: ContactRange) -> str:
    where = excursion_title(_excursion(one)).lower()
    return (
        f"{pair_name(one.tooth_upper, one.tooth_lower)} in {where}"
        f" {travel(one.travel_from_mm, one.travel_to_mm)}"
    )


def _excursion(one: ContactRange) -> Excursion:
    if one.excursion == RETRUSION:
        return retrusion()
    return replace(excursion_named(one.excursion), start=one.start)


def _cuts(cuts: Sequence[ToothCut]) -> Table:
    head = (
        "tooth cut",
        "surface, by the rule that fits",
        "deepest, along the bite",
        "deepest, square to the surface",
        "where that is",
        "volume",
        "area",
        "was too high by (margin included)",
    )
    return Table(head, tuple(_cut_row(cut) for cut in cuts))


def _cut_row(cut: ToothCut) -> tuple[str, ...]:
    whose = "" if cut.by_rule else " (the arch is named by the case)"
    rules = "; ".join(f"high {rule.high}: {rule.cut}" for rule in cut.rules)
    flat = "" if cut.flat_mm is None else f"\nflat over {number(cut.flat_mm, 2)} mm"
    where = "MI" if cut.excursion == IN_MI else _movement(cut.excursion, cut.travel_mm)
    return (
        f"{cut.tooth}\nagainst {enumeration(cut.against)}",
        f"{rules}{whose}{flat}".replace("high a replacement", "a replacement"),
        length(cut.deepest_mm),
        length(cut.deepest_square_mm),
        cut.region,
        f"{number(cut.surface.volume_mm3, 3)} mm³",
        f"{number(cut.surface.area_mm2, 2)} mm²",
        f"{length(cut.height_mm)}, {where}",
    )


def _movement(name: str, travel_mm: float) -> str:
    title = excursion_title(excursion_named(name)).lower()
    return f"{title}, at {number(travel_mm, 1)} mm"


def _after(found: Outcome) -> list[str]:
    told = [f"Stops in MI that stay: {_pairs(found.stops_kept)}."]
    if found.stops_lost:
        told.append(f"Stops in MI that are lost: {_pairs(found.stops_lost)}.")
    if found.stops_fewer:
        told.append(f"Of their stops in MI, {enumeration(one.words for one in found.stops_fewer)}.")
    if found.stops_new:
        told.append(f"Stops in MI that come: {_pairs(found.stops_new)}.")
    if abs(found.closes_mm) < 5e-4:
        told.append("MI does not close further.")
    else:
        told.append(f"MI closes {length(found.closes_mm)} further, at the lower incisal point.")
    if not found.new_contacts:
        told.append("No new contact comes, in MI or in any excursion.")
    return told


def _pairs(pairs: Sequence[Pair]) -> str:
    return enumeration(f"{upper}/{lower}" for upper, lower in pairs) or "none"


def _contacts(found: Sequence[ContactRange]) -> Table:
    if not found:
        return Table((), ())
    rows = tuple(
        (
            f"{one.tooth_upper}/{one.tooth_lower}",
            f"{excursion_title(_excursion(one))}, {start_words(_excursion(one))}",
            travel(one.travel_from_mm, one.travel_to_mm),
            length(one.least_gap_mm),
        )
        for one in found
    )
    return Table(("new contact", "movement", "touches", "least gap"), rows)


def _rules() -> Table:
    rows = tuple(
        (str(rule.order), rule.high, rule.cut, rule.why, rule.source) for rule in CUTTING_RULES
    )
    return Table(("order", "what is high", "what is cut", "why", "source"), rows)
