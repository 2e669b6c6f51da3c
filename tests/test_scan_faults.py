"""Scan files that cannot be used are refused by a message that says what, where and what to do."""

import os
import re

import hypothesis.strategies as st
import numpy as np
import pytest
from hypothesis import example, given, settings

from kinematics.checks import InputError
from kinematics.scans import limits, scan_files
from kinematics.scans.scan_files import read_scan
from tests import faulty_models, faulty_scans
from tests import made_scans as made

FAULTS = {
    **faulty_scans.OTHERS,
    **faulty_scans.STL,
    **faulty_scans.PLY_HEADERS,
    **faulty_scans.PLY_ROWS,
    **faulty_models.OBJ,
    **faulty_models.GLB,
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_file_that_cannot_be_used_is_refused_with_reasons(fault, tmp_path):
    """The message begins with the file, and says what is wrong and where."""
    name, content, fragment = FAULTS[fault]
    path = tmp_path / name
    path.write_bytes(content)
    with pytest.raises(InputError) as refused:
        read_scan(path)
    message = str(refused.value)
    assert message.startswith(f"{path}: ")
    assert re.search(fragment, message), message
    assert len(message) < 600


def test_what_is_no_file_is_refused(tmp_path):
    """Nothing there, a folder, a pipe that nobody writes to, and a name no file can have."""
    os.mkfifo(tmp_path / "pipe.stl")
    for name, fragment in (
        ("none.stl", "there is no such file"),
        ("", "is a folder"),
        ("pipe.stl", "is not an ordinary file"),
        ("a\0b.stl", "cannot be read|no such file"),
    ):
        with pytest.raises(InputError, match=fragment):
            read_scan(tmp_path / name)


def test_a_file_that_is_too_large_is_refused_before_it_is_read(tmp_path, monkeypatch):
    """The limit is named in megabytes."""
    monkeypatch.setattr(limits, "LARGEST_BYTES", 100)
    (tmp_path / "a.stl").write_bytes(made.binary_stl())
    with pytest.raises(InputError, match=r"larger than 0\.0001 MB; export it with fewer"):
        read_scan(tmp_path / "a.stl")


@pytest.mark.parametrize("name", ["a.obj", "t.stl"])
def test_too_many_triangles_of_a_text_are_refused(name, tmp_path, monkeypatch):
    """Texts say their number only by what they hold."""
    monkeypatch.setattr(limits, "LARGEST_TRIANGLES", 3)
    (tmp_path / name).write_bytes(made.obj() if name == "a.obj" else made.ascii_stl())
    with pytest.raises(InputError, match="4 triangles; at most 3 are accepted"):
        read_scan(tmp_path / name)


VALID = (
    ("a.stl", made.binary_stl()),
    ("a.stl", made.ascii_stl()),
    ("a.ply", made.binary_ply_with_scalars()),
    ("a.ply", made.binary_ply_with_scalars(">")),
    ("a.ply", made.ascii_ply_with_scalars()),
    ("a.obj", made.obj()),
    ("a.glb", made.glb()),
)


@settings(max_examples=100, derandomize=True, deadline=None)
@given(
    which=st.integers(0, len(VALID) - 1),
    cut=st.integers(0, 2000),
    flips=st.lists(st.tuples(st.integers(0, 2000), st.integers(1, 255)), max_size=3),
    many=st.integers(0, 2**32 - 1),
)
@example(which=0, cut=0, flips=[], many=0)
def test_damaged_files_are_read_or_refused(which, cut, flips, many, tmp_path_factory):
    """Whatever byte is lost or changed, there is a scan that holds together or an InputError."""
    name, content = VALID[which]
    path = tmp_path_factory.getbasetemp() / f"damaged-{name}"
    rng = np.random.default_rng(many)
    shapes = [(cut, flips)]
    for _ in range(30):  # cheap beside what it takes to make up one example
        some = [tuple(rng.integers((0, 1), (2001, 256))) for _ in range(rng.integers(0, 4))]
        shapes.append((int(rng.integers(0, 2000)) if rng.random() < 0.3 else 0, some))
    for lost, changes in shapes:
        damaged = bytearray(content[: len(content) - lost % len(content)])
        for at, flip in changes:
            damaged[at % len(damaged)] ^= int(flip)
        path.write_bytes(damaged)
        try:
            scan = read_scan(path)
        except InputError as error:
            assert str(error).startswith(str(path))
            continue
        assert scan.faces.min() >= 0
        assert scan.faces.max() < len(scan.vertices)
        assert scan.vertices.shape[1] == scan.faces.shape[1] == 3


def test_every_kind_of_file_has_a_reader():
    """Damaged files above are of every kind there is."""
    endings = {name.rpartition(".")[2].upper() for name, _ in VALID}
    assert endings == set(scan_files._READERS)
