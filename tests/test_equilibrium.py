"""Where random bodies come to rest: laws of springs, duality, and general-purpose solvers."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.load.equilibrium import escape_of
from kinematics.load.links import Law, Links
from tests.made_loads import (
    by_least_distance,
    can_be_balanced,
    made,
    obeys,
    rest_of,
    stored_and_given,
)

SEEDS = range(200)
#: Cases in which springs hold every body, so that other solvers find what they carry as exactly.
HELD = [{"seed": 1000 + seed, "grounded": True, "gaps": seed % 2 == 0} for seed in range(100)]


@pytest.fixture(scope="module")
def cases():
    """Return links, load and rest of all seeds; there is rest in many, and none in many."""
    found = [(links, load, rest_of(links, load)) for links, load in map(made, SEEDS)]
    balanced = sum(rest.status == "equilibrium" for *_, rest in found)
    assert 60 <= balanced <= len(found) - 50
    return found


@pytest.fixture(scope="module")
def rests(cases):
    """Return the cases that come to rest."""
    return [case for case in cases if case[2].status == "equilibrium"]


def test_every_rest_obeys_its_links_and_balances_force_and_moment(rests):
    """To a part of 1e-9 of the load; no link that only pushes pulls."""
    for links, load, rest in rests:
        assert max(obeys(links, load, rest)) < 1e-9
        assert rest.left < 1e-9
        assert rest.force_n[links.one_sided].min(initial=0.0) >= 0.0
        assert rest.escape is None


def test_a_rest_has_the_least_energy_of_all(rests):
    """No other forces can balance the load with less: both energies agree."""
    for links, load, rest in rests:
        given, complementary = stored_and_given(links, load, rest)
        assert given == pytest.approx(complementary, rel=1e-8, abs=1e-9)


def test_planted_errors_of_one_part_in_a_million_are_seen(rests):
    """What the tests above would see of a wrong force, or of a body in a wrong place."""
    random = np.random.default_rng(5)
    for links, load, rest in rests:
        force = rest.force_n.copy()
        force[random.integers(len(force))] += 1e-6 * np.abs(load).max()
        assert max(obeys(links, load, replace(rest, force_n=force))) > 1e-9
        aside = rest.moved + 1e-4 * np.linalg.norm(rest.moved) * random.normal(size=len(rest.moved))
        assert max(obeys(links, load, replace(rest, moved=aside))) > 1e-9


@pytest.mark.parametrize("first", [0, 50])
def test_forces_are_those_of_a_general_solver(first):
    """By scipy's bounded least squares, to 1e-7 of the load."""
    for case in HELD[first : first + 50]:
        links, load = made(**case)
        rest = rest_of(links, load)
        assert rest.status == "equilibrium"
        wanted = by_least_distance(links, load)
        np.testing.assert_allclose(rest.force_n, wanted, atol=1e-7 * np.abs(load).max())


def test_no_equilibrium_is_told_where_a_general_solver_finds_none(cases):
    """By scipy's linear programming: no pushes balance the load."""
    for links, load, rest in cases:
        assert can_be_balanced(links, load) is (rest.status == "equilibrium")


def test_where_there_is_no_rest_a_motion_shows_why(cases):
    """Nothing hinders it and the load does work along it."""
    for links, load, rest in cases:
        if rest.status == "equilibrium":
            continue
        shortened = links.dense(links.closing) @ rest.escape
        assert np.abs(shortened[~links.one_sided]).max(initial=0.0) < 1e-9
        assert shortened[links.one_sided].max(initial=0.0) < 1e-9
        assert load @ rest.escape > 1e-9 * np.abs(load).max()
        assert np.abs(rest.escape).max() == pytest.approx(1.0)
        assert not rest.unique
        assert not rest.force_n.any()
        assert not rest.moved.any()


@pytest.mark.parametrize("seed", range(60))
def test_an_escape_is_found_among_pushes_that_depend_on_each_other(seed):
    """Twenty cones each, of less than full rank; none where linear programming finds a rest."""
    random = np.random.default_rng(seed)
    for _ in range(20):
        links, load = dependent_pushes(random)
        motion = escape_of(links, load)
        assert (motion is None) is can_be_balanced(links, load)
        if motion is not None:
            assert (links.dense(links.closing) @ motion).max() < 1e-9
            assert load @ motion > 1e-9 * np.abs(load).max()


def dependent_pushes(random):
    """Return links that only push, of few independent directions, and any load."""
    count, wide = int(random.integers(2, 13)), int(random.integers(2, 9))
    rank = int(random.integers(1, max(2, min(count, wide))))
    rows = random.normal(size=(wide, rank)) @ random.normal(size=(rank, count))
    places = np.tile(np.arange(count), (len(rows), 1))
    laws = np.tile(Law(100.0, one_sided=True).row, (len(rows), 1))
    return Links(places, rows, rows, laws, count), 10.0 * random.normal(size=count)


def test_a_rest_is_the_only_one_where_links_that_push_hold_everything(rests):
    """The flag says so where their rows have full rank, and nowhere else."""
    seen = set()
    for links, load, rest in rests:
        pushing = rest.force_n > 1e-9 * np.abs(load).max()
        rows = links.dense(links.closing)[pushing | ~links.one_sided]
        rank = np.linalg.matrix_rank(rows, tol=1e-9)
        assert rest.unique is bool(rank == links.coordinates)
        seen.add(rest.unique)
    assert seen == {True, False}


def test_another_start_gives_the_same_forces(rests):
    """Springs carry the same wherever bodies come from; where held, bodies rest at one place."""
    random = np.random.default_rng(3)
    for links, load, rest in rests:
        other = rest_of(links, load, 5.0 * random.normal(size=links.coordinates))
        assert other.status == "equilibrium"
        most = np.abs(rest.force_n).max()
        np.testing.assert_allclose(other.force_n, rest.force_n, atol=1e-9 * most)
        if rest.unique:
            most = np.abs(rest.moved).max()
            np.testing.assert_allclose(other.moved, rest.moved, atol=1e-7 * most)
