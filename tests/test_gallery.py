"""README's pictures: one command writes them, README shows just these, and they stay small."""

import io
import re
from functools import partial

import numpy as np
import pytest
from PIL import Image

from kinematics.case import Case
from kinematics.planning.judging import DentureBase
from scenes import gallery
from scenes.arch_scenes import LOWER, UPPER
from scenes.crown_scenes import SEEN_FROM, crown_types_scene
from tests.fresh_python import ROOT

README = (ROOT / "README.md").read_text("utf-8")
SHOWN = re.findall(r"!\[([^\]]+)\]\(scenes/pictures/([^)]+)\)", README)
WIDTH = 240
LARGEST_BYTES = 250_000
ALL_BYTES = 1_500_000


def _pixels(picture):
    return np.asarray(Image.open(io.BytesIO(picture)))


def _is_as_wide(width, widest):
    """Tell whether a picture is as wide as the widest, or two thirds, but for a pixel."""
    return min(abs(width - widest), abs(width - widest * 2 // 3)) <= 1


@pytest.fixture(scope="module")
def case():
    """Return a case whose denture base carries three teeth of the hand-made checkup."""
    return Case(denture_bases=(DentureBase(name="base", teeth=(15, 16, 17)),))


@pytest.fixture(scope="module")
def drawn(example, case):
    """Return all pictures of the hand-made checkup, small."""
    return gallery.gallery(example, case, WIDTH)


def test_readme_shows_each_picture_once(drawn):
    """Six files, named alike in the command, in README and in the folder."""
    assert len(drawn) == 6
    assert [name for _, name in SHOWN] == list(drawn)
    assert {path.name for path in gallery.PICTURES.iterdir()} == set(drawn)


def test_every_picture_is_told_in_words():
    """The alternative text says more than a title, and no two are alike."""
    texts = [text for text, _ in SHOWN]
    assert min(len(text.split()) for text in texts) >= 10
    assert len(set(texts)) == len(texts)


def test_the_files_are_small_and_as_wide_as_drawn():
    """A reader on a slow line sees the page soon."""
    sizes = {path.name: path.stat().st_size for path in gallery.PICTURES.iterdir()}
    assert max(sizes.values()) <= LARGEST_BYTES, sizes
    assert sum(sizes.values()) <= ALL_BYTES
    for path in gallery.PICTURES.iterdir():
        assert _is_as_wide(_pixels(path.read_bytes()).shape[1], gallery.WIDTH_PIXELS), path.name


def test_pictures_are_png_with_something_on_white(drawn):
    """Corners of paper, and between them neither an empty sheet nor a full one."""
    for name, picture in drawn.items():
        pixels = _pixels(picture)
        assert _is_as_wide(pixels.shape[1], WIDTH), name
        white = (pixels == 255).all(axis=2)
        assert white[[0, 0, -1], [0, -1, 0]].all(), name
        assert 0.02 < 1.0 - white.mean() < 0.9, name


def test_the_command_writes_the_same_bytes_again(example, case, drawn, monkeypatch, tmp_path):
    """All six, into the folder of pictures and nowhere else."""
    folder = tmp_path / "pictures"
    monkeypatch.setattr(gallery, "PICTURES", folder)
    monkeypatch.setattr(gallery, "builtin_case", lambda: case)
    monkeypatch.setattr(gallery.checkup, "run", lambda *_: example)
    monkeypatch.setattr(gallery, "gallery", partial(gallery.gallery, width_pixels=WIDTH))
    gallery.main()
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == drawn


def test_nothing_of_a_chart_is_cut_off_at_its_sides(drawn):
    """The outermost columns of the charts stay white."""
    for name in ("right_lateral.png", "jaw_tracks.png"):
        pixels = _pixels(drawn[name])
        assert (pixels[:, [0, -1]] == 255).all(), name


def test_crowns_stand_in_their_rows_and_columns(example):
    """Seven teeth an arch and four views each; none reaches into the room of another."""
    scene = crown_types_scene(example.upper, example.lower)
    roles = [part.role for part in scene.parts]
    assert roles == [f"{s} tooth" for s in (UPPER, LOWER) for _ in range(7 * len(SEEN_FROM))]
    middles = np.array(
        [0.5 * (p.vertices.min(axis=0) + p.vertices.max(axis=0)) for p in scene.parts]
    )
    across = middles[:, 0].reshape(2, 7, len(SEEN_FROM))
    upward = middles[:, 1].reshape(2, 7, len(SEEN_FROM))
    assert np.ptp(across, axis=2).max() < 1e-9  # a column is one tooth
    assert np.ptp(upward, axis=1).max() < 1e-9  # a row is one view
    assert (np.diff(across, axis=1) > 10.0).all()
    assert (np.diff(upward, axis=2) < -10.0).all()
    words = " ".join(note.text for note in scene.notes)
    assert all(words.count(f"({code})") == 1 for code in (*range(21, 28), *range(31, 38)))


def test_crowns_look_as_when_facing_the_patient(example):
    """Tops of upper crowns point down and of lower ones up; from occlusal, at the viewer."""
    scene = crown_types_scene(example.upper, example.lower)
    for k, (arch, sign) in enumerate(((example.upper, -1.0), (example.lower, 1.0))):
        teeth = [tooth for tooth in arch.teeth if tooth.code // 10 in (2, 3)]
        for j, tooth in enumerate(teeth):
            crown = arch.mesh.faces[arch.tooth_of_face == tooth.code]
            points = arch.mesh.vertices[np.unique(crown)]
            top = int(np.argmax(points @ tooth.long_axis))
            looks = scene.parts[4 * (7 * k + j) : 4 * (7 * k + j) + 4]
            assert looks[0].vertices[top, 2] == pytest.approx(looks[0].vertices[:, 2].max())
            for look in looks[1:]:
                upward = sign * look.vertices[:, 1]
                assert upward[top] == pytest.approx(upward.max())
                assert np.linalg.norm(np.ptp(look.vertices, axis=0)) > 0.0


def test_turned_crowns_are_not_mirrored(example):
    """Each keeps its volume with the same sign: a view turns a crown and never reflects it."""
    scene = crown_types_scene(example.upper, example.lower)
    for part in scene.parts:
        a, b, c = np.moveaxis(part.vertices[part.faces], 1, 0)
        looks_outward = np.einsum(
            "ij,ij->i", a - part.vertices.mean(axis=0), np.cross(b - a, c - a)
        )
        assert looks_outward.sum() > 0.0
    assert scene.view.right == pytest.approx([1.0, 0.0, 0.0])
