"""Two runs side by side as files: JSON with every digit, and tables for a spreadsheet."""

from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from pathlib import Path
from typing import Any, Final

from kinematics.comparing.comparison import Comparison
from kinematics.comparing.matched_findings import STATES, MatchedFinding
from kinematics.planning.stops import Stop
from kinematics.result_files import plain
from kinematics.result_texts import OF_A_COMPARISON, document_head, write_listed
from kinematics.table_cells import Row, number, numbers, table_text, tooth_cell, xyz

FINDINGS_TABLE: Final = "compared_findings.csv"
STOPS_TABLE: Final = "compared_stops.csv"

FINDING_COLUMNS: Final = [
    "state", "kind", "excursion", "tooth_upper", "tooth_lower",
    "severity_before", "severity_after", "figure", "unit", "before", "after",
]  # fmt: skip
STOP_COLUMNS: Final = ["state", "tooth_upper", "tooth_lower", *xyz("place_before"), *xyz("place")]


def comparison_document(
    titles: tuple[str, str], comparison: Comparison, files: Iterable[str]
) -> dict[str, Any]:
    """Return the content of comparison.json.

    Parameters
    ----------
    titles : (str, str)
        Of the case before and after.
    comparison : Comparison
        What is different.
    files : iterable of str
        Names of all files that stand in the same folder.
    """
    stops, bite = comparison.stops, comparison.bite
    document = {
        **document_head(OF_A_COMPARISON, files),
        "before": titles[0],
        "after": titles[1],
        "counts": {state: len(comparison.of_state(state)) for state in STATES},
        "teeth_gone": comparison.teeth_gone,
        "teeth_new": comparison.teeth_new,
        "bite": bite,
        "verdicts": comparison.verdicts,
        "stops": {
            "gone": stops.gone,
            "new": stops.new,
            "kept": [{"before": one, "after": other} for one, other in stops.kept],
        },
        "largest_loads_per_100_n": comparison.loads,
        "findings": [_finding_entry(item) for item in comparison.findings],
    }
    return dict(plain(document))


def _finding_entry(item: MatchedFinding) -> Mapping[str, Any]:
    return {
        "state": item.state,
        "before": item.before,
        "after": item.after,
        "figures_that_differ": item.figures,
    }


def finding_rows(comparison: Comparison) -> Iterator[Row]:
    """Yield one row for every finding, or every figure of it that differs; `FINDING_COLUMNS`."""
    for item in comparison.findings:
        told = item.told
        cells = [
            item.state,
            told.kind,
            told.excursion or "",
            tooth_cell(told.tooth_upper or 0),
            tooth_cell(told.tooth_lower or 0),
            item.before.severity if item.before else "",
            item.after.severity if item.after else "",
        ]
        for figure in item.figures:
            ends = [_cell(figure.before), _cell(figure.after)]
            yield [*cells, figure.name, figure.unit, *ends]
        if not item.figures:
            yield [*cells, "", "", "", ""]


def _cell(value: float | None) -> str:
    return "" if value is None else number(value)


def stop_rows(comparison: Comparison) -> Iterator[Row]:
    """Yield one row for every centric stop of either run; `STOP_COLUMNS`."""
    stops = comparison.stops
    for state, one, other in (
        *(("gone", stop, None) for stop in stops.gone),
        *(("new", None, stop) for stop in stops.new),
        *(("kept", *both) for both in stops.kept),
    ):
        told = one or other
        assert told is not None
        teeth = [tooth_cell(told.tooth_upper), tooth_cell(told.tooth_lower)]
        yield [state, *teeth, *_place(one), *_place(other)]


def _place(stop: Stop | None) -> Row:
    return ["", "", ""] if stop is None else numbers(*stop.point)


def write_comparison(
    folder: Path, titles: tuple[str, str], comparison: Comparison, others: Iterable[str] = ()
) -> None:
    """Write comparison.json and the tables into an existing folder.

    Parameters
    ----------
    folder : Path
        Where to; files of the same names are overwritten.
    titles, comparison
        See `comparison_document`.
    others : iterable of str
        Names of files that somebody else puts into the same folder.

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    tables = {
        FINDINGS_TABLE: table_text(FINDING_COLUMNS, finding_rows(comparison)),
        STOPS_TABLE: table_text(STOP_COLUMNS, stop_rows(comparison)),
    }
    document = partial(comparison_document, titles, comparison)
    write_listed(folder, OF_A_COMPARISON, document, tables, others)
