"""One picture of a loaded framework or bridge: along the bite, from the side, and in figures."""

import math
from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.planning.framework import Framework
from kinematics.planning.load_readings import BaseLoad
from scenes import colours, panel
from scenes.arrows import arrow, bent_arrow
from scenes.load_drawing import (
    ABUTMENT,
    ABUTMENT_DASH,
    FULCRUM_DASH,
    RIDGE,
    TOOTH,
    TURNING,
    LoadedFrame,
    Push,
)
from scenes.load_figures import TURNS, figure, newtons, turning, turns_of
from scenes.load_plan import plan_view
from scenes.load_side import side_view
from scenes.panel import Panel
from scenes.phrases import length, number
from scenes.sheet import Box, Item, Line, Sheet, Words

_HEIGHT_MM: Final = 108.0
_PLAN: Final[Box] = (0.0, 16.0, 106.0, 79.0)
_SIDE: Final[Box] = (109.0, 55.0, 69.0, 40.0)
_SPLIT: Final[Box] = (109.0, 16.0, 28.0, 31.0)
_FACTS: Final[Box] = (138.0, 16.0, 40.0, 31.0)
#: What arrows are of, by what is drawn.
_KEY_WORDS: Final = {
    "base": ("on a replacement tooth", "on an abutment, by the framework"),
    "bridge": ("on a pontic, by opponents", "on a root, by the bridge"),
    "splint": ("on a crown, by opponents", "on a root, by the splint"),
}


def load_picture(load: BaseLoad, framework: Framework, arch: Arch, movement: str) -> Sheet:
    """Lay out what a framework carries in one pose, per 100 N of closing force.

    Parameters
    ----------
    load : BaseLoad
        What is drawn; in equilibrium.
    framework : Framework
        Its rests, ridges and fulcrum line.
    arch : Arch
        The arch it lies in, in its own coordinates.
    movement : str
        What the excursion is called in the picture.
    """
    frame = LoadedFrame(load, framework, arch)
    items = [
        *_heading(frame, movement),
        *plan_view(frame, _PLAN),
        *side_view(frame, _SIDE),
        *_split(frame),
        *_facts(frame),
        *_key(frame),
    ]
    return Sheet(panel.PAGE_WIDTH_MM, _HEIGHT_MM, tuple(items))


def _heading(frame: LoadedFrame, movement: str) -> list[Item]:
    """Return of what, when and per how much all forces are told."""
    load = frame.load
    where = f"{load.framework}: {movement[0].lower()}{movement[1:]}, at {load.travel_mm:.1f} mm"
    return [
        Words(where, (0.0, _HEIGHT_MM - 0.5), "left", "top", 8.5, bold=True),
        Words(
            "N for every 100 N of closing force; in brackets the range over force tilt and mucosa",
            (0.0, _HEIGHT_MM - 4.8),
            "left",
            "top",
            6.8,
            colours.SOFT_INK,
        ),
    ]


def _most_loaded(frame: LoadedFrame) -> Push | None:
    own = [push for push in frame.pushes if not push.is_abutment]
    return max(own, key=lambda push: push.across_n, default=None)


def _split(frame: LoadedFrame) -> list[Item]:
    """Return the force on the tooth that is pushed most aside, in its parts along and across."""
    push = _most_loaded(frame)
    if push is None:
        return []
    whole = Panel(_SPLIT, (0.0, 1.0), (0.0, 1.0))
    towards = 1.0 if frame.framework.is_upper else -1.0
    per_mm = max(push.across_n, abs(push.along_n), 1e-9) / 16.0
    along, across = towards * push.along_n / per_mm, push.across_n / per_mm
    left, middle = _SPLIT[0] + 4.0, _SPLIT[1] + 0.5 * _SPLIT[3] - 0.5
    foot = np.array([left, middle - 0.5 * along])
    corner, tip = foot + np.array([0.0, along]), foot + np.array([across, along])
    beyond = np.array([0.0, 3.0 * np.sign(along)])
    axis = np.array([foot - beyond, corner + beyond])
    beside = 1.6 * np.sign(along)
    return [
        panel.title(whole, f"force on {push.tooth}: {newtons(push.size_n)}"),
        Line(axis, colours.SOFT_INK, 0.6, (0, (6.0, 1.5, 1.0, 1.5)), level=1.0),
        *arrow(foot, corner, TOOTH, 1.2),
        *arrow(corner, tip, TOOTH, 1.2),
        *arrow(foot, tip, TOOTH, 2.2),
        Words(
            f"along its axis {newtons(push.along_n)}",
            (left - 1.6, middle),
            "right",
            "center",
            6.2,
            turned=True,
        ),
        Words(
            f"across {newtons(push.across_n)}",
            (float(corner[0]) + 1.0, float(corner[1]) + beside),
            "left",
            "bottom" if along > 0.0 else "top",
            6.2,
        ),
    ]


def _facts(frame: LoadedFrame) -> list[Item]:
    """Return turning, ridge and sinking in words, each with its range."""
    load = frame.load
    lines = [
        (f"turns about {TURNS[quantity][0]}", *turning(load, quantity))
        for quantity in turns_of(load)
    ]
    if load.has_ridge:
        deep = f"sinks in by up to {length(load.figures['sinking_mm'])}"
        lines.append(("the ridge carries", figure(load, "mucosa_n"), deep))
    else:
        lines += _on_roots(load)
    items: list[Item] = []
    left, bottom, _, height = _FACTS
    row = bottom + height + 1.0
    for name, amount, more in lines:
        items.append(Words(name, (left, row), "left", "top", 6.2, colours.SOFT_INK))
        items.append(Words(amount, (left, row - 2.8), "left", "top", 6.8, bold=True))
        if more:
            items.append(Words(more, (left, row - 6.0), "left", "top", 6.2))
        row -= 8.6 if more else 6.8
    return items


def _on_roots(load: BaseLoad) -> list[tuple[str, str, str]]:
    """Return what a bridge or splint carries in all, and which of its roots gets most of it."""
    teeth = "its pontics carry" if load.kind == "bridge" else "its crowns carry"
    lines = [
        (f"{teeth} across their axes", figure(load, "across_n"), ""),
        (f"{teeth} along their axes", figure(load, "along_n"), ""),
    ]
    if load.abutments:
        across = max(load.abutments, key=lambda one: one.across_n)
        along = max(load.abutments, key=lambda one: one.along_n)
        lines += [
            (
                f"root with most across: {across.tooth}",
                newtons(across.across_n, across.across_range_n),
                "",
            ),
            (
                f"root with most along: {along.tooth}",
                newtons(along.along_n, along.along_range_n),
                "",
            ),
        ]
    return lines


def _key(frame: LoadedFrame) -> list[Item]:
    """Return what lines and marks mean, in two rows at the bottom."""
    sample = frame.sample_n / frame.newtons_per_mm
    sample_n = number(frame.sample_n, 0 if frame.sample_n >= 1.0 else 1)
    pushed, pressed = _KEY_WORDS[frame.load.kind]
    rows = [(_sample(TOOTH, 1.7, sample), sample, f"{sample_n} N {pushed}")]
    if frame.load.abutments:
        blue = _sample(ABUTMENT, 1.5, sample, ABUTMENT_DASH)
        rows.append((blue, sample, f"{sample_n} N {pressed}"))
    short = np.array([[0.0, 0.0], [8.0, 0.0]])
    middle = short[:1] + np.array([4.0, 0.0])
    if frame.framework.fulcrum is not None:
        dashes = Line(short, TURNING, 1.5, FULCRUM_DASH)
        circle = Line(middle, TURNING, 0.0, mark="o", mark_pt=5.0, mark_fill=colours.PAPER)
        bent = bent_arrow(np.array([4.0, -4.5]), 6.0, math.radians(125), math.radians(55), TURNING)
        rows += [((dashes, circle), 8.0, "fulcrum line"), (bent, 8.0, "turns this way")]
    strokes = np.full((5, 3, 2), np.nan)
    strokes[:, 0] = np.stack([np.linspace(0.5, 7.5, 5), np.full(5, -1.1)], axis=1)
    strokes[:, 1] = strokes[:, 0] + [0.0, 2.2]
    ridge = (Line(short, RIDGE, 1.0), Line(strokes.reshape(-1, 2), RIDGE, 0.7))
    if frame.framework.ridges:
        rows.append((ridge, 8.0, "ridge that is pressed"))
    if frame.framework.rests:
        square = Line(middle, colours.PAPER, 0.0, mark="s", mark_pt=4.6, mark_fill=RIDGE)
        rows.append(((square,), 8.0, "rest"))
    items: list[Item] = []
    starts = ((0.0, 8.0), (0.0, 2.5), (82.0, 8.0), (82.0, 2.5), (128.0, 8.0), (128.0, 2.5))
    for (lines, wide, text), start in zip(rows, starts, strict=False):
        items += [_moved(line, start) for line in lines]
        items.append(Words(text, (start[0] + wide + 2.0, start[1]), "left", size_pt=6.8))
    return items


def _sample(colour: str, width_pt: float, mm: float, dash: colours.Line = "-") -> tuple[Line, ...]:
    return arrow(np.zeros(2), np.array([mm, 0.0]), colour, width_pt, dash)


def _moved(line: Line, start: tuple[float, float]) -> Line:
    return replace(line, points=line.points + np.array(start))
