"""Gaps that a sweep left out because few are asked for: measured where they are."""

from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.contact.contacts import pair_gaps
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats, Ints
from kinematics.planning.contact_runs import least_gap_over
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.occlusion import Occlusion

#: By how much farther gaps are measured from one try to the next.
_FARTHER: Final = 2.0


def least_gaps_over(occlusion: Occlusion, sweep: Sweep, pairs: list[Pair], asked: Bools) -> Floats:
    """Return the least shortest distance over some tooth pairs at every pose, shape (n,), mm.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    sweep : Sweep
        One excursion.
    pairs : list of (int, int)
        Upper and lower teeth.
    asked : ndarray, shape (n,)
        Poses in which it is wanted up to the gap limit of the sweep; elsewhere it is inf beyond
        what was measured.
    """
    unmeasured = np.flatnonzero(asked & _partly(sweep))
    limit_mm = min(sweep.measured_mm, sweep.gap_limit_mm)
    if len(unmeasured):
        sweep = measured_at(occlusion, sweep, unmeasured, pairs, limit_mm)
    least = least_gap_over(sweep, pairs)
    # Those of some teeth may be measured farther than others, which may be nearer.
    farther = np.flatnonzero(asked & (least > limit_mm))
    # The nearest pair alone counts: no pair is measured much farther than that.
    while len(farther) and limit_mm < sweep.gap_limit_mm:
        limit_mm = min(_FARTHER * limit_mm, sweep.gap_limit_mm)
        measured = measured_at(occlusion, sweep, farther, pairs, limit_mm)
        least[farther] = least_gap_over(measured, pairs)[farther]
        farther = farther[least[farther] > limit_mm]
    return least


def measured_at(
    occlusion: Occlusion, sweep: Sweep, poses: Ints, pairs: list[Pair], limit_mm: float
) -> Sweep:
    """Return a sweep with the gaps of some tooth pairs measured up to a limit in some poses (k,).

    Those of other teeth stay as they are.
    """
    if not len(poses) or not pairs:
        return sweep
    if sweep.measured_mm >= limit_mm and not _partly(sweep)[poses].any():
        return sweep
    uppers, lowers = (tuple(sorted(set(codes))) for codes in zip(*pairs, strict=True))
    rows = np.array([sweep.upper_codes.index(code) for code in uppers])
    columns = np.array([sweep.lower_codes.index(code) for code in lowers])
    gaps = sweep.pair_gap_mm.copy()
    gaps[np.ix_(poses, rows, columns)] = pair_gaps(
        occlusion.casts.pair, sweep.poses[poses], limit_mm, uppers, lowers, occlusion.workers
    )
    return replace(sweep, pair_gap_mm=gaps)


def _partly(sweep: Sweep) -> Bools:
    """Return the poses, shape (n,), in which only gaps of some teeth were measured."""
    if sweep.partly is None:
        return np.zeros(len(sweep.travel_mm), dtype=np.bool_)
    return sweep.partly
