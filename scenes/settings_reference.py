"""Every setting of a case file with its default, what is accepted, and what it means.

Read from the settings themselves and their docstrings, as TOML text: what is printed can be used as
a case file.
"""

import dataclasses
import inspect
import re
import textwrap
import types
import typing
from collections.abc import Iterator, Mapping
from typing import Any, Final

from pydantic.fields import FieldInfo

from kinematics.case import Case
from kinematics.case_file import toml_value

_WIDTH: Final = 96
_INDENT: Final = "#   "
_ATTRIBUTES: Final = re.compile(r"Attributes\n-+\n(.*)", re.DOTALL)
_ENTRY: Final = re.compile(r"^(?=\w)", re.MULTILINE)
_HEAD: Final = """\
# Every setting of a case file, at its default. Keys that need not be given are commented out.
# The unit is part of each name: _mm millimetres, _um micrometres, _deg degrees.
"""
#: How types of the program are called in a case file.
_PLAIN: Final = (
    (r"\btuple of\b", "list of"),
    (r"\bmapping of (.+?) to\b", r"table from \1 to"),
    (r", or None\b", "; may be left out"),
    (r"\bfloat\b", "number"),
    (r"\bint\b", "whole number"),
    (r"\bstr\b", "text"),
    (r"\bbool\b", "true or false"),
)


@dataclasses.dataclass(frozen=True)
class _About:
    """What a docstring says of a setting: accepted values and meaning."""

    accepted: str
    meaning: str


def settings_reference() -> str:
    """Return every setting as TOML text with comments; it parses as the default case."""
    return "\n".join((_HEAD, *_table("", Case))).rstrip() + "\n"


def meaning_of(kind: type, name: str) -> str:
    """Return what a setting of a group means, as its docstring says; empty where it says nothing.

    Parameters
    ----------
    kind : type
        Group of settings.
    name : str
        One of them.
    """
    return _about(kind).get(name, _About("", "")).meaning


def _about(kind: type) -> Mapping[str, _About]:
    """Return what the Attributes sections say, by name: of a group, and of what it builds on."""
    about: dict[str, _About] = {}
    for part in reversed(kind.__mro__):
        about |= _about_own(part)
    return about


def _about_own(kind: type) -> Mapping[str, _About]:
    found = _ATTRIBUTES.search(inspect.cleandoc(kind.__doc__ or ""))
    about: dict[str, _About] = {}
    for entry in _ENTRY.split(found[1]) if found else ():
        head, _, text = entry.partition("\n")
        names, _, accepted = head.partition(" : ")
        meaning = " ".join(text.split())
        for name in filter(None, (part.strip() for part in names.split(","))):
            about[name] = _About(_in_plain_words(accepted), meaning)
    return about


def _in_plain_words(accepted: str) -> str:
    for pattern, words in _PLAIN:
        accepted = re.sub(pattern, words, accepted)
    return accepted


def _inner(hint: Any) -> tuple[type | None, bool]:
    """Return the group of settings a type stands for, and whether there may be several of it."""
    if dataclasses.is_dataclass(hint) and isinstance(hint, type):
        return hint, False
    origin = typing.get_origin(hint)
    if origin is tuple:
        return _inner(typing.get_args(hint)[0])[0], True
    if origin in (typing.Union, types.UnionType):
        inner = (_inner(part) for part in typing.get_args(hint))
        return next((kind for kind, _ in inner if kind is not None), None), False
    return None, False


def _table(path: str, kind: type, optional: bool = False) -> Iterator[str]:
    """Yield the lines of one group of settings, then those of the groups in it."""
    about, hints = _about(kind), typing.get_type_hints(kind)
    groups = []
    mark = "# " if optional else ""
    for name, default in _defaults(kind).items():
        inner, several = _inner(hints[name])
        if inner is not None:
            groups.append((name, default, inner, several))
            continue
        yield from _setting(name, default, about.get(name, _About("", "")), mark)
    for name, default, inner, several in groups:
        inside = f"{path}.{name}" if path else name
        may_be_left_out = optional or several or default is None
        mark = "# " if may_be_left_out else ""
        yield from ("", *_comment(about[name].meaning))
        yield mark + (f"[[{inside}]]" if several else f"[{inside}]")
        yield from _table(inside, inner, may_be_left_out)


def _setting(name: str, value: Any, about: _About, mark: str) -> Iterator[str]:
    """Yield the lines of one setting; one without a default is left to be filled in."""
    yield ""
    yield from _comment(f"{about.accepted}. {about.meaning}" if about.accepted else about.meaning)
    yield f"# {name} = ..." if value is None else f"{mark}{name} = {toml_value(value)}"


def _defaults(kind: type) -> dict[str, Any]:
    """Return the default of every setting, None where there is none."""
    fields: Mapping[str, FieldInfo] = kind.__pydantic_fields__  # type: ignore[attr-defined]
    return {
        name: None if field.is_required() else field.get_default(call_default_factory=True)
        for name, field in fields.items()
    }


def _comment(text: str) -> list[str]:
    return textwrap.wrap(text, _WIDTH, initial_indent="# ", subsequent_indent=_INDENT)
