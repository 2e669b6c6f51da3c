"""What is said along one setting, the case as set among its points: against a dense line."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from kinematics.varying.along import stretches_along
from kinematics.varying.flips import crossings, followed, most_followed
from kinematics.varying.grid import PARTS, Axis, Grid
from kinematics.varying.told import HOLDS, Feature
from kinematics.varying.variation import Variation, flips_of
from scenes.vary_words import flip_words

FOUND = Feature("finding", "contact", "protrusion", (16, 46))
TOUCH = Feature("contact", "posterior contacts: protrusion at 2 mm", "", (16, 46))
GUIDE = Feature("text", "what guides: protrusion")
TEXTS = {
    FOUND: ("", "attention", "serious"),
    TOUCH: ("", HOLDS),
    GUIDE: ("canine", "group", "none"),
}
DENSE = 500


def line(count, as_set, first=20.0, last=50.0):
    """Return a grid over one setting of both sides, with the case among its points."""
    setting = "guidance.condylar_inclination_deg"
    return Grid((Axis(setting, (setting,), first, last, count, as_set, True),))


def made(seed):
    """Return made features: of each the values at which it changes, and what it says between."""
    rng = np.random.default_rng(seed)
    known = {}
    for feature, texts in TEXTS.items():
        at = np.sort(rng.uniform(20.0, 50.0, int(rng.integers(0, 5))))
        said = [texts[int(rng.integers(len(texts)))]]
        for _ in at:
            said.append(texts[int(rng.choice([k for k, t in enumerate(texts) if t != said[-1]]))])
        known[feature] = at, said
    return rng, known


def truth(known, value):
    """Return what is said at a value of the setting."""
    told = {f: said[int(np.searchsorted(at, value))] for f, (at, said) in known.items()}
    return {feature: text for feature, text in told.items() if text}


def run(grid, says):
    """Run a made study; return all runs, and how many were asked for and allowed."""
    first = {place: says(*grid.values(place)) for place in grid.points}
    rounds = []

    def ask(places, most_after):
        rounds.append((len(places), most_after))
        return [says(*grid.values(place)) for place in places]

    return followed(grid, first, ask), rounds


def variation(grid, says):
    """Return a made study as it is told."""
    runs, _ = run(grid, says)
    own = grid.axes[0].as_set
    flips = flips_of(crossings(grid, runs), runs, {} if own is None else says(own))
    return Variation(grid, {}, {place: {} for place in runs}, runs, {}, flips)


def within(stretch, axis, value):
    """Tell whether a value lies in a stretch, its borders left out."""
    low = axis.first if stretch.begin is None else stretch.begin[1]
    high = axis.last if stretch.end is None else stretch.end[0]
    return low <= value <= high


@pytest.mark.parametrize("seed", range(80))
def test_what_is_told_agrees_with_a_dense_line(seed):
    """Borders lie where it changes; the case is never contradicted; restless steps are restless."""
    rng, known = made(seed)
    as_set = float(rng.choice([rng.uniform(20.0, 50.0), 35.0, 20.0]))
    grid = line(int(rng.integers(2, 12)), as_set)
    (axis,) = grid.axes
    runs, _ = run(grid, lambda value: truth(known, value))
    values = np.linspace(axis.first, axis.last, DENSE)
    for feature, (at, _) in known.items():
        told = stretches_along(axis, 0, runs, feature)
        # Nothing is left out but what lies between the runs at a border.
        assert told[0].begin is None or told[0].says is None
        for one, other in pairwise(told):
            assert one.end == other.begin and one.says != other.says
            assert one.end[1] - one.end[0] <= axis.step / PARTS + 1e-9
        (own,) = [one for one in told if within(one, axis, as_set)][:1]
        assert own.says in (None, truth(known, as_set).get(feature, ""))
        steps = np.searchsorted(axis.values, at)
        once = len(set(steps.tolist())) == len(steps)
        if once:
            # With one change in every step the dense line says the same everywhere.
            assert all(one.says is not None for one in told) and len(told) == len(at) + 1
            for one, change in zip(told, at, strict=False):
                assert one.end[0] <= change <= one.end[1]
            for value in values:
                for one in told:
                    if within(one, axis, value):
                        assert one.says == truth(known, value).get(feature, "")
        for one in (one for one in told if one.says is None):
            inside = [c for c in at if one.begin[0] < c < one.end[0]]
            assert len(inside) > 1 and {one.begin[0], one.end[0]} <= {*axis.values}


def test_the_case_as_set_is_a_point_of_a_line():
    """In its place, in steps parted as others are; at a point or outside it adds none."""
    grid = line(4, 22.0)
    (axis,) = grid.axes
    assert axis.values == (20.0, 22.0, 30.0, 40.0, 50.0) and grid.shape == (5,)
    assert grid.case_point == (PARTS,) and grid.values(grid.case_point) == (22.0,)
    assert grid.values((PARTS // 2,)) == (21.0,) and grid.values((PARTS + PARTS // 2,)) == (26.0,)
    assert line(4, 30.0).shape == (4,) and line(4, 30.0).case_point == (PARTS,)
    # So near to a point it takes its place.
    assert line(4, 30.001).axes[0].values == (20.0, 30.001, 40.0, 50.0)
    for outside in (19.0, 51.0, None):
        assert line(4, outside).shape == (4,) and line(4, outside).case_point is None
    plain = Grid((replace(axis, with_case=False),))
    assert plain.shape == (4,) and plain.case_point is None


def test_a_page_does_not_contradict_the_case_as_set():
    """What begins between a point and the case is sought there; before it was read over it."""
    found = variation(line(4, 22.0), lambda v: {TOUCH: HOLDS} if v < 22.5 else {})
    (flip,) = found.flips
    assert flip.as_set == HOLDS
    assert flip_words(found, flip).endswith("below 22.2° (±0.2°)")
    # A change back between the case and the next point has no other run to meet it.
    found = variation(line(4, 22.0), lambda v: {TOUCH: HOLDS} if 21.0 < v < 23.1 else {})
    assert "from 21.06° (±0.06°) to 23.2° (±0.2°)" in flip_words(found, found.flips[0])


def test_what_comes_back_within_a_step_is_told_as_restless():
    """Not as one flip, though both ends of the step differ, nor as none where they do not."""

    def says(value):
        told = {GUIDE: "canine" if value < 24.0 or 26.0 < value < 28.0 or value > 46 else "group"}
        if 45.0 < value < 47.4:
            told[TOUCH] = HOLDS
        # What flips elsewhere in these steps makes runs that meet the changes back.
        return told | ({FOUND: "serious"} if value < 27.0 else {})

    found = variation(line(4, None), says)
    (flip,) = [flip for flip in found.flips if flip.first == GUIDE]
    words = flip_words(found, flip)
    assert "changes more than once between 20° and 30°" in words
    assert "group from 30° to 45.9° (±0.3°)" in words and "canine above 45.9° (±0.3°)" in words
    (touch,) = [flip for flip in found.flips if flip.first == TOUCH]
    assert flip_words(found, touch).endswith(": changes more than once between 40° and 50°")


def test_where_a_finding_gets_graver_is_told():
    """Along a line on which it always holds, with its severity as set."""
    found = variation(line(4, 44.0), lambda v: {FOUND: "attention" if v < 31.0 else "serious"})
    (flip,) = found.flips
    assert flip.severity == "serious" and flip.as_set == "serious"
    assert flip_words(found, flip).endswith(
        "attention below 30.9° (±0.3°); serious above 30.9° (±0.3°)"
    )


def test_stretches_end_at_refused_runs():
    """Beside settings that make no case something is told as far as it was run."""
    found = variation(
        line(4, None), lambda v: None if v == 30.0 else {TOUCH: HOLDS} if v < 45.0 else {}
    )
    (axis,) = found.grid.axes
    told = stretches_along(axis, 0, found.told, TOUCH)
    assert [one.says for one in told] == [HOLDS, HOLDS, ""]
    assert told[0].end == (20.0, 20.0) and told[1].begin == (40.0, 40.0)


@pytest.mark.parametrize("seed", range(10))
def test_never_more_runs_than_are_announced(seed):
    """Before it begins, and after every round, for features that change at random."""
    rng = np.random.default_rng(seed)
    for grid in (
        line(4, 33.3),
        Grid((Axis("a", ("a",), 0.0, 3.0, 4, None), Axis("b", ("b",), 0.0, 2.0, 3, None))),
    ):
        _, rounds = run(grid, lambda *_: {GUIDE: str(rng.integers(6))})
        assert len(rounds) == math.log2(PARTS)
        announced = most_followed(grid)
        for k, (count, _) in enumerate(rounds):
            assert count + sum(n for n, _ in rounds[k + 1 :]) <= announced
            announced = rounds[k][1]
        assert announced == 0
