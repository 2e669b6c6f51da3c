"""Cases whose records are scans: files, commands, what is written, what is refused and where."""

import json
import os

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.case_file import case_toml, parse_case, read_case
from kinematics.case_record_scans import with_scans_registered
from kinematics.checks import InputError
from kinematics.geometry.poses import inverse
from kinematics.records.from_records import settings_from_records
from scenes import command_line
from scenes.given_case import find_case
from scenes.page_command import PageOptions, page
from tests.made_record_scans import BITE, View, off, own_scans, record_mesh
from tests.made_scans import binary_stl
from tests.scanner_like import moved, write_ply
from tests.test_records_command import FINE, GIVEN, poses_in

KINDS = (("protrusive", 5.0), ("left lateral", 6.0))


@pytest.fixture(scope="module")
def moves():
    """Return the motions of the lower from MI in two records of a known jaw, MI being CR."""
    return poses_in(GIVEN, KINDS)


@pytest.fixture(scope="module")
def folder(tmp_path_factory, moves):
    """Write scans of both casts, of two records, and a case of them, mounted by its coordinates."""
    at = tmp_path_factory.mktemp("records")
    upper, lower = own_scans()
    write_ply(at / "upper.ply", upper)
    write_ply(at / "lower.ply", moved(lower, inverse(BITE)))
    views = (View(), View("teeth", arches=("lower",)))
    for number, (move, view) in enumerate(zip(moves, views, strict=True)):
        mesh = record_mesh(move, number, view)
        (at / f"record{number}.stl").write_bytes(binary_stl(mesh.vertices, mesh.faces))
    (at / "case.toml").write_text(
        f"""title = "Scanned records"
[scans]
upper = "upper.ply"
lower = "lower.ply"
scan_from_lower = {json.dumps(BITE.tolist())}
[scans.mounting]
hinge_from_scan = [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1]]
[maximal_intercuspation]
advance_right_mm = 0
advance_left_mm = 0
[settings_from_records]
translation_scatter_mm = {FINE.translation_scatter_mm}
rotation_scatter_deg = {FINE.rotation_scatter_deg}
[[interocclusal_records]]
kind = "protrusive"
scan = "record0.stl"  # of the first visit
[[interocclusal_records]]
kind = "left lateral"
scan = "record1.stl"
scan_shows = "lower arch"
"""
    )
    return at


def told(capsys, *arguments):
    """Return exit code, output and complaints of `cuspway records`."""
    code = command_line.main(["records", *map(str, arguments)])
    return code, *capsys.readouterr()


def test_the_transforms_found_are_told_and_written(folder, moves, tmp_path, capsys):
    """Once; what is written needs no scan of a record and says how each was found."""
    made = tmp_path / "set.toml"
    code, out, err = told(capsys, folder, "--write", made)
    assert code == 0, err
    assert "reading record0.stl, the protrusive record" in err
    assert "record1.stl: finding the lower arch in it" in err
    assert "scan record0.stl: of what lies beside the teeth, 9" in out
    assert "on the upper and 9" in out
    assert "Comments of the old file are kept." in out
    assert "# of the first visit" in made.read_text("utf-8")
    case = read_case(made)
    for record, move in zip(case.interocclusal_records, moves, strict=True):
        assert record.scan is None
        assert off(np.array(record.transform), move)[0] < 0.03
        assert 0.0 < record.registration.rotation_error_deg < 0.3
    assert case.interocclusal_records[1].registration.upper_share is None
    for name in ("right", "left"):
        found, given = getattr(case.guidance, name), getattr(GIVEN, name)
        inclination = found.condylar_inclination_deg
        assert inclination == pytest.approx(given.condylar_inclination_deg, abs=3.0)
    assert parse_case(case_toml(case), "again") == case
    os.rename(folder / "record0.stl", folder / "away.stl")
    try:
        assert told(capsys, made)[0] == 0
    finally:
        os.rename(folder / "away.stl", folder / "record0.stl")


def test_a_case_with_scans_of_records_is_parsed_without_reading_them(folder):
    """The rest of the case is checked; settings are found only when the scans were looked at."""
    case = read_case(folder / "case.toml")
    assert [record.awaits_scan for record in case.interocclusal_records] == [True, True]
    assert case.interocclusal_records[0].scan == str(folder / "record0.stl")
    with pytest.raises(InputError, match=r"interocclusal_records\[0\]\.scan: not yet brought"):
        settings_from_records(case.recorded)
    assert parse_case(case_toml(case), "again") == case


def test_a_case_without_scans_of_records_is_as_it_was():
    """Nothing is read."""
    case = Case()
    assert with_scans_registered(case, lambda _step: pytest.fail("read")) is case


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (('scan = "record0.stl"', 'scan = "gone.stl"'), r"interocclusal_records[0].scan: "),
        (('scan = "record0.stl"', 'scan = "record0.ply"'), "record0.ply"),
        (('scan = "record0.stl"', ""), "give a transform, or points_in_mi"),
        (('scan_shows = "lower arch"', 'scan_shows = "lower"'), "scan_shows = "),
        (
            ('scan_shows = "lower arch"', "points_in_mi = [[1, 2, 3]]"),
            "given: points, scan",
        ),
    ],
)
def test_faults_are_told_with_file_and_key(folder, capsys, change, words):
    """Missing files, files that are something else, and keys that do not go together."""
    path = folder / "faulty.toml"
    path.write_text((folder / "case.toml").read_text().replace(*change))
    code, out, err = told(capsys, path)
    assert (code, out) == (2, "")
    assert words in err
    assert "Traceback" not in err


def test_scans_of_records_of_built_in_teeth_are_refused(tmp_path, capsys):
    """They were not scanned."""
    path = tmp_path / "case.toml"
    path.write_text('[[interocclusal_records]]\nkind = "protrusive"\nscan = "record.stl"\n')
    code, _, err = told(capsys, path)
    assert code == 2
    assert "interocclusal_records[0].scan: built-in teeth were not scanned" in err


def test_the_page_begins_with_the_transforms_found(folder, monkeypatch):
    """They are found once, before anything is served, and told in the terminal."""
    said, begun = [], []
    monkeypatch.setattr("scenes.page_command.served_files", lambda: begun.append(1) or {})
    monkeypatch.setattr(
        "scenes.page_command._named", lambda _given, case: begun.append(case) or ("own", case)
    )
    monkeypatch.setattr("scenes.page_command._listening", lambda _options: _Stop())
    with pytest.raises(_Stopped):
        options = PageOptions("localhost", None, 1, False)
        page(find_case(str(folder)), str(folder), options, said.append, print, print)
    assert any("finding both arches" in line for line in said)
    assert all(record.transform is not None for record in begun[0].interocclusal_records)


class _Stopped(Exception):
    """Nothing is to be served."""


class _Stop:
    def __enter__(self):
        raise _Stopped

    def __exit__(self, *_):
        return False
