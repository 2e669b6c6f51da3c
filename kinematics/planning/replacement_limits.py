"""The limit that decided how grave a contact of a replacement tooth is."""

import math
from dataclasses import dataclass
from typing import Final

from kinematics.planning.base_rules import (
    CHOSEN,
    GRAVE_TURNING_MM,
    SEVERITY_SOURCE,
    BaseRule,
    hold_limit_mm,
)
from kinematics.planning.findings import Figure, margin_to
from kinematics.planning.grazing import GRAZING_HEIGHT_MM, GRAZING_TRAVEL_MM
from kinematics.planning.judging import JudgingSettings, source_of, threshold_of
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.wording import length

TURNING_NAME: Final = "N across per N along, times the lever"

#: Setting that a touch is compared with.
_COMPARED: Final = {
    "touches or comes near": "tolerance_mm",
    "holds open": "tolerance_mm",
    "holds open beyond the mucosa": "balanced_tolerance_mm",
}


@dataclass(frozen=True)
class Limit:
    """What decided, beside the limit it was compared with.

    Attributes
    ----------
    threshold : Figure
        The limit.
    source : str
        Where it comes from.
    value : float
        What was compared with it, in the same unit; inf where it has no figure.
    """

    threshold: Figure
    source: str
    value: float

    @property
    def margin(self) -> Figure | None:
        """How far the value lies from the limit; None where it has no figure."""
        return margin_to(self.value, self.threshold) if math.isfinite(self.value) else None


def deciding_limit(settings: JudgingSettings, rule: BaseRule, contact: ReplacementContact) -> Limit:
    """Return the limit that decided the severity of a contact.

    Parameters
    ----------
    settings : JudgingSettings
        Tolerances.
    rule : BaseRule
        The row by which its base is judged where it stands.
    contact : ReplacementContact
        What happens.
    """
    if contact.decided_by == "guides":
        return _guiding_limit(contact, hold_limit_mm(rule, settings))
    if contact.decided_by == "carries":
        threshold = Figure(f"{TURNING_NAME}, from which on it is serious", GRAVE_TURNING_MM, "mm")
        return Limit(threshold, CHOSEN, contact.across_per_along * contact.lever_mm)
    if contact.decided_by == "comes near":
        return _setting(settings, "approach_margin_mm", contact.least_gap_mm)
    field = _COMPARED[rule.breach]
    lone = contact.unbalanced
    if lone is not None and contact.height_mm <= getattr(settings, field):
        return _setting(settings, field, lone.gap_mm)
    touched = rule.breach == "touches or comes near"
    return _setting(settings, field, contact.least_gap_mm if touched else contact.height_mm)


def deciding_difference_mm(
    settings: JudgingSettings, rule: BaseRule, contact: ReplacementContact
) -> float:
    """Return the difference between the teeth that records must tell apart to decide, mm.

    Whether it guides is told by its height. Whether it touches at all or only comes near makes no
    difference to a scheme that allows neither; that it is nearer than the margin does.
    """
    if contact.decided_by == "guides":
        return contact.height_mm
    if rule.breach == "touches or comes near":
        return settings.approach_margin_mm - contact.least_gap_mm
    limit = deciding_limit(settings, rule, contact)
    return limit.value - limit.threshold.value


def _guiding_limit(contact: ReplacementContact, held_mm: float) -> Limit:
    if contact.height_mm > GRAZING_HEIGHT_MM:
        threshold = Figure("height along the closing arc that guides", GRAZING_HEIGHT_MM, "mm")
        return Limit(threshold, SEVERITY_SOURCE, contact.height_mm)
    # Poses stand at multiples of the step only to rounding.
    on_end = max(contact.on_end_mm, GRAZING_TRAVEL_MM)
    name = f"travel on end, held open by more than {length(held_mm)}, that guides"
    threshold = Figure(name, GRAZING_TRAVEL_MM, "mm")
    return Limit(threshold, SEVERITY_SOURCE, on_end)


def _setting(settings: JudgingSettings, field: str, value: float) -> Limit:
    return Limit(threshold_of(settings, field), source_of(settings, field), value)
