"""Bite records as files, cases begun with one, and points that a wrong bite leaves in the air."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_file import read_case
from kinematics.checks import InputError
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import inverse, move_points
from kinematics.scans.bites import FARTHEST_MM as APART_MM
from kinematics.scans.bites import apart_mm
from kinematics.scans.hinge_pose import hinge_from_scan
from kinematics.scans.lower_landmarks import FARTHEST_MM, LowerLandmarks, check_landmarks
from kinematics.scans.picked_points import PickedPoint
from kinematics.scans.point_files import points_text
from kinematics.scans.point_places import check_on_casts
from kinematics.scans.scanned_casts import scanned_casts
from kinematics.scans.settings import ScanMounting, ScanSettings
from kinematics.scans.transform_files import read_transform
from scenes.new_case import begun, read_casts, with_labels_beside
from scenes.new_command import new
from tests.own_casts import make_own_casts
from tests.scanner_like import any_place

GOOD = "1 0 0 0.3\n0 1 0 0\n0 0 1 -0.1\n0 0 0 1\n"


@pytest.fixture(scope="module")
def casts(tmp_path_factory):
    """Return scans that lie as they bite, with landmarks on them."""
    return make_own_casts(tmp_path_factory.mktemp("own"))


@pytest.fixture(scope="module")
def parted(tmp_path_factory):
    """Return the same with the lower scan elsewhere, and the record that brings it back."""
    folder = tmp_path_factory.mktemp("parted")
    away = any_place(7)
    return make_own_casts(folder, lower_moved=away), inverse(away)


def silent(_step):
    """Tell nobody."""


def written(path, pose):
    """Write a transform and return where."""
    path.write_text("\n".join(" ".join(map(repr, row)) for row in np.asarray(pose).tolist()))
    return path


@pytest.mark.parametrize(
    "text",
    [
        GOOD,
        GOOD.replace(" ", ", "),
        GOOD.replace(" ", ";\t"),
        "\ufeff# bite of an invented patient\n\n" + GOOD.replace("0.3\n", "0.3  # forward\n"),
        GOOD.replace("0.3", "+3.e-1").replace("\n", "\r\n"),
    ],
)
def test_a_transform_is_read_however_it_is_parted(tmp_path, text):
    """Spaces, commas, semicolons; remarks and empty lines are passed over."""
    path = tmp_path / "bite.txt"
    path.write_bytes(text.encode())
    expected = np.eye(4)
    expected[:3, 3] = (0.3, 0.0, -0.1)
    np.testing.assert_array_equal(read_transform(path), expected)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "has 0 lines of numbers; wanted four lines"),
        (GOOD.replace("0 0 0 1\n", ""), "has 3 lines of numbers"),
        (GOOD + "1 2 3 4\n", "has 5 lines"),
        (GOOD.replace("0.3", "0.3 1"), "line 1: has 5 numbers"),
        (GOOD.replace("-0.1", ""), "line 3: has 3 numbers"),
        (GOOD.replace("0.3", "nan"), "line 1: found 'nan'"),
        (GOOD.replace("0.3", "0,3x"), "line 1: found '3x'"),
        (GOOD.replace("0.3", "1e999"), "finite"),
        (GOOD.replace("1 0 0 0.3", "2 0 0 0.3"), "not a rigid motion"),
        (GOOD.replace("0 0 1 ", "0 0 -1 "), "must not scale or mirror"),
        (GOOD.replace("0 0 0 1", "0 0 1 1"), "last row"),
        ("[[1, 0, 0, 0]]", r"line 1: found '\[\[1'"),
        ("x" * 10_001, "another file meant"),
    ],
)
def test_files_that_are_no_transform(tmp_path, text, says):
    """Every message names the file, and where there is one the line."""
    path = tmp_path / "bite.txt"
    path.write_text(text)
    with pytest.raises(InputError, match=f"(?s)bite.txt.*{says}"):
        read_transform(path)


def test_bytes_that_are_no_text(tmp_path):
    """A picture, say; and a file that is not there."""
    path = tmp_path / "bite.txt"
    path.write_bytes(b"1 0 0 \xff")
    with pytest.raises(InputError, match="byte 7 is not UTF-8 text"):
        read_transform(path)
    with pytest.raises(InputError, match=r"none\.txt"):
        read_transform(tmp_path / "none.txt")


def test_a_case_begun_with_a_bite_record_is_that_of_casts_scanned_in_the_bite(
    casts, parted, tmp_path
):
    """The record stands in the case, and the hinge axis lies where it does without need of one."""
    apart, back = parted
    begun = new(
        tmp_path / "apart", apart.files, silent, bite_file=written(tmp_path / "b.txt", back)
    )
    new(tmp_path / "biting", casts.files, silent)
    assert begun.ready
    assert any("by the bite record" in line for line in begun.lines)
    one, other = (read_case(tmp_path / name / "case.toml").scans for name in ("apart", "biting"))
    np.testing.assert_allclose(one.scan_from_lower, back, atol=1e-12)
    assert other.scan_from_lower is None
    hinges = [hinge_from_scan(scans.mounting, "occlusal") for scans in (one, other)]
    np.testing.assert_allclose(hinges[0], hinges[1], atol=5e-3)  # written with three digits


def test_casts_that_lie_apart_are_told_at_once(parted, tmp_path):
    """The case is not ready, and says what is missing, in its file too; nothing is proposed."""
    apart, back = parted
    assert read_casts(apart.files, silent).proposal is None
    begun = new(tmp_path / "apart", apart.files, silent)
    assert not begun.ready
    assert any("the casts do not bite" in line and "--bite FILE" in line for line in begun.lines)
    meshes = read_casts(apart.files, silent, back).meshes
    assert apart_mm(meshes["upper"], meshes["lower"]) < 0.5
    text = " ".join((tmp_path / "apart" / "case.toml").read_text().replace("\n# ", " ").split())
    assert "CHECK, before the case can be run: As they lie, the casts do not bite" in text
    assert "Landmarks are looked for when the bite is known." in text


@pytest.mark.parametrize("seed", range(20))
def test_how_far_apart_casts_lie(seed):
    """Two clouds of points, one above the other by a known distance, whatever their number."""
    rng = np.random.default_rng(seed)
    flat = np.column_stack([rng.uniform(0.0, 40.0, (2000, 2)), np.zeros(2000)])
    faces = np.arange(1998).reshape(-1, 3)
    gap = rng.uniform(0.0, 2.0 * APART_MM)
    found = apart_mm(mesh_of(flat + np.array([0.0, 0.0, gap]), faces), mesh_of(flat, faces))
    assert found == pytest.approx(gap, abs=1e-9)


def test_planted_landmarks_that_are_not_on_the_lower_are_found(casts):
    """Of sixty landmarks moved off, as by a bite given afterwards, each is named with its way."""
    rng = np.random.default_rng(3)
    meshes = read_casts(casts.files, silent).meshes
    limits = {"molar_right": 3.0, "molar_left": 3.0, "incisal_point": 10.0}
    middle = meshes["lower"].vertices.mean(axis=0)
    for trial in range(60):
        name = tuple(limits)[trial % 3]
        place = np.array(casts.points[name])
        check_on_casts((PickedPoint(name, tuple(place)),), meshes, np.eye(4), {})
        away = (place - middle) / np.linalg.norm(place - middle)
        lifted = place + away * (limits[name] + rng.uniform(6.0, 30.0))
        with pytest.raises(InputError, match=rf"{name}: lies \d+\.\d mm .*accepted are \d+ mm"):
            check_on_casts((PickedPoint(name, tuple(lifted.tolist())),), meshes, np.eye(4), {})


@pytest.mark.parametrize("seed", range(50))
def test_landmarks_away_from_their_teeth_are_refused(seed):
    """Along the gum they would still lie on the cast; without their teeth nothing can be said."""
    rng = np.random.default_rng(seed)
    corners, right, left = rng.normal(0.0, 50.0, (3, 3))
    way = rng.normal(0.0, 1.0, 3)
    way /= np.linalg.norm(way)
    found = LowerLandmarks(corners, right, left, (46, 37))
    none = LowerLandmarks(None, None, None, ())
    for name, at, of in (
        ("incisal_point", corners, "the mesial corners of 31 and 41"),
        ("lower_incisal_point", corners, "the mesial corners of 31 and 41"),
        ("molar_right", right, "the distobuccal cusp tip of 46"),
        ("molar_left", left, "the distobuccal cusp tip of 37"),
    ):
        off_mm = rng.uniform(0.1, 40.0) + FARTHEST_MM[name]
        check_landmarks({name: at + 0.99 * FARTHEST_MM[name] * way}, found)
        check_landmarks({name: at + off_mm * way}, none)
        with pytest.raises(InputError, match=rf" {name}: lies {off_mm:.1f} mm from {of}"):
            check_landmarks({name: at + off_mm * way}, found)


@pytest.mark.parametrize("name", ["molar_right", "molar_left"])
def test_a_cusp_of_the_next_tooth_is_refused_when_a_case_is_begun(casts, name):
    """It would tilt the casts without a word; the same in `check`, see below."""
    places = {key: casts.points[key] for key in ("incisal_point", "molar_right", "molar_left")}
    read = read_casts(with_labels_beside(casts.files), silent)
    side = 46 if name == "molar_right" else 36
    proposed = getattr(read.proposal, name)
    first = read.proposal.incisal_point
    wrong = proposed + 11.0 * (first - proposed) / np.linalg.norm(first - proposed)
    points = [PickedPoint(k, tuple(map(float, p))) for k, p in {**places, name: wrong}.items()]
    with pytest.raises(InputError, match=rf"{name}: lies 1\d\.\d mm from .* of {side + 1}"):
        begun(read, tuple(points))


@pytest.mark.parametrize(("tooth", "says"), [(36, ""), (37, "mm from 37"), (38, "has no 38")])
def test_a_point_of_a_tooth_lies_on_that_tooth(casts, tooth, says):
    """Where the teeth are told, on the next one is not enough, nor is one that is not there."""
    read = read_casts(with_labels_beside(casts.files), silent)
    seed = PickedPoint("tooth_seed", casts.points["seed_36"], tooth)
    if not says:
        check_on_casts((seed,), read.meshes, np.eye(4), read.codes)
        return
    with pytest.raises(InputError, match=rf"tooth_seed of {tooth}: .*{says}"):
        check_on_casts((seed,), read.meshes, np.eye(4), read.codes)


def test_a_bite_record_of_other_scans_is_told_as_that(casts, parted, tmp_path):
    """In `new` and in `check`: nobody is asked for a record that he gave."""
    _, back = parted
    bite = written(tmp_path / "b.txt", back)
    told = new(tmp_path / "case", casts.files, silent, bite_file=bite)
    lines = [line for line in told.lines if line.startswith("bite:")]
    assert len(lines) == 1
    assert "with the bite record given the casts do not bite" in lines[0].lower()
    scans = settings_of(casts)
    wrong = replace(scans, scan_from_lower=tuple(map(tuple, back.tolist())))
    with pytest.raises(InputError, match="with the bite record given the casts do not bite"):
        scanned_casts(wrong, "occlusal", silent)


def settings_of(casts):
    """Return settings of scans that lie as they bite."""
    names = ("incisal_point", "molar_right", "molar_left")
    return ScanSettings(
        upper=casts.files.upper,
        lower=casts.files.lower,
        upper_labels=str(casts.folder / "upper.json"),
        mounting=ScanMounting(**{name: casts.points[name] for name in names}),
    )


def test_a_case_with_such_a_point_is_refused(casts):
    """By its key, where the teeth are known."""
    given = settings_of(casts)
    far = replace(given, lower_incisal_point=casts.points["molar_left"])
    with pytest.raises(InputError, match=r" lower_incisal_point: lies \d\d\.\d mm from"):
        scanned_casts(far, "occlusal", silent)
    assert scanned_casts(given, "occlusal", silent).record.mounting == "mean values"


def test_points_picked_before_the_bite_was_known_are_refused(parted, tmp_path):
    """Landmarks in the place where the lower was scanned are not on the lower at the bite."""
    apart, back = parted
    bite = written(tmp_path / "b.txt", back)
    names = ("incisal_point", "molar_right", "molar_left")
    at_bite = np.array([apart.points[name] for name in names])
    for places, fits in ((at_bite, True), (move_points(inverse(back), at_bite), False)):
        picked = [PickedPoint(n, tuple(p)) for n, p in zip(names, places.tolist(), strict=True)]
        (tmp_path / "picked.csv").write_text(points_text(tuple(picked)))
        folder = tmp_path / f"case{fits}"
        if fits:
            assert new(folder, apart.files, silent, tmp_path / "picked.csv", bite).ready
            continue
        with pytest.raises(InputError, match=r"(?s)with a bite record.*molar_left: lies"):
            new(folder, apart.files, silent, tmp_path / "picked.csv", bite)
        assert not folder.exists()
