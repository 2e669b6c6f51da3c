"""Wax-ups with known thickness and volume, distances against another way, and refusals."""

from dataclasses import replace

import numpy as np
import pytest
import trimesh

from kinematics.casts.casts import Arch, Tooth
from kinematics.checks import InputError
from kinematics.geometry.meshes import face_areas_normals, joined, mesh_of
from kinematics.geometry.nearest_points import nearest_on
from kinematics.geometry.signed_distances import signed_distances
from kinematics.planning.wax_up import changed_crowns, wax_up
from kinematics.wax_up_files import WAX_UP_COLUMNS, wax_up_entries, wax_up_rows
from scenes.wax_up_words import wax_up_words

SEEDS = range(50)


def ball(radius=5.0, subdivisions=3):
    """Return a sphere."""
    made = trimesh.creation.icosphere(subdivisions=subdivisions, radius=radius)
    return mesh_of(made.vertices, made.faces)


def volume(mesh):
    """Return the volume of a closed mesh."""
    a, b, c = np.swapaxes(mesh.corners, 0, 1)
    return float((a * np.cross(b, c)).sum() / 6.0)


def bumped(mesh, way, height, reach):
    """Return a sphere with a smooth bump (or hollow) about a direction."""
    units = mesh.vertices / np.linalg.norm(mesh.vertices, axis=1, keepdims=True)
    away = np.arccos(np.clip(units @ way, -1.0, 1.0)) / reach
    rise = height * np.where(away < 1.0, np.cos(0.5 * np.pi * np.minimum(away, 1.0)) ** 2, 0.0)
    return mesh_of(mesh.vertices + rise[:, None] * units, mesh.faces)


def thin_volume(mesh, rise):
    """Return the volume, with its sign, where a change is thinner than what counts as one."""
    thin = np.where(np.abs(rise) < 0.05, rise, 0.0)
    return float((face_areas_normals(mesh)[0] * thin[mesh.faces].mean(axis=1)).sum())


def compared(original, waxed, codes=None, name="wax.stl"):
    """Compare two meshes, all of one tooth unless told otherwise."""
    codes = np.full(len(original.faces), 16) if codes is None else codes
    return wax_up(original, codes, waxed, is_upper=True, name=name, where="scans.wax_up_upper")


def plate(step=0.25, half=8.0):
    """Return a flat square sheet that faces up."""
    line = np.arange(-half, half + step / 2, step)
    x, y = np.meshgrid(line, line, indexing="ij")
    n = len(line)
    at = np.arange(n * n).reshape(n, n)
    a, b, c, d = at[:-1, :-1], at[1:, :-1], at[1:, 1:], at[:-1, 1:]
    faces = np.concatenate(
        [np.stack([a, b, c], -1).reshape(-1, 3), np.stack([a, c, d], -1).reshape(-1, 3)]
    )
    return mesh_of(np.column_stack([x.ravel(), y.ravel(), np.zeros(n * n)]), faces)


@pytest.mark.parametrize("seed", SEEDS)
def test_planted_wax_is_found_with_its_height_and_volume(seed):
    """A bump of known height on one of two teeth; what is taken away is found too."""
    rng = np.random.default_rng(seed)
    original = ball(subdivisions=3)
    way = rng.normal(size=3)
    way /= np.linalg.norm(way)
    height, reach = rng.uniform(0.3, 0.9), rng.uniform(0.5, 0.9)
    height *= 1.0 if seed % 2 else -1.0
    waxed = bumped(original, way, height, reach)
    codes = np.where(original.corners.mean(axis=1) @ way > 0.0, 16, 17)
    found = compared(original, waxed, codes)
    (tooth,) = found.teeth
    assert tooth.tooth == 16 and found.relief is None
    rise = np.linalg.norm(waxed.vertices, axis=1) - np.linalg.norm(original.vertices, axis=1)
    change = volume(waxed) - volume(original) - thin_volume(original, rise)
    assert tooth.added_mm3 - tooth.removed_mm3 == pytest.approx(change, rel=0.03)
    most = tooth.most_added_mm if height > 0.0 else tooth.most_removed_mm
    assert most == pytest.approx(abs(height), rel=0.06)
    assert (tooth.removed_mm2 if height > 0.0 else tooth.added_mm2) == 0.0


def test_a_shell_of_even_thickness_has_the_volume_of_the_formula():
    """4/3 pi ((R + t)^3 - R^3), for what is added and, the other way round, taken away."""
    inner, outer = ball(5.0, 4), ball(5.15, 4)
    wanted = volume(outer) - volume(inner)
    (added,) = compared(inner, outer).teeth
    (taken,) = compared(outer, inner).teeth
    assert added.added_mm3 == pytest.approx(wanted, rel=0.002)
    assert taken.removed_mm3 == pytest.approx(wanted, rel=0.002)
    assert added.most_added_mm == pytest.approx(0.15, abs=0.002)
    assert added.added_mm2 == pytest.approx(4.0 * np.pi * 5.15**2, rel=0.002)


def test_wax_on_the_ridge_away_from_teeth_is_relief():
    """A pad on what is no tooth is told apart from the teeth, with its own volume."""
    sheet = plate()
    codes = np.where(sheet.corners.mean(axis=1)[:, 0] < -2.0, 14, 0)
    points = sheet.vertices.copy()
    pad = (np.abs(points[:, 0] - 3.0) <= 2.0) & (np.abs(points[:, 1]) <= 2.0)
    points[pad, 2] += 0.4
    found = compared(sheet, mesh_of(points, sheet.faces), codes)
    assert found.teeth == () and found.relief.tooth == 0
    assert found.relief.most_added_mm == pytest.approx(0.4)
    # Its slopes are one step wide: a frustum between 4 and 4.5 mm.
    assert found.relief.added_mm3 == pytest.approx(0.4 * 18.0, rel=0.06)
    (words,) = wax_up_words((found,))
    assert words.teeth.rows[0][0] == "gums and ridge (relief)"


def test_a_copy_changes_nothing_and_noise_of_scanners_neither():
    """The same surface, and one with 10 micrometres of noise, have no row."""
    original = ball()
    assert compared(original, original).teeth == ()
    noise = np.random.default_rng(5).normal(0.0, 0.01, original.vertices.shape)
    found = compared(original, mesh_of(original.vertices + noise, original.faces))
    assert found.teeth == () and found.relief is None
    (words,) = wax_up_words((found,))
    assert words.teeth.rows == () and "nothing differs by 0.05 mm" in words.lead


def test_a_wax_up_that_reaches_farther_than_the_scan_is_no_change():
    """What lies past the border of the other scan is left out on either side."""
    large, small = plate(half=8.0), plate(half=6.0)
    for one, other in ((large, small), (small, large)):
        assert compared(one, other, np.full(len(one.faces), 0)).relief is None


def test_the_order_of_vertices_and_triangles_changes_no_bit():
    """Both meshes numbered anew give the same figures, every digit."""
    original, rng = ball(), np.random.default_rng(3)
    waxed = bumped(original, np.array([0.0, 0.6, 0.8]), 0.5, 0.9)
    codes = np.where(original.corners.mean(axis=1)[:, 1] > 0.0, 16, 17)
    mixed, parts = [], []
    for mesh in (original, waxed):
        vertices, faces = rng.permutation(len(mesh.vertices)), rng.permutation(len(mesh.faces))
        back = np.argsort(vertices)
        mixed.append(mesh_of(mesh.vertices[vertices], back[mesh.faces[faces]]))
        parts.append(faces)
    assert compared(*mixed, codes[parts[0]]) == compared(original, waxed, codes)


def test_scans_that_do_not_overlap_are_refused():
    """The message says which file, how little overlaps, and what to do."""
    moved = ball()
    with pytest.raises(InputError) as told:
        compared(ball(), mesh_of(moved.vertices + np.array([6.0, 0.0, 0.0]), moved.faces))
    text = str(told.value)
    assert text.startswith("scans.wax_up_upper: wax.stl does not lie on the original: ")
    assert "at least 50 % must be" in text and "coordinates of the original" in text


@pytest.mark.parametrize("seed", range(10))
def test_signed_distances_are_those_of_looking_at_every_triangle(seed):
    """Size against every triangle in turn; sign against whether a closed body holds the point."""
    rng = np.random.default_rng(seed)
    body = bumped(ball(3.0, 2), np.array([0.0, 0.0, 1.0]), 1.0, 1.0)
    stretched = mesh_of(body.vertices * [1.0, 0.7, 1.4], body.faces)
    points = np.concatenate([rng.uniform(-5.0, 5.0, (40, 3)), stretched.vertices[:5] * 1.1])
    found = signed_distances(stretched, points)
    np.testing.assert_allclose(
        np.abs(found.distance_mm), nearest_on(stretched, points)[1], atol=1e-12
    )
    inside = trimesh.Trimesh(stretched.vertices, stretched.faces).contains(points)
    np.testing.assert_array_equal(found.distance_mm < 0.0, inside)
    assert not found.beyond.any()
    mixed = rng.permutation(len(stretched.faces))
    again = signed_distances(mesh_of(stretched.vertices, stretched.faces[mixed]), points)
    np.testing.assert_array_equal(again.distance_mm, found.distance_mm)


def arch_of(crowns):
    """Return an arch of (code, mesh)."""
    codes = np.concatenate([np.full(len(mesh.faces), code) for code, mesh in crowns])
    teeth = tuple(
        Tooth(code, mesh.vertices.mean(axis=0), np.array([0.0, 0.0, 1.0]), mesh.vertices[:1])
        for code, mesh in crowns
    )
    return Arch(joined([mesh for _, mesh in crowns]), codes, teeth)


@pytest.mark.parametrize("seed", range(10))
def test_a_case_with_changes_is_compared_crown_by_crown(seed):
    """A bump on one of two crowns that stand in each other is told of that one alone."""
    rng = np.random.default_rng(seed)
    one, other = ball(), mesh_of(ball().vertices + np.array([9.0, 0.0, 0.0]), ball().faces)
    way = rng.normal(size=3)
    grown = bumped(one, way / np.linalg.norm(way), 0.6, 0.8)
    before, after = arch_of([(46, one), (47, other)]), arch_of([(46, grown), (47, other)])
    found = changed_crowns(before, after, is_upper=False)
    (tooth,) = found.teeth
    assert tooth.tooth == 46 and tooth.removed_mm2 == 0.0
    assert tooth.added_mm3 == pytest.approx(volume(grown) - volume(one), rel=0.08)
    assert found.same_share == pytest.approx(0.5, abs=0.02)
    back = changed_crowns(after, before, is_upper=False).teeth[0]
    assert back.removed_mm3 == pytest.approx(tooth.added_mm3, rel=0.01)


def test_a_case_against_itself_is_without_changes():
    """No row, and a tooth that was taken away or added as a whole is none either."""
    both, alone = arch_of([(46, ball()), (47, ball())]), arch_of([(46, ball())])
    for before, after in ((both, both), (both, alone), (alone, both)):
        assert changed_crowns(before, after, is_upper=False).teeth == ()


def test_files_hold_what_was_found_with_units():
    """A row a tooth, empty cells where nothing was added, and the file it came from."""
    hollow = compared(ball(), bumped(ball(), np.array([0.0, 0.0, 1.0]), -0.5, 0.8))
    (row,) = wax_up_rows((hollow,))
    cells = dict(zip(WAX_UP_COLUMNS, row, strict=True))
    assert cells["arch"] == "upper" and cells["wax_up"] == "wax.stl" and cells["tooth"] == "16"
    assert float(cells["most_removed_mm"]) == pytest.approx(0.5, abs=0.01)
    assert cells["most_added_at_x_mm"] == ""
    (entry,) = wax_up_entries((replace(hollow, name="other.ply"),))
    assert entry["wax_up"] == "other.ply" and entry["least_change_mm"] == 0.05
    assert entry["teeth"][0]["most_added_at_mm"] is None
