"""The table of formulas that lessons may show, and where their numbers are read."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points
from kinematics.lessons.load_readings import force_on_n, lever_mm
from kinematics.lessons.moment import Moment
from kinematics.lessons.reading_names import Asked
from kinematics.lessons.readings import (
    christensen_rad,
    slope_rad,
    way_of_condyle,
    way_of_incisal_point,
    way_of_tooth,
)

Read = Callable[[Moment, Asked], float]


@dataclass(frozen=True)
class Term:
    """A quantity in a formula.

    Attributes
    ----------
    symbol : str
        How the formula writes it.
    unit : str
        "deg" (read in radians), "mm", "N", "N mm" or empty.
    decimals : int
        With how many it is shown.
    meaning : str
        What it is, in words.
    read : callable or None
        Reads it from a moment; angles in radians. None for a result that the engine has only by
        the same formula.
    """

    symbol: str
    unit: str
    decimals: int
    meaning: str
    read: Read | None


@dataclass(frozen=True)
class Formula:
    """A formula that a lesson may show.

    Attributes
    ----------
    form : str
        Its name, with TOOTH or MM where a tooth or a number stands.
    relation : str
        Name of the function of `relations` that returns it: what works with symbols is fetched
        when a formula is first worked.
    terms : tuple of Term
        What is put in.
    result : Term
        What comes out; its `read` is what the engine has for it.
    source : str
        Where the relation comes from.
    exact : bool
        Whether it is exact, or good to the first order of small turns.
    """

    form: str
    relation: str
    terms: tuple[Term, ...]
    result: Term
    source: str
    exact: bool = True


def _middle_way(moment: Moment) -> Floats:
    """Return how the point midway between the condyles has moved."""
    return np.asarray((way_of_condyle(moment, "right") + way_of_condyle(moment, "left")) / 2.0)


def _from_condyles(moment: Moment) -> Floats:
    """Return the lower incisal point from midway between the condyles, at the start."""
    points = np.stack([moment.casts.incisal_point, np.zeros(3)])
    there, middle = move_points(moment.pose_at_start, points)
    return np.asarray(there - middle)


def _from_incisal_point(moment: Moment, code: int) -> Floats:
    points = np.stack([moment.casts.lower.tooth(code).centre, moment.casts.incisal_point])
    there, edge = move_points(moment.pose_at_start, points)
    return np.asarray(there - edge)


def _triangle_side_mm(moment: Moment, _: Asked) -> float:
    x, _y, z = _from_condyles(moment)
    return math.hypot(x, z)


def _balkwill_rad(moment: Moment, _: Asked) -> float:
    x, _y, z = _from_condyles(moment)
    return math.atan2(-z, x)


def _incisal_travel_mm(moment: Moment, _: Asked) -> float:
    return float(np.linalg.norm(way_of_incisal_point(moment)))


def _nonworking(moment: Moment) -> str:
    return "left" if moment.excursion.azimuth_deg < 0.0 else "right"


def _shares(moment: Moment, code: int) -> Floats:
    """Return how much of a tooth's drop comes from incisal point, right and left condyle, (3,)."""
    half = moment.casts.guidance.half_distance_mm
    corners = np.stack([moment.casts.incisal_point[:2], [0.0, -half], [0.0, half]])
    place = moment.casts.lower.tooth(code).centre[:2]
    return np.linalg.solve(np.vstack([corners.T, np.ones(3)]), np.append(place, 1.0))


def _progressive_rad(moment: Moment, _: Asked) -> float:
    guidance = moment.casts.guidance
    return float(
        (guidance.left if _nonworking(moment) == "left" else guidance.right).progressive_rad
    )


_BETA: Final = Term("beta", "deg", 2, "inclination of the condyles' way to the reference plane",
                    lambda m, _: slope_rad(_middle_way(m)))  # fmt: skip
_SIGMA: Final = Term("sigma", "deg", 2, "inclination of the incisal point's way",
                     lambda m, _: slope_rad(way_of_incisal_point(m)))  # fmt: skip
_P: Final = Term("p", "mm", 2, "straight way of the lower incisal point", _incisal_travel_mm)
_GAMMA: Final = Term("gamma", "deg", 2, "Christensen angle", lambda m, _: christensen_rad(m))

FORMULAS: Final = (
    Formula(
        "Christensen angle",
        "christensen",
        (
            _BETA, _SIGMA,
            Term("phi", "deg", 2, "Balkwill angle", _balkwill_rad),
            Term("a", "mm", 2, "from the hinge axis to the lower incisal point", _triangle_side_mm),
            _P,
        ),
        _GAMMA,
        "Christensen, J Prosthet Dent 1960 (for a level incisal way), derived anew for any",
    ),
    Formula(
        "slope of TOOTH",
        "slope_behind",
        (
            _SIGMA, _P, _GAMMA,
            Term("d", "mm", 2, "how far the tooth lies behind the incisal point",
                 lambda m, a: -float(_from_incisal_point(m, a.tooth)[0])),
            Term("h", "mm", 2, "how far it lies above it",
                 lambda m, a: float(_from_incisal_point(m, a.tooth)[2])),
        ),
        Term("theta", "deg", 2, "inclination of the tooth's way",
             lambda m, a: slope_rad(way_of_tooth(m, a.tooth))),
        "plane geometry: one rigid jaw (exact where the jaw moves straight forward)",
    ),
    Formula(
        "drop of TOOTH",
        "shared_drop",
        (
            *(Term(f"w_{k}", "", 3, f"share of the {of}", read) for k, of, read in (
                ("I", "incisal point", lambda m, a: float(_shares(m, a.tooth)[0])),
                ("R", "right condyle", lambda m, a: float(_shares(m, a.tooth)[1])),
                ("L", "left condyle", lambda m, a: float(_shares(m, a.tooth)[2])),
            )),
            Term("z_I", "mm", 2, "drop of the incisal point",
                 lambda m, _: -float(way_of_incisal_point(m)[2])),
            Term("z_R", "mm", 2, "drop of the right condyle",
                 lambda m, _: -float(way_of_condyle(m, "right")[2])),
            Term("z_L", "mm", 2, "drop of the left condyle",
                 lambda m, _: -float(way_of_condyle(m, "left")[2])),
        ),
        Term("z", "mm", 2, "drop of the tooth", lambda m, a: -float(way_of_tooth(m, a.tooth)[2])),
        "plane geometry: three points carry a plane; shares are those of the tooth's place among "
        "them, seen from above",
        exact=False,
    ),
    Formula(
        "Bennett angle of pure rotation",
        "pure_rotation",
        (
            Term("x", "mm", 2, "forward way of the nonworking condyle",
                 lambda m, _: float(way_of_condyle(m, _nonworking(m))[0])),
            Term("z", "mm", 2, "its drop",
                 lambda m, _: -float(way_of_condyle(m, _nonworking(m))[2])),
            Term("D", "mm", 1, "intercondylar distance",
                 lambda m, _: 2.0 * m.casts.guidance.half_distance_mm),
        ),
        Term("B", "deg", 2, "Bennett angle of a jaw that only turns",
             lambda m, _: math.atan2(
                 _inward_mm(m), float(way_of_condyle(m, _nonworking(m))[0]))),
        "geometry: the condyles keep their distance",
    ),
    Formula(
        "inward move of the nonworking condyle",
        "side_shift",
        (
            Term("s", "mm", 2, "immediate side shift used",
                 lambda m, _: abs(float(m.at.positions.shift_mm[0]))),
            Term("x", "mm", 2, "forward way beyond the other condyle",
                 lambda m, _: float(m.at.positions.forward_mm[0])),
            Term("b", "deg", 1, "progressive side shift", _progressive_rad),
        ),
        Term("m", "mm", 2, "inward move of the nonworking condyle",
             lambda m, _: float(m.at.positions.medial_mm[0])),
        "definition of immediate and progressive side shift (Glossary of Prosthodontic Terms)",
    ),
    Formula(
        "slope of the slide",
        "slope_of_way",
        (
            Term("z", "mm", 3, "height from first contact in CR to MI",
                 lambda m, _: m.slide().up_mm),
            Term("x", "mm", 2, "forward way", lambda m, _: m.slide().forward_mm),
        ),
        Term("s", "deg", 2, "inclination of the slide", None),
        "definition of an inclination: height over way",
    ),
    Formula(
        "inclination to a plane MM degrees away",
        "other_plane",
        (
            Term("beta", "deg", 2, "inclination to the reference plane of the case",
                 lambda m, _: slope_rad(_middle_way(m))),
            Term("delta", "deg", 1, "angle between both planes",
                 lambda _, a: math.radians(a.travel_mm)),
        ),
        Term("alpha", "deg", 2, "inclination of the same way to the other plane", None),
        "geometry: planes that meet in the hinge axis",
    ),
    Formula(
        "error of a hinge axis MM mm too low",
        "axis_error",
        (
            Term("e", "mm", 1, "how far the axis is wrong", lambda _, a: a.travel_mm),
            Term("g", "mm", 2, "drop of the lower incisal point",
                 lambda m, _: -float(way_of_incisal_point(m)[2])),
            Term("x", "mm", 1, "how far it lies ahead of the axis",
                 lambda m, _: float(_from_condyles(m)[0])),
        ),
        Term("epsilon", "mm", 2, "error of every cusp",
             lambda m, a: a.travel_mm * _turn_rad(m)),
        "geometry: the jaw turns by about g over x; 0.2 mm for 5 mm and a record of 3 mm is the "
        "classic figure",
        exact=False,
    ),
    Formula(
        "turning by the load on TOOTH",
        "turning",
        (
            Term("F", "N", 1, "force across the tooth, for 100 N of closing force",
                 lambda m, a: force_on_n(m, a.tooth)),
            Term("l", "mm", 1, "lever: distance to the nearest abutment",
                 lambda m, a: lever_mm(m, a.tooth)),
        ),
        Term("M", "N mm", 0, "turning about that abutment by this force alone", None),
        "statics",
    ),
)  # fmt: skip


def _inward_mm(moment: Moment) -> float:
    side = _nonworking(moment)
    return float(way_of_condyle(moment, side)[1]) * (-1.0 if side == "left" else 1.0)


def _turn_rad(moment: Moment) -> float:
    """Return by how much the jaw has turned in the sagittal plane since the start."""
    return -christensen_rad(moment)
