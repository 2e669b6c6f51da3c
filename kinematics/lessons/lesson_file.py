"""A lesson from a TOML file, with every fault told: in which line, what, and what is accepted."""

import json
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, Final

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from kinematics.checks import InputError, nearest_word
from kinematics.lessons.conditions import NOW, START, condition, sought
from kinematics.lessons.explanations import named_in
from kinematics.lessons.formulas import formula_named
from kinematics.lessons.lesson import Lesson
from kinematics.toml_text import line_of, parse_toml, text_of

Location = tuple[str | int, ...]

_ADAPTER: Final = TypeAdapter(Lesson)
_SCHEMA: Final[dict[str, Any]] = _ADAPTER.json_schema()
_MISSING: Final = ("missing", "missing_argument")
_UNKNOWN: Final = "unexpected_keyword_argument"


def read_lesson(path: Path) -> Lesson:
    """Read a lesson file.

    Raises
    ------
    InputError
        The file cannot be read or used; all faults in one message, each with its line.
    """
    return parse_lesson(text_of(path, "lesson"), str(path))


def parse_lesson(text: str, name: str) -> Lesson:
    """Make a lesson from TOML text.

    Parameters
    ----------
    text : str
        The content of a lesson file, lines ended by line feeds.
    name : str
        What to call it in messages.

    Raises
    ------
    InputError
        Syntax error; or all unknown keys, wrong values, conditions and formulas that cannot be
        understood, one a line.
    """
    values = parse_toml(text, name)
    try:
        # JSON, because there a list may stand for a tuple while "35" may not stand for 35
        lesson: Lesson = _ADAPTER.validate_json(json.dumps(values, default=str), strict=True)
    except ValidationError as error:
        faults = [(_place(details), _words(details, values)) for details in error.errors()]
        raise _refused(text, name, list(_innermost(faults))) from error
    misunderstood = list(_misunderstood(lesson))
    if misunderstood:
        raise _refused(text, name, misunderstood)
    return lesson


def _innermost(faults: list[tuple[Location, str]]) -> Iterator[tuple[Location, str]]:
    """Yield faults without those of lists that lack only what has a fault itself."""
    for at, words in faults:
        if not any(len(other) > len(at) and other[: len(at)] == at for other, _ in faults):
            yield at, words


def _refused(text: str, name: str, faults: list[tuple[Location, str]]) -> InputError:
    count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
    lines = [f"  line {line_of(text, at)}, {_path(at)}: {words}" for at, words in faults]
    return InputError("\n".join([f"{name}: {count}", *lines]))


def _path(at: Location) -> str:
    told = ""
    for step in at:
        told += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if told else step
    return told or "the lesson"


def _place(details: ErrorDetails) -> Location:
    return tuple(step for step in details["loc"] if step != "[key]")


def _words(details: ErrorDetails, values: Mapping[str, Any]) -> str:
    """Say what is wrong with a value, and what is accepted."""
    at, kind = _place(details), details["type"]
    if kind in _MISSING:
        return "is missing"
    if kind == _UNKNOWN:
        known = sorted(_accepted(at[:-1]))
        return f"unknown key{nearest_word(str(at[-1]), known)}; accepted are {', '.join(known)}"
    found = values
    for step in at:
        found = found[step]  # type: ignore[index]
    shown = json.dumps(found, default=str, ensure_ascii=False)
    return f"{details['msg']}; found {shown[:80]}"


def _accepted(table: Location) -> Iterator[str]:
    """Yield the keys that a table of a lesson may have."""
    schema: Mapping[str, Any] = _SCHEMA
    for step in table:
        schema = _resolved(schema)
        if isinstance(step, int):
            schema = schema.get("items", {})
        else:
            inner = schema.get("properties", {})
            schema = inner.get(step, schema.get("additionalProperties", {}))
    yield from _resolved(schema).get("properties", {})


def _resolved(schema: Mapping[str, Any]) -> Mapping[str, Any]:
    name = schema.get("$ref", "").rpartition("/")[2]
    found: Mapping[str, Any] = _SCHEMA["$defs"][name] if name else schema
    return found


def _misunderstood(lesson: Lesson) -> Iterator[tuple[Location, str]]:
    """Yield names, conditions and formulas that stand for nothing."""
    for name in lesson.moments:
        if name in (NOW, START) or len(name.split()) != 1:
            yield (
                ("moments", name),
                f"cannot be the name of a moment: one word, and neither '{NOW}' nor '{START}'",
            )
    yield from _tried(("readings",), lesson.readings, lambda text: sought(text, lesson.moments))

    def understood(text: str) -> object:
        return condition(text, lesson.moments)

    for i, one in enumerate(lesson.rounds):
        at: Location = ("rounds", i)
        yield from _tried((*at, "goal"), one.goal, understood)
        for k, answer in enumerate(one.answers):
            yield from _tried((*at, "answers", k, "holds"), answer.holds, understood)
        names = tuple(named_in(one.explain))
        for _, fault in _tried((), names, lambda text: sought(text, lesson.moments)):
            yield (*at, "explain"), fault
        if one.formula is not None:
            for _, fault in _tried((), (one.formula,), formula_named):
                yield (*at, "formula"), fault


def _tried(
    at: Location, texts: tuple[str, ...], read: Callable[[str], object]
) -> Iterator[tuple[Location, str]]:
    for i, text in enumerate(texts):
        try:
            read(text)
        except InputError as error:
            yield (*at, i), str(error)
