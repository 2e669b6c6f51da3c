"""The text of a case file with some settings changed, and everything else in it as it was."""

import re
import tomllib
from collections.abc import Iterator, Sequence
from typing import Any, Final

from kinematics.case import Case
from kinematics.case_file import parse_case, toml_value
from kinematics.case_values import Location, is_table, values_of
from kinematics.checks import InputError

#: A line that begins a table, or one more of several.
_HEADER: Final = re.compile(r"\s*(\[\[?)([A-Za-z0-9_.\s-]+)\]\]?\s*(#.*)?")
_KEY: Final = re.compile(r"\s*([A-Za-z0-9_-]+)\s*=")


def edited_text(text: str, before: Case, after: Case) -> str | None:
    """Return the text of a case file as it would be edited by hand, comments and all.

    Parameters
    ----------
    text : str
        A case file, lines ended by line feeds.
    before, after : Case
        What it says, and what it is to say; files named as in the text.

    Returns
    -------
    str or None
        A text that says exactly what `after` is; None where it is written in a way in which that
        cannot be done line by line.
    """
    lines = text.split("\n")
    changes = [
        *_changes(values_of(before, all_of_them=False), values_of(after, all_of_them=False), ())
    ]
    for at, value in changes:
        if not _put(lines, at, value):
            return None
    edited = "\n".join(lines).rstrip("\n") + "\n"
    try:
        return edited if parse_case(edited, "edited") == after else None
    except InputError:
        return None


def has_comments(text: str) -> bool:
    """Tell whether there is a comment in the text of a case file."""
    return any(_comment(line) or line.lstrip().startswith("#") for line in text.split("\n"))


def _changes(before: Any, after: Any, at: Location) -> Iterator[tuple[Location, Any]]:
    """Yield place and new value of all settings that differ; None: no longer set."""
    several = (
        isinstance(before, list)
        and len(at) == 1
        and is_table((*at, 0))
        and len(before) == len(after or ())
    )
    if several:
        for number, (one, other) in enumerate(zip(before, after, strict=True)):
            yield from _changes(one, other, (*at, number))
    elif not at or (at and isinstance(at[-1], int)) or is_table(at):
        old, new = before or {}, after or {}
        for key in [*old, *(key for key in new if key not in old)]:
            yield from _changes(old.get(key), new.get(key), (*at, key))
    elif before != after:
        yield at, after


def _put(lines: list[str], at: Location, value: Any) -> bool:
    """Put one value into the lines; False where that cannot be done."""
    tables = _tables(lines)
    rows = [
        row
        for row, line in enumerate(lines)
        if tables[row] == at[:-1] and (found := _KEY.match(line)) and found[1] == at[-1]
    ]
    if rows:
        line = lines[rows[0]]
        if not _is_whole(line):
            return False
        comment = _comment(line)
        if value is None:  # what a comment is about stays beside it
            lines[rows[0] : rows[0] + 1] = [f"# no longer set: {line.strip()}"] if comment else []
        else:
            lines[rows[0]] = f"{at[-1]} = {toml_value(value)}{'  ' if comment else ''}{comment}"
    elif value is not None:
        _insert(lines, tables, at, f"{at[-1]} = {toml_value(value)}")
    return True


def _insert(lines: list[str], tables: Sequence[Location], at: Location, new: str) -> None:
    """Insert a line at the end of its table, which is begun if it is not there."""
    table = at[:-1]
    inside = [row for row, found in enumerate(tables) if found == table]
    begin = []
    if not inside and table:
        # A table in one of several belongs behind that one, any other to the end.
        ends = [end for end, step in enumerate(table, start=1) if isinstance(step, int)]
        holder = table[: ends[-1]] if ends else None
        inside = [r for r, found in enumerate(tables) if holder and found[: len(holder)] == holder]
        begin = ["", f"[{'.'.join(step for step in table if isinstance(step, str))}]"]
        inside = inside or [len(lines) - 1]
    row = inside[-1] + 1 if inside else 0
    while row > 0 and not lines[row - 1].strip():
        row -= 1
    apart = [""] if begin and row < len(lines) and lines[row].strip() else []
    lines[row:row] = [*begin, new, *apart]


def _tables(lines: Sequence[str]) -> list[Location]:
    """Return to which table every line belongs; a header belongs to its own."""
    found: list[Location] = []
    counts: dict[str, int] = {}
    table: Location = ()
    for line in lines:
        if (header := _HEADER.fullmatch(line)) is not None:
            steps = [step.strip() for step in header[2].split(".")]
            if header[1] == "[[":
                counts[steps[0]] = counts.get(steps[0], -1) + 1
            own = [counts[steps[0]]] if steps[0] in counts else []
            table = (steps[0], *own, *steps[1:])
        found.append(table)
    return found


def _is_whole(line: str) -> bool:
    """Tell whether a line holds a whole setting, not the beginning of one over several lines."""
    try:
        tomllib.loads(line)
    except tomllib.TOMLDecodeError:
        return False
    return True


def _comment(line: str) -> str:
    """Return the comment behind a setting, with its sign; empty where there is none."""
    for place in (match.start() for match in re.finditer("#", line)):
        if line[:place].strip() and _is_whole(line[:place]):
            return line[place:]
    return ""
