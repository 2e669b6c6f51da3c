"""Marks found in the mouth against those that the casts let expect."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from kinematics.contact.sweep import Sweep
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.foil_marks import pairs_along, pairs_in_cr, pairs_in_mi
from kinematics.planning.given_marks import IN_CR, IN_MI, ObservedMarks
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.slide import NO_SLIDE, CentricSlide


@dataclass(frozen=True)
class ComparedMarks:
    """Marks of one movement: of the casts, and found in the mouth; named teeth only.

    Attributes
    ----------
    movement : str
        "MI", "CR" or the name of an excursion.
    agreed, agreed_bare : tuple of int
        Teeth that touch on the casts and are marked; that do neither.
    not_found : tuple of int
        Teeth that touch on the casts and are not marked in the mouth.
    not_expected : tuple of int
        Teeth that are marked in the mouth and do not touch on the casts.
    """

    movement: str
    agreed: tuple[int, ...]
    agreed_bare: tuple[int, ...]
    not_found: tuple[int, ...]
    not_expected: tuple[int, ...]

    @property
    def agree(self) -> bool:
        """Whether casts and mouth say the same of every tooth that is named."""
        return not (self.not_found or self.not_expected)


def compared(observed: ObservedMarks, pairs: Iterable[Pair]) -> ComparedMarks:
    """Compare the marks of one movement with the tooth pairs that touch in it on the casts."""
    expected = {code for pair in pairs for code in pair}
    return ComparedMarks(
        observed.movement,
        agreed=tuple(code for code in observed.marked if code in expected),
        agreed_bare=tuple(code for code in observed.unmarked if code not in expected),
        not_found=tuple(code for code in observed.unmarked if code in expected),
        not_expected=tuple(code for code in observed.marked if code not in expected),
    )


def all_compared(
    observed: Iterable[ObservedMarks],
    sweeps: Sequence[Sweep],
    settings: JudgingSettings,
    slide: CentricSlide | None,
) -> tuple[ComparedMarks, ...]:
    """Compare all marks with what the casts let expect, in their order.

    Parameters
    ----------
    observed : iterable of ObservedMarks
        Marks found in the mouth.
    sweeps : sequence of Sweep
        Excursions, the first from MI; movements that are not among them are left out.
    settings : JudgingSettings
        Near-MI length and last reading.
    slide : CentricSlide or None
        From first contact in CR to MI; None leaves CR out.
    """
    from_mi = {sweep.excursion.name: sweep for sweep in sweeps if sweep.excursion.start == IN_MI}
    from_mi.pop(RETRUSION, None)
    pairs: dict[str, Sequence[Pair]] = {IN_MI: pairs_in_mi(sweeps[0])}
    if slide is not None:
        pairs[IN_CR] = pairs[IN_MI] if slide.kind == NO_SLIDE else pairs_in_cr(slide)
    found = []
    for marks in observed:
        if marks.movement in from_mi:
            pairs[marks.movement] = pairs_along(from_mi[marks.movement], settings)
        if marks.movement in pairs:
            found.append(compared(marks, pairs[marks.movement]))
    return tuple(found)
