"""What a school wants of some teeth, what is found, and what would have to change, in words."""

import math
from collections.abc import Sequence
from typing import Final

from kinematics.planning.given_marks import excursion_named
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.school_answers import SHARING_PERCENT, Answer
from kinematics.planning.unit_contacts import UnitContacts, balance_parts
from kinematics.planning.wording import enumeration, excursion_words, length, pair_list, pair_name
from kinematics.tooth_codes import is_posterior

#: More teeth or pairs than this are counted, not named.
MOST_NAMED: Final = 4
_ALL_PERCENT: Final = 100.0


def wanted_words(answer: Answer, settings: JudgingSettings) -> str:
    """Return what is wanted, of which teeth, in one place on one side.

    Parameters
    ----------
    answer : Answer
        What is asked there; without teeth it is told of those of either side.
    settings : JudgingSettings
        Tolerances.
    """
    if answer.place == "MI":
        parts = [f"a centric stop on {_each(answer.teeth)}"] if answer.teeth else []
        parts += [f"no centric stop on {_any(answer.clear)}"] if answer.clear else []
        return ", ".join(parts) or "nothing"
    teeth, several = _named(answer.teeth), len(answer.teeth) != 1
    some = f"one of {teeth}" if several else teeth
    touch = "touch" if several else "touches"
    hold = f"{'they hold' if several else 'it holds'} no other tooth open"
    within = length(settings.balanced_tolerance_mm)
    return {
        "clear": f"{teeth} {touch} nothing",
        "back clear": f"{teeth} {touch} nothing",
        "shares": f"{some} touches over {SHARING_PERCENT:g} % of the way or more, and {hold}",
        "lifts nothing": f"{teeth} may touch, but {hold}",
        "balanced": f"{_balancing(answer)} stays within {within} of an opponent all the way, and no"
        " other tooth"
        f" is held open by more than {within}",
        "as natural": f"{teeth} {touch} nothing against the guidance of the natural teeth",
        "free": "nothing",
    }[answer.demand]


def found_words(answer: Answer, done: UnitContacts | None, settings: JudgingSettings) -> str:
    """Return what is found there, with teeth and figures.

    Parameters
    ----------
    answer, settings
        See `wanted_words`.
    done : UnitContacts or None
        What the teeth do there; None in MI.
    """
    if done is None:
        return _found_in_mi(answer)
    if answer.demand == "balanced":
        short = done.balanced_percent < _ALL_PERCENT
        way = _over(done.balanced_percent, done, done.balanced_in if short else "")
        within = f"within {length(settings.balanced_tolerance_mm)}"
        near = f"{within} {way}{_brackets(done.within)}" if done.within else f"nowhere {within}"
        return f"{near}{_holds(done)}" if done.touching else near
    if answer.demand == "back clear":
        if not answer.pairs:
            return "no back tooth touches"
        return f"contact {_over(done.back_touching_percent, done)}{_brackets(answer.pairs)}"
    if not done.touching:
        return f"nothing touches{_nearest(done)}"
    told = (
        f"contact {_over(done.touching_percent, done, done.touching_in)}{_brackets(done.touching)}"
    )
    if answer.demand == "as natural":
        return f"{told}, against it: {_pairs(answer.pairs) if answer.pairs else 'none'}"
    return told if answer.demand == "clear" else f"{told}{_holds(done)}"


def change_words(answer: Answer, done: UnitContacts | None, settings: JudgingSettings) -> str:
    """Return what would have to change there, so that what is wanted is done.

    Parameters are those of `found_words`; `answer` is one that is not met.
    """
    if done is None:
        bare = tuple(code for code in answer.amiss if code in answer.teeth)
        meeting = tuple(code for code in answer.amiss if code in answer.clear)
        parts = [f"{_named(bare)} would have to get a centric stop"] if bare else []
        parts += [f"{_named(meeting)} would have to lose the centric stop"] if meeting else []
        return f"in MI {' and '.join(parts)}"
    return f"{_where(answer)} {_change_of(answer, done, settings)}"


def _change_of(answer: Answer, done: UnitContacts, settings: JudgingSettings) -> str:
    several = len(answer.teeth) > 1
    some = f"one of {_named(answer.teeth)}" if several else _named(answer.teeth)
    them = "they" if several else "it"
    if answer.demand in ("clear", "back clear", "as natural"):
        return f"contact of {_pairs(answer.pairs)} would have to go"
    parts = []
    limit_mm = settings.tolerance_mm
    if answer.demand == "shares" and done.touching_percent < SHARING_PERCENT:
        parts.append(
            f"{some} would have to touch over {SHARING_PERCENT:g} % of the way or more (now"
            f" {_percent(done.touching_percent)})"
        )
    if answer.demand == "balanced":
        limit_mm = settings.balanced_tolerance_mm
        if done.balanced_percent < _ALL_PERCENT:
            parts.append(
                f"{_balancing(answer)} would have to stay within {length(limit_mm)} of an opponent"
                " all the way"
                f" (now over {_percent(done.balanced_percent)})"
            )
    if math.isinf(done.held_mm) and answer.demand != "balanced":
        parts.append(f"other teeth would have to meet together with {_named(answer.teeth)}")
    elif limit_mm < done.held_mm < math.inf:
        parts.append(
            f"{them} would have to hold other teeth open by no more than {length(limit_mm)} (now"
            f" {length(done.held_mm)})"
        )
    return " and ".join(parts)


def _balancing(answer: Answer) -> str:
    """Return which teeth are to keep near for balance: in protrusion one of each part."""
    parts = balance_parts(answer.teeth)
    if answer.place == "protrusion" and len(parts) > 1:
        return f"one of the {enumeration(parts)} teeth each"
    return f"one of {_named(answer.teeth)}" if len(answer.teeth) != 1 else _named(answer.teeth)


def _where(answer: Answer) -> str:
    if answer.place == "protrusion":
        return "in protrusion"
    return f"on the {answer.place} ({answer.side})"


def _found_in_mi(answer: Answer) -> str:
    bare = tuple(code for code in answer.amiss if code in answer.teeth)
    meeting = tuple(code for code in answer.amiss if code in answer.clear)
    parts = []
    if answer.teeth:
        parts.append(f"none on {_named(bare)}" if bare else f"on {_each(answer.teeth)}")
    if answer.clear:
        parts.append(f"one on {_each(meeting)}" if meeting else f"none on {_any(answer.clear)}")
    return ", ".join(parts)


def _named(teeth: Sequence[int]) -> str:
    """Return teeth by number, or how many they are, of the back or of the front."""
    if not teeth:
        return "its teeth there"
    if len(teeth) <= MOST_NAMED:
        return enumeration(teeth)
    back = sum(map(is_posterior, teeth))
    where = "back " if back == len(teeth) else "" if back else "front "
    return f"its {len(teeth)} {where}teeth"


def _each(teeth: Sequence[int]) -> str:
    return _named(teeth) if len(teeth) <= 1 else f"each of {_named(teeth)}"


def _any(teeth: Sequence[int]) -> str:
    return _named(teeth) if len(teeth) <= 1 else f"any of {_named(teeth)}"


def _pairs(pairs: tuple[Pair, ...]) -> str:
    return pair_list(pairs) if len(pairs) <= MOST_NAMED else f"{len(pairs)} pairs of teeth"


def _brackets(pairs: tuple[Pair, ...]) -> str:
    return f" ({_pairs(pairs)})" if pairs else ""


def _percent(percent: float) -> str:
    """Return a share that never reads as nothing or as all where it is neither."""
    if 0.0 < percent < 1.0:
        return "less than 1 %"
    return "more than 99 %" if 99.0 < percent < _ALL_PERCENT else f"{percent:.0f} %"


def _over(percent: float, done: UnitContacts, excursion: str = "") -> str:
    """Return over how much of the way, and in which excursion where its place has several."""
    told = "all the way" if percent == _ALL_PERCENT else f"over {_percent(percent)} of the way"
    if not excursion or done.place == "protrusion":
        return told
    return f"{told} in {excursion_words(excursion_named(excursion))}"


def _holds(done: UnitContacts) -> str:
    if math.isinf(done.held_mm):
        return ", without it nothing else would meet"
    if done.held_mm <= 0.0:
        return ", holds nothing open"
    return f", holds other teeth open by up to {length(done.held_mm)}"


def _nearest(done: UnitContacts) -> str:
    if math.isinf(done.least_gap_mm):
        return ""
    return f", nearest {length(done.least_gap_mm)} ({pair_name(*done.nearest)})"
