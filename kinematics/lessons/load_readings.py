"""What a lesson reads of loads: the first denture base, at the pose nearest to where the jaw is."""

from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.lessons.moment import Moment
from kinematics.planning.load_readings import BaseLoad, base_load

_NO_BASE: Final = "this case has no denture base that could carry a load"


def base_load_at(moment: Moment) -> BaseLoad:
    """Return what the first denture base carries where the jaw stands.

    Raises
    ------
    InputError
        The case has no denture base, or teeth guide no pose of the excursion.
    """
    if not moment.case.has_loads or not moment.case.denture_bases:
        raise InputError(_NO_BASE)
    loads = moment.loads().as_is
    if not len(loads.travel_mm) or not loads.frames:
        raise InputError(
            "no pose of this movement is guided by teeth: what they carry is not known"
        )
    pose = int(np.argmin(np.abs(loads.travel_mm - moment.at.travel_mm)))
    return base_load(loads, loads.frames[0], pose)


def across_base_n(moment: Moment) -> float:
    """Return the force across the teeth of the first base, N per 100 N; see `base_load_at`."""
    return base_load_at(moment).figures["across_n"]


def turning_nmm(moment: Moment) -> float:
    """Return the turning of the first base about its fulcrum line, N mm per 100 N."""
    return base_load_at(moment).figures["about_fulcrum_nmm"]


def force_on_n(moment: Moment, code: int) -> float:
    """Return the force across one replacement tooth, N per 100 N; 0 where it carries nothing."""
    return next((t.across_n for t in base_load_at(moment).teeth if t.tooth == code), 0.0)


def lever_mm(moment: Moment, code: int) -> float:
    """Return the distance of the force on a replacement tooth to the nearest abutment, mm."""
    return next((t.lever_mm for t in base_load_at(moment).teeth if t.tooth == code), 0.0)
