"""`cuspway study`: cases in, a table of them and how sure their findings are out."""

import json
import os
import signal
import subprocess
import sys
import time
from contextlib import nullcontext
from dataclasses import replace

import pytest

from kinematics.case_file import case_toml, read_case
from kinematics.checks import InputError
from kinematics.engine.local_hands import LocalHands
from kinematics.uncertainty.settings import SettingSpread, UncertaintySettings
from scenes import drawing_orders, drawing_processes, study_command
from scenes.check_command import check
from scenes.command_arguments import FINDINGS, FINISHED, INTERRUPTED
from scenes.command_line import main
from scenes.drawing_processes import InLine
from scenes.found_cases import found_cases
from scenes.study_arguments import RESULTS, SAMPLES
from scenes.study_command import FIRST_PAGE, StudyOutcome, study
from tests.shipped_cases import coarse
from tests.test_compare_command import Sketching

RIGHT = SettingSpread(
    setting="guidance.right.condylar_inclination_deg", standard_error=9.0, source="a guess"
)
FEW = UncertaintySettings(samples=16, unrecorded="exact", spread=(RIGHT,))


def silent(_):
    """Tell nobody."""


@pytest.fixture(scope="module")
def case_file(tmp_path_factory):
    """Return a case of which one setting is uncertain."""
    case = replace(coarse("upper_distal_extension"), uncertainty=FEW)
    path = tmp_path_factory.mktemp("case") / "one.toml"
    path.write_text(case_toml(case), "utf-8")
    return path


def studied(given, out, samples=None, progress=silent, hands=None):
    """Run a study in this process; return its outcome."""
    cases, hands = found_cases([str(given)]), hands or LocalHands(1)
    return study(cases, out, samples, progress, hands, Sketching())


def contents(out):
    """Return every result of a study by its name."""
    return {path.name: path.read_bytes() for path in (out / RESULTS).iterdir()}


@pytest.fixture(scope="module")
def whole(case_file, tmp_path_factory):
    """Return the folder of a study that nobody disturbed, and what was told."""
    out = tmp_path_factory.mktemp("whole") / "out"
    return out, studied(case_file, out).summary


def test_a_study_tells_how_sure_findings_are(whole, case_file):
    """On the screen, on a page of its own that stands alone, and in tables that are listed."""
    out, told = whole
    assert "Of 16 samples of uncertain settings" in told and str(case_file) in told
    found = contents(out)
    document = json.loads(found["cases.json"])
    assert set(document["files"]) == set(found)
    (row,) = document["cases"]
    assert row["serious"] >= 1 and row["settled"] + row["not_settled"] >= row["serious"]
    page = found["one-study.html"].decode("utf-8")
    assert "±9.0°" in page and "a guess" in page
    assert 'href="one-study.html"' in found["cases.html"].decode("utf-8")
    shares = found["one-uncertainty.csv"].decode("utf-8").splitlines()
    assert len(shares) > 8 and "replacement tooth touches" in shares[1]


def test_a_finished_study_is_told_again_without_a_run(whole, case_file, monkeypatch):
    """Its samples stand; the results are the same bytes."""
    out, told = whole
    before = contents(out)

    class NoHands:
        """Refuses to work."""

        def work(self, plan, missing):
            raise AssertionError("nothing is missing")

    assert studied(case_file, out, hands=NoHands()).summary == told
    assert contents(out) == before


def test_other_samples_are_another_study(whole, case_file):
    """They are refused in its folder, with what differs."""
    out, _ = whole
    with pytest.raises(InputError, match=r"another study was begun here.*samples"):
        studied(case_file, out, 32)


def test_a_study_stopped_by_hand_goes_on_where_it_was(whole, case_file, tmp_path):
    """Ctrl-C says that finished runs are kept; the same command ends with the same bytes."""
    out = tmp_path / "out"
    command = [sys.executable, "-m", "scenes.command_line", "study", str(case_file)]
    command += ["--processes", "2", "--out", str(out)]
    running = subprocess.Popen(command, stderr=subprocess.PIPE, text=True, env=dict(os.environ))
    kept = out / SAMPLES / "samples" / "one"
    waited_until = time.monotonic() + 300.0
    while time.monotonic() < waited_until and len(list(kept.glob("*.parquet"))) < 3:
        time.sleep(0.05)
    running.send_signal(signal.SIGINT)
    _, said = running.communicate(timeout=120.0)
    assert running.returncode == INTERRUPTED
    assert f"finished runs are kept in {out}" in said
    assert not (out / RESULTS).exists()
    done = len(list(kept.glob("*.parquet")))
    assert 3 <= done < 25
    studied(case_file, out)
    assert contents(out) == contents(whole[0])


def test_a_folder_of_cases_makes_one_table(tmp_path):
    """Gravest first, faulty ones at the end with their reason; the settings as they are."""
    folder = tmp_path / "cases"
    (folder / "flat").mkdir(parents=True)
    (folder / "a.toml").write_text(case_toml(coarse("natural_dentition")), "utf-8")
    (folder / "flat" / "case.toml").write_text(case_toml(coarse("flat_guidance")), "utf-8")
    (folder / "b.toml").write_text("title = 3\nloads = 1\n", "utf-8")
    (folder / "notes.txt").write_text("call the laboratory", "utf-8")
    (folder / ".hidden").write_text("", "utf-8")
    steps = []
    done = studied(folder, tmp_path / "out", 0, steps.append)
    told = done.summary
    unread = f"not read, neither .toml nor a folder with case.toml: {folder / 'notes.txt'}"
    assert f"{unread}." in told.splitlines() and unread in steps
    assert not done.all_judged
    assert told.index("Flat guidance") < told.index("Natural dentition") < told.index("title = 3")
    faults = told.splitlines()[told.splitlines().index(str(folder / "b.toml")) + 1 :]
    assert " ".join(" ".join(faults).split()).startswith(
        f"cannot be run: {folder / 'b.toml'}: 2 faults title = 3"
    )
    starts = [line.split()[0] for line in faults if line[:2] == "  " and line[2:3].isalpha()]
    assert starts == ["cannot", "title", "loads:"]
    rows = json.loads(contents(tmp_path / "out")["cases.json"])["cases"]
    assert [bool(row.get("refused")) for row in rows] == [False, False, True]
    assert rows[0]["serious"] > 0 and rows[1]["settled"] is None
    assert (tmp_path / "out" / FIRST_PAGE).exists()


def test_cases_get_names_of_their_own(tmp_path):
    """Whatever their files are called, and wherever they stand."""
    text = case_toml(coarse("natural_dentition"))
    for name in ("A b.toml", "a-b.toml", "x/case.toml", "y/x/case.toml"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, "utf-8")
    found = found_cases([str(tmp_path), str(tmp_path / "y" / "x"), "flat_guidance"])
    assert found.unread == ()
    assert [item.name for item in found.cases] == ["A-b", "a-b-2", "x", "x-2", "flat_guidance"]
    empty = tmp_path / "empty"
    empty.mkdir()
    with pytest.raises(InputError, match="holds no case"):
        found_cases([str(empty)])
    with pytest.raises(InputError, match="neither a file nor a built-in case"):
        found_cases(["nowhere"])


def test_a_report_has_shares_where_the_case_asks_for_them(case_file, tmp_path):
    """Beside findings, in findings.json and on the screen; as in a study of the same case."""
    out = tmp_path / "report"
    done = check(read_case(case_file), out, silent, 1, Sketching())
    assert "Of 16 samples of uncertain settings" in done.summary
    document = json.loads((out / "findings.json").read_text("utf-8"))
    told = [finding["holds_in"] for finding in document["findings"]]
    assert any(told) and not all(told)
    assert document["uncertainty"]["runs"] == 24
    assert "of 16 samples" in (out / "report.html").read_text("utf-8")


@pytest.mark.parametrize(("all_judged", "code"), [(True, FINISHED), (False, FINDINGS)])
def test_a_case_that_could_not_be_judged_shows_in_the_exit_code(
    all_judged, code, tmp_path, monkeypatch, capsys
):
    """All is written and told first; then the shell learns of it."""
    outcome = StudyOutcome("what was found", all_judged)
    monkeypatch.setattr(study_command, "study", lambda *_: outcome)
    monkeypatch.setattr(drawing_processes, "drawing_processes", lambda _: nullcontext(InLine()))
    monkeypatch.setattr(drawing_orders, "get_ready", lambda: None)
    assert main(["study", "flat_guidance", "--out", str(tmp_path / "out")]) == code
    assert capsys.readouterr().out.startswith("what was found\n\nWritten to ")
