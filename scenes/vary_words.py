"""A case over a grid of its settings in words: axes, what flips, at which values."""

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.planning.wording import enumeration, pair_list
from kinematics.varying.along import Stretch, stretches_along
from kinematics.varying.grid import PARTS, Axis
from kinematics.varying.told import Feature
from kinematics.varying.variation import Flip, Variation
from scenes import colours
from scenes.phrases import counted
from scenes.vary_axes import axis_words, bracket

_NOTES: Final = "Notes"
NOTHING_FLIPS: Final = "Nothing flips: findings and what guides are the same at every grid point."
_WIDE: Final = 98


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


def ranges(axis: Axis, told: Sequence[Stretch], value: str) -> str:
    """Return in words where along one axis something is said; empty where it is nowhere.

    Parameters
    ----------
    axis : Axis
        The only one.
    told : sequence of Stretch
        What is said along it.
    value : str
        What is said.
    """
    return enumeration(_range(axis, one) for one in told if one.says == value)


def _range(axis: Axis, one: Stretch) -> str:
    begin, end = (
        None if border is None else bracket(axis, border) for border in (one.begin, one.end)
    )
    if begin is None:
        return "everywhere" if end is None else f"below {end}"
    return f"above {begin}" if end is None else f"from {begin} to {end}"


def _restless(axis: Axis, told: Sequence[Stretch]) -> str:
    """Return between which points something changes more than once; empty where it does not."""
    words, zones = axis_words(axis), [one for one in told if one.says is None]
    between = enumeration(
        f"{words.exact(one.begin[0], axis.step)} and {words.exact(one.end[0], axis.step)}"
        for one in zones
        if one.begin is not None and one.end is not None
    )
    return f"changes more than once between {between}" if zones else ""


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
    return axis if same and not _contradicted(found, flip, axis) else None


def _contradicted(found: Variation, flip: Flip, along: int) -> bool:
    """Tell whether the case as set, off the lines of the grid, is otherwise than they say."""
    own, axis = found.grid.as_set, found.grid.axes[along]
    return own is not None and any(
        one.says not in (None, flip.as_set)
        and (axis.first if one.begin is None else one.begin[1]) <= own[along]
        and own[along] <= (axis.last if one.end is None else one.end[0])
        for one in _told_along(found, flip, along)
    )


def _along_one(found: Variation, flip: Flip, along: int) -> str:
    """Return where something holds, or what is said where, along the first line of an axis."""
    axis, told, said = found.grid.axes[along], _told_along(found, flip, along), _said(flip)
    parts = [(text, ranges(axis, told, text)) for text in said]
    plain = flip.first.kind != "text" and len(said) == 1
    where = [
        ranged if plain else f"{text or 'nothing'} {ranged}" for text, ranged in parts if ranged
    ]
    return "; ".join(filter(None, [*where, _restless(axis, told)]))


def _told_along(found: Variation, flip: Flip, along: int) -> tuple[Stretch, ...]:
    """Return what is said where along the first line of an axis."""
    others = [k for k in range(len(found.grid.axes)) if k != along]
    line = {place: told for place, told in found.told.items() if all(place[k] == 0 for k in others)}
    return stretches_along(found.grid.axes[along], along, line, flip.first)


def _said(flip: Flip) -> tuple[str, ...]:
    """Return what is told of what flips: all it says, of findings and contacts where they hold."""
    return tuple(text for text in flip.said if text or flip.first.kind == "text")


def _share(found: Variation, flip: Flip) -> str:
    """Return at how many grid points something holds, or what is said at how many."""
    known = sum(found.told[place] is not None for place in found.grid.points)
    said = _said(flip)
    if flip.first.kind != "text" and len(said) == 1:
        return f"at {int(found.says(flip.first, *said).sum())} of {known} grid points"
    counts = [(int(found.says(flip.first, text).sum()), text) for text in said]
    # What is said between grid points alone shows on the maps.
    shares = [f"{text or 'nothing'} at {count}" for count, text in counts if count]
    if not shares:
        return f"at 0 of {known} grid points"
    return f"{enumeration(shares)} of {known} grid points"


def as_set_words(flip: Flip) -> str:
    """Return what is said with the settings as they are."""
    if flip.first.kind == "text":
        return flip.as_set or "nothing"
    graver = len(_said(flip)) > 1 and flip.as_set
    return f"yes, {flip.as_set}" if graver else "yes" if flip.as_set else "no"


def as_set_sentence(found: Variation) -> str:
    """Say where the case itself lies on the grid."""
    own = found.grid.as_set
    if own is None:
        return ""
    told = [
        f"{words.name} {words.exact(value, axis.step)}"
        for axis, value in zip(found.grid.axes, own, strict=True)
        for words in [axis_words(axis)]
    ]
    inside = all(
        axis.first <= value <= axis.last for axis, value in zip(found.grid.axes, own, strict=True)
    )
    return f"As set: {enumeration(told)}{'' if inside else ', outside of what was varied'}."


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
    # Where the case itself is one of the points in equal steps it needs no word.
    apart = grid.case_point is not None and grid.shape[0] > grid.axes[0].count
    between = len(found.runs) - len(grid.points)
    run = [
        counted(len(grid.points) - apart, "grid point"),
        *(["the case as set"] if apart else []),
        *([f"{counted(between, 'place')} between them"] if between else []),
    ]
    fine = (
        f": every flip along the lines of the grid is known to within 1/{PARTS} of a step"
        if between
        else ""
    )
    return f"Varied: {enumeration(over)}. Run: {enumeration(run)}{fine}."


@dataclass(frozen=True)
class RefusedWords:
    """How many grid points make no case, and every reason why."""

    lead: str
    faults: tuple[str, ...]


def refused_words(found: Variation) -> tuple[RefusedWords, ...]:
    """Say which grid points make no case, and why: one fault after another."""
    return tuple(
        RefusedWords(
            f"{counted(count, 'grid point')} left out, where the settings make no case:",
            tuple(text.splitlines()),
        )
        for text, count in found.refused.items()
    )


def by_words(found: Variation) -> str:
    """Return by which setting flips are told, where there is one; else nothing."""
    return f"By {axis_words(found.grid.axes[0]).name}" if len(found.grid.axes) == 1 else ""


def variation_summary(title: str, found: Variation) -> str:
    """Return what was found, as plain text for the screen."""
    lines = [f"{title}: over a grid of settings", *_wrapped(grid_sentence(found), "")]
    for refused in refused_words(found):
        lines += _wrapped(refused.lead, "")
        lines += [line for fault in refused.faults for line in _wrapped(fault)]
    if not found.flips:
        lines += ["", NOTHING_FLIPS]
    if by_words(found):
        lines += ["", f"{by_words(found)}:"]
    for section in flip_sections(found):
        if section.title == _NOTES:
            flips = "flips" if len(section.flips) == 1 else "flip"
            notes = f"{counted(len(section.flips), 'note')} {flips} too: see the page."
            lines += ["", notes]
            continue
        lines += ["", section.title]
        for flip in section.flips:
            sign = colours.SEVERITY_SIGN.get(flip.severity, "·") if flip.severity else "·"
            lines += _wrapped(f"{sign} {flip_words(found, flip)} (as set: {as_set_words(flip)})")
    return "\n".join(lines)


def _wrapped(text: str, indent: str = "  ") -> Sequence[str]:
    return textwrap.wrap(text, _WIDE, initial_indent=indent, subsequent_indent=f"{indent}  ")
