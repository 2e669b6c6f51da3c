"""Flattened and worn teeth: where the cut lies, what it takes, and that the surface stays whole."""

import numpy as np
import pytest
import trimesh

from kinematics.casts.casts import Tooth
from kinematics.casts.crown_directions import crown_of
from kinematics.checks import InputError
from kinematics.trial import facets
from kinematics.trial.cutting import Overhangs, Plane, cut_flat
from kinematics.trial.standing import TrialTooth
from tests.made_trials import after, arch_of, natural, others_alone, solid, triangles

#: A cut plane is met to this, mm.
ON_PLANE_MM = 1e-9
SEEDS = range(50)


def any_tooth(rng):
    """Return one of all teeth."""
    return int(rng.choice(natural()[1].upper.codes + natural()[1].lower.codes))


def volume_below(mesh, point, normal):
    """Return the volume of a closed mesh below a plane, by the second library's cut.

    Seen from a point of the plane the cap adds nothing, so that the open rest is enough.
    """
    cut = trimesh.intersections.slice_faces_plane(mesh.vertices, mesh.faces, -normal, point)
    corners = cut[0][cut[1]] - point
    return np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])).sum() / 6


def test_a_flattened_tooth_ends_at_its_plane():
    """Fifty teeth: nothing above, a flat facet, the volume that a second library leaves."""
    before = natural()[1]
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        code, by = any_tooth(rng), rng.uniform(0.05, 1.2)
        up = crown_of(arch_of(before, code), code).up
        was = triangles(before, code)
        top = was.reshape(-1, 3)[np.argmax(was.reshape(-1, 3) @ up)]
        point = top - by * up
        now = after(("flatten", code, {"by_mm": by}))
        heights = (triangles(now, code) - point) @ up
        assert heights.max() <= ON_PLANE_MM
        facet = (np.abs(heights) <= ON_PLANE_MM).all(axis=1)
        assert facet.any()
        cut, whole = solid(now, code), solid(before, code)
        assert cut.is_watertight and cut.is_winding_consistent
        assert cut.volume == pytest.approx(volume_below(whole, point, up), rel=1e-9)
        # What lies deeper than the cut keeps its place to the bit.
        deep = ((was - point) @ up).max(axis=1) < -1e-3
        if seed % 5 == 0:
            kept = {row.tobytes() for row in triangles(now, code)}
            assert all(row.tobytes() in kept for row in was[deep])
        assert others_alone(before, now, [code])


def test_a_worn_tooth_ends_at_the_plane_of_its_neighbours():
    """Fifty teeth: a facet parallel to the plane through the tips beside, so far below the top."""
    before = natural()[1]
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        code, by = int(rng.choice([16, 15, 26, 36, 35, 46, 44])), rng.uniform(0.05, 0.8)
        arch = arch_of(before, code)
        at = arch.codes.index(code)
        beside = [*arch.teeth[max(at - 2, 0) : at], *arch.teeth[at + 1 : at + 3]]
        tips = np.concatenate(
            [
                np.array([*t.cusp_tips.values()])
                if len(t.cusp_tips) > 1
                else t.edge[[0, len(t.edge) // 2, -1]]
                for t in beside
            ]
        )
        # The plane by its normal equations, another way than the singular vectors.
        away = tips - tips.mean(axis=0)
        normal = np.linalg.eigh(away.T @ away)[1][:, 0]
        normal *= np.sign(normal @ arch.tooth(code).long_axis)
        was = triangles(before, code).reshape(-1, 3)
        point = was[np.argmax(was @ normal)] - by * normal
        now = after(("wear", code, {"by_mm": by}))
        heights = (triangles(now, code) - point) @ normal
        assert heights.max() <= ON_PLANE_MM
        cut, whole = solid(now, code), solid(before, code)
        assert cut.is_watertight and cut.is_winding_consistent
        assert cut.volume == pytest.approx(volume_below(whole, point, normal), rel=1e-9)


def test_nothing_of_a_cut_surface_is_turned_over():
    """Every triangle of the facet faces the opponent; no other triangle has turned."""
    before = natural()[1]
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        code = any_tooth(rng)
        up = crown_of(arch_of(before, code), code).up
        now = after(("flatten", code, {"by_mm": rng.uniform(0.05, 1.5)}))
        corners = triangles(now, code)
        normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        top = (corners @ up).max()
        facet = (corners @ up > top - 1e-9).all(axis=1)
        sign = np.sign(solid(before, code).volume)
        assert (sign * (normals[facet] @ up) > 0.0).all()


def test_tips_that_are_cut_lie_on_the_facet():
    """A cusp tip above the plane comes down onto it along the axis, one below stays."""
    before = natural()[1]
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        code, by = int(rng.choice([16, 26, 36, 47, 14, 34])), rng.uniform(0.2, 1.2)
        tooth = arch_of(before, code).tooth(code)
        up = crown_of(arch_of(before, code), code).up
        top = (triangles(before, code) @ up).max() - by
        now = arch_of(after(("flatten", code, {"by_mm": by})), code).tooth(code)
        for name, tip in tooth.cusp_tips.items():
            wanted = tip - max(tip @ up - top, 0.0) * up
            assert np.abs(now.cusp_tips[name] - wanted).max() <= 1e-9
        wanted = tooth.edge - np.maximum(tooth.edge @ up - top, 0.0)[:, None] * up
        assert np.abs(now.edge - wanted).max() <= 1e-9


def ball(hole):
    """Return a closed ball of radius 4 as a tooth, or with its topmost triangle missing."""
    mesh = trimesh.creation.icosphere(3, 4.0)
    faces = mesh.faces
    if hole:
        faces = np.delete(faces, np.argmax(mesh.triangles[:, :, 2].min(axis=1)), axis=0)
    tooth = Tooth(46, np.zeros(3), np.array([0.0, 0.0, 1.0]), np.array([[0.0, 0.0, 4.0]]))
    before = np.arange(len(mesh.vertices))
    return TrialTooth(tooth, np.eye(3), np.array(mesh.vertices), np.array(faces), before)


@pytest.mark.parametrize("level", [1.0, 0.0, -1.5, -3.0])
def test_what_overhangs_is_spread_out_within_the_cut(level):
    """A ball cut below its widest part is closed by a flat cap, and nothing of it is turned."""
    plane = Plane(np.array([0.0, 0.0, level]), np.array([0.0, 0.0, 1.0]))
    whole = ball(hole=False)
    cut = cut_flat(whole, plane)
    mesh = trimesh.Trimesh(cut.vertices, cut.faces, process=False)
    assert mesh.is_watertight and mesh.is_winding_consistent
    assert mesh.vertices[:, 2].max() <= level + ON_PLANE_MM
    full = trimesh.Trimesh(whole.vertices, whole.faces, process=False)
    assert mesh.volume == pytest.approx(volume_below(full, plane.point, plane.normal), rel=1e-9)
    cap = mesh.triangles[:, :, 2].min(axis=1) > level - ON_PLANE_MM
    assert (mesh.face_normals[cap][:, 2] > 0.999).all()
    assert mesh.area_faces[cap].sum() == pytest.approx(np.pi * (16 - level**2), rel=0.02)
    assert cut.tooth.edge[0] == pytest.approx([0.0, 0.0, level], abs=1e-9)


def test_an_overhanging_surface_with_a_hole_is_refused():
    """Where the surface ends above the plane there is no border to close: it says how far down."""
    up = np.array([0.0, 0.0, 1.0])
    assert len(cut_flat(ball(hole=True), Plane(0.5 * up, up)).faces)
    with pytest.raises(Overhangs) as told:
        cut_flat(ball(hole=True), Plane(-1.5 * up, up))
    assert told.value.height_mm == pytest.approx(1.5, abs=0.4)


def test_a_refused_cut_says_how_much_may_go(monkeypatch):
    """The message names entry, tooth and amount, and what would be accepted."""

    def overhanging(tooth, plane):
        raise Overhangs(1.234)

    monkeypatch.setattr(facets, "cut_flat", overhanging)
    with pytest.raises(InputError, match=r"change\[0\]: tooth 46: by_mm = 3 .* at most 1.76 mm$"):
        after(("flatten", 46, {"by_mm": 3.0}))
