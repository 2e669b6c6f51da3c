"""The command that compares two cases: its folder, its page, what it refuses."""

import json
import re
from concurrent.futures import Executor, Future
from dataclasses import replace
from types import SimpleNamespace

import pytest

from kinematics.case_file import case_toml, read_case
from kinematics.checks import InputError
from kinematics.comparison_files import FINDINGS_TABLE, STOPS_TABLE
from kinematics.result_texts import OF_A_COMPARISON
from kinematics.trial.settings import Change
from scenes import compare_command
from scenes.command_arguments import BAD_INPUT, build_parser
from scenes.command_line import main
from scenes.compare_command import PAGE_FILE, compare
from scenes.drawing_orders import DrawnPicture, picture_of
from tests.shipped_cases import coarse, shipped

NAME = "natural_dentition"


class Sketching(Executor):
    """Draws nothing, but says it has."""

    def submit(self, fn, /, *args, **kwargs):
        """Return what stands for a drawing."""
        future = Future()
        empty = DrawnPicture("data:image/jpeg;base64,", "")
        future.set_result(empty if fn is picture_of else "")
        return future


@pytest.fixture
def two_cases(tmp_path, monkeypatch):
    """Two case files, the second with a trial set-up; both run as the coarse natural teeth."""

    def run(case, progress, threads):
        progress("following protrusion")
        return replace(shipped(NAME), findings=shipped(NAME).findings[len(case.change) :])

    monkeypatch.setattr(compare_command, "checkup", SimpleNamespace(run=run))
    case = coarse(NAME)
    files = []
    for number, change in enumerate([(), (Change("wear", 16, by_mm=0.1),)]):
        files.append(tmp_path / f"case{number}.toml")
        files[-1].write_text(case_toml(replace(case, title=f"Case <{number}>", change=change)))
    before, after = map(read_case, files)
    return before, after, tmp_path / "out", lambda _: None


def test_a_folder_with_page_and_tables_appears(two_cases):
    """All files are there and listed; the page stands alone, and names the trial set-up."""
    before, after, out, _ = two_cases
    steps = []
    done = compare(before, after, out, steps.append, 1, Sketching())
    assert [step.split(":")[0] for step in steps[:2]] == ["before", "after"]
    names = {PAGE_FILE, OF_A_COMPARISON.file, FINDINGS_TABLE, STOPS_TABLE}
    assert {path.name for path in out.iterdir()} == names
    document = json.loads((out / OF_A_COMPARISON.file).read_text("utf-8"))
    assert set(document["files"]) == names
    assert document["counts"]["gone"] == 1 and document["before"] == "Case <0>"
    page = (out / PAGE_FILE).read_text("utf-8")
    assert "After, trial set-up: 16 worn by 0.1 mm." in page
    assert "Case &lt;1&gt;" in page and "Case <1>" not in page
    assert not re.search(r'(src|href)="(?!data:|#)', page)
    assert "1 gone" in done.summary and not done.warning
    # A second comparison may take the place of the first.
    compare(before, before, out, steps.append, 1, Sketching())
    assert "Nothing differs" in (out / PAGE_FILE).read_text("utf-8")


def test_the_same_results_give_the_same_bytes(two_cases, tmp_path):
    """No date, no path: two folders of the same comparison are alike."""
    before, after, out, quiet = two_cases
    for folder in (out, tmp_path / "again"):
        compare(before, after, folder, quiet, 1, Sketching())
    for path in out.iterdir():
        assert path.read_bytes() == (tmp_path / "again" / path.name).read_bytes()
        assert str(tmp_path) not in path.read_text("utf-8")


def test_what_cannot_be_used_is_refused_and_leaves_nothing(two_cases, tmp_path, monkeypatch):
    """A folder of somebody else, an interruption."""
    before, after, out, quiet = two_cases
    out.mkdir()
    (out / "mine.txt").write_text("keep")
    with pytest.raises(InputError, match="left alone"):
        compare(before, after, out, quiet, 1, Sketching())
    assert (out / "mine.txt").read_text() == "keep"

    def interrupted(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(compare_command, "checkup", SimpleNamespace(run=interrupted))
    with pytest.raises(KeyboardInterrupt):
        compare(before, after, tmp_path / "new", quiet, 1, Sketching())
    assert not (tmp_path / "new").exists()


def test_the_command_takes_two_cases_and_a_folder(capsys):
    """Help names both; a missing one is refused."""
    given = build_parser().parse_args(["compare", "a", "b", "--out", "c", "--threads", "2"])
    assert (given.before, given.after, str(given.out), given.threads) == ("a", "b", "c", 2)
    with pytest.raises(SystemExit) as ended:
        main(["compare", "a", "--out", "c"])
    assert ended.value.code == BAD_INPUT
    assert "AFTER" in capsys.readouterr().err
