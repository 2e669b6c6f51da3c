"""What is made once the mouth is prepared, as items: impression, framework, records, processing."""

import math
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass

from kinematics.planning.articulation import Verdict
from kinematics.planning.framework import Framework
from kinematics.planning.judging import DentureBase
from kinematics.planning.raised_bite import RaisedBite
from kinematics.planning.record_doubts import RECORDS, records_for
from kinematics.planning.rooms.rooms import Rooms
from kinematics.planning.sequence.ordering import Wanted
from kinematics.planning.sequence.steps import Amount, Item
from kinematics.planning.surveying.survey import Survey
from kinematics.planning.wording import enumeration, length, sentence
from kinematics.tooth_codes import is_upper


@dataclass(frozen=True)
class Made:
    """What is to be made, and what was done before.

    Attributes
    ----------
    bases : tuple of DentureBase
        Denture bases.
    frameworks : tuple of Framework
        What joins them.
    others : tuple of int
        Teeth that get a crown, and those of bridges.
    cut : frozenset of int
        Natural teeth that change before the impression.
    raised : RaisedBite or None
        A bite raised on the pin.
    closes_mm : float
        How far adjusting lets MI close further, at the lower incisal point.
    """

    bases: tuple[DentureBase, ...]
    frameworks: tuple[Framework, ...]
    others: tuple[int, ...]
    cut: frozenset[int]
    raised: RaisedBite | None
    closes_mm: float

    @property
    def teeth(self) -> tuple[int, ...]:
        """All teeth that are made or restored."""
        own = [code for base in self.bases for code in base.teeth]
        return (*own, *(code for code in self.others if code not in own))


def making_items(
    made: Made, verdicts: Sequence[Verdict], surveys: Iterable[Survey], rooms: Rooms
) -> Iterator[Wanted]:
    """Yield everything from the impression to processing; nothing where nothing is made."""
    if not made.teeth:
        return
    yield from (("impression", item) for item in _impressions(made))
    for framework in made.frameworks:
        if framework.rests or framework.guide_planes:
            yield "framework", _framework(framework, surveys, rooms)
    yield from (("records", item) for item in _records(made, verdicts))
    for base in made.bases:
        yield "processing", _processed(base, made.raised)


def _impressions(made: Made) -> Iterator[Item]:
    for upper in (True, False):
        teeth = tuple(code for code in made.teeth if is_upper(code) == upper)
        side = "upper" if upper else "lower"
        cut = tuple(sorted(code for code in made.cut if is_upper(code) == upper))
        if teeth:
            changed = f", with {enumeration(cut)} as prepared" if cut else ""
            yield Item(
                teeth=teeth,
                where=f"{side} arch",
                text=f"Final impression of the {side} arch{changed}.",
                part="frameworks" if made.bases else "rooms",
                cautions=tuple(_free_ends(made, upper=upper)),
            )
        else:
            why = f": {enumeration(cut)} changed there" if cut else ""
            yield Item(
                teeth=cut,
                where=f"{side} arch",
                text=f"Impression or scan of the opposing {side} arch{why}.",
                part="order of work",
            )


def _free_ends(made: Made, *, upper: bool) -> Iterator[str]:
    free = [
        name
        for framework in made.frameworks
        if framework.is_upper == upper and framework.rests
        for name in framework.extension_sides
    ]
    if free:
        yield (
            f"below {enumeration(free)}, free at the back, the ridge is taken with the mucosa as it"
            " bears load (common practice)"
        )


def _framework(framework: Framework, surveys: Iterable[Survey], rooms: Rooms) -> Item:
    soft = [
        Amount(f"{survey.side} mucosa undercuts by up to", survey.soft.deepest_mm)
        for survey in surveys
        if survey.is_upper == framework.is_upper and survey.soft is not None
    ]
    rests = [
        Amount(
            f"room above the {room.rest.place} rest, as cast",
            room.least.distance_mm,
            tooth=room.rest.tooth,
        )
        for room in rooms.rests
        if room.framework == framework.name and math.isfinite(room.least.distance_mm)
    ]
    joined = f" with its {framework.connector}" if framework.connector else ""
    relief = ["rigid parts are relieved where the mucosa undercuts"] if soft else []
    return Item(
        teeth=framework.held_by,
        where=framework.name,
        text=f"Make the framework{joined}, and see that rests and guide planes seat in the mouth.",
        part="frameworks",
        amounts=(*rests, *soft),
        cautions=tuple(relief),
        base=framework.name,
    )


def _records(made: Made, verdicts: Sequence[Verdict]) -> Iterator[Item]:
    yield Item((), "", "Mount the new casts by a record of MI, or of CR where it was decided to"
               " build there.", "order of work", because=sentence(_why_again(made)))  # fmt: skip
    if made.raised is not None:
        yield Item(
            teeth=(),
            where="",
            text="Take a record of centric relation at the new height.",
            part="vertical dimension",
            because="The bite is raised: MI is void.",
            amounts=(Amount("pin opening", made.raised.pin_opening_mm),),
        )
    keys = dict.fromkeys(
        key
        for verdict in verdicts
        if not verdict.determined
        for key in records_for(verdict.excursion)
        if key in RECORDS
    )
    for key in keys:
        yield Item((), "", sentence(f"take {RECORDS[key]}"), "what the records cannot tell",
                   because="What guides there is not determined by the records.")  # fmt: skip


def _why_again(made: Made) -> str:
    told = []
    if made.cut:
        told.append(f"the teeth {enumeration(sorted(made.cut))} have changed")
    if made.closes_mm > 0.0:
        told.append(f"MI closes {length(made.closes_mm)} further after adjusting")
    if made.bases:
        told.append("bases give the casts their place where teeth are missing")
    return enumeration(told) or "the casts are new"


def _processed(base: DentureBase, raised: RaisedBite | None) -> Item:
    pin = " The pin is kept at the opening of the case." if raised is not None else ""
    return Item(
        teeth=base.teeth,
        where=f"base '{base.name}'",
        text=f"Process it, mount it again, and compare stops and height with the set-up.{pin}",
        part="check list at the chair",
        base=base.name,
    )


def check_items(made: Made, watched: Collection[int]) -> Iterator[Wanted]:
    """Yield what is checked in the mouth: where teeth were cut or something was made.

    Parameters
    ----------
    made : Made
        What is made, and what was cut.
    watched : collection of int
        Teeth that are left without a stop and may over-erupt.
    """
    if made.cut:
        yield (
            "check",
            Item(
                tuple(sorted(made.cut)),
                "",
                "Mark with foil again, polish what was cut, and compare with the check list; best"
                " scan again and run the case anew.",
                "check list at the chair",
            ),
        )
    if made.teeth:
        yield (
            "check",
            Item(
                made.teeth,
                "",
                "On delivery: seat, stops in MI with foil and strip, then every excursion.",
                "check list at the chair",
            ),
        )
    if made.bases:
        yield (
            "check",
            Item(
                (),
                "",
                "After some days, then at every recall: sore spots, whether bases still lie on the"
                " ridge, and whether stops have changed.",
                "check list at the chair",
            ),
        )
    if watched:
        one = len(watched) == 1
        yield (
            "check",
            Item(
                tuple(sorted(watched)),
                "",
                f"At every recall: {'has it' if one else 'have they'} moved? Nothing stops"
                f" {'it' if one else 'them'}.",
                "set-up lengths",
            ),
        )
