"""What supports teeth, bases and splints: published figures, the bed of mucosa, and trends."""

import tomllib
from pathlib import Path

import numpy as np
import pytest

from kinematics.load.links import SKULL, Law, Model
from kinematics.load.mucosa_bed import (
    MOLAR_WIDTH_MM,
    RidgeSection,
    bed_stiffness_n_per_mm2,
    lay_bed,
)
from kinematics.load.rests import add_rest
from kinematics.load.settings import LoadSettings
from kinematics.load.tooth_support import (
    AXIAL_FIRST_N_PER_MM,
    AXIAL_KNEE_N,
    AXIAL_N_PER_MM,
    IMPLANT_AXIAL,
    IMPLANT_LATERAL,
    ROOT_MM,
    across_axes,
    hold_joined,
    hold_tooth,
    socket_of,
)
from tests.made_loads import rest_of

PUBLISHED = tomllib.loads((Path(__file__).parent / "published" / "loads.toml").read_text("utf-8"))
AHEAD, LEFT, UP = np.eye(3)
ORIGIN = np.zeros(3)
#: A tooth of each kind, by its place from the midline.
KINDS = {"incisors": (11, 42), "canines": (13, 33), "premolars": (14, 45), "molars": (16, 37)}


def pushed_mm(code, force_n, way=-UP, root=-UP, **kind):
    """Return how far a single tooth goes along a push."""
    model = Model()
    tooth = model.tooth_on(SKULL)
    hold_tooth(model, tooth, SKULL, ORIGIN, root, socket_of(code, **kind))
    rest = rest_of(model.links(), model.load(tooth, ORIGIN, force_n * way))
    assert rest.status == "equilibrium"
    assert rest.unique
    return rest.moved @ way


@pytest.mark.parametrize("force_n", [0.5, 3.0, 3.5, 4.0, 20.0, 150.0])
@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_a_tooth_goes_in_by_its_two_phases(force_n, sign):
    """F / k1 up to the knee, and (F - knee) / k2 beyond it; the same when it is drawn."""
    upto = min(force_n, AXIAL_KNEE_N)
    wanted = upto / AXIAL_FIRST_N_PER_MM + (force_n - upto) / AXIAL_N_PER_MM
    assert pushed_mm(16, force_n, -sign * UP) == pytest.approx(wanted, rel=1e-9)


def test_twenty_newtons_push_a_tooth_in_as_published():
    """Easily at first, then less, and within the range of all teeth."""
    give, knee = PUBLISHED["axial_give"], PUBLISHED["axial_knee"]
    micrometres = 1e3 * pushed_mm(16, give["force_n"])
    assert micrometres == pytest.approx(36.5, abs=0.1)
    assert give["least_um"] <= micrometres <= give["most_um"]
    assert knee["least_n"] <= AXIAL_KNEE_N <= knee["most_n"]
    assert pushed_mm(16, 2.0) / 2.0 > 4.0 * (pushed_mm(16, 20.0) - pushed_mm(16, 18.0)) / 2.0


@pytest.mark.parametrize("kind", KINDS)
def test_five_newtons_across_move_each_kind_of_tooth_as_published(kind):
    """Within the published range, in every direction across the axis."""
    row = PUBLISHED["lateral_give"]
    least, most = row[kind]
    for code in KINDS[kind]:
        for turn in np.linspace(0.0, np.pi, 5):
            way = np.cos(turn) * AHEAD + np.sin(turn) * LEFT
            assert least <= pushed_mm(code, row["force_n"], way) <= most


def test_beyond_five_newtons_a_tooth_gives_less_across():
    """The next five move it by less than half as far as the first."""
    for code in (11, 33, 14, 46):
        first, both = pushed_mm(code, 5.0, LEFT), pushed_mm(code, 10.0, LEFT)
        assert both - first < 0.5 * first


def test_an_implant_gives_a_tenth_along_and_a_third_across():
    """Of a tooth beyond its knee, in one phase: twice the force moves it twice as far."""
    tooth = {"two_phase": False}
    for way, times in ((-UP, IMPLANT_AXIAL), (LEFT, IMPLANT_LATERAL)):
        implant = pushed_mm(16, 30.0, way, implant=True)
        assert pushed_mm(16, 30.0, way, **tooth) == pytest.approx(times * implant, rel=1e-9)
        assert pushed_mm(16, 60.0, way, implant=True) == pytest.approx(2.0 * implant, rel=1e-9)
    assert (IMPLANT_AXIAL, IMPLANT_LATERAL) == (10.0, 3.0)
    um = 1e3 * pushed_mm(16, 20.0, implant=True)
    assert um <= PUBLISHED["axial_give"]["implant_most_um"]


def test_axes_across_are_square_and_mirrored_with_the_tooth():
    """Of any axis; the first lies mostly ahead."""
    random = np.random.default_rng(4)
    for axis in [UP, AHEAD, *random.normal(size=(60, 3))]:
        axis = axis / np.linalg.norm(axis)
        frame = np.array([axis, *across_axes(axis)])
        np.testing.assert_allclose(frame @ frame.T, np.eye(3), atol=1e-12)
        other = np.array(across_axes(axis * [1.0, -1.0, 1.0])) * [1.0, -1.0, 1.0]
        np.testing.assert_allclose(np.abs(np.sum(other * frame[1:], axis=1)), 1.0, atol=1e-12)


def test_a_joined_tooth_resists_tipping_by_its_root():
    """A force across at the crown tips it about the deeper of two springs of half each."""
    model = Model()
    unit = model.body(ORIGIN)
    links = hold_joined(model, unit, SKULL, ORIGIN, -UP, socket_of(16, two_phase=False))
    model.link(unit, SKULL, AHEAD, LEFT, Law(1.0))  # against spinning about the axis
    rest = rest_of(model.links(), model.load(unit, ORIGIN, 8.0 * AHEAD))
    carried = dict(zip(links[1:], rest.force_n[list(links[1:])], strict=True))
    np.testing.assert_allclose(sorted(map(abs, carried.values())), [0, 0, 0, 8.0], atol=1e-9)
    half = 0.5 * socket_of(16, two_phase=False).lateral.stiffness_n_per_mm
    assert rest.moved[0] == pytest.approx(8.0 / half, rel=1e-9)
    assert rest.moved[4] == pytest.approx(8.0 / half / ROOT_MM * 30.0, rel=1e-9)


LEVEL = RidgeSection(6.0, 0.0, 0.5 * np.pi)


def bed(model, base, length_mm, pieces, stiffness, section=LEVEL, back=0.0):
    """Lay a base on a level ridge that runs backward from a place on the x axis."""
    run = np.linspace(back, back - length_mm, pieces + 1)
    crest, many = np.outer(run, AHEAD), (pieces + 1, 1)
    return lay_bed(
        model, base, SKULL, crest, np.tile(UP, many), np.tile(LEFT, many), section, stiffness
    )


@pytest.mark.parametrize("ratio", [4.0, 10.0, 20.0])
def test_a_level_bed_as_wide_as_a_molar_gives_its_ratio(ratio):
    """So many times as far as a molar in one phase, whatever the width of the crest."""
    for width_mm in (4.0, 9.0):
        model = Model()
        base = model.body(ORIGIN)
        section = RidgeSection(width_mm, 0.0, 0.5 * np.pi)
        stiffness = bed_stiffness_n_per_mm2(ratio, width_mm)
        bed(model, base, MOLAR_WIDTH_MM, 5, stiffness, section, 0.5 * MOLAR_WIDTH_MM)
        for point, way in ((ORIGIN, AHEAD), (ORIGIN, LEFT), (AHEAD, LEFT), (LEFT, UP)):
            model.link(base, SKULL, point, way, Law(1e-6))
        sunk = -rest_of(model.links(), model.load(base, ORIGIN, -50.0 * UP)).moved[2]
        molar = pushed_mm(16, 50.0, two_phase=False)
        assert sunk == pytest.approx(ratio * molar, rel=1e-6)


def test_a_level_bed_resists_tipping_about_its_crest_by_its_width():
    """Stiffness in turning is that of a spread bed: k times its second moment, w cubed over 12."""
    model = Model()
    base = model.body(ORIGIN)
    bed(model, base, MOLAR_WIDTH_MM, 5, 2.0, LEVEL, 0.5 * MOLAR_WIDTH_MM)
    for point, way in ((ORIGIN, AHEAD), (ORIGIN, LEFT), (AHEAD, LEFT)):
        model.link(base, SKULL, point, way, Law(1e-6))
    push = -50.0 * UP
    straight = rest_of(model.links(), model.load(base, ORIGIN, push)).moved
    aside = rest_of(model.links(), model.load(base, 0.5 * LEFT, push)).moved
    turned_rad = abs(aside[3] - straight[3]) / 30.0
    assert turned_rad == pytest.approx(25.0 / (2.0 * MOLAR_WIDTH_MM * 6.0**3 / 12.0), rel=1e-6)


def test_a_bed_with_walls_holds_a_base_sideways():
    """Level ones let it go; steeper walls hold it more firmly."""
    gone = []
    for wall_deg in (30.0, 60.0, 80.0):
        model = Model()
        base = model.body(ORIGIN)
        bed(model, base, 20.0, 8, 1.5, RidgeSection(6.0, 5.0, np.radians(wall_deg)), 10.0)
        model.link(base, SKULL, ORIGIN, AHEAD, Law(100.0))
        force = np.array([0.0, 8.0, -60.0])
        for side in (-15.0, 15.0):  # a connector, against turning about the crest
            model.link(base, SKULL, side * LEFT, UP, Law(30.0))
        rest = rest_of(model.links(), model.load(base, ORIGIN, force))
        assert rest.status == "equilibrium"
        gone.append(rest.moved[1])
    assert gone[0] > gone[1] > gone[2] > 0.0


def test_settings_of_loads_are_those_that_support_is_reckoned_with():
    """Mucosa gives 4 to 20 times as far as a tooth, and the force leans forward 0 to 20 degrees."""
    settings = LoadSettings()
    assert settings.mucosa_ratio_range == tuple(PUBLISHED["mucosa_ratio"]["range"])
    assert settings.force_tilt_range_deg == tuple(PUBLISHED["closing_force_tilt"]["range_deg"])


def cross_arch(connector_n_per_mm, ratio, force=20.0 * LEFT - 60.0 * UP):
    """Return the lateral force on the abutment of each side, (loaded, opposite), N.

    A base behind a canine, its ridge level with low walls, joined by a connector across the arch
    to a rest on the other canine.
    """
    model = Model()
    base, other = model.body(np.array([0.0, 20.0, 0.0])), model.body(np.array([0.0, -20.0, 0.0]))
    holds = []
    for body, side in ((base, 1.0), (other, -1.0)):
        at, tooth = side * 20.0 * LEFT, model.tooth_on(SKULL)
        hold_tooth(model, tooth, SKULL, at, -UP, socket_of(33, two_phase=False))
        holds.append(add_rest(model, body, tooth, at, -UP))
    section = RidgeSection(6.0, 4.0, np.radians(60.0))
    run = np.linspace(-4.0, -34.0, 13)
    crest = np.outer(run, AHEAD) + 20.0 * LEFT
    many = (len(run), 1)
    stiffness = bed_stiffness_n_per_mm2(ratio, 6.0)
    lay_bed(model, base, SKULL, crest, np.tile(UP, many), np.tile(LEFT, many), section, stiffness)
    for place in (8.0 * AHEAD, 8.0 * AHEAD + 6.0 * UP, -30.0 * AHEAD):
        for way in np.eye(3):
            model.link(base, other, place, way, Law(connector_n_per_mm))
    rest = rest_of(model.links(), model.load(base, np.array([-22.0, 20.0, 4.0]), force))
    assert rest.status == "equilibrium"
    return [np.linalg.norm(rest.force_n[list(hold.braces)]) for hold in holds]


def test_a_stiffer_connector_brings_more_of_a_lateral_load_across_the_arch():
    """Trend of a published model; stronger where the ridge is poor."""
    shares = []
    for ratio in (4.0, 20.0):
        row = []
        for connector in (1.0, 10.0, 100.0, 10000.0):
            loaded, opposite = cross_arch(connector, ratio)
            row.append(opposite / (loaded + opposite))
        assert np.all(np.diff(row) > 0.0), row
        shares.append(row)
    assert shares[1][-1] > shares[0][-1]


def test_softer_mucosa_brings_more_lateral_load_to_the_abutments():
    """What the ridge does not hold, the abutments must."""
    both = [sum(cross_arch(10000.0, ratio)) for ratio in (4.0, 10.0, 20.0)]
    assert np.all(np.diff(both) > 0.0), both


def test_lateral_load_turns_round_with_the_lean_of_the_force():
    """On a contact square to the axis what goes across has the sign of the lean."""
    for tilt_deg in (-10.0, -1.0, 1.0, 20.0):
        tilt = np.radians(tilt_deg)
        force = 100.0 * np.array([np.sin(tilt), 0.0, -np.cos(tilt)])
        model = Model()
        tooth = model.tooth_on(SKULL)
        links = hold_tooth(model, tooth, SKULL, ORIGIN, -UP, socket_of(36))
        rest = rest_of(model.links(), model.load(tooth, ORIGIN, force))
        ahead = rest.force_n[links[1]] * across_axes(-UP)[0][0]
        assert ahead == pytest.approx(100.0 * np.sin(tilt), rel=1e-9)
