"""What contacts in excursions mean for the laboratory: what to remove, to clear and to leave."""

import math
from collections.abc import Mapping, Sequence

from kinematics.checkup_result import Checkup
from kinematics.planning.foil_marks import Crowns, marks_along
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.wording import excursion_label
from scenes.finding_figures import HEIGHT, amount_mm
from scenes.phrases import counted, length, pair, travel
from scenes.report_tables import Table, starts_in_mi


def contacts_table(
    checkup: Checkup, replaced: tuple[int, ...], judging: JudgingSettings, titles: Mapping[str, str]
) -> Table:
    """Return what replacement teeth do in excursions, what natural teeth do, what becomes of it."""
    head = ("teeth", "excursion", "travel", "holds the others open by", "what to do")
    margin_mm, near_mm = judging.approach_margin_mm, judging.near_mi_mm
    told = [item for item in checkup.replacement if item.standing != "near MI only"]
    kept: dict[str, list[ReplacementContact]] = {}
    for item in told:
        if item.standing == "allowed by its scheme" and item.touches:
            kept.setdefault(item.excursion, []).append(item)
    many = {excursion: items for excursion, items in kept.items() if len(items) > 1}
    rows: list[tuple[str, ...]] = [
        (
            f"{item.tooth} and {item.opponent}",
            titles.get(item.excursion, item.excursion),
            # Next to MI the stops themselves are near: only what lies beyond can be cleared.
            travel(max(item.travel_from_mm, min(near_mm, item.travel_to_mm)), item.travel_to_mm),
            _height(item),
            _to_do(item, margin_mm),
        )
        for item in sorted(told, key=lambda item: (item.tooth, item.opponent))
        if item not in many.get(item.excursion, ())
    ]
    rows += [
        _kept_row(items, titles.get(excursion, excursion), margin_mm)
        for excursion, items in many.items()
    ]
    rows += [
        (
            f"{finding.tooth_upper} and {finding.tooth_lower}",
            titles.get(finding.excursion or "", finding.excursion or ""),
            travel(finding.travel_from_mm, finding.travel_to_mm),
            _length_or_nothing(amount_mm([finding], HEIGHT)),
            "leave uncut: natural teeth are adjusted in the mouth alone",
        )
        for finding in checkup.findings
        if finding.excursion
        and finding.severity != "note"
        and finding.tooth_upper
        and finding.tooth_lower
        and not {finding.tooth_upper, finding.tooth_lower} & {*replaced}
    ]
    return Table(head, tuple(rows))


def _kept_row(items: Sequence[ReplacementContact], title: str, margin_mm: float) -> tuple[str, ...]:
    """Return the touches of one excursion that a scheme allows; a pair of two bases once."""
    pairs = {pair(*sorted((item.tooth, item.opponent))): item for item in items}
    where = [
        f"{teeth} ({travel(item.travel_from_mm, item.travel_to_mm)})"
        for teeth, item in sorted(pairs.items())
    ]
    most = max(items, key=lambda item: item.height_mm)
    held = f"at most {_height(most)}" if 0.0 < most.height_mm < math.inf else _height(most)
    return (
        counted(len(pairs), "pair"),
        title,
        ", ".join(where),
        held,
        _to_do(items[0], margin_mm),
    )


def _height(item: ReplacementContact) -> str:
    if not item.touches:
        return f"nothing: {length(item.least_gap_mm)} clear"
    if not math.isfinite(item.height_mm):
        return "nothing else meets"
    return _length_or_nothing(item.height_mm)


def _length_or_nothing(value_mm: float) -> str:
    return length(value_mm) if value_mm else "nothing"


def _to_do(item: ReplacementContact, margin_mm: float) -> str:
    if item.standing == "allowed by its scheme":
        return "keep: its scheme allows it"
    if item.touches:
        return (
            f"take this contact off: grind or reset {item.tooth} in the set-up, keeping its stops"
            " of MI"
        )
    return f"clear {item.tooth} to more than {length(margin_mm)}, keeping its stops of MI"


def guides_table(
    checkup: Checkup,
    crowns: Crowns,
    judging: JudgingSettings,
    replaced: tuple[int, ...],
    titles: Mapping[str, str],
) -> Table:
    """Return the natural pairs that guide each excursion from MI, with their travel."""
    guiding = {
        verdict.excursion: {teeth for part in verdict.stretches for teeth in part.guiding}
        for verdict in checkup.verdicts
        if starts_in_mi(verdict.excursion)
    }
    rows = []
    for sweep in checkup.sweeps:
        label = excursion_label(sweep.excursion)
        told = [
            f"{pair(*teeth)} ({travel(mark.travel_from_mm, mark.travel_to_mm)}"
            f"{', with breaks' * mark.broken})"
            for mark in marks_along(crowns, sweep, judging)
            if (teeth := (mark.tooth_upper, mark.tooth_lower)) in guiding.get(label, ())
            and not {*teeth} & {*replaced}
        ]
        if told:
            rows.append((titles.get(label, label), ", ".join(told)))
    head = ("excursion from MI", "natural teeth that guide, and over which travel")
    return Table(head, tuple(rows))
