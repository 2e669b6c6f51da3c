"""Wear of the built-in teeth: lower edges and tips, supporting cusps, their stops in MI."""

import numpy as np
import pytest
import trimesh

from kinematics.teeth.anterior_crown import Sheets, anterior_crown, edge_points
from kinematics.teeth.crown_table import KINDS, THIRD_MOLARS, crown_table
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.teeth.posterior_crown import cusp_tips, posterior_crown
from kinematics.teeth.wear_facets import worn_down
from tests import built_dentition
from tests.built_dentition import STOP_UM, first_gaps_um

LOWER_FRONT = ("L1", "L2", "L3")
POSTERIOR = tuple(kind for kind in (*KINDS, *THIRD_MOLARS) if int(kind[1]) >= 4)


def worn(**settings):
    """Return a coarse dentition with wear."""
    return build(DentitionSettings(triangles_per_arch=12_000, **settings))


@pytest.mark.parametrize("wear", [0.02, 0.2, 0.8])
@pytest.mark.parametrize("kind", LOWER_FRONT)
def test_a_lower_edge_loses_height_to_a_facet(kind, wear):
    """The highest point is lower by the wear, but for the slope; nothing is wider than before."""
    fresh, faces = anterior_crown(Sheets(kind), 0.2)
    after, same = anterior_crown(Sheets(kind, wear), 0.2)
    np.testing.assert_array_equal(faces, same)
    mesh, before = (trimesh.Trimesh(v, faces, process=False) for v in (after, fresh))
    assert mesh.is_watertight
    assert mesh.volume < before.volume
    assert fresh[:, 2].max() - after[:, 2].max() == pytest.approx(wear, abs=0.12)
    assert after[:, 2].max() < fresh[:, 2].max()
    middle = edge_points(Sheets(kind, wear), 17), edge_points(Sheets(kind), 17)
    lost = (middle[1] - middle[0])[:, 2]
    assert lost.max() == pytest.approx(wear, abs=0.01)
    assert lost.min() >= 0.0
    if kind == "L3":
        assert lost.min() == 0.0, "the far end of the longer arm stays"
    # Every point of the worn crown lies on or in the old one.
    for point in after[:: max(1, len(after) // 40)]:
        foot = trimesh.triangles.closest_point(before.triangles, np.tile(point, (len(faces), 1)))
        k = int(np.argmin(np.linalg.norm(foot - point, axis=1)))
        assert (point - foot[k]) @ before.face_normals[k] < 0.02


@pytest.mark.parametrize("kind", LOWER_FRONT)
def test_a_lower_facet_slopes_to_the_labial(kind):
    """The labial end of the facet lies lower than the lingual end, by about 10 degrees."""
    sheets, end = Sheets(kind, 0.6), np.ones(1)
    across = np.full(1, sheets.form.tip[0] if sheets.form.is_canine else 0.0)
    labial, lingual = (sheets.sheet(across, end, side)[0] for side in (1.0, -1.0))
    assert labial[1] > lingual[1]
    slope = np.degrees(np.arctan2(lingual[2] - labial[2], labial[1] - lingual[1]))
    assert slope == pytest.approx(10.0, abs=1.5)


@pytest.mark.parametrize("wear", [0.03, 0.3, 0.8])
@pytest.mark.parametrize("kind", POSTERIOR)
def test_supporting_cusps_lose_their_height_to_a_facet(kind, wear):
    """Worn tips are lower by the wear and level round about; other cusps and the walls stay."""
    form = crown_table().posterior[kind]
    crown = posterior_crown(form, 0.2)
    points, tips = crown.vertices(form.heights), cusp_tips(form, form.heights)
    loss = np.array([wear if name in form.supporting else 0.0 for name in form.cusp_names])
    after, lower = worn_down(points, tips, loss), worn_down(tips, tips, loss)
    np.testing.assert_allclose((tips - lower)[:, 2], loss, atol=1e-3)
    np.testing.assert_array_equal(after[:, :2], points[:, :2])
    walls = len(crown.dome)
    np.testing.assert_array_equal(after[walls:], points[walls:])
    assert (after[:, 2] <= points[:, 2]).all()
    assert trimesh.Trimesh(after, crown.faces, process=False).is_watertight
    for tip, lost in zip(lower, loss, strict=True):
        near = np.hypot(*(points[:walls, :2] - tip[:2]).T) < 0.3
        if lost > 0.25:
            assert np.ptp(after[:walls][near][:, 2]) < 0.02
        elif lost == 0.0:
            np.testing.assert_array_equal(after[:walls][near], points[:walls][near])


def test_no_wear_changes_no_bit():
    """Points come back as they are."""
    form = crown_table().posterior["L6"]
    points, tips = np.zeros((3, 3)), cusp_tips(form, form.heights)
    assert worn_down(points, tips, np.zeros(len(tips))) is points


def test_a_worn_supporting_cusp_loses_its_stop():
    """Of one named cusp; the other stops, and MI, stay."""
    plain, made = built_dentition.coarse(), worn(wear_cusps_mm={"46 MB": 0.2})
    gone = {stop.cusp for stop in plain.stops} - {stop.cusp for stop in made.stops}
    assert gone == {"46 MB"}
    assert {stop.cusp for stop in made.stops} <= {stop.cusp for stop in plain.stops}
    assert abs(first_gaps_um(made)) <= STOP_UM
    lost = plain.lower.tooth(46).cusp_tips["MB"] - made.lower.tooth(46).cusp_tips["MB"]
    assert np.linalg.norm(lost) == pytest.approx(0.2, abs=1e-3)


def test_wear_of_a_tooth_takes_the_stops_of_all_its_supporting_cusps():
    """By the exact closure too: both teeth worn, the pair stands apart in MI."""
    made = worn(wear_mm={16: 0.3, 46: 0.3})
    cusps = {stop.cusp for stop in made.stops}
    assert not cusps & {"46 MB", "46 DB", "16 ML", "16 DL"}
    assert {"36 MB", "36 DB", "26 ML"} <= cusps
    assert first_gaps_um(made, [(16, 46)])[16, 46] > 5.0 * STOP_UM
    assert abs(first_gaps_um(made)) <= STOP_UM


def test_a_side_worn_all_over_has_no_stop_of_its_own():
    """The other side holds MI; nothing is a stop only because it is the nearest of its side."""
    codes = [10 * quadrant + n for quadrant in (1, 4) for n in (4, 5, 6, 7)]
    made = worn(wear_mm=dict.fromkeys(codes, 0.4), missing=(11, 12, 13, 41, 42, 43))
    assert {stop.upper_tooth // 10 for stop in made.stops} == {2}


def test_a_single_cusp_may_keep_its_height_on_a_worn_tooth():
    """What is said of a cusp replaces what is said of its tooth; cusps without support wear too."""
    made = worn(wear_mm={36: 0.4}, wear_cusps_mm={"36 DB": 0.0, "36 ML": 0.1})
    before, after = (d.lower.tooth(36).cusp_tips for d in (built_dentition.coarse(), made))
    lost = {name: np.linalg.norm(before[name] - after[name]) for name in before}
    wanted = {"MB": 0.4, "DB": 0.0, "D": 0.4, "ML": 0.1, "DL": 0.0}
    assert lost == pytest.approx(wanted, abs=1e-3)
    assert "36 DB" in {stop.cusp for stop in made.stops}


def test_worn_canines_by_number_are_worn_canines():
    """Both ways to say it give the same bits; lower front teeth are worn on both sides alike."""
    one, other = worn(wear_canine_mm=0.4), worn(wear_mm={13: 0.4, 23: 0.4})
    np.testing.assert_array_equal(one.upper.mesh.vertices, other.upper.mesh.vertices)
    lower = worn(wear_mm={33: 0.5, 43: 0.5})
    tips = [lower.lower.tooth(code).cusp_tips["tip"] for code in (33, 43)]
    np.testing.assert_allclose(tips[0] * [1.0, -1.0, 1.0], tips[1], atol=1e-12)
    fresh = built_dentition.coarse().lower.tooth(33).cusp_tips["tip"]
    assert fresh[2] - tips[0][2] == pytest.approx(0.5, abs=0.1)
