"""Files that a page asks for: the report of a process of its own, and the case file."""

import re
import sys
import threading
import time

import pytest

from kinematics.case import Case
from kinematics.case_changes import changed_case
from kinematics.case_file import read_case
from kinematics.checks import InputError
from scenes import page_report
from scenes.builtin_cases import builtin_case
from scenes.page_frames import header_of
from scenes.page_lane import Lane, Stale
from scenes.page_messages import ReportRequest, first_show
from scenes.page_report import Origin, ReportFailed, write_case_file, write_report

#: Coarse teeth, so that the report is made soon.
COARSE = {"dentition.triangles_per_arch": 10_000, "title": "Made for a page"}
#: Few poses, for the same reason.
BRIEF = {"sweep.step_mm": 0.4, "sweep.travel_mm": 3.5}


def python_that_says(folder, monkeypatch, program):
    """Let something else run in place of the command."""
    script = folder / "program.py"
    script.write_text(program, "utf-8")
    starter = folder / "python"
    starter.write_text(f"#!/bin/sh\nexec '{sys.executable}' '{script}'\n", "utf-8")
    starter.chmod(0o755)
    monkeypatch.setattr(page_report.sys, "executable", str(starter))


def test_the_report_is_that_of_the_command(tmp_path):
    """Its steps are told, and one file is there at the end, which says what was changed."""
    origin = Origin("upper_distal_extension", builtin_case())
    case = changed_case(origin.case, {**COARSE, **BRIEF})
    steps = list(write_report(case, tmp_path, 2, threading.Event(), origin))
    assert steps[-1] == "writing the report"
    assert len(steps) > 5
    [file] = tmp_path.iterdir()
    assert file.name == "upper_distal_extension_report.html"
    report = file.read_text("utf-8")
    assert "Made for a page" in report
    assert f"against “{origin.case.title}”: dentition: triangles per arch 10000" in report


def test_a_report_that_is_no_longer_wanted_is_given_up(tmp_path):
    """After its first step."""
    stop = threading.Event()
    steps = write_report(builtin_case(), tmp_path, 2, stop)
    next(steps)
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
        (3, ReportFailed, "^the report could not be made; the terminal shows why$"),
        (-9, ReportFailed, "^the report could not be made; the terminal shows why$"),
    ],
)
def test_why_there_is_no_report_is_told(tmp_path, monkeypatch, capfd, code, error, told):
    """Of a case that is not possible to the page, of a fault of the program to the terminal."""
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
    next(steps)
    assert next(steps) == "building the teeth"
    with pytest.raises(error, match=told):
        next(steps)
    assert list(place.iterdir()) == []
    shown = capfd.readouterr().err
    if error is ReportFailed:
        assert f"ended with code {code}\n" in shown
        assert "46 finds no room;\n  lower it" in shown
    else:
        assert shown == ""


def test_nothing_is_imported_from_where_one_stands(tmp_path, monkeypatch):
    """Packages of the same names in the current folder are others' and are not run."""
    elsewhere, place = tmp_path / "elsewhere", tmp_path / "place"
    place.mkdir()
    for name in ("scenes", "kinematics", "numpy"):
        package = elsewhere / name
        package.mkdir(parents=True)
        for module in ("__init__.py", "command_line.py"):
            (package / module).write_text("raise SystemExit('not of this program')\n", "utf-8")
    monkeypatch.chdir(elsewhere)
    monkeypatch.setattr(sys, "path", ["", *sys.path])
    stop = threading.Event()
    steps = write_report(builtin_case(), place, 2, stop)
    next(steps)
    assert re.match("(building the teeth|compiling) ", next(steps))
    stop.set()
    with pytest.raises(Stale):
        next(steps)


def test_compiling_is_said_before_the_process_says_it(tmp_path, monkeypatch):
    """It may be at it already when it is asked."""
    monkeypatch.setattr(page_report, "is_first_run", lambda more: True)
    steps = write_report(builtin_case(), tmp_path, 2, threading.Event())
    assert next(steps).startswith("compiling the numerical kernels: only on the first run")
    steps.close()


def test_the_case_file_makes_the_same_case(tmp_path):
    """With its changes."""
    case = changed_case(builtin_case("long_centric"), {**COARSE, "guidance.incisal_table": True})
    write_case_file(case, tmp_path)
    [file] = tmp_path.iterdir()
    assert file.name == "case.toml"
    assert read_case(file) == case


def test_the_case_file_says_what_was_changed(tmp_path):
    """In comments that no title and no value can break, under the name of the case."""
    before = changed_case(builtin_case(), {"title": "One\nguidance = 3 \x7f\u2028of"})
    both = {f"guidance.{side}.condylar_inclination_deg": 45.0 for side in ("right", "left")}
    case = changed_case(before, both)
    write_case_file(case, tmp_path, Origin("upper_distal_extension", before))
    [file] = tmp_path.iterdir()
    assert file.name == "upper_distal_extension_case.toml"
    assert read_case(file) == case
    assert file.read_text("utf-8").splitlines()[:3] == [
        "# Changed against: One guidance = 3 of",
        "# guidance, right and left: condylar inclination 45° (before: 35°)",
        "",
    ]


def test_a_case_file_without_changes_says_nothing_of_them(tmp_path):
    """It is the case as it was."""
    write_case_file(builtin_case(), tmp_path, Origin("upper_distal_extension", builtin_case()))
    [file] = tmp_path.iterdir()
    assert "#" not in file.read_text("utf-8")


@pytest.mark.parametrize(
    ("title", "stem"),
    [
        ("Frau Müller, 2. Sitzung", "frau_muller_2_sitzung_"),
        ("../../etc/passwd", "etc_passwd_"),
        ("症例", ""),
        ("a" * 59 + " b", "a" * 59 + "_"),
    ],
)
def test_files_of_a_case_file_are_named_after_its_title(title, stem):
    """In letters that every disk takes, and not too many."""
    assert Origin("given", Case(title=title)).stem == stem


def test_the_page_gets_one_sentence(tmp_path):
    """Not how the program calls the fault; what is told already is not told twice."""
    heard, complaints, ended = [], [], threading.Event()

    def work(request, stop):
        raise ReportFailed("there is none") if request else ValueError("one\nFile x, line 2")
        yield b""

    lane = Lane(work, lambda job, message: heard.append(message), ended.set, complaints.append)
    lane.offer(None)
    while not heard:
        time.sleep(0.01)
    lane.offer(
        ReportRequest(
            **first_show("natural_dentition").model_dump(exclude={"lesson"}) | {"kind": "report"}
        )
    )
    while len(heard) < 2:
        time.sleep(0.01)
    lane.end()
    assert ended.wait(10.0)
    texts = [header_of(message)["text"] for message in heard]
    assert texts == ["internal error, a fault of the program: ValueError: one", "there is none"]
    assert [type(error) for error in complaints] == [ValueError]
