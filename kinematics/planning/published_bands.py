"""Settings found from records that lie outside of what has been published of people."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from kinematics.planning.plausibility import USUAL_INCLINATION_DEG
from kinematics.records.found_settings import BennettReading, FromRecords


@dataclass(frozen=True)
class Band:
    """What has been published of one setting.

    Attributes
    ----------
    low, high : float
        Least and greatest, in the unit in which it is told.
    source : str
        Of whom, and where.
    """

    low: float
    high: float
    source: str


INCLINATION: Final = "condylar inclination"
IMMEDIATE_SHIFT: Final = "immediate shift"
BENNETT_ANGLE: Final = "Bennett angle"
#: Of progressive shifts no spread was found published, of curvatures none of paths of people.
BANDS: Final[Mapping[str, Band]] = {
    INCLINATION: Band(
        *USUAL_INCLINATION_DEG,
        "students 26 to 62 degrees, n = 32; orthodontic patients 49 +/- 12, n = 154 (Appl Sci"
        " 2025;15(18):10231); rounded outward, against several reference planes",
    ),
    IMMEDIATE_SHIFT: Band(
        0.0, 3.0, "914 people in 23 studies (Taylor et al., J Prosthet Dent 2016, PMID 26723093)"
    ),
    BENNETT_ANGLE: Band(
        0.0,
        30.0,
        "means of 7.3 and 9.0 degrees, n = 47 (IADR abstract 13iags-177411); up to 30 degrees in"
        " teaching (common practice)",
    ),
}


@dataclass(frozen=True)
class Unusual:
    """A setting found outside of what has been published.

    Attributes
    ----------
    side, name : str
        Which.
    value, low, high : float
        What follows, and its 95 % interval.
    unit : str
        "degrees" or "mm".
    band : Band
        What has been published.
    """

    side: str
    name: str
    value: float
    low: float
    high: float
    unit: str
    band: Band

    @property
    def may_be_inside(self) -> bool:
        """Whether the interval reaches into the band."""
        return self.low <= self.band.high and self.high >= self.band.low


def unusual_settings(found: FromRecords) -> Iterator[Unusual]:
    """Yield what lies outside its band by more than its own standard error."""
    for of in found.estimates:
        if of.quantity in BANDS and _outside(of.value, of.standard_error, BANDS[of.quantity]):
            band = BANDS[of.quantity]
            yield Unusual(of.side, of.quantity, of.value, of.low, of.high, of.unit, band)
    for reading in found.bennett:
        if _outside(reading.value_deg, reading.standard_error_deg, BANDS[BENNETT_ANGLE]):
            yield _unusual_angle(reading)


def _outside(value: float, error: float, band: Band) -> bool:
    return value - error > band.high or value + error < band.low


def _unusual_angle(of: BennettReading) -> Unusual:
    band = BANDS[BENNETT_ANGLE]
    return Unusual(of.side, BENNETT_ANGLE, of.value_deg, of.low_deg, of.high_deg, "degrees", band)
