"""From results to what the page is told of whole excursions: contacts, guidance, findings."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from kinematics.borders.tracks import BorderTrack
from kinematics.case import Case
from kinematics.checkup_result import Checkup
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools
from kinematics.guidance.excursions import RETRUSION, Excursion
from kinematics.live import RAISED_BITE, Judged, movements_of
from kinematics.planning.articulation import Verdict
from kinematics.planning.findings import SEVERITIES, Finding
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.stops import Stop
from kinematics.planning.wording import excursion_label
from kinematics.records.spread import StaleError
from scenes.charts import Reach, chart_rows, spans, start_only
from scenes.finding_cards import finding_card
from scenes.moving_casts import moves
from scenes.page_frames import frame
from scenes.phrases import degrees, excursion_title, length, number, pair, role_of, start_words
from scenes.report_tables import mostly, slide_sentence, start_sentence
from scenes.tooth_names import tooth_name
from scenes.track_charts import border_title

Arrays = dict[str, NDArray[Any]]

#: Standing of contacts that no scheme minds.
NEAR_MI: Final = "near MI only"
_SOURCES: Final[Mapping[str, int]] = {}


def movement_rows(case: Case) -> list[Mapping[str, Any]]:
    """Return what the page needs to name the movements of a case."""
    return [
        {"movement": item.name, "start": item.start, "title": titled(item)}
        for item in movements_of(case)
    ]


def titled(excursion: Excursion) -> str:
    """Return the name of an excursion, with its start where that is CR."""
    if excursion == RAISED_BITE:
        return "Raised bite (incisal pin)"
    start = "" if excursion.start == "MI" else f", {start_words(excursion)}"
    return excursion_title(excursion) + start


def excursions_answer(number_: int, case: Case, casts: MountedCasts, judged: Judged) -> bytes:
    """Return the message with the three main excursions."""
    told, arrays = _excursions(case, casts, judged.sweeps, judged.verdicts, judged.replacement)
    told |= {
        "kind": "excursions",
        "number": number_,
        "borders": [],
        "slide": None,
        "facts": [],
        **_said(judged.findings, judged.sweeps, judged.stops, case.replacement_teeth),
    }
    return frame(told, arrays)


def rest_answer(
    number_: int,
    case: Case,
    casts: MountedCasts,
    result: Checkup,
    left_out: Sequence[StaleError] = (),
) -> bytes:
    """Return the message with everything that the case is asked for.

    `left_out`: standard errors that belong to other values than those that settings were moved to.
    """
    told, arrays = _excursions(case, casts, result.sweeps, result.verdicts, result.replacement)
    borders = []
    for i, border in enumerate(result.borders):
        arrays |= {
            f"border_{i}_incisal": border.incisal_point.astype(np.float32),
            f"border_{i}_right": border.condyle_right.astype(np.float32),
            f"border_{i}_left": border.condyle_left.astype(np.float32),
        }
        borders.append(
            {
                "movement": border.name,
                "title": border_title(border),
                "incisal_mm": f"border_{i}_incisal",
                "condyle_right_mm": f"border_{i}_right",
                "condyle_left_mm": f"border_{i}_left",
            }
        )
    told |= {
        "kind": "rest",
        "number": number_,
        "borders": borders,
        "slide": slide_sentence(result.slide, result.stops),
        "facts": [*_facts(result), *map(_left_out, left_out)],
        **_said(result.findings, result.sweeps, result.stops, case.replacement_teeth),
    }
    return frame(told, arrays)


def _excursions(
    case: Case,
    casts: MountedCasts,
    sweeps: Sequence[Sweep],
    verdicts: Sequence[Verdict],
    replacement: Sequence[ReplacementContact],
) -> tuple[dict[str, Any], Arrays]:
    """Return what is told of every excursion and of the replacement teeth in them."""
    by_label = {verdict.excursion: verdict for verdict in verdicts}
    movements: list[dict[str, Any]] = []
    arrays: Arrays = {}
    for i, sweep in enumerate(sweeps):
        verdict = by_label.get(excursion_label(sweep.excursion))
        movements.append(_movement(i, case, sweep, verdict))
        arrays |= _movement_arrays(i, casts, sweep)
    guidance = [
        {
            "movement": row["movement"],
            "start": row["start"],
            "title": row["title"],
            "words": row["kind"],
        }
        for row in movements
        if row["judged"]
    ]
    told = {
        "movements": movements,
        "guidance": guidance,
        "replacement": _replacement(replacement, case.replacement_teeth, sweeps),
        "loads_follow": case.has_loads,
    }
    return told, arrays


def _movement(i: int, case: Case, sweep: Sweep, verdict: Verdict | None) -> dict[str, Any]:
    """Return what is told of one excursion."""
    excursion, patches = sweep.excursion, sweep.patches
    uppers, replaced = patches.tooth_upper.tolist(), set(case.replacement_teeth)
    sides = {code: role_of(code, excursion) for code in {*uppers, *sweep.upper_codes}}
    reach = Reach(case.judging.approach_margin_mm, case.judging.near_mi_mm)
    return {
        "movement": excursion.name,
        "start": excursion.start,
        "title": titled(excursion),
        "judged": excursion.name != RETRUSION,
        "travel_mm": [round(value, 4) for value in sweep.travel_mm.tolist()],
        "edge_to_edge_mm": sweep.edge_to_edge_mm,
        "tolerance_mm": sweep.tolerance_mm,
        "kind": mostly(verdict) if verdict else "",
        "text": verdict.text if verdict else "",
        "readings": _readings(verdict, sweep.tolerance_mm) if verdict else [],
        "pairs": [
            {
                "upper": row.upper,
                "lower": row.lower,
                "side": sides[row.upper],
                "replacement": not replaced.isdisjoint((row.upper, row.lower)),
                "touch": _ranges(row.touching, sweep),
                "near": _ranges(row.near, sweep),
                "first": _ranges(row.guiding, sweep),
            }
            for rows in chart_rows(sweep, reach).values()
            for row in rows
        ],
        "contacts": {
            "pose": patches.pose.tolist(),
            "upper": uppers,
            "lower": patches.tooth_lower.tolist(),
            "side": [sides[code] for code in uppers],
            "place": f"movement_{i}_places",
        },
        "start_only": start_sentence(start_only(sweep, reach), reach.near_start_mm),
        "moves": f"movement_{i}_moves",
        "incisal_mm": f"movement_{i}_incisal",
        "condyle_right_mm": f"movement_{i}_right",
        "condyle_left_mm": f"movement_{i}_left",
    }


def _movement_arrays(i: int, casts: MountedCasts, sweep: Sweep) -> Arrays:
    found = {
        "places": sweep.patches.centroid,
        "moves": moves(casts, sweep.poses).reshape(-1, 16),
        "incisal": sweep.incisal_point,
        "right": sweep.positions.condyle_right,
        "left": sweep.positions.condyle_left,
    }
    return {f"movement_{i}_{name}": value.astype(np.float32) for name, value in found.items()}


def _ranges(flags: Bools, sweep: Sweep) -> list[list[float]]:
    return [
        [round(start, 4), round(start + width, 4)] for start, width in spans(flags, sweep.travel_mm)
    ]


def _readings(verdict: Verdict, tolerance_mm: float) -> list[Mapping[str, Any]]:
    """Return what touches at the reading positions, at the tolerance next to that of the case."""
    found: dict[float, Mapping[str, Any]] = {}
    for item in sorted(verdict.readings, key=lambda r: -abs(r.tolerance_mm - tolerance_mm)):
        pairs = ", ".join(pair(*teeth) for teeth in item.touching) or "no teeth"
        beyond = " (crossover, not judged)" if item.crossover else ""
        found[item.travel_mm] = {
            "at_mm": item.travel_mm,
            "words": f"{item.label}{beyond}: {pairs}",
        }
    return [found[at] for at in sorted(found)]


def _said(
    findings: Sequence[Finding],
    sweeps: Sequence[Sweep],
    stops: Sequence[Stop],
    replacement_teeth: tuple[int, ...],
) -> dict[str, Any]:
    """Return findings, how many there are of each severity, and the stops."""
    titles = {excursion_label(s.excursion): titled(s.excursion) for s in sweeps}
    named = {excursion_label(s.excursion): s.excursion for s in sweeps}
    said = [
        _finding(i, item, titles, named.get(item.excursion or ""), replacement_teeth)
        for i, item in enumerate(findings)
    ]
    return {
        "findings": said,
        "counts": {
            severity: sum(item.severity == severity for item in findings) for severity in SEVERITIES
        },
        "stops": [
            {
                "upper": stop.tooth_upper,
                "lower": stop.tooth_lower,
                "place": [float(value) for value in stop.point],
            }
            for stop in stops
        ],
    }


def finding_id(place: int, finding: Finding) -> str:
    """Return what the page calls a finding, by its place among all of them."""
    teeth = f"{finding.tooth_upper} {finding.tooth_lower}"
    return f"{finding.kind} {finding.excursion} {teeth} {place}"


def _finding(
    i: int,
    finding: Finding,
    titles: Mapping[str, str],
    excursion: Excursion | None,
    replacement_teeth: tuple[int, ...],
) -> Mapping[str, Any]:
    card = finding_card(finding, titles, _SOURCES)
    teeth = {finding.tooth_upper, finding.tooth_lower}
    return {
        "id": finding_id(i, finding),
        "kind": finding.kind,
        "severity": finding.severity,
        "sign": card.sign,
        "movement": excursion.name if excursion else None,
        "start": excursion.start if excursion else None,
        "upper": finding.tooth_upper,
        "lower": finding.tooth_lower,
        "lead": card.lead,
        "text": card.text,
        "where": card.where,
        "details": [list(row) for row in card.details],
        "from_mm": finding.travel_from_mm,
        "to_mm": finding.travel_to_mm,
        "place": list(finding.place) if finding.place else None,
        "replacement": bool(teeth & set(replacement_teeth)),
        "determined": finding.determined,
    }


def _replacement(
    contacts: Sequence[ReplacementContact],
    replacement_teeth: tuple[int, ...],
    sweeps: Sequence[Sweep],
) -> list[Mapping[str, Any]]:
    """Return for each replacement tooth whether it touches in an excursion, and where."""
    titles = {excursion_label(s.excursion): titled(s.excursion) for s in sweeps}
    rows: list[Mapping[str, Any]] = []
    for code in replacement_teeth:
        own = [
            item
            for item in contacts
            if item.tooth == code and item.touches and item.standing != NEAR_MI
        ]
        where = [
            f"{titles.get(item.excursion, item.excursion)}: touches {item.opponent}"
            f" from {number(item.travel_from_mm, 1)} to {number(item.travel_to_mm, 1)} mm"
            for item in own
        ]
        words = "; ".join(where) if where else "touches in no excursion, but for places near MI"
        rows.append(
            {
                "tooth": code,
                "name": tooth_name(code),
                "words": words,
                "touches": bool(own),
            }
        )
    return rows


def _facts(result: Checkup) -> list[tuple[str, str]]:
    """Return figures worth telling beside the findings, each with its unit."""
    facts = [("centric stops in MI", str(len(result.stops)))]
    facts += [_bennett(border) for border in result.borders if border.bennett_deg is not None]
    for sweep in result.sweeps:
        if sweep.excursion.start == "MI" and sweep.edge_to_edge_mm is not None:
            facts.append(
                (f"edge-to-edge, {titled(sweep.excursion)}", length(sweep.edge_to_edge_mm))
            )
    if result.raised is not None:
        facts.append(("raised at the lower incisal point", length(result.raised.raised_mm)))
    return facts


def _left_out(error: StaleError) -> tuple[str, str]:
    return (
        f"standard error of the {error.side} {error.quantity}",
        "left out: the records gave it for another value than the one set now",
    )


def _bennett(border: BorderTrack) -> tuple[str, str]:
    read_at = number(border.bennett_read_at_mm or 0.0, 1)
    angle = degrees(border.bennett_deg or 0.0)
    return f"Bennett angle, {border_title(border)}, read at {read_at} mm of advance", angle
