"""Border movements: outlines that close, limits that are reached, extents as published."""

import math
import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.border_files import OUTLINE_COLUMNS, outline_entry, outline_rows
from kinematics.borders import lines as names
from kinematics.borders.extents import border_extents
from kinematics.borders.movements import border_movements
from kinematics.borders.openings import opening_at_way
from kinematics.borders.settings import BorderLimits
from kinematics.case_file import parse_case
from kinematics.case_mi import MaximalIntercuspation
from kinematics.checks import InputError
from kinematics.contact.closure import close
from kinematics.contact.workers import Workers
from kinematics.conventions import LEFT, RIGHT
from kinematics.mounting import mounted_casts
from scenes.border_charts import border_chart
from scenes.border_words import border_notes, border_table
from scenes.sheet import Line, Words
from tests.shipped_cases import coarse

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "border_movements.toml").read_text("utf-8")
)
LIMITS = BorderLimits()


@pytest.fixture(scope="module")
def casts():
    """Return coarse casts whose MI lies ahead of CR."""
    return mounted_casts(coarse("centric_slide"))


@pytest.fixture(scope="module")
def found(casts):
    """Return their border movements within the limits that are set for everybody."""
    return border_movements(casts, LIMITS, Workers())


@pytest.fixture(scope="module")
def natural():
    """Return the border movements of a full dentition, whose sides are mirror images."""
    return border_movements(mounted_casts(coarse("natural_dentition")), LIMITS, Workers())


def test_extents_are_those_published_of_people(natural):
    """Limits are reached; turns, share of rotation and finite centre follow from them."""
    read, of = border_extents(natural), PUBLISHED
    extents = of["extents"]
    assert read.opening_mm == pytest.approx(extents["opening_mm"], abs=1e-9)
    assert read.hinge_opening_mm == pytest.approx(extents["hinge_opening_mm"], abs=1e-9)
    assert read.protrusion_mm == pytest.approx(extents["protrusion_mm"], abs=1e-6)
    for way in (read.lateral_right_mm, read.lateral_left_mm):
        assert extents["lateral_mm"][0] <= way <= extents["lateral_mm"][1]
    assert of["vertical"]["low_mm"] <= read.drop_mm <= of["vertical"]["high_mm"]
    assert of["hinge_turn"]["low_deg"] <= read.hinge_turn_deg <= of["hinge_turn"]["high_deg"]
    turn = of["opening_turn"]
    assert turn["low_deg"] <= read.opening_turn_deg <= turn["high_deg"]
    assert read.rotation_share == pytest.approx(turn["rotation_share"], abs=turn["tolerance"])
    centre = of["finite_centre"]
    assert centre["low_below_mm"] <= read.centre_below_mm <= centre["high_below_mm"]
    off = read.centre_behind_mm - centre["behind_mm"]
    assert abs(off) <= centre["spread_behind_mm"]


def test_condyles_go_farther_on_opening_than_in_protrusion(natural):
    """As published, by half as much again."""
    ahead = natural.line(names.PROTRUSION).positions.advance_right_mm[-1]
    open_ = natural.line(names.WITH_TRANSLATION).positions.advance_right_mm[-1]
    assert open_ / ahead >= PUBLISHED["opening_against_protrusion"]["ratio"]


def ends_of(found, name):
    """Return the first and the last place of a line."""
    points = found.line(name).incisal_point
    return points[0], points[-1]


@pytest.fixture(scope="module")
def in_cr():
    """Return the border movements of a case whose MI is in CR."""
    case = coarse("natural_dentition")
    case = replace(case, maximal_intercuspation=MaximalIntercuspation(0.0, 0.0))
    return border_movements(mounted_casts(case), LIMITS, Workers())


@pytest.mark.parametrize("which", ["found", "natural", "in_cr"])
def test_outlines_close(which, request):
    """Where one line ends, the next begins."""
    found = request.getfixturevalue(which)
    start, mi = ends_of(found, names.CR_TO_MI)
    assert start == pytest.approx(found.incisal_point_in_cr, abs=1e-9)
    assert mi == pytest.approx(found.incisal_point_in_mi, abs=1e-9)
    chain = (names.HINGE_OPENING, names.WITH_TRANSLATION)
    assert ends_of(found, chain[0])[0] == pytest.approx(start, abs=1e-9)
    assert ends_of(found, chain[0])[1] == pytest.approx(ends_of(found, chain[1])[0], abs=1e-9)
    widest = ends_of(found, chain[1])[1]
    assert ends_of(found, names.PROTRUSION)[0] == pytest.approx(mi, abs=1e-9)
    joints = [(names.PROTRUSION, names.PROTRUDED)]
    joints += [(names.ON_TEETH[side], names.OPENING[side]) for side in (RIGHT, LEFT)]
    for first, second in joints:
        assert ends_of(found, first)[1] == pytest.approx(ends_of(found, second)[0], abs=1e-9)
        assert ends_of(found, second)[1] == pytest.approx(widest, abs=1e-9)
    tip = ends_of(found, names.ARCH_AHEAD)
    for side in (RIGHT, LEFT):
        arm, forward = ends_of(found, names.ARCH[side]), ends_of(found, names.FORWARD[side])
        assert arm[0] == pytest.approx(tip[0], abs=1e-9)
        assert arm[1] == pytest.approx(forward[0], abs=1e-9)
        assert forward[1] == pytest.approx(tip[1], abs=1e-9)


def test_sides_are_mirror_images(natural):
    """Right and left lines of a dentition with equal sides, and back on teeth to a micrometre."""
    for of in (names.ON_TEETH, names.OPENING, names.ARCH, names.FORWARD):
        right, left = (natural.line(of[side]).incisal_point for side in (RIGHT, LEFT))
        assert right * (1.0, -1.0, 1.0) == pytest.approx(left, abs=1e-6)


def test_no_outline_leads_through_teeth(casts, found):
    """Every pose seen from side and front is open at least as far as closure, on the teeth just."""
    for line in found.lines:
        if line.seen == "above":
            continue  # there the teeth take no part
        shut = close(casts.pair, line.positions.pose_at_zero).opening_rad
        assert (line.opening_rad >= shut - 1e-12).all(), line.name
        if line.on_teeth:
            assert line.opening_rad == pytest.approx(shut, abs=1e-12)


def test_the_hinge_opening_is_an_arc_about_the_axis(found):
    """Of one radius; its chord and its turn are those of the triangle they make with the axis."""
    line = found.line(names.HINGE_OPENING)
    off = np.hypot(line.incisal_point[:, 0], line.incisal_point[:, 2])
    assert np.ptp(off) < 1e-9
    assert np.abs(line.positions.condyle_right - line.positions.condyle_right[0]).max() == 0.0
    wanted = 2.0 * math.degrees(math.asin(LIMITS.hinge_opening_mm / (2.0 * off[0])))
    assert border_extents(found).hinge_turn_deg == pytest.approx(wanted, abs=1e-9)


def test_the_finite_centre_is_as_far_from_every_point_before_and_after(found):
    """Seen from the side, as geometry says; for points all over the lower."""
    read, wide = border_extents(found), found.line(names.WITH_TRANSLATION).poses[-1]
    in_mi = found.line(names.PROTRUSION).poses[0]
    axis = in_mi[[0, 2], 3]
    centre = axis - (read.centre_behind_mm, read.centre_below_mm)
    points = np.random.default_rng(2).uniform(-60.0, 60.0, (50, 3))
    ends = [(points @ pose[:3, :3].T + pose[:3, 3])[:, [0, 2]] for pose in (in_mi, wide)]
    before, after = (np.linalg.norm(one - centre, axis=1) for one in ends)
    assert before == pytest.approx(after, abs=1e-6)


def ways_of(pose, point, origin, opening_rad):
    """Return how far a point is from a place, turned by hand about the y axis of the lower."""
    x, y, z = point
    cos, sin = np.cos(opening_rad), np.sin(opening_rad)
    turned = np.stack([cos * x + sin * z, np.full_like(cos, y), cos * z - sin * x], axis=-1)
    return np.linalg.norm(turned @ pose[:3, :3].T + pose[:3, 3] - origin, axis=-1)


@given(st.integers(0, 10_000), st.floats(5.0, 80.0))
def test_openings_at_some_way_are_those_of_a_dense_search(seed, way_mm):
    """The greatest of all openings at which the point is so far away; none where none is."""
    rng = np.random.default_rng(seed)
    pose, point = np.eye(4), rng.uniform((60.0, -5.0, -40.0), (100.0, 5.0, -20.0))
    pose[:3, 3] = rng.uniform((0.0, -1.0, -10.0), (15.0, 1.0, 0.0))
    origin = rng.uniform((60.0, -5.0, -40.0), (100.0, 5.0, -20.0))
    grid = np.linspace(-math.pi, math.pi, 2001)
    ways = ways_of(pose, point, origin, grid) - way_mm
    opening = opening_at_way(pose, point, origin, way_mm)
    crossed = np.flatnonzero(np.diff(np.sign(ways)) != 0.0)
    if opening is None:
        assert len(crossed) == 0
        return
    assert ways_of(pose, point, origin, opening) == pytest.approx(way_mm, abs=1e-9)
    if len(crossed):
        assert grid[crossed[-1]] - 1e-9 <= opening <= grid[crossed[-1] + 1] + 1e-9


@pytest.mark.parametrize(
    "seed", [*range(10), *(pytest.param(seed, marks=pytest.mark.wide) for seed in range(10, 60))]
)
def test_limits_of_anybody_are_reached_or_told(casts, seed):
    """Seeded limits: every extent is its limit, but for those that are told as not reached."""
    rng = np.random.default_rng(seed)
    limits = BorderLimits(
        opening_mm=rng.uniform(35.0, 65.0),
        hinge_opening_mm=rng.uniform(8.0, 25.0),
        protrusion_mm=rng.uniform(2.0, 9.0),
        lateral_right_mm=rng.uniform(3.0, 11.0),
        lateral_left_mm=rng.uniform(3.0, 11.0),
        condylar_advance_mm=rng.uniform(8.0, 20.0),
    )
    found = border_movements(casts, limits, Workers())
    read = border_extents(found)
    assert read.opening_mm == pytest.approx(limits.opening_mm, abs=1e-9)
    assert read.hinge_opening_mm == pytest.approx(limits.hinge_opening_mm, abs=1e-9)
    told = " ".join(found.cut_short)
    for name, way, limit in (
        (names.PROTRUSION, read.protrusion_mm, limits.protrusion_mm),
        (names.ON_TEETH[RIGHT], read.lateral_right_mm, limits.lateral_right_mm),
        (names.ON_TEETH[LEFT], read.lateral_left_mm, limits.lateral_left_mm),
    ):
        assert (name in told) == (abs(way - limit) > 0.01)
        assert way <= limit + 0.01
    length = casts.guidance.right.path.length_mm
    assert ("right condyle" in told) == (limits.condylar_advance_mm > length)
    wide = found.line(names.WITH_TRANSLATION).positions.advance_right_mm[-1]
    assert wide >= min(limits.condylar_advance_mm, length) - 1e-9


def test_a_side_shift_is_used_and_given_back():
    """With an immediate shift both outlines still close, and the arm of the arch begins aside."""
    case = coarse("natural_dentition")
    side = replace(case.guidance.right, immediate_shift_mm=1.0)
    case = replace(case, guidance=replace(case.guidance, right=side, left=side))
    found = border_movements(mounted_casts(case), LIMITS, Workers())
    arm = found.line(names.ARCH[LEFT])
    assert arm.positions.shift_mm[-1] == pytest.approx(1.0)
    assert found.line(names.OPENING[LEFT]).positions.shift_mm[-1] == 0.0
    straight = np.flatnonzero(arm.positions.advance_right_mm == 0.0)
    assert arm.incisal_point[straight[-1], 1] - arm.incisal_point[0, 1] == pytest.approx(1.0)
    assert ends_of(found, names.OPENING[LEFT])[1] == pytest.approx(
        ends_of(found, names.OPENING[RIGHT])[1], abs=1e-9
    )


def test_limits_that_do_not_go_together_are_refused(casts):
    """The words name both keys and say what to do."""
    limits = BorderLimits(opening_mm=20.0, hinge_opening_mm=40.0)
    with pytest.raises(InputError, match=r"border_limits: hinge_opening_mm = 40 and opening_mm"):
        border_movements(casts, limits, Workers())


def test_a_wrong_limit_in_a_case_file_is_told_with_its_line():
    """As every setting."""
    with pytest.raises(InputError) as error:
        parse_case("[border_limits]\nopening_mm = 200.0\n", "mine.toml")
    assert "mine.toml" in str(error.value)
    assert "border_limits.opening_mm" in str(error.value)


def test_the_table_of_places_says_what_was_found(found):
    """One row a place, in the order of the lines."""
    rows = list(outline_rows(found))
    assert {len(row) for row in rows} == {len(OUTLINE_COLUMNS)}
    assert len(rows) == sum(len(line.opening_rad) for line in found.lines)
    at = OUTLINE_COLUMNS.index("incisal_point_x_mm")
    wide = found.line(names.WITH_TRANSLATION)
    mine = [row for row in rows if row[0] == names.WITH_TRANSLATION][-1]
    assert [float(cell) for cell in mine[at : at + 3]] == pytest.approx(
        wide.incisal_point[-1], abs=1e-5
    )
    assert outline_entry(None) == {}
    assert outline_entry(found)["opening_mm"] == pytest.approx(LIMITS.opening_mm)


def spans(points):
    """Return how far apart the outermost points of a line are across and upward, as one length."""
    return np.linalg.norm(np.ptp(points, axis=0))


def test_the_picture_has_every_line_where_it_is(found):
    """Each in the panel it belongs to, a millimetre as long both ways; names beside them."""
    sheet = border_chart(found)
    drawn = [item for item in sheet.items if isinstance(item, Line) and item.within is not None]
    assert len(drawn) == len(found.lines)
    for line, on_paper in zip(found.lines, drawn, strict=True):
        axes = {"side": [0, 2], "front": [1, 2], "above": [1, 0]}[line.seen]
        jaw = line.incisal_point[:, axes]
        scale = spans(on_paper.points) / spans(jaw)
        moved = on_paper.points - on_paper.points[0]
        assert moved == pytest.approx(scale * (jaw - jaw[0]), abs=1e-9)
        left, bottom, width, height = on_paper.within
        assert (on_paper.points >= (left, bottom)).all()
        assert (on_paper.points <= (left + width, bottom + height)).all()
    texts = {item.text for item in sheet.items if isinstance(item, Words)}
    assert {"MI", "CR", "greatest\nopening", "limit of\nhinge opening"} <= texts


def test_figures_stand_beside_what_is_published(found):
    """Every row has its unit and its source; limits that restrict are told."""
    table = border_table(found)
    assert all(len(row) == len(table.head) and row[-1] for row in table.rows)
    assert table.rows[0][1] == "51.20 mm"
    assert border_notes(found) == ()
    short = replace(found, cut_short=("right condyle: its path is 8 mm long",))
    assert border_notes(short) == ("Right condyle: its path is 8 mm long.",)


def test_restricted_movements_are_told(casts):
    """Below the published thresholds, each by its name."""
    limits = BorderLimits(opening_mm=28.0, hinge_opening_mm=10.0, protrusion_mm=4.0)
    notes = border_notes(border_movements(casts, limits, Workers()))
    assert [note.split(" of ")[0] for note in notes] == ["An opening", "Protrusion"]
