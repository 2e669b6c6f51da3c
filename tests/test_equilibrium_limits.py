"""Rest at the limits: loose and lifted bodies, friction, any order of links, any frame."""

import numpy as np
import pytest

from benchmarks.load import by_scipy, jaws
from kinematics.checks import InputError
from kinematics.contact.workers import Workers
from kinematics.load.equilibrium import equilibria
from kinematics.load.links import SKULL, Law, Links, Model
from tests.made_loads import can_be_balanced, made, obeys, rest_of

AHEAD, LEFT, UP = np.eye(3)
ORIGIN = np.zeros(3)
PUSHES = Law(1000.0, one_sided=True)


def test_without_load_nothing_moves_and_nothing_carries():
    """Also where bodies hang loose."""
    for links, load in map(made, range(60)):
        rest = rest_of(links, np.zeros_like(load))
        assert rest.status == "equilibrium"
        assert not rest.moved.any()
        assert not rest.force_n.any()
        assert rest.left == 0.0


@pytest.mark.parametrize("seed", range(60))
def test_a_body_that_nothing_holds_is_told_as_not_the_only_rest(seed):
    """Another body, far from all links, leaves the others as they were."""
    links, load = made(seed, grounded=True)
    wider = Links(
        links.places, links.closing, links.pull, links.laws, links.coordinates + 6
    )  # the last six belong to no link
    alone, beside = rest_of(links, load), rest_of(wider, np.append(load, np.zeros(6)))
    assert beside.status == "equilibrium"
    assert alone.unique
    assert not beside.unique
    most = np.abs(load).max()
    np.testing.assert_allclose(beside.force_n, alone.force_n, atol=1e-9 * most)


def test_all_supports_lifted():
    """A body drawn off its only supports escapes along the pull."""
    model = Model()
    body = model.body(ORIGIN)
    for point in (AHEAD, -AHEAD, LEFT):
        model.link(body, SKULL, 10.0 * point, -UP, PUSHES)
    rest = rest_of(model.links(), model.load(body, ORIGIN, 5.0 * UP))
    assert rest.status == "no equilibrium"
    np.testing.assert_allclose(rest.escape, [0, 0, 1, 0, 0, 0], atol=1e-12)


@pytest.mark.parametrize("gap_mm", [0.0, 0.3, 20.0])
def test_one_link_closes_its_gap_and_then_carries(gap_mm):
    """One coordinate: gap + F / k; the other way there is no rest."""
    links = Links(
        np.array([[0]]),
        ones := np.ones((1, 1)),
        ones,
        np.array([Law(200.0, gap_mm=gap_mm, one_sided=True).row]),
        1,
    )
    rest = rest_of(links, np.array([50.0]))
    assert rest.moved[0] == pytest.approx(gap_mm + 0.25, rel=1e-12)
    assert rest.force_n[0] == pytest.approx(50.0, rel=1e-12)
    assert rest.unique
    pulled = rest_of(links, np.array([-50.0]))
    assert pulled.status == "no equilibrium"
    np.testing.assert_allclose(pulled.escape, [-1.0])


@pytest.mark.parametrize("ratio", [1.0, 1e3, 1e6])
def test_very_stiff_beside_very_soft(ratio):
    """Side by side they share as they are stiff, one behind the other both carry all."""
    model = Model()
    tooth = model.tooth_on(SKULL)
    soft = model.link(tooth, SKULL, ORIGIN, -UP, Law(20.0))
    stiff = model.link(tooth, SKULL, ORIGIN, -UP, Law(20.0 * ratio, one_sided=True))
    for way in (AHEAD, LEFT):
        model.link(tooth, SKULL, ORIGIN, way, Law(20.0))
    above = model.tooth_on(SKULL)
    between = model.link(above, tooth, ORIGIN, -UP, Law(20.0 * ratio, one_sided=True))
    for way in (AHEAD, LEFT):
        model.link(above, SKULL, ORIGIN, way, Law(20.0))
    rest = rest_of(model.links(), model.load(above, ORIGIN, -100.0 * UP))
    shared = 100.0 / (1.0 + ratio)
    np.testing.assert_allclose(
        rest.force_n[[soft, stiff, between]], [shared, ratio * shared, 100.0], rtol=1e-9
    )
    assert rest.moved[2] == pytest.approx(-shared / 20.0, rel=1e-9)
    assert rest.unique


@pytest.mark.parametrize("share", [1e-3, 0.5, 7.0, 1e4])
def test_in_one_phase_and_without_gaps_forces_grow_with_the_load(share):
    """Then, and only then, half the load halves every force."""
    for seed in range(50):
        links, load = made(seed, one_phase=True, gaps=False)
        one, other = rest_of(links, load), rest_of(links, share * load)
        assert one.status == other.status
        most = np.abs(one.force_n).max()
        np.testing.assert_allclose(other.force_n / share, one.force_n, atol=1e-9 * most)
    links, load = made(3, grounded=True)
    grown = rest_of(links, 2.0 * load).force_n - 2.0 * rest_of(links, load).force_n
    assert np.abs(grown).max() > 1e-3


def motion(seed, mirrored):
    """Return a turn and shift of everything, mirrored left to right or not."""
    random = np.random.default_rng(seed)
    turn, _ = np.linalg.qr(random.normal(size=(3, 3)))
    turn[:, 0] *= np.sign(np.linalg.det(turn)) * (-1.0 if mirrored else 1.0)
    moved = np.eye(4)
    moved[:3, :3], moved[:3, 3] = turn, 80.0 * random.normal(size=3)
    return moved


@pytest.mark.parametrize("mirrored", [False, True])
def test_turned_shifted_or_mirrored_all_carry_the_same(mirrored):
    """Forces belong to the bodies, not to the frame, its origin or its hand."""
    for seed in range(60):
        here, there = made(seed), made(seed, moved=motion(seed, mirrored))
        one, other = rest_of(*here), rest_of(*there)
        assert one.status == other.status
        most = max(1.0, np.abs(one.force_n).max())
        np.testing.assert_allclose(other.force_n, one.force_n, atol=1e-9 * most)


def test_any_order_of_links_gives_the_same_forces():
    """To a part of 1e-9 of the greatest."""
    for seed in range(60):
        links, load = made(seed)
        order = np.random.default_rng(seed).permutation(len(links.laws))
        closing = links.closing[order]
        mixed = Links(links.places[order], closing, closing, links.laws[order], links.coordinates)
        one, other = rest_of(links, load), rest_of(mixed, load)
        assert one.status == other.status
        most = max(1.0, np.abs(one.force_n).max())
        np.testing.assert_allclose(other.force_n, one.force_n[order], atol=1e-9 * most)


def test_any_number_of_threads_gives_the_same_bits():
    """Forces, places and what escapes, of many loads on one model."""
    links, load = made(2)
    loads = load * np.random.default_rng(1).normal(size=(64, 1)) + 20.0 * np.random.default_rng(
        2
    ).normal(size=(64, len(load)))
    one, two = (equilibria([links] * 64, loads, workers=Workers(n)) for n in (1, 2))
    for first, second in zip(one, two, strict=True):
        assert first.status == second.status
        assert first.moved.tobytes() == second.moved.tobytes()
        assert first.force_n.tobytes() == second.force_n.tobytes()
        assert first.unique == second.unique


@pytest.mark.parametrize("coefficient", [0.05, 0.1, 0.2])
def test_with_friction_every_rest_obeys_and_none_is_told_as_the_only_one(coefficient):
    """Springs of teeth and condyles hold bodies; where no rest is found, none is told."""
    found = 0
    for seed in range(60):
        links, load = made(seed, coefficient=coefficient, grounded=True)
        rest = rest_of(links, load)
        if rest.status == "equilibrium":
            found += 1
            assert max(obeys(links, load, rest)) < 1e-9
            assert not rest.unique
        else:
            assert not rest.force_n.any()
            assert rest.escape is None or not can_be_balanced(links, load)
    assert found >= 57, found


@pytest.mark.parametrize("two_phase", [False, True])
def test_full_jaws_carry_what_a_general_solver_finds(two_phase):
    """Teeth, condyles and a denture base, by scipy's trust region with exact curvature."""
    models, loads = jaws(6, two_phase)
    for links, load, rest in zip(models, loads, equilibria(models, loads), strict=True):
        assert rest.status == "equilibrium"
        assert rest.unique
        assert rest.left < 1e-9
        np.testing.assert_allclose(by_scipy(links, load), rest.force_n, atol=1e-7)


def test_friction_of_nothing_is_no_friction():
    """Then rest may be the only one again."""
    links, load = made(1, grounded=True)
    assert links.frictionless
    rubbing = Links(links.places, links.closing, links.closing + 0.0, links.laws, links.coordinates)
    assert not rubbing.frictionless
    np.testing.assert_allclose(
        rest_of(rubbing, load).force_n, rest_of(links, load).force_n, atol=1e-9 * np.abs(load).max()
    )


def test_loads_that_cannot_be_used_are_refused():
    """Of another number of coordinates, or not finite."""
    links, load = made(0)
    with pytest.raises(InputError, match="loads"):
        rest_of(links, load[:-1])
    load[0] = np.nan
    with pytest.raises(InputError, match="loads"):
        rest_of(links, load)
    with pytest.raises(InputError, match="nothing supports anything"):
        Model().links()
