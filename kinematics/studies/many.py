"""Many cases side by side: what each has with its settings as they are, and how sure that is."""

import json
import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final

from kinematics.engine.plan import Row
from kinematics.planning.findings import SEVERITIES, Severity
from kinematics.studies.point import FINDINGS, REFUSED
from kinematics.studies.quantities import EXCURSIONS, GUIDES, LOAD
from kinematics.uncertainty.found import FindingShare, Uncertainty

#: Severities, the gravest first.
_GRAVEST: Final[tuple[Severity, ...]] = tuple(reversed(SEVERITIES))


@dataclass(frozen=True)
class CaseRow:
    """One of many cases.

    Attributes
    ----------
    title, file : str
        What it is called, and the name of its file.
    refused : str
        Why it makes no case; empty where it does. Then nothing else is told.
    serious, attention, notes : int
        Findings with the settings as they are, by severity.
    guidance : tuple of (str, str)
        Excursion, and what guides it.
    load : float
        Largest load across replacement teeth, N across per N along; NaN without such teeth.
    slide_mm : float
        From first contact in CR to MI, at the lower incisal point; NaN where it is not told.
    settled, not_settled : int or None
        How many findings samples of uncertain settings settle, and how many they do not; None where
        they were not studied.
    gravest : FindingShare or None
        Of the gravest finding, the one that holds most often; None where there is none that was
        studied.
    page : str
        Name of the page of its study beside that of all cases; empty where there is none.
    """

    title: str
    file: str
    refused: str = ""
    serious: int = 0
    attention: int = 0
    notes: int = 0
    guidance: tuple[tuple[str, str], ...] = ()
    load: float = math.nan
    slide_mm: float = math.nan
    settled: int | None = None
    not_settled: int | None = None
    gravest: FindingShare | None = None
    page: str = ""


def case_row(
    title: str,
    file: str,
    as_set: Row,
    studied: Uncertainty | None = None,
    slide_mm: float = math.nan,
) -> CaseRow:
    """Return one case as a row among others.

    Parameters
    ----------
    title, file : str
        What it is called, and the name of its file.
    as_set : Row
        The run without changes; see `kinematics.studies.point.run_sample`.
    studied : Uncertainty, optional
        The study of its uncertain settings.
    slide_mm : float, optional
        From first contact in CR to MI.
    """
    if as_set[REFUSED]:
        return CaseRow(title, file, str(as_set[REFUSED]))
    counts = Counter(json.loads(text)[2] for text in _texts(as_set, FINDINGS))
    loads = [
        float(value)
        for name, value in as_set.items()
        if name.startswith(LOAD) and isinstance(value, float)
    ]
    guides = tuple((label, str(as_set[f"{GUIDES}: {label}"])) for label in EXCURSIONS)
    row = CaseRow(
        title,
        file,
        "",
        counts["serious"],
        counts["attention"],
        counts["note"],
        guides,
        max(loads, default=math.nan),
        slide_mm,
    )
    return row if studied is None else _with_shares(row, studied)


def _texts(row: Row, name: str) -> tuple[str, ...]:
    value = row[name]
    return () if isinstance(value, int | float | str) else tuple(value)


def _with_shares(row: CaseRow, studied: Uncertainty) -> CaseRow:
    shares = studied.findings
    settled = sum(item.settled != "not settled" for item in shares)
    grave = (
        max(own, key=lambda item: item.holds.share)
        for severity in _GRAVEST
        if (own := [item for item in shares if item.as_set == severity])
    )
    return replace(
        row, settled=settled, not_settled=len(shares) - settled, gravest=next(grave, None)
    )


def gravest_first(rows: Iterable[CaseRow]) -> tuple[CaseRow, ...]:
    """Return cases by how many serious findings they have, then other findings, then their load.

    Those that make no case come last; equals keep their order.
    """
    return tuple(sorted(rows, key=_order))


def _order(row: CaseRow) -> tuple[bool, int, int, float]:
    load = 0.0 if math.isnan(row.load) else row.load
    return bool(row.refused), -row.serious, -row.attention, -load
