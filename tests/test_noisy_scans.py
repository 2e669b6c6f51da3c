"""Scans of known teeth by scanners of several kinds say what the teeth say, within limits."""

from dataclasses import dataclass, replace

import numpy as np
import pytest

from tests.scanned_teeth import Scanner, true_teeth, write_case
from tests.scanner_like import any_place
from tests.shipped_cases import run_case


@dataclass(frozen=True)
class Limits:
    """What a kind of scanner may change.

    Attributes
    ----------
    beside_mm : float
        Teeth that carry load on the scans are this near to each other on the teeth, at most.
    height_mm : float
        Difference of the height of the lower incisal point at like travel.
    lost : int
        Tooth pairs that lose their stop in MI; smoothing takes tops off, and stops with them.
    other : int
        Findings of attention that come or go; those on the verge of a tolerance may do so.
    """

    beside_mm: float
    height_mm: float
    lost: int
    other: int


#: Noise from vertex to vertex and in waves, in micrometres; rounds of smoothing close fissures and
#: take tops off. Limits chosen for this program.
KINDS = {
    "fine": (Scanner(4.0, 4.0), Limits(0.02, 0.08, 0, 2)),
    "usual, with holes": (Scanner(8.0, 8.0, holes=5), Limits(0.05, 0.12, 2, 3)),
    "rough and smoothed": (Scanner(12.0, 12.0, holes=3, rounds=1), Limits(0.10, 0.15, 16, 7)),
    "smoothed": (Scanner(8.0, 8.0, holes=3, rounds=3), Limits(0.12, 0.20, 16, 7)),
}
FEW, MANY = (101,), tuple(range(103, 131, 2))


@pytest.fixture(scope="module")
def truth():
    """Return a case, its casts in MI, and what a run says of them."""
    made = true_teeth()
    return made, run_case(made[0], planning=True)


def campaigns():
    """Return every kind with a few seeds, and with many behind the marker."""
    for kind in KINDS:
        yield from (pytest.param(kind, seed) for seed in FEW)
        yield from (pytest.param(kind, seed, marks=pytest.mark.wide) for seed in MANY)


def gaps_on_teeth(plain, found):
    """Return how far the pairs that carry load on the scans stand apart on the teeth, mm."""
    used = (found.travel_mm > 0.5) & ~found.crossover
    pairs = zip(found.closures.tooth_upper[used], found.closures.tooth_lower[used], strict=True)
    for travel, (upper, lower) in zip(found.travel_mm[used], pairs, strict=True):
        pose = int(np.abs(plain.travel_mm - travel).argmin())
        row, column = plain.upper_codes.index(upper), plain.lower_codes.index(lower)
        yield plain.pair_gap_mm[pose, row, column]


def height_difference_mm(plain, found):
    """Return the largest difference of the heights of the incisal point at like travel."""
    travels = np.arange(0.5, 3.0, 0.25)
    one, other = (
        np.interp(travels, sweep.travel_mm, sweep.incisal_point[:, 2]) for sweep in (plain, found)
    )
    return np.abs(one - other).max()


def told(checkup, severities):
    """Return kinds and excursions of the findings of some severities."""
    return {(item.kind, item.excursion) for item in checkup.findings if item.severity in severities}


def stopped(checkup):
    """Return the tooth pairs that have a stop in MI."""
    return {(stop.tooth_upper, stop.tooth_lower) for stop in checkup.stops}


def concerned(checkup, severities):
    """Return upper teeth and excursions of the findings of some severities."""
    chosen = [item for item in checkup.findings if item.severity in severities]
    return {(item.tooth_upper, item.excursion) for item in chosen}


@pytest.mark.parametrize(("kind", "seed"), list(campaigns()))
def test_scans_say_what_the_teeth_say(truth, tmp_path, kind, seed):
    """The same teeth guide, the jaw stands as high, what is serious is found, little else comes."""
    made, plain = truth
    scanner, limits = KINDS[kind]
    case = write_case(tmp_path / "c", made, any_place(seed), replace(scanner, seed=seed))
    found = run_case(case, planning=True)
    for one, other in zip(plain.sweeps[:3], found.sweeps[:3], strict=True):
        beside = np.array(list(gaps_on_teeth(one, other)))
        assert len(beside) > 10
        assert beside.max() <= limits.beside_mm, one.excursion.name
        assert height_difference_mm(one, other) <= limits.height_mm, one.excursion.name
    assert len(stopped(plain) - stopped(found)) <= limits.lost
    graver = {"serious", "attention"}
    serious = concerned(plain, {"serious"})
    assert serious
    # A top that smoothing took off comes near where it touched: told all the same, less gravely.
    assert serious <= concerned(found, graver if scanner.rounds else {"serious"})
    assert len(told(plain, graver) ^ told(found, graver)) <= limits.other
