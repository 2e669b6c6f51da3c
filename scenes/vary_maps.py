"""Maps over the plane of two settings: what guides, which teeth touch, gaps, loads, what flips."""

import math
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.varying.contour_lines import level_lines
from kinematics.varying.partition import UNKNOWN, Partition, between, regions
from kinematics.varying.told import HOLDS, gravity
from kinematics.varying.variation import Flip, Variation
from scenes import colours, panel
from scenes.panel import Panel
from scenes.phrases import number
from scenes.sheet import Box, Boxes, Ground, Item, Line, Place, Sheet, Words
from scenes.vary_axes import axis_words
from scenes.vary_keys import KEY_PT, KEY_ROW_MM, TINTS, Alphabet, key_items

WIDTH_MM: Final = 86.0
_LEFT_MM, _RIGHT_MM, _BOTTOM_MM = 13.0, 4.0, 10.5
_TITLE_ROW_MM, _TITLE_LETTERS = 3.6, 50
_BOX_HEIGHT_MM: Final = 56.0
#: Regions narrower than this, mm, carry no letter where their kind has a wider one.
_NARROW_MM: Final = 1.7
#: Line styles of what flips, in turn.
_DASHES: Final[tuple[colours.Line, ...]] = (
    "-", (0, (4, 1.5)), (0, (1.2, 1.2)), (0, (6, 1.5, 1, 1.5)), (0, (8, 2)), (0, (2, 1, 2, 3)),
)  # fmt: skip
_HALO: Final = Ground(colours.PAPER, 1.0, rounded=True, opacity=0.85)
_LEVELS: Final = 6
_SMALL_PT: Final = 6.2
#: Values of lines keep so far from other words, mm.
_CLEAR_MM: Final = 5.0
#: About so many squares stand side by side on a map of a quantity, and so many at least in a step.
_SQUARES: Final = 120
_LEAST_PARTED: Final = 2
#: Letters of a line of a key.
_KEY_LETTERS: Final = 56
#: The least and the greatest value stand at the ends of a scale whose steps are wider than this.
_ROOM_FOR_ENDS_MM: Final = 16.0


@dataclass(frozen=True)
class NumberedFlip:
    """Something that flips, and the number under which maps and lists name it."""

    number: int
    flip: Flip


@dataclass(frozen=True)
class _Ground:
    """The panel of a map, and what every map of the grid has."""

    frame: Panel
    under: tuple[Item, ...]
    over: tuple[Item, ...]


def said_map(
    found: Variation,
    title: str,
    said: Sequence[str],
    alphabet: Alphabet,
    over: Sequence[NumberedFlip] = (),
) -> Sheet:
    """Lay out a map of what is said: one colour and letter for every text.

    Parameters
    ----------
    found : Variation
        What was found.
    title : str
        Heads the map.
    said : sequence of str
        Of every run, in the order of their places; empty where it was refused.
    alphabet : Alphabet
        Letters of all texts.
    over : sequence of NumberedFlip
        Whose lines are drawn over it, with their numbers.
    """
    texts = [text for text in alphabet.texts if text in said]
    labels = [alphabet.texts.index(text) if text else UNKNOWN for text in said]
    parts = Partition(found.grid, dict(zip(sorted(found.runs), labels, strict=True)))
    squares = parts.squares()
    rows = [row for text in texts for row in alphabet.key_rows(text, _KEY_LETTERS)]
    ground = _ground(found, title, KEY_ROW_MM * len(rows))
    items = [*ground.under, *_filled(ground.frame, squares, TINTS), *ground.over]
    for label in sorted(set(labels) - {UNKNOWN}) if len(texts) > 1 else ():
        for line in parts.lines(label):
            places = _places(found, ground.frame, line)
            items.append(Line(places, colours.INK, 0.6, level=1.5))
    letters = [*_letters(found, ground.frame, squares, parts.parted, alphabet)]
    items += [*letters, *_flip_lines(found, ground.frame, over, letters)]
    items += key_items(rows, _LEFT_MM)
    return Sheet(WIDTH_MM, _height(title, len(rows)), tuple(items))


def number_map(
    found: Variation, title: str, column: str, unit: str, over: Sequence[NumberedFlip]
) -> Sheet:
    """Lay out a map of a quantity: steps of colour, and lines along which it has one value.

    Parameters
    ----------
    found, title, over
        See `said_map`.
    column : str
        The quantity.
    unit : str
        Its unit, as beside a number.
    """
    values = found.numbers(column)
    ground = _ground(found, title, 2 * KEY_ROW_MM)
    finite = values[np.isfinite(values)]
    low, high = float(finite.min()), float(finite.max())
    step = panel.step_for(max(high - low, 1e-6), _LEVELS)
    levels = [(at, text) for at, text in panel.ticks(low, high, step) if low < at < high]
    parted = max(_LEAST_PARTED, _SQUARES // (max(found.grid.shape) - 1))
    squares = between(values, parted)
    labels = np.where(np.isfinite(squares), np.searchsorted([at for at, _ in levels], squares), -1)
    scale = _scale_colours(len(levels) + 1)
    items = [*ground.under, *_filled(ground.frame, labels, scale), *ground.over]
    marks: list[Words] = []
    items += _flip_lines(found, ground.frame, over)
    marks += [item for item in items if isinstance(item, Words) and item.ground is not None]
    for at, text in levels:
        for line in level_lines(values, at):
            items += _level_line(found, ground.frame, line, text, marks)
    items += _scale_key(scale, (low, high), levels, unit, bool((labels < 0).any()))
    return Sheet(WIDTH_MM, _height(title, 2), tuple(items))


def flips_map(found: Variation, title: str, over: Sequence[NumberedFlip]) -> Sheet:
    """Lay out a map of lines alone; see `said_map`."""
    ground = _ground(found, title, 0.0)
    lines = _flip_lines(found, ground.frame, over)
    return Sheet(WIDTH_MM, _height(title, 0), (*ground.under, *ground.over, *lines))


def _height(title: str, rows: int) -> float:
    top = 2.0 + _TITLE_ROW_MM * len(_title_lines(title))
    return top + _BOX_HEIGHT_MM + _BOTTOM_MM + (rows * KEY_ROW_MM + 1.5 if rows else 0.0)


def _title_lines(title: str) -> list[str]:
    return textwrap.wrap(title, _TITLE_LETTERS)


def _ground(found: Variation, title: str, key_mm: float) -> _Ground:
    below = _BOTTOM_MM + (key_mm + 1.5 if key_mm else 0.0)
    box = (_LEFT_MM, below, WIDTH_MM - _LEFT_MM - _RIGHT_MM, _BOX_HEIGHT_MM)
    across, upward = found.grid.axes
    frame = Panel(box, (across.first, across.last), (upward.first, upward.last))
    names = axis_words(across).titled, axis_words(upward).titled
    points = np.array([found.grid.values(place) for place in found.grid.points])
    dots = Line(frame.places(*points.T), colours.SOFT_INK, 0.0, mark=".", mark_pt=1.0, rim_pt=0.0)
    under = (
        *panel.scales(frame, names[0], names[1]),
        panel.title(frame, "\n".join(_title_lines(title))),
    )
    return _Ground(frame, under, (dots, *_ring(found, frame), *_refused(found, frame)))


def _ring(found: Variation, frame: Panel) -> Iterator[Item]:
    """Yield a ring where the case as set lies, if that is within the map."""
    own = found.grid.as_set
    inside = own is not None and all(
        axis.first <= value <= axis.last for axis, value in zip(found.grid.axes, own, strict=True)
    )
    if own is None or not inside:
        return
    place = frame.places([own[0]], [own[1]])
    for colour, rim in ((colours.PAPER, 3.2), (colours.INK, 1.5)):
        yield Line(
            place, colour, 0.0, mark="o", mark_pt=7.0, rim_pt=rim, mark_fill="none", level=5.0
        )


def _refused(found: Variation, frame: Panel) -> Iterator[Item]:
    """Yield crosses where the settings make no case."""
    bad = [found.grid.values(place) for place in found.grid.points if found.told[place] is None]
    if bad:
        points = frame.places(*np.array(bad).T)
        yield Line(points, colours.SOFT_INK, 0.0, mark="x", mark_pt=3.5, rim_pt=0.8)


def _filled(frame: Panel, labels: Ints, scale: Sequence[str]) -> list[Item]:
    """Return the squares of every label as boxes, those that lie side by side as one."""
    left, bottom, width, height = frame.box
    wide, high = width / labels.shape[0], height / labels.shape[1]
    boxes: dict[int, list[Box]] = {}
    for j, row in enumerate(labels.T):
        ends = np.flatnonzero(np.diff(row, prepend=row[0] - 1, append=row[-1] - 1))
        for start, end in zip(ends[:-1].tolist(), ends[1:].tolist(), strict=True):
            box = (left + start * wide, bottom + j * high, (end - start) * wide, high)
            boxes.setdefault(int(row[start]), []).append(box)
    return [
        Boxes(tuple(own), scale[label % len(scale)], level=0.6)
        for label, own in sorted(boxes.items())
        if label >= 0
    ]


def _places(found: Variation, frame: Panel, line: Floats) -> Floats:
    """Return places on the sheet of places in steps of the grid (n, 2)."""
    across, upward = found.grid.axes
    return frame.places(
        across.first + line[:, 0] * across.step, upward.first + line[:, 1] * upward.step
    )


def _flip_lines(
    found: Variation, frame: Panel, over: Sequence[NumberedFlip], letters: Sequence[Words] = ()
) -> Iterator[Item]:
    """Yield the lines where something flips, each with the numbers of all that flips there.

    Numbers keep clear of letters.
    """
    taken = [word.place for word in letters]
    numbers: dict[bytes, list[int]] = {}
    lines: dict[bytes, Floats] = {}
    for one in over:
        for said in _at_least(one.flip):
            for line in found.lines(one.flip, *said):
                numbers.setdefault(line.tobytes(), []).append(one.number)
                lines[line.tobytes()] = line
    for key, line in lines.items():
        first = numbers[key][0]
        places = _places(found, frame, line)
        yield Line(places, colours.PAPER, 2.6, level=3.0, within=frame.box)
        yield Line(places, colours.INK, 1.2, _DASHES[(first - 1) % len(_DASHES)], level=3.2)
        at = _free(frame, places, taken)
        taken.append(at)
        yield _halo_words(", ".join(map(str, numbers[key])), at, 6.6, bold=True)


def _at_least(flip: Flip) -> list[tuple[str, ...]]:
    """Return what is said where something holds, then where a finding is graver and graver."""
    if flip.first.kind != "finding":
        return [(HOLDS,)]
    said = sorted((text for text in flip.said if text), key=gravity)
    return [tuple(said[k:]) for k in range(len(said)) if k or "" in flip.said]


def _free(frame: Panel, places: Floats, taken: Sequence[Place]) -> Place:
    """Return the place on a line, within the panel, that is farthest from some others."""
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(places, axis=0).T))])
    at = along[-1] * np.linspace(0.1, 0.9, 17)
    left, bottom, width, height = frame.box
    x = np.clip(np.interp(at, along, places[:, 0]), left + 2.4, left + width - 2.4)
    y = np.clip(np.interp(at, along, places[:, 1]), bottom + 1.8, bottom + height - 1.8)
    middle = np.abs(np.linspace(-0.5, 0.5, 17))
    far = [np.hypot(x - a, y - b) for a, b in taken]
    # Beyond a centimetre nothing is gained: there the middle of the line is preferred.
    best = int(np.argmax(np.min([np.full(17, 10.0), *far], axis=0) - middle))
    return float(x[best]), float(y[best])


def _halo_words(text: str, place: Place, size_pt: float, bold: bool = False) -> Words:
    return Words(text, place, size_pt=size_pt, bold=bold, ground=_HALO, level=4.0)


def _level_line(
    found: Variation, frame: Panel, line: Floats, text: str, marks: list[Words]
) -> Iterator[Item]:
    """Yield a line with its value, where that keeps clear of what is written already."""
    places = _places(found, frame, line)
    yield Line(places, colours.PAPER, 0.9, level=1.4)
    yield Line(places, colours.SOFT_INK, 0.5, level=1.5)
    if len(line) > 2:
        at = _free(frame, places, [word.place for word in marks])
        if all(math.hypot(at[0] - x, at[1] - y) > _CLEAR_MM for x, y in (w.place for w in marks)):
            marks.append(_halo_words(text, at, _SMALL_PT))
            yield marks[-1]


def _letters(
    found: Variation, frame: Panel, squares: Ints, parted: int, alphabet: Alphabet
) -> Iterator[Words]:
    """Yield the letter of every region, where it has room or is the widest of its kind."""
    square_mm = min(frame.box[2] / squares.shape[0], frame.box[3] / squares.shape[1])
    parts = regions(squares, parted)
    for part in parts:
        widest = max(one.depth for one in parts if one.label == part.label)
        if part.label >= 0 and (part.depth == widest or part.depth * square_mm > _NARROW_MM):
            (place,) = _places(found, frame, np.array([part.middle])).tolist()
            letter = alphabet.letter(part.label)
            yield Words(letter, (place[0], place[1]), bold=True, ground=_HALO, level=4.0)


def _scale_colours(count: int) -> list[str]:
    """Return steps of the scale of gaps."""
    last = len(colours.GAP_SCALE) - 1
    return [colours.GAP_SCALE[round(k * last / max(count - 1, 1))] for k in range(count)]


def _scale_key(
    scale: Sequence[str],
    ends: tuple[float, float],
    levels: Sequence[tuple[float, str]],
    unit: str,
    gaps: bool,
) -> Iterator[Item]:
    """Yield the steps of colour with the values between them."""
    width = (WIDTH_MM - _LEFT_MM - 24.0) / len(scale)
    for k, colour in enumerate(scale):
        box = (_LEFT_MM + k * width, 1.0 + KEY_ROW_MM, width, 3.0)
        yield Boxes((box,), colour, rim=colours.SOFT_INK)
    decimals = len(levels[0][1].partition(".")[2]) if levels else 2
    for k, (_, text) in enumerate(levels, start=1):
        yield Words(text, (_LEFT_MM + k * width, 3.0), size_pt=KEY_PT)
    for at, place, side in ((ends[0], 0, "left"), (ends[1], len(scale), "right")):
        text, x = number(at, decimals + 1), _LEFT_MM + place * width
        if not levels or width > _ROOM_FOR_ENDS_MM:
            yield Words(text, (x, 3.0), "left" if side == "left" else "right", size_pt=KEY_PT)
    told = f"{unit}; white: none" if gaps else unit
    yield Words(told, (WIDTH_MM - 22.5, 2.5 + KEY_ROW_MM), "left", size_pt=KEY_PT)
