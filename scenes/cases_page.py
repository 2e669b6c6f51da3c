"""The page of many cases: one table, gravest first; self-contained, as the report is."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from markupsafe import Markup

from kinematics import __version__
from kinematics.planning.findings import Severity
from kinematics.result_texts import CAUTION
from kinematics.studies.many import CaseRow, gravest_first
from kinematics.studies.quantities import EXCURSIONS
from scenes import colours
from scenes.phrases import counted, length, number
from scenes.report import STYLES, TEMPLATES, template
from scenes.share_words import ShownShare, shown_share
from scenes.uncertainty_words import EXACT, NOT_OF_PATIENTS, SETTLED, share_title

CASES_PAGE: Final = "cases.html"
_NOTHING: Final = "–"


@dataclass(frozen=True)
class ShownCase:
    """One case as a row of the table.

    Attributes
    ----------
    title, file : str
        What it is called, and its file.
    counts : tuple of (str, str, int)
        Severity, its sign, and how many findings have it.
    cells : tuple of str
        What guides each excursion, largest load, slide.
    settled : str
        How many findings are settled, and how many are not.
    gravest : str
        The gravest finding that was studied, in words; empty where there is none.
    shown : ShownShare or None
        How often it holds.
    page : str
        The page of its study; empty where there is none.
    """

    title: str
    file: str
    counts: tuple[tuple[str, str, int], ...]
    cells: tuple[str, ...]
    settled: str
    gravest: str
    shown: ShownShare | None
    page: str


def cases_page(title: str, rows: Sequence[CaseRow]) -> str:
    """Return many cases as one HTML page that needs nothing from outside itself.

    Parameters
    ----------
    title : str
        Heads the page.
    rows : sequence of CaseRow
        One a case.
    """
    ordered = gravest_first(rows)
    told = [row for row in ordered if not row.refused]
    studied = any(row.settled is not None for row in told)
    return template("cases.html").render(
        title=title,
        version=__version__,
        style=Markup((TEMPLATES / STYLES[0]).read_text("utf-8")),
        caution=CAUTION,
        lead=list(_lead(ordered, studied)),
        head=_head(),
        studied=studied,
        rows=[_shown(row) for row in told],
        refused=[row for row in ordered if row.refused],
    )


def _head() -> tuple[str, ...]:
    guides = (f"guides {label}" for label in EXCURSIONS)
    load = "largest load on replacement teeth, N across per N along"
    return ("case", "serious", "attention", "notes", *guides, load, "slide from CR to MI")


def _lead(rows: Sequence[CaseRow], studied: bool) -> Iterator[str]:
    told = [row for row in rows if not row.refused]
    serious = sum(row.serious > 0 for row in told)
    yield (
        f"{counted(len(told), 'case')}, {serious} of them with serious findings in protrusion and"
        " lateral excursions from MI, the settings as they are. Cases with more serious findings"
        " stand first, then those with more findings that call for attention, then those with the"
        " larger load."
    )
    refused = len(rows) - len(told)
    if refused:
        yield f"{counted(refused, 'case')} could not be run: told at the end, each with its reason."
    if studied:
        unsure = sum(bool(row.not_settled) for row in told)
        yield f"{counted(unsure, 'case')} with findings that are not settled. {SETTLED}"
        yield f"{NOT_OF_PATIENTS} {EXACT}"


def _shown(row: CaseRow) -> ShownCase:
    severities: tuple[Severity, ...] = ("serious", "attention", "note")
    found = (row.serious, row.attention, row.notes)
    guides = dict(row.guidance)
    return ShownCase(
        row.title,
        row.file,
        tuple(
            (name, colours.SEVERITY_SIGN[name], count)
            for name, count in zip(severities, found, strict=True)
        ),
        (
            *(guides.get(label, _NOTHING) for label in EXCURSIONS),
            _NOTHING if math.isnan(row.load) else number(row.load, 2),
            _NOTHING if math.isnan(row.slide_mm) else length(row.slide_mm),
        ),
        _NOTHING if row.settled is None else f"{row.settled}, {row.not_settled}",
        share_title(row.gravest) if row.gravest else "",
        shown_share(row.gravest) if row.gravest else None,
        row.page,
    )


def write_cases_page(path: Path, html: str) -> None:
    """Write the page to a file, the same bytes for the same cases.

    Raises
    ------
    OSError
        The file cannot be written.
    """
    path.write_bytes(html.encode("utf-8"))
