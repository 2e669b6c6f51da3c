"""Conditions of lessons, as sentences: a reading, a comparison, and what it is compared with."""

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from kinematics.checks import InputError
from kinematics.lessons.reading_names import Reading, Value
from kinematics.lessons.readings import reading

#: The moment that a page shows.
NOW: Final = "now"
#: The moment a lesson begins with.
START: Final = "start"

_SENTENCE: Final = re.compile(r"(?P<left>.+?)\s+(?P<sign><=|>=|<|>|=|is not|is)\s+(?P<right>.+)")
_WITHIN: Final = re.compile(r"(?P<what>.+?)\s+within\s+(?P<by>\d+(?:\.\d+)?)")
_NUMBER: Final = re.compile(r"[+-]?\d+(?:\.\d+)?")
_ACCEPTED: Final = (
    "a condition reads '<reading> < 0.5', '<reading> > <reading> at <moment>', "
    "'<reading> = <reading> at <moment> within 0.05' or '<reading> is <words>'"
)
#: The one reading that is a number without a unit.
_COUNT: Final = "stops"
#: Returns a reading at a moment, by the moment's name.
Look = Callable[[Reading, str], Value]


@dataclass(frozen=True)
class Sought:
    """A reading and the moment it is read at.

    Attributes
    ----------
    reading : Reading
        What is read.
    moment : str
        Where: `NOW`, `START` or a name given by the lesson.
    """

    reading: Reading
    moment: str


@dataclass(frozen=True)
class Condition:
    """A condition.

    Attributes
    ----------
    text : str
        As written.
    left : Sought
        What is compared.
    sign : str
        "<", "<=", ">", ">=", "=", "is" or "is not".
    right : Sought, float or str
        With what.
    within : float
        How far they may differ, where the sign is "=".
    """

    text: str
    left: Sought
    sign: str
    right: Sought | float | str
    within: float = 0.0


def condition(text: str, moments: Mapping[str, object]) -> Condition:
    """Read a condition.

    Parameters
    ----------
    text : str
        One sentence.
    moments : mapping
        Names of the moments of the lesson, beside `NOW` and `START`.

    Raises
    ------
    InputError
        It cannot be understood; the message says what and what is accepted.
    """
    found = _SENTENCE.fullmatch(" ".join(text.split()))
    if found is None:
        raise InputError(f"'{text}' is no condition; {_ACCEPTED}")
    sign, right, within = found["sign"], found["right"], 0.0
    left = _sought(found["left"], moments)
    if sign in ("is", "is not"):
        if left.reading.kind.unit or left.reading.kind.form == _COUNT:
            raise InputError(
                f"'{text}': {left.reading.name} is a number; compare it by <, >, <=, >= or ="
            )
        return Condition(text, left, sign, right)
    if sign == "=":
        parts = _WITHIN.fullmatch(right)
        if parts is None:
            raise InputError(f"'{text}': say how near with 'within', as in '= 1.5 within 0.05'")
        right, within = parts["what"], float(parts["by"])
    other = float(right) if _is_number(right) else _sought(right, moments)
    if isinstance(other, Sought) and other.reading.kind.unit != left.reading.kind.unit:
        raise InputError(f"'{text}' compares {_unit(left.reading)} with {_unit(other.reading)}")
    if not left.reading.kind.unit and left.reading.kind.form != _COUNT:
        raise InputError(f"'{text}': {left.reading.name} is words; compare it by 'is'")
    return Condition(text, left, sign, other, within)


def _is_number(text: str) -> bool:
    return _NUMBER.fullmatch(text) is not None


def _unit(one: Reading) -> str:
    return one.kind.unit or "a number without unit"


def sought(text: str, moments: Mapping[str, object]) -> Sought:
    """Return the reading that a text asks for: "gap of 47", or "gap of 47 at start".

    Raises
    ------
    InputError
        There is no such reading or no such moment.
    """
    return _sought(" ".join(text.split()), moments)


def _sought(text: str, moments: Mapping[str, object]) -> Sought:
    name, at, moment = text.rpartition(" at ")
    if at and moment in (NOW, START, *moments):
        return Sought(reading(name), moment)
    try:
        return Sought(reading(text), NOW)
    except InputError as error:
        # "guidance at 3 mm" has a place of its own; anything else behind "at" is meant as a moment
        if at and not re.match(r"\d", moment):
            known = ", ".join((NOW, START, *moments))
            raise InputError(f"there is no moment '{moment}'; there are {known}") from error
        raise


def holds(one: Condition, look: Look) -> bool:
    """Tell whether a condition holds.

    Parameters
    ----------
    one : Condition
        Which.
    look : callable
        Returns a reading at a moment.

    Raises
    ------
    InputError
        A reading that the case does not have.
    """
    left = look(one.left.reading, one.left.moment)
    right = one.right
    if isinstance(right, Sought):
        right = look(right.reading, right.moment)
    if one.sign == "is":
        return left == right
    if one.sign == "is not":
        return left != right
    if isinstance(left, str) or isinstance(right, str):
        return False  # "not read": there is nothing to compare
    answers = {
        "<": left < right,
        "<=": left <= right,
        ">": left > right,
        ">=": left >= right,
        "=": math.isclose(left, right, rel_tol=0.0, abs_tol=one.within),
    }
    return answers[one.sign]
