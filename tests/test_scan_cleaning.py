"""Cleaning removes what is no surface and tells it; planted defects are all found."""

from dataclasses import replace

import numpy as np
import pytest
import trimesh

from kinematics.checks import InputError
from kinematics.scans.cleaning import cleaned
from kinematics.scans.cleaning_report import cleaning_words
from kinematics.scans.scan import Scan
from tests.slow_cleaning import slow_report

#: Of every kind, in every mesh.
PLANTED = 50


def _scan(vertices, faces):
    none = {}
    return Scan(
        "a.stl", "binary STL", "", np.array(vertices, float), np.array(faces), none, none, ()
    )


def _clean(vertices, faces):
    scan = _scan(vertices, faces)
    return cleaned(scan, scan.vertices)


def _sheet(across=60, along=50, step=1.0):
    """Return an uneven open sheet of 2 x 60 x 50 triangles."""
    x, y = np.meshgrid(np.arange(across + 1), np.arange(along + 1), indexing="ij")
    height = 3.0 * np.sin(0.3 * x) * np.cos(0.2 * y)
    vertices = np.column_stack((x.ravel(), y.ravel(), height.ravel())) * step
    number = np.arange(len(vertices)).reshape(x.shape)
    a, b, c, d = (
        n.ravel() for n in (number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:])
    )
    return vertices, np.concatenate((np.column_stack((a, b, c)), np.column_stack((a, c, d))))


def _same_surface(one, other):
    """Whether two cleaned scans have the same triangles in space, wound alike."""

    def wound(result):
        rows = [[tuple(p) for p in triangle] for triangle in result.mesh.corners.tolist()]
        starts = [row.index(min(row)) for row in rows]
        return sorted(tuple(row[s:] + row[:s]) for row, s in zip(rows, starts, strict=True))

    return wound(one) == wound(other)


def _planted(seed):
    """Return a sheet with all kinds of defects, shuffled, and how many of each there are."""
    rng = np.random.default_rng(seed)
    vertices, faces = _sheet()
    sheet = len(faces)
    # Cells far enough from each other and from the border that defects do not meet.
    cells = rng.permutation([(i, j) for i in range(2, 58, 3) for j in range(2, 48, 3)])
    cells = [int(i) * 50 + int(j) for i, j in cells]
    holes, turned, sides, wings, spiked = (
        np.array(cells[n * PLANTED : (n + 1) * PLANTED]) for n in range(5)
    )
    turned = np.concatenate((turned, sides + 3000))
    faces[turned] = faces[turned][:, [1, 0, 2]]
    kept = np.delete(faces, holes, axis=0)
    added_vertices = [vertices]
    added = [kept]
    count = len(vertices)

    def add(points, corners):
        nonlocal count
        added_vertices.append(points)
        added.append(corners)
        count += len(points)

    # doubled: half of them wound the other way round
    straight = np.flatnonzero(~np.isin(np.delete(np.arange(sheet), holes), turned))
    twice = kept[rng.choice(straight, PLANTED, replace=False)]
    twice[::2] = twice[::2][:, [2, 1, 0]]
    add(np.empty((0, 3)), twice)
    # without area: a corner twice, and corners in a line beside the sheet
    add(np.empty((0, 3)), kept[rng.choice(len(kept), PLANTED, replace=False)][:, [0, 1, 1]])
    line = np.arange(3 * PLANTED).reshape(-1, 3)
    add(np.column_stack((line.ravel() * 0.25, *np.full((2, line.size), 70.0))), line + count)
    # specks: two triangles each, far from each other
    corner = np.arange(PLANTED)[:, None, None] * [1.0, 0.0, 0.0] + [0.0, 80.0, 0.0]
    shape = np.array([[0, 0, 0], [0.5, 0, 0], [0.5, 0.5, 0], [0, 0.5, 0.1]])
    pairs = np.array([[0, 1, 2], [0, 2, 3]]) + 4 * np.arange(PLANTED)[:, None, None]
    add((corner + shape).reshape(-1, 3), pairs.reshape(-1, 3) + count)
    # not finite
    lost = np.full((PLANTED, 3), np.nan)
    lost[::2] = [np.inf, 0.0, 0.0]
    nowhere = kept[rng.choice(len(kept), PLANTED, replace=False)]
    nowhere[:, 0] = count + np.arange(PLANTED)
    add(lost, nowhere)
    # a third triangle on an edge inside a cell (its diagonal)
    diagonal = faces[wings][:, [0, 2]]
    tips = vertices[diagonal].mean(axis=1) + np.array([0.0, 0.0, 5.0])
    add(tips, np.column_stack((diagonal, count + np.arange(PLANTED))))
    # vertices that nothing uses, and vertices twice: the second one takes over some triangles
    add(rng.uniform(100.0, 200.0, (PLANTED, 3)), np.empty((0, 3), dtype=int))
    again = vertices[faces[spiked, 0]]
    extra = count + np.arange(PLANTED)
    add(again, np.empty((0, 3), dtype=int))
    all_faces = np.concatenate(added)
    # the copies stand for their vertex in one triangle of the sheet
    for cell, number in zip(spiked, extra, strict=True):
        row = np.flatnonzero((all_faces[:sheet] == faces[cell]).all(axis=1))[0]
        all_faces[row, 0] = number
    wanted = {
        "doubled": PLANTED,
        "without_area": 2 * PLANTED,
        "specks": PLANTED,
        "speck_triangles": 2 * PLANTED,
        "not_finite": PLANTED,
        "shared_by_many": PLANTED,
        "vertices_merged": PLANTED,
        # those of what was removed, and those planted
        "vertices_unused": 3 * PLANTED + 4 * PLANTED + PLANTED + PLANTED,
        "turned": 2 * PLANTED,
        "holes": PLANTED,
        "pieces": 1,
        "one_sided": 0,
    }
    return np.concatenate(added_vertices), all_faces, wanted


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_planted_defects_are_found_to_the_last(seed):
    """Fifty and more of every kind: each count of the report is what was planted."""
    vertices, faces, wanted = _planted(seed)
    result = _clean(vertices, faces)
    report = vars(result.report)
    wings = wanted["shared_by_many"]
    # A wing hangs on one edge: its two open edges are a loop of their own.
    wanted["holes"] += wings
    # Of a triangle and its copy wound the other way round, the one to keep is not always the first.
    copies = (result.face_of >= 5950) & (result.face_of < 5950 + PLANTED)
    assert (result.face_of[copies] % 2 == 0).all()
    wanted["turned"] += copies.sum()
    assert {key: report[key] for key in wanted} == wanted
    slow, against = slow_report(vertices, faces, result)
    assert {key: report[key] for key in slow} == slow
    assert against == 0
    assert (
        report["triangles_kept"]
        == len(result.mesh.faces)
        == 2 * 60 * 50 - wanted["doubled"] + wings
    )
    kept = report["vertices_merged"] + report["vertices_unused"] + len(result.mesh.vertices)
    assert kept == len(vertices)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_numbers_lead_back_to_the_scan(seed):
    """Every kept triangle has the corners of the one it is of; every vertex its own place."""
    vertices, faces, _ = _planted(seed)
    result = _clean(vertices, faces)
    np.testing.assert_array_equal(result.mesh.vertices, vertices[result.vertex_of])
    assert (np.diff(result.vertex_of) > 0).all()
    assert (np.diff(result.face_of) > 0).all()
    before, after = vertices[faces[result.face_of]], result.mesh.corners
    same = (before == after).all(axis=(1, 2))
    np.testing.assert_array_equal(before[~same][:, [0, 2, 1]], after[~same])
    first = {tuple(place): n for n, place in reversed(list(enumerate(vertices.tolist())))}
    assert [
        first[tuple(place)] for place in result.mesh.vertices.tolist()
    ] == result.vertex_of.tolist()
    for array in (result.face_of, result.vertex_of, result.mesh.faces):
        assert not array.flags.writeable


@pytest.mark.parametrize("seed", [1, 2])
def test_the_order_of_triangles_and_vertices_changes_nothing_but_numbers(seed):
    """Shuffled, the same surface comes out, wound alike, and the report has the same bits."""
    vertices, faces, _ = _planted(seed)
    plain = _clean(vertices, faces)
    rng = np.random.default_rng(seed + 100)
    order = rng.permutation(len(faces))
    place = rng.permutation(len(vertices))
    shuffled = np.empty_like(vertices)
    shuffled[place] = vertices
    for other in (_clean(vertices, faces[order]), _clean(shuffled, place[faces[order]])):
        assert other.report == plain.report
        assert _same_surface(other, plain)


def test_a_tie_of_windings_does_not_depend_on_the_order():
    """Half of a surface wound one way: which half is turned is decided by where it lies."""
    vertices, faces = _sheet(10, 8)
    faces[::2] = faces[::2][:, [1, 0, 2]]
    results = [
        _clean(vertices, faces),
        _clean(vertices, faces[::-1]),
        _clean(vertices, faces[:, [1, 2, 0]]),
    ]
    assert results[0].report.turned == len(faces) // 2
    assert all(_same_surface(results[0], other) for other in results[1:])


@pytest.mark.parametrize("seed", range(4))
def test_many_patches_are_wound_each_by_its_majority(seed):
    """Of 60 separate balls some triangles each are turned; all come back as they were."""
    rng = np.random.default_rng(seed)
    ball = trimesh.creation.icosphere(subdivisions=1, radius=2.0)
    vertices = np.concatenate([ball.vertices + np.array([5.0 * n, 0.0, 0.0]) for n in range(60)])
    faces = np.concatenate([ball.faces + len(ball.vertices) * n for n in range(60)])
    turn = np.zeros((60, 80), dtype=bool)
    turn[:, :39] = rng.random((60, 39)) < 0.9
    spoilt = faces.copy()
    spoilt[turn.ravel()] = spoilt[turn.ravel()][:, [0, 2, 1]]
    result = _clean(vertices, spoilt)
    assert result.report.turned == turn.sum()
    assert result.report.pieces == 60
    assert result.report.closed
    assert _same_surface(result, _clean(vertices, faces))


def test_a_one_sided_strip_stays_as_it_is():
    """A strip with half a twist cannot be wound alike: nothing is turned, and it is told."""
    count = 40
    angle = np.linspace(0.0, 2.0 * np.pi, count, endpoint=False)
    across = np.column_stack(
        (np.cos(angle / 2) * np.cos(angle), np.cos(angle / 2) * np.sin(angle), np.sin(angle / 2))
    )
    middle = 20.0 * np.column_stack((np.cos(angle), np.sin(angle), 0.0 * angle))
    vertices = np.concatenate((middle - 4.0 * across, middle + 4.0 * across))
    a = np.arange(count)
    b = (a + 1) % count
    low, high = np.where(b > 0, b, count), np.where(b > 0, b + count, 0)
    faces = np.concatenate(
        (np.column_stack((a, low, a + count)), np.column_stack((low, high, a + count)))
    )
    result = _clean(vertices, faces)
    assert (result.report.one_sided, result.report.turned) == (1, 0)
    np.testing.assert_array_equal(result.mesh.faces, faces)
    assert "1 patch cannot face one way all over and stayed as they were" in cleaning_words(
        result.report
    )


def test_loops_are_measured():
    """The rim of a flat sheet and the largest of two holes have the lengths they were cut to."""
    vertices, faces = _sheet(30, 30)
    vertices[:, 2] = 0.0
    centre = vertices[faces].mean(axis=1)
    large = (abs(centre[:, :2] - [10.0, 10.0]) < 2.0).all(axis=1)
    small = (abs(centre[:, :2] - [20.0, 20.0]) < 1.0).all(axis=1)
    report = _clean(vertices, faces[~large & ~small]).report
    assert (report.holes, report.open_edges) == (2, 120 + 16 + 8)
    assert report.rim_length_mm == pytest.approx(120.0, abs=1e-12)
    assert report.largest_hole_mm == pytest.approx(16.0, abs=1e-12)


def test_pieces_are_specks_only_if_small_in_both_senses():
    """A piece of few triangles that is large stays, and so does a small one of many triangles."""
    vertices, faces = _sheet()
    large = np.array([[0.0, 0.0, 50.0], [2.0, 0.0, 50.0], [0.0, 1.0, 50.0]])
    fine, many = _sheet(8, 8, 0.1)
    result = _clean(
        np.concatenate((vertices, large, fine + 60.0)),
        np.concatenate((faces, [[3111, 3112, 3113]], many + 3114)),
    )
    assert (result.report.specks, result.report.pieces) == (0, 3)


def test_a_clean_ball_is_left_alone():
    """Nothing is removed, and the words say so."""
    ball = trimesh.creation.icosphere(subdivisions=2, radius=30.0)
    result = _clean(ball.vertices, ball.faces)
    np.testing.assert_array_equal(result.mesh.faces, ball.faces)
    assert cleaning_words(result.report) == (
        "nothing had to be removed",
        "kept 320 triangles in 1 piece",
        "the surface is closed",
    )


def test_zero_and_minus_zero_are_one_place():
    """Two triangles that meet along x = 0 hang together, whatever the sign of the zero."""
    vertices = [[0.0, 0, 0], [0.0, 9, 0], [9, 0, 0], [-0.0, 0, 0], [-0.0, 9, 0], [-9, 0, 0]]
    report = _clean(vertices, [[0, 2, 1], [3, 4, 5]]).report
    assert (report.pieces, report.vertices_merged, report.open_edges) == (1, 2, 4)


def test_words_tell_every_count():
    """Each thing that was done is one sentence with its number."""
    vertices, faces, _ = _planted(1)
    report = _clean(vertices, faces).report
    assert cleaning_words(report) == (
        "removed 50 triangles with a corner that is not finite",
        "removed 100 triangles without area",
        "removed 50 triangles with the same corners as another",
        "removed 50 loose specks of 100 triangles",
        "removed 450 vertices that no triangle uses",
        "merged 50 vertices with others at the same place",
        f"turned {report.turned} triangles to face as their neighbours do",
        "kept 6000 triangles in 1 piece",
        f"its base is open, as is usual of scans: the longest rim is {report.rim_length_mm:.1f} mm"
        " long",
        f"100 holes besides, the largest {report.largest_hole_mm:.1f} mm around: no matter unless"
        " teeth meet there; a contact at the edge of a hole is told as one on a rim",
        "50 edges shared by three or more triangles",
    )
    none = cleaning_words(replace(report, holes=0, largest_hole_mm=0.0, pieces=3))
    assert "no holes besides" in none
    assert any(line.startswith("pieces do not hang together: usual where each") for line in none)
    assert any(line.startswith("their bases are open") for line in none)
    one = replace(report, specks=1, speck_triangles=1, vertices_unused=1, holes=1)
    long = f"1 hole besides, {report.largest_hole_mm:.1f} mm around"
    assert any(line.startswith(long) for line in cleaning_words(one))
    assert "removed 1 loose speck of 1 triangle" in cleaning_words(one)
    assert "removed 1 vertex that no triangle uses" in cleaning_words(one)


@pytest.mark.parametrize(
    ("vertices", "faces"),
    [
        ([[0, 0, 0], [1, 0, 0], [2, 0, 0]], [[0, 1, 2]]),
        ([[0, 0, 0], [1, 0, 0], [np.nan, 0, 0]], [[0, 1, 2]]),
        ([[1e200, 0, 0], [0, 1e200, 0], [0, 0, -1e200]], [[0, 1, 1]]),
    ],
)
def test_nothing_left_is_refused(vertices, faces):
    """Without a single triangle there is nothing to compute with; the message says so."""
    with pytest.raises(InputError, match="of its 1 triangles none is left after those without"):
        _clean(vertices, faces)


def test_nothing_but_specks_is_refused():
    """Dust is no arch."""
    corner = 5.0 * np.arange(200)[:, None, None] * [1.0, 0.0, 0.0]
    vertices = (corner + np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0]])).reshape(-1, 3)
    with pytest.raises(InputError, match="of its 200 triangles none is left"):
        _clean(vertices, np.arange(600).reshape(-1, 3))
