"""Room of rests and crowns in words: how near what comes where, and what would give room."""

import math

from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.given_marks import excursion_named
from kinematics.planning.rooms.opposing import FARTHEST_MM, Nearest
from kinematics.planning.rooms.rest_rooms import Gain
from kinematics.planning.wording import excursion_words, length


def near_words(nearest: Nearest) -> str:
    """Return a distance in words: 0.42 mm, or more than the farthest."""
    if math.isinf(nearest.distance_mm):
        return f"more than {FARTHEST_MM:g} mm"
    return length(nearest.distance_mm)


def where_words(nearest: Nearest) -> str:
    """Return where it is so near, as "to 36 in MI" or "to 36 in protrusion, at 1.2 mm"."""
    if math.isinf(nearest.distance_mm):
        return "in MI and on every path"
    opposite = f"to {nearest.opponent}" if nearest.opponent else "to what is no tooth"
    return f"{opposite} {movement_words(nearest)}"


def movement_words(nearest: Nearest) -> str:
    """Return in which movement, and at which travel, it is so near."""
    if not nearest.excursion:
        return "in MI"
    label = nearest.excursion.removesuffix(" from CR")
    from_cr = " from CR" if label != nearest.excursion else ""
    movement = label if label == RETRUSION else excursion_words(excursion_named(label))
    return f"in {movement}{from_cr}, at {nearest.travel_mm:.1f} mm"


def gain_words(gain: Gain) -> str:
    """Return what would give a rest the room that it lacks."""
    off = f"{length(gain.off_opponent_mm)} off the opponent with the seat left as it is"
    deeper = "no depth of the seat alone gives it"
    if math.isfinite(gain.deeper_mm):
        deeper = f"a seat {length(gain.deeper_mm)} deeper gives it"
    both = ""
    if gain.shared_off_mm > 0.0 and gain.shared_deeper_mm > 0.0:
        both = (
            f", or both: {length(gain.shared_deeper_mm)} deeper and"
            f" {length(gain.shared_off_mm)} off the opponent"
        )
    return f"{deeper}, or {off}{both}"
