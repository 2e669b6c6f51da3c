"""What `cuspway advise` does: a case in, the smallest changes that clear flagged teeth out."""

import textwrap
from collections.abc import Callable, Sequence
from typing import Final

from kinematics.case import Case
from kinematics.case_record_scans import with_scans_registered
from kinematics.remedies.advising import advised
from scenes.remedy_words import ENTRY_INDENT, remedy_lines

_WIDTH: Final = 96
NOTHING_FLAGGED: Final = (
    "No finding calls a contact of any tooth unwanted: nothing is to be cleared. Name teeth to have"
    " them looked at all the same."
)


def advise(given: Case, teeth: Sequence[int], progress: Callable[[str], None], threads: int) -> str:
    """Return what would clear teeth of a case.

    Parameters
    ----------
    given : Case
        The case, scans that are to be brought onto each other as they are.
    teeth : sequence of int
        ISO 3950 numbers; none: those that the case names, else all that are flagged.
    progress : callable
        Gets the name of every step when it begins.
    threads : int
        How many threads may compute; the results do not depend on it.

    Raises
    ------
    InputError
        A case that cannot be used, or a tooth that is not there.
    """
    case = with_scans_registered(given, progress)
    found = advised(case, teeth or case.remedies.teeth, progress, threads)
    if not found:
        return NOTHING_FLAGGED
    return "\n".join(line for told in remedy_lines(found) for line in _wrapped(told))


def _wrapped(line: str) -> list[str]:
    if line.startswith(ENTRY_INDENT):  # to be copied as it stands
        return [line]
    indent = " " * (len(line) - len(line.lstrip()))
    return textwrap.wrap(line, _WIDTH, subsequent_indent=indent + "  ") or [""]
