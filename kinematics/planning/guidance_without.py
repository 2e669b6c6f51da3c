"""What would guide an excursion if some teeth were taken out of it: the jaw closes without them."""

from dataclasses import dataclass, replace

import numpy as np

from kinematics.contact.closure import MEETS
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.mounted import guided_closure
from kinematics.contact.pose_rows import picked
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools
from kinematics.guidance.mandible import opened
from kinematics.planning.guidance_stretches import Stretch, longest_kind, stretches
from kinematics.planning.occlusion import Occlusion, without


@dataclass(frozen=True)
class GuidanceWithout:
    """What guides an excursion once some teeth take no part in it.

    Attributes
    ----------
    kind : str
        Guidance kind over most of the travel.
    stretches : tuple of Stretch
        How it changes along the travel.
    lowered_mm : float
        The most that the jaw closes further, along the closing arc at the contact that is given
        up; inf where nothing else meets in some pose.
    lowered_at_mm : float
        Travel at which it does.
    """

    kind: str
    stretches: tuple[Stretch, ...]
    lowered_mm: float
    lowered_at_mm: float

    @property
    def guiding(self) -> tuple[tuple[int, int], ...]:
        """Pairs that make the kind over most of the travel, each once."""
        pairs = (pair for s in self.stretches if s.kind == self.kind for pair in s.guiding)
        return tuple(dict.fromkeys(pairs))


def guidance_without(
    occlusion: Occlusion, sweep: Sweep, teeth: frozenset[int], asked: Bools
) -> GuidanceWithout:
    """Close the jaw without some teeth and say what guides then.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    sweep : Sweep
        One excursion.
    teeth : frozenset of int
        ISO 3950 numbers of the teeth that are taken out.
    asked : ndarray, shape (n,)
        The poses in which it is wanted, one or more.
    """
    tolerance = occlusion.settings.tolerance_mm
    positions = picked(sweep.positions, asked)
    closed = guided_closure(occlusion.casts, positions, occlusion.workers, without(teeth))
    meets = np.isfinite(closed.opening_rad)
    shape = (len(meets), len(sweep.upper_codes), len(sweep.lower_codes))
    measured, gaps = np.full(shape, np.inf), np.full((len(asked), *shape[1:]), np.inf)
    if meets.any():
        poses = opened(picked(positions, meets), closed.opening_rad[meets])
        codes = sweep.upper_codes, sweep.lower_codes
        pair = occlusion.casts.pair
        measured[meets] = pair_gaps(pair, poses, 2.0 * tolerance, *codes, occlusion.workers)
    gaps[asked] = measured
    gaps[:, np.isin(sweep.upper_codes, list(teeth)), :] = np.inf
    gaps[:, :, np.isin(sweep.lower_codes, list(teeth))] = np.inf
    guide = sweep.guide.copy()
    guide[asked] = closed.guide
    parts = stretches(replace(sweep, pair_gap_mm=gaps, guide=guide), asked, tolerance)
    first, rows = sweep.closures, np.flatnonzero(asked)
    on_teeth = (first.status[rows] == MEETS) & (sweep.opening_rad[rows] > closed.opening_rad)
    further = np.where(on_teeth, sweep.opening_rad[rows] - closed.opening_rad, 0.0)
    lowered = further * np.where(on_teeth, first.radius_mm[rows], 1.0)
    most = int(np.argmax(lowered))
    return GuidanceWithout(
        longest_kind(parts), parts, float(lowered[most]), float(sweep.travel_mm[rows[most]])
    )
