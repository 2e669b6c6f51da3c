"""Both casts as they move: what the page gets, and what a still picture of the same frame shows."""

import numpy as np
import pytest

from kinematics.casts.casts import NO_TOOTH
from kinematics.casts.crown_directions import crown_of
from kinematics.contact.gap_maps import distance_map
from kinematics.contact.workers import Workers
from kinematics.geometry.poses import move_points, opening_rotation
from kinematics.mounting import mounted_casts
from kinematics.planning.tooth_regions import region_words
from scenes import drawing2d
from scenes.builtin_cases import builtin_case
from scenes.gap_colours import still
from scenes.moving_casts import frame_at, moving_casts
from scenes.scene_bytes import FARTHER, GAP_STEPS, gap_arrays, scene_arrays, tooth_parts

LIMIT_MM = 1.0


@pytest.fixture(scope="module")
def casts():
    """Return the built-in case, mounted."""
    return mounted_casts(builtin_case())


@pytest.fixture(scope="module")
def scene(casts):
    """Return both casts in MI."""
    return moving_casts(casts, builtin_case().replacement_teeth)


@pytest.fixture(scope="module")
def frame(casts):
    """Return a pose opened by half a degree, its gaps, and its frame."""
    pose = casts.mi_pose @ opening_rotation(np.radians(0.5))
    near = distance_map(casts.pair, pose, LIMIT_MM, Workers())
    return pose, near, frame_at(casts, pose, near, LIMIT_MM)


def test_a_move_carries_the_lower_from_mi_to_its_pose(casts, scene, frame):
    """Parts of the lower, moved, lie where the pose puts the vertices of the arch."""
    pose, _, moment = frame
    for part in tooth_parts(scene, "lower"):
        moved = move_points(moment.move, part.vertices)
        wanted = move_points(pose, casts.lower.mesh.vertices[part.vertex_of])
        np.testing.assert_allclose(moved, wanted, atol=1e-9)


def test_every_vertex_of_a_part_knows_its_tooth(casts, scene):
    """The numbers of a part's vertices are those of the triangles around them."""
    for side, arch in (("upper", casts.upper), ("lower", casts.lower)):
        told = np.concatenate([part.tooth for part in tooth_parts(scene, side)])
        assert set(told) == set(arch.codes)
        assert NO_TOOTH not in told


def test_numbers_of_casts_on_a_base_stand_beyond_their_crowns(scene):
    """There is stone to stand on, and crowns stay bare."""
    assert scene.labels
    assert not any(label.on_crown for label in scene.labels)


def test_places_are_those_of_findings(casts, scene):
    """What is said of a vertex is what a finding would say of that point."""
    part = tooth_parts(scene, "upper")[0]
    for i in range(0, len(part.vertices), 997):
        words = region_words(crown_of(casts.upper, int(part.tooth[i])), part.vertices[i])
        assert str(part.place[i]) == words


def test_the_page_gets_the_gaps_of_the_engine(scene, frame):
    """Sent gaps are the distances of the engine, to half a step, in the order of the parts."""
    _, near, moment = frame
    arrays = gap_arrays(scene, moment.gaps)
    for side, wanted in (("upper", near.upper_mm), ("lower", near.lower_mm)):
        wanted = np.concatenate([wanted[part.vertex_of] for part in tooth_parts(scene, side)])
        sent = arrays[f"gap_{side}"]
        far = sent == FARTHER
        np.testing.assert_array_equal(far, ~np.isfinite(wanted))
        got = sent[~far] * (LIMIT_MM / GAP_STEPS)
        np.testing.assert_allclose(got, wanted[~far], atol=0.51 * LIMIT_MM / GAP_STEPS)
        assert 100 < np.count_nonzero(~far) < len(sent)


def test_the_page_gets_the_same_triangles(scene):
    """What is sent of a part is the part."""
    told, words, arrays = scene_arrays(scene)
    assert len(told) == len(scene.parts)
    for row, part in zip(told, scene.parts, strict=True):
        np.testing.assert_allclose(arrays[row["vertices"]], part.vertices, atol=1e-5)
        np.testing.assert_array_equal(arrays[row["faces"]], part.faces)
        if row["tooth"]:
            np.testing.assert_array_equal(arrays[row["tooth"]], part.tooth)
            spoken = [words[i] for i in arrays[row["place"]]]
            assert spoken == part.place.tolist()


def test_a_still_picture_is_dark_where_teeth_are_near(scene, frame):
    """Of the same frame: touching vertices dark, far ones as their role, gums as they were."""
    _, near, moment = frame
    drawn = still(scene, moment)
    for before, part in zip(scene.parts, drawn.parts, strict=True):
        if before.around_teeth:
            assert not len(part.paint)
            continue
        gaps = (near.upper_mm if part.cast == "upper" else near.lower_mm)[part.vertex_of]
        brightness = part.paint.sum(axis=1)
        touching, far = gaps < 0.05, ~np.isfinite(gaps)
        if touching.any():
            assert brightness[touching].max() < 1.2
        assert brightness[far].min() > 2.2


def test_both_writers_take_a_painted_scene(scene, frame):
    """The painter's drawing of a coloured frame differs from that without colours."""
    _, _, moment = frame
    plain = drawing2d.render(scene, 2.0)
    coloured = drawing2d.render(still(scene, moment), 2.0)
    assert plain.shape == coloured.shape
    assert (plain != coloured).any()
