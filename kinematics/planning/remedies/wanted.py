"""How far one tooth is to stand from which opponents in an excursion, by scheme and base."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.adjusting.wanted_paths import FULL_MARGIN
from kinematics.planning.base_rules import place_in, rule_of, scheme_in
from kinematics.planning.contact_runs import judged
from kinematics.planning.guidance_kinds import Pair, working_side
from kinematics.planning.interference import looks_at
from kinematics.planning.interference_rules import movement_of, rules_for
from kinematics.planning.occlusion import Occlusion
from kinematics.tooth_codes import is_upper

#: Stands for an opponent against which nothing is wanted.
FREE: Final = -1.0


@dataclass(frozen=True)
class Wanted:
    """What is wanted of one tooth along one excursion.

    Attributes
    ----------
    excursion : int
        Number of the sweep.
    distance_mm : dict of int to float
        By opponent: how far it is to stand away, shortest distance; 0 where it may touch but hold
        nothing open.
    """

    excursion: int
    distance_mm: dict[int, float]

    @property
    def most_mm(self) -> float:
        """The greatest distance wanted."""
        return max(self.distance_mm.values())


def wanted_of(
    occlusion: Occlusion, sweeps: tuple[Sweep, ...], tooth: int, margin_mm: float, deflects: bool
) -> tuple[Wanted, ...]:
    """Return what is wanted of a tooth, excursion by excursion; none where its contacts are wanted.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    sweeps : tuple of Sweep
        Their excursions.
    tooth : int
        ISO 3950 number.
    margin_mm : float
        How far it is to stand away where it is not to touch.
    deflects : bool
        Whether it deflects the jaw from CR: it must then hold nothing open on the way back.
    """
    found = []
    for number, sweep in enumerate(sweeps):
        retruding = sweep.excursion.name == RETRUSION
        if retruding and not deflects:
            continue
        of_bases = {} if retruding else _of_bases(occlusion, sweep, tooth, margin_mm)
        distance = {}
        for code in opponents(occlusion, tooth):
            mm = 0.0 if retruding else _of_scheme(occlusion, sweep, pair_of(tooth, code), margin_mm)
            mm = of_bases.get(code, mm)
            if mm > FREE:
                distance[code] = mm
        if distance:
            found.append(Wanted(number, distance))
    return tuple(found)


def opponents(occlusion: Occlusion, tooth: int) -> tuple[int, ...]:
    """Return all teeth of the other arch."""
    casts = occlusion.casts
    return (casts.lower if is_upper(tooth) else casts.upper).codes


def pair_of(tooth: int, other: int) -> Pair:
    """Return two opponents, the upper first."""
    return (tooth, other) if is_upper(tooth) else (other, tooth)


def _of_bases(occlusion: Occlusion, sweep: Sweep, tooth: int, margin_mm: float) -> dict[int, float]:
    """Return the distance wanted of opponents where one of both is a replacement tooth."""
    found = {}
    for base in occlusion.bases:
        own = tooth in base.teeth
        facing = [code for code in opponents(occlusion, tooth) if own or code in base.teeth]
        if not facing:
            continue
        scheme = scheme_in(occlusion, sweep, base, judged(sweep, occlusion.settings))
        for code in facing:
            rule = rule_of(scheme, place_in(sweep, pair_of(tooth, code)))
            near = rule.breach == "touches or comes near"
            found[code] = max(margin_mm, occlusion.settings.approach_margin_mm) if near else 0.0
    return found


def _of_scheme(occlusion: Occlusion, sweep: Sweep, pair: Pair, margin_mm: float) -> float:
    """Return the distance wanted by the table of rules; `FREE` where it says nothing."""
    side = working_side(sweep.excursion)
    rules = rules_for(occlusion.settings.scheme, movement_of(sweep.excursion))
    conditions = {rule.condition for rule in rules if looks_at(rule.contact, pair, side)}
    if "touches" in conditions:
        return margin_mm
    return 0.0 if conditions & {"holds open", "lifts"} else FREE


def shares(occlusion: Occlusion, sweep: Sweep) -> tuple[Bools, Floats]:
    """Return in which poses something is wanted, and which share of the distance: both (n,).

    It grows from none in MI to all at twice the near-MI length: a cusp leaves its stop by and by.
    """
    settings = occlusion.settings
    if sweep.excursion.name == RETRUSION:
        return np.ones(len(sweep.travel_mm), dtype=np.bool_), np.zeros(len(sweep.travel_mm))
    gone = np.minimum(sweep.travel_mm, sweep.from_mi_mm)
    full = max(FULL_MARGIN * settings.near_mi_mm, 1e-9)
    return judged(sweep, settings), np.clip(gone / full, 0.0, 1.0)
