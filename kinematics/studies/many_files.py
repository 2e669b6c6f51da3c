"""Many cases as files: JSON with every digit, and a table for a spreadsheet."""

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import Any, Final

from kinematics.result_files import plain
from kinematics.result_texts import OF_A_STUDY, document_head, write_listed
from kinematics.studies.many import CaseRow, gravest_first
from kinematics.studies.quantities import EXCURSIONS
from kinematics.table_cells import Row, number, numbers, table_text

CASES_TABLE: Final = "cases.csv"
CASES_COLUMNS: Final = [
    "title", "file", "refused", "serious", "attention", "notes",
    *(f"guides_{label.replace(' ', '_')}" for label in EXCURSIONS),
    "load_across_per_along", "slide_mm", "settled", "not_settled",
    "gravest", "gravest_excursion", "gravest_holds_in", "gravest_of",
    "gravest_share", "gravest_low", "gravest_high",
]  # fmt: skip


def cases_document(rows: Sequence[CaseRow], files: Iterable[str]) -> dict[str, Any]:
    """Return the content of cases.json, gravest case first, with all files of the folder."""
    document = {
        **document_head(OF_A_STUDY, files),
        "cases": [_entry(row) for row in gravest_first(rows)],
    }
    return dict(plain(document))


def _entry(row: CaseRow) -> dict[str, Any]:
    if row.refused:
        return {"title": row.title, "file": row.file, "refused": row.refused}
    return {
        "title": row.title,
        "file": row.file,
        "serious": row.serious,
        "attention": row.attention,
        "notes": row.notes,
        "guidance": dict(row.guidance),
        "load_across_per_along": row.load,
        "slide_mm": row.slide_mm,
        "settled": row.settled,
        "not_settled": row.not_settled,
        "gravest": row.gravest,
    }


def case_rows(rows: Sequence[CaseRow]) -> Iterator[Row]:
    """Yield one row for every case, gravest first; columns `CASES_COLUMNS`."""
    for row in gravest_first(rows):
        head = [row.title, row.file, row.refused]
        if row.refused:
            yield [*head, *[""] * (len(CASES_COLUMNS) - len(head))]
            continue
        guides = dict(row.guidance)
        yield [
            *head,
            *(str(count) for count in (row.serious, row.attention, row.notes)),
            *(guides.get(label, "") for label in EXCURSIONS),
            *numbers(row.load, row.slide_mm),
            *("" if count is None else str(count) for count in (row.settled, row.not_settled)),
            *_gravest(row),
        ]


def _gravest(row: CaseRow) -> Row:
    if row.gravest is None:
        return [""] * 7
    holds = row.gravest.holds
    return [
        row.gravest.kind,
        row.gravest.excursion or "",
        str(holds.count),
        str(holds.of),
        *(number(value) for value in (holds.share, holds.low, holds.high)),
    ]


def write_cases(folder: Path, rows: Sequence[CaseRow], others: Iterable[str] = ()) -> None:
    """Write both files into an existing folder.

    Parameters
    ----------
    folder : Path
        Where to; files of the same names are overwritten.
    rows : sequence of CaseRow
        One a case.
    others : iterable of str
        Names of files that somebody else puts into the same folder.

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    tables = {CASES_TABLE: table_text(CASES_COLUMNS, case_rows(rows))}
    write_listed(folder, OF_A_STUDY, partial(cases_document, rows), tables, others)
