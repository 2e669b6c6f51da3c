"""Marks of foil found in the mouth, as a user gives them."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Annotated, Final

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, nearest_word, refuse
from kinematics.guidance.excursions import (
    Excursion,
    lateroprotrusion,
    left_lateral,
    protrusion,
    right_lateral,
)
from kinematics.tooth_codes import unknown_code

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

KEY: Final = "observed_marks"
IN_MI: Final = "MI"
IN_CR: Final = "CR"


@dataclass(frozen=True, config=_STRICT)
class ObservedMarks:
    """Which teeth foil marked in the mouth in one position or movement, and which it did not.

    Attributes
    ----------
    movement : text
        "MI", "CR" (the first touch), "protrusion", "right lateral", "left lateral", or
        "lateroprotrusion 45" with an azimuth of `lateroprotrusion_azimuths_deg`. Of movements,
        marks that end within `near_mi_mm` of MI do not count.
    marked, unmarked : tuple of int
        ISO 3950 numbers. Nothing is said about teeth in neither list.
    """

    movement: Annotated[str, Field(min_length=1, max_length=80)]
    marked: tuple[int, ...] = ()
    unmarked: tuple[int, ...] = ()

    @property
    def teeth(self) -> tuple[int, ...]:
        """All teeth that are named."""
        return (*self.marked, *self.unmarked)

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "ObservedMarks":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        for code in self.teeth:
            yield from unknown_code(code, "marked", "unmarked")
        for code, count in Counter(self.teeth).items():
            if count > 1:
                both = code in self.marked and code in self.unmarked
                where = "both as marked and as unmarked" if both else f"{count} times"
                yield ("marked", "unmarked"), f"{code} stands there {where}; name it once"


def movement_names(azimuths_deg: Iterable[float]) -> tuple[str, ...]:
    """Return what marks may be given of: MI, the excursions of a case from there, and CR."""
    excursions = (
        protrusion(),
        right_lateral(),
        left_lateral(),
        *map(lateroprotrusion, azimuths_deg),
    )
    return (IN_MI, *dict.fromkeys(excursion.name for excursion in excursions), IN_CR)


def excursion_named(movement: str) -> Excursion:
    """Return the excursion from MI that a movement of `movement_names` is."""
    for excursion in (protrusion(), right_lateral(), left_lateral()):
        if excursion.name == movement:
            return excursion
    return lateroprotrusion(float(movement.split()[-1]))


def mark_contradictions(
    observed: Sequence[ObservedMarks],
    movements: Sequence[str],
    may_have: Callable[[int], bool],
) -> Iterator[Contradiction]:
    """Yield what the rest of a case does not leave to marks.

    Parameters
    ----------
    observed : sequence of ObservedMarks
        One a movement.
    movements : sequence of str
        What the case follows.
    may_have : callable
        Tells whether there may be a tooth.
    """
    for number, marks in enumerate(observed):
        at = f"{KEY}[{number}]"
        if marks.movement not in movements:
            hint = nearest_word(marks.movement, movements)
            yield (
                (f"{at}.movement", "lateroprotrusion_azimuths_deg"),
                f"{at}.movement = '{marks.movement}': not followed in this case; accepted are "
                f"{', '.join(movements)}{hint}",
            )
        lists = f"{at}.marked", f"{at}.unmarked"
        if not marks.teeth:
            yield (
                lists,
                f"{at}: names no tooth; give the teeth that are marked, those that are not, or"
                " both",
            )
        for code in marks.teeth:
            if not may_have(code):
                yield (
                    (*lists, "dentition"),
                    f"{at}: the dentition has no tooth {code}; name teeth that are there",
                )
    for movement, count in Counter(marks.movement for marks in observed).items():
        if count > 1:
            yield (KEY,), f"{KEY}: '{movement}' stands {count} times; put its teeth together in one"
