"""Bodies of casts: closed, around every crown, below every chewing surface, off the other arch."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import trimesh
from scipy.spatial import cKDTree

from kinematics.casts.cast_bodies import GUM, LAND, PALATE, RIDGE, SOFT, UNDERSIDE, WALL
from kinematics.casts.casts import carried
from kinematics.geometry.poses import move_points, opening_rotation
from kinematics.teeth.cast_body import cast_body, with_body
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.tooth_codes import is_upper

SETTINGS = {
    "natural": DentitionSettings(triangles_per_arch=15_000),
    "replaced": DentitionSettings(
        triangles_per_arch=15_000, over_erupted_mm={46: 1.2}, replacements=(15, 16, 17)
    ),
    "third molars": DentitionSettings(triangles_per_arch=15_000, third_molars=(18, 28, 38)),
    "small, deep, distal extensions": DentitionSettings(
        triangles_per_arch=15_000,
        size_scale=0.9,
        overbite_mm=3.2,
        missing=(16, 36, 37, 46, 47),
        over_erupted_mm={26: 3.0, 27: 2.0},
    ),
    "large, gaps": DentitionSettings(
        triangles_per_arch=15_000,
        size_scale=1.1,
        missing=(11, 24, 25, 32, 36, 45),
        replacements=(46, 47),
    ),
}
CASES = [(name, side) for name in SETTINGS for side in ("upper", "lower")]


@cache
def _dentition(name):
    return build(SETTINGS[name])


def _arch(name, side):
    dentition = _dentition(name)
    arch = dentition.upper if side == "upper" else dentition.lower
    return with_body(arch, tuple(c for c in SETTINGS[name].replacements if c in arch.codes))


def _solid(mesh):
    return trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)


def _crown(arch, code):
    return arch.mesh.vertices[np.unique(arch.mesh.faces[arch.tooth_of_face == code])]


def _without(arch, kept):
    """Return an arch that lost all teeth but some."""
    faces = np.isin(arch.tooth_of_face, kept)
    mesh = replace(arch.mesh, faces=arch.mesh.faces[faces])
    teeth = tuple(tooth for tooth in arch.teeth if tooth.code in kept)
    return type(arch)(mesh, arch.tooth_of_face[faces], teeth)


def _surfaces(arch):
    body = arch.body
    return [body.mesh] if body.denture_base is None else [body.mesh, body.denture_base]


@pytest.mark.parametrize(("name", "side"), CASES)
def test_a_body_is_closed_and_wound_the_same_way(name, side):
    """Every edge joins two triangles that agree; the volume inside is positive; kinds are known."""
    arch = _arch(name, side)
    for mesh in _surfaces(arch):
        solid = _solid(mesh)
        assert solid.is_watertight
        assert solid.is_winding_consistent
        assert solid.volume > 0.0
    kinds = set(np.unique(arch.body.kind))
    assert kinds == ({GUM, RIDGE, LAND, WALL, UNDERSIDE} | ({PALATE} if side == "upper" else set()))
    assert len(arch.body.kind) == len(arch.body.mesh.faces)


@pytest.mark.parametrize("seed", range(12))
def test_any_teeth_may_be_lost_or_replaced(seed):
    """From one tooth to all of them, whichever are replaced: still closed."""
    random = np.random.default_rng(seed)
    arch = _arch("natural", ("upper", "lower")[seed % 2])
    kept = random.choice(arch.codes, random.integers(1, len(arch.codes) + 1), replace=False)
    left = _without(arch, kept)
    replaced = tuple(int(code) for code in kept if random.random() < 0.4)
    body = cast_body(left, replaced)
    assert _solid(body.mesh).is_watertight
    assert _solid(body.mesh).volume > 0.0
    assert (body.denture_base is not None) == bool(replaced)
    if body.denture_base is not None:
        assert _solid(body.denture_base).is_watertight


@pytest.mark.parametrize(("name", "side"), CASES)
def test_no_crown_floats(name, side):
    """The lowest parts of every crown lie in gum, of replacement teeth in the denture base.

    Or less than 0.2 mm from it, where the margin is just at the cervical line.
    """
    arch = _arch(name, side)
    for tooth in arch.teeth:
        replaced = tooth.code in SETTINGS[name].replacements
        crown = _crown(arch, tooth.code)
        along = (crown - tooth.centre) @ tooth.long_axis
        low = crown[along < along.min() + 0.1]
        solid = _solid(arch.body.denture_base if replaced else arch.body.mesh)
        outside = low[~solid.contains(low)]
        assert len(outside) <= 0.15 * len(low), tooth.code
        if len(outside):
            _, distance, _ = trimesh.proximity.closest_point(solid, outside)
            assert distance.max() < 0.2, tooth.code


@pytest.mark.parametrize(("name", "side"), CASES)
def test_no_gum_over_a_chewing_surface(name, side):
    """Edges, tips and what faces the other arch stay 0.8 mm and more from gum and base."""
    arch = _arch(name, side)
    gum = cKDTree(np.concatenate([mesh.vertices for mesh in _surfaces(arch)]))
    for tooth in arch.teeth:
        crown = _crown(arch, tooth.code)
        along = (crown - tooth.centre) @ tooth.long_axis
        top = crown[along > along.max() - 0.25 * np.ptp(along)]
        assert gum.query(top)[0].min() > 0.8, tooth.code


@pytest.mark.parametrize(("name", "side"), CASES)
def test_the_other_arch_stays_free_in_mi(name, side):
    """Teeth of the other arch are nearer to no gum, pad, tuberosity or base than 0.5 mm."""
    arch = _arch(name, side)
    other = _arch(name, "lower" if side == "upper" else "upper")
    teeth = _solid(other.mesh)
    for mesh in _surfaces(arch):
        near = cKDTree(other.mesh.vertices).query(mesh.vertices)[0] < 4.0
        if near.any():
            _, distance, _ = trimesh.proximity.closest_point(teeth, mesh.vertices[near])
            assert distance.min() > 0.5


@pytest.mark.parametrize("side", ["upper", "lower"])
def test_both_sides_are_alike(side):
    """A symmetric arch has a symmetric body; made twice, it has the same bits."""
    arch = _arch("natural", side)
    body = arch.body
    mirrored = body.mesh.vertices * np.array([1.0, -1.0, 1.0])
    assert cKDTree(body.mesh.vertices).query(mirrored)[0].max() < 1e-6
    again = cast_body(arch)
    np.testing.assert_array_equal(again.mesh.vertices, body.mesh.vertices)
    np.testing.assert_array_equal(again.mesh.faces, body.mesh.faces)


def test_a_body_takes_no_part_in_contacts_and_moves_with_its_arch():
    """The triangles of the arch stay what they were; a pose carries both."""
    arch = _arch("replaced", "upper")
    assert arch.mesh is _dentition("replaced").upper.mesh
    pose = opening_rotation(0.2)
    moved = carried(arch, pose)
    for before, after in zip(_surfaces(arch), _surfaces(moved), strict=True):
        np.testing.assert_array_equal(after.vertices, move_points(pose, before.vertices))
    np.testing.assert_array_equal(moved.body.kind, arch.body.kind)
    assert carried(_dentition("replaced").upper, pose).body is None


@pytest.mark.parametrize(("name", "side"), CASES)
def test_the_base_is_flat_and_thick_enough(name, side):
    """Its underside is one plane, 10 mm and more from the vestibule."""
    body = _arch(name, side).body
    corners = body.mesh.vertices[np.unique(body.mesh.faces[body.kind == UNDERSIDE])]
    plane = np.column_stack([corners[:, 0], corners[:, 1], np.ones(len(corners))])
    fit, *_ = np.linalg.lstsq(plane, corners[:, 2], rcond=None)
    assert abs(plane @ fit - corners[:, 2]).max() < 1e-6
    soft = body.mesh.vertices[np.unique(body.mesh.faces[np.isin(body.kind, SOFT)])]
    above = soft[:, 2] - soft[:, :2] @ fit[:2] - fit[2]
    assert abs(above).min() > (5.0 if side == "upper" else 9.0)  # least under the palate


def test_the_palate_is_as_deep_as_palates_are():
    """13 to 15 mm below the gum margin at the first molars (from memory; see `palate.py`)."""
    arch = _arch("natural", "upper")
    body = arch.body
    vault = body.mesh.vertices[np.unique(body.mesh.faces[body.kind == PALATE])]
    at = arch.tooth(16).centre
    across = vault[abs(vault[:, 0] - at[0]) < 1.0]
    crown = _crown(arch, 16)
    margin = crown[np.argsort(abs(crown[:, 1]))[:200], 2].max()
    assert 13.0 <= across[:, 2].max() - margin <= 16.0


def test_a_ridge_is_as_wide_and_as_low_as_ridges_are():
    """7 to 9 mm wide 3 mm below its crest, which lies 8 to 11 mm from the occlusal plane.

    From memory, as beside the numbers in `gum_lines.py` and `gum_sections.py`.
    """
    lost = _without(_arch("natural", "lower"), [c for c in range(31, 48) if c not in (46, 47)])
    body = cast_body(lost)
    molar = _arch("natural", "lower").tooth(46)
    ridge = body.mesh.vertices[np.unique(body.mesh.faces[body.kind == RIDGE])]
    section = ridge[abs(ridge[:, 0] - molar.centre[0]) < 0.6]
    section = section[section[:, 1] < 0.0]
    crest = section[:, 2].max()
    tips = np.array(list(molar.cusp_tips.values()))
    assert 8.0 <= tips[:, 2].mean() - crest <= 11.0
    wide = section[abs(section[:, 2] - crest + 3.0) < 0.6]
    facial = wide[:, 1] < wide[:, 1].mean()
    assert 7.0 <= wide[~facial, 1].mean() - wide[facial, 1].mean() <= 9.5


@pytest.mark.parametrize("side", ["upper", "lower"])
def test_papillae_stand_higher_than_margins(side):
    """Gum between two front teeth reaches at least 2.5 mm nearer to the edges than before them."""
    arch = _arch("natural", side)
    body = arch.body
    gum = body.mesh.vertices[np.unique(body.mesh.faces[body.kind == GUM])]
    sign = -1.0 if is_upper(arch.codes[0]) else 1.0
    front = gum[(gum[:, 0] > arch.tooth(arch.codes[6]).centre[0]) & (abs(gum[:, 1]) < 2.0)]
    tip = (sign * front[abs(front[:, 1]) < 0.6, 2]).max()
    tooth = arch.teeth[6]
    crown = _crown(arch, tooth.code)
    facial = crown[np.argmax(crown[:, 0] - 10.0 * ((crown - tooth.centre) @ tooth.long_axis))]
    assert tip - sign * facial[2] > 2.5
