"""What a user sets about the search for the smallest change that helps."""

from collections.abc import Callable, Iterator
from typing import Annotated, Final

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.tooth_codes import unknown_code

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

#: Table of a case file.
KEY: Final = "remedies"


@dataclass(frozen=True, config=_STRICT)
class RemedySettings:
    """For which teeth the smallest change is sought that clears them. Defaults are chosen.

    Attributes
    ----------
    teeth : tuple of int
        ISO 3950 numbers of teeth whose contacts are flagged. Each takes some twenty seconds.
    margin_mm : float, 0.02 to 0.5
        How far a tooth is to stand from its opponents afterwards (shortest distance) wherever it
        is not to touch; next to MI less, by and by. Where the scheme of a denture base forbids to
        come near, the greater of this and `judging.approach_margin_mm`.
    most_mm : float, 0.05 to 4
        No tooth is lowered, flattened or cut by more.
    most_tilt_deg : float, 0.5 to 15
        No tooth is tilted by more.
    most_added_mm : float, 0.05 to 3
        No guiding surface is built up by more.
    """

    teeth: Annotated[tuple[int, ...], Field(max_length=32)] = ()
    margin_mm: Annotated[float, Field(ge=0.02, le=0.5)] = 0.05
    most_mm: Annotated[float, Field(ge=0.05, le=4.0)] = 2.0
    most_tilt_deg: Annotated[float, Field(ge=0.5, le=15.0)] = 5.0
    most_added_mm: Annotated[float, Field(ge=0.05, le=3.0)] = 1.0

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "RemedySettings":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        for number, code in enumerate(self.teeth):
            yield from unknown_code(code, "teeth", name=f"teeth[{number}]")
            if code in self.teeth[:number]:
                yield ("teeth",), f"teeth: {code} stands twice; name it once"


def remedy_contradictions(
    settings: RemedySettings, may_have: Callable[[int], bool]
) -> Iterator[Contradiction]:
    """Yield what the teeth of a case do not leave to the search; `may_have` tells which it has."""
    for code in settings.teeth:
        if not may_have(code):
            yield (
                (f"{KEY}.teeth", "dentition.missing"),
                f"{KEY}.teeth: the dentition has no tooth {code}; name teeth that are there",
            )
