"""What an adjustment is to reach, as a case says it."""

from collections.abc import Callable, Iterator, Sequence
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.tooth_codes import unknown_code

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

#: Table of a case file.
KEY: Final = "adjustments"

ONLY_GUIDE: Final = "only these teeth guide"
KEEPS_STOP: Final = "keeps its stop, clears excursions"
OPENS_FOSSA: Final = "opens the fossa"
FLAT_STOP: Final = "flat stop"

Aim = Literal[
    "only these teeth guide",
    "keeps its stop, clears excursions",
    "opens the fossa",
    "flat stop",
]
Whose = Literal["by the rule", "upper", "lower"]


@dataclass(frozen=True, config=_STRICT)
class Adjustment:
    """One aim, and what may be cut for it. Defaults are chosen for this program.

    Attributes
    ----------
    so_that : str
        "only these teeth guide" (the excursions), "keeps its stop, clears excursions", "opens the
        fossa" (for a tooth that is high in MI), or "flat stop" (in place of a hump that is).
    teeth : tuple of int
        ISO 3950 numbers: those that are to guide alone, or those that are too high. Where both
        arches are named as guiding, only they guide on each other.
    excursions : tuple of str
        Movements from MI that are to be cleared, as "right lateral"; left out: all that are judged.
    cut : "by the rule", "upper" or "lower"
        Of two teeth that touch, which is cut.
    margin_mm : float, 0 to 0.5
        How far apart teeth are to stand in excursions then, along the closing arc.
    width_mm : float, 0.2 to 4
        Width of a flat stop.
    deepest_mm : float, 0.02 to 2
        No cut is to be deeper, along the closing arc.
    """

    so_that: Aim
    teeth: Annotated[tuple[int, ...], Field(min_length=1, max_length=32)]
    excursions: tuple[str, ...] = ()
    cut: Whose = "by the rule"
    margin_mm: Annotated[float, Field(ge=0.0, le=0.5)] = 0.05
    width_mm: Annotated[float, Field(ge=0.2, le=4.0)] = 1.0
    deepest_mm: Annotated[float, Field(ge=0.02, le=2.0)] = 0.5

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "Adjustment":
        refuse(self._contradictions())
        return self

    @property
    def is_in_mi(self) -> bool:
        """Whether it is about MI, not about excursions."""
        return self.so_that in (OPENS_FOSSA, FLAT_STOP)

    def _contradictions(self) -> Iterator[Contradiction]:
        for number, code in enumerate(self.teeth):
            yield from unknown_code(code, "teeth")
            if code in self.teeth[:number]:
                yield ("teeth",), f"teeth: {code} stands twice; name it once"
        if self.is_in_mi and self.excursions:
            yield (
                ("so_that", "excursions"),
                f"excursions: '{self.so_that}' is about MI, where nothing moves; leave excursions"
                " out",
            )


def adjustment_contradictions(
    adjustments: Sequence[Adjustment],
    movements: Sequence[str],
    may_have: Callable[[int], bool],
) -> Iterator[Contradiction]:
    """Yield what the rest of a case does not leave to adjustments.

    Parameters
    ----------
    adjustments : sequence of Adjustment
        All of a case.
    movements : sequence of str
        Excursions from MI that it follows.
    may_have : callable
        Tells whether there may be a tooth.
    """
    for number, item in enumerate(adjustments):
        at = f"{KEY}[{number}]"
        for code in item.teeth:
            if not may_have(code):
                yield (
                    (f"{at}.teeth", "dentition.missing"),
                    f"{at}: the dentition has no tooth {code}; name teeth that are there",
                )
        for name in item.excursions:
            if name not in movements:
                known = ", ".join(f"'{movement}'" for movement in movements)
                yield (
                    (f"{at}.excursions", "lateroprotrusion_azimuths_deg"),
                    f"{at}.excursions: '{name}' is not followed; accepted are {known}",
                )
