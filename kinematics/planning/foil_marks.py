"""Which marks foil should leave in a mouth that is as the casts are: pair by pair, with places."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from kinematics.casts.casts import Arch
from kinematics.casts.crown_directions import Crown, crown_of
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats, Ints
from kinematics.geometry.poses import inverse, move_points
from kinematics.planning.contact_runs import (
    contact_place,
    is_broken,
    judged,
    pair_gaps_of,
    pairs_within,
    reaching,
    upto_edge,
)
from kinematics.planning.guidance_kinds import Pair, Role, role, working_side
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.slide import CentricSlide
from kinematics.planning.tooth_regions import CUSPS, region_words
from kinematics.tooth_codes import is_upper

#: Stands behind a place on a cusp that was guessed.
GUESSED: Final = " (guessed)"


@dataclass(frozen=True)
class FoilMark:
    """What foil should show of one tooth pair.

    Attributes
    ----------
    tooth_upper, tooth_lower : int
        ISO 3950 numbers.
    on_upper, on_lower : tuple of str
        Places in the words of the trade. In MI one for every separate mark; in an excursion where
        the line begins and where it ends, or one where both are the same.
    role : str
        "incisor", "canine", "posterior" or "nonworking", by the upper tooth; in MI of the side it
        stands on.
    travel_from_mm, travel_to_mm : float
        Range of travel over which it touches; 0 and 0 in MI.
    broken : bool
        True where it does not touch all the way between the two.
    """

    tooth_upper: int
    tooth_lower: int
    on_upper: tuple[str, ...]
    on_lower: tuple[str, ...]
    role: Role
    travel_from_mm: float = 0.0
    travel_to_mm: float = 0.0
    broken: bool = False


@dataclass(frozen=True)
class Crowns:
    """Both arches with the directions of every crown, for naming places.

    Attributes
    ----------
    upper, lower : Arch
        The lower in lower coordinates.
    guessed : mapping of tooth number to tuple of str
        Cusps of scans that were put where such a cusp usually stands, by their short names.
    """

    upper: Arch
    lower: Arch
    guessed: Mapping[int, tuple[str, ...]] = field(default_factory=dict)

    @cached_property
    def _crowns(self) -> dict[int, Crown]:
        arches = (self.upper, self.lower)
        return {code: crown_of(arch, code) for arch in arches for code in arch.codes}

    def place_on(self, code: int, point: ArrayLike, pose: Floats) -> str:
        """Say where on a tooth a point of the hinge frame (3,) lies in a pose (4, 4)."""
        own = np.asarray(point, dtype=np.float64)
        if not is_upper(code):
            own = move_points(inverse(pose), own[None])[0]
        place = region_words(self._crowns[code], own)
        cusps = (f"the {CUSPS[name]} cusp" for name in self.guessed.get(code, ()))
        return place + GUESSED if place.endswith(tuple(cusps)) else place


def marks_in_mi(crowns: Crowns, mi: Sweep) -> tuple[FoilMark, ...]:
    """Return the marks of maximal intercuspation, in the order of the upper arch.

    Parameters
    ----------
    crowns : Crowns
        Both arches.
    mi : Sweep
        Any excursion that starts in MI; its first pose is read, at its contact tolerance.
    """
    patches, pose = mi.patches, mi.poses[0]

    def centroids(pair: Pair) -> Floats:
        ours = (patches.tooth_upper == pair[0]) & (patches.tooth_lower == pair[1])
        return np.asarray(patches.centroid[ours & (patches.pose == 0)])

    return tuple(
        FoilMark(
            *pair,
            tuple(crowns.place_on(pair[0], point, pose) for point in centroids(pair)),
            tuple(crowns.place_on(pair[1], point, pose) for point in centroids(pair)),
            role(pair, 0),
        )
        for pair in pairs_in_mi(mi)
    )


def marks_along(crowns: Crowns, sweep: Sweep, settings: JudgingSettings) -> tuple[FoilMark, ...]:
    """Return the marks of an excursion beyond the near-MI length, in the order of the upper arch.

    Parameters
    ----------
    crowns : Crowns
        Both arches.
    sweep : Sweep
        One excursion, read up to edge-to-edge at its contact tolerance.
    settings : JudgingSettings
        Near-MI length and last reading.
    """
    beyond, side = judged(sweep, settings), working_side(sweep.excursion)
    marks = []
    for pair in pairs_along(sweep, settings):
        touching = pair_gaps_of(sweep, *pair) <= sweep.tolerance_mm
        touching = reaching(touching & upto_edge(sweep, settings), beyond)
        ends = np.flatnonzero(touching)[[0, -1]]
        marks.append(
            FoilMark(
                *pair,
                _line_on(crowns, sweep, ends, pair, pair[0]),
                _line_on(crowns, sweep, ends, pair, pair[1]),
                role(pair, side),
                float(sweep.travel_mm[ends[0]]),
                float(sweep.travel_mm[ends[1]]),
                is_broken(touching),
            )
        )
    return tuple(marks)


def marks_in_cr(crowns: Crowns, retrusion: Sweep, slide: CentricSlide) -> tuple[FoilMark, ...]:
    """Return the marks of the first contact in CR: of the pair, or pairs, that meet there first.

    Parameters
    ----------
    crowns : Crowns
        Both arches.
    retrusion : Sweep
        From MI to CR, its last pose.
    slide : CentricSlide
        What meets first.
    """
    last = np.array([len(retrusion.poses) - 1])
    return tuple(
        FoilMark(
            *pair,
            _line_on(crowns, retrusion, last, pair, pair[0]),
            _line_on(crowns, retrusion, last, pair, pair[1]),
            role(pair, 0),
        )
        for pair in pairs_in_cr(slide)
    )


def pairs_in_mi(mi: Sweep) -> tuple[Pair, ...]:
    """Return the tooth pairs that leave marks in MI, in the order of the upper arch."""
    patches = mi.patches
    first = patches.pose == 0
    uppers, lowers = patches.tooth_upper[first].tolist(), patches.tooth_lower[first].tolist()
    found = {pair for pair in zip(uppers, lowers, strict=True) if min(pair) > 0}
    return tuple(sorted(found, key=lambda pair: _order(mi, pair)))


def pairs_along(sweep: Sweep, settings: JudgingSettings) -> tuple[Pair, ...]:
    """Return those that leave marks in an excursion beyond the near-MI length."""
    return pairs_within(sweep, judged(sweep, settings), sweep.tolerance_mm)


def pairs_in_cr(slide: CentricSlide) -> tuple[Pair, ...]:
    """Return those that meet first in CR."""
    pairs = ((slide.first_contact_upper, slide.first_contact_lower), *slide.together)
    return tuple(pair for pair in pairs if min(pair) > 0)


def _line_on(crowns: Crowns, sweep: Sweep, ends: Ints, pair: Pair, code: int) -> tuple[str, ...]:
    """Return where on a tooth the line of a pair begins and ends."""
    words = []
    for pose in (int(end) for end in ends):
        point = contact_place(sweep, pose, pair)
        if point is not None:
            words.append(crowns.place_on(code, np.array(point), sweep.poses[pose]))
    return tuple(dict.fromkeys(words))


def _order(sweep: Sweep, pair: Pair) -> tuple[int, int]:
    return sweep.upper_codes.index(pair[0]), sweep.lower_codes.index(pair[1])


def unmarked(codes: tuple[int, ...], marks: tuple[FoilMark, ...]) -> tuple[int, ...]:
    """Return those of some teeth, of either arch, that no mark names, in their order."""
    marked = {code for mark in marks for code in (mark.tooth_upper, mark.tooth_lower)}
    return tuple(code for code in codes if code not in marked)
