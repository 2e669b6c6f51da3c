"""A study of one or many cases in words, for the screen."""

import textwrap
from collections.abc import Iterator, Sequence

from kinematics.planning.wording import enumeration
from kinematics.studies.many import CaseRow, gravest_first
from kinematics.uncertainty.found import Uncertainty
from scenes.case_places import CASE_FILE
from scenes.phrases import counted
from scenes.uncertainty_words import sure_in_short

_WIDTH = 96
#: Cases that are told one by one; of more there is a table among the results.
_MOST_TOLD = 20
#: Files that were not read and are named.
_MOST_NAMED = 5


def study_summary(
    cases: Sequence[tuple[CaseRow, Uncertainty | None]], unread: Sequence[str] = ()
) -> str:
    """Return what a study found, gravest case first.

    Parameters
    ----------
    cases : sequence of (CaseRow, Uncertainty or None)
        Every case, with what its samples say, if any were taken.
    unread : sequence of str
        What else stood in the folders of cases.
    """
    studied = {id(row): found for row, found in cases}
    rows = gravest_first([row for row, _ in cases])
    lines = [line for row in rows[:_MOST_TOLD] for line in _lines(row, studied[id(row)])]
    if len(rows) > _MOST_TOLD:
        lines.append(f"and {counted(len(rows) - _MOST_TOLD, 'more case')}: see the table")
    if unread:
        lines += ["", f"{unread_words(unread)}."]
    return "\n".join(lines)


def unread_words(unread: Sequence[str]) -> str:
    """Return what stood in folders of cases and was not read, in one line, and why."""
    names = [*unread[:_MOST_NAMED]]
    if len(unread) > _MOST_NAMED:
        names.append(f"{len(unread) - _MOST_NAMED} more")
    return f"not read, neither .toml nor a folder with {CASE_FILE}: {enumeration(names)}"


def _lines(row: CaseRow, found: Uncertainty | None) -> Iterator[str]:
    yield row.title if row.title == row.file else f"{row.title} ({row.file})"
    if row.refused:
        # Faults of a file stand in lines of their own, after how many there are.
        for part in f"cannot be run: {row.refused}".splitlines():
            yield from _wrapped(part.strip())
        return
    yield (
        f"  as set: {row.serious} serious, {row.attention} for attention,"
        f" {counted(row.notes, 'note')}"
    )
    for line in sure_in_short(found):
        yield from _wrapped(line)


def _wrapped(text: str) -> list[str]:
    """Return a text in lines that break between words alone, so that names of files stay whole."""
    return textwrap.wrap(
        text,
        _WIDTH,
        initial_indent="  ",
        subsequent_indent="      ",
        break_long_words=False,
        break_on_hyphens=False,
    )
