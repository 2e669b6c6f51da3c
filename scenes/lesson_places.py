"""Where lessons lie: those of the program, and a teacher's own."""

from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path

from kinematics.checks import InputError, nearest_word
from kinematics.lessons.lesson import Lesson
from kinematics.lessons.lesson_file import parse_lesson, read_lesson
from kinematics.lessons.played import refuse_unusable
from scenes.builtin_cases import builtin_case
from scenes.case_places import case_names, is_builtin

#: Names of a teacher's own lessons on the page begin with it.
_OWN = "own_"


def builtin_lessons() -> Mapping[str, Lesson]:
    """Return the lessons of the program by their names, in their order."""
    folder = files("scenes").joinpath("lessons")
    names = sorted(entry.name for entry in folder.iterdir() if entry.name.endswith(".toml"))
    return {
        name.removesuffix(".toml"): parse_lesson(
            folder.joinpath(name).read_text("utf-8"), f"built-in lesson {name}"
        )
        for name in names
    }


def own_lessons(place: Path) -> Mapping[str, Lesson]:
    """Return a teacher's own lessons by their names on the page.

    Parameters
    ----------
    place : Path
        A lesson file, or a folder of which every file that ends in .toml is one.

    Raises
    ------
    InputError
        There is none, or one cannot be used; all faults of all files in one message.
    """
    paths = sorted(place.glob("*.toml")) if place.is_dir() else [place]
    if not paths:
        raise InputError(f"{place}: no lessons in this folder; lesson files end in .toml")
    found: dict[str, Lesson] = {}
    faults = []
    for number, path in enumerate(paths, 1):
        try:
            lesson = read_lesson(path)
            _check_case(lesson, path)
            _check_places(lesson, path)
            found[f"{_OWN}{number}"] = lesson
        except InputError as error:
            faults.append(str(error))
    if faults:
        raise InputError("\n".join(faults))
    return found


def _check_places(lesson: Lesson, path: Path) -> None:
    try:
        refuse_unusable(lesson, builtin_case(lesson.case))
    except InputError as error:
        lines = [f"  {line}" for line in str(error).split("\n")]
        raise InputError(
            "\n".join([f"{path}: places that its case cannot have", *lines])
        ) from error


def _check_case(lesson: Lesson, path: Path) -> None:
    if not is_builtin(lesson.case):
        names, hint = ", ".join(case_names()), nearest_word(lesson.case, case_names())
        raise InputError(
            f"{path}: case: there is no built-in case '{lesson.case}'{hint}; there are {names}"
        )
