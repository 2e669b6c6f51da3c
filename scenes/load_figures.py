"""Figures of a load in words, the same in report, picture, page and summary."""

from collections.abc import Callable, Iterator, Sequence
from typing import Final

from kinematics.planning.base_loads import TOLD_FOR_N
from kinematics.planning.closing_shares import Overload, Share
from kinematics.planning.load_readings import BaseLoad, Range
from kinematics.planning.wording import enumeration
from kinematics.tooth_codes import is_posterior, is_upper
from scenes.phrases import length, number

#: Below this force one decimal is told, N.
_SMALL_N: Final = 10.0
#: Pairs of teeth that carry less of the closing force than this are told together, N.
_LEAST_SHARE_N: Final = 1.0
#: About what a base turns, where that is positive, and where it is negative.
TURNS: Final = {
    "about_fulcrum_nmm": (
        "the fulcrum line",
        "presses the base on the ridge",
        "lifts the base off the ridge",
    ),
    "about_crest_nmm": ("the crest", "{outer} flange sinks", "{inner} flange sinks"),
    "about_vertical_nmm": (
        "the vertical",
        "to the left, seen from above",
        "to the right, seen from above",
    ),
}
#: Why a load may be unlikely though forces balance, and what to do.
OVERLOAD_EXPLAINED: Final = (
    "Forces do balance here: the closing force passes outside of what meets, and so has a lever"
    " about it, as on the end of a board. A mouth would not be closed so. Look whether so few teeth"
    " are to meet there; if they are, set the closing force nearer to them (load.force_forward_mm,"
    " load.force_side_mm). Read these figures as too much, not as a measure"
)
#: What the words for turning mean, by the same names.
_TURNS_EXPLAINED: Final = {
    "about_fulcrum_nmm": (
        "About the fulcrum line, which runs through the rests, a base is pressed on its ridge, so"
        " that the end away from the rests sinks, or it is lifted there."
    ),
    "about_crest_nmm": (
        "About the crest of its ridge a base tips, and one of its flanges sinks; one that reaches"
        " around the arch tips forward or back. Of several joined bases the one that turns most is"
        " told."
    ),
    "about_vertical_nmm": (
        "To the left about the vertical is counterclockwise, seen from above: what stands in front"
        " of the vertical goes to the patient’s left, what stands behind it to the right."
    ),
}
_OTHER_WAY: Final = "A minus in a range means that it may turn the other way."


def newtons(value_n: float, ends: Range | None = None) -> str:
    """Return a force with its unit and, where it changes, its range."""
    return f"{force(value_n)} N{_between(ends, force)}"


def force_ranged(value_n: float, ends: Range) -> str:
    """Return a force with its range, without its unit."""
    return f"{force(value_n)}{_between(ends, force)}"


def force(value_n: float) -> str:
    """Return a force in newtons, without its unit."""
    return number(value_n, 1 if abs(value_n) < _SMALL_N - 0.05 else 0)


def figure(load: BaseLoad, quantity: str) -> str:
    """Return a force of a framework, with its unit and range."""
    least, greatest = load.least[quantity], load.greatest[quantity]
    value = load.figures[quantity]
    return newtons(value, (least, greatest) if value >= 0.0 else (-greatest, -least))


def turning(load: BaseLoad, quantity: str) -> tuple[str, str]:
    """Return how much a framework is turned, with its range, and which way; no way where nothing.

    A range that reaches below 0 says that it may be turned the other way.
    """
    value = load.figures[quantity]
    least, greatest = load.least[quantity], load.greatest[quantity]
    spread = _between((least, greatest), _whole)
    return f"{_whole(abs(value))} N mm{spread}", _way(load, quantity)


def _whole(value: float) -> str:
    return number(value, 0)


def _way(load: BaseLoad, quantity: str) -> str:
    """Return which way a framework is turned; empty where that rounds to nothing."""
    value, teeth = load.figures[quantity], [tooth.tooth for tooth in load.teeth]
    if round(value) == 0:
        return ""
    if quantity == "about_crest_nmm" and load.rounds_arch:
        return "front sinks, back lifts" if value > 0.0 else "back sinks, front lifts"
    outer = "labial" if all(not is_posterior(code) for code in teeth) else "buccal"
    inner = "palatal" if any(map(is_upper, teeth)) else "lingual"
    _, positive, negative = TURNS[quantity]
    return (positive if value > 0.0 else negative).format(outer=outer, inner=inner)


def turns_explained(loads: Sequence[BaseLoad]) -> str:
    """Return what is meant by the ways in which some loads turn; empty where nothing turns."""
    named = [name for name in TURNS if any(name in turns_of(load) for load in loads)]
    told = [_TURNS_EXPLAINED[name] for name in named]
    crossing = any(round(load.least[name]) < 0 for load in loads for name in named)
    return " ".join([*told, _OTHER_WAY] if crossing else told)


def turns_of(load: BaseLoad) -> tuple[str, ...]:
    """Return about what a framework can turn at all."""
    has = {
        "about_fulcrum_nmm": load.has_fulcrum,
        "about_crest_nmm": load.has_ridge,
        "about_vertical_nmm": load.is_hinged,
    }
    return tuple(quantity for quantity in TURNS if has[quantity])


def sinking(load: BaseLoad) -> str:
    """Return how deep a base sinks where it is deepest, with its range."""
    ends = load.least["sinking_mm"], load.greatest["sinking_mm"]
    return f"{length(load.figures['sinking_mm'])}{_between(ends, length)}"


def _between(ends: Range | None, words: Callable[[float], str]) -> str:
    """Return a range in brackets; empty where there is none or both ends read the same."""
    if ends is None:
        return ""
    low, high = map(words, ends)
    return "" if low == high else f" ({low} to {high})"


def share_rows(
    shares: Sequence[Share], own: Sequence[int], kind: str
) -> Iterator[tuple[str, str, str]]:
    """Yield who carries the closing force: place, part against it, and size of the whole force.

    Pairs in which one of `own`, teeth of a "base", "bridge" or "splint", meets its opponent come
    first; those that carry little are summed. The last row is the sum.
    """
    contacts = [share for share in shares if share.place == "contact"]
    contacts.sort(key=lambda share: not {share.tooth_upper, share.tooth_lower} & {*own})
    small = [
        share
        for share in contacts
        if abs(share.against_closing_n) < _LEAST_SHARE_N
        and not {share.tooth_upper, share.tooth_lower} & {*own}
    ]
    for share in contacts:
        if share not in small or len(small) == 1:
            names = [
                f"{code} (this {kind})" if code in own else str(code)
                for code in (share.tooth_upper, share.tooth_lower)
            ]
            yield (
                " and ".join(names),
                newtons(share.against_closing_n),
                newtons(share.size_n),
            )
    if len(small) > 1:
        total = sum(share.against_closing_n for share in small)
        yield f"{len(small)} other pairs, less than 1 N each", newtons(total), "–"
    for share in shares:
        if share.place != "contact":
            yield _joint(share), newtons(share.against_closing_n), newtons(share.size_n)
    yield "in all", newtons(sum(share.against_closing_n for share in shares)), "–"


def _joint(share: Share) -> str:
    """Return what a condyle does, and what muscles hold along its path."""
    if round(abs(share.held_n), 1) == 0.0:
        return share.place
    # Held against sliding back: the condyle pushes the skull backward along its path.
    way = "against sliding home" if share.held_n < 0.0 else "against sliding ahead"
    return f"{share.place}; muscles hold it along its path with {newtons(abs(share.held_n))}, {way}"


def overload_words(overload: Overload) -> str:
    """Say what is unlikely about a load."""
    told = newtons(overload.force_n)
    if overload.kind == "condyle":
        return f"the {overload.side} condyle draws the jaw towards the skull with {told}"
    bear = "bears" if len(overload.teeth) == 1 else "bear"
    return (
        f"{enumeration(overload.teeth)} {bear} {told}, more than the whole closing force of"
        f" {newtons(TOLD_FOR_N)}"
    )
