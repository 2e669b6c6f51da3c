"""Scans that do not tell their teeth are named with all other faults of their case."""

import json

import pytest

from kinematics.case_file import read_case
from kinematics.checks import InputError
from kinematics.scans.scanned_casts import labelled_casts, read_cast
from kinematics.scans.settings import SIDES, ScanFiles
from tests.made_scans import ascii_ply_with_scalars, binary_stl

OPEN = "nothing says which triangle belongs to which tooth in"
BOTH = "scans.upper_labels, scans.lower_labels: missing"


@pytest.fixture
def folder(tmp_path):
    """Return a folder with two scans without tooth numbers, and a PLY file and a list with them."""
    for name in ("upper.stl", "lower.stl"):
        (tmp_path / name).write_bytes(binary_stl())
    (tmp_path / "lower.ply").write_bytes(ascii_ply_with_scalars())
    (tmp_path / "list.json").write_text(json.dumps({"labels": [0, 11, 11, 11, 11]}))
    return tmp_path


def refused(folder, scans, rest=""):
    """Return what is said of a case of scans whose mounting is open."""
    text = f"[scans]\n{scans}\n[scans.mounting]\n{rest}"
    (folder / "case.toml").write_text(text)
    with pytest.raises(InputError) as error:
        read_case(folder / "case.toml")
    return str(error.value)


@pytest.mark.parametrize(
    ("scans", "said"),
    [
        ('upper = "upper.stl"\nlower = "lower.stl"', f"{BOTH}, and {OPEN} upper.stl and lower.stl"),
        ('upper = "upper.stl"\nlower = "lower.ply"', f"scans.upper_labels: missing, and {OPEN} up"),
        (
            'upper = "upper.stl"\nlower = "lower.stl"\nupper_labels = "list.json"',
            f"scans.lower_labels: missing, and {OPEN} lower.stl",
        ),
        ('upper = "upper.stl"\nlower = "lower.ply"\nupper_labels = "list.json"', ""),
        ('upper = "upper.stl"\nlower = "none.stl"', ""),
        ('upper = 3\nlower = "lower.stl"', ""),
        ('lower = "lower.stl"', ""),
    ],
)
def test_what_is_missing_is_said_with_the_mounting(folder, scans, said):
    """Both at once, each with its key; scans that cannot be read yet are left for later."""
    told = refused(folder, scans)
    assert "scans.mounting: says nothing yet" in told
    assert said in told if said else OPEN not in told


def test_it_is_counted_among_the_faults(folder):
    """Of a case with three."""
    told = refused(folder, 'upper = "upper.stl"\nlower = "lower.stl"', "[judging]\nscheme = 'x'\n")
    assert told.startswith(f"{folder / 'case.toml'}: 3 faults\n")
    assert len(told.splitlines()) == 4


def test_a_case_that_is_mounted_is_refused_for_both_scans_at_once(folder):
    """When it is run; what was read first is not named alone."""
    files = ScanFiles(upper=str(folder / "upper.stl"), lower=str(folder / "lower.stl"))
    casts = {side: read_cast(files, side, lambda _: None) for side in SIDES}
    with pytest.raises(InputError, match=f"{BOTH}, and {OPEN} upper.stl and lower.stl"):
        labelled_casts(casts, files, lambda _: None, {})
