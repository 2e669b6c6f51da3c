"""Which settings of a case can be uncertain at all: what each is, and within which limits."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Final

from pydantic import TypeAdapter

from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import (
    DEFAULT_PROGRESSIVE_SHIFT_DEG,
    GuidanceSettings,
    IncisalTable,
    SideGuidance,
)
from kinematics.records.settings import GuidanceSpread
from kinematics.scans.centric_records import MOST_ADVANCE_MM, MOST_SHIFT_MM
from kinematics.scans.settings import ScanSettings
from kinematics.uncertainty.hinge_axis import AXIS_FORWARD, AXIS_TILT, AXIS_UP
from kinematics.uncertainty.settings import UncertaintySettings

#: How far the axis of a person may lie from the one mounted to, mm, and the plane be tilted,
#: degrees: beyond, casts were not mounted at all. Chosen for this program.
MOST_OFF_MM: Final = 25.0
MOST_TILTED_DEG: Final = 20.0

CURVATURE: Final = "eminence_curvature_per_mm"
RADIUS: Final = "eminence_radius_mm"
SIDES: Final = ("right", "left")

#: Settings of a side of guidance that can be uncertain, in words.
_OF_A_SIDE: Final[Mapping[str, str]] = {
    "condylar_inclination_deg": "condylar inclination",
    CURVATURE: "curvature of the eminence",
    "progressive_shift_deg": "progressive side shift",
    "bennett_angle_deg": "Bennett angle",
    "immediate_shift_mm": "immediate side shift",
    "fischer_deg": "Fischer angle",
    "working_elevation_deg": "elevation of the working condyle",
    "working_retrusion_deg": "retrusion of the working condyle",
}
#: Settings of an incisal guide table, in words, and what tells several apart.
_OF_THE_TABLE: Final[Mapping[str, tuple[str, str]]] = {
    "sagittal_deg": ("inclination of the incisal guide table", ""),
    "wing_right_deg": ("wing of the incisal guide table", "right"),
    "wing_left_deg": ("wing of the incisal guide table", "left"),
    "freedom_mm": ("freedom of the incisal guide table", ""),
}


@dataclass(frozen=True)
class StudiedSettings:
    """What of a case tells which of its settings are uncertain, and how much.

    Attributes
    ----------
    guidance : GuidanceSettings
        As set.
    guidance_spread : GuidanceSpread or None
        Standard errors of settings that were found from records.
    scans : ScanSettings or None
        Scanned casts; None for built-in teeth.
    mi : GuidanceCoordinates
        Maximal intercuspation, as set or recorded.
    settings : UncertaintySettings
        What the user says.
    """

    guidance: GuidanceSettings
    guidance_spread: GuidanceSpread | None
    scans: ScanSettings | None
    mi: GuidanceCoordinates
    settings: UncertaintySettings


@dataclass(frozen=True)
class VariableSetting:
    """One setting that can be uncertain.

    Attributes
    ----------
    path : str
        As in `UncertainSetting`.
    words, which : str
        What it is, and which of several: a side, or a direction; empty where there is one.
    nominal, least, greatest : float
        As set, and what is accepted.
    unit : str
        "mm", "deg" or "1/mm".
    """

    path: str
    words: str
    which: str
    nominal: float
    least: float
    greatest: float
    unit: str


def variable_settings(studied: StudiedSettings) -> tuple[VariableSetting, ...]:
    """Return all settings of a case that can be uncertain, in one order for every case."""
    guidance = studied.guidance
    found = [_distance(guidance)]
    for key, words in _OF_A_SIDE.items():
        for side in SIDES:
            if not _why_not(guidance, side, key):
                found.append(_of_a_side(studied, side, key, words))
    if guidance.incisal_table is not None and not guidance.incisal_table.measured_points:
        found += _of_the_table(guidance.incisal_table)
    return (*found, *_of_mi(guidance, studied.mi), *_of_the_axis())


def reasons_against(studied: StudiedSettings) -> dict[str, str]:
    """Return why settings of guidance cannot be uncertain in this case, by their paths."""
    told = {
        f"guidance.{side}.{key}": _why_not(studied.guidance, side, key)
        for key in _OF_A_SIDE
        for side in SIDES
    }
    for side in SIDES:
        told[f"guidance.{side}.{RADIUS}"] = f"name guidance.{side}.{CURVATURE}, which is 1 / radius"
    return {path: why for path, why in told.items() if why}


def _why_not(guidance: GuidanceSettings, side: str, key: str) -> str:
    """Return why a setting of a side has no effect, or stands elsewhere; empty: it may vary."""
    mine: SideGuidance = getattr(guidance, side)
    other = SIDES[1 - SIDES.index(side)]
    if key == "condylar_inclination_deg" and mine.path == "measured":
        return "the path of this side is measured, and does not use it"
    if key == CURVATURE and mine.path != "curved":
        return f"the path of this side is {mine.path}"
    if key == "progressive_shift_deg" and mine.bennett_angle_deg is not None:
        return f"it follows from guidance.{side}.bennett_angle_deg; name that"
    if key == "bennett_angle_deg" and mine.bennett_angle_deg is None:
        return f"it is not given; name guidance.{side}.progressive_shift_deg"
    if key == "immediate_shift_mm" and getattr(guidance, other).pure_rotation:
        return f"guidance.{other}.pure_rotation leaves no room for it"
    if key == "immediate_shift_mm" and _read_without_shift(mine):
        return f"guidance.{side}.bennett_angle_deg without bennett_read_at_mm leaves no room for it"
    return ""


def _read_without_shift(of: SideGuidance) -> bool:
    """Tell whether a Bennett angle is given that no immediate shift could be part of."""
    return of.bennett_angle_deg is not None and of.bennett_read_at_mm is None


@cache
def _limits(kind: type, key: str) -> tuple[float, float]:
    """Return the least and greatest value that a group of settings accepts."""
    schema: dict[str, Any] = TypeAdapter(kind).json_schema()
    defined: dict[str, Any] = schema.get("$defs", {}).get(kind.__name__, schema)
    about: dict[str, Any] = defined["properties"][key]
    number = about.get("anyOf", [about])[0]
    return float(number["minimum"]), float(number["maximum"])


def _unit(key: str) -> str:
    return "1/mm" if key.endswith("_per_mm") else key.rpartition("_")[2]


def _distance(guidance: GuidanceSettings) -> VariableSetting:
    key = "intercondylar_distance_mm"
    least, greatest = _limits(GuidanceSettings, key)
    value = guidance.intercondylar_distance_mm
    return VariableSetting(
        f"guidance.{key}", "intercondylar distance", "", value, least, greatest, "mm"
    )


def _of_a_side(studied: StudiedSettings, side: str, key: str, words: str) -> VariableSetting:
    mine: SideGuidance = getattr(studied.guidance, side)
    least, greatest = _limits(SideGuidance, RADIUS if key == CURVATURE else key)
    if key == CURVATURE:
        nominal = 1.0 / mine.eminence_radius_mm
        least, greatest = 1.0 / greatest, 1.0 / least
    elif key == "progressive_shift_deg":
        given = mine.progressive_shift_deg
        nominal = DEFAULT_PROGRESSIVE_SHIFT_DEG if given is None else given
    else:
        nominal = getattr(mine, key)
    if key == "immediate_shift_mm":
        # MI lies within the shift of the condyle that goes inward
        inward = studied.mi.shift_mm if side == "right" else -studied.mi.shift_mm
        least = max(least, inward)
    return VariableSetting(
        f"guidance.{side}.{key}", words, side, nominal, least, greatest, _unit(key)
    )


def _of_the_table(table: IncisalTable) -> Iterator[VariableSetting]:
    for key, (words, which) in _OF_THE_TABLE.items():
        least, greatest = _limits(IncisalTable, key)
        path = f"guidance.incisal_table.{key}"
        yield VariableSetting(path, words, which, getattr(table, key), least, greatest, _unit(key))


def _of_mi(guidance: GuidanceSettings, mi: GuidanceCoordinates) -> Iterator[VariableSetting]:
    words = "place of MI ahead of CR"
    for side, value in (("right", mi.advance_right_mm), ("left", mi.advance_left_mm)):
        path = f"maximal_intercuspation.advance_{side}_mm"
        yield VariableSetting(path, words, side, value, 0.0, MOST_ADVANCE_MM, "mm")
    # each side shift takes the jaw to the other side
    least = -min(guidance.left.immediate_shift_mm, MOST_SHIFT_MM)
    greatest = min(guidance.right.immediate_shift_mm, MOST_SHIFT_MM)
    if least < greatest:
        path = "maximal_intercuspation.shift_mm"
        yield VariableSetting(path, "side shift in MI", "", mi.shift_mm, least, greatest, "mm")


def _of_the_axis() -> Iterator[VariableSetting]:
    words, most = "place of the hinge axis", MOST_OFF_MM
    for which, path in (("forward", AXIS_FORWARD), ("up", AXIS_UP)):
        yield VariableSetting(path, words, which, 0.0, -most, most, "mm")
    words, most = "tilt of the reference plane", MOST_TILTED_DEG
    yield VariableSetting(AXIS_TILT, words, "", 0.0, -most, most, "deg")
