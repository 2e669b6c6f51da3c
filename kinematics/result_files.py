"""Results as files: JSON with every digit, tables for a spreadsheet.

The same results give the same bytes: no path, no date, no NaN (null, or an empty cell, instead).
Tables are rounded to a millionth of their unit.
"""

import dataclasses
import math
from collections.abc import Iterable, Iterator
from functools import partial
from pathlib import Path
from typing import Any, Final

import numpy as np

from kinematics.adjustment_files import adjusted_teeth
from kinematics.case import Case
from kinematics.checkup_result import Checkup
from kinematics.contact.closure import NOTHING_MEETS
from kinematics.contact.sweep import GUIDED_BY_NOTHING, GUIDED_BY_TABLE, GUIDED_BY_TEETH, Sweep
from kinematics.conventions import LEFT, RIGHT, TOLD_IF_SET
from kinematics.plan_files import plan_entries, plan_tables
from kinematics.result_texts import OF_A_CASE, document_head, write_listed
from kinematics.table_cells import Row, number, numbers, table_text, tooth_cell, xyz, yes_no
from kinematics.tracks.found_tracks import FromTracks
from kinematics.uncertainty_files import holds_in

_GUIDES: Final = {
    GUIDED_BY_TEETH: "teeth",
    GUIDED_BY_TABLE: "guide table",
    GUIDED_BY_NOTHING: "nothing",
}
_SIDES: Final = {RIGHT: "right", LEFT: "left", 0: "none"}

#: Result fields that are points in the hinge frame; their unit is added to their name.
_POINTS: Final = (
    "place",
    "point",
    "first_contact_point",
    "incisal_point",
    "incisal_point_in_mi",
    "place_in_mi",
)


def plain(value: Any) -> Any:
    """Return `value` as what JSON knows: dicts, lists, text, numbers, null.

    Dataclasses become dicts in the order of their fields, without those that are told only where
    they are set; NaN and infinity become null, and the names of points get their unit.
    """
    if dataclasses.is_dataclass(value):
        return {
            f"{field.name}_mm" if field.name in _POINTS else field.name: plain(
                getattr(value, field.name)
            )
            for field in dataclasses.fields(value)
            if field.metadata != TOLD_IF_SET or getattr(value, field.name)
        }
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, np.ndarray | np.generic):
        return plain(value.tolist())
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    if isinstance(value, float):
        return value + 0.0 if math.isfinite(value) else None
    return value


def _sweep_entry(sweep: Sweep) -> dict[str, Any]:
    return {
        "excursion": sweep.excursion.name,
        "start": sweep.excursion.start,
        "azimuth_deg": sweep.excursion.azimuth_deg,
        "poses": len(sweep.travel_mm),
        "travel_mm": sweep.travel_mm[-1],
        "edge_to_edge_mm": sweep.edge_to_edge_mm,
        "contact_tolerance_mm": sweep.tolerance_mm,
        "contact_patches": len(sweep.patches.pose),
        "pair_gap_limit_mm": sweep.gap_limit_mm,
        "upper_teeth": sweep.upper_codes,
        "lower_teeth": sweep.lower_codes,
    }


def findings_document(case: Case, checkup: Checkup, files: Iterable[str]) -> dict[str, Any]:
    """Return the content of findings.json.

    Parameters
    ----------
    case : Case
        What was asked.
    checkup : Checkup
        What came out.
    files : iterable of str
        Names of all files that stand in the same folder.
    """
    mi = checkup.mi
    document = {
        **document_head(OF_A_CASE, files),
        "frame": (
            "Hinge frame: origin midway between the condyle centres in centric relation, "
            "x anterior, y to the patient's left, z superior; mm. Angles refer to the reference "
            "plane of the case."
        ),
        "case": _without_folders(case),
        "triangles": {
            "upper": len(checkup.upper.mesh.faces),
            "lower": len(checkup.lower.mesh.faces),
        },
        "maximal_intercuspation": {
            "advance_right_mm": mi.advance_right_mm,
            "advance_left_mm": mi.advance_left_mm,
            "shift_mm": mi.shift_mm,
            "opening_deg": math.degrees(mi.opening_rad),
            "residual_mm": mi.residual_mm,
            "residual_deg": math.degrees(mi.residual_rad),
            "hinge_from_lower": checkup.mi_pose,
        },
        "lower_incisal_point_mm": checkup.incisal_point,
        "centric_slide": checkup.slide,
        "centric_stops": checkup.stops,
        "excursions": [_sweep_entry(sweep) for sweep in checkup.sweeps],
        "border_excursions": [
            {
                "excursion": border.name,
                "poses": len(border.advance_mm),
                "bennett_deg": border.bennett_deg,
                "bennett_read_at_mm": border.bennett_read_at_mm,
            }
            for border in checkup.borders
        ],
        "verdicts": checkup.verdicts,
        "replacement_contacts": checkup.replacement,
        "findings": checkup.findings,
    }
    if checkup.raised is not None:
        document["raised_bite"] = checkup.raised
    if checkup.scans is not None:
        document["scans"] = checkup.scans
    if checkup.doubts is not None:
        document["contacts_on_rims"] = checkup.doubts.on_rims
        document["scan_quality"] = checkup.doubts.quality
    if checkup.centric is not None:
        document["centric_records"] = checkup.centric
    if checkup.recorded is not None:
        document["interocclusal_records"] = checkup.recorded
    if checkup.tracked is not None:
        document["jaw_tracks"] = _without_lines(checkup.tracked)
        document["casts_along_tracks"] = checkup.driven
    if checkup.marks:
        document["observed_marks"] = checkup.marks
    document |= plan_entries(case, checkup)
    told = dict(plain(document))
    if checkup.uncertainty is not None:
        shares = holds_in(checkup.findings, checkup.uncertainty)
        for entry, share in zip(told["findings"], shares, strict=True):
            entry["holds_in"] = plain(share)
    if case.mi_is_recorded:
        del told["case"]["maximal_intercuspation"]  # its default, which nothing was made from
    return told


def _without_folders(case: Case) -> Case:
    """Return the case with its files named alone: results tell nothing of the machine."""
    return case.with_files(lambda name: Path(name).name)


def _without_lines(tracked: FromTracks) -> dict[str, Any]:
    """Return what tracks say without the lines for pictures, row by row."""
    fields = (field.name for field in dataclasses.fields(tracked))
    return {name: getattr(tracked, name) for name in fields if name != "lines"}


def _which_pose(sweep: Sweep, pose: int) -> Row:
    """Return the cells under `POSE_COLUMNS`."""
    travel = number(float(sweep.travel_mm[pose]))
    return [sweep.excursion.name, sweep.excursion.start, str(pose), travel]


POSE_COLUMNS: Final = ["excursion", "start", "pose", "travel_mm"]

CONTACT_COLUMNS: Final = [
    *POSE_COLUMNS, "tooth_upper", "tooth_lower", *xyz("centroid"), "area_mm2", "least_gap_mm",
    "normal_x", "normal_y", "normal_z",
]  # fmt: skip


def contact_rows(checkup: Checkup) -> Iterator[Row]:
    """Yield one row for every contact patch of every pose; columns `CONTACT_COLUMNS`."""
    for sweep in checkup.sweeps:
        patches = sweep.patches
        for k, pose in enumerate(patches.pose):
            yield [
                *_which_pose(sweep, pose),
                tooth_cell(patches.tooth_upper[k]),
                tooth_cell(patches.tooth_lower[k]),
                *numbers(
                    patches.centroid[k],
                    patches.area_mm2[k],
                    patches.least_gap_mm[k],
                    patches.normal[k],
                ),
            ]


TRACK_COLUMNS: Final = [
    *POSE_COLUMNS, "beyond_edge_to_edge",
    "advance_right_mm", "advance_left_mm", "shift_mm",
    "working_side", "laterotrusion_mm", "mediotrusion_mm", "opening_deg",
    *xyz("incisal_point"), *xyz("condyle_right"), *xyz("condyle_left"),
    "guide", "first_contact_upper", "first_contact_lower", *xyz("first_contact"),
    "runner_up_upper", "runner_up_lower", "runner_up_arc_gap_mm",
]  # fmt: skip


def track_rows(checkup: Checkup) -> Iterator[Row]:
    """Yield one row for every pose of every excursion; columns `TRACK_COLUMNS`."""
    for sweep in checkup.sweeps:
        at, first, second = sweep.positions, sweep.closures, sweep.runner_up
        for i in range(len(sweep.travel_mm)):
            nothing = first.status[i] == NOTHING_MEETS
            yield [
                *_which_pose(sweep, i),
                yes_no(sweep.crossover[i]),
                *numbers(at.advance_right_mm[i], at.advance_left_mm[i], at.shift_mm[i]),
                _SIDES[int(at.working_side[i])],
                *numbers(at.laterotrusion_mm[i], at.medial_mm[i]),
                *numbers(math.degrees(sweep.opening_rad[i])),
                *numbers(sweep.incisal_point[i], at.condyle_right[i], at.condyle_left[i]),
                _GUIDES[int(sweep.guide[i])],
                tooth_cell(first.tooth_upper[i]),
                tooth_cell(first.tooth_lower[i]),
                *(["", "", ""] if nothing else numbers(first.point[i])),
                tooth_cell(second.tooth_upper[i]),
                tooth_cell(second.tooth_lower[i]),
                *numbers(sweep.runner_up_gap_mm[i]),
            ]


GAP_COLUMNS: Final = [*POSE_COLUMNS, "tooth_upper", "tooth_lower", "gap_mm"]


def gap_rows(checkup: Checkup) -> Iterator[Row]:
    """Yield one row for every tooth pair nearer than the limit in a pose; `GAP_COLUMNS`."""
    for sweep in checkup.sweeps:
        for i, upper, lower in np.argwhere(np.isfinite(sweep.pair_gap_mm)):
            yield [
                *_which_pose(sweep, i),
                str(sweep.upper_codes[upper]),
                str(sweep.lower_codes[lower]),
                *numbers(sweep.pair_gap_mm[i, upper, lower]),
            ]


BORDER_COLUMNS: Final = [
    "excursion", "pose", "advance_mm",
    *xyz("incisal_point"), *xyz("condyle_right"), *xyz("condyle_left"),
]  # fmt: skip


def border_rows(checkup: Checkup) -> Iterator[Row]:
    """Yield one row for every pose of the excursions without teeth; `BORDER_COLUMNS`."""
    for border in checkup.borders:
        for i in range(len(border.advance_mm)):
            yield [
                border.name,
                str(i),
                *numbers(
                    border.advance_mm[i],
                    border.incisal_point[i],
                    border.condyle_right[i],
                    border.condyle_left[i],
                ),
            ]


def write_results(folder: Path, case: Case, checkup: Checkup, others: Iterable[str] = ()) -> None:
    """Write findings.json, tables and adjusted teeth into an existing folder.

    Parameters
    ----------
    folder : Path
        Where to; files of the same names are overwritten.
    case, checkup : Case, Checkup
        What was asked and what came out.
    others : iterable of str
        Names of files that somebody else puts into the same folder.

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    tables = {
        "contacts.csv": (CONTACT_COLUMNS, contact_rows(checkup)),
        "tracks.csv": (TRACK_COLUMNS, track_rows(checkup)),
        "gaps.csv": (GAP_COLUMNS, gap_rows(checkup)),
        "borders.csv": (BORDER_COLUMNS, border_rows(checkup)),
    }
    tables |= plan_tables(checkup)
    meshes = adjusted_teeth(checkup.adjusted)
    texts = {name: table_text(columns, rows) for name, (columns, rows) in tables.items()}
    document = partial(findings_document, case, checkup)
    write_listed(folder, OF_A_CASE, document, texts, [*meshes, *others])
    for name, content in meshes.items():
        (folder / name).write_bytes(content)
