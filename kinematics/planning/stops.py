"""Centric stops: which teeth meet in MI, how evenly, and which are left without."""

from dataclasses import dataclass, field
from typing import Final, Literal

import numpy as np

from kinematics.contact.contacts import Patches
from kinematics.contact.sweep import Sweep
from kinematics.conventions import TOLD_IF_SET
from kinematics.planning.contact_runs import point_of
from kinematics.planning.judging import JudgingSettings
from kinematics.tooth_codes import is_posterior, is_right, is_upper

StripReading = Literal["holds", "drags", "free"]

#: An 8 micrometre strip still holds at this shortest distance, and drags up to the next.
STRIP_HOLDS_MM: Final = 0.006
STRIP_DRAGS_MM: Final = 0.008
STRIP_SOURCE: Final = "Harper & Setchell, Int J Prosthodont 2002;15:347-352"


@dataclass(frozen=True)
class Stop:
    """One separate contact patch in MI.

    Attributes
    ----------
    tooth_upper, tooth_lower : int
        ISO 3950 numbers.
    point : tuple of float
        Place in the hinge frame, mm.
    arc_gap_mm : float
        Gap along the closing arc after the first contact.
    area_mm2 : float
        Area within the contact tolerance.
    normal : tuple of float
        Unit normal with which the lower pushes on the upper, hinge frame.
    surface : str
        What is doubtful about the scanned surface there; empty where nothing is.
    """

    tooth_upper: int
    tooth_lower: int
    point: tuple[float, float, float]
    arc_gap_mm: float
    area_mm2: float
    normal: tuple[float, float, float]
    surface: str = field(default="", metadata=TOLD_IF_SET)


def centric_stops(patches: Patches, settings: JudgingSettings, pose: int = 0) -> tuple[Stop, ...]:
    """Return the centric stops among the contact patches of MI.

    Parameters
    ----------
    patches : Patches
        Contact patches at closure in MI.
    settings : JudgingSettings
        Largest arc gap of a stop.
    pose : int
        Index of MI among the poses of the patches.
    """
    rows = np.flatnonzero(
        (patches.pose == pose)
        & (patches.tooth_upper > 0)
        & (patches.tooth_lower > 0)
        & (patches.arc_gap_mm <= settings.stop_tolerance_mm)
    )
    return tuple(
        Stop(
            tooth_upper=int(patches.tooth_upper[row]),
            tooth_lower=int(patches.tooth_lower[row]),
            point=point_of(patches.centroid[row]),
            arc_gap_mm=float(patches.arc_gap_mm[row]),
            area_mm2=float(patches.area_mm2[row]),
            normal=point_of(patches.normal[row]),
        )
        for row in rows
    )


def teeth_without_stop(stops: tuple[Stop, ...], codes: tuple[int, ...]) -> tuple[int, ...]:
    """Return those of the given teeth, of either arch, that no stop touches, in their order."""
    held = {code for stop in stops for code in (stop.tooth_upper, stop.tooth_lower)}
    return tuple(code for code in codes if code not in held)


def bare_sides(stops: tuple[Stop, ...], codes: tuple[int, ...]) -> tuple[str, ...]:
    """Return the sides, "right" and "left", with back teeth in both arches of which none meets.

    Parameters
    ----------
    stops : tuple of Stop
        Centric stops.
    codes : tuple of int
        ISO 3950 numbers of the teeth of both arches.
    """
    found = []
    for side, right in (("right", True), ("left", False)):
        back = [code for code in codes if is_posterior(code) and is_right(code) == right]
        held = {code for stop in stops for code in (stop.tooth_upper, stop.tooth_lower)}
        both = len({is_upper(code) for code in back}) > 1
        if both and held.isdisjoint(back):
            found.append(side)
    return tuple(found)


def strip_reading(gap_mm: float) -> StripReading:
    """Return what an 8 micrometre shim strip would do in a gap, mm."""
    if gap_mm <= STRIP_HOLDS_MM:
        return "holds"
    return "drags" if gap_mm <= STRIP_DRAGS_MM else "free"


def strip_readings(sweep: Sweep, pose: int = 0) -> dict[int, StripReading]:
    """Return what a shim strip would do at every upper tooth in one pose."""
    nearest = sweep.pair_gap_mm[pose].min(axis=1)
    return {
        code: strip_reading(float(gap))
        for code, gap in zip(sweep.upper_codes, nearest, strict=True)
    }
