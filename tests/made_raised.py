"""A raised bite with invented figures, for tests of what is said and drawn about it."""

import math
from dataclasses import replace

import numpy as np

from kinematics.planning.raised_bite import (
    FrontTeeth,
    RaisedBite,
    RaisedTooth,
    opening_at_height,
)
from kinematics.tooth_codes import is_right, place
from tests.example_checkup import BACK, HALF_WIDTHS, LOWERS

_MADE = RaisedBite(
    pin_opening_mm=3.0,
    pin_holds=True,
    raised_mm=3.0,
    back_mm=1.1,
    opening_deg=2.4,
    turned_deg=2.0,
    first_contact_upper=17,
    first_contact_lower=47,
    first_arc_gap_mm=1.2,
    incisal_point=(83.0, 0.0, -36.0),
    incisal_point_in_mi=(84.0, 0.0, -33.0),
    front=None,
    front_in_mi=None,
    teeth=(),
)
_DEPTH = {**BACK, 8: 49.0}
_ASIDE = {**HALF_WIDTHS, 8: 28.0}


def made_raised(**changed):
    """Return the raised bite with some fields changed."""
    return replace(_MADE, **changed)


def turned_bite(raised_mm=3.0, slide_mm=0.6, point=(84.0, 0.0, -33.0), codes=LOWERS, **changed):
    """Return a raised bite with teeth behind its incisal point, turned so that all places agree.

    Parameters
    ----------
    raised_mm : float
        Drop of the incisal point from MI.
    slide_mm : float
        How far MI stands ahead of CR.
    point : tuple of float
        Incisal point in MI.
    codes : tuple of int
        Lower teeth.
    changed : dict
        Other fields.
    """
    slide = np.array([slide_mm, 0.0, 0.0])
    in_mi = {
        code: point
        + np.array([-_DEPTH[place(code)], _ASIDE[place(code)] * (-1.0) ** is_right(code), 0.0])
        for code in codes
    }
    angle = opening_at_height(np.array(point) - slide, point[2] - raised_mm)
    stands = {code: _turned(at - slide, angle) for code, at in in_mi.items()}
    incisal = _turned(np.array(point) - slide, angle)
    teeth = tuple(
        RaisedTooth(
            tooth_lower=code,
            nearest_upper=code - 20 if is_right(code) else code - 10,
            opening_mm=in_mi[code][2] - stands[code][2],
            room_mm=0.8 * (in_mi[code][2] - stands[code][2]),
            arc_gap_mm=math.dist(in_mi[code], stands[code]),
            place=tuple(stands[code]),
            place_in_mi=tuple(in_mi[code]),
        )
        for code in codes
    )
    return made_raised(
        **{
            "pin_opening_mm": raised_mm,
            "raised_mm": raised_mm,
            "back_mm": point[0] - incisal[0],
            "opening_deg": math.degrees(angle) + 0.4,
            "turned_deg": math.degrees(angle),
            "incisal_point": tuple(incisal),
            "incisal_point_in_mi": point,
            "front": FrontTeeth(2.1 - raised_mm, 3.2 + point[0] - incisal[0]),
            "front_in_mi": FrontTeeth(2.1, 3.2),
            "teeth": teeth,
            **changed,
        }
    )


def _turned(point, angle):
    """Return a point opened about the hinge axis."""
    x, y, z = point
    return np.array(
        [
            x * math.cos(angle) + z * math.sin(angle),
            y,
            z * math.cos(angle) - x * math.sin(angle),
        ]
    )
