"""Everything that a lesson can read: distances, ways, angles, guidance, findings, loads."""

import math
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.mounted import GUIDED_BY_PIN, GUIDED_BY_TABLE
from kinematics.conventions import Floats
from kinematics.geometry.angles import angle_of
from kinematics.geometry.poses import move_points
from kinematics.guidance.readings import bennett_angles, christensen_angles
from kinematics.lessons.load_readings import (
    across_base_n,
    force_on_n,
    lever_mm,
    turning_nmm,
)
from kinematics.lessons.moment import Moment
from kinematics.lessons.reading_names import Asked, Kind, Reading, Value, reading_named
from kinematics.planning.findings import SEVERITIES
from kinematics.planning.wording import excursion_label
from kinematics.tooth_codes import is_posterior, is_right, is_upper

#: Distances between teeth are told up to so far.
FARTHEST_MM: Final = 10.0
#: Said of a tooth that no finding is about.
NO_FINDING: Final = "none"
#: Said of a replacement tooth that carries nothing.
NOT_LOADED: Final = "not loaded"
#: Way below which nothing has moved, mm: it has no inclination.
_NO_WAY_MM: Final = 1e-9


def _least_gap_mm(moment: Moment, uppers: tuple[int, ...], lowers: tuple[int, ...]) -> float:
    gaps = pair_gaps(moment.casts.pair, moment.at.pose[None], FARTHEST_MM, uppers, lowers)
    return min(float(gaps.min(initial=np.inf)), FARTHEST_MM)


def _gap_of(moment: Moment, asked: Asked) -> Value:
    uppers, lowers = moment.casts.upper.codes, moment.casts.lower.codes
    _known(asked.tooth, (*uppers, *lowers))
    if is_upper(asked.tooth):
        return _least_gap_mm(moment, (asked.tooth,), lowers)
    return _least_gap_mm(moment, uppers, (asked.tooth,))


def _gap_on_side(moment: Moment, asked: Asked) -> Value:
    right = asked.side == "right"
    uppers, lowers = (
        tuple(code for code in arch.codes if is_posterior(code) and is_right(code) == right)
        for arch in (moment.casts.upper, moment.casts.lower)
    )
    return _least_gap_mm(moment, uppers, lowers)


def way_of_tooth(moment: Moment, code: int) -> Floats:
    """Return how the middle of a lower crown has moved since the start, hinge frame (3,), mm.

    Raises
    ------
    InputError
        The lower arch has no such tooth.
    """
    _known(code, moment.casts.lower.codes)
    return _way(moment, moment.casts.lower.tooth(code).centre)


def way_of_incisal_point(moment: Moment) -> Floats:
    """Return how the lower incisal point has moved since the start, hinge frame (3,), mm."""
    return _way(moment, moment.casts.incisal_point)


def way_of_condyle(moment: Moment, side: str) -> Floats:
    """Return how a condyle, "right" or "left", has moved since the start, hinge frame (3,), mm."""
    half = moment.casts.guidance.half_distance_mm
    return _way(moment, np.array([0.0, -half if side == "right" else half, 0.0]))


def _way(moment: Moment, point: Floats) -> Floats:
    both = np.stack([moment.at.pose, moment.pose_at_start])
    now, before = (move_points(pose, point[None])[0] for pose in both)
    return np.asarray(now - before)


def slope_rad(way: Floats) -> float:
    """Return how far a way leads downward against the reference plane, radians; 0 without any."""
    along = math.hypot(float(way[0]), float(way[1]))
    if max(along, abs(float(way[2]))) < _NO_WAY_MM:
        return 0.0
    return float(angle_of(np.array([-way[2]]), np.array([along]))[0])


def _slope_deg(way: Floats) -> float:
    return math.degrees(slope_rad(way))


def christensen_rad(moment: Moment) -> float:
    """Return the Christensen angle since the start, radians."""
    return float(christensen_angles(moment.at.pose[None], moment.pose_at_start)[0])


def _bennett_deg(moment: Moment, _: Asked) -> Value:
    found = bennett_angles(moment.at.positions).angle_rad
    return math.degrees(float(found[0])) if len(found) else 0.0


def _contact(moment: Moment, _: Asked) -> Value:
    patches = moment.at.patches
    pairs = dict.fromkeys(
        zip(patches.tooth_upper.tolist(), patches.tooth_lower.tolist(), strict=True)
    )
    if pairs:
        return ", ".join(f"{upper} on {lower}" for upper, lower in sorted(pairs))
    held = {GUIDED_BY_TABLE: "the guide table", GUIDED_BY_PIN: "the incisal pin"}
    return held.get(moment.at.guide, "no teeth")


def _guidance_at(moment: Moment, asked: Asked) -> Value:
    label, judging = excursion_label(moment.excursion), moment.case.judging
    if asked.travel_mm not in judging.readings_mm:
        places = ", ".join(f"{mm:g}" for mm in judging.readings_mm)
        raise InputError(f"guidance is read at {places} mm, not at {asked.travel_mm:g} mm")
    found = next((v for v in moment.judged().verdicts if v.excursion == label), None)
    rows = [r for r in found.readings if r.travel_mm == asked.travel_mm] if found else []
    if not rows:
        return "not read"
    nearest = min(rows, key=lambda row: abs(row.tolerance_mm - judging.tolerance_mm))
    return nearest.label


def _finding_about(moment: Moment, asked: Asked) -> Value:
    _known(asked.tooth, (*moment.casts.upper.codes, *moment.casts.lower.codes))
    label = excursion_label(moment.excursion)
    found = [
        SEVERITIES.index(item.severity)
        for item in moment.judged().findings
        if item.excursion == label and asked.tooth in (item.tooth_upper, item.tooth_lower)
    ]
    return SEVERITIES[max(found)] if found else NO_FINDING


def _stops(moment: Moment, _: Asked) -> Value:
    return float(len(moment.judged().stops))


def _known(code: int, codes: tuple[int, ...]) -> None:
    if code not in codes:
        raise InputError(f"tooth {code}: these teeth are {', '.join(map(str, codes))}")


KINDS: Final = (
    Kind("travel", "mm", 2, "Horizontal travel of the lower incisal point.",
         lambda m, _: m.at.travel_mm),
    Kind("gap of TOOTH", "mm", 2, "Shortest distance of a tooth from the other arch, up to 10 mm.",
         _gap_of),
    Kind("gap on the SIDE", "mm", 2, "The same, the least of all back teeth of a side.",
         _gap_on_side),
    Kind("drop of TOOTH", "mm", 2, "How far the middle of a lower crown has gone down.",
         lambda m, a: -float(way_of_tooth(m, a.tooth)[2])),
    Kind("drop of the incisal point", "mm", 2, "How far the lower incisal point has gone down.",
         lambda m, _: -float(way_of_incisal_point(m)[2])),
    Kind("drop of the SIDE condyle", "mm", 2, "How far a condyle has gone down.",
         lambda m, a: -float(way_of_condyle(m, a.side)[2])),
    Kind("forward move of TOOTH", "mm", 3, "How far the middle of a lower crown has gone forward.",
         lambda m, a: float(way_of_tooth(m, a.tooth)[0])),
    Kind("forward move of the SIDE condyle", "mm", 2, "How far a condyle has gone forward.",
         lambda m, a: float(way_of_condyle(m, a.side)[0])),
    Kind("outward move of the SIDE condyle", "mm", 2,
         "How far a condyle has gone outward; less than 0 inward.",
         lambda m, a: (1 if a.side == "left" else -1) * float(way_of_condyle(m, a.side)[1])),
    Kind("inward move of the nonworking condyle", "mm", 2,
         "As its path leads it inward: side shift, immediate and progressive.",
         lambda m, _: float(m.at.positions.medial_mm[0])),
    Kind("slope of TOOTH", "deg", 2,
         "How steeply the middle of a lower crown has gone down, to the reference plane.",
         lambda m, a: _slope_deg(way_of_tooth(m, a.tooth))),
    Kind("slope of the incisal point", "deg", 2,
         "How steeply the lower incisal point has gone down, to the reference plane.",
         lambda m, _: _slope_deg(way_of_incisal_point(m))),
    Kind("slope of the SIDE condyle", "deg", 2,
         "How steeply a condyle has gone down, to the reference plane.",
         lambda m, a: _slope_deg(way_of_condyle(m, a.side))),
    Kind("Christensen angle", "deg", 2,
         "By how much the rear of the lower has dropped against its front.",
         lambda m, _: math.degrees(christensen_rad(m))),
    Kind("Bennett angle", "deg", 2,
         "Angle between the sagittal plane and the way of the nonworking condyle, seen from above.",
         _bennett_deg),
    Kind("contact", "", 0, "Which teeth touch, within the tolerance of the case.", _contact),
    Kind("guidance at MM mm", "", 0, "What guides the movement at one travel, in words.",
         _guidance_at),
    Kind("finding about TOOTH", "", 0,
         "The gravest finding about a tooth in this movement: serious, attention, note or none.",
         _finding_about),
    Kind("stops", "", 0, "How many centric stops there are in MI.", _stops),
    Kind("kind of slide", "", 0,
         "Between first contact in CR and MI: slide, intercuspal contact area or none.",
         lambda m, _: m.slide().kind),
    Kind("forward way of the slide", "mm", 2, "How far forward it leads.",
         lambda m, _: m.slide().forward_mm),
    Kind("height of the slide", "mm", 2, "Highest less lowest place of the incisal point on it.",
         lambda m, _: m.slide().height_range_mm),
    Kind("load across the base", "N", 1,
         "Sideways on the teeth of the first denture base for 100 N of closing force, at the pose "
         "nearest to this travel.", lambda m, _: across_base_n(m)),
    Kind("turning of the base", "N mm", 0,
         "About its fulcrum line, for 100 N of closing force, at the same pose.",
         lambda m, _: turning_nmm(m)),
    Kind("load across TOOTH", "N", 1, "Sideways on one replacement tooth, at the same pose.",
         lambda m, a: force_on_n(m, a.tooth)),
    Kind("lever of TOOTH", "mm", 1,
         "Horizontal distance of the force on a replacement tooth to the nearest abutment.",
         lambda m, a: lever_mm(m, a.tooth) or NOT_LOADED),
)  # fmt: skip


def reading(name: str) -> Reading:
    """Return the reading that a lesson names; see `reading_named`."""
    return reading_named(name, KINDS)
