"""Points that a person picks on casts: their names, and how they stand in the settings of scans."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from kinematics.checks import InputError
from kinematics.scans.settings import MOUNTING_KEYS, ScanMounting, ScanSettings

SEED: Final = "tooth_seed"
GUM_SEED: Final = "gum_seed"
SEAT: Final = "rest_seat"
#: Points of which there is one, by the table of settings that they belong to.
OF_MOUNTING: Final = (*MOUNTING_KEYS["mean values"], *MOUNTING_KEYS["hinge axis"])
OF_SCANS: Final = ("lower_incisal_point",)
#: Points of which there may be several for a tooth.
OF_TEETH: Final = (SEED, GUM_SEED, SEAT)
#: Keys of settings that hold them.
_KEYS: Final = {SEED: "tooth_seeds", GUM_SEED: "gum_seeds", SEAT: "rest_seats"}
#: Points on the lower cast; those of teeth lie on the cast of the tooth, the others anywhere.
ON_LOWER: Final = (*MOUNTING_KEYS["mean values"], *OF_SCANS)
#: All names, in the order in which they are told.
POINT_NAMES: Final = (*OF_MOUNTING, *OF_SCANS, *OF_TEETH)

Place = tuple[float, float, float]


@dataclass(frozen=True)
class PickedPoint:
    """One point, in the coordinates of the upper scan, the jaw in MI.

    Attributes
    ----------
    point : str
        One of `POINT_NAMES`.
    place : tuple of 3 floats
        mm.
    tooth : int or None
        ISO 3950 number, of seeds and rest seats; of a seed of gum, which tooth it is beside.
    """

    point: str
    place: Place
    tooth: int | None = None

    @property
    def called(self) -> str:
        """The name, with the tooth it is of."""
        return self.point if self.tooth is None else f"{self.point} of {self.tooth}"


def points_of(scans: ScanSettings) -> tuple[PickedPoint, ...]:
    """Return the points that settings hold, in the order of `POINT_NAMES`, then by tooth."""
    held: list[tuple[str, Any]] = [(key, getattr(scans.mounting, key)) for key in OF_MOUNTING]
    held += [(key, getattr(scans, key)) for key in OF_SCANS]
    found = [PickedPoint(key, place) for key, place in held if place is not None]
    for name, key in _KEYS.items():
        for code, given in sorted(getattr(scans, key).items()):
            found += [PickedPoint(name, place, code) for place in given]
    return tuple(found)


def mounting_values(points: Iterable[PickedPoint]) -> dict[str, Place]:
    """Return the settings of a mounting that points are, by their keys."""
    return {p.point: p.place for p in points if p.point in OF_MOUNTING}


def scan_values(points: Iterable[PickedPoint]) -> dict[str, Any]:
    """Return the settings of scans that points are, but for those of their mounting."""
    given = tuple(points)
    values: dict[str, Any] = {p.point: p.place for p in given if p.point in OF_SCANS}
    for name, key in _KEYS.items():
        of_teeth: dict[int | None, tuple[Place, ...]] = {}
        for p in given:
            if p.point == name:
                of_teeth[p.tooth] = (*of_teeth.get(p.tooth, ()), p.place)
        if of_teeth:
            values[key] = of_teeth
    return values


def mounting_of(points: Iterable[PickedPoint], others: Mapping[str, Any]) -> ScanMounting | None:
    """Return the mounting that points make; None where none of them is for one.

    Parameters
    ----------
    points : iterable of PickedPoint
        Complete for one way of mounting, and for one only.
    others : mapping
        Further settings of the mounting.

    Raises
    ------
    InputError
        They are incomplete, of several ways, or out of range.
    """
    values = mounting_values(points)
    if not values:
        return None
    try:
        return ScanMounting(**values, **others)  # type: ignore[arg-type]  # what they are is checked
    except ValidationError as error:
        told = "; ".join(_plain(fault) for fault in error.errors())
        raise InputError(f"points for the mounting: {told}") from error


def _plain(fault: ErrorDetails) -> str:
    """Return one fault of settings in words."""
    where = ".".join(map(str, fault["loc"]))
    said = str(fault.get("ctx", {}).get("error", fault["msg"]))
    return f"{where}: {said}" if where else said
