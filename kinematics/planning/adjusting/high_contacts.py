"""Which tooth pairs stand in the way of a wanted path, by how much, and which tooth gives way."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import Tooth
from kinematics.contact.closure import MEETS, close
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.pair import LeaveOut
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points, opening_rotation
from kinematics.planning.adjusting.cutting_rules import CuttingRule, High, rule_for
from kinematics.planning.adjusting.settings import Whose
from kinematics.planning.adjusting.wanted_paths import WantedPath
from kinematics.planning.guidance_kinds import Pair, is_posterior_pair, role
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.stops import Stop

#: Pairs that overlap by less than this are left alone, mm (chosen for this program).
LEAST_MM: Final = 5e-4


@dataclass(frozen=True)
class HighContact:
    """One tooth pair that stands in the way of one path.

    Attributes
    ----------
    pair : (int, int)
        Upper and lower tooth.
    path : WantedPath
        Which path.
    height_mm : float
        By how much, the margin included, along the closing arc at its contact.
    travel_mm : float
        Travel at which it is most.
    upper_point, lower_point : ndarray, shape (3,)
        The contact there in the coordinates of each arch.
    point : ndarray, shape (3,)
        Where the surface of the lower stands once the jaw has closed as wanted, hinge frame.
    """

    pair: Pair
    path: WantedPath
    height_mm: float
    travel_mm: float
    upper_point: Floats
    lower_point: Floats
    point: Floats


def high_contacts(
    occlusion: Occlusion, path: WantedPath, pairs: frozenset[Pair], margin_mm: float
) -> list[HighContact]:
    """Return those of some tooth pairs that come nearer than a margin in a wanted path."""
    uppers = tuple(sorted({upper for upper, _ in pairs}))
    lowers = tuple(sorted({lower for _, lower in pairs}))
    if not pairs or len(path.poses) == 0:
        return []
    pair, workers = occlusion.casts.pair, occlusion.workers
    limit = max(margin_mm, LEAST_MM)
    gaps = pair_gaps(pair, path.poses, limit, uppers, lowers, workers)
    near = np.isfinite(gaps).any(axis=0)
    found = []
    for row, column in np.argwhere(near):
        one = uppers[row], lowers[column]
        if one in pairs:
            rows = np.flatnonzero(np.isfinite(gaps[:, row, column]))
            found += _high(occlusion, path, one, rows, margin_mm)
    return found


def _high(
    occlusion: Occlusion, path: WantedPath, pair: Pair, rows: np.ndarray, margin_mm: float
) -> list[HighContact]:
    """Return one pair, closed alone, where it stands highest in some poses; none where it clears.

    Poses of a path are at the wanted opening: what closing finds is how much more is needed.
    """
    casts = occlusion.casts
    everything = LeaveOut(
        upper=frozenset(casts.pair.upper.groups) - {pair[0]},
        lower=frozenset(casts.pair.lower.groups) - {pair[1]},
    )
    met = close(casts.pair, path.poses[rows], everything, occlusion.workers)
    meets = met.status == MEETS
    height = np.where(meets, np.where(meets, met.opening_rad, 0.0) * met.radius_mm, -np.inf)
    height = height + path.margins_mm(margin_mm)[rows]
    most = int(np.argmax(height))
    if not height[most] > LEAST_MM:
        return []
    pose, turn = path.poses[rows[most]], float(met.opening_rad[most])
    at_touch = pose @ opening_rotation(turn)
    lower = move_points(inverse(at_touch), met.point[most][None])[0]
    return [
        HighContact(
            pair,
            path,
            float(height[most]),
            float(path.travel_mm[rows[most]]),
            met.point[most],
            lower,
            move_points(pose, lower[None])[0],
        )
    ]


def tooth_to_cut(
    occlusion: Occlusion,
    contact: HighContact,
    whose: Whose,
    stops: tuple[Stop, ...],
    high_in_both: frozenset[Pair],
) -> tuple[int, CuttingRule]:
    """Return which tooth of a high contact is cut, and the row of the table that says so.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    contact : HighContact
        The contact.
    whose : str
        What the case says: the upper or lower tooth, or by the rule.
    stops : tuple of Stop
        Centric stops.
    high_in_both : frozenset of pairs
        Pairs that are high in MI and in excursions.
    """
    high = _high_where(occlusion, contact, high_in_both)
    rule = rule_for(high)
    if whose != "by the rule":
        return contact.pair[0 if whose == "upper" else 1], rule
    return contact.pair[0 if _cuts_upper(occlusion, contact, high, stops) else 1], rule


def _high_where(occlusion: Occlusion, contact: HighContact, both: frozenset[Pair]) -> High:
    if len(occlusion.replacement_teeth.intersection(contact.pair)) == 1:
        return "a replacement tooth"
    if contact.path.in_mi:
        return "in MI and in excursions" if contact.pair in both else "in MI alone"
    if role(contact.pair, contact.path.side) == "nonworking":
        return "in excursions alone, nonworking side"
    if not is_posterior_pair(contact.pair):
        return "in excursions alone, front teeth"
    if contact.path.side == 0:
        return "in excursions alone, protrusion"
    return "in excursions alone, working side"


def _cuts_upper(
    occlusion: Occlusion, contact: HighContact, high: High, stops: tuple[Stop, ...]
) -> bool:
    """Tell whether the rule that fits has the upper tooth cut."""
    upper, lower = contact.pair
    if high == "a replacement tooth":
        return upper in occlusion.replacement_teeth
    if high == "in excursions alone, front teeth":
        return True
    if high == "in excursions alone, nonworking side":
        return _from_stop(occlusion, contact, stops, 0) > _from_stop(occlusion, contact, stops, 1)
    own = _from_supporting(occlusion.tooth(upper), contact.upper_point)
    other = _from_supporting(occlusion.tooth(lower), contact.lower_point)
    # The supporting cusp is the nearer one; it is cut only where it is high in both.
    return own <= other if high == "in MI and in excursions" else own > other


def _from_supporting(tooth: Tooth, point: Floats) -> float:
    """Return how far a point is from the nearest supporting cusp; of teeth without, inf."""
    tips = [tooth.cusp_tips[name] for name in tooth.supporting]
    return min((float(np.linalg.norm(tip - point)) for tip in tips), default=np.inf)


def _from_stop(
    occlusion: Occlusion, contact: HighContact, stops: tuple[Stop, ...], side: int
) -> float:
    """Return how far the contact lies from the nearest stop of its upper (0) or lower tooth."""
    points = [stop.point for stop in stops if _teeth(stop)[side] == contact.pair[side]]
    if not points:
        return np.inf
    places = np.array(points)
    if side:
        places = move_points(inverse(occlusion.casts.mi_pose), places)
    point = contact.lower_point if side else contact.upper_point
    return float(np.linalg.norm(places - point, axis=1).min())


def _teeth(stop: Stop) -> Pair:
    return stop.tooth_upper, stop.tooth_lower
