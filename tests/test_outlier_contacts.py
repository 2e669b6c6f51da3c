"""Single vertices that decide a closure: planted ones are named, tips and noise are not."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.spatial import cKDTree

from kinematics.casts.casts import carried
from kinematics.contact.gap_maps import distance_map
from kinematics.contact.mounted import mount
from kinematics.contact.pair import Pair, lower_tree, upper_tree
from kinematics.contact.sweep import sweep
from kinematics.contact.sweep_settings import SweepSettings
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import Mesh, face_areas_normals, mesh_of, part_of
from kinematics.geometry.poses import move_points
from kinematics.guidance.excursions import protrusion
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import GuidanceSettings
from kinematics.mounting import teeth_for
from kinematics.planning.outlier_contacts import OUTLIER_KIND, outlier_findings
from kinematics.scans.local_fits import local_fits
from kinematics.scans.scanned_surfaces import ScannedSurfaces
from kinematics.scans.single_points import roughness_mm, standing_out
from tests.scanned_case import arches_in_mi, case_of, scans_in_mi
from tests.scanner_like import Scanned, any_place, scanned
from tests.shipped_cases import run_case

#: Edges of about 0.2 mm, as scans have.
FINE = 120_000
SIDES = ("upper", "lower")
MOLARS = (16, 26, 36, 46)


def silent(_step):
    """Tell nobody."""


def cropped(arch, surface):
    """Return the molars of an arch and of its surface as scanned."""
    kept = np.isin(arch.tooth_of_face, MOLARS)
    own, used = part_of(arch.mesh, kept)
    teeth = tuple(tooth for tooth in arch.teeth if tooth.code in MOLARS)
    part = replace(arch, mesh=own, tooth_of_face=arch.tooth_of_face[kept], teeth=teeth)
    return part, replace(
        surface,
        mesh=mesh_of(surface.mesh.vertices[used], own.faces),
        overlap_mm=surface.overlap_mm[used],
    )


@pytest.fixture(scope="module")
def molars(tmp_path_factory):
    """Return the molars of smooth fine scans, rigid: arches, surfaces, incisal point."""
    case = case_of(tmp_path_factory.mktemp("fine") / "case", *scans_in_mi(FINE, 0.0), 0)
    teeth = teeth_for(case, silent)
    arches = {"upper": teeth.upper, "lower": carried(teeth.lower, teeth.pose)}
    parts = {side: cropped(arches[side], getattr(teeth.surfaces, side)) for side in SIDES}
    return parts, move_points(teeth.pose, teeth.incisal_point[None])[0]


def closed(arches, trees, incisal_point):
    """Return arches mounted, closed in MI, and two poses of a protrusion."""
    mi = GuidanceCoordinates(0.0, 0.0, 0.0, 0.0)
    guidance, pair = prepare(GuidanceSettings()), Pair(trees["upper"], trees["lower"])
    casts = mount(arches["upper"], arches["lower"], pair, guidance, mi, incisal_point)
    settings = SweepSettings(step_mm=1.0, travel_mm=1.0)
    return casts, sweep(casts, protrusion(), settings, 0.02, (0.0, 1.0), Workers())


def raised(part, vertex, height_mm):
    """Return an arch and its surface with one vertex raised out of it."""
    arch, surface = part
    around = Mesh(arch.mesh.vertices, arch.mesh.faces[(arch.mesh.faces == vertex).any(axis=1)])
    way = face_areas_normals(around)[1].sum(axis=0)
    moved = arch.mesh.vertices.copy()
    moved[vertex] += height_mm * way / np.linalg.norm(way)
    mesh = mesh_of(moved, arch.mesh.faces)
    return replace(arch, mesh=mesh), replace(surface, mesh=mesh)


TREE = {"upper": upper_tree, "lower": lower_tree}


def told(parts, trees, incisal_point):
    """Return what is found of single points, and the sweep it was found in."""
    casts, found = closed({side: parts[side][0] for side in SIDES}, trees, incisal_point)
    surfaces = ScannedSurfaces(parts["upper"][1], parts["lower"][1])
    return outlier_findings(casts, surfaces, (found,), 0.0), found


def test_planted_spikes_that_decide_mi_are_named(molars):
    """50 of 20 to 200 micrometres on either cast: tooth, place, and what they change."""
    parts, incisal_point = molars
    trees = {side: TREE[side](parts[side][0]) for side in SIDES}
    clean, found = told(parts, trees, incisal_point)
    assert clean == ()
    rng = np.random.default_rng(5)
    near = distance_map(Pair(trees["upper"], trees["lower"]), found.poses[0], 0.1)
    radius_mm = np.hypot(incisal_point[0], incisal_point[2])
    planted, low = 0, 0
    while planted < 50:
        side = SIDES[planted % 2]
        height_mm = 0.02 * 10.0 ** rng.uniform()
        vertex = int(rng.choice(np.flatnonzero(getattr(near, f"{side}_mm") < 0.01)))
        spiked = parts | {side: raised(parts[side], vertex, height_mm)}
        changed = trees | {side: TREE[side](spiked[side][0])}
        findings, with_spike = told(spiked, changed, incisal_point)
        higher_mm = (with_spike.opening_rad[0] - found.opening_rad[0]) * radius_mm
        if higher_mm < 0.005:
            continue
        planted += 1
        low += height_mm < 0.04
        arch = parts[side][0]
        code = arch.tooth_of_face[(arch.mesh.faces == vertex).any(axis=1)][0]
        (named,) = (item for item in findings if f"On {code} (" in item.text)
        assert code in (named.tooth_upper, named.tooth_lower)
        assert named.kind == OUTLIER_KIND and named.severity == "attention"
        assert np.linalg.norm(with_spike.closures.point - named.place, axis=1).min() < 0.3
        height, usual, further = named.figures
        assert height.value == pytest.approx(height_mm, abs=0.02)
        assert usual.value < 0.003
        # Without it the jaw closes as before, but for the triangles that are left out as well.
        assert higher_mm - 1e-6 <= further.value < higher_mm + 0.1
    assert low >= 10


def crowns(scan):
    """Return the crowns of a scan as a mesh."""
    faces = scan.faces[(scan.labels[scan.faces] > 0).all(axis=1)]
    used, own = np.unique(faces, return_inverse=True)
    return mesh_of(scan.vertices[used], own.reshape(-1, 3))


@pytest.mark.parametrize("triangles", [15_000, 40_000])
def test_neither_tips_nor_noise_stand_out(triangles):
    """No cusp, edge or place of contact, smooth and with noise of 4 micrometres of 6 seeds."""
    arches = arches_in_mi(triangles)
    looked_at = 0
    for seed, noise_um in ((1, 0.0), *((seed, 4.0) for seed in (12, 14, 106, 112, 130, 134))):
        scans = [
            crowns(scanned(arch, towards, seed + k, noise_um, 4.0))
            for k, (arch, towards) in enumerate(zip(arches, (-1.0, 1.0), strict=True))
        ]
        for own, other, arch in ((0, 1, arches[0]), (1, 0, arches[1])):
            places = scans[own].vertices
            off, _ = cKDTree(scans[other].vertices).query(places)
            tips = np.concatenate(
                [[*tooth.cusp_tips.values(), *tooth.edge] for tooth in arch.teeth]
            )
            _, at_tips = cKDTree(places).query(tips)
            vertices = np.union1d(np.flatnonzero(off < 0.25), at_tips)
            found = standing_out(scans[own], vertices, roughness_mm(scans[own]))
            assert not found.stands_out.any(), (seed, places[vertices[found.stands_out]])
            looked_at += len(vertices)
    assert looked_at > 2000


@pytest.mark.parametrize("seed", range(4))
def test_a_fit_knows_nothing_of_the_vertex_it_is_compared_with(seed):
    """Of a cubic surface in any place heights are exact; noise all over gives its own spread."""
    rng = np.random.default_rng(seed)
    x, y = np.meshgrid(np.arange(40) * 0.2, np.arange(40) * 0.2)
    x = x + 0.1 * (np.arange(40)[:, None] % 2)
    z = np.zeros_like(x)
    corner = (np.arange(39)[:, None] * 40 + np.arange(39)).ravel()
    faces = np.concatenate(
        [
            np.stack([corner, corner + 1, corner + 41], axis=1),
            np.stack([corner, corner + 41, corner + 40], axis=1),
        ]
    )
    flat = np.stack([x.ravel(), y.ravel(), z.ravel()], axis=1)
    inner = np.flatnonzero((np.abs(flat[:, :2] - 4.0) < 3.0).all(axis=1))
    vertex, height = int(rng.choice(inner)), rng.uniform(0.02, 0.2)
    flat[vertex, 2] += height
    turned = move_points(any_place(seed), flat)
    assert local_fits(mesh_of(turned, faces), np.array([vertex])).height_mm == pytest.approx(height)
    rough = flat + rng.normal(0.0, 0.005, (len(flat), 1)) * (0.0, 0.0, 1.0)
    own = local_fits(mesh_of(rough, faces), np.setdiff1d(inner, vertex)).own_height_mm
    assert np.median(np.abs(own)) * 1.4826 == pytest.approx(0.005, rel=0.15)
    corners = local_fits(mesh_of(rough, faces), np.array([0, 39]))
    assert np.isnan(corners.height_mm).all()  # too few neighbours to say


def test_a_spike_deeper_than_the_allowance_is_told_by_the_seating(tmp_path):
    """A whole run: it decides how the casts are seated, and nothing is said of clean scans."""
    upper, lower = scans_in_mi(40_000)
    case = case_of(tmp_path / "clean", upper, lower)
    clean = run_case(case, planning=True)
    assert not [item for item in clean.findings if item.kind == OUTLIER_KIND]
    # Where a stop is, and the surface is smoothest.
    smooth = crowns(lower)
    off, _ = cKDTree([stop.point for stop in clean.stops]).query(smooth.vertices)
    around = np.where(off < 0.3, local_fits(smooth, np.arange(len(off))).around_mm, np.inf)
    point = smooth.vertices[np.nanargmin(around)]
    vertex = int(np.argmin(np.linalg.norm(lower.vertices - point, axis=1)))
    spiked = lower.vertices.copy()
    spiked[vertex, 2] += 0.2
    case = case_of(tmp_path / "spiked", upper, Scanned(spiked, lower.faces, lower.labels))
    found = [item for item in run_case(case, planning=True).findings if item.kind == OUTLIER_KIND]
    text = found[0].text
    assert f"On {lower.labels[vertex]} (" in text
    assert "more than the allowance, so that it decides how the casts were seated" in text
    depth, rest = (item.value for item in found[0].figures[2:])
    assert depth > 0.1
    assert rest < 0.05
