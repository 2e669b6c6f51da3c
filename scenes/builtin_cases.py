"""The cases that come with the program: TOML files beside this module."""

from functools import cache
from importlib.resources import files
from typing import Final

from kinematics.case import Case
from kinematics.case_file import parse_case
from kinematics.checks import InputError, nearest_word

DEFAULT_CASE: Final = "upper_distal_extension"


def case_names() -> list[str]:
    """Return the names of the built-in cases, sorted."""
    entries = files("scenes").joinpath("cases").iterdir()
    return sorted(e.name.removesuffix(".toml") for e in entries if e.name.endswith(".toml"))


def case_text(name: str) -> str:
    """Return a built-in case as TOML text, to read or to start an own case file from.

    Raises
    ------
    InputError
        There is no built-in case of that name; the message lists them.
    """
    known = case_names()
    if name not in known:
        hint = nearest_word(name, known) or ";"
        raise InputError(f"{name}: no such built-in case{hint} there are: {', '.join(known)}")
    return files("scenes").joinpath("cases", f"{name}.toml").read_text("utf-8")


@cache
def builtin_case(name: str = DEFAULT_CASE) -> Case:
    """Return a built-in case.

    Raises
    ------
    InputError
        There is no built-in case of that name.
    """
    return parse_case(case_text(name), f"built-in case {name}")
