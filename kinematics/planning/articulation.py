"""What guides an excursion, and which contacts interfere, by one table of rules."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Reading:
    """What touches at one reading position of an excursion, at one tolerance.

    Attributes
    ----------
    travel_mm : float
        Reading position (0, 0.5, 1, 2, 3 mm from the start).
    pose : int
        Index of the pose in its sweep.
    tolerance_mm : float
        Shortest distance up to which a pair counts as touching.
    kind : str
        Guidance kind at this position and tolerance.
    touching : tuple of (int, int)
        Upper and lower tooth numbers of every touching pair.
    """

    travel_mm: float
    pose: int
    tolerance_mm: float
    kind: str
    touching: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Verdict:
    """What guides one excursion.

    Attributes
    ----------
    excursion : str
        Name of the excursion.
    kind : str
        Guidance kind over the judged travel at the case's tolerance.
    determined : bool
        False: not determined by these records.
    readings : tuple of Reading
        Every reading position at every tolerance (8, 20, 40, 100 micrometres).
    text : str
        One plain sentence.
    """

    excursion: str
    kind: str
    determined: bool
    readings: tuple[Reading, ...]
    text: str
