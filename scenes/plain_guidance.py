"""What carries the jaw as it slides, in plain words: teeth by groups, and what stays apart."""

from collections.abc import Iterable

from kinematics.planning.articulation import NOT_JUDGED, Verdict
from kinematics.planning.guidance_kinds import TABLE_ONLY
from kinematics.planning.wording import enumeration
from kinematics.tooth_codes import is_posterior, place
from scenes.phrases import pair, side_word
from scenes.plain_findings import move_words


def plain_guidance(verdict: Verdict) -> str:
    """Return what carries the jaw in an excursion, and whether anything else touches.

    Parameters
    ----------
    verdict : Verdict
        What guides it, beyond the near-MI length.
    """
    move = f"Sliding {move_words(verdict.excursion)}"
    if verdict.kind == NOT_JUDGED:
        return f"{move} is too short a way to tell what carries the jaw."
    guiding = {pairs: None for part in verdict.stretches for pairs in part.guiding}
    if not guiding:
        by = "the guide table" if verdict.kind == TABLE_ONLY else "nothing"
        return f"{move}, {by} carries the jaw; no tooth touches."
    uppers = tuple(dict.fromkeys(upper for upper, _ in guiding))
    verb = "carry" if len(uppers) > 1 else "carries"
    beside = {pairs: None for part in verdict.stretches for pairs in part.touching}
    others = [pair(*teeth) for teeth in beside if teeth not in guiding]
    rest = f"{enumeration(others)} touch as well" if others else "no other teeth touch"
    return f"{move}, {_by_group(uppers)} {verb} the jaw; {rest}."


def _by_group(uppers: Iterable[int]) -> str:
    """Return upper teeth as front teeth, canines and back teeth, with their numbers."""
    groups: dict[str, list[int]] = {}
    for code in uppers:
        groups.setdefault(_group(code), []).append(code)
    named = [
        f"{name} {enumeration(codes)}" if len(codes) > 1 else f"{_single(name)} {codes[0]}"
        for name, codes in groups.items()
    ]
    return enumeration(f"the upper {words}" for words in named)


def _group(code: int) -> str:
    if is_posterior(code):
        return f"{side_word(code)} back teeth"
    return f"{side_word(code)} canine" if place(code) == 3 else "front teeth"


def _single(group: str) -> str:
    return group.replace("teeth", "tooth")
