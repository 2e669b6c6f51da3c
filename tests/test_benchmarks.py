"""Benchmarks: every library closes as exactly as it says, and the tables can be read."""

import importlib
import re
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from benchmarks import __main__, command, figures, first_result, ratios, scenes, tuning
from benchmarks.bodies import waved_body
from benchmarks.expecting import Expected
from benchmarks.figures import bytes_in
from benchmarks.table import Figure, NotMeasured, Ratio, Run, figure_lines, ratio_lines
from benchmarks.tuning import Way, quickest
from kinematics.casts.casts import Arch
from kinematics.contact.closure import MEETS, close
from kinematics.contact.pair import prepare
from kinematics.geometry.kernels.features import EDGE_ON_EDGE
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses, move_points, opening_rotation
from tests.fresh_python import ROOT

SIDE = 15


def body(back_mm, raised, offset):
    """Return a waved body some of whose vertices, (ahead, aside) in its grid, stand out."""
    arch = waved_body(SIDE, back_mm)
    vertices = arch.mesh.vertices.copy()
    for ahead, aside in raised:
        vertices[ahead * SIDE + aside, 2] = -33.0 - np.copysign(2.5, back_mm)
    return Arch(mesh_of(vertices + offset, arch.mesh.faces), arch.tooth_of_face, ())


def tip_and_wave():
    """Return a wave and a single tip below it: vertex on face."""
    return waved_body(SIDE, 5.0), body(-5.0, [(7, 7)], (0.0, 0.0, -4.0))


def crossed_ridges():
    """Return a ridge aside over a ridge ahead: edge on edge."""
    upper = body(5.0, [(7, 7), (7, 8)], (0.0, 0.0, 0.0))
    return upper, body(-5.0, [(7, 7), (8, 7)], (-1.2, 1.2, -6.0))


def path(poses=8, jump_mm=0.0):
    """Return poses that glide forward and aside, the last half of them after a jump."""
    moved = identity_poses(poses)
    moved[:, 0, 3], moved[:, 1, 3] = 0.07 * np.arange(poses), 0.03 * np.arange(poses) ** 1.5
    moved[poses // 2 :, 0, 3] += jump_mm
    return moved


def ways_of(key, upper, lower):
    """Return the ways to use a library, or skip where it is not installed."""
    library = ratios.LIBRARIES[key]
    try:
        module = importlib.import_module(library.module)
    except ImportError as error:
        pytest.skip(f"{library.name} is not installed ({error.name})")
    return module.ways(upper, lower)


@pytest.mark.parametrize("key", ratios.LIBRARIES)
@pytest.mark.parametrize("bodies", [tip_and_wave, crossed_ridges])
def test_every_way_of_every_library_closes_within_its_error(key, bodies):
    """Bisection answers within a tenth of a micrometre; rays miss edges and nothing else."""
    upper, lower = bodies()
    ours = close(prepare(upper, lower), path(jump_mm=1.0))
    assert (ours.status == MEETS).all()
    assert ((ours.kind == EDGE_ON_EDGE) == (bodies is crossed_ridges)).all()
    for way in ways_of(key, upper, lower):
        openings, effort = way.close(path(jump_mm=1.0))
        _, agrees = ratios.compared(ours, openings, ratios.LIBRARIES[key].misses_edges)
        assert agrees, (way.words, openings - ours.opening_rad)
        assert effort >= 1.0


def test_rays_miss_what_edges_hold_open():
    """Where edges meet first, rays answer with a smaller opening, and that is told."""
    upper, lower = crossed_ridges()
    ours = close(prepare(upper, lower), path())
    for way in ways_of("embree", upper, lower):
        openings, _ = way.close(path())
        largest_um, _ = ratios.compared(ours, openings, True)
        assert largest_um > 1.0
        assert not ratios.compared(ours, openings, False)[1]


def test_answers_that_differ_too_much_are_not_in_order():
    """A tenth of a micrometre either way is; more is not, but below for missed edges."""
    ours = SimpleNamespace(
        opening_rad=np.zeros(2), radius_mm=np.full(2, 100.0), kind=np.array([0, EDGE_ON_EDGE])
    )
    for openings_um, misses_edges, wanted in (
        ((0.1, -0.1), False, True),
        ((0.0, -0.2), False, False),
        ((0.0, -0.2), True, True),
        ((0.0, 0.2), True, False),
        ((-0.2, 0.0), True, False),
    ):
        largest_um, agrees = ratios.compared(ours, np.array(openings_um) / 1e5, misses_edges)
        assert agrees is wanted
        assert largest_um == pytest.approx(max(map(abs, openings_um)))


@pytest.fixture
def clock(monkeypatch):
    """Let time go by only as a test says."""
    now = SimpleNamespace(seconds=0.0)
    monkeypatch.setattr(tuning, "time", SimpleNamespace(perf_counter=lambda: now.seconds))
    return now


def way_of(clock, words, pose_s, answer):
    """Return a way that takes so long a pose and always answers the same."""

    def work(poses):
        clock.seconds += pose_s * len(poses)
        return np.full(len(poses), answer), 1.0

    return Way(words, work)


def test_the_quickest_way_that_is_as_exact_is_taken(clock):
    """A quick way with other answers than the first is passed over."""
    chosen = [("slow", 0.02, 1.0), ("wrong", 0.001, 1.1), ("quick", 0.002, 1.0 + 1e-7)]
    ways = [way_of(clock, *each) for each in chosen]
    assert quickest(ways, path(20), 1e-6) == (ways[2], pytest.approx(0.04))


def test_not_all_ways_are_tried_where_poses_take_long(clock):
    """Twenty poses of the first take too long already; of eight, all are tried."""
    chosen = [("first", 1.0, 1.0), ("second", 0.9, 1.0), ("third", 0.1, 1.0)]
    ways = [way_of(clock, *each) for each in chosen]
    assert quickest(ways, path(20), 1e-6)[0].words == "first"
    assert quickest(ways, path(8), 1e-6)[0].words == "third"


def test_expectations_follow_a_line_and_begin_anew_after_a_jump():
    """Two answers give a line; a pose far from the one before gives a guess that says so."""
    expected, poses, seen = Expected(by_line=True), path(6, jump_mm=5.0), []
    for pose, answer in zip(poses, (1.0, 1.5, 2.5, 7.0, 7.5, 8.5), strict=True):
        expected.begin(pose)
        seen.append((expected.opening_rad, expected.jumped))
        expected.end(answer)
    assert seen == [
        (0.0, True), (1.0, False), (2.0, False), (2.5, True), (7.0, False), (8.0, False),
    ]  # fmt: skip


@pytest.mark.parametrize("back_mm", [5.0, -5.0])
def test_waved_bodies_are_closed_and_face_outward(back_mm):
    """Every edge is used once each way, and the volume is positive."""
    mesh = waved_body(SIDE, back_mm).mesh
    edges = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]], mesh.faces[:, [2, 0]]])
    there = set(map(tuple, edges.tolist()))
    assert len(there) == len(edges)
    assert all((b, a) in there for a, b in there)
    a, b, c = np.moveaxis(mesh.corners, 1, 0)
    assert np.sum(a * np.cross(b, c)) / 6.0 == pytest.approx(40.0 * 40.0 * 5.0, rel=0.01)


def test_conforming_surfaces_meet_everywhere_at_once():
    """The first pose closes at the opening that was put in, where all corners coincide."""
    scene = scenes.conforming(392, poses=3)
    assert close(scene.pair, scene.poses[:1]).opening_rad[0] == pytest.approx(-0.05, abs=1e-12)
    waved = 392  # triangles of the waved side, which come first
    lower = scene.lower.mesh.corners[:waved]
    closed = move_points(opening_rotation(-0.05), lower.reshape(-1, 3)).reshape(-1, 3, 3)
    upper = scene.upper.mesh.corners[:waved, ::-1]
    np.testing.assert_allclose(closed, upper, rtol=0.0, atol=1e-12)


def test_shortened_scenes_keep_stretches_of_paths():
    """Many poses come from every path, few from the first alone, side by side."""
    scene = replace(scenes.conforming(50), paths=np.arange(3 * 40 * 16.0).reshape(3, 40, 4, 4))
    assert scene.shortened(60).paths.shape == (3, 20, 4, 4)
    np.testing.assert_array_equal(scene.shortened(60).paths, scene.paths[:, 10:30])
    np.testing.assert_array_equal(scene.shortened(4).paths, scene.paths[:1, 18:22])


def test_the_shortest_program_closes_its_bodies():
    """It ends with 0 where they meet."""
    assert first_result.main() == 0


def test_memory_counts_every_array():
    """Arrays in tuples and dataclasses are found; what holds nobody knows what is refused."""
    held = Figure(np.zeros(3), (np.zeros(2, np.int32), "text"), 5, ())
    assert bytes_in(held) == 3 * 8 + 2 * 4
    with pytest.raises(TypeError, match="bytes of dict"):
        bytes_in((np.zeros(1), {}))


def test_memory_of_a_pair_and_of_a_thread_is_told(monkeypatch):
    """Both rows have a figure above 0, a triangle of both arches."""
    pair = prepare(*tip_and_wave())
    monkeypatch.setattr(figures, "casts_of", lambda _: SimpleNamespace(pair=pair))
    for row in figures.memory(Run(1, 1)):
        number, unit = row.found.split()
        assert float(number) > 0.0
        assert unit == "bytes"


RATIO = Ratio("tight", "fcl", 1e-4, 2.5e-3, 0.123, True, "3 poses, 1 run", "as it is")


def test_tables_are_markdown_that_lines_up():
    """Every row has as many columns, all bars stand below each other, units suit the size."""
    ours = figure_lines([Figure("a", "1 ms", "0.5 ms", "3 poses"), Figure("long", "", "2", "")])
    pairs = ratio_lines([RATIO, replace(RATIO, theirs_s=2.0, agrees=False)])
    for lines in (ours, pairs[:4]):
        assert len({tuple(m.start() for m in re.finditer(r"\|", line)) for line in lines}) == 1
    assert [cell.strip() for cell in pairs[2].strip("|").split("|")] == [
        "tight", "fcl", "100 us", "2.50 ms", "25.0", "0.12 um", "3 poses, 1 run",
    ]  # fmt: skip
    assert "0.12 um (!)" in pairs[3]
    assert pairs[-1] == "* tight, fcl: as it is"


def test_a_library_that_is_not_there_is_said_in_its_rows(monkeypatch):
    """Every scene has a row that says so, and nothing else is made of it."""
    absent = replace(ratios.LIBRARIES["fcl"], module="benchmarks.no_such_thing")
    monkeypatch.setitem(ratios.LIBRARIES, "fcl", absent)
    monkeypatch.setattr(ratios, "_scenes", lambda _: (SimpleNamespace(name="tight"),))
    (row,) = ratios.rows("fcl", Run(1, 1))
    assert isinstance(row, NotMeasured)
    assert "not installed (benchmarks.no_such_thing)" in ratio_lines([row])[2]


@pytest.fixture
def one_part(monkeypatch):
    """Leave the command a single part, and no arches to build."""

    def with_part(part):
        monkeypatch.setattr(command, "FIGURES", {"part": part})
        monkeypatch.setattr(command, "_heading", lambda _: iter(["heading"]))

    return with_part


def test_the_command_prints_the_parts_asked_for(one_part, capsys):
    """One part gives one table."""
    one_part(lambda run: [Figure("what", "", f"{run.repeats}", "")])
    assert command.main(["--only", "part", "--repeats", "2"]) == 0
    printed = capsys.readouterr().out
    assert printed.startswith("heading\n\n| what")
    assert "ratio" not in printed


@pytest.mark.parametrize("wrong", [["--repeats", "0"], ["--only", "fc"], ["--triangles", "9"]])
def test_arguments_that_cannot_be_used_are_refused(one_part, wrong, capsys):
    """Before anything is measured, with what is accepted."""
    one_part(lambda run: pytest.fail("nothing is to be measured"))
    with pytest.raises(SystemExit) as end:
        command.main(wrong)
    assert end.value.code == 2
    assert wrong[1] in capsys.readouterr().err


def test_an_interrupt_ends_quietly(one_part, capsys, monkeypatch):
    """A line and an exit code, no traceback."""

    def part(_):
        raise KeyboardInterrupt

    one_part(part)
    monkeypatch.setattr("sys.argv", ["benchmarks", "--only", "part"])
    assert __main__.main() == 130
    assert capsys.readouterr().err == "benchmarks: interrupted\n"


def test_a_disagreement_gives_an_exit_code(one_part, monkeypatch):
    """So that nobody reads past it."""
    one_part(lambda _: [])
    for agrees, code in ((True, 0), (False, 1)):
        row = replace(RATIO, agrees=agrees)
        monkeypatch.setattr(ratios, "rows", lambda key, run, row=row: [row])
        assert command.main(["--only", "fcl"]) == code


def test_readme_quotes_every_library_on_every_scene():
    """Its table has the columns that are printed, and a row for each."""
    page = (ROOT / "README.md").read_text("utf-8")
    quoted = re.findall(r"^\| (\S.*?) +\| (\S+) +\|.*\|$", page, re.MULTILINE)
    for library in ratios.LIBRARIES.values():
        scenes_of = {scene for scene, name in quoted if name == library.name}
        assert scenes_of == set(library.poses)
    for lines in (figure_lines([]), ratio_lines([])):
        heads = [cell.strip() for cell in lines[0].strip("|").split("|")]
        assert re.search(r"^\| " + r" +\| +".join(heads) + r" +\|$", page, re.MULTILINE)
