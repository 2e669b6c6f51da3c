"""Back teeth in crossbite: lower buccal cusps outside the upper ones, supporting cusps swapped.

Reverse articulation in the Glossary of Prosthodontic Terms, J Prosthet Dent 2017;117(5S): lower
teeth stand to the cheek of the upper ones that oppose them.
"""

from dataclasses import dataclass

import numpy as np

from kinematics.contact.mounted import MountedCasts
from kinematics.geometry.poses import move_points
from kinematics.planning.findings import Figure, Finding, margin_to
from kinematics.planning.stops import Stop
from kinematics.planning.wording import enumeration, length
from kinematics.tooth_codes import is_posterior, opponent, place

_SOURCE = (
    "definition: reverse articulation, Glossary of Prosthodontic Terms, "
    "J Prosthet Dent 2017;117(5S)"
)


@dataclass(frozen=True)
class ReversedPair:
    """Two back teeth that meet in MI, the lower one outside.

    Attributes
    ----------
    tooth_upper, tooth_lower : int
        ISO 3950 numbers.
    outside_mm : float
        How much farther from the midline the lower buccal cusps stand than the upper ones, at the
        middle of each tooth's buccal cusps, along the hinge axis of the frame.
    """

    tooth_upper: int
    tooth_lower: int
    outside_mm: float


def reversed_pairs(casts: MountedCasts, stops: tuple[Stop, ...]) -> tuple[ReversedPair, ...]:
    """Return the pairs of back teeth with centric stops of which the lower stands outside.

    Teeth of one number are compared; a tooth whose own opponent is missing, with what it meets.

    Parameters
    ----------
    casts : MountedCasts
        Both arches in the frame of their guidance.
    stops : tuple of Stop
        Centric stops in MI.
    """
    pairs = {(stop.tooth_upper, stop.tooth_lower) for stop in stops}
    found = []
    for upper, lower in sorted(pairs):
        if upper <= 0 or lower <= 0 or not (is_posterior(upper) and is_posterior(lower)):
            continue
        if place(upper) != place(lower) and (
            opponent(upper) in casts.lower.codes or opponent(lower) in casts.upper.codes
        ):
            continue
        outside = _outside_mm(casts, upper, lower)
        if outside > 0.0:
            found.append(ReversedPair(upper, lower, outside))
    return tuple(found)


def _outside_mm(casts: MountedCasts, upper: int, lower: int) -> float:
    """Return how much farther out the buccal cusps of a lower tooth stand than an upper's."""
    above = casts.upper.tooth(upper).edge[:, 1]
    below = move_points(casts.mi_pose, casts.lower.tooth(lower).edge)[:, 1]
    return abs(float(np.mean(below))) - abs(float(np.mean(above)))


def crossed_teeth(casts: MountedCasts) -> frozenset[int]:
    """Return the back teeth that stand in crossbite with those of their number, stops or not."""
    pairs = ((code, opponent(code)) for code in casts.upper.codes if is_posterior(code))
    there = (pair for pair in pairs if pair[1] in casts.lower.codes)
    return frozenset(code for pair in there if _outside_mm(casts, *pair) > 0.0 for code in pair)


def reverse_articulation(casts: MountedCasts, stops: tuple[Stop, ...]) -> Finding | None:
    """Return a note that names the back teeth in crossbite; None where there are none."""
    found = reversed_pairs(casts, stops)
    if not found:
        return None
    least = min(pair.outside_mm for pair in found)
    threshold = Figure("lower buccal cusps outside the upper ones", 0.0, "mm")
    uppers = sorted({pair.tooth_upper for pair in found})
    lowers = sorted({pair.tooth_lower for pair in found})
    stand = "stand" if len(uppers) > 1 else "stands"
    return Finding(
        kind="crossbite",
        severity="note",
        text=(
            f"In MI {enumeration(uppers)} {stand} in crossbite (reverse articulation) with"
            f" {enumeration(lowers)}: the lower buccal cusps are at least {length(least)} farther"
            " out than the upper ones, so there upper buccal and lower lingual cusps support."
        ),
        tooth_upper=found[0].tooth_upper,
        tooth_lower=found[0].tooth_lower,
        figures=(Figure("lower buccal cusps outside the upper ones, least", least, "mm"),),
        threshold=threshold,
        threshold_source=_SOURCE,
        margin=margin_to(least, threshold),
        together=tuple((pair.tooth_upper, pair.tooth_lower) for pair in found[1:]),
    )
