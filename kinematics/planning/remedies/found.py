"""What the search for the smallest change that helps has found for one tooth."""

from dataclasses import dataclass
from typing import Final, Literal

from kinematics.conventions import Floats
from kinematics.planning.adjusting.settings import Adjustment
from kinematics.planning.findings import Finding
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.matched_stops import FewerStops
from kinematics.trial.settings import Change

RemedyKind = Literal["lower", "flatten", "tilt", "steepen", "adjust"]
#: What each kind does, in words, in the order in which they are sought.
WAYS: Final[dict[RemedyKind, str]] = {
    "lower": "lower it",
    "flatten": "flatten its highest cusp",
    "tilt": "tilt it",
    "steepen": "build up the guiding teeth",
    "adjust": "cut what stands in the way",
}


@dataclass(frozen=True)
class GuideLoad:
    """What a guiding tooth takes across its long axis while it carries the jaw.

    Attributes
    ----------
    tooth : int
        The upper tooth that guides.
    before, after : float or None
        Greatest N across for every N along; None where it does not carry the jaw.
    """

    tooth: int
    before: float | None
    after: float | None


@dataclass(frozen=True)
class GapCurve:
    """How far the tooth stands from its opponents along one excursion, before and after.

    Attributes
    ----------
    excursion : str
        Name; " from CR" is added where it starts there.
    before_mm, after_mm : ndarray, shape (n, 2)
        Travel, and shortest distance from the opponents that it is to clear; inf beyond the gap
        limit.
    wanted_mm : ndarray, shape (m, 2)
        Travel, and how far it is to stand.
    """

    excursion: str
    before_mm: Floats
    after_mm: Floats
    wanted_mm: Floats


@dataclass(frozen=True)
class Effect:
    """What a full run with the change says.

    Attributes
    ----------
    stops_kept, stops_lost, stops_new : tuple of (int, int)
        Tooth pairs with a centric stop in MI before and after, before alone, after alone.
    lacks_mm : float
        How much the tooth still lacks of what is wanted; 0 where it is clear.
    lacks_where : str
        Where that is; empty where it is clear.
    still : tuple of Finding
        What still calls contacts of the tooth unwanted.
    gone, new : tuple of Finding
        Findings of contacts and guidance that only one of both runs has; of graver ones also those
        that the other has as a note.
    changed : int
        How many differ in severity or figures.
    loads : tuple of GuideLoad
        What guiding teeth take that were built up.
    curve : GapCurve
        The excursion in which the tooth was nearest.
    stops_fewer : tuple of FewerStops
        Tooth pairs that keep a stop, but not every one.
    """

    stops_kept: tuple[Pair, ...]
    stops_lost: tuple[Pair, ...]
    stops_new: tuple[Pair, ...]
    lacks_mm: float
    lacks_where: str
    still: tuple[Finding, ...]
    gone: tuple[Finding, ...]
    new: tuple[Finding, ...]
    changed: int
    loads: tuple[GuideLoad, ...]
    curve: GapCurve
    stops_fewer: tuple[FewerStops, ...] = ()

    @property
    def clears(self) -> bool:
        """Whether the tooth stands as far away as is wanted, and nothing is said against it."""
        return self.lacks_mm == 0.0 and not self.still


@dataclass(frozen=True)
class Remedy:
    """The smallest single change of one kind.

    Attributes
    ----------
    kind : str
        "lower", "flatten", "tilt", "steepen" or "adjust".
    changes : tuple of Change
        As they stand in a case file, equal amounts; none of "adjust", and where none was found.
    adjustment : Adjustment or None
        The same of "adjust".
    amount : float
        How much; 0 where none was found.
    unit : str
        "mm" or "deg".
    resolution : float
        An amount smaller by this does not help.
    limit : float
        Up to which amount was sought.
    cut_mm3, added_mm3 : float
        Volume that goes from the surface facing the opponents, and that comes; of a tooth that is
        moved as a whole, what its surface sweeps.
    thickest_mm : float
        Of what is built up, square to the surface.
    natural_cut : tuple of int
        Natural teeth whose structure goes.
    reason : str
        Why none was found; empty where one was.
    effect : Effect or None
        By a full run; None where none was found.
    """

    kind: RemedyKind
    changes: tuple[Change, ...]
    adjustment: Adjustment | None
    amount: float
    unit: str
    resolution: float
    limit: float
    cut_mm3: float = 0.0
    added_mm3: float = 0.0
    thickest_mm: float = 0.0
    natural_cut: tuple[int, ...] = ()
    reason: str = ""
    effect: Effect | None = None

    @property
    def is_found(self) -> bool:
        """Whether there is one within the limits that clears the tooth by a full run."""
        return self.effect is not None and self.effect.clears

    @property
    def keeps_stops(self) -> bool:
        """Whether every centric stop stays."""
        effect = self.effect
        return effect is not None and not effect.stops_lost and not effect.stops_fewer

    @property
    def volume_mm3(self) -> float:
        """Volume cut and added together."""
        return self.cut_mm3 + self.added_mm3


@dataclass(frozen=True)
class ToothRemedies:
    """All that was found for one tooth.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    margin_mm : float
        How far it is to stand from its opponents.
    flagged : tuple of Finding
        Findings about contacts of this tooth, as the case is.
    note : str
        Why nothing was sought; empty where it was.
    remedies : tuple of Remedy
        One a kind, in the order of `WAYS`.
    """

    tooth: int
    margin_mm: float
    flagged: tuple[Finding, ...]
    note: str
    remedies: tuple[Remedy, ...]

    @property
    def smallest(self) -> Remedy | None:
        """The one of least volume that clears the tooth and keeps every stop; None: there is none.

        Of teeth moved as a whole nothing is cut or added: they are not compared.
        """
        compared = [
            item
            for item in self.remedies
            if item.is_found and item.keeps_stops and item.kind != "tilt"
        ]
        return min(compared, key=lambda item: item.volume_mm3, default=None)
