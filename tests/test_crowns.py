"""Crowns: published sizes, closed surfaces, and the parts they are made of."""

import tomllib
from pathlib import Path

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st

from kinematics.teeth.anterior_crown import (
    WEAR_FULL,
    Sheets,
    anterior_crown,
    anterior_triangles_of,
    edge_points,
)
from kinematics.teeth.crown_table import KINDS, THIRD_MOLARS, crown_table
from kinematics.teeth.posterior_crown import posterior_crown, surface_heights, triangles_of
from kinematics.teeth.resolution import edge_for
from kinematics.teeth.ring_mesh import stacked_rings, triangle_count

PUBLISHED = tomllib.loads((Path(__file__).parent / "published" / "teeth.toml").read_text())
POSTERIOR = tuple(crown_table().posterior)
ANTERIOR = tuple(crown_table().anterior)
WITH_THIRD_MOLARS = (*KINDS, *THIRD_MOLARS)


def crown(kind, edge_mm):
    """Return vertices and faces of a crown type in its own frame."""
    if kind in POSTERIOR:
        form = crown_table().posterior[kind]
        made = posterior_crown(form, edge_mm)
        return made.vertices(form.heights), made.faces
    return anterior_crown(Sheets(kind), edge_mm)


@pytest.mark.parametrize("kind", WITH_THIRD_MOLARS)
def test_crown_has_the_published_size(kind):
    """Greatest extent mesiodistally, buccolingually and in height is the table's, to 0.03 mm."""
    vertices, _ = crown(kind, 0.15)
    height = vertices[:, 2].max()
    extent = np.ptp(vertices[:, :2], axis=0)
    np.testing.assert_allclose([*extent, height], PUBLISHED["crown_sizes"][kind], atol=0.03)


def test_tooth_size_ratios_of_the_made_crowns_are_bolton_s():
    """Sums of the made crowns' widths give the two ratios of the published table."""
    width = {kind: np.ptp(crown(kind, 0.15)[0][:, 0]) for kind in KINDS}
    ratios = PUBLISHED["tooth_size_ratios"]
    for last, name in ((3, "canine_to_canine"), (6, "first_molar_to_first_molar")):
        upper, lower = (sum(width[f"{a}{n}"] for n in range(1, last + 1)) for a in "UL")
        assert 100.0 * lower / upper == pytest.approx(ratios[name], abs=0.03)


@pytest.mark.parametrize("edge_mm", [0.65, 0.3, 0.12])
@pytest.mark.parametrize("kind", WITH_THIRD_MOLARS)
def test_crown_is_closed_and_wound_outward(kind, edge_mm):
    """Every edge has two faces of opposite direction; one piece; positive volume; no sliver of 0.

    The number of faces is the one that was foretold.
    """
    vertices, faces = crown(kind, edge_mm)
    mesh = trimesh.Trimesh(vertices, faces, process=False)
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.euler_number == 2
    assert mesh.volume > 0.28 * np.prod(np.ptp(vertices, axis=0))
    assert mesh.area_faces.min() > 0.0
    counted = triangles_of if kind in POSTERIOR else anterior_triangles_of
    assert len(faces) == counted(kind, edge_mm)


@given(
    rings=st.lists(st.integers(min_value=3, max_value=40), min_size=1, max_size=6),
)
def test_any_stack_of_rings_is_closed(rings):
    """Rings of any numbers of points between two poles make one closed, consistent surface."""
    counts = (1, *rings, 1)
    heights = np.linspace(1.0, -1.0, len(counts))
    vertices = np.concatenate(
        [
            np.stack(
                [
                    np.sqrt(1.0 - h * h) * np.cos(2 * np.pi * np.arange(n) / n),
                    np.sqrt(1.0 - h * h) * np.sin(2 * np.pi * np.arange(n) / n),
                    np.full(n, h),
                ],
                axis=1,
            )
            for n, h in zip(counts, heights, strict=True)
        ]
    )
    faces = stacked_rings(counts)
    mesh = trimesh.Trimesh(vertices, faces, process=False)
    assert len(faces) == triangle_count(counts)
    assert mesh.is_watertight and mesh.is_winding_consistent and mesh.volume > 0.0


@pytest.mark.parametrize("kind", POSTERIOR)
def test_foretold_rises_are_those_of_the_vertices(kind):
    """`rises` is the derivative of the vertices by every height: central differences agree."""
    form = crown_table().posterior[kind]
    made = posterior_crown(form, 0.4)
    rises = made.rises(form.heights)
    table = len(made.dome)
    for part, step in enumerate(1e-5 * np.eye(len(form.heights))):
        change = made.vertices(form.heights + step) - made.vertices(form.heights - step)
        np.testing.assert_array_equal(change[:, :2], 0.0)
        np.testing.assert_allclose(change[:table, 2] / 2e-5, rises[part, :table], atol=1e-6)
        assert np.abs(change[table:, 2]).max() / 2e-5 < 0.2, "walls stay nearly where they are"


@pytest.mark.parametrize("kind", POSTERIOR)
def test_every_cusp_is_a_summit(kind):
    """Near each cusp's place lies a local summit of about its height, higher than the floor."""
    form = crown_table().posterior[kind]
    across = np.linspace(-0.6, 0.6, 25)
    dx, dy = np.meshgrid(across, across, indexing="ij")
    inside = np.hypot(dx, dy) <= 0.6
    for cusp in form.cusps:
        x, y = cusp.at[0] * form.size[0] + dx[inside], cusp.at[1] * form.size[1] + dy[inside]
        z = surface_heights(form, form.heights, x, y)
        top = int(np.argmax(z))
        assert np.hypot(dx[inside][top], dy[inside][top]) < 0.5
        assert z[top] == pytest.approx(cusp.height, abs=0.2)
        assert z[top] > form.floor + 0.4


@pytest.mark.parametrize("kind", POSTERIOR)
def test_table_is_smooth(kind):
    """Along a line across the table the surface has no step and no kink below the mesh's scale."""
    form = crown_table().posterior[kind]
    y = np.linspace(-0.35, 0.35, 4001) * form.size[1]
    z = surface_heights(form, form.heights, np.full_like(y, 0.07 * form.size[0]), y)
    slope = np.diff(z) / np.diff(y)
    assert np.abs(slope).max() < np.tan(np.radians(75.0))
    assert np.abs(np.diff(slope)).max() < 0.03


def test_a_groove_lies_where_it_was_put():
    """The central pit of an upper first molar is lower than the surface 1 mm around it."""
    form = crown_table().posterior["U6"]
    pit = np.array([0.03, 0.05]) * np.array(form.size[:2])
    angle = np.linspace(0.0, 2.0 * np.pi, 60)
    low = surface_heights(form, form.heights, pit[:1], pit[1:])
    around = surface_heights(
        form, form.heights, pit[0] + 1.2 * np.cos(angle), pit[1] + 1.2 * np.sin(angle)
    )
    assert low[0] < around.min()


@pytest.mark.parametrize("kind", ["U1", "U2", "U3"])
def test_wear_takes_the_lingual_guiding_surface_only(kind):
    """Wear moves the lingual surface labially by its amount, the labial surface and edge stay."""
    across, up = np.array([0.0, 0.3]), np.array([WEAR_FULL + 0.05, 0.8])
    fresh, worn = Sheets(kind), Sheets(kind, 0.4)
    np.testing.assert_array_equal(worn.labial(across, up), fresh.labial(across, up))
    section = (1.0 - across ** fresh.form.section[1]) ** (1.0 / fresh.form.section[1])
    np.testing.assert_allclose(
        worn.lingual(across, up) - fresh.lingual(across, up), 0.4 * section, atol=1e-12
    )
    before, faces = anterior_crown(fresh, 0.3)
    after, same = anterior_crown(worn, 0.3)
    np.testing.assert_array_equal(faces, same)
    assert after[:, 2].max() == before[:, 2].max()
    assert trimesh.Trimesh(after, faces, process=False).is_watertight


def test_incisal_edge_runs_from_mesial_to_distal_on_the_crown():
    """Edge points lie on the made surface, the first one mesially."""
    points = edge_points(Sheets("U1"), 9)
    vertices, faces = anterior_crown(Sheets("U1"), 0.1)
    corners = vertices[faces]
    assert (np.diff(points[:, 0]) < 0).all()
    for point in points:
        nearest = trimesh.triangles.closest_point(corners, np.tile(point, (len(corners), 1)))
        assert np.linalg.norm(nearest - point, axis=1).min() < 0.02


@pytest.mark.parametrize("wanted", [10_000, 40_000, 130_000, 400_000])
@pytest.mark.parametrize("arch", ["U", "L"])
def test_an_arch_has_about_the_wanted_number_of_triangles(arch, wanted):
    """Rounding of rings and rows leaves the count within 3 percent."""
    edge = edge_for(arch, wanted)
    made = sum(
        (triangles_of if kind in POSTERIOR else anterior_triangles_of)(kind, edge)
        for kind in KINDS
        if kind[0] == arch
    )
    assert 2 * made == pytest.approx(wanted, rel=0.03)


@pytest.mark.parametrize("kind", WITH_THIRD_MOLARS)
def test_triangles_on_guiding_surfaces_have_the_wanted_size(kind):
    """Middle edge length on the table or lingual surface is near the wanted one, few are long."""
    edge = 0.25
    vertices, faces = crown(kind, edge)
    corners = vertices[faces]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    facing = normal[:, 2] if kind in POSTERIOR else -normal[:, 1]
    high = corners[:, :, 2].min(axis=1) > 0.6 * vertices[:, 2].max()
    chosen = corners[(facing > 0.5 * np.linalg.norm(normal, axis=1)) & high]
    length = np.linalg.norm(chosen - np.roll(chosen, -1, axis=1), axis=2).ravel()
    # The lingual ridge of the upper canine is steep: its surface is a fifth longer than high.
    assert np.median(length) == pytest.approx(edge, rel=0.35 if kind == "U3" else 0.3)
    assert np.quantile(length, 0.99) < 2.5 * edge
