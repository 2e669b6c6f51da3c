"""What would touch next in one pose, in words."""

import math

from kinematics.contact.closure import MEETS
from kinematics.contact.mounted import GUIDED_BY_TABLE
from kinematics.contact.sweep import Sweep
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.wording import length, pair_name


def runner_up_words(
    sweep: Sweep, pose: int, judged_pair: Pair | None = None, is_read: bool = False
) -> str:
    """Return what would touch next in one pose, with travel and arc gap; empty if nothing would.

    Where the runner-up is the pair that is judged, who carries the jaw is told instead; where the
    guide table carries it, the first teeth are next. The arc gap is a turn of the jaw, measured at
    the runner-up: elsewhere the same turn is another length. `is_read`: the pose is the one of a
    reading position.
    """
    first, second = sweep.closures, sweep.runner_up
    at = f"at{' the reading position' if is_read else ''} {sweep.travel_mm[pose]:.1f} mm"
    if sweep.guide[pose] == GUIDED_BY_TABLE:
        return _next_after_table(sweep, pose, at)
    if second.status[pose] != MEETS or not math.isfinite(float(sweep.runner_up_gap_mm[pose])):
        return ""
    pair = int(second.tooth_upper[pose]), int(second.tooth_lower[pose])
    measured = next((f", measured at {code}" for code in pair if code > 0), "")
    arc = f"along the closing arc{measured}"
    gap = length(float(sweep.runner_up_gap_mm[pose]))
    if pair == judged_pair:
        carrier = pair_name(int(first.tooth_upper[pose]), int(first.tooth_lower[pose]))
        return f"{at} {carrier} carries the jaw, {gap} ahead of it {arc}"
    return f"{at} the next to touch would be {pair_name(*pair)}, {gap} away {arc}"


def _next_after_table(sweep: Sweep, pose: int, at: str) -> str:
    first = sweep.closures
    if first.status[pose] != MEETS:
        return ""
    turn_rad = float(sweep.opening_rad[pose] - first.opening_rad[pose])
    gap = length(turn_rad * float(first.radius_mm[pose]))
    pair = int(first.tooth_upper[pose]), int(first.tooth_lower[pose])
    measured = next((f", measured at {code}" for code in pair if code > 0), "")
    return (
        f"{at} the next to touch would be {pair_name(*pair)}, {gap} away along the closing arc"
        f"{measured}"
    )
