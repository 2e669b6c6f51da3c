"""Where something flips over a grid, sought between its points: against shapes known exactly."""

import math

import numpy as np
import pytest

from kinematics.varying.contour_lines import level_lines
from kinematics.varying.flips import crossings, followed
from kinematics.varying.grid import PARTS, Axis, Grid, middle_of
from kinematics.varying.partition import UNKNOWN, Partition, between, regions
from kinematics.varying.told import HOLDS, Feature
from kinematics.varying.variation import Variation, flips_of

INSIDE = Feature("finding", "inside", "", (16, 46))
SAID = Feature("text", "which part")


def axis(count, first=0.0, last=None):
    """Return an axis of one setting, steps of 1 unless told."""
    return Axis("a.b", ("a.b",), first, count - 1.0 if last is None else last, count, None)


def plane(width, height):
    """Return a grid of two axes in steps of 1."""
    return Grid((axis(width), axis(height)))


def seek(grid, says):
    """Run a made study: says(values) gives what is told; return all runs and what was asked."""
    asked = []

    def ask(places, _more):
        asked.append(tuple(places))
        return [says(grid.values(place)) for place in places]

    first = {place: says(grid.values(place)) for place in grid.points}
    return followed(grid, first, ask), asked


def disc(centre, radius):
    """Return what is told of a disc."""

    def says(values):
        return {INSIDE: HOLDS} if math.dist(values, centre) < radius else {}

    return says


def test_crossings_of_a_circle_are_known_to_a_part_of_a_step():
    """Every line of the grid meets the circle where it does, and nothing is asked twice."""
    grid, centre, radius = plane(8, 7), (3.4, 2.9), 2.3
    runs, asked = seek(grid, disc(centre, radius))
    flat = [place for some in asked for place in some]
    assert len(flat) == len(set(flat)) and not set(flat) & set(grid.points)
    assert len(asked) == math.log2(PARTS)
    wanted = set()
    for along in (0, 1):
        for k in range(grid.shape[1 - along]):
            half = radius**2 - (k - centre[1 - along]) ** 2
            if half > 0:
                for sign in (-1, 1):
                    at = centre[along] + sign * math.sqrt(half)
                    if 0 < at < grid.shape[along] - 1:
                        wanted.add((along, k, math.floor(at * PARTS)))
    found = crossings(grid, runs)[INSIDE]
    assert {(c.axis, c.low[1 - c.axis] // PARTS, c.low[c.axis]) for c in found} == wanted
    for crossing in found:
        assert crossing.high[crossing.axis] - crossing.low[crossing.axis] == 1
        assert {crossing.before, crossing.after} == {"", HOLDS}


@pytest.mark.parametrize("seed", range(8))
def test_lines_and_squares_agree_with_the_shape(seed):
    """Squares far from the edge of a part say what is so there; lines lie on that edge."""
    rng, grid = np.random.default_rng(seed), plane(7, 6)
    x, y, radius, slope = rng.uniform([0.5, 0.5, 0.7, -1.0], [5.5, 4.5, 3.0, 1.0])

    def part(values):
        if math.dist(values, (x, y)) < radius:
            return 0
        return 1 if values[1] > 2.5 + slope * (values[0] - 3.0) else 2

    runs, _ = seek(grid, lambda values: {SAID: "abc"[part(values)]})
    labels = Partition(grid, {p: "abc".index(told[SAID]) for p, told in runs.items()})
    squares, parted = labels.squares(), labels.parted
    assert squares.shape == (6 * parted, 5 * parted)
    for i, j in rng.integers(0, squares.shape, (400, 2)):
        at = ((i + 0.5) / parted, (j + 0.5) / parted)
        own = part(at)
        # A chord of a circle within a cell of the grid lies this far inside it at most, and small
        # discs between points stay unseen.
        around = [
            part((at[0] + 1.0 * math.cos(t), at[1] + 1.0 * math.sin(t)))
            for t in np.linspace(0.0, 2 * math.pi, 24)
        ]
        if all(one == own for one in around):
            assert squares[i, j] == own
    for label in range(3):
        for line in labels.lines(label):
            for place in line:
                ends = [place - 0.6 / PARTS, place + 0.6 / PARTS]
                beside = {
                    part((a, b)) == label
                    for a in (ends[0][0], place[0], ends[1][0])
                    for b in (ends[0][1], place[1], ends[1][1])
                }
                assert beside == {True, False}


def test_a_narrow_band_across_cells_is_one_region():
    """Where opposite corners of a cell alone say something, its middle tells whether they join."""
    grid = plane(5, 5)

    def band(values):
        return {INSIDE: HOLDS} if abs(values[0] - values[1]) < 0.3 else {}

    runs, asked = seek(grid, band)
    assert middle_of(1, 1) in asked[0]
    parts = Partition(grid, {place: int(INSIDE in told) for place, told in runs.items()})
    assert [part.label for part in regions(parts.squares(), parts.parted)].count(1) == 1
    apart, _ = seek(grid, lambda values: band(values) if values[0] % 1 != 0.5 else {})
    parts = Partition(grid, {place: int(INSIDE in told) for place, told in apart.items()})
    assert [part.label for part in regions(parts.squares(), parts.parted)].count(1) == 5


def test_what_flips_twice_in_a_step_is_found_when_another_run_meets_it():
    """Runs between points serve all features; nothing is sought beyond a refused point."""
    grid = Grid((axis(4),))

    def says(values):
        if values[0] == 3.0:
            return None
        told = {SAID: "low" if values[0] < 0.5 else "high"}
        return told | ({INSIDE: HOLDS} if 0.3 < values[0] < 0.8 else {})

    runs, _ = seek(grid, says)
    found = crossings(grid, runs)
    at = [round(grid.axes[0].at(1) * c.middle[0], 3) for c in found[INSIDE]]
    assert at == pytest.approx([0.3, 0.8], abs=0.5 / PARTS)
    assert [(c.before, c.after) for c in found[SAID]] == [("low", "high")]


def test_features_that_are_always_alike_flip_together():
    """Two tooth pairs of one finding are one flip; another finding with the same edge is not."""
    grid = Grid((axis(3),))
    pairs = [Feature("finding", "contact", "protrusion", pair) for pair in ((16, 46), (17, 47))]
    other = Feature("finding", "near", "protrusion", (16, 46))
    both, alone = dict.fromkeys(pairs, "serious"), {other: "attention"}
    runs, _ = seek(grid, lambda v: both if v[0] < 1.2 else alone)
    flips = flips_of(crossings(grid, runs), runs, alone)
    assert [(flip.features, flip.severity, flip.as_set) for flip in flips] == [
        (tuple(pairs), "serious", ""),
        ((other,), "attention", "attention"),
    ]
    found = Variation(grid, {}, {}, runs, {}, flips)
    assert found.says(pairs[0], "serious").tolist() == [True, True, False]


def test_cells_with_a_refused_corner_have_no_lines():
    """A line ends where nothing is known; squares there say so."""
    grid = plane(4, 3)
    runs, _ = seek(
        grid, lambda v: None if v == (2.0, 1.0) else {INSIDE: HOLDS} if v[1] < 0.4 else {}
    )
    labels = {p: UNKNOWN if t is None else int(INSIDE in t) for p, t in runs.items()}
    parts = Partition(grid, labels)
    (line,) = parts.lines(1)
    assert line[:, 0].tolist() == [0.0, 1.0]
    assert (parts.squares() == UNKNOWN).any()


def test_level_lines_of_a_slope_are_exact():
    """Values that rise evenly have straight level lines, and middles of squares lie between."""
    x, y = np.meshgrid(np.arange(5.0), np.arange(4.0), indexing="ij")
    values = 2.0 * x + 3.0 * y
    (line,) = level_lines(values, 7.3)
    assert (2.0 * line[:, 0] + 3.0 * line[:, 1]) == pytest.approx(np.full(len(line), 7.3))
    middles = (np.arange(16) + 0.5) / 4, (np.arange(12) + 0.5) / 4
    a, b = np.meshgrid(*middles, indexing="ij")
    assert between(values, 4) == pytest.approx(2.0 * a + 3.0 * b)
    values[2, 2] = np.nan
    assert np.isnan(between(values, 4)).sum() == 4 * 16
