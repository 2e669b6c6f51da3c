"""Teeth removed, added from the table and crowned in a trial set-up."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.casts.crown_directions import crown_of
from kinematics.checks import InputError
from kinematics.contact.closure import close
from kinematics.contact.pair import LeaveOut, prepare
from kinematics.geometry.meshes import Mesh
from kinematics.teeth.natural_side import edges_mm
from kinematics.tooth_codes import is_upper
from kinematics.trial.changed_teeth import changed_teeth
from tests.made_trials import after, arch_of, made, natural, others_alone, solid, triangles

#: A stop, mm of arc gap on built-in teeth.
STOP_MM = 0.002
EVERY = (11, 12, 13, 14, 15, 16, 17, 27, 25, 31, 32, 33, 34, 35, 36, 37, 46)


def alone(arches, code):
    """Return the arc gap at which one tooth meets the other arch in MI, mm."""
    _, teeth = natural()
    upper, lower = arches.upper, arches.lower
    pair = prepare(upper, lower)
    own, side = (upper, "upper") if is_upper(code) else (lower, "lower")
    others = frozenset(c for c in own.codes if c != code)
    found = close(pair, teeth.pose[None], LeaveOut(**{side: others}))
    whole = close(teeth.pair, teeth.pose[None])
    return float((found.opening_rad[0] - whole.opening_rad[0]) * found.radius_mm[0])


@pytest.mark.parametrize("code", EVERY)
def test_an_added_tooth_fills_its_space_and_just_stops(code):
    """Closed, as wide as the space within reason, within a stop of its opponents, never above."""
    before = natural()[1]
    now = after(("remove", code, {}), ("add", code, {}))
    assert not now.notes
    assert abs(alone(now, code)) <= STOP_MM
    crown = solid(now, code)
    assert crown.is_watertight and crown.is_winding_consistent and crown.volume > 0.0
    assert others_alone(before, now, [code])
    one, other = crown_of(arch_of(before, code), code), crown_of(arch_of(now, code), code)
    wide = [(c.high - c.low)[0] for c in (one, other)]
    assert 0.75 < wide[1] / wide[0] < 1.15
    assert np.linalg.norm((other.tooth.centre - one.tooth.centre)[:2]) < 1.3
    assert other.tooth.long_axis @ one.tooth.long_axis > np.cos(np.radians(15.0))
    assert arch_of(now, code).codes == arch_of(before, code).codes
    assert set(other.tooth.cusp_tips) == set(one.tooth.cusp_tips)


@pytest.mark.parametrize("code", EVERY[::2])
def test_a_crown_is_as_wide_and_thick_as_the_tooth(code):
    """The built-in crown over a tooth that was widened nowhere: its sizes, and a stop."""
    before = natural()[1]
    now = after(("flatten", code, {"by_mm": 0.8}), ("crown", code, {}))
    crown = crown_of(arch_of(before, code), code)
    seen = [crown.coordinates(triangles(teeth, code).reshape(-1, 3)) for teeth in (before, now)]
    sizes = [np.ptp(points, axis=0)[:2] for points in seen]
    assert np.abs(sizes[0] - sizes[1]).max() < 1e-9
    assert abs(alone(now, code)) <= STOP_MM
    assert solid(now, code).is_watertight


def test_the_surface_of_an_added_tooth_faces_outward_on_all_sides():
    """Left and right, upper and lower: a closed surface of positive volume as all others have."""
    for code in (16, 26, 36, 46, 11, 41):
        before = solid(natural()[1], code).volume
        now = solid(after(("remove", code, {}), ("add", code, {})), code).volume
        assert now > 0.5 * before > 0.0


def test_a_removed_tooth_leaves_nothing():
    """No triangle and no landmark; the last of an arch, or one that is not there, is refused."""
    before = natural()[1]
    now = after(("remove", 46, {}))
    assert 46 not in now.lower.codes and not (now.lower.tooth_of_face == 46).any()
    assert others_alone(before, now, [46])
    every = [("remove", code, {}) for code in before.lower.codes]
    with pytest.raises(InputError, match=r"change\[13\]: 47|change\[13\]: 37"):
        after(*every)
    with pytest.raises(InputError, match=r"change\[1\]: there is no tooth 46"):
        after(("remove", 46, {}), ("raise", 46, {"by_mm": 1.0}))
    with pytest.raises(InputError, match="stands already"):
        after(("add", 46, {}))


def test_a_tooth_without_opponents_is_told():
    """Where all that is opposite is gone nothing stops it; it stays beside its neighbours."""
    gone = [("remove", code, {}) for code in (15, 16, 17)]
    now = after(*gone, ("remove", 46, {}), ("add", 46, {}))
    told = now.notes and "46 reaches no opponent within 4 mm" in now.notes[0]
    assert told or abs(alone(now, 46)) <= STOP_MM


def test_too_little_room_is_told():
    """A space that is nearly closed takes no crown; the message says what is accepted."""
    closing = [
        ("remove", 46, {}),
        ("move", 47, {"mesial_mm": 4.0}),
        ("move", 45, {"mesial_mm": -4.0}),
    ]
    with pytest.raises(InputError, match=r"change\[3\]: tooth 46: there is too little room"):
        after(*closing, ("add", 46, {}))


def test_crowns_are_the_same_for_any_order_of_triangles():
    """Triangles shuffled beforehand give the same surface, triangle by triangle, to the bit."""
    case, teeth = natural()
    sizes = edges_mm(case.dentition.triangles_per_arch)
    edges = {True: sizes["U"], False: sizes["L"]}
    changes = made(
        [
            ("flatten", 46, {"by_mm": 0.9}),
            ("wear", 36, {"by_mm": 0.5}),
            ("tilt", 16, {"facial_deg": 9.0}),
            ("remove", 26, {}),
            ("add", 26, {}),
            ("crown", 24, {}),
        ]
    )
    wanted = changed_teeth(teeth.upper, teeth.lower, teeth.pair, teeth.pose, changes, edges)
    order = np.random.default_rng(7)

    def shuffled(arch):
        turn = order.permutation(len(arch.mesh.faces))
        mesh = Mesh(arch.mesh.vertices, np.ascontiguousarray(arch.mesh.faces[turn]))
        return replace(arch, mesh=mesh, tooth_of_face=arch.tooth_of_face[turn])

    upper, lower = shuffled(teeth.upper), shuffled(teeth.lower)
    found = changed_teeth(upper, lower, prepare(upper, lower), teeth.pose, changes, edges)
    for one, other in ((wanted.upper, found.upper), (wanted.lower, found.lower)):
        assert triangles_as_a_set(one.arch) == triangles_as_a_set(other.arch)


def triangles_as_a_set(arch):
    """Return every triangle with its tooth, its corners in a canonical order and turn."""
    found = set()
    for corners, code in zip(arch.mesh.corners + 0.0, arch.tooth_of_face, strict=True):
        first = min(range(3), key=lambda k: tuple(corners[k]))
        found.add((int(code), np.roll(corners, -first, axis=0).tobytes()))
    return found
