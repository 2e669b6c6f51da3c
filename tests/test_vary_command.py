"""The command that varies settings: its folder, its page, what stops it."""

import csv
import io
import json
import re
from functools import partial

import pytest

from kinematics.case_file import case_toml
from kinematics.checks import InputError
from kinematics.engine.local_hands import LocalHands
from kinematics.engine.plan import Job, Plan
from kinematics.result_texts import OF_A_VARIATION
from kinematics.variation_files import FLIPS_TABLE, RUNS_TABLE
from kinematics.varying.flips import most_followed
from kinematics.varying.grid import grid_over
from kinematics.varying.varied import Round
from scenes import vary_command, vary_page
from scenes.command_arguments import BAD_INPUT, build_parser
from scenes.command_line import main
from scenes.drawing_processes import InLine
from scenes.given_case import find_case
from scenes.sheet import Words
from scenes.vary_command import PAGE_FILE, VaryOptions, vary
from tests.made_variations import variation
from tests.printed_page import A4_MM, boxes_mm, printed, read_offline
from tests.shipped_cases import coarse

NAME = "upper_distal_extension"
LINE = ("guidance.condylar_inclination_deg=25..45:3",)
PLANE = (LINE[0][:-1] + "2", "guidance.progressive_shift_deg=4..16:2")
#: A setting that no excursion of this length notices.
NOTHING = ("guidance.path_length_mm=14..15:2",)
#: Width of a window, and the letters of charts in it as they show, pixels.
USUAL_PX = 1200
LEAST_LETTERS_PX = 11.0
POINT_PX = """() => [...document.querySelectorAll("figure svg")].map(
    svg => svg.getBoundingClientRect().width / svg.viewBox.baseVal.width)"""
NAMES = {PAGE_FILE, RUNS_TABLE, FLIPS_TABLE, OF_A_VARIATION.file}


@pytest.fixture
def case_file(tmp_path):
    """Return the path of a case with coarse teeth."""
    path = tmp_path / "case.toml"
    path.write_text(case_toml(coarse(NAME)))
    return str(path)


@pytest.fixture
def known(monkeypatch):
    """Let the command find what is varied already known."""

    def varied(_case, grid, *_more):
        over = LINE if len(grid.axes) == 1 else PLANE
        return variation(NAME, over)[1]

    monkeypatch.setattr(vary_command, "varied", varied)


def write(case_file, over, out, hands=None, runs=None):
    """Run the command; return its summary."""
    options = VaryOptions(over, out, runs)
    case = find_case(case_file)
    hands = hands or LocalHands(1)
    return vary(case, grid_over(case, over), options, lambda _: None, hands, InLine())


def least_pt(over):
    """Return the size of the smallest letters on all maps or charts of a page."""
    case, found = variation(NAME, over)
    sheets = vary_page.sheets_of(case, found, list(vary_page.numbered(found).values()))
    return min(
        item.size_pt for _, sheet in sheets for item in sheet.items if isinstance(item, Words)
    )


def rows(path):
    """Return the rows of a table by the names of their columns."""
    return [*csv.DictReader(io.StringIO(path.read_text("utf-8")))]


@pytest.mark.parametrize("over", [LINE, PLANE], ids=["line", "plane"])
def test_a_folder_with_page_and_tables_appears(known, case_file, tmp_path, over):
    """All files are there and listed; tables have every run and every crossing."""
    out = tmp_path / "out"
    summary = write(case_file, over, out)
    assert {path.name for path in out.iterdir()} == NAMES
    found = variation(NAME, over)[1]
    document = json.loads((out / OF_A_VARIATION.file).read_text("utf-8"))
    assert set(document["files"]) == NAMES and len(document["runs"]) == len(found.runs)
    runs = rows(out / RUNS_TABLE)
    assert [run["run"] for run in runs].count("grid") == len(found.grid.points)
    assert runs[-1]["run"] == "as set" and len(runs) == len(found.runs) + 1
    flips = rows(out / FLIPS_TABLE)
    assert len(flips) == sum(len(flip.crossings) for flip in found.flips) > 0
    for flip in flips:
        axis = next(a for a in found.grid.axes if a.setting == flip["setting"])
        assert float(flip["to"]) - float(flip["from"]) == pytest.approx(axis.step / 16)
    page = (out / PAGE_FILE).read_text("utf-8")
    assert not re.search(r'(src|href)="(?!data:|#)', page)
    assert "condylar inclination of both sides" in summary and "as set" in summary
    # The same again takes the place of the first, byte for byte.
    before = {path.name: path.read_bytes() for path in out.iterdir()}
    write(case_file, over, out)
    assert {path.name: path.read_bytes() for path in out.iterdir()} == before


@pytest.mark.parametrize("over", [LINE, PLANE], ids=["line", "plane"])
def test_a_browser_opens_the_page_offline_and_prints_it(browser, known, case_file, tmp_path, over):
    """No request and no complaint; on A4 no figure is cut and none lies over another."""
    out = tmp_path / "out"
    write(case_file, over, out)
    for width in (USUAL_PX, 390):
        with read_offline(browser, out / PAGE_FILE, width) as tab:
            assert tab.locator("figure svg").count() > 5
            # What does not change is folded away, with a count, behind all that does.
            folded = tab.locator("details")
            assert folded.count() == 1 and not folded.evaluate("d => d.open")
            assert re.search(r"What does not change: \d+ quantities", folded.inner_text())
            if width == USUAL_PX:
                assert min(tab.evaluate(POINT_PX)) * least_pt(over) >= LEAST_LETTERS_PX
            assert tab.locator("h2").all_inner_texts()[-1] == "Files"
            assert "Determinants of occlusion" in tab.locator("h2").all_inner_texts()
    tab = printed(browser, out / PAGE_FILE)
    boxes = boxes_mm(tab, "figure")
    for left, top, right, bottom in boxes:
        assert left >= 0 and right <= A4_MM[0] + 0.5 and bottom - top <= A4_MM[1]
    for k, one in enumerate(boxes):
        for other in boxes[:k]:
            apart = one[0] >= other[2] or other[0] >= one[2] or one[1] >= other[3] - 0.1
            assert apart or other[1] >= one[3] - 0.1
    tab.close()


def test_results_are_the_same_bytes_for_any_number_of_processes(case_file, tmp_path, monkeypatch):
    """One process and two; runs that were kept are not run again."""
    write(case_file, NOTHING, tmp_path / "one", runs=tmp_path / "kept")
    monkeypatch.setattr(vary_command, "_FEW", 0)
    write(case_file, NOTHING, tmp_path / "two", LocalHands(2))
    for name in NAMES:
        one, two = ((tmp_path / out / name).read_bytes() for out in ("one", "two"))
        assert one == two
    one = (tmp_path / "one" / RUNS_TABLE).read_bytes()
    monkeypatch.setattr(LocalHands, "work", None)
    write(case_file, NOTHING, tmp_path / "again", runs=tmp_path / "kept")
    assert (tmp_path / "again" / RUNS_TABLE).read_bytes() == one
    other = ("guidance.path_length_mm=13..15:2",)
    with pytest.raises(InputError, match="another study was begun here"):
        write(case_file, other, tmp_path / "other", runs=tmp_path / "kept")
    assert not (tmp_path / "other").exists()


@pytest.mark.parametrize("error", [KeyboardInterrupt, InputError])
def test_what_ends_it_leaves_nothing(case_file, tmp_path, monkeypatch, error):
    """An interruption between runs, or while the page is made: no folder, no leftovers."""

    def stopped(*_args, **_more):
        raise error("stopped")

    for name in ("run", "vary_page"):
        with monkeypatch.context() as patched:
            patched.setattr(vary_command, name, stopped)
            if name == "vary_page":
                patched.setattr(vary_command, "varied", lambda *_: variation(NAME, LINE)[1])
            with pytest.raises(error):
                write(case_file, LINE, tmp_path / "made" / "out")
        assert {path.name for path in tmp_path.iterdir()} == {"case.toml"}


def test_folders_of_others_and_bad_axes_are_refused_before_anything_runs(
    case_file, tmp_path, monkeypatch
):
    """Nothing is run and nothing is touched."""
    monkeypatch.setattr(vary_command, "varied", None)
    out = tmp_path / "out"
    out.mkdir()
    (out / "mine.txt").write_text("keep")
    with pytest.raises(InputError, match="left alone"):
        write(case_file, LINE, out)
    assert (out / "mine.txt").read_text() == "keep"
    refused = partial(write, case_file, out=tmp_path / "new")
    with pytest.raises(InputError, match="must be 0 to 80 degrees"):
        refused(("guidance.condylar_inclination_deg=20..95",))
    with pytest.raises(InputError, match="neither a file nor a built-in case"):
        write("no_such_case", LINE, tmp_path / "new")
    assert not (tmp_path / "new").exists()


def test_the_command_line_takes_one_or_two_axes(capsys, tmp_path):
    """Axes add up; bad ones give one line and the code of bad input."""
    asked = ["vary", "a", "--over", "b=1..2", "--over", "c=1..2", "--out", "d", "--processes", "3"]
    given = build_parser().parse_args(asked)
    assert (given.over, given.processes, given.runs) == (["b=1..2", "c=1..2"], 3, None)
    out = str(tmp_path / "out")
    assert main(["vary", NAME, "--over", "nonsense", "--out", out]) == BAD_INPUT
    said = capsys.readouterr().err.strip().splitlines()
    assert said[-1].startswith("cuspway: --over 'nonsense': wanted SETTING=FROM..TO")
    with pytest.raises(SystemExit) as ended:
        main(["vary", NAME, "--out", out])
    assert ended.value.code == BAD_INPUT and "--over" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("over", [LINE, PLANE], ids=["line", "plane"])
def test_runs_are_announced_and_counted(case_file, tmp_path, monkeypatch, over):
    """How many there are at least and at most comes first; counts say what may still come."""
    said = []

    def varied(_case, grid, _about, carry_out):
        job = Job("grid", None, 5, {"count": "int"})
        plan = Plan({}, (job,), lambda _: None, lambda _, number: {"count": number})
        for number, more in ((0, most_followed(grid)), (1, 12)):
            assert len(carry_out(plan, Round(number, more))) == 5
        return variation(NAME, over)[1]

    monkeypatch.setattr(vary_command, "varied", varied)
    case = find_case(case_file)
    options = VaryOptions(over, tmp_path / "out")
    vary(case, grid_over(case, over), options, said.append, LocalHands(1), InLine())
    grid = variation(NAME, over)[1].grid
    least = len(grid.points) + (0 if len(over) == 1 else 1)
    most = least + most_followed(grid)
    first = next(line for line in said if "at most" in line)
    assert first.startswith(f"{least} runs of the grid") and f"{most:,} at most" in first
    assert f"the grid: 5 of 5 runs; up to {most_followed(grid):,} more to come" in said
    assert "between points, round 1: 5 of 5 runs; up to 12 more to come" in said
    assert not any("samples" in line for line in said)
