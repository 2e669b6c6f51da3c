"""A case with some settings changed, each named by its path in the case file."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, Final

from kinematics.case import Case
from kinematics.case_values import (
    Fault,
    Location,
    case_from_values,
    has_setting,
    may_be_left_out,
    touch,
    values_of,
)
from kinematics.checks import InputError
from kinematics.records.spread import without_stale
from kinematics.trial.rules import KEY

#: What a setting is changed to; None: it is not set, as without its line in the case file.
Changed = float | str | bool | None
#: A trial set-up: of every change what stands in its table of a case file; None: left out.
SetUp = Sequence[Mapping[str, Changed]]

_STEP: Final = re.compile(r"([^.\[\]]+)((?:\[\d{1,4}\])*)")


class ChangesRefused(InputError):
    """Changes that make no case.

    Parameters
    ----------
    faults : list of Fault
        What is wrong with the case they would make.
    paths : sequence of str
        Of all changes.
    """

    def __init__(self, faults: list[Fault], paths: Sequence[str]) -> None:
        super().__init__("\n".join(fault.text for fault in faults))
        places = [place for fault in faults for place in fault.places]
        #: The changes that have a part in it, as far as that is known.
        self.keys = tuple(
            path for path in paths if any(touch(_location(path), place) for place in places)
        )


def changed_case(case: Case, changes: Mapping[str, Changed], set_up: SetUp | None = None) -> Case:
    """Return a case with some settings changed.

    Parameters
    ----------
    case : Case
        Is left as it is.
    changes : mapping
        New values by the path of their settings in a case file, as
        "guidance.right.condylar_inclination_deg", "dentition.over_erupted_mm.46" or
        "denture_bases[0].scheme". A table that a case need not have is put in by true and taken out
        by false ("guidance.incisal_table"); changes within a table that is not there wait until it
        is. Standard errors that belong to another value of a changed setting are left out.
    set_up : sequence of mappings, optional
        Changes of teeth in place of all that the case has; none: they stay.

    Raises
    ------
    ChangesRefused
        The changes name no settings, are out of range, or contradict each other or the case; all
        faults, one a line.
    """
    values = values_of(case, all_of_them=True)
    faults: list[Fault] = []
    switches = {
        path: value
        for path, value in changes.items()
        if isinstance(value, bool) and may_be_left_out(_location(path))
    }
    for path in sorted(switches, key=len):  # outer tables first
        _switch(values, _location(path), bool(switches[path]))
    for path, value in changes.items():
        at = _location(path)
        if path not in switches and not _waits(values, at):
            faults += _put(values, at, path, value)
    paths = list(changes)
    if set_up is not None:
        values[KEY] = [{k: v for k, v in one.items() if v is not None} for one in set_up]
        paths += [f"{KEY}[{number}]" for number in range(len(set_up))]
    changed, more = case_from_values(values)
    faults += more
    if changed is None or faults:
        raise ChangesRefused(faults, paths)
    spread = without_stale(changed.guidance_spread, changed.guidance)
    return (
        changed if spread is changed.guidance_spread else replace(changed, guidance_spread=spread)
    )


def setting_of(case: Case, path: str) -> Any:
    """Return what a case has for a setting, defaults too, as it stands in a case file.

    Parameters
    ----------
    case : Case
        The case.
    path : str
        As for `changed_case`.

    Returns
    -------
    object
        None where it is not set, or where there is no such setting.
    """
    inside: Any = values_of(case, all_of_them=True)
    for step in _location(path):
        inside = _inner(inside, step)
    return inside


def _location(path: str) -> Location:
    """Return the steps of a path; one that is none becomes a single, unknown key."""
    steps = [_STEP.fullmatch(part) for part in path.split(".")]
    found: list[str | int] = []
    for step in steps:
        if step is None:
            return (path,)
        found += [step[1], *map(int, re.findall(r"\d+", step[2]))]
    return tuple(found)


def _inner(values: Any, step: str | int) -> Any:
    """Return what lies one step within values; None where there is nothing."""
    if isinstance(values, dict):
        return values.get(step)
    if isinstance(values, list) and isinstance(step, int) and step < len(values):
        return values[step]
    return None


def _switch(values: dict[str, Any], table: Location, there: bool) -> None:
    """Put a table in, with its defaults, or take it out."""
    holder: Any = values
    for step in table[:-1]:
        holder = _inner(holder, step)
    if not isinstance(holder, dict):
        return
    if there:
        holder.setdefault(table[-1], {})
    else:
        holder.pop(table[-1], None)


def _waits(values: dict[str, Any], at: Location) -> bool:
    """Tell whether a change belongs to a table that is not there."""
    inside: Any = values
    for depth, step in enumerate(at[:-1], 1):
        inside = _inner(inside, step)
        table = at[:depth]
        if inside is None and may_be_left_out(table):
            key = at[depth]
            return isinstance(key, str) and has_setting(table, key)
    return False


def _put(values: dict[str, Any], at: Location, path: str, value: Changed) -> list[Fault]:
    """Put one value in place; return what hinders it."""
    inside: Any = values
    for step in at[:-1]:
        if isinstance(inside, dict) and isinstance(step, str):
            inside = inside.setdefault(step, {})
        else:
            inside = _inner(inside, step)
    last = at[-1]
    if isinstance(inside, dict) and isinstance(last, str):
        if value is None:
            inside.pop(last, None)
        else:
            inside[last] = value
    elif value is not None and _inner(inside, last) is not None:
        inside[last] = value
    else:
        return [Fault(f"{path}: there is no such setting in this case", frozenset({at}))]
    return []
