"""The case that a user names, read."""

from kinematics.case import Case
from kinematics.case_file import read_case
from scenes.builtin_cases import builtin_case
from scenes.case_places import DEFAULT_CASE, case_path, is_builtin, refuse_unless_there


def find_case(given: str | None) -> Case:
    """Return the case a user asked for: a file, the name of a built-in case, or the default.

    Raises
    ------
    InputError
        Neither a file nor a built-in case, or a file that cannot be used.
    """
    refuse_unless_there(given)
    if given is None or is_builtin(given):
        return builtin_case(given or DEFAULT_CASE)
    return read_case(case_path(given))
