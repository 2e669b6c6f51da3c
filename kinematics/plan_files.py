"""What result files tell for planning, part by part: entries of findings.json, and tables."""

from collections.abc import Iterator
from typing import Any

from kinematics.adjustment_files import (
    ADJUSTMENT_COLUMNS,
    ADJUSTMENTS_FILE,
    adjustment_entries,
    adjustment_rows,
)
from kinematics.advice_files import ADVICE_COLUMNS, ADVICE_FILE, advice_entries, advice_rows
from kinematics.border_files import OUTLINE_COLUMNS, OUTLINES_FILE, outline_entry, outline_rows
from kinematics.case import Case
from kinematics.checkup_result import Checkup
from kinematics.denture_files import SUPPORT_COLUMNS, SUPPORTS_FILE, framework_entries, support_rows
from kinematics.extent_files import SET_UP_COLUMNS, SET_UPS_FILE, extent_entries, set_up_rows
from kinematics.load_files import load_entries, load_tables
from kinematics.plane_files import PLANE_COLUMNS, PLANE_FILE, plane_entries, plane_rows
from kinematics.remedy_files import REMEDIES_FILE, REMEDY_COLUMNS, remedy_entries, remedy_rows
from kinematics.room_files import room_entries, room_tables
from kinematics.sequence_files import (
    SEQUENCE_COLUMNS,
    SEQUENCE_FILE,
    sequence_entries,
    sequence_rows,
)
from kinematics.survey_files import SURVEY_COLUMNS, SURVEY_FILE, survey_entries, survey_rows
from kinematics.table_cells import Row
from kinematics.uncertainty_files import uncertainty_entry, uncertainty_tables
from kinematics.wax_up_files import WAX_UP_COLUMNS, WAX_UP_FILE, wax_up_entries, wax_up_rows

Table = tuple[list[str], Iterator[Row]]


def plan_entries(case: Case, checkup: Checkup) -> dict[str, Any]:
    """Return what findings.json tells of every part that has anything to tell, by its name."""
    told = {
        "border_movements": outline_entry(checkup.outlines),
        "occlusal_planes": plane_entries(checkup.planes),
        "denture_frameworks": framework_entries(checkup.frameworks),
        "loads_per_100_n": load_entries(checkup.loads),
        "lengths_of_set_ups": extent_entries(checkup.extents),
        "schemes_of_replaced_teeth": advice_entries(checkup.advice, case.judging),
        **room_entries(checkup.rooms),
        "survey": survey_entries(checkup.surveys),
        "wax_ups": wax_up_entries(checkup.wax_ups),
        "adjustments": adjustment_entries(checkup.adjusted),
        "remedies": remedy_entries(checkup.remedies),
        "order_of_work": sequence_entries(checkup.sequence),
        "uncertainty": uncertainty_entry(checkup.uncertainty),
    }
    return {name: entries for name, entries in told.items() if entries}


def plan_tables(checkup: Checkup) -> dict[str, Table]:
    """Return columns and rows of every table by its file.

    That of the occlusal plane is always there; others where the case has what they tell of.
    """
    tables: dict[str, Table] = {PLANE_FILE: (PLANE_COLUMNS, plane_rows(checkup.planes))}
    tables |= load_tables(checkup.loads) | room_tables(checkup.rooms)
    if checkup.outlines is not None:
        tables[OUTLINES_FILE] = (OUTLINE_COLUMNS, outline_rows(checkup.outlines))
    if checkup.frameworks:
        tables[SUPPORTS_FILE] = (SUPPORT_COLUMNS, support_rows(checkup.frameworks))
    if checkup.extents:
        tables[SET_UPS_FILE] = (SET_UP_COLUMNS, set_up_rows(checkup.extents))
    if checkup.advice:
        tables[ADVICE_FILE] = (ADVICE_COLUMNS, advice_rows(checkup.advice))
    if checkup.surveys:
        tables[SURVEY_FILE] = (SURVEY_COLUMNS, survey_rows(checkup.surveys))
    if checkup.wax_ups:
        tables[WAX_UP_FILE] = (WAX_UP_COLUMNS, wax_up_rows(checkup.wax_ups))
    if checkup.adjusted:
        tables[ADJUSTMENTS_FILE] = (ADJUSTMENT_COLUMNS, adjustment_rows(checkup.adjusted))
    if checkup.remedies:
        tables[REMEDIES_FILE] = (REMEDY_COLUMNS, remedy_rows(checkup.remedies))
    if checkup.sequence is not None and checkup.sequence.steps:
        tables[SEQUENCE_FILE] = (SEQUENCE_COLUMNS, sequence_rows(checkup.sequence))
    if checkup.uncertainty is not None:
        tables |= uncertainty_tables(checkup.uncertainty)
    return tables
