"""The picture of a loaded framework: forces to scale and in the right direction, words apart."""

from dataclasses import replace
from functools import cache
from itertools import combinations

import numpy as np
import pytest
from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextPath

from kinematics.planning.denture_parts import Rest, Ridge
from kinematics.planning.frame_forces import QUANTITIES
from kinematics.planning.framework import Framework, FulcrumLine, PlacedRest
from kinematics.planning.judging import DentureBase
from kinematics.planning.load_readings import AbutmentLoad, BaseLoad, ToothLoad
from kinematics.planning.ridge_lines import RidgeLine
from scenes import sheet_writer
from scenes.arrows import arrow, bent_arrow
from scenes.load_bars import load_bars
from scenes.load_drawing import ABUTMENT, LONGEST_MM, TOOTH, TURNING, LoadedFrame
from scenes.load_figures import newtons, turning
from scenes.load_picture import load_picture
from scenes.load_plan import plan_view
from scenes.load_side import side_view
from scenes.sheet import Line, Words
from tests.example_checkup import LOWERS, UPPERS, arch

ARCHES = {True: arch(UPPERS, -1, 84.0, 0.0), False: arch(LOWERS, 1, 81.0, 1.5)}
PLAN, SIDE = (0.0, 16.0, 106.0, 79.0), (109.0, 55.0, 69.0, 40.0)
MOVE = "Left lateral excursion"


def framework(upper=True, right=True):
    """Return a distal-extension framework on one side, its rests on both."""
    quadrant = (1 if right else 2) if upper else (4 if right else 3)
    other = (2 if right else 1) if upper else (3 if right else 4)
    teeth = tuple(10 * quadrant + place for place in (5, 6, 7))
    seats = [10 * quadrant + 4, 10 * other + 4]
    known = ARCHES[upper]
    rests = tuple(
        PlacedRest(code, "mesial", tuple(known.tooth(code).centre), (0.0, 0.0, 1.0), "base", False)
        for code in seats
    )
    crest = np.array([known.tooth(code).centre for code in teeth])
    crest[:, 2] += 4.0 if upper else -4.0
    out = np.tile([0.0, 0.0, -1.0 if upper else 1.0], (3, 1))
    facial = np.tile([0.0, -1.0 if right else 1.0, 0.0], (3, 1))
    base = DentureBase("base", teeth, tuple(seats), rests=tuple(Rest(c, "mesial") for c in seats))
    ends = sorted((tuple(known.tooth(code).centre) for code in seats), key=lambda point: point[1])
    line = FulcrumLine(ends[0], ends[1], (seats[0], seats[1]))
    ridge = RidgeLine("base", crest, out, facial, Ridge(), assumed=True)
    return Framework("upper base", upper, (base,), rests, (), (ridge,), None, line, (), ("base",))


def parts(force, root):
    """Return the sizes of a force along a unit vector and across it."""
    along = float(np.dot(force, root))
    return along, float(np.linalg.norm(np.asarray(force) - along * np.asarray(root)))


def invented(seed, held, busy=False):
    """Return an invented load: random forces on random teeth and all abutments."""
    rng = np.random.default_rng(seed)
    known, teeth = ARCHES[held.is_upper], []
    into = 1.0 if held.is_upper else -1.0
    for code in held.bases[0].teeth:
        if busy or rng.random() < 0.7 or code == held.bases[0].teeth[0]:
            force = (*rng.uniform(-20, 20, 2), into * rng.uniform(1, 60))
            root = -np.asarray(known.tooth(code).long_axis)
            centre = tuple(known.tooth(code).centre)
            teeth.append(ToothLoad(code, centre, force, *parts(force, root), 12.0))
    abutments = []
    for code in held.bases[0].abutments:
        force = (*rng.uniform(-25, 25, 2), rng.uniform(-20, 20))
        along, across = parts(force, -np.asarray(known.tooth(code).long_axis))
        abutments.append(AbutmentLoad(code, force, along, across, (across, across)))
    values = rng.uniform(0.0, 600.0, len(QUANTITIES)) * [1, 1, rng.choice([-1, 1]), 1, 1, 0.1, 3e-4]
    figures = dict(zip(QUANTITIES, values.tolist(), strict=True))
    low = {name: rng.choice([0.8, -0.9]) * abs(value) for name, value in figures.items()}
    high = {name: 1.3 * abs(value) for name, value in figures.items()}
    return BaseLoad(
        "upper base", "left lateral", 1.3, "equilibrium", tuple(teeth), tuple(abutments),
        figures, low, high, True, True,
    )  # fmt: skip


def frame_of(seed, busy=False):
    """Return an invented load of a framework of one of four kinds, with its arch."""
    held = framework(upper=seed % 2 == 0, right=seed % 4 < 2)
    return LoadedFrame(invented(seed, held, busy), held, ARCHES[held.is_upper])


def complete(seed):
    """Return an invented load of an upper complete denture, on all of its teeth."""
    base = DentureBase("base", UPPERS)
    ridges = framework().ridges
    held = Framework("upper base", True, (base,), (), (), ridges, None, None, (), ())
    return LoadedFrame(invented(seed, held, busy=True), held, ARCHES[True])


def shafts(items, colour):
    """Return the two ends of every arrow of a colour, (2, 2) each."""
    found = [item for item in items if isinstance(item, Line) and item.colour == colour]
    return [item.points for item in found if item.points.shape == (2, 2) and item.level == 2.6]


@cache
def letters_wide(line, bold):
    """Return how wide a line of text is, in sizes of its letters."""
    font = FontProperties(family="DejaVu Sans", weight="bold" if bold else "normal")
    return TextPath((0.0, 0.0), line, size=100.0, prop=font).get_extents().width / 100.0


def extent(words):
    """Return left, bottom, right and top of a text, as wide as its letters are."""
    lines = words.text.split("\n")
    mm = words.size_pt * 25.4 / 72.0
    wide = max(letters_wide(line, words.bold) for line in lines) * mm
    high = mm * (0.75 + words.line_spacing * (len(lines) - 1))
    if words.turned:
        wide, high = high, wide
    x = words.place[0] - {"left": 0.0, "center": 0.5, "right": 1.0}[words.across] * wide
    share = {"bottom": 0.0, "baseline": 0.0, "center": 0.5, "top": 1.0}[words.upward]
    y = words.place[1] - share * high
    return x, y, x + wide, y + high


@pytest.mark.parametrize("seed", range(60))
def test_pushes_across_are_drawn_to_one_scale_and_in_their_direction(seed):
    """Seen along the bite: every arrow is as long as its push, and points where it points."""
    frame = frame_of(seed)
    items = plan_view(frame, PLAN)
    up = 1.0 if frame.framework.is_upper else -1.0
    for colour, abutment in ((TOOTH, False), (ABUTMENT, True)):
        drawn = [ends[1] - ends[0] for ends in shafts(items, colour)]
        wanted = []
        for push in frame.pushes:
            way = np.array([push.sideways_n[1], up * push.sideways_n[0]]) / frame.newtons_per_mm
            if push.is_abutment == abutment and np.hypot(*way) >= 0.8:
                wanted.append(way)
        np.testing.assert_allclose(drawn, np.array(wanted).reshape(-1, 2), atol=1e-9)
    assert max(push.size_n for push in frame.pushes) / frame.newtons_per_mm == pytest.approx(
        LONGEST_MM
    )


@pytest.mark.parametrize("seed", range(60))
def test_nothing_that_is_written_lies_on_each_other_or_beside_the_sheet(seed):
    """Also with many pushes: titles, columns, facts and key keep apart."""
    frame = frame_of(seed, busy=True) if seed % 3 else complete(seed)
    sheet = load_picture(frame.load, frame.framework, frame.arch, MOVE)
    told = [item for item in sheet.items if isinstance(item, Words) and not item.text.isdigit()]
    boxes = [(item.text, extent(item)) for item in told]
    for text, (left, bottom, right, top) in boxes:
        assert left > -0.5, text
        assert right < sheet.width_mm + 0.5, text
        assert bottom > -0.5, text
        assert top < sheet.height_mm + 0.5, text
    for (one, a), (other, b) in combinations(boxes, 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] + 0.3 or b[3] <= a[1] + 0.3
        assert apart, (one, other)
    for push in frame.pushes:
        assert any(item.text.startswith(f"{push.tooth} ") for item in told)


def joined(seed, kind):
    """Return an invented load of a bridge of five teeth, or of a splint of six, held by roots."""
    frame, rng = complete(seed), np.random.default_rng(seed)
    codes = (13, 12, 11, 21, 22, 23)
    own = (12, 11, 21) if kind == "bridge" else codes
    roots = (13, 22) if kind == "bridge" else codes
    teeth = tuple(tooth for tooth in frame.load.teeth if tooth.tooth in own)
    abutments = []
    for code in roots:
        force = (*rng.uniform(-25, 25, 2), rng.uniform(-20, 20))
        along, across = parts(force, -np.asarray(frame.arch.tooth(code).long_axis))
        ends = (0.7 * across, 1.4 * across)
        abutments.append(AbutmentLoad(code, force, along, across, ends, (-30.0, 30.0)))
    load = replace(
        frame.load, teeth=teeth, abutments=tuple(abutments), has_fulcrum=False, kind=kind
    )
    base = DentureBase("front", own)
    held = Framework("front", True, (base,), (), (), (), None, None, (), (), kind=kind)
    return LoadedFrame(load, held, frame.arch)


@pytest.mark.parametrize("seed", range(30))
@pytest.mark.parametrize("kind", ["bridge", "splint"])
def test_a_bridge_or_splint_is_drawn_with_what_it_has(kind, seed):
    """Roots instead of abutments, nothing of ridge, rests or turning, and nothing overlaps."""
    frame = joined(seed, kind)
    sheet = load_picture(frame.load, frame.framework, frame.arch, MOVE)
    told = [item for item in sheet.items if isinstance(item, Words) and not item.text.isdigit()]
    text = " ".join(item.text for item in told)
    assert not any(word in text for word in (" ridge", "rest ", "fulcrum", "turns", "abutment"))
    assert f"on a root, by the {kind}" in text and "root with most across" in text
    boxes = [(item.text, extent(item)) for item in told]
    for (one, a), (other, b) in combinations(boxes, 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] + 0.3 or b[3] <= a[1] + 0.3
        assert apart, (one, other)
    roots = {item.text.split()[0] for item in told if " root\n" in item.text}
    assert roots == {str(push.tooth) for push in frame.pushes if push.is_abutment}
    assert all(box[1] > -0.5 and box[3] < sheet.height_mm + 0.5 for _, box in boxes)


@pytest.mark.parametrize("seed", range(60))
def test_the_turning_presses_or_lifts_as_its_sign_says(seed):
    """Behind the fulcrum: up where an upper base is pressed on its ridge, down a lower one."""
    frame = frame_of(seed)
    items = side_view(frame, SIDE)
    orange = [item for item in items if isinstance(item, Line) and item.colour == TURNING]
    arc = next(item for item in orange if len(item.points) > 9)
    rises = arc.points[-1, 1] > arc.points[0, 1]
    pressed = frame.load.figures["about_fulcrum_nmm"] > 0.0
    assert rises == (pressed == frame.framework.is_upper)
    mark = next(item for item in orange if item.mark == "o")
    assert (arc.points[:, 0] < mark.points[0, 0]).all()
    title = next(item.text for item in items if isinstance(item, Words))
    right = frame.framework.bases[0].teeth[0] // 10 in (1, 4)
    assert title.startswith(f"the patient's {'right' if right else 'left'} side")


@pytest.mark.parametrize("seed", range(12))
def test_figures_stand_with_their_units_and_ranges(seed):
    """Turning, ridge and sinking; the force of the tooth pushed most aside in its parts."""
    frame = frame_of(seed)
    sheet = load_picture(frame.load, frame.framework, frame.arch, MOVE)
    text = " ".join(item.text for item in sheet.items if isinstance(item, Words))
    load = frame.load
    about = abs(load.figures["about_fulcrum_nmm"])
    assert f"{about:.0f} N mm" in text
    for name in ("about_fulcrum_nmm", "about_crest_nmm", "about_vertical_nmm"):
        size, way = turning(load, name)
        assert size in text and way in text
    assert ("presses the base on the ridge" in text) == (load.figures["about_fulcrum_nmm"] >= 0.0)
    most = max(load.teeth, key=lambda tooth: tooth.across_n)
    assert f"force on {most.tooth}: {newtons(np.linalg.norm(most.force_n))}" in text
    assert f"across {newtons(most.across_n)}" in text
    assert "100 N of closing force" in text
    assert "sinks in by up to" in text
    assert "upper base: left lateral excursion, at 1.3 mm" in text


def test_a_framework_without_rests_or_fulcrum_has_no_key_for_them():
    """A complete denture: what is not drawn is not explained, and nothing turns about a line."""
    frame = complete(3)
    sheet = load_picture(frame.load, frame.framework, frame.arch, MOVE)
    told = {item.text for item in sheet.items if isinstance(item, Words)}
    assert "rest" not in told
    assert "fulcrum line" not in told
    assert not any("abutment" in text for text in told)


def test_bars_are_as_long_as_their_loads_and_cross_their_ranges():
    """Value, least and greatest on one scale; names as given, units on the scale."""
    loads = [invented(seed, framework()) for seed in range(5)]
    longest = "Lateroprotrusion 45° to the right"
    sheet = load_bars(loads, "largest push", {"left lateral": longest})
    bars = [item.boxes[0] for item in sheet.items if hasattr(item, "boxes")]
    ranges = [item.points[:, 0] for item in sheet.items if getattr(item, "mark", "") == "|"]
    per_n = bars[0][2] / loads[0].figures["across_n"]
    for load, bar, ends in zip(loads, bars, ranges, strict=True):
        assert bar[2] == pytest.approx(per_n * load.figures["across_n"])
        assert ends[0] == pytest.approx(bar[0] + per_n * load.least["across_n"])
        assert ends[1] == pytest.approx(bar[0] + per_n * load.greatest["across_n"])
    words = " ".join(item.text for item in sheet.items if isinstance(item, Words))
    assert words.count(longest) == 5
    assert "N across the teeth for every 100 N" in words
    boxes = [extent(item) for item in sheet.items if isinstance(item, Words)]
    assert all(box[0] > -0.5 and box[2] < sheet.width_mm for box in boxes)


def test_arrows_point_where_they_end():
    """The head has its tip at the end; a push too small to see has no arrow."""
    start, end = np.array([1.0, 2.0]), np.array([9.0, 5.0])
    _, head = arrow(start, end, TOOTH)
    np.testing.assert_array_equal(head.points[0], end)
    assert (np.linalg.norm(head.points[1:3] - start, axis=1) < np.linalg.norm(end - start)).all()
    assert arrow(start, start + 0.5, TOOTH) == ()
    arc, tip = bent_arrow(np.zeros(2), 5.0, 0.0, 1.0, TOOTH)
    np.testing.assert_array_equal(tip.points[0], arc.points[-1])
    # The sides of the head lie behind the tip, against the sense of the turn.
    assert (np.arctan2(tip.points[1:3, 1], tip.points[1:3, 0]) < 1.0).all()


def test_the_picture_is_written_the_same_on_every_run():
    """As SVG, without an address outside itself."""
    frame = frame_of(1)
    sheet = load_picture(frame.load, frame.framework, frame.arch, MOVE)
    first = sheet_writer.svg(sheet, "load")
    assert first == sheet_writer.svg(sheet, "load")
    assert "<svg" in first
