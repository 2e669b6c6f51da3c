"""Files that a page asks for: the report of a process of its own, and the case file."""

import sys
import threading

import pytest

from kinematics.case_changes import changed_case
from kinematics.case_file import read_case
from kinematics.checks import InputError
from scenes import page_report
from scenes.builtin_cases import builtin_case
from scenes.page_lane import Stale
from scenes.page_report import ReportFailed, write_case_file, write_report

#: Coarse teeth, so that the report is made soon.
COARSE = {"dentition.triangles_per_arch": 10_000, "title": "Made for a page"}


def python_that_says(folder, monkeypatch, program):
    """Let something else run in place of the command."""
    script = folder / "program.py"
    script.write_text(program, "utf-8")
    starter = folder / "python"
    starter.write_text(f"#!/bin/sh\nexec '{sys.executable}' '{script}'\n", "utf-8")
    starter.chmod(0o755)
    monkeypatch.setattr(page_report.sys, "executable", str(starter))


def test_the_report_is_that_of_the_command(tmp_path):
    """Its steps are told, and one file is there at the end."""
    case = changed_case(builtin_case(), COARSE)
    steps = list(write_report(case, tmp_path, 2, threading.Event()))
    assert steps[-1] == "writing the report"
    assert len(steps) > 5
    [file] = tmp_path.iterdir()
    assert file.name == "report.html"
    assert "Made for a page" in file.read_text("utf-8")


def test_a_report_that_is_no_longer_wanted_is_given_up(tmp_path):
    """After its first step."""
    stop = threading.Event()
    steps = write_report(builtin_case(), tmp_path, 2, stop)
    assert next(steps) == "getting ready"
    assert next(steps)
    stop.set()
    with pytest.raises(Stale):
        next(steps)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(sys.platform == "win32", reason="a script with a first line")
@pytest.mark.parametrize(
    ("code", "error", "told"),
    [
        (2, InputError, "^46 finds no room;\n  lower it$"),
        (3, ReportFailed, "could not be made; 46 finds no room"),
        (-9, ReportFailed, "could not be made"),
    ],
)
def test_why_there_is_no_report_is_told(tmp_path, monkeypatch, code, error, told):
    """In the words of the command; what the case does not allow is no fault of the program."""
    program = (
        "import sys, os\n"
        "print('   0.1 s  building the teeth', file=sys.stderr)\n"
        "print('cuspway: 46 finds no room;\\n  lower it', file=sys.stderr, flush=True)\n"
        f"sys.exit({code}) if {code} > 0 else os.kill(os.getpid(), 9)\n"
    )
    place = tmp_path / "place"
    place.mkdir()
    python_that_says(tmp_path, monkeypatch, program)
    steps = write_report(builtin_case(), place, 2, threading.Event())
    assert [next(steps) for _ in range(2)] == ["getting ready", "building the teeth"]
    with pytest.raises(error, match=told):
        next(steps)
    assert list(place.iterdir()) == []


def test_the_case_file_makes_the_same_case(tmp_path):
    """With its changes."""
    case = changed_case(builtin_case("long_centric"), {**COARSE, "guidance.incisal_table": True})
    write_case_file(case, tmp_path)
    [file] = tmp_path.iterdir()
    assert read_case(file) == case
