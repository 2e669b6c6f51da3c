"""Charts over one setting: where each finding holds, what guides, and quantities as lines."""

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.varying.grid import Axis
from kinematics.varying.told import HOLDS, Feature
from kinematics.varying.variation import Variation
from scenes import colours, panel
from scenes.panel import PAGE_WIDTH_MM, Panel
from scenes.sheet import Boxes, Ground, Item, Line, Sheet, Words
from scenes.vary_axes import axis_words
from scenes.vary_keys import KEY_ROW_MM, TINTS, Alphabet, key_items
from scenes.vary_maps import WIDTH_MM

_NAMES_MM: Final = 74.0
_ROW_MM: Final = 4.6
_LINE_MM: Final = 3.0
_BAR: Final = 0.66
_BOTTOM_MM: Final = 10.5
_TOP_MM: Final = 7.0
_CHART_MM: Final = 42.0
_NAME_LETTERS: Final = 52
_PT: Final = 6.6
_SMALL_PT: Final = 6.2
_ROOM_FOR_LETTER_MM: Final = 1.8
_KEY_LETTERS: Final = 80
#: Letters that go beside the scale of a quantity.
_BESIDE_LETTERS: Final = 34
#: Of what holds: teeth that touch, and findings by their severity, with the ink of words on it.
_BARS: Final[dict[str, tuple[str, str]]] = {
    HOLDS: ("#4a6b8a", colours.PAPER),
    "serious": ("#33506b", colours.PAPER),
    "attention": ("#9fb6c9", colours.INK),
    "note": ("#e3eaf0", colours.INK),
}
_ROOM_FOR_SIGN_MM: Final = 3.6
_ROOM_FOR_SEVERITY_MM: Final = 17.0
_SIGNS: Final = {str(severity): sign for severity, sign in colours.SEVERITY_SIGN.items()}
_DOTTED: Final[colours.Line] = (0, (1, 1.5))


@dataclass(frozen=True)
class BarRow:
    """One row of a chart of bars.

    Attributes
    ----------
    name : str
        What it is about.
    feature : Feature
        What is told along it.
    """

    name: str
    feature: Feature


def bars_chart(found: Variation, title: str, rows: Sequence[BarRow], alphabet: Alphabet) -> Sheet:
    """Lay out one row for everything that flips: bars where it holds, or what is said, by letter.

    Parameters
    ----------
    found : Variation
        What was found, over one setting.
    title : str
        Heads the chart.
    rows : sequence of BarRow
        From above.
    alphabet : Alphabet
        Letters of texts.
    """
    lines = [textwrap.wrap(row.name, _NAME_LETTERS) for row in rows]
    heights = [max(_ROW_MM, _LINE_MM * len(own) + 1.2) for own in lines]
    (axis,) = found.grid.axes
    said = [_stretches(found, row.feature) for row in rows if row.feature.kind == "text"]
    texts = {text for stretches in said for *_, text in stretches if text}
    key = [
        line
        for text in alphabet.texts
        if text in texts
        for line in alphabet.key_rows(text, _KEY_LETTERS)
    ]
    bottom = _BOTTOM_MM + (KEY_ROW_MM * len(key) + 1.5 if key else 0.0)
    box = (_NAMES_MM, bottom, PAGE_WIDTH_MM - _NAMES_MM - 4.0, sum(heights))
    frame = Panel(box, (axis.first, axis.last), (0.0, 1.0))
    items: list[Item] = [*_upright_scale(frame, axis), panel.title(frame, title)]
    top = box[1] + box[3]
    for row, own, height in zip(rows, lines, heights, strict=True):
        middle = top - 0.5 * height
        place = (_NAMES_MM - 2.0, middle)
        items.append(Words("\n".join(own), place, "right", size_pt=_PT, line_spacing=1.1))
        items += _bars(found, frame, row.feature, (middle, _BAR * _ROW_MM), alphabet)
        items.append(Line(np.array([[2.0, top], [PAGE_WIDTH_MM - 4.0, top]]), colours.FAINT, 0.4))
        top -= height
    items += key_items(key, _NAMES_MM)
    return Sheet(PAGE_WIDTH_MM, box[1] + box[3] + _TOP_MM, tuple(items))


def number_chart(found: Variation, title: str, column: str, unit: str) -> Sheet:
    """Lay out a quantity along the setting, with a mark at every grid point."""
    (axis,) = found.grid.axes
    titled = textwrap.wrap(title, 46)
    box = (13.0, _BOTTOM_MM, WIDTH_MM - 17.0, _CHART_MM)
    places = [place for place in sorted(found.runs) if found.told[place] is not None]
    across = np.array([axis.at(place[0]) for place in places])
    upward = np.array([found.runs[place][column] for place in places], dtype=np.float64)
    finite = upward[np.isfinite(upward)]
    low, high = min(0.0, float(finite.min())), float(finite.max())
    frame = Panel(box, (axis.first, axis.last), (low, high + 0.08 * max(high - low, 1e-3)))
    points = frame.places(across, upward)
    on_grid = np.isin(across, axis.values)
    marked = tuple(np.flatnonzero(on_grid & np.isfinite(upward)).tolist())
    items = [
        *panel.scales(frame, axis_words(axis).titled, _beside_scale(title, unit)),
        *_as_set(frame, axis),
        Line(points, "#1b6ca8", 1.3, mark="o", mark_pt=3.2, marked=marked, within=None),
        panel.title(frame, "\n".join(titled)),
    ]
    height = box[1] + box[3] + 2.0 + 3.6 * len(titled)
    return Sheet(WIDTH_MM, height, tuple(items))


def _beside_scale(title: str, unit: str) -> str:
    """Return what stands beside the scale: quantity and unit, or where that is long, the unit."""
    full = f"{title.partition(':')[0].lower()}, {unit}"
    return full if len(full) <= _BESIDE_LETTERS else unit


def _upright_scale(frame: Panel, axis: Axis) -> Iterator[Item]:
    step = panel.step_for(axis.last - axis.first)
    ticks = [at for at, _ in panel.ticks(axis.first, axis.last, step)]
    yield Line(frame.upright(ticks), colours.FAINT, 0.4, level=0.4)
    yield from panel.scale_across(frame, axis_words(axis).titled, step)
    yield from _as_set(frame, axis)


def _as_set(frame: Panel, axis: Axis) -> Iterator[Item]:
    """Yield a dotted line where the case as set lies."""
    if axis.as_set is not None and axis.first <= axis.as_set <= axis.last:
        yield Line(frame.upright(axis.as_set), colours.INK, 1.0, _DOTTED, level=2.5)
        _, bottom, _, height = frame.box
        x = float(frame.x(axis.as_set))
        place = (x, bottom + height - 0.4)
        ground = Ground(colours.PAPER, 0.6, opacity=0.85)
        yield Words(
            "as set", place, "center", "top", _SMALL_PT, colours.SOFT_INK, ground=ground, level=4.0
        )


def _bars(
    found: Variation,
    frame: Panel,
    feature: Feature,
    at: tuple[float, float],
    alphabet: Alphabet,
) -> Iterator[Item]:
    """Yield the bars of one row: (middle, height), mm."""
    middle, height = at
    for start, end, text in _stretches(found, feature):
        left, right = (float(frame.x(value)) for value in (start, end))
        box = (left, middle - 0.5 * height, right - left, height)
        if text and feature.kind != "text":
            fill, ink = _BARS[text]
            yield Boxes((box,), fill, rim=colours.SOFT_INK, level=1.2)
            told, (axis,) = _severity(text, right - left), found.grid.axes
            own = np.inf if axis.as_set is None else float(frame.x(axis.as_set))
            # Clear of the dotted line: at the other end of the bar where that stands at its first.
            at_end = left < own < left + _ROOM_FOR_SEVERITY_MM < right
            place = (right - 1.0 if at_end else left + 1.0, middle)
            yield Words(told, place, "right" if at_end else "left", size_pt=_SMALL_PT, colour=ink)
        elif text:
            label = alphabet.texts.index(text)
            yield Boxes((box,), TINTS[label % len(TINTS)], rim=colours.SOFT_INK, level=1.2)
            place = (0.5 * (left + right), middle)
            if right - left > _ROOM_FOR_LETTER_MM:
                yield Words(alphabet.letter(label), place, size_pt=_SMALL_PT, bold=True)


def _severity(said: str, width_mm: float) -> str:
    """Return the severity of a finding as there is room: its sign with its name, or the sign."""
    sign = _SIGNS.get(said, "")
    if not sign or width_mm < _ROOM_FOR_SIGN_MM:
        return ""
    return f"{sign} {said}" if width_mm > _ROOM_FOR_SEVERITY_MM else sign


def _stretches(found: Variation, feature: Feature) -> list[tuple[float, float, str]]:
    """Return what is said from where to where along the setting; of refused runs nothing."""
    (axis,) = found.grid.axes
    ends: list[tuple[float, float, str]] = []
    for place in sorted(found.runs):
        told = found.told[place]
        value = axis.at(place[0])
        text = "" if told is None else told.get(feature, "")
        if ends and ends[-1][2] == text:
            ends[-1] = (ends[-1][0], value, text)
        else:
            # A flip lies midway between two runs.
            begin = 0.5 * (ends[-1][1] + value) if ends else value
            if ends:
                ends[-1] = (ends[-1][0], begin, ends[-1][2])
            ends.append((begin, value, text))
    return ends
