"""Which findings there are in many runs, and in which of them each holds, and how grave it is."""

import json
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from kinematics.conventions import Ints
from kinematics.planning.findings import SEVERITIES, Severity
from kinematics.planning.same_findings import About, ToothPair, partners

#: Stands for a finding that does not hold.
ABSENT = -1


@dataclass(frozen=True)
class ToldFinding:
    """A finding as a row of a study tells it.

    Attributes
    ----------
    about : About
        What it is about.
    pairs : tuple of ToothPair
        Its tooth pairs in their order.
    severity : Severity
        How grave it is.
    """

    about: About
    pairs: tuple[ToothPair, ...]
    severity: Severity


@dataclass(frozen=True)
class FoundInRuns:
    """All findings of some runs, those of the case as set first.

    Attributes
    ----------
    findings : tuple of ToldFinding
        As set, or as most runs tell it that have it.
    set_ones : int
        How many of them there are as set.
    severities : ndarray, shape (runs, findings)
        Places in `SEVERITIES`; `ABSENT` where the finding does not hold.
    """

    findings: tuple[ToldFinding, ...]
    set_ones: int
    severities: Ints


def told_finding(text: str) -> ToldFinding:
    """Return a finding of a row: a JSON list of kind, excursion, severity, pairs, travel."""
    kind, excursion, severity, pairs, *_ = json.loads(text)
    ordered = tuple((upper, lower) for upper, lower in pairs)
    return ToldFinding(About(kind, excursion, frozenset(ordered)), ordered, severity)


def found_in_runs(as_set: Sequence[str], runs: Sequence[Sequence[str]]) -> FoundInRuns:
    """Return which findings there are, and in which runs they hold.

    Findings of a run are matched to those of the case as set, as two runs are compared: by kind,
    excursion and shared tooth pairs. What is left over is matched to what other runs have left
    over; findings that share tooth pairs are one, named as it is told most often.

    Parameters
    ----------
    as_set : sequence of str
        Findings of the case as set, as rows tell them.
    runs : sequence of sequence of str
        Findings of every run.
    """
    told = lru_cache(maxsize=None)(told_finding)  # most runs are alike
    set_ones = [told(text) for text in as_set]
    every = [[told(text) for text in row] for row in runs]
    match_set = _matching(set_ones)
    others = _others([_left(row, match_set(_abouts(row))) for row in every])
    match_others = _matching(others)
    severities = np.full((len(every), len(set_ones) + len(others)), ABSENT)
    for number, row in enumerate(every):
        matched = match_set(_abouts(row))
        left = _left(row, matched)
        for place, mine in matched.items():
            severities[number, place] = SEVERITIES.index(row[mine].severity)
        for place, mine in match_others(_abouts(left)).items():
            severities[number, len(set_ones) + place] = SEVERITIES.index(left[mine].severity)
    return FoundInRuns((*set_ones, *others), len(set_ones), severities)


def _matching(known: Sequence[ToldFinding]) -> Callable[[tuple[About, ...]], dict[int, int]]:
    """Return what matches findings of runs to known ones, and remembers what it has matched."""
    of_known = _abouts(known)
    return lru_cache(maxsize=None)(lambda mine: partners(of_known, mine))


def _abouts(row: Sequence[ToldFinding]) -> tuple[About, ...]:
    return tuple(item.about for item in row)


def _left(row: Sequence[ToldFinding], matched: dict[int, int]) -> list[ToldFinding]:
    """Return the findings of a run that match none of those as set."""
    taken = set(matched.values())
    return [item for mine, item in enumerate(row) if mine not in taken]


def _others(left: Sequence[Sequence[ToldFinding]]) -> list[ToldFinding]:
    """Return what is told beyond the findings as set, most frequent first, each thing once."""
    counts: Counter[About] = Counter(item.about for row in left for item in row)
    first: dict[About, ToldFinding] = {}
    for row in left:
        for item in row:
            first.setdefault(item.about, item)
    found: list[ToldFinding] = []
    for about, _ in counts.most_common():
        if not partners([item.about for item in found], [about]):
            found.append(first[about])
    return found
