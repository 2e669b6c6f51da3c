"""A case from a TOML file: every fault found at once, each with where, what came and what fits."""

import json
import math
import re
import tomllib
from codecs import BOM_UTF16_BE, BOM_UTF16_LE
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from kinematics.case import Case
from kinematics.checks import Contradictions, InputError, nearest_word

#: A case file is a page of text; more than this was meant to be something else.
LARGEST_BYTES: Final = 1_000_000

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
_UNITS: Final = {"_deg": " degrees", "_mm": " mm", "_um": " micrometres"}

_ENCODING_NAMES: Final = {"utf-8-sig": "UTF-8", "utf-16": "UTF-16"}

_MISSING: Final = ("missing", "missing_argument", "missing_keyword_only_argument")

#: What pydantic adds to a location where the key of a table is at fault, not the value.
_OF_THE_KEY: Final = "[key]"

#: Keys and positions that lead to a place in a case file.
Location = tuple[str | int, ...]


def read_case(path: Path) -> Case:
    """Read a case file.

    Parameters
    ----------
    path : Path
        A TOML file in UTF-8, or in UTF-16 with a byte-order mark; at most `LARGEST_BYTES`.

    Raises
    ------
    InputError
        The file cannot be read or its content cannot be used; all faults in one message.
    """
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError as error:
        raise InputError(f"{path}: there is no such file") from error
    except IsADirectoryError as error:
        raise InputError(f"{path}: is a folder; give the case file in it") from error
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        reason = getattr(error, "strerror", None) or error
        raise InputError(f"{path}: cannot be read ({reason})") from error
    if len(content) > LARGEST_BYTES:
        raise InputError(
            f"{path}: larger than {LARGEST_BYTES / 1e6:g} MB; a case file is a page of TOML text, "
            "was another file meant?"
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
    return parse_case(text, str(path))


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
    impossible = dict(_values_no_setting_has(values, ()))
    faults = dict.fromkeys(f"{_key_path(at)}{message}" for at, message in impossible.items())
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
            lines, places = _told(details, left_out)
            faults |= dict.fromkeys(lines)
            more |= places
        if more <= left_out:
            break
        left_out |= more
    if not faults:
        return case
    count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
    raise InputError("\n".join([f"{name}: {count}", *(f"  {line}" for line in faults)]))


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


def _values_no_setting_has(value: Any, at: Location) -> Iterator[tuple[Location, str]]:
    """Yield place and fault of every NaN, infinity, date and time."""
    if isinstance(value, dict):
        for key, item in value.items():
            yield from _values_no_setting_has(item, (*at, key))
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _values_no_setting_has(item, (*at, index))
    elif isinstance(value, float) and not math.isfinite(value):
        yield at, f" = {value}: must be a finite number"
    elif not isinstance(value, str | int | float):
        yield at, f" = {value}: no setting is a date or time; put a text in quotes"


def _without(value: Any, left_out: set[Location], at: Location = ()) -> Any:
    """Return the content of a case file without what stands at some places."""
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


def _told(details: ErrorDetails, left_out: set[Location]) -> tuple[list[str], set[Location]]:
    """Return what is said about one fault found by pydantic, and what to leave out for it.

    Nothing is said where something that was left out had a part in it.
    """
    at = tuple(step for step in details["loc"] if step != _OF_THE_KEY)
    path, message = _fault(details)
    contradictions = details.get("ctx", {}).get("error")
    if isinstance(contradictions, Contradictions):
        lines, places = [], set()
        for keys, text in contradictions.found:
            part = [(*at, *key.split(".")) for key in keys]
            if not any(_touch(one, other) for one in part for other in left_out):
                lines.append(f"{path}: {text}" if path else text)
            places.update(part or [at])
        # Of the whole case nothing is left to be looked at.
        return lines, places if at else set()
    if details["type"] == "value_error":
        return [f"{path}{message}"], {at}
    place = at[:-1] if details["type"] in _MISSING else at
    touched = any(_touch(place, other) for other in left_out)
    while len(place) > 1 and isinstance(place[-1], int) and isinstance(place[-2], int):
        place = place[:-1]  # of a point with a faulty number the whole point
    return [] if touched else [f"{path}{message}"], {place}


def _touch(one: Location, other: Location) -> bool:
    """Tell whether one place is the other or lies within it."""
    length = min(len(one), len(other))
    return one[:length] == other[:length]


def _key_path(at: Location) -> str:
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
    path = _key_path(at)
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
