"""What result files tell of adjustments: entries of findings.json, a table, teeth as cut."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any, Final

from kinematics.case_adjusted import Adjusted
from kinematics.mesh_files import ply_content
from kinematics.planning.adjusting.outcome import Outcome
from kinematics.planning.adjusting.planned import ToothCut, square_depths_mm
from kinematics.planning.adjusting.tooth_cut import CutSurface
from kinematics.table_cells import Row, coordinates, numbers, pairs_cell, xyz, yes_no
from kinematics.tooth_codes import is_upper

ADJUSTMENTS_FILE: Final = "adjustments.csv"
ADJUSTMENT_COLUMNS: Final = [
    "adjustment", "so_that", "teeth", "tooth_cut", "clears", "rule", "cut_by_rule",
    "deepest_along_arc_mm", "deepest_square_mm", *xyz("deepest"), "region",
    "volume_mm3", "area_mm2", "too_high_by_mm", "in", "at_travel_mm", "still_too_near_mm",
    "flat_width_mm", "aim_reached", "stops_kept", "stops_lost", "stops_new", "stops_fewer",
    "closes_further_mm", "new_contacts",
]  # fmt: skip


def adjusted_teeth(adjusted: Iterable[Adjusted]) -> dict[str, bytes]:
    """Return every tooth that is cut, after all adjustments, as a mesh with depths, by its file."""
    cut: dict[int, CutSurface] = {}
    for item in adjusted:
        for found in item.planned.cuts:
            one = found.surface
            first = cut.get(one.tooth)
            if first is not None:  # cut once more, on what the adjustment before had left
                one = replace(one, before=first.before, arc_mm=first.arc_mm + one.arc_mm)
            cut[one.tooth] = one
    return {f"adjusted_{code}.ply": _ply(cut[code]) for code in sorted(cut)}


def _ply(surface: CutSurface) -> bytes:
    depths = {
        "depth_along_arc_mm": surface.arc_mm,
        "depth_square_mm": square_depths_mm(surface),
    }
    comments = (
        f"tooth {surface.tooth} (ISO 3950) after its adjustments; a planning aid, nothing was cut",
        f"x, y, z in mm: {coordinates(is_upper(surface.tooth))}",
        "depth_along_arc_mm: what comes off, along the closing arc, mm",
        "depth_square_mm: the same, shortest distance from the uncut surface, mm",
    )
    return ply_content(surface.after, depths, comments)


def adjustment_entries(adjusted: Iterable[Adjusted]) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of adjustments, in the order in which they are made."""
    return [
        {
            "adjustment": item.planned.adjustment,
            "cuts": [_cut_entry(cut) for cut in item.planned.cuts],
            "hindered_by": item.planned.hinders,
            "outcome": item.outcome,
        }
        for item in adjusted
    ]


def _cut_entry(cut: ToothCut) -> Mapping[str, Any]:
    surface = cut.surface
    return {
        "tooth": cut.tooth,
        "clears": cut.against,
        "rules": cut.rules,
        "cut_by_rule": cut.by_rule,
        "deepest_along_arc_mm": cut.deepest_mm,
        "deepest_square_mm": cut.deepest_square_mm,
        "place": cut.place,
        "region": cut.region,
        "volume_mm3": surface.volume_mm3,
        "area_mm2": surface.area_mm2,
        "too_high_by_mm": cut.height_mm,
        "excursion": cut.excursion,
        "travel_mm": cut.travel_mm,
        "still_too_near_mm": surface.left_mm,
        "flat_width_mm": cut.flat_mm,
    }


def adjustment_rows(adjusted: Iterable[Adjusted]) -> Iterator[Row]:
    """Yield one row for every tooth that is cut, or one without where none is."""
    for count, item in enumerate(adjusted, start=1):
        asked = item.planned.adjustment
        which = [str(count), asked.so_that, _teeth(asked.teeth)]
        cuts = [_cut_cells(cut) for cut in item.planned.cuts]
        for cells in cuts or [[""] * 17]:
            yield [*which, *cells, *_outcome_cells(item.outcome)]


def _cut_cells(cut: ToothCut) -> Row:
    surface = cut.surface
    return [
        str(cut.tooth),
        _teeth(cut.against),
        "; ".join(rule.high for rule in cut.rules),
        yes_no(cut.by_rule),
        *numbers(cut.deepest_mm, cut.deepest_square_mm, *cut.place),
        cut.region,
        *numbers(surface.volume_mm3, surface.area_mm2, cut.height_mm),
        cut.excursion,
        *numbers(cut.travel_mm, surface.left_mm),
        "" if cut.flat_mm is None else numbers(cut.flat_mm)[0],
    ]


def _outcome_cells(found: Outcome) -> Row:
    return [
        yes_no(found.is_reached),
        *(pairs_cell(pairs) for pairs in (found.stops_kept, found.stops_lost, found.stops_new)),
        "; ".join(fewer.words for fewer in found.stops_fewer),
        *numbers(found.closes_mm),
        "; ".join(
            f"{item.tooth_upper}/{item.tooth_lower} {item.excursion} from {item.start}"
            for item in found.new_contacts
        ),
    ]


def _teeth(codes: Iterable[int]) -> str:
    return " ".join(map(str, codes))
