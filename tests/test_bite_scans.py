"""The bite itself as a scan of both arches: how the lower scan stands in it."""

import numpy as np
import pytest

from kinematics.case_file import read_case
from kinematics.checks import InputError
from kinematics.geometry.meshes import moved_mesh
from kinematics.geometry.poses import inverse
from kinematics.records.bite_scans import scanned_bite
from scenes import command_line
from tests.made_record_scans import BITE, View, off, own_meshes, own_scans, record_mesh
from tests.made_scans import binary_stl
from tests.scanner_like import any_place, moved, write_ply

IN_MI = np.eye(4)


def bitten(mesh):
    """Return where the lower stands by a scan of the bite."""
    (upper, *_), (lower, *_) = own_meshes()
    there = moved_mesh(lower, inverse(BITE))
    return scanned_bite(upper, there, mesh, "bite.stl", lambda _step: None)


def test_a_bite_is_found_wherever_the_scans_lie():
    """Upper, lower and bite in three places; no tooth is told."""
    found = bitten(record_mesh(IN_MI, 1, place=any_place(1)))
    apart_mm, turn_deg = off(found.from_lower, IN_MI)
    assert apart_mm < 0.02
    assert turn_deg < 0.05


def test_a_bite_of_one_arch_is_refused():
    """With the file and the arch that is not there."""
    with pytest.raises(InputError, match=r"bite\.stl: lies on the upper scan, but not on the low"):
        bitten(record_mesh(IN_MI, 2, View(arches=("upper",))))


def test_a_new_case_takes_a_scan_as_its_bite(tmp_path, capsys):
    """`--bite` with a scan writes the transform found from it; nothing else is copied."""
    upper, lower = own_scans()
    write_ply(tmp_path / "upper.ply", upper)
    write_ply(tmp_path / "lower.ply", moved(lower, inverse(BITE)))
    mesh = record_mesh(IN_MI, 3)
    (tmp_path / "bite.stl").write_bytes(binary_stl(mesh.vertices, mesh.faces))
    made = tmp_path / "case"
    files = ["--upper", "upper.ply", "--lower", "lower.ply", "--bite", "bite.stl"]
    given = [str(tmp_path / name) if "." in name else name for name in files]
    assert command_line.main(["new", str(made), *given]) == 0
    told = capsys.readouterr()
    assert "finding the lower arch in the bite" in told.err
    assert "bite: found from bite.stl: " in told.out
    case = read_case(made / "case.toml")
    assert off(np.array(case.scans.scan_from_lower), IN_MI)[0] < 0.02
    assert not (made / "bite.stl").exists()
