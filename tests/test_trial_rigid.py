"""Teeth of a trial set-up moved rigidly: against geometry worked out by hand."""

import numpy as np
import pytest

from kinematics.casts.crown_directions import crown_of
from kinematics.tooth_codes import is_right, is_upper
from tests.made_trials import after, arch_of, natural, others_alone, triangles

#: A rigid motion of points some 100 mm away is exact to this, mm.
EXACT_MM = 1e-12
SEEDS = range(50)


def any_tooth(rng):
    """Return one of all teeth."""
    return int(rng.choice(natural()[1].upper.codes + natural()[1].lower.codes))


def directions(code):
    """Return mesial, facial and long axis: by the neighbours, facial away from the midline."""
    crown = crown_of(arch_of(natural()[1], code), code)
    return crown.mesial, crown.outward, crown.up


@pytest.mark.parametrize("kind", ["raise", "lower", "move"])
def test_teeth_go_where_they_are_sent(kind):
    """Fifty teeth each: every corner and landmark moves by the same vector, the rest stays."""
    before = natural()[1]
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        code = any_tooth(rng)
        mesial, facial, up = directions(code)
        if kind == "move":
            ahead, outward = rng.uniform(-4.0, 4.0, 2)
            amounts = {"mesial_mm": ahead, "facial_mm": outward}
            wanted = ahead * mesial + outward * facial
        else:
            amounts = {"by_mm": rng.uniform(0.01, 4.0)}
            wanted = amounts["by_mm"] * (up if kind == "raise" else -up)
        now = after((kind, code, amounts))
        moved = triangles(now, code) - triangles(before, code)
        assert np.abs(moved - wanted).max() <= EXACT_MM
        one, other = arch_of(before, code).tooth(code), arch_of(now, code).tooth(code)
        assert np.abs(other.centre - one.centre - wanted).max() <= EXACT_MM
        assert np.abs(other.edge - one.edge - wanted).max() <= EXACT_MM
        for name, tip in one.cusp_tips.items():
            assert np.abs(other.cusp_tips[name] - tip - wanted).max() <= EXACT_MM
        assert np.array_equal(one.long_axis, other.long_axis)
        assert others_alone(before, now, [code])


def test_directions_are_those_of_the_mouth():
    """Raised is towards the other arch, mesial towards the midline, facial away from the tongue."""
    _, teeth = natural()
    for arch in (teeth.upper, teeth.lower):
        for tooth in arch.teeth:
            mesial, facial, up = directions(tooth.code)
            assert up[2] * (-1.0 if is_upper(tooth.code) else 1.0) > 0.8
            assert facial @ (tooth.centre - [30.0, 0.0, tooth.centre[2]]) > 0.0
            if tooth.code % 10 == 1:
                assert mesial[1] * (1.0 if is_right(tooth.code) else -1.0) > 0.8
            else:
                assert mesial[0] > 0.0


def test_tilts_and_turns_are_about_the_middle():
    """Fifty of each: distances stay, the axis leans and the mesial end turns as far as asked."""
    before = natural()[1]
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        code = any_tooth(rng)
        mesial, facial, up = directions(code)
        ahead, outward = rng.uniform(-30.0, 30.0, 2)
        by = rng.uniform(-180.0, 180.0)
        centre = arch_of(before, code).tooth(code).centre
        was = triangles(before, code) - centre
        for change, turn in (
            (
                ("tilt", code, {"mesial_deg": ahead, "facial_deg": outward}),
                np.radians([np.hypot(ahead, outward)])[0],
            ),
            (("turn", code, {"by_deg": by}), np.radians(by)),
        ):
            now = after(change)
            tooth = arch_of(now, code).tooth(code)
            assert np.abs(tooth.centre - centre).max() <= EXACT_MM
            new = triangles(now, code) - centre
            assert np.abs((new**2).sum(-1) - (was**2).sum(-1)).max() <= 1e-10
            if change[0] == "tilt":
                lean = (ahead * mesial + outward * facial) / np.hypot(ahead, outward)
                axis = np.cos(turn) * up + np.sin(turn) * lean
                along, square = np.cross(up, lean), None
            else:
                axis, along, square = up, up, (mesial, facial)
            assert np.abs(tooth.long_axis - axis).max() <= EXACT_MM
            # What lies along the line about which it is turned keeps its place on it.
            assert np.abs(new @ along - was @ along).max() <= 1e-11
            if square is not None:
                x, y = was @ square[0], was @ square[1]
                c, s = np.cos(turn), np.sin(turn)
                assert np.abs(new @ square[0] - (c * x - s * y)).max() <= 1e-11
                assert np.abs(new @ square[1] - (s * x + c * y)).max() <= 1e-11
            assert others_alone(before, now, [code])


def test_the_opposite_change_brings_a_tooth_back():
    """Directions go with the tooth, so that fifty tilts and moves are undone to rounding."""
    before = natural()[1]
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        code, (a, b) = any_tooth(rng), rng.uniform(-30.0, 30.0, 2)
        there = [
            ("tilt", code, {"mesial_deg": a, "facial_deg": b}),
            ("move", code, {"mesial_mm": a / 10, "facial_mm": b / 10}),
            ("turn", code, {"by_deg": a}),
        ]
        back = [(kind, code, {k: -v for k, v in how.items()}) for kind, _, how in there[::-1]]
        now = after(*there, *back)
        assert np.abs(triangles(now, code) - triangles(before, code)).max() <= 1e-11


def test_order_matters_only_for_one_tooth():
    """Rigid changes of different teeth, both ways round, give the same bits; of one they do not."""
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        one, other = rng.choice(natural()[1].lower.codes, 2, replace=False).tolist()
        tilt = ("tilt", one, {"mesial_deg": rng.uniform(5.0, 30.0)})
        move = ("move", other, {"facial_mm": rng.uniform(1.0, 4.0)})
        there, back = after(tilt, move), after(move, tilt)
        assert np.array_equal(there.lower.mesh.vertices, back.lower.mesh.vertices)
        assert np.array_equal(there.lower.mesh.faces, back.lower.mesh.faces)
        raised = ("raise", one, {"by_mm": rng.uniform(1.0, 4.0)})
        there, back = after(tilt, raised), after(raised, tilt)
        # Directions go with the tooth: tilted first, it is raised along its leaning axis.
        apart = there.lower.tooth(one).centre - back.lower.tooth(one).centre
        chord = 2.0 * np.sin(0.5 * np.radians(tilt[2]["mesial_deg"])) * raised[2]["by_mm"]
        assert np.linalg.norm(apart) == pytest.approx(chord, abs=EXACT_MM)
