"""Pictures of a film: drawn moment by moment, the same whoever draws them, with their words."""

import subprocess
from dataclasses import replace

import imageio_ffmpeg
import numpy as np
import pytest
from PIL import Image

from scenes import film_sheet, opengl_probe
from scenes.film_files import write_gif, write_mp4
from scenes.film_sheet import pictures
from scenes.film_shot import Moment, Shot, shot_views
from scenes.scene import Part, Scene, View
from tests.machine import need_opengl

SIZE = 640, 360
VIEW = View("front", np.array([-1.0, 0.0, 0.0]), np.array([0.0, 0.0, 1.0]), np.zeros(3), 80.0, 60.0)
CUBE = np.array([[x, y, z] for x in (0.0, 6.0) for y in (0.0, 6.0) for z in (0.0, 6.0)])
FACES = np.array(
    [[0, 1, 3], [0, 3, 2], [4, 6, 7], [4, 7, 5], [0, 4, 5], [0, 5, 1], [2, 3, 7], [2, 7, 6],
     [0, 2, 6], [0, 6, 4], [1, 5, 7], [1, 7, 3]]
)  # fmt: skip


def cube(cast, place):
    """Return a cube of 6 mm that is a tooth."""
    tooth = np.full(8, 11 if cast == "upper" else 41)
    return Part(
        f"{cast} tooth", CUBE + place, FACES, cast=cast, tooth=tooth, vertex_of=np.arange(8)
    )


def moved(left_mm, near_mm=np.inf, **words):
    """Return a moment with the lower moved to the patient's left."""
    move = np.eye(4)
    move[1, 3] = left_mm
    near = np.full(8, near_mm)
    told = {"head": "Left lateral excursion from MI", "travel": f"travel {left_mm:.2f} mm"}
    return Moment(move, near, near, **({**told, "told": "Touching: 23/33."} | words))


@pytest.fixture
def shot():
    """Return two cubes one over the other, from in front and the lower one from above."""
    scene = Scene(VIEW, (cube("upper", (80.0, -3.0, -30.0)), cube("lower", (80.0, -3.0, -37.0))))
    moves = np.array([moved(at).move for at in (0.0, 6.0)])
    views = shot_views(scene, ("front", "lower"), moves)
    return Shot(scene, views, SIZE, 3.0, "Two cubes, invented", "Not a medical device.")


def image_of(picture):
    """Return a picture as numbers, shape (height, width, 3)."""
    return np.asarray(Image.frombytes("RGB", SIZE, picture)).astype(int)


def panels(picture):
    """Return the panels of a picture, without what is written."""
    top, bottom = round(0.155 * SIZE[1]), round((1.0 - 0.115) * SIZE[1])
    inner = image_of(picture)[top : bottom - 25]
    return inner[:, : SIZE[0] // 2], inner[:, SIZE[0] // 2 :]


def middle_of_lower(panel, rows=slice(None)):
    """Return the middle of what is not paper, pixels to the right."""
    drawn = (panel[rows] < 250).any(axis=2)
    return np.nonzero(drawn)[1].mean()


def test_a_picture_does_not_depend_on_those_before_it(shot):
    """All at once, one by one, or the other way round: the same bytes."""
    need_opengl()
    moments = [moved(at, near) for at, near in ((0.0, 0.1), (2.0, 1.0), (4.0, 2.5), (6.0, np.inf))]
    at_once = pictures(shot, moments)
    assert at_once == [pictures(shot, [moment])[0] for moment in moments]
    assert at_once == pictures(shot, moments[::-1])[::-1]
    assert len(set(at_once)) == len(moments)


@pytest.mark.parametrize("seed", range(5))
def test_the_lower_stands_where_it_was_moved_to(shot, seed):
    """To a pixel in both panels; the upper stays."""
    need_opengl()
    at = float(np.random.default_rng(seed).uniform(1.0, 6.0))
    same = {"head": "", "travel": "", "told": ""}
    begin, end = pictures(shot, [moved(0.0, **same), moved(at, **same)])
    for number, one in enumerate(shot.views):
        per_mm = min(
            SIZE[0] / 2 / one.view.width_mm,
            round(SIZE[1] * 0.73) / one.view.height_mm,
        )
        before, after = panels(begin)[number], panels(end)[number]
        differs = (before != after).any(axis=2).any(axis=1)
        rows = np.nonzero(differs)[0]
        rows = slice(rows[0] + 2, rows[-1] - 2)
        # One looks the patient in the face, and at the lower arch with its front up: left is right.
        off = middle_of_lower(after, rows) - middle_of_lower(before, rows)
        assert off == pytest.approx((1.0 if number == 0 else -1.0) * at * per_mm, abs=1.0)


def test_what_is_near_is_dark(shot):
    """Colours follow the distance, those of the scale that is drawn below."""
    need_opengl()
    far, near = (pictures(shot, [moved(0.0, at)])[0] for at in (np.inf, 0.05))
    light, dark = (panels(picture)[1][100:140, 140:180].mean() for picture in (far, near))
    assert dark < 0.75 * light


def test_without_opengl_it_is_drawn_simplified(shot, monkeypatch):
    """By the painter's method, of the same size, the lower where it belongs."""
    missing = opengl_probe.Drawing(None, opengl_probe.MISSING_TEXT)
    monkeypatch.setattr(film_sheet, "probe", lambda: missing)
    begin, end = pictures(shot, [moved(0.0), moved(5.0)])
    assert len(begin) == len(end) == 3 * SIZE[0] * SIZE[1]
    assert middle_of_lower(panels(end)[0]) > middle_of_lower(panels(begin)[0])


def test_words_stand_where_they_have_room(shot):
    """Head, travel and what is told change; the rest of the picture above does not."""
    need_opengl()
    one, other = pictures(shot, [moved(0.0), moved(0.0, travel="travel 1.25 mm")])
    differs = np.nonzero((image_of(one) != image_of(other)).any(axis=2))
    assert differs[0].max() < 0.155 * SIZE[1]
    assert differs[1].min() > 0.6 * SIZE[0]


def test_long_words_stay_in_the_picture(shot):
    """In smaller letters: the edges stay paper, whatever the case is called."""
    need_opengl()
    long = replace(shot, title="A very long title of a case. " * 6)
    told = "Touching: " + ", ".join(["16/46"] * 30)
    (picture,) = pictures(long, [moved(0.0, told=told, head="Lateroprotrusion to the right " * 3)])
    above = image_of(picture)[: round(0.15 * SIZE[1])]
    assert (above < 250).any()
    assert (above[:, -6:] == 255).all()


@pytest.fixture(scope="module")
def some():
    """Return pictures of one colour each, with a stripe that goes on."""
    found = []
    for number in range(12):
        image = np.full((SIZE[1], SIZE[0], 3), (200, 180, 90), dtype=np.uint8)
        image[:, 40 * number : 40 * number + 40] = (20, 40, 120)
        found.append(image.tobytes())
    return found


def decoded(path):
    """Return what the coder says of a film, and its pictures."""
    command = [imageio_ffmpeg.get_ffmpeg_exe(), "-hide_banner", "-i", str(path)]
    command += ["-f", "rawvideo", "-pix_fmt", "rgb24", "-"]
    done = subprocess.run(command, capture_output=True, check=True)
    length = 3 * SIZE[0] * SIZE[1]
    assert len(done.stdout) % length == 0
    said = done.stderr.decode()
    return said, [done.stdout[i : i + length] for i in range(0, len(done.stdout), length)]


def test_a_film_holds_every_picture(some, tmp_path):
    """Read back by the coder: as many, of that size and speed, looking as they did."""
    path = tmp_path / "film.mp4"
    write_mp4(path, some, SIZE, 20.0)
    said, back = decoded(path)
    for words in ("h264", "yuv420p", "640x360", "20 fps", "Duration: 00:00:00.60"):
        assert words in said
    assert len(back) == len(some)
    for was, now in zip(some, back, strict=True):
        assert np.abs(image_of(was) - image_of(now)).mean() < 6.0
    write_mp4(tmp_path / "again.mp4", some, SIZE, 20.0)
    assert (tmp_path / "again.mp4").read_bytes() == path.read_bytes()


def test_a_coder_that_cannot_write_is_told(some, tmp_path):
    """In its own words, as a fault of the file."""
    with pytest.raises(OSError, match="No such file or directory"):
        write_mp4(tmp_path / "none" / "film.mp4", some, SIZE, 20.0)


def test_a_coder_ends_when_drawing_is_stopped(some, tmp_path):
    """It is not left running."""

    def stopped():
        yield some[0]
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write_mp4(tmp_path / "film.mp4", stopped(), SIZE, 20.0)


def test_a_gif_holds_every_picture(some, tmp_path):
    """Read back by Pillow: as many, each as long as asked for, over and over."""
    path = tmp_path / "film.gif"
    write_gif(path, some, SIZE, 20.0)
    with Image.open(path) as back:
        assert (back.n_frames, back.size, back.info["loop"]) == (len(some), SIZE, 0)
        for number, was in enumerate(some):
            back.seek(number)
            assert back.info["duration"] == 50
            now = np.asarray(back.convert("RGB")).astype(int)
            assert np.abs(image_of(was) - now).max() <= 8


def test_views_hold_all_that_moves():
    """Whatever way the lower goes, no corner of a tooth leaves its panel."""
    rng = np.random.default_rng(3)
    scene = Scene(VIEW, (cube("upper", (80.0, -3.0, -30.0)), cube("lower", (80.0, -3.0, -37.0))))
    moves = np.tile(np.eye(4), (20, 1, 1))
    moves[:, :3, 3] = rng.uniform(-9.0, 9.0, (20, 3))
    for one in shot_views(scene, ("front", "right", "left", "upper", "lower"), moves):
        half = 0.5 * np.array([one.view.width_mm, one.view.height_mm])
        for part in (part for part in scene.parts if part.cast in one.casts):
            places = moves if part.cast == "lower" else np.eye(4)[None]
            for move in places:
                seen = one.view.project(part.vertices @ move[:3, :3].T + move[:3, 3])
                assert (np.abs(seen) < half).all()


def test_a_single_view_fills_the_picture(shot):
    """One panel as wide as the picture."""
    need_opengl()
    alone = replace(shot, views=shot.views[:1])
    drawn = image_of(pictures(alone, [moved(0.0)])[0])
    inner = (drawn[60:290] < 250).any(axis=2)
    assert abs(np.nonzero(inner)[1].mean() - 0.5 * SIZE[0]) < 30
