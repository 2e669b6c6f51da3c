"""What a lesson can read, each by a name in plain words with a tooth, a side or a travel in it."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from kinematics.checks import InputError, nearest_word
from kinematics.lessons.moment import Moment

#: A number, or words such as those of a guidance kind.
Value = float | str

_PLACES: Final = {
    "TOOTH": r"(?P<tooth>[1-4][1-8])",
    "SIDE": r"(?P<side>right|left)",
    "MM": r"(?P<mm>\d{1,2}(?:\.\d{1,3})?)",
}


@dataclass(frozen=True)
class Asked:
    """What a name asks for.

    Attributes
    ----------
    tooth : int
        ISO 3950 number; 0 where the name has none.
    side : str
        "right", "left", or empty where the name has none.
    travel_mm : float
        0 where the name has none.
    """

    tooth: int = 0
    side: str = ""
    travel_mm: float = 0.0


@dataclass(frozen=True)
class Kind:
    """A kind of reading.

    Attributes
    ----------
    form : str
        Its name, with TOOTH, SIDE or MM where a tooth, a side or a travel stands.
    unit : str
        "mm", "deg", "N", "N mm", or empty for counts and words.
    decimals : int
        With how many it is shown.
    meaning : str
        One sentence for who writes or reads a lesson.
    read : callable
        Reads it from a moment.
    """

    form: str
    unit: str
    decimals: int
    meaning: str
    read: Callable[[Moment, Asked], Value]


@dataclass(frozen=True)
class Reading:
    """A reading as a lesson names it.

    Attributes
    ----------
    name : str
        As written.
    kind : Kind
        What kind it is.
    asked : Asked
        Its tooth, side or travel.
    """

    name: str
    kind: Kind
    asked: Asked

    def of(self, moment: Moment) -> Value:
        """Return what it is at a moment."""
        return self.kind.read(moment, self.asked)


def reading_named(name: str, kinds: tuple[Kind, ...]) -> Reading:
    """Return the reading that a name stands for.

    Raises
    ------
    InputError
        There is no such reading; the message lists those there are.
    """
    words = " ".join(name.split())
    for kind in kinds:
        pattern = re.escape(kind.form)
        for place, expression in _PLACES.items():
            pattern = pattern.replace(place, expression)
        found = re.fullmatch(pattern, words)
        if found:
            parts = found.groupdict()
            asked = Asked(
                int(parts.get("tooth", 0)), parts.get("side", ""), float(parts.get("mm", 0.0))
            )
            return Reading(words, kind, asked)
    forms = [kind.form for kind in kinds]
    wrong = re.search(r"\b(\d+)\b", words)
    if wrong and re.sub(r"\b\d+\b", "TOOTH", words, count=1) in forms:
        raise InputError(f"'{words}': {wrong[1]} is no tooth number (ISO 3950)")
    hint = nearest_word(words, forms)
    raise InputError(
        f"there is no reading '{words}'{hint}; there are {', '.join(forms)}, with a tooth number, "
        "right or left, or millimetres in place of the capitals"
    )
