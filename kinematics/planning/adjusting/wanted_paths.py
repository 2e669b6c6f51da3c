"""Where the jaw would stand if an adjustment had reached its aim: MI, and excursions beyond it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.contact.closure import close
from kinematics.contact.pair import LeaveOut
from kinematics.contact.pose_rows import picked
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats
from kinematics.geometry.poses import opening_rotation
from kinematics.guidance.excursions import RETRUSION, Excursion
from kinematics.guidance.incisal_guide import table_opening
from kinematics.guidance.mandible import opened
from kinematics.planning.contact_runs import judged
from kinematics.planning.guidance_kinds import Pair, working_side
from kinematics.planning.heights import openings_without
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.wording import excursion_words
from kinematics.tooth_codes import is_upper

#: A margin is asked for in full from so many times the near-MI length on (chosen for this program).
FULL_MARGIN: Final = 2.0
#: What MI is called among the excursions.
IN_MI: Final = "MI"


@dataclass(frozen=True)
class WantedPath:
    """Some poses of an excursion, closed as far as is wanted.

    Attributes
    ----------
    excursion : Excursion
        Which; of MI, any from there.
    in_mi : bool
        Whether it is the one pose of MI.
    travel_mm : ndarray, shape (n,)
        Travel of the lower incisal point.
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower.
    full_from_mm : float
        Travel from which on a margin is asked for in full.
    """

    excursion: Excursion
    in_mi: bool
    travel_mm: Floats
    poses: Floats
    full_from_mm: float = 0.0

    @property
    def name(self) -> str:
        """Name of the movement."""
        return IN_MI if self.in_mi else self.excursion.name

    @property
    def words(self) -> str:
        """What the movement is called in a sentence."""
        return IN_MI if self.in_mi else excursion_words(replace(self.excursion, start="MI"))

    @property
    def side(self) -> int:
        """Working side; 0 for MI and straight movements."""
        return 0 if self.in_mi else working_side(self.excursion)

    def margins_mm(self, margin_mm: float) -> Floats:
        """Return the margin asked for in every pose, shape (n,): it grows from none in MI.

        A cusp leaves its stop little by little: asked for in full at once, a margin would take the
        stop.
        """
        if self.in_mi:
            return np.zeros(len(self.poses))
        return margin_mm * np.clip(self.travel_mm / max(self.full_from_mm, 1e-9), 0.0, 1.0)

    def cleared(self, margin_mm: float, radius_mm: float) -> Floats:
        """Return the poses (n, 4, 4) closed further by the margin, so far from the hinge axis."""
        turn = opening_rotation(-self.margins_mm(margin_mm) / radius_mm)
        return np.asarray(self.poses @ turn)


def excursions_wanted(sweeps: Sequence[Sweep], names: Sequence[str]) -> tuple[Sweep, ...]:
    """Return those sweeps from MI that are named; all but retrusion where none is."""
    return tuple(
        sweep
        for sweep in sweeps
        if sweep.excursion.start == "MI"
        and sweep.excursion.name != RETRUSION
        and (not names or sweep.excursion.name in names)
    )


def guiding_pairs(occlusion: Occlusion, teeth: Sequence[int]) -> frozenset[Pair]:
    """Return the tooth pairs that guide where only some teeth are to.

    Where teeth of both arches are named, they are to guide on each other; else on any tooth.
    """
    uppers = [code for code in teeth if is_upper(code)] or list(occlusion.casts.upper.codes)
    lowers = [code for code in teeth if not is_upper(code)] or list(occlusion.casts.lower.codes)
    return frozenset((upper, lower) for upper in uppers for lower in lowers)


def path_of_guides(
    occlusion: Occlusion, sweep: Sweep, guides: frozenset[Pair]
) -> tuple[WantedPath, float | None]:
    """Return an excursion beyond the near-MI length on some tooth pairs, or the table, alone.

    Also the travel from which on nothing of them meets, so that they cannot guide; None where they
    do all the way. Such poses are left out.
    """
    casts, rows = occlusion.casts, judged(sweep, occlusion.settings)
    others = frozenset(
        (upper, lower) for upper in casts.pair.upper.groups for lower in casts.pair.lower.groups
    )
    positions = picked(sweep.positions, rows)
    met = close(
        casts.pair, positions.pose_at_zero, LeaveOut(pairs=others - guides), occlusion.workers
    )
    in_mi = casts.incisal_point_in_mi
    table = table_opening(casts.guidance, positions, casts.incisal_point, in_mi)
    return _path(occlusion, sweep, rows, np.maximum(table, met.opening_rad))


def path_without(
    occlusion: Occlusion, sweep: Sweep, teeth: frozenset[int]
) -> tuple[WantedPath, float | None]:
    """Return an excursion beyond the near-MI length as if some teeth were not there; see above."""
    rows = judged(sweep, occlusion.settings)
    opening = openings_without(occlusion, sweep, teeth, rows)[rows]
    return _path(occlusion, sweep, rows, opening)


def mi_without(occlusion: Occlusion, sweep: Sweep, teeth: frozenset[int]) -> WantedPath | None:
    """Return MI, closed as if some teeth were not there; None where nothing else meets.

    `sweep` is any from MI.
    """
    first = np.arange(len(sweep.travel_mm)) == 0
    opening = openings_without(occlusion, sweep, teeth, first)[first]
    if not np.isfinite(opening).all():
        return None
    poses = opened(picked(sweep.positions, first), opening)
    return WantedPath(sweep.excursion, True, sweep.travel_mm[first], poses)


def _path(
    occlusion: Occlusion, sweep: Sweep, rows: Bools, opening_rad: Floats
) -> tuple[WantedPath, float | None]:
    """Return the poses of some rows at openings (rows,), without those in which nothing meets."""
    shut = np.isfinite(opening_rad)
    travel = sweep.travel_mm[rows]
    poses = opened(picked(picked(sweep.positions, rows), shut), opening_rad[shut])
    lost = None if shut.all() else float(travel[~shut][0])
    full = FULL_MARGIN * occlusion.settings.near_mi_mm
    return WantedPath(sweep.excursion, False, travel[shut], poses, full), lost
