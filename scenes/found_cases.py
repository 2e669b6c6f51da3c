"""Cases that a user names: files, folders of a case, folders of many cases, built-in cases."""

import os
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from kinematics.case import Case
from kinematics.checks import InputError
from scenes.case_places import CASE_FILE, case_path
from scenes.given_case import find_case

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
    in_a_folder : bool
        One of a folder of many: a fault of it does not hinder the others.
    refused : str
        Why it makes none; empty where it does.
    """

    name: str
    given: str
    case: Case | None
    in_a_folder: bool
    refused: str = ""

    @property
    def title(self) -> str:
        """Its title, or what it was given as."""
        return self.given if self.case is None else self.case.title


@dataclass(frozen=True)
class FoundCases:
    """All cases that a user names.

    Attributes
    ----------
    cases : tuple of FoundCase
        In the order in which they are named; those of a folder by their names.
    unread : tuple of str
        What else stands in the folders of cases, and no case names as a file of its own.
    """

    cases: tuple[FoundCase, ...]
    unread: tuple[str, ...]


def found_cases(given: Sequence[str]) -> FoundCases:
    """Return the cases that a user names.

    Parameters
    ----------
    given : sequence of str
        Case files, folders that hold `case.toml`, names of built-in cases; or folders of case files
        (`*.toml`) and of such folders.

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
            case = find_case(place)
        except InputError as error:
            if not in_a_folder:
                raise
            found.append(FoundCase(name, place, None, in_a_folder, str(error)))
        else:
            found.append(FoundCase(name, place, case, in_a_folder))
    if len(found) > MOST_CASES:
        raise InputError(f"{len(found):,} cases: at most {MOST_CASES:,} are studied at once")
    return FoundCases(tuple(found), tuple(_unread(given, found)))


def _places(given: Sequence[str]) -> Iterator[tuple[str, bool]]:
    """Yield where every case stands, and whether it is one of a folder of many."""
    for place in given:
        folder = case_path(place)
        if not folder.is_dir():
            yield place, False
            continue
        inside = _cases_in(folder)
        if not inside:
            raise InputError(
                f"{place}: this folder holds no case: neither {CASE_FILE} nor other files that end"
                f" with .toml, nor folders with {CASE_FILE}; name a case or a folder of cases"
            )
        for path in inside:
            yield str(path), True


def _cases_in(folder: Path) -> list[Path]:
    """Return the case files in a folder of many."""
    return sorted([*folder.glob("*.toml"), *folder.glob(f"*/{CASE_FILE}")])


def _unread(given: Sequence[str], found: Sequence[FoundCase]) -> Iterator[str]:
    """Yield what in folders of cases is no case, no file of one, and not hidden."""
    folders = [path for path in dict.fromkeys(map(case_path, given)) if path.is_dir()]
    if not folders:
        return
    known = {Path(item.given) for item in found}
    for item in found:
        if item.case is not None:
            known |= {Path(name) for name in _files_of(item.case)}
    read = {place for path in map(_whole, known) for place in (path, *path.parents)}
    for folder in folders:
        for path in sorted(folder.iterdir()):
            if not path.name.startswith(".") and _whole(path) not in read:
                yield str(path)


def _files_of(case: Case) -> list[str]:
    """Return the files that a case names: scans, records, tracks."""
    names: list[str] = []

    def noted(name: str) -> str:
        names.append(name)
        return name

    case.with_files(noted)
    return names


def _whole(path: Path) -> Path:
    """Return a path that is the same however it is named."""
    return Path(os.path.realpath(path))


def _free_name(place: str, taken: set[str]) -> str:
    """Return a name for files of a case that no other has."""
    path = Path(place)
    stem = path.parent.name if path.name == CASE_FILE else path.stem
    name = _STRANGE.sub("-", stem).strip("-")[:_LONGEST] or "case"
    number, free = 2, name
    while free.lower() in taken:
        number, free = number + 1, f"{name}-{number}"
    return free
