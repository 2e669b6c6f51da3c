"""The command `cuspway`: what it prints where, how it ends, what it leaves behind."""

import errno
import io
import json
import os
import re
import sys
from contextlib import nullcontext

import pytest

from kinematics import checkup
from kinematics.case_file import read_case
from kinematics.checks import InputError, NotConverged
from kinematics.result_texts import CAUTION, OF_A_CASE
from scenes import check_command, drawing_orders, drawing_processes
from scenes.builtin_cases import builtin_case
from scenes.case_places import DEFAULT_CASE, case_names, case_text
from scenes.case_words import case_words
from scenes.command_arguments import BAD_INPUT, FINDINGS, FINISHED, INTERNAL_ERROR, INTERRUPTED
from scenes.command_line import main
from scenes.drawing_processes import InLine
from scenes.opengl_probe import MISSING_TEXT
from scenes.report import html_report
from tests.fresh_python import run_python


class NothingDrawn:
    """Takes orders and draws nothing."""

    simplified = ""
    teeth = movement = staticmethod(lambda *_: None)

    def rest(self, result):
        """Return what a report needs to know of its drawings."""
        return self


@pytest.fixture
def quick(monkeypatch, example):
    """Let every check end at once with the hand-made checkup; note what was asked."""
    asked = []

    def run(case, progress, threads, built, followed):
        asked.append((case, threads))
        progress("first step")
        return example

    def write_html(path, result, words, drawings):
        path.write_text(f"<title>{words.title}</title>")

    monkeypatch.setattr(checkup, "run", run)
    monkeypatch.setattr(check_command, "orders_for", lambda words, drawing: NothingDrawn())
    monkeypatch.setattr(check_command, "write_html", write_html)
    monkeypatch.setattr(drawing_processes, "drawing_processes", lambda count: nullcontext(InLine()))
    monkeypatch.setattr(drawing_orders, "get_ready", lambda: None)
    return asked


def _failing_with(monkeypatch, error):
    def run(case, progress, threads, built, followed):
        raise error

    monkeypatch.setattr(checkup, "run", run)


def test_results_go_to_stdout_progress_to_stderr_and_files_to_the_folder(quick, tmp_path, capsys):
    """Summary and place on stdout, timed steps on stderr, five kinds of files in the folder."""
    out = tmp_path / "out"
    assert main(["check", "--out", str(out)]) == FINISHED
    printed = capsys.readouterr()
    assert "Findings: 1 serious, 1 attention, 1 note" in printed.out
    assert CAUTION.split(":")[0] in printed.out
    assert str(out / "report.html") in printed.out
    assert "first step" in printed.err
    assert "first step" not in printed.out
    document = json.loads((out / OF_A_CASE.file).read_text("utf-8"))
    assert document["schema"] == OF_A_CASE.schema
    assert sorted(path.name for path in out.iterdir()) == document["files"]
    assert {"contacts.csv", "tracks.csv", "gaps.csv", "report.html"} < set(document["files"])


def test_without_a_case_the_built_in_one_runs(quick, tmp_path):
    """No CASE, its name, and its text in a file are the same case."""
    own = tmp_path / "own.toml"
    own.write_text(case_text(DEFAULT_CASE), "utf-8")
    for given in ([], [DEFAULT_CASE], [str(own)]):
        main(["check", *given, "--out", str(tmp_path / "out")])
    assert [case for case, _ in quick] == [builtin_case()] * 3


def test_the_number_of_threads_arrives(quick, tmp_path):
    """The default is at least one thread; --threads says how many."""
    main(["check", "--out", str(tmp_path / "out")])
    main(["check", "--out", str(tmp_path / "out"), "--threads", "3"])
    assert quick[0][1] >= 1
    assert quick[1][1] == 3


@pytest.mark.parametrize("limit", ["note", "attention", "serious"])
def test_fail_on_compares_with_the_gravest_finding(quick, tmp_path, monkeypatch, example, limit):
    """Exit code 1 exactly when a finding is as grave as asked, or graver; files come anyway."""
    order = ["note", "attention", "serious"]
    for gravest in [None, *order]:
        findings = tuple(f for f in example.findings if gravest == f.severity)
        result = type(example)(**{**vars(example), "findings": findings})
        monkeypatch.setattr(checkup, "run", lambda *_, r=result: r)
        out = tmp_path / str(gravest)
        code = main(["check", "--out", str(out), "--fail-on", limit])
        expected = gravest is not None and order.index(gravest) >= order.index(limit)
        assert code == (FINDINGS if expected else FINISHED)
        assert (out / OF_A_CASE.file).exists()


class _Gone(io.StringIO):
    """An output that takes nothing."""

    def __init__(self, error):
        super().__init__()
        self.error, self.number = error, os.open(os.devnull, os.O_WRONLY)

    def write(self, text):
        """Take nothing."""
        raise self.error

    def fileno(self):
        """Return the number of a file that is open."""
        return self.number


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (BrokenPipeError(errno.EPIPE, "Broken pipe"), ""),
        (
            OSError(errno.ENOSPC, "No space left on device"),
            "cuspway: nothing could be printed (No space left on device). Written to ",
        ),
    ],
)
def test_what_cannot_be_printed_changes_no_exit_code(
    quick, tmp_path, monkeypatch, capsys, error, said
):
    """A reader that left and a full disk hide no finding from `--fail-on`, and files come."""
    gone, out = _Gone(error), tmp_path / "out"
    with monkeypatch.context() as patched:
        patched.setattr(sys, "stdout", gone)
        code = main(["check", "--out", str(out), "--fail-on", "note"])
    os.close(gone.number)
    assert code == FINDINGS
    assert (out / OF_A_CASE.file).exists()
    spoken = [line for line in capsys.readouterr().err.splitlines() if "cuspway:" in line]
    assert len(spoken) == (1 if said else 0)
    assert not said or spoken[0].startswith(said)


def test_bad_input_is_one_message_and_exit_code_2(quick, tmp_path, capsys):
    """Faults of the case file come on stderr; no traceback, no folder."""
    bad = tmp_path / "bad.toml"
    bad.write_text("titel = 1\n")
    assert main(["check", str(bad), "--out", str(tmp_path / "out")]) == BAD_INPUT
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.startswith(f"cuspway: {bad}: 1 fault\n  titel: unknown key")
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    "error", [InputError("settings cannot be reached"), NotConverged("settings fight", 0.1, 30)]
)
def test_input_that_only_the_run_can_refuse_is_bad_input_too(
    quick, tmp_path, capsys, monkeypatch, error
):
    """Settings that do not go together end with 2, one line, and no folder."""
    _failing_with(monkeypatch, error)
    assert main(["check", "--out", str(tmp_path / "out")]) == BAD_INPUT
    assert capsys.readouterr().err == f"cuspway: {error}\n"
    assert list(tmp_path.iterdir()) == []


def test_an_internal_error_is_one_line_and_exit_code_3(quick, tmp_path, capsys, monkeypatch):
    """What went wrong, and how to see where; the traceback only when asked for."""
    _failing_with(monkeypatch, ZeroDivisionError("division by zero"))
    out = str(tmp_path / "out")
    assert main(["check", "--out", out]) == INTERNAL_ERROR
    assert capsys.readouterr().err == (
        "cuspway: internal error: ZeroDivisionError: division by zero; "
        "repeat with --traceback to see where\n"
    )
    assert main(["check", "--out", out, "--traceback"]) == INTERNAL_ERROR
    assert "Traceback (most recent call last)" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_an_interrupted_run_leaves_nothing(quick, tmp_path, capsys, monkeypatch):
    """Ctrl-C ends with 130 and the place as it was."""
    _failing_with(monkeypatch, KeyboardInterrupt())
    assert main(["check", "--out", str(tmp_path / "out")]) == INTERRUPTED
    assert "interrupted" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_the_same_command_twice_gives_the_same_bytes(quick, tmp_path):
    """JSON and tables of two runs are equal byte by byte, whatever the folder is called."""
    for name in ("one", "another"):
        main(["check", "--out", str(tmp_path / name)])
    for path in (tmp_path / "one").iterdir():
        assert path.read_bytes() == (tmp_path / "another" / path.name).read_bytes()


QUICK_CASE = """
title = "Coarse and short"
lateroprotrusion_azimuths_deg = []
[dentition]
triangles_per_arch = 10000
[sweep]
step_mm = 0.5
travel_mm = 2.0
"""


def test_a_real_run_gives_the_same_bytes_for_any_number_of_threads(tmp_path, capsys):
    """From case file to report with one and with two threads: every file equal byte by byte."""
    case = tmp_path / "case.toml"
    case.write_text(QUICK_CASE, "utf-8")
    for threads in ("1", "2"):
        out = str(tmp_path / threads)
        assert main(["check", str(case), "--out", out, "--threads", threads]) == FINISHED
    printed = capsys.readouterr()
    assert printed.out.startswith("Coarse and short\n")
    assert "following right lateral" in printed.err
    names = {path.name for path in (tmp_path / "1").iterdir()}
    assert names == set(json.loads((tmp_path / "1" / OF_A_CASE.file).read_text("utf-8"))["files"])
    for name in names:
        assert (tmp_path / "1" / name).read_bytes() == (tmp_path / "2" / name).read_bytes()


def test_the_process_that_computes_does_not_draw(tmp_path):
    """Neither matplotlib nor PyVista is loaded by a check, nor anything printed but its steps."""
    case, out = tmp_path / "case.toml", tmp_path / "out"
    case.write_text(QUICK_CASE, "utf-8")
    code = (
        "import sys; from scenes.command_line import main; "
        f"main(['check', {str(case)!r}, '--out', {str(out)!r}]); "
        "print(sorted({'matplotlib', 'pyvista', 'vtkmodules', 'PIL'} & set(sys.modules)))"
    )
    done = run_python("-c", code)
    assert done.stdout.splitlines()[-1] == "[]"
    steps = [re.fullmatch(r" *\d+\.\d s  \S.*", line) for line in done.stderr.splitlines()]
    assert steps and all(steps), done.stderr
    report = (out / "report.html").read_text("utf-8")
    parsed = read_case(case)
    result = checkup.run(parsed, lambda step: None)
    assert report == html_report(result, case_words(parsed))


def test_the_report_gets_what_was_changed(quick, tmp_path, monkeypatch, capsys):
    """Against a case that is named as the case itself is."""
    heard = []
    monkeypatch.setattr(check_command, "write_html", lambda *told: heard.append(told[2]))
    case = tmp_path / "case.toml"
    case.write_text(case_text("natural_dentition"), "utf-8")
    for origin in ("natural_dentition", "nothing_of_that_name"):
        out = tmp_path / origin
        code = main(["check", str(case), "--out", str(out), "--changed-from", origin])
        assert code == (FINISHED if origin == "natural_dentition" else BAD_INPUT)
    assert "nothing_of_that_name: neither a file nor" in capsys.readouterr().err
    assert [words.changed_from for words in heard] == [builtin_case("natural_dentition").title]
    assert heard[0].changed == ()


def test_simplified_drawings_are_said_on_stderr_once(quick, tmp_path, capsys, monkeypatch):
    """What is missing for full pictures stands there too, not only in the report."""
    monkeypatch.setattr(NothingDrawn, "simplified", MISSING_TEXT)
    assert main(["check", "--out", str(tmp_path / "out")]) == FINISHED
    printed = capsys.readouterr()
    assert printed.err.splitlines()[-1] == f"cuspway: {MISSING_TEXT}"
    assert printed.err.count(MISSING_TEXT) == 1 and MISSING_TEXT not in printed.out


def test_bare_command_prints_help_with_a_command_that_works(quick, tmp_path, capsys, monkeypatch):
    """The example in the help is taken from it, run as it stands, and finishes."""
    assert main([]) == FINISHED
    shown = capsys.readouterr().out
    example = next(line for line in shown.splitlines() if line.startswith("  cuspway check"))
    monkeypatch.chdir(tmp_path)
    assert main(example.split()[1:]) == FINISHED
    assert (tmp_path / "cuspway-report" / "report.html").exists()


def test_help_lists_every_option_and_exit_code(capsys):
    """The help of a subcommand is made from the same parser that reads the arguments."""
    with pytest.raises(SystemExit):
        main(["check", "--help"])
    shown = capsys.readouterr().out
    for word in (
        "CASE",
        "--out DIR",
        "--fail-on",
        "--changed-from CASE",
        "--threads N",
        "--traceback",
    ):
        assert word in shown
    for code in (FINISHED, FINDINGS, BAD_INPUT, INTERNAL_ERROR, INTERRUPTED):
        assert f"\n  {code:<4} " in shown


def test_cases_lists_and_prints_them(capsys):
    """Each listed name can be printed, and what is printed is the case."""
    assert main(["cases"]) == FINISHED
    names = capsys.readouterr().out.split()
    assert names == case_names()
    assert DEFAULT_CASE in names
    for name in names:
        assert main(["cases", name]) == FINISHED
        assert capsys.readouterr().out == case_text(name)
        assert "nvented" in case_text(name)
        assert builtin_case(name).title
