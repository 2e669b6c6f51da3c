"""Pictures show the right thing at the right place, whoever draws them."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.geometry.poses import move_points, opening_rotation
from kinematics.teeth.cast_body import with_body
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.tooth_codes import is_right
from scenes import drawing2d, sheet_writer, stage
from scenes.annotation import annotation, legend_sign, marks_sheet
from scenes.arch_scenes import (
    LOWER,
    UPPER,
    excursion_marks,
    occlusal_scene,
    occlusal_view,
    stop_marks,
)
from scenes.cast_scenes import one_cast_scene, open_casts_scene
from scenes.mouth_scene import mouth_marks, mouth_scene
from scenes.scene import Part, Scene, View
from scenes.writers import jpeg_address
from tests.machine import need_opengl

REPLACED = (15, 16, 17)
SIDES = (UPPER, LOWER)
#: Size of a printed tooth number, mm, at true size: two digits of 6.5 points.
LABEL_MM = np.array([3.2, 2.0])


def _arch(checkup, side):
    return checkup.upper if side == UPPER else checkup.lower


def _pixel(view, pixels, point):
    """Return the colour of a picture where a point of the scene is seen."""
    x, y = view.project(np.array(point)[None])[0]
    height, width = pixels.shape[:2]
    column = int((x / view.width_mm + 0.5) * width)
    return pixels[int((0.5 - y / view.height_mm) * height), column].astype(int)


@pytest.mark.parametrize("side", SIDES)
def test_the_view_is_that_of_somebody_facing_the_patient(example, side):
    """Axes at right angles; the patient's right on the left; front teeth up, down in the lower."""
    arch = _arch(example, side)
    view = occlusal_view(arch, side)
    frame = np.stack([view.right, view.up, -view.towards])
    np.testing.assert_allclose(frame @ frame.T, np.eye(3), atol=1e-15)
    assert np.linalg.det(frame) > 0.0
    seen = {tooth.code: view.project(tooth.centre[None])[0] for tooth in arch.teeth}
    assert all((seen[code][0] < 0.0) == is_right(code) for code in seen)
    front, back = (11, 17) if side == UPPER else (41, 47)
    assert np.sign(seen[front][1] - seen[back][1]) == (1.0 if side == UPPER else -1.0)
    # The surface that touches looks at the viewer.
    assert all(tooth.long_axis @ view.towards < -0.9 for tooth in arch.teeth)


@pytest.mark.parametrize("side", SIDES)
def test_every_triangle_is_in_one_part_and_in_the_frame(example, side):
    """Gum, natural and replacement teeth together are the whole arch, inside the picture."""
    arch = _arch(example, side)
    scene = occlusal_scene(_arch(example, side), side, REPLACED)
    assert sum(len(part.faces) for part in scene.parts) == len(arch.mesh.faces)
    roles = {part.role for part in scene.parts}
    assert ("replacement tooth" in roles) == (side == UPPER)
    for part in scene.parts:
        if part.role != "gum":
            seen = abs(scene.view.project(part.vertices))
            assert (seen <= [0.5 * scene.view.width_mm, 0.5 * scene.view.height_mm]).all()


@pytest.mark.parametrize("side", SIDES)
def test_tooth_numbers_overlap_neither_each_other_nor_the_crowns(example, side):
    """Boxes of all numbers are apart, off every crown, and inside the picture."""
    scene = occlusal_scene(_arch(example, side), side, REPLACED)
    places = scene.view.project(np.array([label.point for label in scene.labels]))
    assert len(places) == 14
    apart = abs(places[:, None] - places[None]) / LABEL_MM
    np.fill_diagonal(apart[..., 0], np.inf)
    assert (apart.max(axis=2) > 1.0).all()
    crowns = [scene.view.project(part.vertices) for part in scene.parts if part.role != "gum"]
    off = abs(places[:, None] - np.concatenate(crowns)[None]) / (0.5 * LABEL_MM)
    assert (off.max(axis=2) > 1.0).all()
    frame = np.array([scene.view.width_mm, scene.view.height_mm])
    assert (abs(places) + 0.5 * LABEL_MM < 0.5 * frame).all()
    strong = {int(label.text) for label in scene.labels if label.strong}
    assert strong == (set(REPLACED) if side == UPPER else set())


def test_marks_are_the_judged_contacts_beyond_the_start(example):
    """Not MI, nothing beyond edge-to-edge; working side filled, nonworking side hollow."""
    sweep = example.sweeps[2]
    groups = excursion_marks(sweep, UPPER)
    rows = (sweep.patches.pose > 0) & ~sweep.crossover[sweep.patches.pose]
    assert sum(len(group.points) for group in groups) == rows.sum()
    expected = {tuple(point) for point in sweep.patches.centroid[rows]}
    assert {tuple(point) for group in groups for point in group.points} == expected
    for group in groups:
        working = group.points[:, 1] > 0.0  # left lateral: the left side works
        assert (working == group.filled).all()
        assert group.label.endswith("working side") and ("non" in group.label) != group.filled


def test_marks_of_the_lower_move_back_with_the_jaw(example):
    """Carried forward again by the pose of its contact, a mark lies where the upper is touched."""
    plain = example.sweeps[0]
    turned = replace(plain, poses=plain.poses @ opening_rotation(np.linspace(0.0, 0.1, 61)))
    upper, lower = (excursion_marks(turned, side)[0].points for side in SIDES)
    poses = turned.patches.pose[
        (turned.patches.pose > 0) & (turned.travel_mm <= 3.4)[turned.patches.pose]
    ]
    again = np.stack(
        [move_points(turned.poses[p], x[None])[0] for p, x in zip(poses, lower, strict=True)]
    )
    np.testing.assert_allclose(again, upper, atol=1e-12)
    assert abs(lower - upper).max() > 1.0


def test_shapes_stand_at_every_millimetre_and_where_a_pair_begins(example):
    """Per pair: a shape at 1, 2 ... mm while it touches, and at a first touch beyond 0.5."""
    sweep = example.sweeps[1]
    working, nonworking = excursion_marks(sweep, UPPER)
    assert working.shaped.sum() == len((1.0, 2.0, 3.0))
    assert nonworking.shaped.sum() == 2  # 27 on 37 from 0.6 to 1.4 mm: at 0.6 and 1.0


def test_stops_are_drawn_once_each(example):
    """A cross for every stop; with MI at CR they lie at the same place on both arches."""
    (upper,), (lower,) = (stop_marks(example.stops, example.mi_pose, side) for side in SIDES)
    assert len(upper.points) == len(example.stops)
    np.testing.assert_array_equal(upper.points, lower.points)
    assert stop_marks((), example.mi_pose, UPPER) == ()


@pytest.mark.parametrize("side", SIDES)
def test_the_painters_drawing_puts_colour_where_the_teeth_are(example, side):
    """Teeth ivory, replacement teeth bluish, white between, the same bytes again."""
    scene = occlusal_scene(_arch(example, side), side, REPLACED)
    pixels = drawing2d.render(scene, 5.0)
    assert pixels.dtype == np.uint8
    assert pixels.shape == (
        round(5 * scene.view.height_mm),
        round(5 * scene.view.width_mm),
        3,
    )
    for tooth in _arch(example, side).teeth:
        red, _, blue = _pixel(scene.view, pixels, tooth.edge[0])
        assert (blue > red) == (tooth.code in REPLACED), tooth.code
        assert blue < 250
    np.testing.assert_array_equal(pixels[0], 255)
    np.testing.assert_array_equal(pixels, drawing2d.render(scene, 5.0))


def test_the_nearer_surface_hides_the_farther():
    """In the painter's drawing, whatever the order of the parts."""
    view = View("above", np.array([0.0, 0, -1]), np.array([1.0, 0, 0]), np.zeros(3), 8.0, 8.0)
    square = np.array([[-3.0, -3, 0], [3, -3, 0], [3, 3, 0], [-3, 3, 0]])
    faces = np.array([[0, 1, 2], [0, 2, 3]])
    near = Part("replacement tooth", square + np.array([0.0, 0.0, 1.0]), faces)
    far = Part("gum", square, faces)
    for parts in ((near, far), (far, near)):
        red, _, blue = drawing2d.render(Scene(view, parts), 4.0)[16, 16].astype(int)
        assert blue > red


@pytest.mark.parametrize("side", SIDES)
def test_both_writers_draw_the_same_outline(example, side):
    """Off-screen rendering and painter's drawing cover the same pixels but for their rims."""
    need_opengl()
    scene = occlusal_scene(_arch(example, side), side, REPLACED)
    solid = stage.render(scene, 10.0)
    flat = drawing2d.render(scene, 10.0)
    assert solid.shape == flat.shape
    covered = [(picture < 250).any(axis=2) for picture in (solid, flat)]
    both, either = covered[0] & covered[1], covered[0] | covered[1]
    assert both.sum() > 0.95 * either.sum()  # the painter's triangles have rims of 0.1 mm
    for tooth in _arch(example, side).teeth:
        red, _, blue = _pixel(scene.view, solid, tooth.edge[0])
        assert (blue > red) == (tooth.code in REPLACED), tooth.code


def test_the_overlay_fits_the_picture(example):
    """The vector annotation has the proportions of the picture and names every tooth."""
    marks = excursion_marks(example.sweeps[2], UPPER)
    scene = replace(occlusal_scene(example.upper, UPPER, REPLACED), marks=marks)
    svg = sheet_writer.svg(annotation(scene), "overlay")
    width, height = (float(n) for n in svg.split('viewBox="0 0 ')[1].split('"')[0].split())
    assert width / height == pytest.approx(scene.view.width_mm / scene.view.height_mm, rel=1e-3)
    assert svg == sheet_writer.svg(annotation(scene), "overlay")
    for text in ("11", "27", "10 mm"):
        assert f"<!-- {text} -->" in svg
    assert "fill: #007a5a; stroke: #007a5a" in svg  # working side: filled
    assert "fill: #ffffff; stroke: #007a5a" in svg  # nonworking side: hollow
    assert "fill: #1c1f24; stroke: #1c1f24" in svg  # behind both: a dark rim


def test_marks_lie_where_they_are_seen_and_lines_are_true(example):
    """A mark alone has the place of the scene; the scale line is 10 mm; twice as large is twice."""
    view = occlusal_view(example.upper, UPPER)
    (marks,) = stop_marks(example.stops, example.mi_pose, UPPER)
    dots, *_ = marks_sheet(view, (marks,)).items
    middle = [0.5 * view.width_mm, 0.5 * view.height_mm]
    np.testing.assert_allclose(dots.points - middle, view.project(marks.points), atol=1e-12)
    scene = occlusal_scene(example.upper, UPPER, REPLACED)
    for magnify in (1.0, 2.0):
        line = annotation(scene, magnify).items[-2]
        assert line.points[1, 0] - line.points[0, 0] == pytest.approx(10.0 * magnify)


def test_signs_of_a_legend_are_hollow_on_the_nonworking_side(example):
    """Same shape and colour as the marks, filled or hollow as they are."""
    for marks in excursion_marks(example.sweeps[2], UPPER):
        (sign,) = legend_sign(marks).items
        assert (sign.mark, sign.colour) == (marks.style.marker, marks.style.colour)
        assert (sign.mark_fill == sign.colour) == marks.filled


def test_the_mouth_shows_both_arches_apart_with_all_their_marks(example):
    """Upper on the left, lower on the right, not overlapping; marks and numbers of both."""
    scene = mouth_scene(example.upper, example.lower, REPLACED)
    upper = [p for p in scene.parts if p.role in ("upper tooth", "replacement tooth")]
    lower = [p for p in scene.parts if p.role == "lower tooth"]
    right_of_upper = max(scene.view.project(part.vertices)[:, 0].max() for part in upper)
    left_of_lower = min(scene.view.project(part.vertices)[:, 0].min() for part in lower)
    assert right_of_upper < left_of_lower
    assert len(scene.labels) == 28
    frame = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    shown = mouth_marks(example)
    for marks in shown:
        assert (abs(scene.view.project(marks.points)) < frame).all()
    assert len({marks.label for marks in shown}) == 6


def test_a_picture_becomes_a_data_address():
    """JPEG inside the page: no file beside it."""
    address = jpeg_address(np.full((8, 8, 3), 200, dtype=np.uint8))
    assert address.startswith("data:image/jpeg;base64,/9j/")


@pytest.fixture(scope="module")
def casts():
    """Return both arches with bodies, the upper with a denture base."""
    settings = DentitionSettings(triangles_per_arch=10_000, replacements=REPLACED)
    dentition = build(settings)
    return with_body(dentition.upper, REPLACED), with_body(dentition.lower)


@pytest.mark.parametrize("side", SIDES)
def test_an_occlusal_picture_holds_the_whole_cast(casts, side):
    """Teeth, gum, stone and denture base, every triangle once, all of it in the frame."""
    arch = casts[SIDES.index(side)]
    scene = occlusal_scene(arch, side, REPLACED)
    base = 0 if arch.body.denture_base is None else len(arch.body.denture_base.faces)
    faces = len(arch.mesh.faces) + len(arch.body.mesh.faces) + base
    assert sum(len(part.faces) for part in scene.parts) == faces
    frame = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    for part in scene.parts:
        assert (abs(scene.view.project(part.vertices)) <= frame).all()
        assert part.around_teeth == (part.role in ("gum", "stone", "denture base"))
    assert ("denture base" in {part.role for part in scene.parts}) == (side == UPPER)


@pytest.mark.parametrize("side", SIDES)
def test_numbers_on_a_cast_stay_off_the_crowns_and_in_the_frame(casts, side):
    """They lie on gum and stone beside the teeth."""
    scene = occlusal_scene(casts[SIDES.index(side)], side, REPLACED)
    places = scene.view.project(np.array([label.point for label in scene.labels]))
    crowns = [scene.view.project(part.vertices) for part in scene.parts if not part.around_teeth]
    off = abs(places[:, None] - np.concatenate(crowns)[None]) / (0.5 * LABEL_MM)
    assert (off.max(axis=2) > 1.0).all()
    frame = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    assert (abs(places) + 0.5 * LABEL_MM < frame).all()


def test_simplified_drawings_leave_gum_and_base_out(casts):
    """The painter draws the same with and without them."""
    scene = occlusal_scene(casts[0], UPPER, REPLACED)
    teeth = replace(scene, parts=tuple(part for part in scene.parts if not part.around_teeth))
    np.testing.assert_array_equal(drawing2d.render(scene, 3.0), drawing2d.render(teeth, 3.0))


def test_no_gum_hides_a_chewing_surface(casts):
    """Drawn in three dimensions, every edge and cusp tip has the colour of its tooth."""
    need_opengl()
    for side, arch in zip(SIDES, casts, strict=True):
        scene = occlusal_scene(arch, side, REPLACED)
        bare = replace(scene, parts=tuple(p for p in scene.parts if not p.around_teeth))
        pictures = [stage.render(shown, 6.0) for shown in (scene, bare)]
        for tooth in arch.teeth:
            for point in (tooth.edge[len(tooth.edge) // 2], *tooth.cusp_tips.values()):
                seen = [_pixel(scene.view, picture, point) for picture in pictures]
                assert abs(seen[0] - seen[1]).max() <= 12, tooth.code


def test_casts_in_the_mouth_are_apart(casts):
    """Upper on the left, lower on the right; all of both in the frame."""
    scene = mouth_scene(*casts, REPLACED)
    frame = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    across = [scene.view.project(part.vertices) for part in scene.parts]
    assert all((abs(seen) <= frame).all() for seen in across)
    left = max(seen[:, 0].max() for seen in across if seen[:, 0].mean() < 0.0)
    right = min(seen[:, 0].min() for seen in across if seen[:, 0].mean() > 0.0)
    assert left < 0.0 < right


def test_open_casts_do_not_meet_and_show_the_patients_right_in_front(casts):
    """Opened about the hinge; the right first molar is nearer to the viewer than the left."""
    scene = open_casts_scene(*casts, np.eye(4), REPLACED)
    frame = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    assert all((abs(scene.view.project(part.vertices)) <= frame).all() for part in scene.parts)
    centres = np.array([casts[0].tooth(code).centre for code in (16, 26)])
    near, far = scene.view.depth(centres)
    assert near < far
    upper = next(part for part in scene.parts if part.role == "upper tooth")
    lower = next(part for part in scene.parts if part.role == "lower tooth")
    front = [part.vertices[part.vertices[:, 0] > 75.0, 2] for part in (upper, lower)]
    assert front[0].min() - front[1].max() > 8.0


@pytest.mark.parametrize("side", SIDES)
def test_one_cast_stands_on_its_base(casts, side):
    """Chewing surfaces up, the patient's right in front, all in the frame."""
    scene = one_cast_scene(casts[SIDES.index(side)], side, REPLACED)
    frame = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    assert all((abs(scene.view.project(part.vertices)) <= frame).all() for part in scene.parts)
    teeth = np.concatenate([part.vertices for part in scene.parts if not part.around_teeth])
    stone = np.concatenate([part.vertices for part in scene.parts if part.role == "stone"])
    assert teeth[:, 2].min() > stone[:, 2].mean()
    right = teeth[:, 1] < -10.0 if side == LOWER else teeth[:, 1] > 10.0
    assert scene.view.depth(teeth[right]).mean() < scene.view.depth(teeth[~right]).mean()
