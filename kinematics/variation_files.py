"""A case over a grid of its settings as files: JSON with every run, tables for a spreadsheet."""

import json
from collections.abc import Iterable, Iterator
from functools import partial
from pathlib import Path
from typing import Any, Final

from kinematics.engine.plan import Row as Run
from kinematics.result_files import plain
from kinematics.result_texts import OF_A_VARIATION, document_head, write_listed
from kinematics.studies.point import FINDINGS
from kinematics.table_cells import Row, number, table_text
from kinematics.varying.flips import Crossing
from kinematics.varying.grid import PARTS, Grid, Place
from kinematics.varying.variation import Flip, Variation

RUNS_TABLE: Final = "vary.csv"
FLIPS_TABLE: Final = "flips.csv"

_GRID_POINT: Final = "grid"
_BETWEEN: Final = "between"
_AS_SET: Final = "as set"
FLIP_COLUMNS: Final = [
    "kind", "name", "excursion", "teeth", "severity", "as_set",
    "setting", "from", "to", "other_setting", "other_value", "said_at_from", "said_at_to",
]  # fmt: skip


def variation_document(title: str, found: Variation, files: Iterable[str]) -> dict[str, Any]:
    """Return the content of vary.json.

    Parameters
    ----------
    title : str
        Of the case.
    found : Variation
        What was found.
    files : iterable of str
        Names of all files that stand in the same folder.
    """
    grid = found.grid
    document = {
        **document_head(OF_A_VARIATION, files),
        "case": title,
        "axes": [
            {
                "setting": axis.setting,
                "paths": axis.paths,
                "values": axis.values,
                "as_set": axis.as_set,
            }
            for axis in grid.axes
        ],
        "columns": found.columns,
        "as_set": _told_run(found.as_set),
        "runs": [
            {"run": _which(place), "at": grid.values(place), **_told_run(found.runs[place])}
            for place in sorted(found.runs)
        ],
        "flips": [_flip_entry(grid, flip) for flip in found.flips],
    }
    return dict(plain(document))


def _told_run(run: Run) -> dict[str, Any]:
    findings = [json.loads(text) for text in _texts(run[FINDINGS])]
    return {**run, FINDINGS: findings}


def _flip_entry(grid: Grid, flip: Flip) -> dict[str, Any]:
    return {
        "features": flip.features,
        "severity": flip.severity,
        "as_set": flip.as_set,
        "crossings": [
            {
                "setting": grid.axes[crossing.axis].setting,
                "from": grid.values(crossing.low),
                "to": grid.values(crossing.high),
                "said_at_from": crossing.before,
                "said_at_to": crossing.after,
            }
            for crossing in flip.crossings
        ],
    }


def _which(place: Place) -> str:
    return _GRID_POINT if all(parts % PARTS == 0 for parts in place) else _BETWEEN


def run_rows(found: Variation) -> Iterator[Row]:
    """Yield one row for every run: which, its settings, all it says; that of the case last."""
    for place in sorted(found.runs):
        settings = [number(value) for value in found.grid.values(place)]
        yield [_which(place), *settings, *_cells(found, found.runs[place])]
    own = ["" if axis.as_set is None else number(axis.as_set) for axis in found.grid.axes]
    yield [_AS_SET, *own, *_cells(found, found.as_set)]


def _cells(found: Variation, run: Run) -> Row:
    return [_cell(name, run[name]) for name in found.columns]


def _cell(name: str, value: int | float | str | Iterable[str]) -> str:
    if isinstance(value, float):
        return number(value)
    if isinstance(value, int | str):
        return str(value)
    return "; ".join(_finding_cell(text) for text in value) if name == FINDINGS else " ".join(value)


def _finding_cell(text: str) -> str:
    kind, excursion, severity, pairs, *_ = json.loads(text)
    teeth = " ".join("/".join(str(code) for code in pair if code) for pair in pairs).strip()
    return ", ".join(filter(None, [f"{severity}: {kind}", excursion, teeth]))


def _texts(value: int | float | str | Iterable[str]) -> Iterable[str]:
    return () if isinstance(value, int | float | str) else value


def flip_rows(found: Variation) -> Iterator[Row]:
    """Yield one row for every place where something flips; `FLIP_COLUMNS`."""
    for flip in found.flips:
        first = flip.first
        pairs = (feature.pair for feature in flip.features if any(feature.pair))
        teeth = " ".join("/".join(str(code) for code in pair if code) for pair in pairs)
        about = [first.kind, first.name, first.excursion, teeth, flip.severity or "", flip.as_set]
        for crossing in flip.crossings:
            yield [*about, *_where(found.grid, crossing), crossing.before, crossing.after]


def _where(grid: Grid, crossing: Crossing) -> Row:
    low, high = grid.values(crossing.low), grid.values(crossing.high)
    own = crossing.axis
    cells = [grid.axes[own].setting, number(low[own]), number(high[own])]
    others = [i for i in range(len(grid.axes)) if i != own]
    other = [(grid.axes[i].setting, number(low[i])) for i in others] or [("", "")]
    return [*cells, *other[0]]


def write_variation(folder: Path, title: str, found: Variation, others: Iterable[str] = ()) -> None:
    """Write vary.json and the tables into an existing folder.

    Parameters
    ----------
    folder : Path
        Where to; files of the same names are overwritten.
    title, found
        See `variation_document`.
    others : iterable of str
        Names of files that somebody else puts into the same folder.

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    columns = ["run", *(axis.setting for axis in found.grid.axes), *found.columns]
    tables = {
        RUNS_TABLE: table_text(columns, run_rows(found)),
        FLIPS_TABLE: table_text(FLIP_COLUMNS, flip_rows(found)),
    }
    document = partial(variation_document, title, found)
    write_listed(folder, OF_A_VARIATION, document, tables, others)
