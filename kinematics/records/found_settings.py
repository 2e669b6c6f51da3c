"""What interocclusal records say of guidance: settings with standard errors, and what is kept."""

from dataclasses import dataclass
from functools import cached_property
from typing import Final

from kinematics.records.settings import RecordKind, ScanRegistration
from kinematics.records.sought import Quantity, SideName

Vector = tuple[float, float, float]

#: Records that fit worse than this share of those with the scatter taken are said to do so. Chosen
#: for this program.
UNLIKELY: Final = 0.01


@dataclass(frozen=True)
class ToldRecord:
    """What one record says by itself.

    Attributes
    ----------
    number : int
        Which record, counted from 1.
    kind : RecordKind
        Which way the jaw went.
    pairs : int
        From how many pairs of points its place was found; 0 for a transform.
    pairs_apart_mm : float
        How far the points of a pair stay apart, root mean square; 0 for a transform.
    move_right_mm, move_left_mm : tuple of float
        From CR to where it puts the condyle centre: forward, to the left, up; hinge frame.
    counts : bool
        Whether it takes a condyle far enough to say anything.
    misfit_mm : float
        Largest part, of what counts of the condyles, that the best guidance leaves.
    registration : ScanRegistration or None
        How its transform was found, if from a scan.
    """

    number: int
    kind: RecordKind
    pairs: int
    pairs_apart_mm: float
    move_right_mm: Vector
    move_left_mm: Vector
    counts: bool
    misfit_mm: float
    registration: ScanRegistration | None = None


@dataclass(frozen=True)
class Estimate:
    """One setting found from records.

    Attributes
    ----------
    side : "right" or "left"
        Whose.
    quantity : Quantity
        Which: of curvature, the inverse of the radius.
    value, standard_error : float
        What follows from the records, and how certain it is, in its unit.
    low, high : float
        95 % interval.
    unit : str
        "degrees", "per mm" or "mm".
    as_set : float
        What the case sets.
    """

    side: SideName
    quantity: Quantity
    value: float
    standard_error: float
    low: float
    high: float
    unit: str
    as_set: float

    @property
    def holds_as_set(self) -> bool:
        """Whether the setting of the case lies in the interval, or as near as one can be set.

        Curvatures and shifts below none cannot be set.
        """
        none = self.quantity != "condylar inclination" and self.as_set == 0.0 and self.high < 0.0
        return none or self.low <= self.as_set <= self.high


@dataclass(frozen=True)
class Kept:
    """One setting that the records do not give, so that the case keeps it.

    Attributes
    ----------
    side : "right" or "left"
        Whose.
    quantity : Quantity
        Which.
    as_set : float
        What the case sets, in `unit`.
    unit : str
        "degrees", "per mm" or "mm".
    reason : str
        Why it does not follow.
    """

    side: SideName
    quantity: Quantity
    as_set: float
    unit: str
    reason: str


@dataclass(frozen=True)
class BennettReading:
    """A Bennett angle, where progressive and immediate shift are known together only.

    Attributes
    ----------
    side : "right" or "left"
        Whose nonworking condyle.
    value_deg, standard_error_deg, low_deg, high_deg : float
        The angle, its standard error, and its 95 % interval.
    as_set_deg : float
        What the settings of the case give there.
    read_at_mm : float
        Advance of the condyle beyond the other.
    """

    side: SideName
    value_deg: float
    standard_error_deg: float
    low_deg: float
    high_deg: float
    as_set_deg: float
    read_at_mm: float

    @property
    def holds_as_set(self) -> bool:
        """Whether what the case sets lies in the interval."""
        return self.low_deg <= self.as_set_deg <= self.high_deg


@dataclass(frozen=True)
class FromRecords:
    """What interocclusal records say of guidance.

    Attributes
    ----------
    records : tuple of ToldRecord
        What was recorded.
    estimates : tuple of Estimate
        What follows.
    bennett : tuple of BennettReading
        What follows of shifts that cannot be told apart.
    kept : tuple of Kept
        What does not follow, and why.
    chi_square : float
        Misfit of all records together, in squared standard deviations.
    freedom : int
        How many numbers were recorded more than needed; 0: nothing can disagree.
    probability : float
        Share of records with the scatter taken that fit worse; 1 where nothing can disagree.
    shift_correlations : tuple of two floats
        Between the errors of progressive and immediate shift, right and left; 0 unless both follow.
    correlations : tuple of rows
        Between the errors of all estimates, in their order.
    best_fit : tuple of rows
        Guidance that fits best, whether it is told or not: right and left by inclination, rad,
        curvature per mm, tangent of the progressive shift, and immediate shift, mm; none where no
        record counts.
    """

    records: tuple[ToldRecord, ...]
    estimates: tuple[Estimate, ...]
    bennett: tuple[BennettReading, ...]
    kept: tuple[Kept, ...]
    chi_square: float
    freedom: int
    probability: float
    shift_correlations: tuple[float, float]
    correlations: tuple[tuple[float, ...], ...] = ()
    best_fit: tuple[tuple[float, ...], ...] = ()

    @property
    def fits(self) -> bool:
        """Whether the scatter taken explains what the records leave."""
        return self.probability >= UNLIKELY

    @cached_property
    def by_name(self) -> dict[tuple[SideName, Quantity], Estimate]:
        """The estimates by side and quantity."""
        return {(found.side, found.quantity): found for found in self.estimates}
