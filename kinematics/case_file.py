"""A case from a TOML file, and as one."""

import json
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from kinematics.case import Case
from kinematics.case_mi import MI_KEY, MI_SAID_TWICE
from kinematics.case_values import Fault, Location, case_from_values, is_table, values_of
from kinematics.checks import InputError
from kinematics.records.spread import stale_errors
from kinematics.scans.untold_teeth import untold_teeth
from kinematics.toml_text import parse_toml, text_of


def read_case(path: Path) -> Case:
    """Read a case file.

    Parameters
    ----------
    path : Path
        A TOML file in UTF-8, or in UTF-16 with a byte-order mark; at most a megabyte. Scans
        and tracks are looked for from its folder.

    Raises
    ------
    InputError
        The file cannot be read or its content cannot be used; all faults in one message.
    """
    folder = path.absolute().parent
    values = parse_toml(text_of(path, "case"), str(path))
    case, faults = _as_written(values)
    if case is None:
        untold = untold_teeth(values.get("scans"), folder)
        raise _refused(str(path), [*(fault.text for fault in faults), *untold])
    return case.with_files(lambda name: str(folder / name))


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
    values = parse_toml(text.replace("\r\n", "\n"), name)
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
