"""The readings of all excursions as rows; what several share is told once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from kinematics.planning.articulation import Verdict
from scenes.report_tables import readings_table, starts_in_mi


@dataclass(frozen=True)
class ReadingRow:
    """One reading position.

    Attributes
    ----------
    name : str
        Its travel.
    kind : str
        The guidance kind that all its cells share; empty where they differ.
    cells : tuple of (str, str, int)
        Kind where they differ, pairs, and columns that it fills.
    """

    name: str
    kind: str
    cells: tuple[tuple[str, str, int], ...]


@dataclass(frozen=True)
class ExcursionReadings:
    """What was read along one excursion, but for what all of its start share."""

    verdict: Verdict
    title: str
    rows: tuple[ReadingRow, ...]


@dataclass(frozen=True)
class AllReadings:
    """Readings of a case.

    Attributes
    ----------
    head : tuple of str
        Names of the columns: travel, and the tolerances.
    starts : tuple of ReadingRow
        What touches in MI, and in CR, where all excursions from there say the same.
    excursions : tuple of ExcursionReadings
        In the order of the verdicts.
    """

    head: tuple[str, ...]
    starts: tuple[ReadingRow, ...]
    excursions: tuple[ExcursionReadings, ...]


def all_readings(verdicts: Sequence[Verdict], titles: Mapping[str, str]) -> AllReadings:
    """Return the readings of a case; neighbouring cells that say the same become one.

    Parameters
    ----------
    verdicts : sequence of Verdict
        What guides each excursion.
    titles : mapping of str to str
        Headings of the excursions by their labels.
    """
    tables = [readings_table(verdict) for verdict in verdicts]
    shared = {start: _shared_start(verdicts, start) for start in ("MI", "CR")}
    starts = [_row("0.0 mm", cells) for cells in shared.values() if cells]
    excursions = []
    for verdict, table in zip(verdicts, tables, strict=True):
        told = shared["MI" if starts_in_mi(verdict.excursion) else "CR"]
        rows = [row for row in table.rows if not (row[0] == "0.0 mm" and row[1:] == told)]
        title = titles.get(verdict.excursion, verdict.excursion)
        excursions.append(
            ExcursionReadings(verdict, title, tuple(_row(row[0], row[1:]) for row in rows))
        )
    head = max((table.head for table in tables), key=len, default=())
    return AllReadings(head, tuple(starts), tuple(excursions))


def _shared_start(verdicts: Sequence[Verdict], start: str) -> tuple[str, ...]:
    """Return the cells of 0 mm that all excursions from MI, or from CR, share; none for a few."""
    found = {
        row[1:]
        for verdict in verdicts
        if starts_in_mi(verdict.excursion) == (start == "MI")
        for row in readings_table(verdict).rows
        if row[0] == "0.0 mm"
    }
    return found.pop() if len(found) == 1 else ()


def _row(name: str, cells: Sequence[str]) -> ReadingRow:
    merged = []
    for text, same in groupby(cells):
        kind, _, pairs = text.partition("\n")
        merged.append((kind, pairs, len(list(same))))
    kinds = {kind for kind, _, _ in merged}
    if len(kinds) > 1:
        return ReadingRow(name, "", tuple(merged))
    return ReadingRow(
        name, "".join(kinds), tuple(("", pairs, columns) for _, pairs, columns in merged)
    )
