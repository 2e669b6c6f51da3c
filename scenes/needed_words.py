"""Which record would settle what samples of uncertain settings leave open, in words."""

from collections.abc import Iterator, Sequence
from typing import Final

from kinematics.planning.wording import enumeration, sentence
from kinematics.uncertainty.found import Factor, FindingShare, NeededRecord
from scenes.phrases import number
from scenes.share_words import amount

#: Settings of a factor whose standard errors are named; of more, how much better they must be.
_MOST_NAMED: Final = 3


def needed_lines(item: FindingShare, factors: Sequence[Factor]) -> Iterator[str]:
    """Yield what record of one factor alone would settle a finding, least effort first.

    Parameters
    ----------
    item : FindingShare
        A finding that is not settled.
    factors : sequence of Factor
        Everything that was uncertain.
    """
    known = {factor.name: factor for factor in factors}
    for record in item.needed:
        if record.times_better is not None:
            yield sentence(_wanted(record, known[record.factor]))
    vain = [record.factor for record in item.needed if record.times_better is None]
    if vain and len(factors) == 1:
        yield sentence(
            f"{vain[0]} is all that is uncertain, so that an exact record would settle it; how good"
            " it would have to be these samples do not tell"
        )
    elif vain:
        which = "any factor" if len(vain) == len(factors) else enumeration(vain)
        yield f"No record of {which} alone can be told to settle it, not even an exact one."


def _wanted(record: NeededRecord, factor: Factor) -> str:
    now = _errors([(one.standard_error, one.unit) for one in factor.settings])
    then = _errors(
        [
            (error, one.unit)
            for error, one in zip(record.standard_errors, factor.settings, strict=True)
        ]
    )
    if len(now) > _MOST_NAMED or not then:
        times = number(record.times_better or 1.0, 1)
        return f"{factor.name}, known {times} times better, would settle it"
    then_and_now = f"{enumeration(then)} instead of {enumeration(now)}"
    return f"{factor.name}, known to {then_and_now}, would settle it"


def _errors(found: Sequence[tuple[float, str]]) -> list[str]:
    """Return standard errors in words; what all settings share is told once."""
    words = [f"±{amount(error, unit)}" for error, unit in found]
    return words[:1] if len(set(words)) == 1 else words
