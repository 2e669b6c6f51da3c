"""Teeth told by seeds, in words: how many, which are doubtful, and what to do about it."""

from typing import Final

from kinematics.casts.casts import NO_TOOTH
from kinematics.planning.wording import enumeration
from kinematics.scans.cast_seeds import ToothDoubt
from kinematics.scans.settings import SIDES
from scenes.new_case import ReadCasts
from scenes.phrases import length

_CHECK: Final = "Neighbouring teeth have two colours in turn; brown is doubtful."
_ADD: Final = "Add a seed where a place was given to the wrong tooth, or a gum seed where gum was."


def teeth_told(read: ReadCasts) -> str:
    """Return what is to be known of teeth told by seeds; empty where nothing is."""
    told = []
    for side in SIDES:
        if read.is_seeded(side):
            teeth = {int(code) for code in read.codes[side]} - {NO_TOOTH}
            told.append(f"{len(teeth)} teeth of the {side} cast")
    if not told:
        return ""
    doubts = [doubt for side in SIDES if side in read.labels for doubt in read.labels[side].doubts]
    sure = "No tooth is doubtful as a whole."
    if doubts:
        sure = f"Look at {enumeration([doubt_words(doubt) for doubt in doubts])}. {_ADD}"
    return f"By seeds: {' and '.join(told)}. {_CHECK} {sure}"


def doubt_words(doubt: ToothDoubt) -> str:
    """Return one tooth with what is doubtful of it."""
    why = []
    if doubt.off:
        than = "wider" if doubt.width_mm > doubt.usual_mm else "narrower"
        why.append(f"{length(doubt.width_mm)} wide, {than} than usual, {length(doubt.usual_mm)}")
    share = round(100.0 * doubt.doubtful_share)
    why.append(f"{share} % doubtful" if share else "nothing of it found" if not why else "")
    return f"{doubt.code} ({'; '.join(filter(None, why))})"
