"""A case over a grid of its settings in words: axes, what flips, at which values."""

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from kinematics.planning.wording import enumeration, pair_list
from kinematics.varying.flips import Crossing
from kinematics.varying.grid import PARTS, Axis
from kinematics.varying.told import HOLDS, Feature
from kinematics.varying.variation import Flip, Variation
from scenes import colours
from scenes.case_words import plain_name
from scenes.phrases import counted, number

_SIDES: Final = ("right", "left")
_NOTES: Final = "Notes"
NOTHING_FLIPS: Final = "Nothing flips: findings and what guides are the same at every grid point."
_HINGE_AXIS: Final = {
    "hinge_axis.forward_mm": "hinge axis ahead of that of the mounting",
    "hinge_axis.up_mm": "hinge axis above that of the mounting",
    "hinge_axis.tilt_deg": "reference plane lower in front than that of the mounting",
}
_WIDE: Final = 98


@dataclass(frozen=True)
class AxisWords:
    """What an axis is called, and its unit."""

    name: str
    unit: str

    @property
    def titled(self) -> str:
        """The name with the unit, as beside a scale."""
        return f"{self.name}, {self.unit}" if self.unit else self.name

    def value(self, value: float, step: float) -> str:
        """Return a value with its unit, with as many digits as a step tells apart."""
        return f"{number(value, _decimals(step))}{self.joined}"

    @property
    def joined(self) -> str:
        """The unit as it stands behind a number."""
        return self.unit if self.unit == "°" else f" {self.unit}".rstrip()


def axis_words(axis: Axis) -> AxisWords:
    """Return what an axis is called."""
    *tables, key = axis.setting.split(".")
    name, unit = plain_name(key)
    if axis.setting in _HINGE_AXIS:
        return AxisWords(_HINGE_AXIS[axis.setting], unit)
    if len(axis.paths) > 1:
        return AxisWords(f"{name} of both sides", unit)
    if len(tables) == 2 and tables[1] in _SIDES:
        return AxisWords(f"{tables[1]} {name}", unit)
    inner = [table.replace("_", " ") for table in tables[1:]]
    about = {"guidance": ""}.get(tables[0], tables[0].replace("_", " ")) if tables else ""
    if not unit and tables and key.isdigit():  # a number of teeth by their numbers
        name, unit = plain_name(tables[-1])
        return AxisWords(f"{about}: {name} of {key}", unit)
    where = ", ".join([*inner])
    told = f"{name}, {where}" if where else name
    return AxisWords(f"{about}: {told}" if about else told, unit)


def _decimals(step: float) -> int:
    """Return how many decimals tell steps of a size apart."""
    decimals = 0
    while decimals < 6 and step * 10**decimals < 0.995:
        decimals += 1
    return decimals


def bracket(axis: Axis, crossing: Crossing) -> str:
    """Return the value at which something flips, and how certain it is."""
    low, high = (axis.at(place[crossing.axis]) for place in (crossing.low, crossing.high))
    half, words = 0.5 * (high - low), axis_words(axis)
    return f"{words.value(0.5 * (low + high), half)} (±{words.value(half, half)})"


def feature_words(flip: Flip) -> str:
    """Return what flips, in words."""
    first = flip.first
    pairs = pair_list(feature.pair for feature in flip.features if all(feature.pair))
    if first.kind == "contact":
        _, _, where = first.name.partition(": ")
        return f"{pairs} {_verb(flip)} in {_at(where)}"
    if first.kind == "text":
        what, _, where = first.name.partition(": ")
        return f"{what} in {_at(where)}"
    return ", ".join(filter(None, [_teeth_first(first, pairs, flip), _excursion(first)]))


def _verb(flip: Flip) -> str:
    return "touch" if len(flip.features) > 1 else "touches"


def _at(where: str) -> str:
    """Return "left lateral at 2 mm" as it stands in a sentence."""
    name, at, travel = where.partition(" at ")
    movement = f"{name} excursion" if name.endswith("lateral") else name
    return f"{movement}{at}{travel}"


def _excursion(feature: Feature) -> str:
    return f"in {_at(feature.excursion)}" if feature.excursion else ""


def _teeth_first(feature: Feature, pairs: str, flip: Flip) -> str:
    single = [str(code) for f in flip.features for code in f.pair if code and not all(f.pair)]
    teeth = ", ".join(filter(None, [pairs, enumeration(single)]))
    return f"{feature.name}: {teeth}" if teeth else feature.name


def ranges(flip: Flip, axis: Axis, value: str, first: str, last: str) -> str:
    """Return in words where along one axis something is said.

    Parameters
    ----------
    flip : Flip
        What flips.
    axis : Axis
        The only one.
    value : str
        What is said.
    first, last : str
        What is said at both ends of the axis.
    """
    own = [c for c in flip.crossings if (c.before == value) != (c.after == value)]
    starts = [bracket(axis, c) for c in own if c.after == value]
    ends = [bracket(axis, c) for c in own if c.before == value]
    if not own:
        return "everywhere" if first == value else "nowhere"
    parts = []
    if first == value:
        parts.append(f"below {ends.pop(0)}")
    tail = starts.pop() if last == value else None
    parts += [f"from {one} to {other}" for one, other in zip(starts, ends, strict=True)]
    if tail is not None:
        parts.append(f"above {tail}")
    return enumeration(parts)


def span(found: Variation, flip: Flip) -> str:
    """Return between which values of each of two axes something flips."""
    told = []
    for number_of, axis in enumerate(found.grid.axes):
        at = [
            0.5 * (axis.at(c.low[number_of]) + axis.at(c.high[number_of])) for c in flip.crossings
        ]
        words, half = axis_words(axis), 0.5 * axis.step / PARTS
        ends = dict.fromkeys(words.value(value, half) for value in (min(at), max(at)))
        told.append(f"{words.name} {' to '.join(ends)}")
    return enumeration(told)


def flip_words(found: Variation, flip: Flip) -> str:
    """Return what flips, and where, as one sentence without its full stop."""
    along = _only_along(found, flip)
    if along is None:
        return f"{feature_words(flip)}: {_share(found, flip)}; flips at {span(found, flip)}"
    axes = found.grid.axes
    where = _along_one(found, flip, along)
    if len(axes) == 1:
        return f"{feature_words(flip)}: {where}"
    mine, other = (axis_words(axes[k]).name for k in (along, 1 - along))
    return f"{feature_words(flip)}: {where} of {mine}, whatever {other}"


def _only_along(found: Variation, flip: Flip) -> int | None:
    """Return the axis on which alone something depends; None where it depends on two.

    On every line along it, it then flips between the same values.
    """
    shape = found.grid.shape
    if len(shape) == 1:
        return 0
    along = {crossing.axis for crossing in flip.crossings}
    if len(along) != 1 or found.refused:
        return None
    axis = along.pop()
    lines: dict[int, set[tuple[int, str, str]]] = {}
    for c in flip.crossings:
        lines.setdefault(c.low[1 - axis], set()).add((c.low[axis], c.before, c.after))
    same = len(lines) == shape[1 - axis] and len({frozenset(line) for line in lines.values()}) == 1
    return axis if same else None


def _along_one(found: Variation, flip: Flip, along: int) -> str:
    """Return where something holds, or what is said where, along the first line of an axis."""
    axis = found.grid.axes[along]
    others = [k for k in range(len(found.grid.axes)) if k != along]
    line = [place for place in found.grid.points if all(place[k] == 0 for k in others)]
    told = [found.told[place] for place in line]
    known = [one.get(flip.first, "") for one in told if one is not None]
    on_line = (c for c in flip.crossings if all(c.low[k] == 0 for k in others))
    own, ends = replace(flip, crossings=tuple(on_line)), (known[0], known[-1])
    if flip.first.kind != "text":
        return ranges(own, axis, HOLDS, *ends)
    said = values(own)
    return "; ".join(f"{text or 'nothing'} {ranges(own, axis, text, *ends)}" for text in said)


def values(flip: Flip) -> list[str]:
    """Return all that is said of what flips, in the order in which it comes."""
    said = [text for c in flip.crossings for text in (c.before, c.after)]
    return list(dict.fromkeys(said))


def _share(found: Variation, flip: Flip) -> str:
    """Return at how many grid points something holds, or what is said at how many."""
    known = sum(found.told[place] is not None for place in found.grid.points)
    if flip.first.kind != "text":
        count = int(found.says(flip.first, HOLDS).sum())
        return f"at {count} of {known} grid points"
    counts = [(int(found.says(flip.first, text).sum()), text) for text in values(flip)]
    shares = [f"{text or 'nothing'} at {count}" for count, text in counts]
    return f"{enumeration(shares)} of {known} grid points"


def as_set_words(flip: Flip) -> str:
    """Return what is said with the settings as they are."""
    if flip.first.kind == "text":
        return flip.as_set or "nothing"
    return "yes" if flip.as_set else "no"


def as_set_sentence(found: Variation) -> str:
    """Say where the case itself lies on the grid."""
    own = found.grid.as_set
    if own is None:
        return ""
    told = [
        f"{words.name} {words.value(value, axis.step / PARTS)}"
        for axis, value in zip(found.grid.axes, own, strict=True)
        for words in [axis_words(axis)]
    ]
    return f"As set: {enumeration(told)}."


@dataclass(frozen=True)
class FlipSection:
    """What flips, of one kind, with its words."""

    title: str
    flips: tuple[Flip, ...]


def flip_sections(found: Variation) -> tuple[FlipSection, ...]:
    """Return what flips: findings that call for attention, notes, contacts, guidance."""
    sections = (
        ("Findings", [f for f in found.flips if f.severity in ("serious", "attention")]),
        ("What guides the jaw", [f for f in found.flips if f.first.kind == "text"]),
        ("Posterior teeth that touch", [f for f in found.flips if f.first.kind == "contact"]),
        (_NOTES, [f for f in found.flips if f.severity == "note"]),
    )
    return tuple(FlipSection(title, tuple(flips)) for title, flips in sections if flips)


def grid_sentence(found: Variation) -> str:
    """Say what was varied and how often the case was run."""
    grid = found.grid
    over = [
        f"{words.name} from {words.value(axis.first, axis.step)} to"
        f" {words.value(axis.last, axis.step)} in {counted(axis.count - 1, 'step')}"
        for axis in grid.axes
        for words in [axis_words(axis)]
    ]
    points = len(grid.points)
    between = len(found.runs) - points
    more = (
        f" and {between} between them, to know every flip along the lines of the grid to within"
        f" 1/{PARTS} of a step"
        if between
        else ""
    )
    return f"Varied: {enumeration(over)}. {counted(points, 'grid point')} were run{more}."


def refused_sentences(found: Variation) -> tuple[str, ...]:
    """Say which grid points make no case, and why."""
    return tuple(
        f"{counted(count, 'grid point')} left out, where the settings make no case: {text}"
        for text, count in found.refused.items()
    )


def by_words(found: Variation) -> str:
    """Return by which setting flips are told, where there is one; else nothing."""
    return f"By {axis_words(found.grid.axes[0]).name}" if len(found.grid.axes) == 1 else ""


def variation_summary(title: str, found: Variation) -> str:
    """Return what was found, as plain text for the screen."""
    lines = [f"{title}: over a grid of settings", *_wrapped(grid_sentence(found), "")]
    for text in refused_sentences(found):
        lines += _wrapped(text, "")
    if not found.flips:
        lines += ["", NOTHING_FLIPS]
    if by_words(found):
        lines += ["", f"{by_words(found)}:"]
    for section in flip_sections(found):
        if section.title == _NOTES:
            lines += ["", f"{counted(len(section.flips), 'note')} flip too; the page lists them."]
            continue
        lines += ["", section.title]
        for flip in section.flips:
            sign = colours.SEVERITY_SIGN.get(flip.severity, "·") if flip.severity else "·"
            lines += _wrapped(f"{sign} {flip_words(found, flip)} (as set: {as_set_words(flip)})")
    return "\n".join(lines)


def _wrapped(text: str, indent: str = "  ") -> Sequence[str]:
    return textwrap.wrap(text, _WIDE, initial_indent=indent, subsequent_indent=f"{indent}  ")
