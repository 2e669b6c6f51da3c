"""The tables and sentences of the report, as text: every number with its unit."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.borders.tracks import BorderTrack
from kinematics.checkup_result import Checkup
from kinematics.contact.sweep import Sweep
from kinematics.planning.articulation import Reading, Verdict
from kinematics.planning.base_rules import SEVERITY_RULE
from kinematics.planning.guidance_kinds import (
    INCISORS_ONLY,
    NONE,
    NONWORKING_ONLY,
    ONE_SIDED_ANTERIOR,
    POSTERIOR_ONLY,
    SINGLE_POSTERIOR,
    TABLE_ONLY,
)
from kinematics.planning.guidance_stretches import holds_most
from kinematics.planning.mi_findings import stops_together
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.slide import CONTACT_AREA, NO_SLIDE, SLIDE, CentricSlide
from kinematics.planning.stops import Stop
from kinematics.planning.wording import at_most, excursion_label
from kinematics.tooth_codes import is_posterior, is_right
from scenes import colours
from scenes.phrases import (
    counted,
    degrees,
    excursion_title,
    length,
    number,
    pair,
    start_words,
    tolerance,
    travel,
)

#: Lengths below this are not told: half of the last digit shown.
_NOTHING_MM = 0.0005
#: Pairs of a reading are listed up to this many, else counted by side.
_PAIRS_LISTED = 6
#: Kinds whose names would contradict that they do not hold all the way, as they are told then.
_OVER_PART: Final = {
    INCISORS_ONLY: "incisors alone",
    NONE: "no contact",
    NONWORKING_ONLY: "nonworking contacts alone",
    ONE_SIDED_ANTERIOR: "front teeth of one side",
    POSTERIOR_ONLY: "posterior teeth alone",
    SINGLE_POSTERIOR: "a single posterior tooth",
    TABLE_ONLY: "the guide table alone",
}


@dataclass(frozen=True)
class Table:
    """A table as text: `head` names the columns, a cell may hold several lines."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def stops_sentence(checkup: Checkup) -> str:
    """Say how many stops there are and how even they are."""
    stops = checkup.stops
    if not stops:
        return "No centric stop was found in maximal intercuspation (MI)."
    back = [stop for stop in stops if is_posterior(stop.tooth_upper)]
    right = sum(is_right(stop.tooth_upper) for stop in back)
    front = len(stops) - len(back)
    if not back:
        return (
            f"{counted(len(stops), 'centric stop')} in maximal intercuspation (MI), on front teeth"
            " alone: no back tooth of either side meets."
        )
    worst = max(stop.arc_gap_mm for stop in stops)
    even = f" They meet within {at_most(worst)} of each other along the closing arc."
    return (
        f"{counted(len(stops), 'centric stop')} in maximal intercuspation (MI): {right} on the"
        f" right back teeth, {len(back) - right} on the left back teeth, {front} on front teeth."
        f"{even if len(stops) > 1 else ''}"
    )


def unstopped_sentence(checkup: Checkup) -> str:
    """Name the back teeth without a centric stop."""
    stopped = {code for stop in checkup.stops for code in (stop.tooth_upper, stop.tooth_lower)}
    codes = [c for c in (*checkup.upper.codes, *checkup.lower.codes) if is_posterior(c)]
    bare = [str(code) for code in codes if code not in stopped]
    if not bare:
        return "Every back tooth has at least one stop."
    return f"Back teeth without a stop: {', '.join(bare)}."


def slide_sentence(slide: CentricSlide, stops: tuple[Stop, ...] = ()) -> str:
    """Say where the teeth first meet in CR and how the jaw gets from there to MI.

    Parameters
    ----------
    slide : CentricSlide
        From first contact in CR to MI.
    stops : tuple of Stop
        Centric stops in MI: where that is CR, all of them meet at once.
    """
    all_stops = stops_together(slide, stops)
    if all_stops:
        return (
            f"In centric relation (CR) {all_stops}. There is no slide: it is the same position as"
            " MI."
        )
    pairs = ((slide.first_contact_upper, slide.first_contact_lower), *slide.together)
    first = " and ".join(filter(None, (pair(*teeth) for teeth in pairs))) or "none"
    incline = f", on a {slide.incline} incline of the upper tooth" if slide.incline else ""
    start = f"In centric relation (CR) the first contact is {first}{incline}."
    if slide.kind == NO_SLIDE:
        return f"{start} There is no slide: it is the same position as MI."
    way = ", ".join(
        f"{length(abs(value))} {words[0] if value >= 0.0 else words[1]}"
        for value, words in (
            (slide.forward_mm, ("forward", "backward")),
            (slide.left_mm, ("to the left", "to the right")),
            (slide.up_mm, ("up", "down")),
        )
        if abs(value) >= _NOTHING_MM
    )
    meaning = {
        SLIDE: "It changes the height: a slide in centric.",
        CONTACT_AREA: "It does not change the height: an intercuspal contact area (long centric).",
    }
    return (
        f"{start} From there to MI the lower incisal point moves {length(slide.length_mm)}: {way}."
        f" {meaning.get(slide.kind, slide.kind)}"
    )


def mostly(verdict: Verdict) -> str:
    """Return the guidance kind, and over how much of the way where it does not hold all of it."""
    if len({stretch.kind for stretch in verdict.stretches}) < 2:
        return verdict.kind
    part = "most" if holds_most(verdict.stretches, verdict.kind) else "the longest part"
    return f"{_OVER_PART.get(verdict.kind, verdict.kind)} over {part} of the way"


def stops_table(stops: Sequence[Stop]) -> Table:
    """Return the stops by tooth pair, and what is doubtful about scanned surfaces there."""
    pairs = dict.fromkeys((stop.tooth_upper, stop.tooth_lower) for stop in stops)
    rows = []
    for upper, lower in pairs:
        own = [s for s in stops if (s.tooth_upper, s.tooth_lower) == (upper, lower)]
        rows.append(
            (
                pair(upper, lower),
                str(len(own)),
                length(max(stop.arc_gap_mm for stop in own)),
                ", ".join(f"{number(stop.area_mm2, 2)}" for stop in own) + " mm²",
                "; ".join(dict.fromkeys(stop.surface for stop in own if stop.surface)),
            )
        )
    head = (
        "teeth (upper/lower)",
        "stops",
        "largest gap along the closing arc",
        "area within the contact tolerance, stop by stop",
        "surface there",
    )
    shown = len(head) if any(row[-1] for row in rows) else len(head) - 1
    return Table(head[:shown], tuple(row[:shown] for row in rows))


def readings_table(verdict: Verdict) -> Table:
    """Return what touches at every reading position (rows) and tolerance (columns)."""
    tolerances = sorted({reading.tolerance_mm for reading in verdict.readings})
    travels = sorted({reading.travel_mm for reading in verdict.readings})
    found = {(r.travel_mm, r.tolerance_mm): r for r in verdict.readings}
    rows = tuple(
        (
            f"{number(at, 1)} mm",
            *(_reading_text(found.get((at, foil))) for foil in tolerances),
        )
        for at in travels
    )
    head = tuple(f"within {tolerance(foil)}" for foil in tolerances)
    return Table(("travel", *head), rows)


def _reading_text(reading: Reading | None) -> str:
    if reading is None:
        return "not reached"
    pairs = reading.touching
    if not pairs:
        return f"{reading.label}\nno pair"
    if len(pairs) <= _PAIRS_LISTED:
        return f"{reading.label}\n" + ", ".join(pair(*teeth) for teeth in pairs)
    right = sum(is_right(upper) for upper, _ in pairs)
    return f"{reading.label}\n{len(pairs)} pairs: {right} right, {len(pairs) - right} left"


def near_start_replacements(
    contacts: Sequence[ReplacementContact], titles: Mapping[str, str]
) -> tuple[str, ...]:
    """Return, for every excursion, what replacement teeth do at its start only.

    Teeth of balanced bases are meant to stay near: of them only touches are told.
    """
    found: dict[str, list[str]] = {}
    for item in contacts:
        if item.standing == "near MI only" and (item.touches or item.scheme != "balanced"):
            gap = "touches" if item.touches else f"comes within {length(item.least_gap_mm)}"
            where = travel(item.travel_from_mm, item.travel_to_mm)
            found.setdefault(titles.get(item.excursion, item.excursion), []).append(
                f"{item.tooth} {gap} of {item.opponent} ({where})".replace("touches of", "touches")
            )
    return tuple(f"{title}: {', '.join(words)}." for title, words in found.items())


def bennett_table(borders: Sequence[BorderTrack]) -> Table:
    """Return the Bennett readings of the lateral border excursions."""
    rows = tuple(
        (
            f"{border.name} excursion: {'left' if border.name.startswith('right') else 'right'}"
            " condyle",
            degrees(border.bennett_deg),
            f"{number(border.bennett_read_at_mm, 1)} mm of its advance",
        )
        for border in borders
        if border.bennett_deg is not None and border.bennett_read_at_mm is not None
    )
    head = (
        "nonworking condyle",
        "Bennett angle, in the reference plane, to straight forward",
        "read at",
    )
    return Table(head, rows)


def severity_table() -> Table:
    """Return the rule by which a contact of a replacement tooth gets its severity."""
    signs = colours.SEVERITY_SIGN
    rows = tuple((f"{signs[row.severity]} {row.severity}", row.text) for row in SEVERITY_RULE)
    return Table(("severity", "the replacement tooth ..."), rows)


def excursion_titles(checkup: Checkup) -> dict[str, str]:
    """Return the heading of every excursion by the label that verdicts and findings give it."""
    return {
        excursion_label(sweep.excursion): excursion_title(sweep.excursion)
        + ("" if sweep.excursion.start == "MI" else f", {start_words(sweep.excursion)}")
        for sweep in checkup.sweeps
    }


def start_sentence(pairs: Sequence[tuple[int, int, float]], near_start_mm: float) -> str:
    """Name the pairs that touch only near the start, and up to which travel."""
    if not pairs:
        return ""
    groups: dict[str, list[str]] = {}
    for upper, lower, last in pairs:
        shown = number(last, 1)
        until = "at the start itself" if shown == "0.0" else f"up to {shown} mm"
        groups.setdefault(until, []).append(pair(upper, lower))
    said = "; ".join(f"{until} {', '.join(names)}" for until, names in groups.items())
    return f"Touching only within {number(near_start_mm, 1)} mm of the start: {said}."


def starts_in_mi(label: str) -> bool:
    """Tell whether the excursion of a verdict or finding starts in MI."""
    return not label.endswith(" from CR")


def sweep_facts(sweep: Sweep) -> str:
    """Say how far an excursion was followed and where edge-to-edge is."""
    edge = sweep.edge_to_edge_mm
    reach = (
        f"edge-to-edge at {number(edge, 1)} mm"
        if edge is not None
        else "edge-to-edge is not reached"
    )
    return (
        f"Followed over {number(float(sweep.travel_mm[-1]), 1)} mm; {reach}."
        f" Touching means nearer than {tolerance(sweep.tolerance_mm)}."
    )
