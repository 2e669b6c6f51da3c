"""Cases whose scans say nothing of teeth, and are parted among them by picked seeds."""

import json
import re

import numpy as np
import pytest

from kinematics.case_file import parse_case
from kinematics.checks import InputError
from kinematics.geometry.poses import inverse, move_points, pose_of, rotation_about
from kinematics.scans.cast_seeds import ToothDoubt, labels_of_scan, seeds_by_cast
from kinematics.scans.labels import face_labels
from kinematics.scans.picked_points import PickedPoint, points_of
from kinematics.scans.settings import SIDES, ScanFiles
from scenes.command_line import main
from scenes.new_case import read_casts
from scenes.seed_words import doubt_words, teeth_told
from tests.scanned_teeth import teeth_in_mi
from tests.scanner_like import any_place, moved, scanned, seeds_on, write_obj

AWAY = pose_of(rotation_about(np.array([0.0, 0.6, 0.8]), 0.7), np.array([40.0, -15.0, 60.0]))


def quiet(_):
    """Say nothing."""


class Bare:
    """Two scans without labels, the lower away from the bite, and seeds in MI."""

    def __init__(self, folder):
        _, upper, lower = teeth_in_mi(20_000, "natural_dentition")
        place = any_place(8)
        self.folder, self.truth = folder, {}
        for side, arch, towards, at in (
            ("upper", upper, -1.0, place),
            ("lower", lower, 1.0, AWAY @ place),
        ):
            scan = moved(scanned(arch, towards, 3, 4.0, 4.0), at)
            write_obj(folder / f"{side}.obj", scan)
            (folder / f"{side}.json").unlink()
            self.truth[side] = scan
        places = {**seeds_on(upper), **seeds_on(lower)}
        self.points = tuple(
            PickedPoint("tooth_seed", tuple(move_points(place, at[None])[0].tolist()), code)
            for code, at in places.items()
        )
        self.files = ScanFiles(upper=str(folder / "upper.obj"), lower=str(folder / "lower.obj"))
        self.bite = inverse(AWAY)
        self.hinge = inverse(place)

    def case_file(self, points, extra=""):
        """Write a case with some points."""
        seeds = ", ".join(f"{p.tooth} = {list(p.place)}" for p in points)
        text = (
            'title = "Scans of invented teeth, without labels"\n[scans]\nupper = "upper.obj"\n'
            f'lower = "lower.obj"\nscan_from_lower = {json.dumps(self.bite.tolist())}\n'
            f"tooth_seeds = {{ {seeds} }}\n{extra}"
            f"[scans.mounting]\nhinge_from_scan = {json.dumps(self.hinge.tolist())}\n"
        )
        (self.folder / "case.toml").write_text(text)
        return self.folder / "case.toml"


@pytest.fixture(scope="module")
def bare(tmp_path_factory):
    """Return scans that say nothing of teeth."""
    return Bare(tmp_path_factory.mktemp("bare"))


@pytest.fixture(scope="module")
def told(bare):
    """Return what seeds make of them."""
    return read_casts(bare.files, quiet, bare.bite, bare.points)


@pytest.mark.parametrize("side", SIDES)
def test_every_tooth_is_told(bare, told, side):
    """Necks under the gum among it; also on the cast that was scanned elsewhere."""
    cast, scan = told.casts[side].cleaned, bare.truth[side]
    truth = face_labels(scan.labels, scan.faces)[cast.face_of]
    for code in np.unique(truth[truth > 0]):
        own = truth == code
        assert np.mean(told.codes[side][own] == code) >= 0.97, code


def test_it_is_said_where_the_teeth_come_from(told):
    """How many, what colours mean, and what is doubtful."""
    assert told.labels["upper"].source == "seeds picked on 14 teeth"
    words = teeth_told(told)
    assert "By seeds: 14 teeth of the upper cast and 14 teeth of the lower cast." in words
    assert "brown is doubtful" in words


def test_landmarks_are_found_on_them(told):
    """Mounting by mean values needs no more than seeds."""
    assert told.proposal is not None
    assert all(point is not None for point in told.proposal.mean_value_points)


def test_teeth_are_drawn_and_kept(bare, told, tmp_path, capsys):
    """Labels written for the file tell the same teeth; pictures are there."""
    case = bare.case_file(bare.points)
    out = tmp_path / "teeth"
    assert main(["teeth", str(case), "--out", str(out)]) == 0
    assert "By seeds: 14 teeth" in capsys.readouterr().out
    names = {path.name for path in out.iterdir()}
    assert names == {f"{s}_{what}" for s in SIDES for what in ("teeth.png", "labels.json")}
    kept = bare.files.renamed({f"{s}_labels": str(out / f"{s}_labels.json") for s in SIDES})
    again = read_casts(kept, quiet, bare.bite)
    for side in SIDES:
        same = again.codes[side] == told.codes[side]
        assert np.mean(same) > 0.995  # a triangle with three tooth numbers is of none
        assert not again.is_seeded(side)


def test_labels_tell_before_seeds(bare, told, tmp_path, capsys):
    """A case whose lists say it all needs no telling."""
    labels = {"labels": bare.truth["upper"].labels.tolist()}
    (bare.folder / "upper_list.json").write_text(json.dumps(labels))
    (bare.folder / "lower_list.json").write_text(
        json.dumps({"labels": bare.truth["lower"].labels.tolist()})
    )
    lists = 'upper_labels = "upper_list.json"\nlower_labels = "lower_list.json"\n'
    case = bare.case_file(bare.points, lists)
    assert main(["teeth", str(case), "--out", str(tmp_path / "none")]) == 2
    assert "told by labels, not by seeds" in capsys.readouterr().err
    assert not (tmp_path / "none").exists()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda points: points[:3] + points[14:], "3 teeth of this cast have one; at least 4"),
        (
            lambda points: (PickedPoint("tooth_seed", (900.0, 0.0, 0.0), 17), *points[1:]),
            "tooth_seed of 17: lies .* mm from the surface of the upper cast",
        ),
        (lambda points: points[14:], "upper.obj; give for each scan"),
    ],
)
def test_seeds_that_cannot_be_used_are_refused(bare, change, says):
    """Too few, off the cast; a cast without any is untold."""
    points = change(bare.points)
    try:
        read = read_casts(bare.files, quiet, bare.bite, points)
    except InputError as error:
        told = str(error)
    else:
        told = read.no_labels
    assert re.search(says, told), told


def test_seeds_are_one_point_or_several():
    """In a case file; all of them come back."""
    text = (
        '[scans]\nupper = "u.obj"\nlower = "l.obj"\n'
        "tooth_seeds = { 16 = [1, 2, 3], 36 = [[1, 2, 3], [4, 5, 6]] }\n"
        "gum_seeds = { 16 = [[7, 8, 9]] }\n[scans.mounting]\n"
        "hinge_from_scan = [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1]]\n"
    )
    points = points_of(parse_case(text, "case.toml").scans)
    assert [(p.point, p.tooth, p.place[0]) for p in points] == [
        ("tooth_seed", 16, 1.0), ("tooth_seed", 36, 1.0), ("tooth_seed", 36, 4.0),
        ("gum_seed", 16, 7.0),
    ]  # fmt: skip


def test_seeds_go_to_their_cast_in_its_own_place():
    """Those of the lower back through the bite record; seeds of gum with the tooth beside."""
    points = (
        PickedPoint("tooth_seed", (1.0, 2.0, 3.0), 16),
        PickedPoint("tooth_seed", (4.0, 5.0, 6.0), 36),
        PickedPoint("gum_seed", (7.0, 8.0, 9.0), 36),
        PickedPoint("rest_seat", (0.0, 0.0, 0.0), 16),
    )
    by_cast = seeds_by_cast(points, AWAY)
    np.testing.assert_array_equal(by_cast["upper"].teeth[16], [[1.0, 2.0, 3.0]])
    assert by_cast["upper"].gum.shape == (0, 3)
    lower = by_cast["lower"]
    np.testing.assert_allclose(move_points(AWAY, lower.teeth[36]), [[4.0, 5.0, 6.0]], atol=1e-9)
    np.testing.assert_allclose(move_points(AWAY, lower.gum), [[7.0, 8.0, 9.0]], atol=1e-9)


def test_vertices_at_one_place_get_one_label():
    """As files without shared corners have them; what was removed is of no tooth."""
    places = np.array([[0.0, 0, 0], [1.0, 0, 0], [0.0, 0, 0], [5.0, 0, 0]])
    labels = labels_of_scan(places, np.array([0, 1]), np.array([16, 17]))
    assert labels.tolist() == [16, 17, 16, 0]


def test_doubts_are_said_with_their_figures():
    """Share, width and what is usual."""
    assert doubt_words(ToothDoubt(26, 0.184, 10.0, 10.0)) == "26 (18 % doubtful)"
    told = doubt_words(ToothDoubt(26, 0.02, 13.0, 10.0))
    assert told == "26 (13.00 mm wide, wider than usual, 10.00 mm; 2 % doubtful)"


@pytest.mark.parametrize("first", range(26))
def test_planted_exchanged_numbers_are_refused(bare, first):
    """Of any two neighbours; both are named, and the cast."""
    points = list(bare.points)
    at = first + (first >= 13)  # 17 to 27, then 47 to 37
    one, other = points[at], points[at + 1]
    points[at] = PickedPoint(one.point, other.place, one.tooth)
    points[at + 1] = PickedPoint(other.point, one.place, other.tooth)
    side = "upper" if first < 13 else "lower"
    says = rf"{side}\.obj, the {side} cast: tooth_seeds: .*were the numbers exchanged"
    with pytest.raises(InputError, match=says) as refused:
        read_casts(bare.files, quiet, bare.bite, tuple(points))
    assert {str(one.tooth), str(other.tooth)} & set(re.findall(r"\d\d", str(refused.value)))
