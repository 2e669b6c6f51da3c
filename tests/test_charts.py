"""Plots show what they are given, repeat to the byte, and are valid alone."""

import re
from dataclasses import replace
from functools import cache
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties

from kinematics.contact.sweep import GUIDED_BY_TABLE
from scenes import charts, colours, gap_charts, panel, sheet_writer, track_charts
from scenes.sheet import MM_PER_POINT, Boxes, Line, Words

READINGS = (0.0, 0.5, 1.0, 2.0, 3.0)
REACH = charts.Reach(near_mm=0.2, near_start_mm=0.5)
REPLACED = (15, 16, 17)


def _texts(sheet):
    """Return every text of a plot."""
    names = [name for _, name in sheet.key.entries] if sheet.key else []
    return [item.text for item in sheet.items if isinstance(item, Words)] + names


def _lines(sheet, colour):
    """Return the lines of a colour that have a thickness."""
    lines = [item for item in sheet.items if isinstance(item, Line)]
    return [line for line in lines if line.colour == colour and line.width_pt]


@given(st.lists(st.booleans(), min_size=2, max_size=40))
def test_runs_cover_exactly_the_true_poses(flags):
    """Each true pose lies in one run, no false pose in any, and runs do not touch each other."""
    travel = np.linspace(0.0, 4.0, len(flags))
    found = charts.spans(np.array(flags), travel)
    for at, flag in zip(travel, flags, strict=True):
        assert sum(start <= at <= start + width for start, width in found) == flag
    assert all(a + wide < b for (a, wide), (b, _) in pairwise(found))
    assert sum(width for _, width in found) <= 4.0 + 1e-12


def test_rows_are_the_pairs_that_touch_or_come_near(example):
    """A pair that stays away has no row; states follow tolerance and margin exactly."""
    sweep = example.sweeps[2]
    rows = [row for members in charts.chart_rows(sweep, REACH).values() for row in members]
    assert [(row.upper, row.lower) for row in rows] == [(16, 46), (23, 33), (24, 34)]
    for row in rows:
        i, j = sweep.upper_codes.index(row.upper), sweep.lower_codes.index(row.lower)
        gap = sweep.pair_gap_mm[:, i, j]
        np.testing.assert_array_equal(row.touching, gap <= 0.02)
        np.testing.assert_array_equal(row.near, (gap > 0.02) & (gap <= 0.2))
    guiding = [row for row in rows if row.guiding.any()]
    assert [(row.upper, row.lower) for row in guiding] == [(23, 33)]


def test_pairs_that_leave_at_once_are_told_in_words(example):
    """Each touching pair has a row or is named with its last touch; short movements name none."""
    sweep = example.sweeps[2]
    told = charts.start_only(sweep, REACH)
    rows = {(r.upper, r.lower) for group in charts.chart_rows(sweep, REACH).values() for r in group}
    named = {(upper, lower) for upper, lower, _ in told}
    touching = np.argwhere((sweep.pair_gap_mm <= sweep.tolerance_mm).any(axis=0))
    pairs = {(sweep.upper_codes[i], sweep.lower_codes[j]) for i, j in touching}
    assert pairs == rows | named and not rows & named
    assert all(0.0 <= last <= 0.5 for _, _, last in told)
    assert charts.start_only(example.sweeps[4], REACH) == []


@given(st.floats(0.01, 500.0))
def test_steps_of_scales_are_round_and_few(span):
    """Between 2 and 6 steps of 1, 2 or 5 times a power of ten, numbers with all digits."""
    step = panel.step_for(span)
    assert 2.0 <= span / step <= 6.0
    assert f"{step:.0e}"[0] in "125"
    for at, text in panel.ticks(0.0, span, step):
        assert float(text) == pytest.approx(at, abs=1e-9)
        assert 0.0 <= at <= span * 1.0001


def test_a_contact_chart_names_sides_pairs_and_edge_to_edge(example):
    """Working and nonworking side in words, replacement teeth with R, edge-to-edge, unit."""
    texts = _texts(charts.contact_chart(example.sweeps[2], REACH, READINGS, REPLACED))
    for text in (
        "right back teeth: nonworking side",
        "left back teeth: working side",
        "16/46 R",
        "23/33",
        "edge-to-edge ▸",
        "crossover: shown, not judged",
        "horizontal travel of the lower incisal point from maximal intercuspation (MI), mm",
    ):
        assert text in texts


@cache
def _width_mm(text, size_pt, weight="normal"):
    """Return how wide a text is drawn."""
    renderer = FigureCanvasAgg(Figure(dpi=720)).get_renderer()
    font = FontProperties(family="DejaVu Sans", size=size_pt, weight=weight)
    return renderer.get_text_width_height_descent(text, font, False)[0] / 720.0 * 25.4


def _extents_mm(words):
    """Return where words begin and end across, as they are drawn."""
    width = _width_mm(words.text, words.size_pt)
    begin = words.place[0] - {"left": 0.0, "center": 0.5, "right": 1.0}[words.across] * width
    return begin, begin + width


@pytest.mark.parametrize("end", [1.0, 4.0, 6.0, 9.0])
def test_the_names_beside_edge_to_edge_never_meet(example, end):
    """Wherever the edge lies, words keep apart, off the line and in the frame, if need be short."""
    sweep = example.sweeps[2]
    travel = np.linspace(0.0, end, len(sweep.travel_mm))
    sweep = replace(sweep, pair_gap_mm=np.full_like(sweep.pair_gap_mm, np.inf))
    told = set()
    for edge in np.linspace(0.1, end, 120):
        at = replace(sweep, travel_mm=travel, crossover=travel > edge, edge_to_edge_mm=float(edge))
        sheet = charts.contact_chart(at, REACH, READINGS, REPLACED)
        words = [item for item in sheet.items if isinstance(item, Words)]
        (name,) = [item for item in words if "edge-to-edge" in item.text]
        beyond = [item for item in words if "not judged" in item.text]
        told |= {item.text for item in beyond}
        spans = sorted(map(_extents_mm, [name, *beyond]))
        left, right = 31.0, panel.PAGE_WIDTH_MM - 3.0
        line = left + (right - left) * edge / round(end, 3)
        assert all(a[1] + 0.7 < b[0] for a, b in pairwise(spans))
        assert left < spans[0][0] and spans[-1][1] < right
        assert all(not begin < line < stop for begin, stop in spans)
    assert told == {"crossover: shown, not judged", "crossover, not judged", "not judged"}


def test_a_guide_table_has_its_own_row_and_takes_the_guide_from_the_teeth(example):
    """Where the table carries the jaw, no pair is shown as carrying it."""
    sweep = example.sweeps[0]
    tabled = replace(sweep, guide=np.full_like(sweep.guide, GUIDED_BY_TABLE))
    rows = [row for members in charts.chart_rows(tabled, REACH).values() for row in members]
    assert not any(row.guiding.any() for row in rows)
    assert "incisal guide table" in _texts(charts.contact_chart(tabled, REACH, READINGS, ()))


def test_a_sweep_without_contacts_says_so(example):
    """No row, but a sentence."""
    sweep = example.sweeps[0]
    away = replace(sweep, pair_gap_mm=np.full_like(sweep.pair_gap_mm, np.inf))
    assert "no pair touches or comes near beyond the start" in _texts(
        charts.contact_chart(away, REACH, READINGS, ())
    )
    gone = gap_charts.gap_chart(away, READINGS)
    ElementTree.fromstring(sheet_writer.svg(gone, "gone"))
    first_premolars = "#1b6ca8"
    assert len(_lines(gap_charts.gap_chart(sweep, READINGS), first_premolars)) == 2
    assert _lines(gone, first_premolars) == []


def test_tooth_numbers_keep_apart_and_off_the_scale(example):
    """Where all gaps stay at nothing, the numbers at the ends would stand on those of the scale."""
    sweep = example.sweeps[4]
    flat = replace(sweep, pair_gap_mm=np.zeros_like(sweep.pair_gap_mm))
    sheet = gap_charts.gap_chart(flat, READINGS)
    words = [item for item in sheet.items if isinstance(item, Words)]
    for column in ("right", "left"):
        (title,) = [item for item in words if item.text.startswith(f"{column} back teeth")]
        across = [w for w in words if title.place[0] < w.place[0] < title.place[0] + 48.0]
        names = [_upright_mm(w) for w in across if re.fullmatch(r"[12][4-8]", w.text)]
        scale = [_upright_mm(w) for w in across if w.upward == "top"]
        assert len(names) == 4 and scale
        assert min(low for low, _ in names) > max(high for _, high in scale)
        assert all(a[1] < b[0] for a, b in pairwise(sorted(names)))


def _upright_mm(words):
    """Return the lower and upper end of digits: no higher than 0.73 of the size of letters."""
    at, high = words.place[1], 0.73 * words.size_pt * MM_PER_POINT
    return (at - high, at) if words.upward == "top" else (at - 0.5 * high, at + 0.5 * high)


def test_a_runner_up_that_changes_from_pose_to_pose_is_points(example):
    """A line with a name while one pair stays next, no upright lines, and words that say so."""
    sweep = example.sweeps[2]
    count = len(sweep.travel_mm)
    lower = np.where(np.arange(count) < count // 2, 46, 44 + np.arange(count) % 2)
    next_pair = replace(
        sweep.runner_up, tooth_upper=np.full(count, 16), tooth_lower=lower.astype(np.int64)
    )
    known = np.linspace(0.1, 0.2, count)
    made = replace(sweep, runner_up=next_pair, runner_up_gap_mm=known)
    sheet = gap_charts.gap_chart(made, READINGS)
    (points,) = [item for item in sheet.items if isinstance(item, Line) and not item.width_pt]
    (line,) = [item for item in _lines(sheet, colours.INK) if item.within]
    assert (len(line.points), len(points.points)) == (count // 2, count - count // 2)
    assert [text for text in _texts(sheet) if "/" in text] == ["16/46"]
    assert "points: the pair changes here" in _texts(sheet)
    assert not [item for item in _lines(sheet, colours.FAINT) if item.width_pt == 0.5]
    stays = replace(made, runner_up=replace(next_pair, tooth_lower=np.full(count, 46)))
    assert "points: the pair changes here" not in _texts(gap_charts.gap_chart(stays, READINGS))


def _all_plots(example):
    return {
        "chart": lambda: charts.contact_chart(example.sweeps[1], REACH, READINGS, ()),
        "gaps": lambda: gap_charts.gap_chart(example.sweeps[1], READINGS),
        "short": lambda: gap_charts.gap_chart(example.sweeps[4], READINGS),
        "incisal": lambda: track_charts.incisal_chart(example.borders, example.sweeps),
        "condyles": lambda: track_charts.condyle_chart(example.borders, "Camper plane"),
    }


@pytest.mark.parametrize("kind", ["chart", "gaps", "short", "incisal", "condyles"])
def test_plots_repeat_and_stand_alone(example, kind):
    """Same bytes; well-formed; own names for all elements; nothing fetched; no NaN."""
    lay_out = _all_plots(example)[kind]
    svg = sheet_writer.svg(lay_out(), "one")
    assert svg == sheet_writer.svg(lay_out(), "one")
    root = ElementTree.fromstring(svg)
    names = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(names) == len(set(names))
    assert all(name.startswith("one-") for name in names)
    for element in root.iter():
        for key, value in element.attrib.items():
            if key.endswith("href"):
                assert value.startswith("#one-") and value[1:] in names
    assert "nan" not in svg.lower().replace("dominant", "")
    assert "<metadata" not in svg and "<script" not in svg
    assert root.get("width") is None and root.get("viewBox") is not None


def test_tracks_name_their_units_and_plane(example):
    """Axes say millimetres and the reference plane; both condyles and the gothic arch are there."""
    condyles = _texts(track_charts.condyle_chart(example.borders, "Camper plane"))
    assert "forward along the Camper plane, mm" in condyles
    assert {"right condyle, from the side", "left condyle, from above"} <= set(condyles)
    incisal = _texts(track_charts.incisal_chart(example.borders, example.sweeps))
    assert "gothic arch, no teeth" in incisal
    assert all("mm" in text for text in incisal if text.startswith(("forward", "to the patient")))


@pytest.mark.parametrize("direction", [(1.0, 1.0, 0.0), (1.0, 0.0, 0.0), (0.2, 1.0, 0.0)])
def test_tracks_keep_their_proportion_and_stay_inside(example, direction):
    """A millimetre is as long to the side as forward, and the panel holds the whole track."""
    border = example.borders[0]
    track = border.incisal_point[0] + np.outer(np.linspace(0.0, 6.0, 41), direction)
    sheet = track_charts.incisal_chart([replace(border, incisal_point=track)], [])
    (line,) = _lines(sheet, "#0072B2")
    (x0, y0), (x1, y1) = line.points[0], line.points[-1]
    assert (x1 - x0) * direction[0] == pytest.approx((y1 - y0) * direction[1], abs=1e-9)
    left, bottom, width, height = line.within
    for x, y in ((x0, y0), (x1, y1)):
        assert left < x < left + width
        assert bottom < y < bottom + height


@pytest.mark.parametrize("sweep", range(6))
def test_lines_of_gaps_end_where_gaps_are_no_longer_measured(example, sweep):
    """No line leaves its panel: what is farther than the limit is not drawn at all."""
    sheet = gap_charts.gap_chart(example.sweeps[sweep], READINGS)
    colours = ("#1b6ca8", "#b8560f", "#12806a", "#7c4d8b")
    drawn = [line for colour in colours for line in _lines(sheet, colour)]
    assert len(drawn) == 8
    for line in drawn:
        highest = np.nanmax(line.points[:, 1])
        assert highest <= line.within[1] + line.within[3] + 1e-9


@given(st.lists(st.floats(0.0, 30.0), max_size=6), st.floats(0.1, 5.0))
def test_names_beside_lines_stand_apart_and_near_their_lines(levels, apart):
    """In order, at least so far apart, none moved where there is room, the mean unmoved."""
    levels = sorted(levels)
    moved = gap_charts.spread(levels, apart)
    assert all(b - a >= apart - 1e-9 for a, b in pairwise(moved))
    assert sum(moved) == pytest.approx(sum(levels), abs=1e-9)
    if all(b - a >= apart for a, b in pairwise(levels)):
        assert moved == pytest.approx(levels, abs=1e-12)


def test_every_line_of_gaps_carries_the_number_of_its_tooth(example):
    """Beside the last known gap stands the upper tooth; many rows are drawn lower."""
    texts = _texts(gap_charts.gap_chart(example.sweeps[1], READINGS))
    assert {str(code) for code in (14, 15, 16, 17, 24, 25, 26, 27)} <= set(texts)


@pytest.mark.parametrize("sweep", range(6))
def test_titles_of_gaps_end_before_the_next_begins_and_on_the_sheet(example, sweep):
    """A letter's width is left between titles, and before the edge of the sheet."""
    sheet = gap_charts.gap_chart(example.sweeps[sweep], READINGS)
    titles = [item for item in sheet.items if isinstance(item, Words) and item.bold]
    begins = [*(words.place[0] for words in titles[1:]), sheet.width_mm]
    assert len(titles) == 3
    for words, begin in zip(titles, begins, strict=True):
        assert words.place[0] + _width_mm(words.text, words.size_pt, "bold") < begin - 1.5


def test_charts_of_many_rows_are_drawn_lower(example):
    """Where the rows of two charts do not fit on a page, each takes less room, but is readable."""
    sweep = example.sweeps[0]
    near = replace(sweep, pair_gap_mm=np.minimum(sweep.pair_gap_mm, 0.1))
    few, many = (charts.contact_chart(s, REACH, READINGS, ()) for s in (sweep, near))
    rows = len(near.upper_codes) * len(near.lower_codes)
    assert 2.4 < many.height_mm / rows < charts._ROW_MM < few.height_mm


def test_the_band_of_the_tolerance_stays_in_its_panel(example):
    """A tolerance beyond the top of a panel fills it, and no more."""
    coarse = replace(example.sweeps[1], tolerance_mm=9.0)
    sheet = gap_charts.gap_chart(coarse, READINGS)
    bands = [item for item in sheet.items if isinstance(item, Boxes) and item.opacity < 1.0]
    frames = {line.within for line in sheet.items if isinstance(line, Line) and line.within}
    assert {band.boxes[0] for band in bands} == frames


def test_long_numbers_are_cut_to_a_thousandth_of_a_point(example):
    """No place carries more than three decimals: the page stays small; letters keep their size."""
    svg = sheet_writer.svg(gap_charts.gap_chart(example.sweeps[0], READINGS), "short")
    assert set(re.findall(r"[^(]\d\.\d{4,}", svg)) == set()
    assert "scale(0.015625)" in svg
