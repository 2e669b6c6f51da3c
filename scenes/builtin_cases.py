"""The cases that come with the program: TOML files beside this module."""

from functools import cache

from kinematics.case import Case
from kinematics.case_file import parse_case
from scenes.case_places import DEFAULT_CASE, case_text


@cache
def builtin_case(name: str = DEFAULT_CASE) -> Case:
    """Return a built-in case.

    Raises
    ------
    InputError
        There is no built-in case of that name.
    """
    return parse_case(case_text(name), f"built-in case {name}")
