"""Findings as the report tells them: graver ones by their causes, notes by their kinds."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kinematics.checkup_result import Checkup
from kinematics.planning.extent_rules import EXTENT_KINDS
from kinematics.planning.finding_groups import (
    REPLACEMENT_NEAR,
    REPLACEMENT_TOUCHES,
    FindingGroup,
)
from kinematics.planning.plane.plane_findings import PLANE_KINDS
from kinematics.planning.rooms.room_rules import ROOM_KINDS
from kinematics.planning.wording import excursion_words
from scenes.alike_findings import alike, alike_table
from scenes.close_ups import CloseUp, close_up
from scenes.finding_cards import FindingCard, finding_card, long_sources
from scenes.first_page import Point, point
from scenes.report_tables import Table, excursion_titles
from scenes.share_words import shown_at


@dataclass(frozen=True)
class ToldFinding:
    """A finding in full, a look at its tooth, and rows for those that are like it."""

    card: FindingCard
    close: CloseUp | None
    alike: Table | None


@dataclass(frozen=True)
class ToldGroup:
    """Findings with one cause.

    Attributes
    ----------
    point : Point
        Its number and its words.
    findings : tuple of ToldFinding
        Gravest first.
    of_the_bite : bool
        Whether they speak of MI and CR.
    of_replacement_teeth : bool
        Whether they speak of contacts of replacement teeth in excursions.
    of_set_ups : bool
        Whether they speak of how far back replacement teeth go.
    of_rooms : bool
        Whether they speak of room for rests and crowns.
    of_planes : bool
        Whether they speak of teeth out of line with their arch.
    """

    point: Point
    findings: tuple[ToldFinding, ...]
    of_the_bite: bool
    of_replacement_teeth: bool
    of_set_ups: bool
    of_rooms: bool
    of_planes: bool


@dataclass(frozen=True)
class Notes:
    """Notes of one kind.

    Attributes
    ----------
    cards : tuple of FindingCard
        Without what all of them share.
    shared : tuple of (str, str)
        Details (name, text) that stand for all; none for a single note.
    of_the_bite : bool
        Whether they speak of MI and CR.
    of_set_ups : bool
        Whether they speak of how far back replacement teeth go.
    """

    cards: tuple[FindingCard, ...]
    shared: tuple[tuple[str, str], ...]
    of_the_bite: bool
    of_set_ups: bool


def told_groups(
    checkup: Checkup, groups: Sequence[FindingGroup], replacement_teeth: tuple[int, ...]
) -> Iterator[ToldGroup]:
    """Yield the groups that are graver than notes.

    Parameters
    ----------
    checkup : Checkup
        What was computed.
    groups : sequence of FindingGroup
        All groups of its findings, gravest first.
    replacement_teeth : tuple of int
        ISO 3950 numbers.
    """
    titles, sources = excursion_titles(checkup), long_sources(checkup.findings)
    excursions = [excursion_words(sweep.excursion) for sweep in checkup.sweeps]
    sure = shown_at(checkup.findings, checkup.uncertainty)
    for number, group in enumerate(groups, start=1):
        if group.severity == "note":
            continue
        told = tuple(
            ToldFinding(
                finding_card(item.told, titles, sources, sure(item.told)),
                close_up(item.told, checkup, replacement_teeth),
                alike_table(item.others, titles, sure) if item.others else None,
            )
            for item in alike(group.findings, excursions)
        )
        of_replacement = group.kind in (REPLACEMENT_NEAR, REPLACEMENT_TOUCHES)
        of_set_ups = group.kind in EXTENT_KINDS
        of_planes, of_rooms = group.kind in PLANE_KINDS, group.kind in ROOM_KINDS
        of_the_bite = not (group.excursions or of_set_ups or of_planes or of_rooms)
        yield ToldGroup(
            point(number, group, sure),
            told,
            of_the_bite,
            of_replacement,
            of_set_ups,
            of_rooms,
            of_planes,
        )


def notes_of(checkup: Checkup, groups: Sequence[FindingGroup]) -> Iterator[Notes]:
    """Yield the notes by their kinds; arguments as above."""
    titles, sources = excursion_titles(checkup), long_sources(checkup.findings)
    sure = shown_at(checkup.findings, checkup.uncertainty)
    for group in groups:
        if group.severity == "note":
            of_set_ups = group.kind in EXTENT_KINDS
            cards = [finding_card(item, titles, sources, sure(item)) for item in group.findings]
            shared = tuple(
                detail
                for detail in cards[0].details
                if len(cards) > 1 and all(detail in card.details for card in cards)
            )
            yield Notes(
                tuple(
                    replace(card, details=tuple(d for d in card.details if d not in shared))
                    for card in cards
                ),
                shared,
                not (group.excursions or of_set_ups or group.kind in (*PLANE_KINDS, *ROOM_KINDS)),
                of_set_ups,
            )
