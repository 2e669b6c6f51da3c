"""From two runs to what is different: findings, guidance, stops, height of the bite, loads."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from kinematics.checkup_result import Checkup
from kinematics.comparing.matched_findings import MatchedFinding, matched_findings
from kinematics.geometry.poses import move_points
from kinematics.planning.articulation import Verdict
from kinematics.planning.load_readings import LargestLoad, largest_load
from kinematics.planning.matched_stops import MatchedStops, matched_stops


@dataclass(frozen=True)
class ComparedVerdict:
    """What guides one excursion, before and after; None where a run has no such excursion."""

    excursion: str
    before: str | None
    after: str | None

    @property
    def changed(self) -> bool:
        """Whether something else guides."""
        return self.before != self.after


@dataclass(frozen=True)
class BiteChange:
    """How the bite in maximal intercuspation has changed.

    Attributes
    ----------
    pin_mm : float
        By how much the incisal pin stands higher: drop of the lower incisal point, square to the
        reference plane. Positive where the bite is raised.
    ahead_mm, left_mm : float
        How far the lower incisal point lies farther ahead and to the patient's left.
    opening_deg : float
        By how much the jaw is more open about the condyles.
    """

    pin_mm: float
    ahead_mm: float
    left_mm: float
    opening_deg: float


@dataclass(frozen=True)
class ComparedLoad:
    """The largest force across the teeth of a base, bridge or splint, N per 100 N.

    Attributes
    ----------
    framework, excursion : str
        What carries it, and in which excursion.
    before_n, after_n : float or None
        None where it carries none there, or is not there.
    """

    framework: str
    excursion: str
    before_n: float | None
    after_n: float | None


@dataclass(frozen=True)
class Comparison:
    """What is different from one run to another.

    Attributes
    ----------
    findings : tuple of MatchedFinding
        Of both runs.
    verdicts : tuple of ComparedVerdict
        All excursions.
    stops : MatchedStops
        Centric stops.
    bite : BiteChange
        Height of the bite.
    loads : tuple of ComparedLoad
        Of bases, bridges and splints; none where neither run has any.
    teeth_gone, teeth_new : tuple of int
        Teeth that only the run before, and only the run after has.
    """

    findings: tuple[MatchedFinding, ...]
    verdicts: tuple[ComparedVerdict, ...]
    stops: MatchedStops
    bite: BiteChange
    loads: tuple[ComparedLoad, ...]
    teeth_gone: tuple[int, ...]
    teeth_new: tuple[int, ...]

    def of_state(self, state: str) -> tuple[MatchedFinding, ...]:
        """Return the findings that are gone, new, changed or unchanged."""
        return tuple(item for item in self.findings if item.state == state)


def compared(before: Checkup, after: Checkup) -> Comparison:
    """Compare two runs.

    Parameters
    ----------
    before, after : Checkup
        Whole runs, of one patient or lesson.
    """
    teeth = [{*run.upper.codes, *run.lower.codes} for run in (before, after)]
    return Comparison(
        matched_findings(before.findings, after.findings),
        tuple(_verdicts(before.verdicts, after.verdicts)),
        matched_stops(before.stops, after.stops),
        _bite(before, after),
        tuple(_loads(before, after)),
        tuple(sorted(teeth[0] - teeth[1])),
        tuple(sorted(teeth[1] - teeth[0])),
    )


def _verdicts(before: Sequence[Verdict], after: Sequence[Verdict]) -> Iterator[ComparedVerdict]:
    one, other = ({v.excursion: v.kind for v in verdicts} for verdicts in (before, after))
    for name in dict.fromkeys([*one, *other]):
        yield ComparedVerdict(name, one.get(name), other.get(name))


def _bite(before: Checkup, after: Checkup) -> BiteChange:
    """Return how the lower incisal point, and the line from the condyles to it, have moved."""
    points, angles = [], []
    for run in (before, after):
        # Incisal point, and the point midway between the condyle centres, in MI.
        places = move_points(run.mi_pose, np.stack([run.incisal_point, np.zeros(3)]))
        ahead, _, up = (places[0] - places[1]).tolist()
        points.append(places[0])
        angles.append(math.atan2(-up, ahead))
    ahead_mm, left_mm, up_mm = (points[1] - points[0]).tolist()
    return BiteChange(-up_mm + 0.0, ahead_mm, left_mm, math.degrees(angles[1] - angles[0]))


def _loads(before: Checkup, after: Checkup) -> Iterator[ComparedLoad]:
    one, other = _largest(before), _largest(after)
    for name in dict.fromkeys([*one, *other]):
        yield ComparedLoad(*name, one.get(name), other.get(name))


def _largest(run: Checkup) -> dict[tuple[str, str], float]:
    """Return the largest force across the teeth of each framework in each excursion, N."""
    found: dict[tuple[str, str], float] = {}
    for loads in run.loads:
        for number in range(len(loads.as_is.frames)):
            largest: LargestLoad | None = largest_load(loads, number)
            if largest is not None:
                told = largest.as_is
                found[told.framework, told.excursion] = told.figures["across_n"]
    return found
