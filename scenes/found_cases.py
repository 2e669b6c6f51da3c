"""Cases that a user names: files, folders of a case, folders of many cases, built-in cases."""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from kinematics.case import Case
from kinematics.case_record_scans import with_scans_registered
from kinematics.checks import InputError
from scenes.check_command import CASE_FILE, case_path, find_case

_STRANGE: Final = re.compile(r"[^A-Za-z0-9_-]+")
#: Longest name of a case among files; a number may follow.
_LONGEST: Final = 80
#: Most cases of one study.
MOST_CASES: Final = 100_000


@dataclass(frozen=True)
class FoundCase:
    """One case.

    Attributes
    ----------
    name : str
        Letters, digits, "-" and "_", another one for every case: names its files.
    given : str
        As the user knows it: a file, or the name of a built-in case.
    case : Case or None
        What stands there; None where that makes no case.
    refused : str
        Why it makes none; empty where it does.
    """

    name: str
    given: str
    case: Case | None
    refused: str = ""

    @property
    def title(self) -> str:
        """Its title, or what it was given as."""
        return self.given if self.case is None else self.case.title


def found_cases(given: Sequence[str], progress: Callable[[str], None]) -> tuple[FoundCase, ...]:
    """Return the cases that a user names, in that order; those of a folder by their names.

    Parameters
    ----------
    given : sequence of str
        Case files, folders that hold `case.toml`, names of built-in cases; or folders of case files
        (`*.toml`) and of such folders.
    progress : callable
        Gets the name of every step that takes long.

    Raises
    ------
    InputError
        One that is named and cannot be used, or a folder without cases. A faulty case in a folder
        of many is told with the others.
    """
    found: list[FoundCase] = []
    taken: set[str] = set()
    for place, in_a_folder in _places(given):
        name = _free_name(place, taken)
        taken.add(name.lower())
        try:
            case = with_scans_registered(find_case(place), progress)
        except InputError as error:
            if not in_a_folder:
                raise
            found.append(FoundCase(name, place, None, str(error)))
        else:
            found.append(FoundCase(name, place, case))
    if len(found) > MOST_CASES:
        raise InputError(f"{len(found):,} cases: at most {MOST_CASES:,} are studied at once")
    return tuple(found)


def _places(given: Sequence[str]) -> Iterator[tuple[str, bool]]:
    """Yield where every case stands, and whether it is one of a folder of many."""
    for place in given:
        folder = case_path(place)
        if not folder.is_dir():
            yield place, False
            continue
        inside = sorted([*folder.glob("*.toml"), *folder.glob(f"*/{CASE_FILE}")])
        if not inside:
            raise InputError(
                f"{place}: this folder holds no case: neither {CASE_FILE} nor other files that end"
                f" with .toml, nor folders with {CASE_FILE}; name a case or a folder of cases"
            )
        for path in inside:
            yield str(path), True


def _free_name(place: str, taken: set[str]) -> str:
    """Return a name for files of a case that no other has."""
    path = Path(place)
    stem = path.parent.name if path.name == CASE_FILE else path.stem
    name = _STRANGE.sub("-", stem).strip("-")[:_LONGEST] or "case"
    number, free = 2, name
    while free.lower() in taken:
        number, free = number + 1, f"{name}-{number}"
    return free
