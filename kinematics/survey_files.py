"""What result files tell of surveyed casts: entries of findings.json, and a table."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final

import numpy as np

from kinematics.planning.surveying.survey import Survey
from kinematics.planning.surveying.tilt_search import CRITERION
from kinematics.table_cells import Row, coordinates, number, xyz, yes_no

SURVEY_FILE: Final = "survey.csv"
SURVEY_COLUMNS: Final = [
    "arch", "kind", "tooth", "side", "clasped", "faces_base", "deepest_undercut_mm",
    "usable_undercut_mm", "survey_line_above_border_mm", "gauge_025_below_line_mm",
    "gauge_050_below_line_mm", "gauge_075_below_line_mm", "guiding_height_mm", "guiding_width_mm",
    "lean_deg", "cut_for_wanted_height_mm", "off_path_deg", *xyz("point"),
]  # fmt: skip


def survey_entries(surveys: Iterable[Survey]) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of surveyed casts; points are named with their unit."""
    return [
        {
            "arch": item.side,
            "coordinates": coordinates(item.is_upper),
            "tilt_forward_deg": item.forward_deg,
            "tilt_left_deg": item.left_deg,
            "tilt_from": "occlusal plane of the arch",
            "search": item.search
            and {
                "criterion": CRITERION,
                "tilts_compared": item.search.tilts,
                "cost_mm": item.search.cost_mm,
                "cost_without_tilt_mm": item.search.level_cost_mm,
            },
            "path_of_insertion": item.path,
            "wanted_undercut_mm": item.undercut_mm,
            "guide_plane_deg": item.guide_plane_deg,
            "guide_plane_height_mm": item.guide_plane_height_mm,
            "teeth": item.teeth,
            "guide_planes": item.guides,
            "rests": item.rests,
            "tripod_marks_mm": item.tripod,
            "mucosa": item.soft,
            "survey_lines_mm": {code: list(lines) for code, lines in item.lines.items()},
            "greatest_undercut_mm": float(np.max(item.depth_mm, initial=0.0)),
        }
        for item in surveys
    ]


def survey_rows(surveys: Iterable[Survey]) -> Iterator[Row]:
    """Yield rows for sides of teeth, guide planes, rests and tripod marks; `SURVEY_COLUMNS`."""
    for item in surveys:
        yield from (_padded(item, row) for row in _rows(item))


def _rows(item: Survey) -> Iterator[dict[str, str]]:
    """Yield the cells of each row by their columns; what does not apply is left out."""
    for tooth in item.teeth:
        for side in tooth.sides:
            yield {
                "kind": "side of a tooth",
                "tooth": str(tooth.tooth),
                "side": side.side,
                "clasped": yes_no(tooth.clasped),
                "faces_base": yes_no(side.faces_base),
                "deepest_undercut_mm": number(side.deepest_mm),
                "usable_undercut_mm": number(side.usable_mm),
                "survey_line_above_border_mm": number(side.line_above_border_mm),
                **{
                    f"gauge_{round(100 * gauge.gauge_mm):03d}_below_line_mm": number(
                        gauge.below_line_mm
                    )
                    for gauge in side.gauges
                    if gauge.below_line_mm is not None
                },
            }
    for guide in item.guides:
        yield {
            "kind": "guide plane",
            "tooth": str(guide.tooth),
            "side": guide.side,
            "faces_base": "yes",
            "guiding_height_mm": number(guide.height_mm),
            "guiding_width_mm": number(guide.width_mm),
            "lean_deg": number(guide.lean_deg),
            "cut_for_wanted_height_mm": "" if guide.cut_mm is None else number(guide.cut_mm),
        }
    for rest in item.rests:
        yield {
            "kind": "rest",
            "tooth": str(rest.tooth),
            "side": rest.place,
            "off_path_deg": number(rest.off_path_deg),
        }
    for mark in item.tripod:
        yield {"kind": "tripod mark", **dict(zip(xyz("point"), map(number, mark), strict=True))}


def _padded(item: Survey, row: dict[str, str]) -> Row:
    return [{"arch": item.side, **row}.get(column, "") for column in SURVEY_COLUMNS]
