"""An arch unrolled along its occlusal curve: how far every cusp tip stands out of it."""

import math
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.planning.plane.arch_heights import (
    MODERATE_FROM_MM,
    ArchPlane,
    TipHeight,
    ToothHeight,
)
from kinematics.tooth_codes import is_posterior, is_right
from scenes import colours, panel
from scenes.colours import Line as Dash
from scenes.panel import Panel
from scenes.phrases import number
from scenes.sheet import Boxes, Ground, Item, Key, Line, Sheet, Words

_HEIGHT_MM: Final = 84.0
_BLUE: Final = "#0072B2"
_ORANGE: Final = "#D55E00"
_DASHED: Final[Dash] = (0, (3.0, 1.6))
#: What is always shown, mm out of the curve and short of it, and room beyond the farthest tip.
_LEAST_SHOWN_MM: Final = 2.4
_ROOM_MM: Final = 0.4
#: How far cusps stand mesially (+) of the middle of their tooth, in shares of its room.
_ALONG: Final = {"M": 0.22, "D": -0.22}
_DISTAL_CUSP: Final = -0.36


def plane_chart(plane: ArchPlane, limit_mm: float) -> Sheet:
    """Lay out the teeth of an arch in a row, and the heights of their tips over the sphere.

    Parameters
    ----------
    plane : ArchPlane
        What was found; it has a sphere.
    limit_mm : float
        How far a tooth may stand off it.
    """
    heights = (tip.over_sphere_mm for tooth in plane.teeth for tip in tooth.tips)
    told = [height for height in heights if math.isfinite(height)]
    low = min(-_LEAST_SHOWN_MM, min(told) - _ROOM_MM)
    high = max(_LEAST_SHOWN_MM, max(told) + _ROOM_MM)
    # Teeth stand out downward in the upper, upward in the lower, as in the mouth.
    upward = (high, low) if plane.upper else (low, high)
    frame = Panel((15.0, 25.0, 160.0, 50.0), (-0.5, len(plane.teeth) - 0.5), upward)
    arch = "upper" if plane.upper else "lower"
    way = "downward" if plane.upper else "upward"
    items: list[Item] = [
        panel.title(frame, f"{arch} arch unrolled; towards the opposing teeth is {way}"),
        *_ground(frame, limit_mm),
        *(item for slot, tooth in enumerate(plane.teeth) for item in _tooth(frame, slot, tooth)),
        *(_out(frame, slot, t, limit_mm) for slot, t in enumerate(plane.teeth) if _told(t)),
        Words("patient's right", (15.0, 20.6), "left", "top", 6.5),
        Words("patient's left", (175.0, 20.6), "right", "top", 6.5),
        *_numbers(frame, plane, limit_mm),
    ]
    return Sheet(panel.PAGE_WIDTH_MM, _HEIGHT_MM, tuple(items), _key(plane, limit_mm))


def _told(tooth: ToothHeight) -> bool:
    return bool(tooth.over_eruption)


def _ground(frame: Panel, limit_mm: float) -> list[Item]:
    left, _, width, _ = frame.box
    ends = sorted((float(frame.y(-limit_mm)), float(frame.y(limit_mm))))
    marks = panel.ticks(min(frame.upward), max(frame.upward), 1.0)
    middle = frame.box[1] + 0.5 * frame.box[3]
    return [
        Boxes(((left, ends[0], width, ends[1] - ends[0]),), "#e3edf5", level=0.3),
        Line(frame.level([at for at, _ in marks]), colours.FAINT, 0.4, level=0.4),
        Line(frame.level(0.0), colours.INK, 0.9, level=0.6),
        Line(frame.level(MODERATE_FROM_MM), _ORANGE, 0.9, _DASHED, level=0.6),
        *(Words(text, (left - 1.2, float(frame.y(at))), "right") for at, text in marks),
        Words("height over the curve of the other teeth, mm", (4.0, middle), turned=True),
    ]


def _tooth(frame: Panel, slot: int, tooth: ToothHeight) -> list[Item]:
    """Return the marks of one tooth, and how far the others leave its height open."""
    items: list[Item] = []
    if _told(tooth):
        ends = [tooth.height_mm - tooth.uncertainty_mm, tooth.height_mm + tooth.uncertainty_mm]
        items.append(Line(frame.places([slot, slot], ends), colours.FAINT, 4.0, level=1.0))
    if math.isnan(tooth.height_mm):
        return [Words("not known", frame.place(slot, 0.0), turned=True, size_pt=6.0)]
    for tip in tooth.tips:
        at = frame.places([slot + _aside(tooth, tip)], [tip.over_sphere_mm])
        items.append(_mark(at, tooth, tip))
    return items


def _aside(tooth: ToothHeight, tip: TipHeight) -> float:
    """Return where a tip stands beside the middle of its tooth; mesial is towards the midline."""
    along = _DISTAL_CUSP if tip.name == "D" else _ALONG.get(tip.name[0], 0.0)
    return along if is_right(tooth.tooth) else -along


def _mark(at: Floats, tooth: ToothHeight, tip: TipHeight) -> Line:
    if not tooth.natural:
        return Line(at, colours.SOFT_INK, 0.0, mark="s", mark_pt=4.0, mark_fill=colours.PAPER)
    if not is_posterior(tooth.tooth):
        return Line(at, colours.SOFT_INK, 0.0, mark="^", mark_pt=4.6, mark_fill=colours.PAPER)
    if tip.supporting:
        return Line(at, _BLUE, 0.0, mark="o", mark_pt=5.0)
    return Line(at, colours.SOFT_INK, 0.0, mark="D", mark_pt=3.6, mark_fill=colours.PAPER)


def _out(frame: Panel, slot: int, tooth: ToothHeight, limit_mm: float) -> Words:
    """Return the height of a back tooth beside its tips, bold where it is out of line."""
    out = tooth.is_out_of_line(limit_mm)
    short = out and tooth.along_axis_mm < 0.0
    heights = [tip.over_sphere_mm for tip in tooth.tips]
    far = min(heights) if short else max(*heights, tooth.height_mm + tooth.uncertainty_mm)
    up = (frame.upward[0] < frame.upward[1]) != short
    sign = "+" if tooth.along_axis_mm > 0.0 else ""
    text = f"{sign}{number(tooth.along_axis_mm, 2)}{' mm' if out else ''}"
    return Words(
        text,
        frame.place(slot, far, (0.0, 5.0 if up else -5.0)),
        "center",
        "bottom" if up else "top",
        7.5 if out else 6.0,
        colours.INK if out else colours.SOFT_INK,
        bold=out,
        ground=Ground(colours.PAPER, 0.5, opacity=0.7),
    )


def _numbers(frame: Panel, plane: ArchPlane, limit_mm: float) -> list[Item]:
    """Return the tooth numbers below the panel; a ring marks those out of line."""
    items: list[Item] = []
    for slot, tooth in enumerate(plane.teeth):
        at = float(frame.x(slot)), frame.box[1] - 2.2
        out = tooth.is_out_of_line(limit_mm)
        items.append(Words(str(tooth.tooth), at, bold=out, size_pt=7.5))
        if out:
            places = np.array([at])
            items.append(
                Line(places, _ORANGE, 0.0, mark="o", mark_pt=13.0, rim_pt=1.4, mark_fill="none")
            )
    return items


def _key(plane: ArchPlane, limit_mm: float) -> Key:
    nowhere = np.empty((0, 2))
    dot = Line(nowhere, _BLUE, 0.0, mark="o", mark_pt=5.0)
    paper = colours.PAPER
    entries = [
        (dot, "supporting cusp"),
        (
            Line(nowhere, colours.SOFT_INK, 0.0, mark="D", mark_pt=3.6, mark_fill=paper),
            "other cusp",
        ),
        (
            Line(nowhere, colours.SOFT_INK, 0.0, mark="^", mark_pt=4.6, mark_fill=paper),
            "front edge or canine tip (not judged)",
        ),
        (Line(nowhere, colours.INK, 0.9), "occlusal curve"),
        (Line(nowhere, "#c5d9ea", 6.0), f"within {number(limit_mm, 2)} mm of it"),
        (Line(nowhere, _ORANGE, 0.9, _DASHED), "2 mm out: moderate to severe over-eruption"),
        (Line(nowhere, colours.FAINT, 4.0), "height of a tooth, 95 % interval"),
    ]
    if not all(tooth.natural for tooth in plane.teeth):
        square = Line(nowhere, colours.SOFT_INK, 0.0, mark="s", mark_pt=4.0, mark_fill=paper)
        entries.append((square, "replacement tooth (not judged)"))
    return Key(tuple(entries), columns=3, sample=2.2, gap=0.6, between=1.6, below=0.2)


def is_drawn(plane: ArchPlane) -> bool:
    """Tell whether an arch has a curve to unroll it along."""
    return any(math.isfinite(tooth.height_mm) for tooth in plane.teeth)
