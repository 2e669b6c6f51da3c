"""README: its commands are those of the automatic check, its Python runs, its files exist."""

import re
from collections import Counter

import pytest

from kinematics.adjustment_files import ADJUSTMENTS_FILE
from kinematics.advice_files import ADVICE_FILE
from kinematics.case import Case
from kinematics.case_file import parse_case
from kinematics.denture_files import SUPPORTS_FILE
from kinematics.extent_files import SET_UPS_FILE
from kinematics.lessons.lesson_file import parse_lesson
from kinematics.load_files import CONTACT_LOADS_FILE, LOADS_FILE, TOOTH_LOADS_FILE
from kinematics.remedy_files import REMEDIES_FILE
from kinematics.result_files import write_results
from kinematics.room_files import CROWNS_FILE, RESTS_FILE
from kinematics.sequence_files import SEQUENCE_FILE
from kinematics.survey_files import SURVEY_FILE
from kinematics.tracks.track_columns import LAYOUTS
from kinematics.uncertainty_files import INFLUENCES_FILE, UNCERTAINTY_FILE
from kinematics.wax_up_files import WAX_UP_FILE
from scenes.check_command import REPORT_FILE
from scenes.command_arguments import build_parser
from scenes.command_line import main
from tests.fresh_python import ROOT, run_python

README = (ROOT / "README.md").read_text("utf-8")


def _blocks(language):
    return re.findall(rf"^```{language}\n(.*?)^```$", README, flags=re.DOTALL | re.MULTILINE)


def test_the_two_commands_are_those_that_are_checked():
    """The first two shell blocks stand word for word in .ci/run, in the same order."""
    install_and_run, tests = (block.strip() for block in _blocks("sh")[:2])
    assert install_and_run.startswith("python3 -m venv .venv && ")
    assert tests.endswith("&& .venv/bin/pytest")
    lines = (ROOT / ".ci" / "run").read_text("utf-8").splitlines()
    assert lines.index(install_and_run) < lines.index(tests)
    assert lines[-1] == tests  # so that the summary of the tests comes last


def test_every_command_shown_is_understood():
    """Each line that begins with cuspway is accepted by the parser."""
    lines = [line for block in _blocks("sh") for line in block.splitlines()]
    commands = [line.split("#")[0].split(">")[0].split() for line in lines if "cuspway " in line]
    shown = [words[1:] for words in commands if words[0] == "cuspway"]
    assert len(shown) >= 4
    for arguments in shown:
        try:
            build_parser().parse_args(arguments)
        except SystemExit as end:  # --help ends by itself
            assert (arguments[-1], end.code) == ("--help", 0)


#: How many blocks README has, by their language; each is run or read by a test of this file.
BLOCKS = {"sh": 15, "python": 2, "text": 2, "toml": 11, "csv": 1}
#: Commands that are quick enough to be run as they stand.
QUICK = ("cases", "settings", "lessons")


def test_every_block_is_of_a_kind_that_is_tested():
    """A block of another kind, or one more, must get a test."""
    marks = re.findall(r"^```(\w*)\n(?:.*?)^```$", README, flags=re.DOTALL | re.MULTILINE)
    assert Counter(marks) == BLOCKS


def test_quick_commands_run_as_they_stand(tmp_path, monkeypatch, capsys):
    """In their order, in one folder, where one writes what the next one reads."""
    monkeypatch.chdir(tmp_path)
    lines = [line.split("#")[0] for block in _blocks("sh") for line in block.splitlines()]
    quick = [line.split() for line in lines if re.match(rf"cuspway ({'|'.join(QUICK)})\b", line)]
    assert len(quick) >= 7
    for words in quick:
        given, _, target = " ".join(words[1:]).partition(" > ")
        assert main(given.split()) == 0, words
        told = capsys.readouterr().out
        assert told
        if target:
            (tmp_path / target).write_text(told, "utf-8")


def test_files_of_toml_are_accepted():
    """Each is a case file, or one of a lesson, as it stands."""
    for block in _blocks("toml"):
        read = parse_lesson if "[[rounds]]" in block else parse_case
        assert read(block, "README")


def test_the_table_of_a_track_has_the_columns_of_one():
    """Its header and rows are as a recorder would give them."""
    (block,) = _blocks("csv")
    header, *rows = [line.split(",") for line in block.splitlines()]
    assert header == ["time_s", *LAYOUTS["quaternion"]]
    assert all([float(cell) for cell in row] and len(row) == len(header) for row in rows)


@pytest.mark.parametrize(("number", "written"), [(0, ["left_lateral.png"]), (1, [])])
def test_the_python_runs_and_prints_what_is_shown(tmp_path, number, written):
    """There are two Python blocks; their output is the text block that follows each."""
    code, expected = list(zip(_blocks("python"), _blocks("text"), strict=True))[number]
    done = run_python("-c", code, cwd=tmp_path, timeout_s=600.0)
    assert (done.returncode, done.stdout) == (0, expected), done.stderr
    assert [path.name for path in tmp_path.iterdir()] == written


def test_pictures_and_linked_files_exist():
    """Every relative link of README and DEVELOPERS points to a file of the project."""
    for page in ("README.md", "DEVELOPERS.md"):
        links = re.findall(r"\]\(([^)#]+)\)", (ROOT / page).read_text("utf-8"))
        missing = [link for link in links if "://" not in link and not (ROOT / link).exists()]
        assert missing == []
    assert re.search(r"!\[[^\]]+\]\([^)]+\.png\)", README)


def test_links_within_readme_lead_to_a_heading():
    """As the page of a repository names them."""
    headings = re.findall(r"^#+ (.*)$", README, re.MULTILINE)
    names = {re.sub(r"[^\w\- ]", "", text).lower().replace(" ", "-") for text in headings}
    asked = re.findall(r"\]\(#([^)]+)\)", README)
    assert len(asked) > 10
    assert set(asked) <= names


def test_exit_codes_of_readme_are_those_of_the_program():
    """The table of exit codes lists just the codes in the help, in order."""
    table = re.findall(r"^\| (\d+) \|", README, flags=re.MULTILINE)
    help_codes = re.findall(r"^  (\d+) +\S", build_parser().format_help(), flags=re.MULTILINE)
    assert table == help_codes


def test_the_table_of_files_is_what_a_run_writes(example, tmp_path):
    """README describes every file of the results folder and none besides.

    Which of them only cases with replaced teeth have is said of each.
    """
    write_results(tmp_path, Case(), example)
    written = {path.name for path in tmp_path.iterdir()} | {REPORT_FILE}
    rows = re.findall(r"^\| `([a-z_]+\.(?:json|csv|html))` \| (.*) \|$", README, re.MULTILINE)
    some = (
        "adjustments", "remedies", "denture bases", "replaced teeth", "replaced or splinted teeth",
        "rests", "planned crowns", r"`\[survey\]`", "wax-ups", "steps to do",
        r"`\[uncertainty\]`",
    )  # fmt: skip
    with_some = re.compile(f"with ({'|'.join(some)}): ")
    of_some = {name for name, text in rows if with_some.match(text)}
    assert {name for name, _ in rows} - of_some == written
    assert of_some == {
        SUPPORTS_FILE, SET_UPS_FILE, ADVICE_FILE, LOADS_FILE, TOOTH_LOADS_FILE, CONTACT_LOADS_FILE,
        RESTS_FILE, CROWNS_FILE, SURVEY_FILE, WAX_UP_FILE, ADJUSTMENTS_FILE,
        SEQUENCE_FILE, REMEDIES_FILE, UNCERTAINTY_FILE, INFLUENCES_FILE,
    }  # fmt: skip


def test_the_map_of_modules_is_the_tree():
    """DEVELOPERS names every module of both packages, and none that is not there."""
    page = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    named = set(re.findall(r"^\| `((?:kinematics|scenes)/\S+\.py)` \|", page, re.MULTILINE))
    files = [p for folder in ("kinematics", "scenes") for p in (ROOT / folder).rglob("*.py")]
    there = {path.relative_to(ROOT).as_posix() for path in files if path.name != "__init__.py"}
    assert named == there
