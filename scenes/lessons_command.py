"""What `cuspway lessons` does: names of lessons, one as text to start from, what they can read."""

import textwrap
from collections.abc import Iterator, Mapping
from importlib.resources import files
from pathlib import Path
from typing import Final

from kinematics.checks import InputError, nearest_word
from kinematics.contact.workers import Workers
from kinematics.lessons.formula_table import FORMULAS
from kinematics.lessons.kept_teeth import KeptTeeth
from kinematics.lessons.lesson import Lesson
from kinematics.lessons.played import tried
from kinematics.lessons.readings import KINDS
from scenes.builtin_cases import builtin_case
from scenes.lesson_places import builtin_lessons, own_lessons

_WIDTH: Final = 96
_UNITS: Final = {"deg": "degrees"}
_CAPITALS: Final = (
    "In place of the capitals stand a tooth number (ISO 3950), right or left, or a number."
)


def lessons_text(name: str | None, check: Path | None, readings: bool) -> str:
    """Return what the command prints.

    Parameters
    ----------
    name : str or None
        Of a built-in lesson whose text is wanted.
    check : Path or None
        A lesson file, or a folder of them, to be looked through.
    readings : bool
        Whether all readings and formulas are wanted.

    Raises
    ------
    InputError
        There is no such lesson, or one that was to be looked through cannot be used.
    """
    if readings:
        return "\n".join(_readings())
    if check is not None:
        return "".join(_checked(own_lessons(check)))
    known = builtin_lessons()
    if name is None:
        width = max(map(len, known))
        return "".join(f"{one:{width}}  {lesson.title}\n" for one, lesson in known.items())
    if name.isdigit() and 1 <= int(name) <= len(known):
        name = list(known)[int(name) - 1]
    if name not in known:
        hint = nearest_word(name, known)
        raise InputError(f"there is no lesson '{name}'{hint}; there are {', '.join(known)}")
    return files("scenes").joinpath("lessons", f"{name}.toml").read_text("utf-8")


def _checked(lessons: Mapping[str, Lesson]) -> Iterator[str]:
    """Yield of each lesson whether it can be taken as it is shown.

    Raises
    ------
    InputError
        One cannot.
    """
    teeth = KeptTeeth(1, lambda *_: None)
    for lesson in lessons.values():
        faults = tried(lesson, builtin_case(lesson.case), teeth.mounted, Workers())
        if faults:
            raise InputError("\n".join([lesson.title, *(f"  {fault}" for fault in faults)]))
        yield f"{lesson.title}: can be taken; its goals are reached where they are shown\n"


def _readings() -> Iterator[str]:
    yield "Readings, each at the moment shown, or with 'at start' or 'at' and a moment's name:"
    for kind in KINDS:
        unit = _UNITS.get(kind.unit, kind.unit)
        yield from _entry(f"{kind.form}, {unit}" if unit else kind.form, kind.meaning)
    yield ""
    yield "Formulas:"
    for formula in FORMULAS:
        yield from _entry(formula.form, f"{formula.result.meaning}. {formula.source}.")
    yield ""
    yield _CAPITALS
    yield ""


def _entry(title: str, text: str) -> Iterator[str]:
    yield f"  {title}"
    yield textwrap.fill(text, _WIDTH, initial_indent="      ", subsequent_indent="      ")
