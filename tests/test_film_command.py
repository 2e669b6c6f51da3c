"""The command `film`: casts in motion as files that others play."""

import multiprocessing
import re
import sys
from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_filmed import filmed
from kinematics.checks import InputError
from kinematics.contact.closure import close
from kinematics.contact.mounted import GUIDED_BY_TABLE
from kinematics.contact.workers import Workers
from kinematics.geometry.poses import move_points
from kinematics.guidance.excursions import protrusion, retrusion, right_lateral
from kinematics.guidance.settings import IncisalTable
from kinematics.mounting import mounted_casts
from scenes import command_line, film_drawing
from scenes.drawing_processes import InLine, drawing_processes
from scenes.film_command import FilmOptions, film
from scenes.film_moments import moments
from scenes.movement_styles import RIGHT_LATERAL
from scenes.moving_casts import moves, moving_casts
from tests.machine import need_opengl
from tests.played_file import Played, judged
from tests.shipped_cases import coarse

CASE = coarse("natural_dentition")
OPTIONS = FilmOptions(("protrusion", "right-lateral"), 1.0, 2.0)


def silent(_step):
    """Tell nobody."""


@pytest.fixture(scope="module")
def casts():
    """Return the casts of the case, mounted."""
    return mounted_casts(CASE)


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Return a file with two movements, and what was told of it."""
    path = tmp_path_factory.mktemp("film") / "casts.glb"
    return path, film(CASE, path, OPTIONS, silent, 1, InLine())


def test_poses_read_back_are_those_of_the_jaw(made, casts):
    """By another reader, to a hundred-thousandth of a millimetre, out and back."""
    path, _ = made
    played = Played(path)
    assert played.names == ["Protrusion", "Right lateral excursion"]
    steps = np.arange(0.0, 1.05, 0.1)
    found = filmed(CASE, casts, right_lateral(), steps, Workers())
    poses = np.concatenate([found.poses, found.poses[-2::-1]])
    scene = moving_casts(casts, CASE.replacement_teeth)
    times = np.arange(21) / 20.0
    for move, meshes in zip(moves(casts, poses), played.at(1, times), strict=True):
        for part, vertices in zip(scene.parts, meshes, strict=True):
            wanted = move_points(move, part.vertices) if part.cast == "lower" else part.vertices
            assert np.abs(vertices - wanted).max() <= 1e-5


def test_the_validator_finds_no_fault(made):
    """Of a real case, painted teeth and all."""
    report = judged(made[0])
    assert report["issues"]["messages"] == []
    assert report["info"]["animationCount"] == 2


def test_what_was_written_is_told(made):
    """Which movements, how far, how long, what colours mean; with the caution."""
    told = made[1]
    assert "Right lateral excursion: 1.00 mm of travel out and back in 1.0 s, 21 poses" in told
    assert "dark is near, their own colour at 3.00 mm and beyond" in told
    assert "not a medical device" in told


def test_the_same_bytes_for_any_number_of_threads(made, tmp_path):
    """Of the same case."""
    film(CASE, tmp_path / "again.glb", OPTIONS, silent, 3, InLine())
    assert (tmp_path / "again.glb").read_bytes() == made[0].read_bytes()


def test_travels_filmed_are_those_asked_for(casts):
    """To a nanometre; closed there as `close` closes; gaps and pairs as measured."""
    steps = np.arange(0.0, 3.01, 0.25)
    found = filmed(CASE, casts, right_lateral(), steps, Workers())
    assert found.travel_mm == pytest.approx(steps, abs=1e-6)
    assert len(found.poses) == len(found.touching) == len(found.near.upper_mm) == len(steps)
    # The place that touches lies between vertices, the nearest of which is near.
    assert (found.near.lower_mm.min(axis=1) < 0.1).all()
    assert all(pairs for pairs in found.touching)
    shut = close(casts.pair, found.poses)
    assert shut.opening_rad == pytest.approx(np.zeros(len(steps)), abs=1e-9)
    assert (found.back_gap_mm[0] <= CASE.judging.tolerance_mm).all()
    assert (np.diff(found.back_gap_mm[:, 1]) >= -0.05).all()


def test_contacts_are_those_of_the_pairs_that_touch(casts, followed):
    """In every pose, and the first contact is where the jaw closes from wide open."""
    for i, pairs in enumerate(followed.touching):
        rows = followed.contacts.pose == i
        teeth = zip(
            followed.contacts.tooth_upper[rows], followed.contacts.tooth_lower[rows], strict=True
        )
        assert {(int(upper), int(lower)) for upper, lower in teeth} == set(pairs)
    shut = close(casts.pair, followed.poses)
    assert followed.guiding[1:] == pytest.approx(shut.point[1:], abs=1e-6)


def test_a_table_that_guides_has_no_contact_to_show(casts):
    """Teeth are apart; so no place holds the jaw open."""
    table = IncisalTable(sagittal_deg=75.0)
    steep = mounted_casts(replace(CASE, guidance=replace(CASE.guidance, incisal_table=table)))
    found = filmed(CASE, steep, protrusion(), np.array([0.0, 1.0, 2.0]), Workers())
    assert found.guide[-1] == GUIDED_BY_TABLE
    assert np.isnan(found.guiding[-1]).all()
    assert moments(steep, [found], 1.0)[2].marks.first is None


def test_a_movement_that_ends_is_shown_to_its_end():
    """The way back to CR is shorter than what was asked for."""
    case = coarse("centric_slide")
    found = filmed(case, mounted_casts(case), retrusion(), np.arange(0.0, 5.0, 0.1), Workers())
    assert 0.1 < found.travel_mm[-1] < 1.0
    assert found.travel_mm[:-1] == pytest.approx(0.1 * np.arange(len(found.travel_mm) - 1))


def test_a_side_shift_adds_no_poses(casts):
    """Places where its use begins or ends are none of the even steps."""
    side = replace(CASE.guidance.right, immediate_shift_mm=0.3)
    shifted = mounted_casts(replace(CASE, guidance=replace(CASE.guidance, right=side, left=side)))
    steps = np.arange(0.0, 1.01, 0.2)
    found = filmed(CASE, shifted, right_lateral(), steps, Workers())
    assert found.travel_mm == pytest.approx(steps, abs=1e-6)


def test_a_file_that_is_there_is_kept(tmp_path):
    """And said so; nothing is left beside it."""
    path = tmp_path / "mine.glb"
    path.write_bytes(b"mine")
    with pytest.raises(InputError, match=r"--out .*mine.glb: is there already"):
        film(CASE, path, OPTIONS, silent, 1, InLine())
    assert path.read_bytes() == b"mine"
    assert [one.name for one in tmp_path.iterdir()] == ["mine.glb"]


def test_a_film_stopped_by_hand_leaves_nothing(tmp_path):
    """Whenever it is stopped."""

    def stop(step):
        if step == "writing the file":
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        film(CASE, tmp_path / "casts.glb", OPTIONS, stop, 1, InLine())
    assert list(tmp_path.iterdir()) == []


def test_a_movement_of_no_length_is_refused(tmp_path):
    """Where MI is in CR there is no way back."""
    options = FilmOptions(("retrusion",), 1.0, 2.0)
    with pytest.raises(InputError, match=r"--movement retrusion: .* MI is in CR"):
        film(CASE, tmp_path / "x.glb", options, silent, 1, InLine())
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--out", "x.mov"], "'x.mov' ends with '.mov'; accepted: .mp4, .gif, .html, .glb"),
        (["--out", "film"], "'film' has no ending; accepted: .mp4, .gif, .html, .glb"),
        (["--out", "x.glb", "--travel", "13"], "'13': must be a number from 0.5 to 12 mm"),
        (["--out", "x.glb", "--speed", "nan"], "'nan': must be a number from 0.1 to 50 mm a sec"),
        (["--out", "x.glb", "--movement", "up"], "invalid choice: 'up'"),
        (["--out", "x.gif", "--view", "below"], "invalid choice: 'below'"),
        (["--out", "x.gif", "--size", "641x480"], "'641x480': must be two even numbers of pixels"),
        (["--out", "x.gif", "--size", "200x200"], "from 320x240 to 3840x2160"),
        (["--out", "x.gif", "--pictures-a-second", "60"], "must be a number from 5 to 50"),
    ],
)
def test_wrong_arguments_are_told(arguments, said, capsys):
    """What was found and what is accepted."""
    with pytest.raises(SystemExit) as end:
        command_line.main(["film", "natural_dentition", *arguments])
    assert end.value.code == 2
    assert said in " ".join(capsys.readouterr().err.split())


def test_three_views_are_refused(tmp_path):
    """There is room for two."""
    options = replace(OPTIONS, views=("front", "left", "right"))
    with pytest.raises(InputError, match=r"--view: given 3 times .* accepted: once, or twice"):
        film(CASE, tmp_path / "x.gif", options, silent, 1, InLine())


def test_a_folder_that_is_not_there_is_told_at_once(tmp_path):
    """Before anything is computed."""
    steps = []
    with pytest.raises(InputError, match=r"there is no folder .*none; make it first"):
        film(CASE, tmp_path / "none" / "x.glb", OPTIONS, steps.append, 1, InLine())
    assert steps == []


def test_a_case_that_is_not_there_is_told(tmp_path, capsys):
    """With exit code 2, and no traceback."""
    assert command_line.main(["film", "no_such_case", "--out", str(tmp_path / "x.glb")]) == 2
    assert "no_such_case" in capsys.readouterr().err


@pytest.fixture(scope="module")
def followed(casts):
    """Return a right lateral excursion of 0.4 mm in steps of 0.1 mm."""
    return filmed(CASE, casts, right_lateral(), np.linspace(0.0, 0.4, 5), Workers())


def test_a_film_goes_out_rests_and_comes_back(casts, followed):
    """At 10 pictures a second: 6 at rest at either end, and each place on the way twice."""
    every = moments(casts, [followed], 10.0)
    travels = [float(moment.travel.split()[1]) for moment in every]
    assert travels == [0.0] * 7 + [0.1, 0.2, 0.3] + [0.4] * 7 + [0.3, 0.2, 0.1, 0.0]
    assert np.array_equal(every[8].move, every[-3].move)
    assert {moment.head for moment in every} == {"Right lateral excursion from MI"}


def test_marks_say_which_side_works(casts, followed):
    """In MI all are those of MI; on the way the patient's left is the nonworking side."""
    teeth = replace(followed.contacts, pose=np.array([0, 1, 1]), tooth_upper=np.array([26, 13, 26]),
                    tooth_lower=np.array([36, 43, 36]), centroid=np.zeros((3, 3)))  # fmt: skip
    begin, on_the_way = moments(casts, [replace(followed, contacts=teeth)], 1.0)[1:3]
    assert begin.marks.movement == "MI" and not begin.marks.nonworking.any()
    assert begin.marks.first is None
    assert on_the_way.marks.nonworking.tolist() == [False, True]
    assert on_the_way.marks.first == pytest.approx(followed.guiding[1])
    assert on_the_way.marks.style == RIGHT_LATERAL
    assert ("hollow", "touch, nonworking side") in on_the_way.marks.keys


def test_what_is_told_has_its_units(casts, followed):
    """Pairs that touch, few of them by name, and both sides in millimetres."""
    few = replace(
        followed,
        touching=(((13, 43),), (), *[tuple((13, 40 + k) for k in range(1, 8))] * 3),
        back_gap_mm=np.array([[0.5, np.inf], *[[0.1, 0.2]] * 4]),
    )
    told = [moment.told for moment in moments(casts, [few], 2.0)]
    assert told[0] == "Touching: 13/43.  Back teeth apart: right 0.50 mm, left more than 3 mm."
    assert told[2] == "No teeth touch.  Back teeth apart: right 0.10 mm, left 0.20 mm."
    assert "13/41, 13/42, 13/43, 13/44 and 3 more." in told[3]


@pytest.mark.parametrize("ending", ["mp4", "gif"])
def test_a_film_of_a_case_is_the_same_whoever_draws_it(ending, tmp_path):
    """In this process or in two others: the same bytes, distinct pictures, and what was written."""
    need_opengl()
    options = FilmOptions(("right-lateral",), 0.5, 5.0, size=(320, 240), pictures_a_s=10.0)
    one, other = (tmp_path / f"{name}.{ending}" for name in ("one", "other"))
    told = film(CASE, one, options, silent, 1, InLine())
    with drawing_processes(2) as drawing:
        film(CASE, other, options, silent, 1, drawing)
    assert one.read_bytes() == other.read_bytes()
    assert "15 pictures of 320 x 240, 1.5 s" in told
    assert "Right lateral excursion: 0.50 mm of travel out and back" in told


def test_a_coder_that_is_not_there_is_told_at_once(tmp_path, monkeypatch):
    """Before anything is computed: what to install, and what can be had without it."""
    monkeypatch.setitem(sys.modules, "imageio_ffmpeg", None)
    steps = []
    with pytest.raises(InputError) as error:
        film(CASE, tmp_path / "x.mp4", OPTIONS, steps.append, 1, InLine())
    assert "pip install 'cuspway[film]'" in str(error.value)
    assert "GPL" in str(error.value) and ".gif" in str(error.value)
    assert steps == []


def test_moments_that_come_again_are_drawn_once(casts, followed, monkeypatch):
    """And stand in the film wherever they belong."""
    every = moments(casts, [followed, followed], 10.0)
    orders = []

    def numbered(_shot, some):
        orders.append(len(some))
        return [f"{moment.travel} {id(moment)}".encode() for moment in some]

    monkeypatch.setattr(film_drawing, "pictures", numbered)
    found = list(film_drawing.drawn_pictures(None, every, silent, InLine()))
    assert found == [f"{moment.travel} {id(moment)}".encode() for moment in every]
    assert sum(orders) == 2 * len(followed.travel_mm) < len(every)


def test_a_drawing_process_that_is_killed_is_told(casts, tmp_path, capsys, monkeypatch):
    """In words, with what to do, the exit code of other refusals, and nothing left."""
    killed = []

    def kill_one(step):
        if re.match("drawing pictures, [1-9]", step) and not killed:
            killed.extend(multiprocessing.active_children())
            killed[0].kill()

    monkeypatch.setattr("scenes.command_line.Steps", lambda: kill_one)
    monkeypatch.setattr("scenes.given_case.find_case", lambda _name: CASE)
    out = tmp_path / "film.gif"
    given = ["film", "natural_dentition", "--travel", "0.5", "--speed", "0.15"]
    given += ["--size", "320x240", "--threads", "1", "--movement", "protrusion"]
    assert command_line.main([*given, "--out", str(out)]) == 2
    said = capsys.readouterr().err
    assert "a process that drew pictures was ended from outside" in said
    assert "nothing was written" in said and "--threads 1" in said
    assert len(killed) == 1 and list(tmp_path.iterdir()) == []
