"""A case from nested values: every fault found at once, each with where it is and what fits."""

import json
import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from kinematics.case import Case
from kinematics.checks import Contradictions, nearest_word

_ADAPTER: Final = TypeAdapter(Case)
_SCHEMA: Final[dict[str, Any]] = _ADAPTER.json_schema()

_WANTED: Final = {
    "float_type": "a number",
    "float_parsing": "a number",
    "int_type": "a whole number",
    "int_parsing": "a whole number",
    "int_from_float": "a whole number",
    "string_type": "a text in quotes",
    "bool_type": "true or false",
    "bool_parsing": "true or false",
    "tuple_type": "a list in square brackets",
    "list_type": "a list in square brackets",
    "dict_type": "a table of keys and values",
    "dataclass_type": "a table of keys and values",
    "model_type": "a table of keys and values",
    "finite_number": "a finite number",
}
_BOUNDS: Final = {
    "minimum": "at least",
    "exclusiveMinimum": "more than",
    "maximum": "at most",
    "exclusiveMaximum": "less than",
}
_UNITS: Final = {
    "_deg": " degrees",
    "_mm": " mm",
    "_um": " micrometres",
    "_n": " N",
    "_mpa": " MPa",
    "_percent": " percent",
}

_MISSING: Final = ("missing", "missing_argument", "missing_keyword_only_argument")

#: What pydantic adds to a location where the key of a table is at fault, not the value.
_OF_THE_KEY: Final = "[key]"

#: Keys and positions that lead to a place in a case file.
Location = tuple[str | int, ...]


@dataclass(frozen=True)
class Fault:
    """Something that keeps values from being a case.

    Attributes
    ----------
    text : str
        One line: where, what was found, what is accepted.
    places : frozenset of Location
        What has a part in it, as far as that is known.
    """

    text: str
    places: frozenset[Location]


def case_from_values(values: Mapping[str, Any]) -> tuple[Case | None, list[Fault]]:
    """Make a case from nested values, as they stand in a case file.

    Parameters
    ----------
    values : mapping
        Tables as mappings with texts as keys, lists, numbers, texts, true and false.

    Returns
    -------
    case : Case or None
        None where there are faults.
    faults : list of Fault
        Unknown keys, values of the wrong kind or out of range, and contradictions.
    """
    impossible = dict(_values_no_setting_has(values, ()))
    told = [Fault(f"{key_path(at)}{text}", frozenset({at})) for at, text in impossible.items()]
    # What is at fault is left out, so that its default stands in, and the rest is looked at again:
    # so contradictions are found beside faulty values, unless a default has a part in them.
    left_out = set(impossible)
    while True:
        try:
            # JSON, because there a list may stand for a tuple while "35" may not stand for 35
            content = json.dumps(_without(values, left_out))
            case: Case = _ADAPTER.validate_json(content, strict=True)
            break
        except ValidationError as error:
            found = [_placed(details, values, left_out) for details in error.errors()]
        more: set[Location] = set()
        for details in found:
            if details["type"] == "too_short" and _has_faults_within(details, found):
                continue
            faults, places = _told(details, left_out)
            told += faults
            more |= places
        if more <= left_out:
            break
        left_out |= more
    if not told:
        return case, []
    return None, list({fault.text: fault for fault in told}.values())


def values_of(case: Case, *, all_of_them: bool) -> dict[str, Any]:
    """Return a case as nested values, what is not set left out.

    Parameters
    ----------
    case : Case
        The case.
    all_of_them : bool
        Defaults too, or only what differs from them.
    """
    values: dict[str, Any] = _ADAPTER.dump_python(
        case, mode="json", exclude_none=True, exclude_defaults=not all_of_them
    )
    return values


def may_be_left_out(table: Location) -> bool:
    """Tell whether there is a table of settings of that name that a case need not have."""
    if not table:
        return False
    inner = _followed(table[:-1])[1].get("properties", {}).get(table[-1], {})
    members = inner.get("anyOf", [])
    return {"type": "null"} in members and "properties" in _resolved(inner)


def is_table(at: Location) -> bool:
    """Tell whether there is a table of settings of that name, not a mapping or a single setting."""
    return "properties" in _followed(at)[1]


def has_setting(table: Location, key: str) -> bool:
    """Tell whether a table of settings has one of that name."""
    return key in _followed(table)[1].get("properties", {})


def numbers_in(table: Location = ()) -> Iterator[Location]:
    """Yield the places of all numbers within a table of settings, set or not, none of lists."""
    for key in _followed(table)[1].get("properties", {}):
        inner = _followed((*table, key))[1]
        if "properties" in inner:
            yield from numbers_in((*table, key))
        elif inner.get("type") == "number":
            yield (*table, key)


def _values_no_setting_has(
    values: Mapping[str, Any] | list[Any], at: Location
) -> Iterator[tuple[Location, str]]:
    """Yield place and fault of every NaN, infinity, date and time."""
    for step, value in enumerate(values) if isinstance(values, list) else values.items():
        if isinstance(value, dict | list):
            yield from _values_no_setting_has(value, (*at, step))
        elif isinstance(value, float) and not math.isfinite(value):
            yield (*at, step), f" = {value}: must be a finite number"
        elif not isinstance(value, str | int | float):
            yield (*at, step), f" = {value}: no setting is a date or time; put a text in quotes"


def _without(value: Any, left_out: set[Location], at: Location = ()) -> Any:
    """Return the content of a case file without what stands at some places."""
    if not left_out:
        return value
    if isinstance(value, dict):
        places = {key: (*at, key) for key in value}
        return {
            key: _without(value[key], left_out, place)
            for key, place in places.items()
            if place not in left_out
        }
    if isinstance(value, list):
        kept = [(*at, index) for index in range(len(value)) if (*at, index) not in left_out]
        return [_without(value[int(place[-1])], left_out, place) for place in kept]
    return value


def _placed(details: ErrorDetails, value: Any, left_out: set[Location]) -> ErrorDetails:
    """Return a fault with its place in the whole file: what is left out of lists counts again."""
    at: Location = ()
    for step in details["loc"]:
        if isinstance(value, list) and isinstance(step, int):
            kept = [index for index in range(len(value)) if (*at, index) not in left_out]
            step = kept[step] if step < len(kept) else len(value)
            value = value[step] if step < len(value) else None
        else:
            value = value.get(step) if isinstance(value, dict) else None
        at = (*at, step)
    return {**details, "loc": at}


def _told(details: ErrorDetails, left_out: set[Location]) -> tuple[list[Fault], set[Location]]:
    """Return what is said about one fault found by pydantic, and what to leave out for it.

    Nothing is said where something that was left out had a part in it.
    """
    at = tuple(step for step in details["loc"] if step != _OF_THE_KEY)
    path, message = _fault(details)
    contradictions = details.get("ctx", {}).get("error")
    if isinstance(contradictions, Contradictions):
        faults, places = [], set()
        for keys, text in contradictions.found:
            part = [(*at, *_steps(key)) for key in keys]
            if not any(touch(one, other) for one in part for other in left_out):
                blamed = frozenset(part or filter(None, [at]))
                faults.append(Fault(f"{path}: {text}" if path else text, blamed))
            places.update(part or [at])
        # Of the whole case nothing is left to be looked at.
        return faults, places if at else set()
    if details["type"] == "value_error":
        return [Fault(f"{path}{message}", frozenset({at}))], {at}
    place = at[:-1] if details["type"] in _MISSING else at
    touched = any(touch(place, other) for other in left_out)
    while len(place) > 1 and isinstance(place[-1], int) and isinstance(place[-2], int):
        place = place[:-1]  # of a point with a faulty number the whole point
    return [] if touched else [Fault(f"{path}{message}", frozenset({place}))], {place}


def _steps(key: str) -> Location:
    """Return the steps of a key path as contradictions name it: "observed_marks[0].movement"."""
    found = re.findall(r"([^.\[\]]+)|\[(\d+)\]", key)
    return tuple(name if name else int(number) for name, number in found)


def touch(one: Location, other: Location) -> bool:
    """Tell whether one place is the other or lies within it."""
    length = min(len(one), len(other))
    return one[:length] == other[:length]


def key_path(at: Location) -> str:
    """Return a key path as it would be typed: denture_bases[0].teeth[2]."""
    path = ""
    for step in at:
        if isinstance(step, int):
            path += f"[{step}]"
        else:
            path += "." + (step if re.fullmatch(r"[\w-]+", step) else json.dumps(step))
    return path.lstrip(".")


def _shown(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False, default=str)
    return text if len(text) <= 60 else text[:57] + "..."


def _has_faults_within(list_fault: ErrorDetails, faults: list[ErrorDetails]) -> bool:
    """Tell whether a list is only too short because faulty entries were not counted."""
    at = list_fault["loc"]
    return any(len(f["loc"]) > len(at) and f["loc"][: len(at)] == at for f in faults)


def _fault(details: ErrorDetails) -> tuple[str, str]:
    """Return the path of one fault found by pydantic, and what to say after it."""
    kind, found = details["type"], details["input"]
    at, schema = _followed(details["loc"])
    path = key_path(at)
    if details["loc"][-1:] == (_OF_THE_KEY,):
        return path, f": this key must be {_WANTED[kind]}"
    if kind == "unexpected_keyword_argument":
        known = list(_followed(details["loc"][:-1])[1].get("properties", {}))
        hint = nearest_word(str(at[-1]), known) or ";"
        return path, f": unknown key{hint} known keys: {', '.join(known)}"
    if kind in _MISSING:
        return path, ": missing; this must be given"
    if kind == "value_error":
        message = str(details["ctx"]["error"])
        return path, f": {message}" if path else message
    if words := [str(word) for word in schema.get("enum", [])]:
        listed = ", ".join(f"'{word}'" for word in words)
        wanted = f"one of {listed}{nearest_word(str(found), words)}"
    else:
        wanted = ", ".join(filter(None, [_WANTED.get(kind, ""), _range(schema, path)]))
    return path, f" = {_shown(found)}: must be {wanted or 'otherwise: ' + details['msg']}"


def _range(schema: dict[str, Any], path: str) -> str:
    """Return the accepted range in words, with the unit that the key or its table carries."""
    keys = re.split(r"[.\[]", path)
    units = [_UNITS[end] for key in reversed(keys) for end in _UNITS if key.endswith(end)]
    unit = units[0] if units else ""
    limits = {word: schema[bound] for bound, word in _BOUNDS.items() if bound in schema}
    if "at least" in limits and "at most" in limits:
        return f"{limits['at least']:g} to {limits['at most']:g}{unit}"
    texts = [f"{word} {limit:g}{unit}" for word, limit in limits.items()]
    least = schema.get("minItems", schema.get("minLength", 0))
    most = schema.get("maxItems", schema.get("maxLength"))
    things = "letters" if schema.get("type") == "string" else "entries"
    if most is not None:
        texts.append(f"{f'{least} to ' if least != most else ''}{most} {things} long")
    elif least > 0:
        texts.append(f"{least} or more {things} long")
    return " and ".join(texts)


def _resolved(schema: dict[str, Any]) -> dict[str, Any]:
    """Return what a reference points to; of something or nothing, the something."""
    if "$ref" in schema:
        definition: dict[str, Any] = _SCHEMA["$defs"][schema["$ref"].rpartition("/")[2]]
        return definition
    members = [m for m in schema.get("anyOf", []) if m.get("type") != "null"]
    return _resolved(members[0]) if len(members) == 1 else schema


def _followed(location: Location) -> tuple[Location, dict[str, Any]]:
    """Follow a location of pydantic through the JSON schema of a case.

    Returns
    -------
    at : tuple of str or int
        The keys and positions.
    schema : dict
        What is wanted there; empty where the schema does not say.
    """
    at: Location = ()
    schema = _SCHEMA
    for step in location:
        if step == _OF_THE_KEY:
            continue
        at = (*at, step)
        if isinstance(step, int):
            fixed = schema.get("prefixItems", [])
            schema = fixed[step] if step < len(fixed) else schema.get("items", {})
        else:
            properties = schema.get("properties", {})
            schema = properties.get(step) or schema.get("additionalProperties") or {}
        schema = _resolved(schema)
    return at, schema
