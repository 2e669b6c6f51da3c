"""What `cuspway records` does: a case with interocclusal records in, what they give out."""

import os
import textwrap
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Final

from kinematics.case import Case
from kinematics.case_by_records import CaseByRecords, case_by_records
from kinematics.case_file import case_toml, parse_case
from kinematics.case_record_scans import with_scans_registered
from kinematics.case_text import edited_text, has_comments
from kinematics.checks import InputError
from kinematics.records.from_records import settings_from_records
from kinematics.records.settings import KEY
from kinematics.toml_text import text_of
from scenes.argument_parts import WRITE
from scenes.case_places import case_path
from scenes.case_words import PLANES
from scenes.output_folder import new_file_in_one_piece, refuse_there
from scenes.record_words import record_lines, record_words

_WIDTH: Final = 96


def records(case: Case, given: str, new_file: Path | None, progress: Callable[[str], None]) -> str:
    """Return what the records of a case say, and write a case with the settings found.

    Parameters
    ----------
    case : Case
        The case, scans that are to be brought onto each other as they are.
    given : str
        As the user named it.
    new_file : Path or None
        Case file to be written, whole or not at all; nothing is written without it.
    progress : callable
        Gets the name of every step when it begins, where scans of records take time.

    Raises
    ------
    InputError
        A case that cannot be used or has no records, or a file that is there already or cannot be
        written.
    NotConverged
        Records that no guidance comes near to.
    """
    if not case.interocclusal_records:
        raise InputError(
            f"{given}: has no {KEY}; add them to the case file, as 'cuspway settings' describes"
        )
    refuse_there(new_file, WRITE)
    case = with_scans_registered(case, progress)
    found = settings_from_records(case.recorded)
    words = record_words(found, case.recorded.fitting, PLANES[case.guidance.reference_plane])
    assert words is not None
    made = None if new_file is None else case_by_records(case)
    return with_what_follows(record_lines(words), made, new_file, given)


def with_what_follows(
    lines: Sequence[str], made: CaseByRecords | None, new_file: Path | None, given: str
) -> str:
    """Return lines for the screen, and write a case with what follows, if one was made.

    Parameters
    ----------
    lines : sequence of str
        What was found.
    made : CaseByRecords or None
        The case with it.
    new_file : Path or None
        Where to write that.
    given : str
        What it was made from, as the user named it.

    Raises
    ------
    InputError
        The file cannot be written.
    """
    told = [*lines]
    if made is not None and new_file is not None:
        comments = _write(new_file, made.case, given)
        told += ["", *(f"Not as found: {note}." for note in made.notes)]
        told.append(f"Written to {new_file}: the case with these settings and standard errors.")
        told += filter(None, [comments])
    return "\n".join(wrapped for line in told for wrapped in _wrapped(line))


def _wrapped(line: str) -> list[str]:
    indent = " " * (len(line) - len(line.lstrip()))
    return textwrap.wrap(line, _WIDTH, subsequent_indent=indent + "  ") or [""]


def _write(path: Path, case: Case, given: str) -> str:
    """Write a case file whole, under another name first, beside it.

    Returns what became of the comments of the file that it was made from.
    """
    folder = path.absolute().parent
    text, told = _text(case.with_files(lambda name: _relative(name, folder)), given)
    parse_case(text, str(path))  # what is written can be read
    with new_file_in_one_piece(path, WRITE) as made:
        made.write_bytes(text.encode("utf-8"))
    return told


def _text(case: Case, given: str) -> tuple[str, str]:
    """Return the text of a case, with the comments of the one given where that is possible."""
    path = case_path(given)
    before = text_of(path, "case") if path.is_file() else ""
    if not has_comments(before):
        return case_toml(case), ""
    edited = edited_text(before, parse_case(before, given), case)
    if edited is not None:
        return edited, "Comments of the old file are kept."
    return case_toml(case), (
        "Comments of the old file are not taken along: its lines could not be edited one by one."
    )


def _relative(name: str, folder: Path) -> str:
    """Return a file named from a folder, if it lies on the same drive."""
    try:
        return Path(os.path.relpath(name, folder)).as_posix()
    except ValueError:
        return name
