"""Where a case puts maximal intercuspation: as set or as recorded, and what contradicts that."""

from collections.abc import Iterator
from dataclasses import dataclass as plain_dataclass
from typing import Annotated, Final

from pydantic import ConfigDict, Field
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, InputError
from kinematics.guidance.guidance import Guidance, prepare
from kinematics.guidance.mandible import GuidanceCoordinates, checked_coordinates
from kinematics.guidance.settings import GuidanceSettings
from kinematics.scans.centric_records import (
    KEY,
    MOST_ADVANCE_MM,
    MOST_SHIFT_MM,
    place_by_record,
)
from kinematics.scans.settings import ScanSettings

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)


@dataclass(frozen=True, config=_STRICT)
class MaximalIntercuspation:
    """Where the condyles stand in maximal intercuspation (MI), from centric relation (CR).

    Attributes
    ----------
    advance_right_mm, advance_left_mm : float, 0 to 5
        Arc length each condyle has travelled along its path. A slide of about 1 mm at the teeth
        is common (0.95 +/- 0.47 mm, Southeast Eur Med J 2021, article 168).
    shift_mm : float, -3 to 3
        Immediate side shift used; positive to the patient's left.
    """

    advance_right_mm: Annotated[float, Field(ge=0.0, le=MOST_ADVANCE_MM)] = 0.3
    advance_left_mm: Annotated[float, Field(ge=0.0, le=MOST_ADVANCE_MM)] = 0.3
    shift_mm: Annotated[float, Field(ge=-MOST_SHIFT_MM, le=MOST_SHIFT_MM)] = 0.0


#: Table that is given beside records of centric relation.
MI_KEY: Final = "maximal_intercuspation"
#: What is said of it then.
MI_SAID_TWICE: Final = (
    f"{MI_KEY} and {KEY} both say where maximal intercuspation lies from centric relation: leave "
    "one of them out"
)


@plain_dataclass(frozen=True)
class GivenMI:
    """What of a case tells where MI lies.

    Attributes
    ----------
    guidance : GuidanceSettings
        As set.
    scans : ScanSettings or None
        Perhaps with records of CR; None for built-in teeth.
    as_set : MaximalIntercuspation
        What holds without a record.
    """

    guidance: GuidanceSettings
    scans: ScanSettings | None
    as_set: MaximalIntercuspation

    @property
    def is_recorded(self) -> bool:
        """Whether MI follows from a record of CR."""
        return self.scans is not None and len(self.scans.centric_records) > 0

    @property
    def place(self) -> GuidanceCoordinates:
        """MI along the condylar paths, at opening 0: by a record of CR if given, else as set.

        Raises
        ------
        InputError
            Guidance or a record that cannot be used.
        """
        if self.scans is not None and self.is_recorded:
            return place_by_record(self.scans, prepare(self.guidance)).mi
        at = self.as_set
        return GuidanceCoordinates(at.advance_right_mm, at.advance_left_mm, at.shift_mm, 0.0)


def mi_contradictions(given: GivenMI) -> Iterator[Contradiction]:
    """Yield what guidance alone, or guidance and MI, cannot be made into."""
    try:
        guidance = prepare(given.guidance)
    except InputError as error:
        yield ("guidance",), str(error)
        return
    yield from _of_record(given) if given.is_recorded else _as_set(given, guidance)


def _as_set(given: GivenMI, guidance: Guidance) -> Iterator[Contradiction]:
    try:
        at = given.place
        checked_coordinates(guidance, at.advance_right_mm, at.advance_left_mm, at.shift_mm)
    except InputError as error:
        fault = str(error).replace("[0]", "", 1)  # one position, not the first of many
        yield ("guidance", MI_KEY), f"{MI_KEY}.{fault}"


def _of_record(given: GivenMI) -> Iterator[Contradiction]:
    """Yield what keeps records of CR from telling where MI lies."""
    if given.as_set != MaximalIntercuspation():
        yield (MI_KEY, KEY), MI_SAID_TWICE
    try:
        _ = given.place
    except InputError as error:
        yield (KEY, "scans.mounting", "scans.scan_from_lower", "guidance"), str(error)
