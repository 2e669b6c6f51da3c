"""The page for the laboratory: mounting, settings, schemes, stops wanted, contacts to remove."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.checkup_result import Checkup
from kinematics.planning.foil_marks import Crowns
from kinematics.planning.joined_teeth import Bridge, Joined
from kinematics.planning.judging import DentureBase, JudgingSettings
from kinematics.planning.raised_bite import RaisedBite
from kinematics.planning.scheme_findings import scheme_name
from kinematics.planning.stops import Stop
from kinematics.planning.vertical_dimension import (
    NATURAL,
    NO_STOP,
    REPLACED,
    VerticalDimension,
    vertical_dimension,
)
from kinematics.planning.wording import enumeration
from scenes.laboratory_amounts import amounts_table, changed_first
from scenes.laboratory_contacts import contacts_table, guides_table
from scenes.phrases import counted, length, pair
from scenes.report_tables import Table, excursion_titles
from scenes.setting_tables import NOT_GIVEN, SettingRow, setting_tables

#: Groups of settings that are set on the articulator.
_ON_ARTICULATOR: Final = ("guidance", "maximal intercuspation", "generated path")
#: What comes back with the work. Common practice.
_BACK: Final = (
    "both casts on their mounting, and the settings they were worked at, where they differ from"
    " this page",
    "marks of MI and of the excursions on the casts, in two colours, not washed off",
    "what could not be reached on this page, and why, before the work goes on",
)
_BACK_SET_UP: Final = "the trial set-up on its base, in wax, changed as told above, for the try-in"


@dataclass(frozen=True)
class LaboratoryPage:
    """What the page for the laboratory says.

    Attributes
    ----------
    settings : tuple of Table
        Mounting and guidance as they are set on the articulator.
    schemes : tuple of (str, str)
        Natural teeth and every base, and the articulation aimed at there.
    height : str
        The vertical dimension: kept or opened, and what holds it.
    bases : tuple of str
        Replacement teeth and abutments of every base, rests, guide planes and connector.
    joined : tuple of str
        Pontics and abutments of every bridge, teeth of every splint.
    stops : Table
        Centric stops wanted on replacement teeth and pontics.
    natural_stops : str
        What becomes of the stops of natural teeth.
    ask : tuple of str
        What to ask the dentist before these stops are copied.
    contacts : Table
        Contacts of replacement teeth in excursions: what happens and what to do.
    guides : Table
        Natural teeth that guide each excursion and are left as they are.
    amounts, changed : Table, str
        What is cut, shaped and set up, tooth by tooth, from the order of work; and which teeth
        change before the impression.
    send_back : tuple of str
        What to send back.
    """

    settings: tuple[Table, ...]
    schemes: tuple[tuple[str, str], ...]
    height: str
    bases: tuple[str, ...]
    joined: tuple[str, ...]
    stops: Table
    natural_stops: str
    ask: tuple[str, ...]
    contacts: Table
    guides: Table
    amounts: Table
    changed: str
    send_back: tuple[str, ...]


def laboratory_page(
    checkup: Checkup,
    judging: JudgingSettings,
    bases: tuple[DentureBase, ...],
    settings: Sequence[SettingRow],
    joined: tuple[Joined, ...] = (),
) -> LaboratoryPage:
    """Return the page for the laboratory.

    Parameters
    ----------
    checkup : Checkup
        What was computed.
    judging : JudgingSettings
        Scheme of the natural teeth, and the margin replacement teeth must keep.
    bases : tuple of DentureBase
        Denture bases with their teeth and schemes.
    settings : sequence of SettingRow
        All settings of the case, as text.
    joined : tuple of Splint or Bridge
        What joins teeth.
    """
    pontics = (code for unit in joined if isinstance(unit, Bridge) for code in unit.pontics)
    replaced = (*(code for base in bases for code in base.teeth), *pontics)
    natural = {*checkup.upper.codes, *checkup.lower.codes} - {*replaced}
    titles, crowns = excursion_titles(checkup), Crowns(checkup.upper, checkup.lower)
    held = vertical_dimension(
        checkup.sweeps, checkup.mi, checkup.incisal_point, checkup.stops, replaced
    )
    return LaboratoryPage(
        settings=setting_tables(_articulator_rows(settings)),
        schemes=(
            *((("natural teeth", scheme_name(judging.scheme)),) if natural else ()),
            *((base.name, base.scheme) for base in bases),
        ),
        height=_height_words(held, checkup.raised),
        bases=tuple(_base_words(base) for base in bases),
        joined=tuple(_joined_words(unit) for unit in joined),
        stops=_stops_table(checkup, crowns, replaced),
        natural_stops=_natural_stops_words(held.natural_stops),
        ask=_questions(checkup, replaced),
        contacts=contacts_table(checkup, replaced, judging, titles),
        guides=guides_table(checkup, crowns, judging, replaced, titles),
        amounts=amounts_table(checkup.sequence),
        changed=changed_first(checkup.sequence),
        send_back=((_BACK_SET_UP,) if bases else ()) + _BACK,
    )


def _articulator_rows(settings: Sequence[SettingRow]) -> list[SettingRow]:
    """Return what is set on an articulator; what is not given needs no screw."""
    return [
        row
        for row in settings
        if row.group.split(",")[0] in _ON_ARTICULATOR and row.value != NOT_GIVEN
    ]


def _height_words(held: VerticalDimension, raised: RaisedBite | None) -> str:
    """Say whether the vertical dimension is kept, and on what it rests."""
    if raised is not None:
        return _raised_words(raised)
    if held.is_kept:
        kept = "Kept: MI closes to the height at which the casts were set up."
    else:
        way = "Opened" if held.opened_mm > 0.0 else "Closed"
        kept = (
            f"{way} by {length(abs(held.opened_mm))} at the lower incisal point against the height"
            " at which the casts were set up: ask before the work goes on."
        )
    if held.held_by == NO_STOP:
        return f"{kept} No centric stop holds it: ask for a record of the height."
    if held.held_by == REPLACED:
        apart = (
            f" Natural teeth stand {length(held.natural_gap_mm)} apart."
            if math.isfinite(held.natural_gap_mm)
            else ""
        )
        return (
            f"{kept} Replacement teeth alone hold it; raise nothing and lower nothing without"
            f" asking.{apart}"
        )
    if held.held_by == NATURAL:
        return f"{kept} Natural teeth hold it with {counted(held.natural_stops, 'stop')}."
    return (
        f"{kept} Natural teeth hold it with {counted(held.natural_stops, 'stop')}; the"
        f" {counted(held.replacement_stops, 'stop')} of replacement teeth must not raise it."
    )


def _raised_words(raised: RaisedBite) -> str:
    """Say how far the bite is raised, where, and what that makes of MI and of this page."""
    first = pair(raised.first_contact_upper, raised.first_contact_lower) or "no tooth"
    if raised.pin_holds:
        held = f"The pin holds the jaw; {first} would touch first."
    else:
        held = (
            f"The pin does not reach: {first} touches first and holds the jaw"
            f" {length(raised.raised_mm)} open from MI. Ask before the work goes on."
        )
    return (
        f"Opened by {length(raised.pin_opening_mm)} on the incisal pin, read at the lower incisal"
        " point square to the reference plane, condyles in CR, by a centric record: MI is void."
        f" {held} Stops and contacts on this page are those of the present bite."
    )


def _base_words(base: DentureBase) -> str:
    teeth = f"replacement {'tooth' if len(base.teeth) == 1 else 'teeth'} {enumeration(base.teeth)}"
    abutments = _named("abutment", base.abutments) if base.abutments else "no abutment"
    rests = enumeration(f"{rest.tooth} {rest.place}" for rest in base.rests)
    more = f"; rests on {rests}" if rests else ""
    if base.guide_planes:
        more += f"; guide {'plane' if len(base.guide_planes) == 1 else 'planes'} on "
        more += enumeration(base.guide_planes)
    return (
        f"{base.name}: {teeth}; {abutments}{more}{f'; {base.connector}' if base.connector else ''}"
    )


def _joined_words(unit: Joined) -> str:
    if isinstance(unit, Bridge):
        carried = _named("abutment", unit.abutments)
        return f"{unit.name} (bridge): {_named('pontic', unit.pontics)}; {carried}"
    return f"{unit.name} (splint): {enumeration(unit.teeth)} joined"


def _named(what: str, codes: tuple[int, ...]) -> str:
    return f"{what}{'s' * (len(codes) != 1)} {enumeration(codes)}"


def _stops_table(checkup: Checkup, crowns: Crowns, replaced: tuple[int, ...]) -> Table:
    """Return the stops of replacement teeth and pontics: tooth, place, opposing tooth, place."""
    rows = []
    for code in replaced:
        for stop in checkup.stops:
            twice = stop.tooth_upper in replaced and code == stop.tooth_lower
            if code in (stop.tooth_upper, stop.tooth_lower) and not twice:
                rows.append(_stop_row(checkup, crowns, code, stop))
    head = ("replacement tooth or pontic", "place on it", "opposing tooth", "place on that")
    return Table(head, tuple(rows))


def _stop_row(checkup: Checkup, crowns: Crowns, code: int, stop: Stop) -> tuple[str, ...]:
    other = stop.tooth_lower if code == stop.tooth_upper else stop.tooth_upper
    here, there = (crowns.place_on(tooth, stop.point, checkup.mi_pose) for tooth in (code, other))
    return str(code), here, str(other), there


def _questions(checkup: Checkup, replaced: tuple[int, ...]) -> tuple[str, ...]:
    """Return what the findings say against copying the stops as they are."""

    def found(kind: str) -> list[int]:
        codes = (
            code
            for finding in checkup.findings
            if finding.kind == kind and finding.severity != "note"
            for code in (finding.tooth_upper, finding.tooth_lower)
        )
        return sorted({code for code in codes if code in replaced})

    aside, deflecting = found("stops off the axis"), found("deflective contact")
    asked = []
    if aside:
        asked.append(
            f"The stops of {enumeration(aside)} push off the long axis as they are here: ask where"
            " they are wanted before they are copied."
        )
    if deflecting:
        asked.append(
            f"In centric relation {enumeration(deflecting)} meets first and the jaw slides from"
            " there: ask whether the work is to be built in MI or in CR."
        )
    return tuple(asked)


def _natural_stops_words(count: int) -> str:
    if count == 0:
        return "Natural teeth have no stop among themselves."
    return (
        f"All {counted(count, 'stop')} between natural teeth stay as they are. Natural teeth are"
        " not cut on the cast: what has to change there is decided and done in the mouth."
    )
