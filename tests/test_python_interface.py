"""Cuspway from Python: what is public is named, described, and says what the engine says."""

import inspect
import re

import numpy as np
import pytest
from PIL import Image

import cuspway
from tests.fresh_python import ROOT
from tests.machine import need_opengl

README = (ROOT / "README.md").read_text("utf-8")
CASE = cuspway.changed_case(
    cuspway.case("natural_dentition"), {"dentition.triangles_per_arch": 15_000}
)


@pytest.fixture(scope="module")
def left():
    """Return the jaw 2 mm to the left."""
    return cuspway.moment(CASE, "left lateral", 2.0)


def test_all_that_is_public_is_described():
    """Every function with its parameters, what it returns or writes, and what it raises."""
    for name in cuspway.__all__:
        thing = getattr(cuspway, name)
        if not inspect.isfunction(thing):
            continue
        told = inspect.getdoc(thing)
        for parameter in inspect.signature(thing).parameters:
            assert re.search(rf"^{parameter}(, \w+)* : ", told, re.MULTILINE), (name, parameter)
        assert told.splitlines()[0].endswith(".")


def test_readme_lists_what_is_public():
    """All names, and no other."""
    rows = re.findall(r"^\| `cuspway\.(\w+)", README, re.MULTILINE)
    assert sorted(rows) == sorted(name for name in cuspway.__all__ if name != "__version__")


def test_a_moment_is_that_of_the_engine(left):
    """Closed at 2 mm of travel; readings are of its pose."""
    assert left.at.travel_mm == pytest.approx(2.0, abs=1e-6)
    assert cuspway.read(left, "travel") == left.at.travel_mm
    assert cuspway.read(left, "contact") == "23 on 33"
    moved = left.at.pose @ np.append(left.casts.incisal_point, 1.0)
    start = left.casts.mi_pose @ np.append(left.casts.incisal_point, 1.0)
    assert cuspway.read(left, "drop of the incisal point") == pytest.approx(start[2] - moved[2])


def test_what_there_is_not_is_refused_in_words(left, tmp_path):
    """A case, a movement, a reading, a view, a file that is there."""
    with pytest.raises(cuspway.InputError, match="natural_dentition"):
        cuspway.case("natural_dentitoin")
    with pytest.raises(cuspway.InputError, match="protrusion from MI"):
        cuspway.moment(CASE, "sideways", 2.0)
    with pytest.raises(cuspway.InputError, match="did you mean 'gap of TOOTH'"):
        cuspway.read(left, "gapp of 47")
    with pytest.raises(cuspway.InputError, match="one or two of front"):
        cuspway.picture(left, tmp_path / "a.png", views=("above",))
    (tmp_path / "there.png").write_bytes(b"mine")
    with pytest.raises(cuspway.InputError, match="there"):
        cuspway.picture(left, tmp_path / "there.png")
    assert (tmp_path / "there.png").read_bytes() == b"mine"


def test_all_readings_are_told():
    """With their units."""
    told = cuspway.readings()
    assert told["gap of TOOTH"].endswith("In mm.")
    assert len(told) > 20


def test_a_picture_shows_the_casts(left, tmp_path):
    """Two panels, both with something in them, another one for another pose."""
    need_opengl()
    cuspway.picture(left, tmp_path / "left.png", views=("left", "upper"))
    closed = cuspway.moment(CASE, "left lateral", 0.0)
    cuspway.picture(closed, tmp_path / "mi.png", views=("left", "upper"))
    pictures = []
    for name in ("left.png", "mi.png"):
        with Image.open(tmp_path / name) as opened:
            pictures.append(np.asarray(opened.convert("L"), np.float64))
    one, other = pictures
    half = one.shape[1] // 2
    for panel in (one[:, :half], one[:, half:]):
        assert (panel < 200).mean() > 0.05
    assert np.abs(one - other).mean() > 0.5
