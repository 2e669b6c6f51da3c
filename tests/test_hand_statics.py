"""Who carries what, against statics worked by hand; every formula is common practice."""

import tomllib
from pathlib import Path

import numpy as np
import pytest

from kinematics.load.condyle_support import support_condyle
from kinematics.load.equilibrium import equilibria
from kinematics.load.links import SKULL, Law, Model
from kinematics.planning.lateral_load import with_friction

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text("utf-8")
)
AHEAD, LEFT, UP = np.eye(3)
HELD = Law(1000.0)
PUSHES = Law(1000.0, one_sided=True)


def rest_of(model, *loads):
    """Return where a model comes to rest under forces given as (part, point, force)."""
    total = np.sum([model.load(*load) for load in loads], axis=0)
    return equilibria([model.links()], total[None])[0]


def upright(centre=(0.0, 0.0, 0.0)):
    """Return a model and a body that can sink and tilt, and is kept from sliding and spinning."""
    model = Model()
    body = model.body(np.array(centre))
    for point, way in ((0.0, AHEAD), (0.0, LEFT), (10.0, LEFT)):
        model.link(body, SKULL, np.array(centre) + point * AHEAD, way, HELD)
    return model, body


def on_supports(points, stiffness=None):
    """Return a model and a body on one-sided supports at points of a level plane."""
    model, body = upright()
    laws = [Law(k, one_sided=True) for k in stiffness or [1000.0] * len(points)]
    links = [
        model.link(body, SKULL, np.array([*point, 0.0]), -UP, law)
        for point, law in zip(points, laws, strict=True)
    ]
    return model, body, links


def on_an_incline(slope_rad, coefficient=0.0, outward=True):
    """Return what a tooth pressed upward with 100 N on an upper incline sends across.

    Along the axis the contact alone carries it; springs across the axis hold the tooth.
    """
    model = Model()
    tooth = model.tooth_on(SKULL)
    cos, sin = np.cos(slope_rad), np.sin(slope_rad)
    normal, way = np.array([sin, 0.0, cos]), np.array([cos, 0.0, -sin])
    push = with_friction(normal, way if outward else -way, coefficient)
    model.link(tooth, SKULL, np.zeros(3), normal, PUSHES, push - normal)
    across = model.link(tooth, SKULL, np.zeros(3), -AHEAD, HELD)
    model.link(tooth, SKULL, np.zeros(3), LEFT, HELD)
    rest = rest_of(model, (tooth, np.zeros(3), 100.0 * UP))
    assert rest.status == "equilibrium"
    assert rest.left < 1e-9
    assert rest.unique is (coefficient == 0.0)
    return rest.force_n[across]


def test_an_incline_sends_the_tangent_across():
    """Across = along x tan(slope)."""
    published = PUBLISHED["incline_without_friction"]
    slopes = np.radians(published["slope_deg"])
    got = [on_an_incline(slope) for slope in slopes]
    np.testing.assert_allclose(got, 100.0 * np.tan(slopes), rtol=1e-12)
    np.testing.assert_allclose(got, published["lateral_n_per_100_n"], atol=0.05)


@pytest.mark.parametrize("row", PUBLISHED["incline_with_friction"])
def test_friction_turns_the_push_by_its_angle(row):
    """Across = along x tan(slope + atan mu) on the way out, tan(slope - atan mu) back in."""
    slopes, sign = np.radians(row["slope_deg"]), 1.0 if row["outward"] else -1.0
    got = [on_an_incline(slope, row["coefficient"], row["outward"]) for slope in slopes]
    wanted = 100.0 * np.tan(slopes + sign * np.arctan(row["coefficient"]))
    np.testing.assert_allclose(got, wanted, rtol=1e-9)
    np.testing.assert_allclose(got, row["lateral_n_per_100_n"], atol=0.05)


@pytest.mark.parametrize("coefficient", [0.1, 0.2, 0.4])
def test_an_incline_less_steep_than_the_angle_of_friction_locks(coefficient):
    """Nothing has to hold the tooth from sliding back: it would have to be pulled."""
    angle = np.arctan(coefficient)
    assert on_an_incline(angle - 0.02, coefficient, outward=False) < -1.0
    assert on_an_incline(angle + 0.02, coefficient, outward=False) > 1.0
    assert on_an_incline(angle, coefficient, outward=False) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("place_mm", [0.0, 3.0, 10.0, 27.5, 40.0])
@pytest.mark.parametrize("stiffness", [(1000.0, 1000.0), (50.0, 20000.0)])
def test_a_beam_on_two_supports_by_the_lever_rule(place_mm, stiffness):
    """R1 = P (L - a) / L and R2 = P a / L, however stiff the supports are."""
    model, body, links = on_supports([(0.0, 0.0), (40.0, 0.0)], list(stiffness))
    model.link(body, SKULL, 10.0 * LEFT, UP, HELD)  # so that it does not roll over
    rest = rest_of(model, (body, place_mm * AHEAD, -80.0 * UP))
    assert rest.status == "equilibrium"
    wanted = [80.0 * (40.0 - place_mm) / 40.0, 80.0 * place_mm / 40.0]
    np.testing.assert_allclose(rest.force_n[links], wanted, rtol=1e-9, atol=1e-9)
    sunk = wanted / np.array(stiffness)
    assert rest.moved[2] == pytest.approx(-sunk[0], rel=1e-9, abs=1e-12)


@pytest.mark.parametrize(("place_mm", "stays"), [(-5.0, 0), (46.0, 1)])
def test_a_beam_loaded_beyond_its_supports_tips(place_mm, stays):
    """No pushes balance it; it turns about the nearer support and leaves the other."""
    model, body, links = on_supports([(0.0, 0.0), (40.0, 0.0)])
    model.link(body, SKULL, 10.0 * LEFT, UP, HELD)
    rest = rest_of(model, (body, place_mm * AHEAD, -80.0 * UP))
    assert rest.status == "no equilibrium"
    assert not rest.unique
    assert not rest.force_n.any()
    made = model.links()
    shorter = made.dense(made.closing) @ rest.escape
    assert shorter[links[stays]] == pytest.approx(0.0, abs=1e-9)
    assert shorter[links[1 - stays]] < -0.1
    assert np.abs(rest.escape).max() == pytest.approx(1.0)


CORNERS = np.array([(40.0, 2.0), (5.0, 25.0), (0.0, -22.0)])


@pytest.mark.parametrize("shares", [(1, 1, 1), (0.7, 0.2, 0.1), (0.05, 0.05, 0.9), (0.5, 0.5, 0)])
def test_a_tripod_shares_a_load_by_its_barycentric_coordinates(shares):
    """A force through the point that has them reaches each support with its share."""
    weights = np.array(shares) / np.sum(shares)
    model, body, links = on_supports([*map(tuple, CORNERS)], [1000.0, 30.0, 5000.0])
    at = np.array([*(weights @ CORNERS), 0.0])
    rest = rest_of(model, (body, at, -100.0 * UP))
    assert rest.status == "equilibrium"
    np.testing.assert_allclose(rest.force_n[links], 100.0 * weights, rtol=1e-9, atol=1e-9)
    assert rest.unique is bool(np.all(weights > 0.0))


@pytest.mark.parametrize("lifted", [0, 1, 2])
def test_a_tripod_loaded_outside_its_triangle_tips(lifted):
    """One barycentric coordinate is negative: that support is lifted."""
    weights = np.full(3, 0.55)
    weights[lifted] = -0.1
    model, body, links = on_supports([*map(tuple, CORNERS)])
    at = np.array([*(weights @ CORNERS), 0.0])
    rest = rest_of(model, (body, at, -100.0 * UP))
    assert rest.status == "no equilibrium"
    made = model.links()
    shorter = (made.dense(made.closing) @ rest.escape)[links]
    np.testing.assert_allclose(np.delete(shorter, lifted), 0.0, atol=1e-9)
    assert shorter[lifted] < -0.1


HALF_MM = 52.0


def jaw_on_canine(canine, force_at, force, slope_rad=0.0, normal=UP):
    """Return forces on the canine and, rows right and left, on both condyles; all on the skull."""
    model = Model()
    jaw = model.body(np.array([50.0, 0.0, -35.0]))
    joints = [support_condyle(model, jaw, sign * HALF_MM * LEFT, slope_rad) for sign in (-1.0, 1.0)]
    contact = model.link(jaw, SKULL, np.array(canine), normal, PUSHES)
    rest = rest_of(model, (jaw, np.array(force_at), np.array(force)))
    assert rest.status == "equilibrium"
    assert rest.left < 1e-9
    rows = [[side.against, side.along, side.sideways] for side in joints]
    return rest.force_n[contact], rest.force_n[np.array(rows)]


def wanted_at_condyles(contact_n, canine, force_at, force, normal=UP):
    """Return the force on the skull at both condyles in the sagittal plane, rows (x, z).

    Moments about the axes through a condyle, of the closing force and of the contact.
    """
    acting = np.array([force, -contact_n * np.asarray(normal)])
    at = np.array([force_at, canine])
    both, turning = acting.sum(axis=0), np.cross(at, acting).sum(axis=0)
    # about x: y Fz of both condyles; about z: -y Fx of both
    right_minus_left = np.array([turning[2], -turning[0]]) / HALF_MM
    sagittal = both[[0, 2]]
    return 0.5 * np.array([sagittal + right_minus_left, sagittal - right_minus_left])


@pytest.mark.parametrize("side_mm", [-5.0, 0.0, 12.0])
def test_a_jaw_on_one_canine_and_two_condyles(side_mm):
    """N = P a / x about the hinge axis; the condyles share the rest by moments about x."""
    canine, force_at = (80.0, 17.0, -35.0), (48.0, side_mm, -35.0)
    contact_n, joints = jaw_on_canine(canine, force_at, 100.0 * UP)
    assert contact_n == pytest.approx(100.0 * 48.0 / 80.0, rel=1e-9)
    left_minus_right = (100.0 * side_mm - 60.0 * 17.0) / HALF_MM
    wanted = [0.5 * (40.0 - left_minus_right), 0.5 * (40.0 + left_minus_right)]
    np.testing.assert_allclose(joints[:, 0], wanted, rtol=1e-9)
    np.testing.assert_allclose(joints[:, 1:], 0.0, atol=1e-9)


def test_either_condyle_may_carry_more():
    """On the non-working side as a rule, on the working side if the muscles there pull more."""
    for side_mm, heavier in ((0.0, 0), (15.0, 1)):
        joints = jaw_on_canine((80.0, 17.0, -35.0), (48.0, side_mm, -35.0), 100.0 * UP)[1]
        assert joints[:, 0].argmax() == heavier


@pytest.mark.parametrize("slope_deg", [20.0, 40.0, 60.0])
def test_muscles_hold_condyles_on_inclined_paths(slope_deg):
    """Against the path R cos(slope), and R sin(slope) to hold the jaw from sliding home."""
    slope = np.radians(slope_deg)
    canine, force_at = (80.0, 17.0, -35.0), (48.0, 0.0, -35.0)
    _, level = jaw_on_canine(canine, force_at, 100.0 * UP)
    _, steep = jaw_on_canine(canine, force_at, 100.0 * UP, slope)
    np.testing.assert_allclose(steep[:, 0], level[:, 0] * np.cos(slope), rtol=1e-9)
    np.testing.assert_allclose(steep[:, 1], -level[:, 0] * np.sin(slope), rtol=1e-9)


@pytest.mark.parametrize("tilt_deg", [-5.0, 0.0, 7.5, 20.0])
@pytest.mark.parametrize("slope_deg", [0.0, 35.0])
def test_a_jaw_on_an_inclined_canine_under_a_tilted_force(tilt_deg, slope_deg):
    """All six balances at once, with the contact pushing forward, aside and up."""
    tilt, slope = np.radians([tilt_deg, slope_deg])
    force = 100.0 * np.array([np.sin(tilt), 0.0, np.cos(tilt)])
    canine, force_at = (80.0, 17.0, -35.0), (48.0, 6.0, -35.0)
    normal = np.array([0.25, 0.35, 0.0])
    normal[2] = np.sqrt(1.0 - normal @ normal)
    contact_n, joints = jaw_on_canine(canine, force_at, force, slope, normal)
    about_hinge = np.cross(force_at, force)[1] / np.cross(canine, normal)[1]
    assert contact_n == pytest.approx(about_hinge, rel=1e-9)
    wanted = wanted_at_condyles(contact_n, canine, force_at, force, normal)
    along = np.array([np.cos(slope), -np.sin(slope)])
    against = np.array([np.sin(slope), np.cos(slope)])
    np.testing.assert_allclose(joints[:, 0], wanted @ against, rtol=1e-9)
    np.testing.assert_allclose(joints[:, 1], wanted @ along, rtol=1e-9, atol=1e-8)
    assert joints[:, 2].sum() == pytest.approx(-contact_n * normal[1], rel=1e-9)


def on_rests_and_bed(place_mm, length_mm=30.0, pieces=40, rest_n_per_mm=1e7, bed_n_per_mm2=4.0):
    """Return what a base on two rests and a bed behind them carries: both rests, and the bed.

    A load of 60 N presses it so far behind the rests.
    """
    model, base = upright()
    law = Law(rest_n_per_mm, one_sided=True)
    rests = [model.link(base, SKULL, side * LEFT, -UP, law) for side in (-8.0, 8.0)]
    piece = length_mm / pieces
    bed = [
        model.link(
            base, SKULL, -(number + 0.5) * piece * AHEAD, -UP,
            Law(bed_n_per_mm2 * piece, one_sided=True),
        )
        for number in range(pieces)
    ]  # fmt: skip
    rest = rest_of(model, (base, -place_mm * AHEAD, -60.0 * UP))
    return rest, rest.force_n[rests], rest.force_n[bed]


@pytest.mark.parametrize("place_mm", [0.0, 4.0, 10.0, 15.0, 19.0])
def test_a_base_on_two_rests_turns_about_its_fulcrum_line(place_mm):
    """Winkler's bed under a rigid base on firm rests.

    Its pressure grows with the way from the fulcrum line, so that it carries P a / (2 L / 3) and
    the rests carry the other part: 1 - 3 a / 2 L.
    """
    rest, rests, bed = on_rests_and_bed(place_mm)
    assert rest.status == "equilibrium"
    share = 1.5 * place_mm / 30.0
    assert rests.sum() == pytest.approx(60.0 * (1.0 - share), abs=0.05)
    assert bed.sum() == pytest.approx(60.0 * share, abs=0.05)
    np.testing.assert_allclose(rests[0], rests[1], rtol=1e-9, atol=1e-6)
    middle = np.arange(40) + 0.5
    np.testing.assert_allclose(bed, bed.sum() * middle / middle.sum(), atol=1e-3)


@pytest.mark.parametrize("place_mm", [21.0, 25.0])
def test_a_load_far_behind_lifts_the_rests(place_mm):
    """Beyond two thirds of the bed it alone carries, as a trapezium, or a triangle of 3 (L - a)."""
    _, rests, bed = on_rests_and_bed(place_mm)
    np.testing.assert_allclose(rests, 0.0, atol=1e-9)
    assert bed.sum() == pytest.approx(60.0, rel=1e-9)
    pressed = 3.0 * (30.0 - place_mm)
    np.testing.assert_allclose(30.0 - 0.75 * np.count_nonzero(bed), 30.0 - pressed, atol=0.8)


@pytest.mark.parametrize("rest_n_per_mm", [50.0, 500.0])
def test_a_base_on_yielding_rests_as_two_equations_give_it(rest_n_per_mm):
    """Sinking z and slope t: sum k (z + x t) = P and sum k x (z + x t) = P a."""
    _, rests, bed = on_rests_and_bed(12.0, rest_n_per_mm=rest_n_per_mm)
    stiffness = np.array([2.0 * rest_n_per_mm, *[3.0] * 40])
    x = np.array([0.0, *(0.75 * (np.arange(40) + 0.5))])
    sums = [stiffness @ x**power for power in range(3)]
    z, slope = np.linalg.solve([[sums[0], sums[1]], [sums[1], sums[2]]], [60.0, 60.0 * 12.0])
    np.testing.assert_allclose([rests.sum(), *bed], stiffness * (z + slope * x), rtol=1e-8)


@pytest.mark.parametrize("place_mm", [-10.0, 0.0, 14.0])
def test_a_cross_arch_splint_shares_a_lateral_load_like_a_group_of_fasteners(place_mm):
    """F k / sum k, and by its arm about the middle of stiffness M k r / sum k r^2."""
    model = Model()
    splint = model.body(np.zeros(3))
    points = np.array([(10.0, 20.0), (25.0, 12.0), (30.0, 0.0), (25.0, -12.0), (10.0, -20.0)])
    stiffness = np.array([250.0, 180.0, 60.0, 180.0, 400.0])
    links = []
    for point, k in zip(points, stiffness, strict=True):
        at = np.array([*point, 0.0])
        links += [model.link(splint, SKULL, at, way, Law(k)) for way in (AHEAD, LEFT)]
        model.link(splint, SKULL, at, UP, HELD)
    rest = rest_of(model, (splint, place_mm * AHEAD, 40.0 * LEFT))
    middle = stiffness @ points / stiffness.sum()
    arm = points - middle
    turning = 40.0 * (place_mm - middle[0]) / (stiffness @ np.sum(arm**2, axis=1))
    wanted = stiffness[:, None] * (
        np.array([0.0, 40.0 / stiffness.sum()]) + turning * np.column_stack([-arm[:, 1], arm[:, 0]])
    )
    np.testing.assert_allclose(rest.force_n[links].reshape(-1, 2), wanted, rtol=1e-9, atol=1e-9)
