"""A film as a page that is turned by hand: what the file holds."""

import base64
import hashlib
import json
import re
from dataclasses import replace

import numpy as np
import pytest

from kinematics.checks import InputError
from scenes.drawing_processes import InLine
from scenes.film_command import film
from scenes.page_frames import arrays_of, header_of
from tests.film_pages import CASE, OPTIONS, block, expected_moments, silent, written


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Return the file, what was told of it, and the scene and moments that it should hold."""
    path, told = written(tmp_path_factory.mktemp("film") / "casts.html")
    return path, told, *expected_moments()


@pytest.fixture(scope="module")
def text(made):
    """Return the page as it is written."""
    return made[0].read_text("utf-8")


def test_it_holds_every_moment_of_the_film(made, text):
    """The same poses, words and marks as pictures have, in the same order."""
    _, _, _, every = made
    told = header_of(block(text, "film-moments"))
    assert len(told["pictures"]) == len(every)
    for number, moment in zip(told["pictures"], every, strict=True):
        here = told["moments"][number]
        assert here["move"] == moment.move.ravel().tolist()
        assert [here["head"], here["travel"], here["told"]] == [
            moment.head, moment.travel, moment.told,
        ]  # fmt: skip
        assert here["movement"] == moment.marks.movement
        assert len(here["contacts"]) == len(moment.marks.places) > 0
        for contact, place in zip(here["contacts"], moment.marks.places, strict=True):
            assert contact["place"] == pytest.approx(place, abs=1e-4)
    firsts = [one["first"] for one in told["movements"]]
    assert firsts == [0, len(every) // 2]
    assert [every[first].head for first in firsts] == [one["words"] for one in told["movements"]]


def test_gaps_are_those_that_were_measured(made, text):
    """To the width of a step, which is finest where teeth touch; farther is told as farther."""
    _, _, scene, every = made
    message = block(text, "film-moments")
    told, added = header_of(message), arrays_of(message)
    limit_mm = told["limit_mm"]
    for side in ("upper", "lower"):
        steps = np.cumsum(added[f"gap_{side}"].astype(np.uint32), axis=0).astype(np.uint8)
        parts = [part for part in scene.parts if part.cast == side and len(part.tooth)]
        for number, moment in zip(told["pictures"], every, strict=True):
            near = getattr(moment, f"{side}_mm")
            wanted = np.concatenate([near[part.vertex_of] for part in parts])
            within = wanted <= limit_mm
            assert (steps[number][~within] == 255).all()
            found = (steps[number][within] / 254.0) ** 2 * limit_mm
            wide = (np.sqrt(wanted[within] / limit_mm) + 0.5 / 254.0) / 254.0 * limit_mm
            assert (np.abs(found - wanted[within]) <= wide + 1e-4).all()


def test_casts_are_those_of_the_scene(made, text):
    """Every part, to a hundred-thousandth of a millimetre."""
    _, _, scene, _ = made
    message = block(text, "film-teeth")
    arrays = arrays_of(message)
    for part, told in zip(scene.parts, header_of(message)["parts"], strict=True):
        assert np.abs(arrays[told["vertices"]] - part.vertices).max() <= 1e-5
        assert np.array_equal(arrays[told["faces"]], part.faces)


def test_only_its_own_script_may_run(text):
    """By its digest; nothing may be fetched, and nothing is named that could be."""
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', text)[1]
    scripts = re.findall(r"<script>(.*?)</script>", text, re.DOTALL)
    assert len(scripts) == 1
    digest = base64.b64encode(hashlib.sha256(scripts[0].encode()).digest()).decode()
    assert policy.startswith("default-src 'none'; ")
    assert f"script-src 'sha256-{digest}'" in policy.replace("&#43;", "+").replace("&#39;", "'")
    assert not re.search(r"<(link|img|iframe|object|embed)\b|\ssrc=|url\(\s*['\"]?http", text)


def test_licences_and_caution_are_in_the_file(text):
    """Whoever passes it on passes these on too."""
    assert "The MIT License" in text and "not a medical device" in text


def test_what_was_written_is_told(made):
    """How large and how long it is, and how far the jaw goes."""
    path, told, _, every = made
    assert f"a page of {path.stat().st_size / 1e6:.1f} MB, {len(every) / 10.0:.1f} s long" in told
    assert "Protrusion: 1.00 mm of travel out and back" in told
    assert "not a medical device" in told


def test_a_title_cannot_leave_its_place(tmp_path):
    """Whatever a case is called, it is text."""
    title = "</script><script>alert('x')</script>"
    path = tmp_path / "x.html"
    short = replace(OPTIONS, movements=("protrusion", "protrusion"), travel_mm=0.5)
    film(replace(CASE, title=title), path, short, silent, 1, InLine())
    text = path.read_text("utf-8")
    assert title not in text and "&lt;/script&gt;" in text
    told = header_of(block(text, "film-moments"))
    assert title not in json.dumps(told)
    assert len(told["movements"]) == 2  # also of one that is shown twice


@pytest.mark.parametrize("error", [KeyboardInterrupt, InputError("stop")])
def test_a_page_stopped_by_hand_leaves_nothing(tmp_path, error):
    """Until the moment it is written."""

    def stop(step):
        if step == "writing the page":
            raise error

    with pytest.raises((KeyboardInterrupt, InputError)):
        film(CASE, tmp_path / "casts.html", OPTIONS, stop, 1, InLine())
    assert list(tmp_path.iterdir()) == []
