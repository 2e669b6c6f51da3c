"""A case from a TOML file, and as one."""

import json
import re
import tomllib
from codecs import BOM_UTF16_BE, BOM_UTF16_LE
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, Final

from kinematics.case import Case
from kinematics.case_mi import MI_KEY, MI_SAID_TWICE
from kinematics.case_values import Fault, Location, case_from_values, is_table, values_of
from kinematics.checks import InputError
from kinematics.file_content import content_of
from kinematics.records.spread import stale_errors
from kinematics.scans.untold_teeth import untold_teeth

#: A case file is a page of text; more than this was meant to be something else.
LARGEST_BYTES: Final = 1_000_000

_ENCODING_NAMES: Final = {"utf-8-sig": "UTF-8", "utf-16": "UTF-16"}


def read_case(path: Path) -> Case:
    """Read a case file.

    Parameters
    ----------
    path : Path
        A TOML file in UTF-8, or in UTF-16 with a byte-order mark; at most `LARGEST_BYTES`. Scans
        and tracks are looked for from its folder.

    Raises
    ------
    InputError
        The file cannot be read or its content cannot be used; all faults in one message.
    """
    folder = path.absolute().parent
    values = _parse_toml(case_text(path), str(path))
    case, faults = _as_written(values)
    if case is None:
        untold = untold_teeth(values.get("scans"), folder)
        raise _refused(str(path), [*(fault.text for fault in faults), *untold])
    return case.with_files(lambda name: str(folder / name))


def case_text(path: Path) -> str:
    """Return the text of a case file, lines ended by line feeds.

    Raises
    ------
    InputError
        The file cannot be read, is too large or no text.
    """
    content = content_of(
        path,
        LARGEST_BYTES,
        "give the case file in it",
        "a case file is a page of TOML text, was another file meant?",
    )
    # Windows writes marks: editors that of UTF-8, the ">" of its older shell that of UTF-16.
    encoding = "utf-16" if content.startswith((BOM_UTF16_LE, BOM_UTF16_BE)) else "utf-8-sig"
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError as error:
        raise InputError(
            f"{path}: byte {error.start + 1} is not {_ENCODING_NAMES[encoding]} text; save the file"
            " as UTF-8"
        ) from error
    return text.replace("\r\n", "\n")


def parse_case(text: str, name: str) -> Case:
    """Make a case from TOML text.

    Parameters
    ----------
    text : str
        The content of a case file.
    name : str
        What to call it in messages.

    Raises
    ------
    InputError
        Syntax error, with line and column; or all unknown keys, values of the wrong kind or out
        of range, and contradictions, one a line.
    """
    values = _parse_toml(text.replace("\r\n", "\n"), name)
    case, faults = _as_written(values)
    if case is not None:
        return case
    raise _refused(name, [fault.text for fault in faults])


def _as_written(values: Mapping[str, Any]) -> tuple[Case | None, list[Fault]]:
    """Make a case of what a file says; also what it says twice, by defaults, is a fault."""
    case, faults = case_from_values(values)
    scans = values.get("scans")
    recorded = isinstance(scans, Mapping) and bool(scans.get("centric_records"))
    if recorded and MI_KEY in values and all(fault.text != MI_SAID_TWICE for fault in faults):
        return None, [*faults, Fault(MI_SAID_TWICE, frozenset({(MI_KEY,)}))]
    if case is not None and (stale := stale_errors(case.guidance_spread, case.guidance)):
        return None, [Fault(error.text, frozenset({("guidance_spread",)})) for error in stale]
    return case, faults


def _refused(name: str, faults: Sequence[str]) -> InputError:
    count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
    return InputError("\n".join([f"{name}: {count}", *(f"  {fault}" for fault in faults)]))


def case_toml(case: Case) -> str:
    """Return a case as the text of a case file: what differs from the defaults.

    `parse_case` makes the same case of it.
    """
    return "\n".join(_toml_table(values_of(case, all_of_them=False), ())).lstrip("\n") + "\n"


def _toml_table(values: Mapping[str, Any], at: Location) -> Iterator[str]:
    """Yield the lines of a table, then those of the tables in it.

    A list of tables within one of several is written in its line.
    """
    tables = [key for key, value in values.items() if is_table((*at, key)) and value]
    within = any(isinstance(step, int) for step in at)
    several = [
        key for key, value in values.items() if value and is_table((*at, key, 0)) and not within
    ]
    for key, value in values.items():
        if key not in (*tables, *several):
            yield f"{key} = {toml_value(value)}"
    for key in tables:
        yield from (
            "",
            # a table within one of several is of the last one begun
            f"[{'.'.join(step for step in (*at, key) if isinstance(step, str))}]",
            *_toml_table(values[key], (*at, key)),
        )
    for key in several:
        path = ".".join(map(str, (*at, key)))
        for number, table in enumerate(values[key]):
            yield from ("", f"[[{path}]]", *_toml_table(table, (*at, key, number)))


def toml_value(value: Any) -> str:
    """Return a value as TOML writes it."""
    if isinstance(value, Mapping):
        inside = ", ".join(f"{json.dumps(str(k))} = {toml_value(v)}" for k, v in value.items())
        return f"{{ {inside} }}" if inside else "{}"
    if isinstance(value, tuple | list):
        return f"[{', '.join(map(toml_value, value))}]"
    # JSON lets the sign for "delete" pass, TOML does not
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _parse_toml(text: str, name: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except RecursionError as error:
        raise InputError(
            f"{name}: brackets are nested too deeply; three levels are enough"
        ) from error
    except tomllib.TOMLDecodeError as error:
        where = re.search(r"at line (\d+), column (\d+)", str(error))
        excerpt = ""
        if where:
            line, column = int(where[1]), int(where[2])
            shown = text.split("\n")[line - 1][:100].replace("\t", " ")
            excerpt = f"\n  {shown}\n  {' ' * (min(column, 101) - 1)}^"
            if re.search(r"=\s*-?\d+,\d+\s*$", shown):
                excerpt += "\n  decimals are written with a point: 35.5"
            if re.match(r"Cannot (overwrite|declare)", str(error)):
                excerpt += "\n  this stands in the file twice: keep one of the two"
        raise InputError(f"{name}: not valid TOML: {error}{excerpt}") from error
    except ValueError as error:  # the interpreter's limit on digits
        raise InputError(f"{name}: holds a number of more than 4000 digits") from error
