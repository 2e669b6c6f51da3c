"""Explanations with numbers in them: readings in braces become values with their units."""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Final

from kinematics.lessons.conditions import Look, sought
from kinematics.lessons.reading_names import Reading, Value

_BRACES: Final = re.compile(r"\{([^{}]*)\}")


def named_in(text: str) -> Iterator[str]:
    """Yield the names of all readings in braces."""
    yield from _BRACES.findall(text)


def with_numbers(
    text: str,
    moments: Mapping[str, object],
    look: Look,
    told: Callable[[Reading, Value], str],
) -> str:
    """Return an explanation with its readings put in.

    Parameters
    ----------
    text : str
        With names of readings in braces, each perhaps with "at" and a moment.
    moments : mapping
        Names of the moments of the lesson.
    look : callable
        Returns a reading at a moment.
    told : callable
        Returns a value in words, with its unit.
    """

    def put(found: re.Match[str]) -> str:
        asked = sought(found[1], moments)
        return told(asked.reading, look(asked.reading, asked.moment))

    return _BRACES.sub(put, text)
