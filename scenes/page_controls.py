"""Which settings the page offers, and everything it needs to know of each."""

import dataclasses
import re
import tomllib
import types
import typing
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from typing import Any, Final

from pydantic import TypeAdapter
from pydantic.fields import FieldInfo

from kinematics.case import Case
from scenes.settings_reference import meaning_of

SIDES: Final = ("right", "left")
_SIDE: Final = "{side}"
#: Names that docstrings set off.
_CODE: Final = re.compile(r"`(\w+)`")
_UNITS: Final = {"_deg": "°", "_mm": "mm", "_um": "µm", "_n": "N"}


@cache
def control_groups() -> tuple[Mapping[str, Any], ...]:
    """Return the groups of controls, in the order of the page, as the page is told them."""
    text = files("scenes").joinpath("page_controls.toml").read_text("utf-8")
    groups = tomllib.loads(text)["groups"]
    labels = {
        entry["path"].rpartition(".")[2]: entry["label"]
        for group in groups
        for entry in group["controls"]
    }
    return tuple(
        {
            "id": group["id"],
            "title": group["title"],
            "words": group["words"],
            "slow": group["slow"],
            "controls": [_control(entry, labels) for entry in group["controls"]],
        }
        for group in groups
    )


def control_keys() -> Iterator[str]:
    """Yield the path of every setting that the page offers."""
    for group in control_groups():
        for control in group["controls"]:
            yield from control["keys"].values()


def values_for_page(case: Case) -> dict[str, Any]:
    """Return the value of every setting that the page offers, as it stands in a case.

    A table that may be left out counts as true where it is there; settings in a table that is not
    there have their defaults. None: not set, or the case has no place for it.
    """
    return {key: _value_at(case, key) for key in control_keys()}


def _value_at(case: Case, path: str) -> Any:
    """Return the value of a setting of a case; see `values_for_page`."""
    inside: Any = case
    for step in path.split("."):
        name, _, place = step.partition("[")
        inside = getattr(inside, name)
        if place:
            number = int(place.removesuffix("]"))
            inside = inside[number] if number < len(inside) else None
        if inside is None:
            break
    kind, name = _holder(path)
    if _accepted(kind, name)["type"] == "switch" and not isinstance(inside, bool):
        return inside is not None
    if inside is None and _table_left_out(case, path):
        return _default_of(kind, name)
    return inside


def _table_left_out(case: Case, path: str) -> bool:
    return ".incisal_table." in path and case.guidance.incisal_table is None


def _default_of(kind: type, name: str) -> Any:
    fields: Mapping[str, FieldInfo] = kind.__pydantic_fields__  # type: ignore[attr-defined]
    return fields[name].get_default(call_default_factory=True)


def hidden_controls(case: Case) -> list[str]:
    """Return the ids of controls whose settings a case has no place for."""
    return [
        control["id"]
        for group in control_groups()
        for control in group["controls"]
        if any(_has_no_place(case, key) for key in control["keys"].values())
    ]


def _has_no_place(case: Case, key: str) -> bool:
    """Tell whether a case cannot have a setting."""
    if key.startswith("denture_bases["):
        return int(key[len("denture_bases[")]) >= len(case.denture_bases)
    if key.startswith("load."):
        return not case.has_loads
    if key.startswith(("dentition.", "generated_path.")):
        return case.scans is not None
    if key.startswith("maximal_intercuspation."):
        return case.mi_is_recorded
    if key.startswith("scans.mounting."):
        return case.scans is None or case.scans.mounting.kind != "mean values"
    return key.startswith("scans.") and case.scans is None


def _control(entry: Mapping[str, Any], labels: Mapping[str, str]) -> Mapping[str, Any]:
    """Return everything the page needs of one setting, for one side or both.

    `labels`: what the page calls settings, by their names in a case file.
    """
    path = entry["path"]
    sided = _SIDE in path
    example = path.replace(_SIDE, SIDES[0])
    kind, name = _holder(example)
    told: dict[str, Any] = {
        "id": path.replace(_SIDE, "side"),
        "keys": {side: path.replace(_SIDE, side) for side in SIDES} if sided else {"both": path},
        "label": entry["label"],
        "unit": next((u for end, u in _UNITS.items() if name.endswith(end)), ""),
        "help": _CODE.sub(lambda m: f'"{labels.get(m[1], m[1])}"', meaning_of(kind, name)),
        "needs": entry.get("needs"),
        "choices": [],
        **_accepted(kind, name),
    }
    if "choices" in entry:
        told["type"] = "choice"
        told["choices"] = [{"value": v, "label": words} for v, words in entry["choices"].items()]
    if told["type"] == "number":
        step = entry["step"]
        told |= {"step": step, "decimals": _decimals(step)}
    return told


def _decimals(step: float) -> int:
    """Return how many decimals a step needs."""
    return len(f"{step:g}".partition(".")[2])


def _holder(path: str) -> tuple[type, str]:
    """Return the group of settings that holds a setting, and its name there."""
    kind: type = Case
    *groups, name = path.split(".")
    for step in groups:
        kind = _group_in(typing.get_type_hints(kind)[step.partition("[")[0]])
    return kind, name


def _group_in(hint: Any) -> type:
    """Return the group of settings that a type stands for, alone, in a list or left out."""
    if isinstance(hint, type) and dataclasses.is_dataclass(hint):
        return hint
    parts = typing.get_args(hint)
    return next(_group_in(p) for p in parts if p not in (types.NoneType, Ellipsis))


def _accepted(kind: type, name: str) -> Mapping[str, Any]:
    """Return the type of a control, its range, and whether it need not be set."""
    schema = _properties(kind)[name]
    options = schema.get("anyOf", [schema])
    told = next(option for option in options if option.get("type") != "null")
    optional = any(option.get("type") == "null" for option in options)
    if told.get("type") in ("number", "integer"):
        return {
            "type": "number",
            "least": told["minimum"],
            "most": told["maximum"],
            "whole": told["type"] == "integer",
            "optional": optional,
        }
    is_switch = told.get("type") == "boolean" or "$ref" in told
    return {"type": "switch" if is_switch else "choice", "optional": False}


@cache
def _properties(kind: type) -> Mapping[str, Any]:
    found: Mapping[str, Any] = TypeAdapter(kind).json_schema()["properties"]
    return found
