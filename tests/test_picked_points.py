"""Points picked on casts: in settings, on their surfaces, in a new case and in the report."""

import numpy as np
import pytest

from kinematics.case_file import case_toml, parse_case, read_case
from kinematics.checks import InputError
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.nearest_points import nearest_on
from kinematics.mounting import teeth_for
from kinematics.scans.picked_points import PickedPoint, mounting_of, points_of
from kinematics.scans.point_files import points_text, read_points
from kinematics.scans.point_places import check_on_casts
from scenes.new_case import read_casts
from scenes.new_command import new
from scenes.scan_words import scan_words
from tests.own_casts import make_own_casts

SCANS = '[scans]\nupper = "a.stl"\nlower = "b.stl"\n'
AXIS = (
    "[scans.mounting]\naxis_right = [0, -50, 0]\naxis_left = [0, 50, 0]\n"
    "reference_point = [90, 0, 0]\n"
)


@pytest.fixture(scope="module")
def casts(tmp_path_factory):
    """Return scans with landmarks that lie on them."""
    return make_own_casts(tmp_path_factory.mktemp("own"))


def mean_values(casts):
    """Return the points of mean-value mounting."""
    keys = ("incisal_point", "molar_right", "molar_left")
    return tuple(PickedPoint(key, casts.points[key]) for key in keys)


def silent(_step):
    """Tell nobody."""


def test_points_in_a_case_file_are_kept():
    """Seeds and seats by tooth, written and read again; told as points."""
    text = SCANS + "tooth_seeds = { 36 = [1, 2, 3] }\n"
    text += "rest_seats = { 16 = [[1, 2, 3], [4, 5, 6]] }\n"
    case = parse_case(text + AXIS, "case.toml")
    assert parse_case(case_toml(case), "case.toml") == case
    assert [p.called for p in points_of(case.scans)] == [
        "axis_right", "axis_left", "reference_point",
        "tooth_seed of 36", "rest_seat of 16", "rest_seat of 16",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("tooth_seeds = { 19 = [1, 2, 3] }", "scans.tooth_seeds.*19: not a tooth number of ISO"),
        ("tooth_seeds = { 55 = [1, 2, 3] }", "55: not a tooth number"),
        ("tooth_seeds = { 36 = [1, 2] }", "scans.tooth_seeds.36"),
        ("tooth_seeds = { 36 = [1, 2, 1e9] }", "must be a number, -10000 to 10000|-10000"),
        ("tooth_seeds = { x = [1, 2, 3] }", "this key must be a whole number"),
        ("rest_seats = { 16 = [1, 2, 3] }", "scans.rest_seats.16"),
        ("rest_seats = { 16 = [] }", "scans.rest_seats.16"),
        ("rest_seats = { 16 = [[nan, 2, 3]] }", "scans.rest_seats.16.*finite"),
    ],
)
def test_settings_that_are_no_points(line, says):
    """The place in the case file is named."""
    with pytest.raises(InputError, match=f"(?s){says}"):
        parse_case(SCANS + line + "\n" + AXIS, "case.toml")


def test_points_of_several_ways_of_mounting_are_refused(casts):
    """As in settings; incomplete ones too; none of them makes none."""
    axis = PickedPoint("axis_right", (0.0, 0.0, 0.0))
    with pytest.raises(InputError, match="belong to different ways of mounting"):
        mounting_of((*mean_values(casts), axis), {})
    with pytest.raises(InputError, match="missing: axis_left, reference_point"):
        mounting_of((axis,), {})
    assert mounting_of((PickedPoint("tooth_seed", (0.0, 0.0, 0.0), 36),), {}) is None


def test_the_nearest_place_is_on_the_surface():
    """Beside a brute search over many points of it, and for any order of its triangles."""
    rng = np.random.default_rng(3)
    vertices = rng.uniform(0.0, 10.0, (60, 3))
    faces = np.array([rng.choice(60, 3, replace=False) for _ in range(80)])
    points = rng.uniform(-5.0, 15.0, (50, 3))
    places, apart = nearest_on(mesh_of(vertices, faces), points)
    share = rng.dirichlet([1.0, 1.0, 1.0], 3000)
    on = np.einsum("sk,fkx->fsx", share, vertices[faces]).reshape(-1, 3)
    brute = np.sqrt(((points[:, None] - on[None]) ** 2).sum(axis=2).min(axis=1))
    assert (apart <= brute + 1e-12).all()
    assert np.abs(apart - brute).max() < 0.3
    assert np.allclose(np.linalg.norm(points - places, axis=1), apart)
    other, _ = nearest_on(mesh_of(vertices, faces[rng.permutation(80)][:, [1, 2, 0]]), points)
    assert np.abs(other - places).max() < 1e-9


def test_a_new_case_is_mounted_by_the_points_given(casts, tmp_path):
    """They choose the way, are told in words and in the report, and stand in the case."""
    seed = PickedPoint("tooth_seed", casts.points["seed_36"], 36)
    seat = PickedPoint("rest_seat", casts.points["seat_16"], 16)
    points = (*mean_values(casts), seed, seat)
    (tmp_path / "picked.csv").write_text(points_text(points))
    begun = new(tmp_path / "made", casts.files, silent, tmp_path / "picked.csv")
    assert begun.ready
    assert "mounting: by mean values, from the points given" in begun.lines
    assert read_points(tmp_path / "made" / "points.csv") == points
    case = read_case(tmp_path / "made" / "case.toml")
    assert points_of(case.scans) == points
    record = teeth_for(case, silent).scans
    rows = scan_words(record, "occlusal plane").points.rows
    assert [row[:2] for row in rows] == [
        ("Incisal point", ""), ("Molar, right", ""), ("Molar, left", ""),
        ("Tooth seed", "36"), ("Rest seat", "16"),
    ]  # fmt: skip


def test_planted_places_off_the_casts_are_found(casts, tmp_path):
    """Of fifty seeds and seats lifted off their cast by 1.5 mm or more each is named with it."""
    rng = np.random.default_rng(11)
    meshes = {s: cast.cleaned.mesh for s, cast in read_casts(casts.files, silent).casts.items()}
    for trial in range(50):
        name, place, code = (
            ("tooth_seed", casts.points["seed_36"], 36),
            ("rest_seat", casts.points["seat_16"], 16),
        )[trial % 2]
        # away from the middle of the casts, where no other part of the arch is met
        away = np.array(place) - np.mean(list(casts.points.values()), axis=0)
        lifted = np.array(place) + away / np.linalg.norm(away) * rng.uniform(6.0, 30.0)
        path = tmp_path / "picked.csv"
        path.write_text(points_text((PickedPoint(name, tuple(lifted.tolist()), code),)))
        with pytest.raises(InputError, match=rf"{name} of {code}: lies \d+\.\d mm from the"):
            check_on_casts(read_points(path), meshes, np.eye(4), {})


@pytest.mark.parametrize(("lift_mm", "fits"), [(0.6, True), (1.6, False)])
def test_how_far_off_is_accepted(casts, lift_mm, fits):
    """Up to 1 mm from the surface; the distance is that to the cast of its own tooth."""
    flat = mesh_of([[0, 0, 0], [100, 0, 0], [0, 100, 0]], [[0, 1, 2]])
    far = mesh_of([[0, 0, 50], [100, 0, 50], [0, 100, 50]], [[0, 1, 2]])
    seed = PickedPoint("tooth_seed", (20.0, 20.0, lift_mm), 36)
    if fits:
        check_on_casts((seed,), {"upper": far, "lower": flat}, np.eye(4), {})
        return
    with pytest.raises(InputError, match=r"tooth_seed of 36: lies 1\.6 mm from the surface of the"):
        check_on_casts((seed,), {"upper": far, "lower": flat}, np.eye(4), {})
