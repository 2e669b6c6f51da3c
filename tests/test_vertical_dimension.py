"""What holds the vertical dimension: natural stops, replacement teeth, both, or nothing."""

import math
from dataclasses import replace

import pytest

from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.planning.vertical_dimension import vertical_dimension


def told(example, stops=None, replaced=(), opening_rad=0.0):
    """Return what is said of the example with other stops, replacement teeth or opening."""
    return vertical_dimension(
        example.sweeps,
        GuidanceCoordinates(0.0, 0.0, 0.0, opening_rad),
        example.incisal_point,
        example.stops if stops is None else stops,
        replaced,
    )


@pytest.mark.parametrize(
    ("replaced", "held_by", "natural"),
    [
        ((), "natural teeth alone", 24),
        ((15, 16, 17), "natural and replacement teeth", 15),
        ((47,), "natural and replacement teeth", 21),
        ((14, 15, 16, 17, 24, 25, 26, 27), "replacement teeth alone", 0),
    ],
)
def test_who_holds_it(example, replaced, held_by, natural):
    """A stop with a replacement tooth in either arch is one of these."""
    found = told(example, replaced=replaced)
    assert (found.held_by, found.natural_stops) == (held_by, natural)
    assert found.natural_stops + found.replacement_stops == 24


def test_without_stops_nothing_holds_it(example):
    """No stop is said as such."""
    assert told(example, stops=()).held_by == "no stop"


def test_how_far_natural_teeth_are_apart(example):
    """The least distance among natural pairs; without bound where no two face each other."""
    assert told(example).natural_gap_mm == example.sweeps[0].pair_gap_mm[0].min()
    every = (*example.upper.codes, *example.lower.codes)
    assert told(example, replaced=every).natural_gap_mm == math.inf
    assert told(example, replaced=example.upper.codes).natural_gap_mm == math.inf
    far = replace(example.sweeps[0], pair_gap_mm=example.sweeps[0].pair_gap_mm + 0.5)
    found = vertical_dimension((far,), example.mi, example.incisal_point, example.stops, (15,))
    assert found.natural_gap_mm == pytest.approx(0.5, abs=0.01)
    from_cr = example.sweeps[-1:]
    found = vertical_dimension(from_cr, example.mi, example.incisal_point, example.stops, ())
    assert found.natural_gap_mm == math.inf


def test_opening_is_told_at_the_incisal_point(example):
    """A turn of a thousandth at a radius of hypot(84, 33) mm is 0.090 mm: opened."""
    found = told(example, opening_rad=1e-3)
    assert found.opened_mm == pytest.approx(1e-3 * math.hypot(84.0, 33.0))
    assert not found.is_kept
    assert told(example, opening_rad=1e-4).is_kept
    assert not told(example, opening_rad=-1e-3).is_kept
