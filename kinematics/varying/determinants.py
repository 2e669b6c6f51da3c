"""Determinants of occlusion: which way published rules go, and which way a grid goes.

A factor that lets the back teeth part farther in excursions lets posterior cusps be higher. What is
published is a direction alone, without figures: Okeson, Management of Temporomandibular Disorders
and Occlusion, chapter on the determinants of occlusal morphology.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import Any, Final, Literal

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.planning.guidance_kinds import (
    ANTERIOR,
    CANINE,
    CANINE_WITH_INCISORS,
    INCISORS_ONLY,
    ONE_SIDED_ANTERIOR,
    TABLE_ONLY,
)
from kinematics.studies.quantities import BETWEEN_PATHS, GUIDES, MOLAR_GAPS
from kinematics.varying.told import Feature, Told
from kinematics.varying.variation import Variation

Cusps = Literal["may be higher", "must be lower"]
Angle = Literal["wider", "narrower"]
#: What a side of the jaw does in an excursion.
Acts = Literal["protrusive", "working", "nonworking"]
Trend = Literal["rises", "falls", "stays", "rises and falls"]

SOURCE: Final = (
    "Okeson, Management of Temporomandibular Disorders and Occlusion, chapter on the determinants "
    "of occlusal morphology"
)
#: Guidance under which gaps of the molars tell what a factor does: else back teeth hold them open.
_BY_FRONT_TEETH: Final = (
    CANINE, CANINE_WITH_INCISORS, INCISORS_ONLY, ANTERIOR, ONE_SIDED_ANTERIOR, TABLE_ONLY,
)  # fmt: skip
#: Changes from one grid point to the next that are none: rounding and the resolution of the teeth.
_STAYS: Final = {"mm": 0.005, "deg": 0.02}


@dataclass(frozen=True)
class Rule:
    """What is published about one factor.

    Attributes
    ----------
    setting : str
        The end of the path of a setting that is this factor.
    factor : str
        What grows with the setting.
    cusps : {"may be higher", "must be lower"} or None
        What posterior cusps then may or must be.
    angle : {"wider", "narrower"} or None
        How the angle between the working and the nonworking path of a cusp then changes.
    acts : tuple of {"protrusive", "working", "nonworking"}
        Molars whose paths it changes: a condylar path those of its own side when that advances.
    """

    setting: str
    factor: str
    cusps: Cusps | None
    angle: Angle | None
    acts: tuple[Acts, ...] = ()


_CONDYLE: Final[tuple[Acts, ...]] = ("protrusive", "nonworking")
_FRONT: Final[tuple[Acts, ...]] = ("protrusive", "working", "nonworking")
_SIDEWAYS: Final[tuple[Acts, ...]] = ("working", "nonworking")
RULES: Final = (
    Rule("condylar_inclination_deg", "condylar inclination", "may be higher", None, _CONDYLE),
    Rule("overbite_mm", "vertical overlap of the front teeth", "may be higher", None, _FRONT),
    Rule("overjet_mm", "horizontal overlap of the front teeth", "must be lower", None, _FRONT),
    Rule(
        "hinge_axis.tilt_deg",
        "divergence of the occlusal plane from the condylar path",
        "may be higher",
        None,
        _CONDYLE,
    ),
    Rule("immediate_shift_mm", "lateral translation", "must be lower", "wider", _SIDEWAYS),
    Rule("progressive_shift_deg", "lateral translation", "must be lower", "wider", _SIDEWAYS),
    Rule("bennett_angle_deg", "lateral translation", "must be lower", "wider", _SIDEWAYS),
    Rule("early_over_mm", "delay of lateral translation", "may be higher", "narrower", _SIDEWAYS),
    Rule(
        "working_elevation_deg",
        "surtrusion of the working condyle",
        "must be lower",
        None,
        _SIDEWAYS,
    ),
    Rule("intercondylar_distance_mm", "intercondylar distance", None, "narrower"),
    Rule("incisal_point_ahead_mm", "distance of the teeth from the condyles", None, "wider"),
    Rule("arch_width_scale", "distance of the teeth from the midline", None, "wider"),
)


@dataclass(frozen=True)
class Against:
    """A part of the grid in which something goes against a published rule.

    Attributes
    ----------
    begin, end : float
        From which value of the setting to which.
    guide_changes : bool
        Whether other front teeth guide at its one end than at the other.
    """

    begin: float
    end: float
    guide_changes: bool


@dataclass(frozen=True)
class Compared:
    """One quantity of a grid beside a published rule.

    Attributes
    ----------
    quantity : str
        Its name.
    wanted : {"rises", "falls"}
        Which way the rule says, as the setting grows.
    found : {"rises", "falls", "stays", "rises and falls"}
        Which way it goes on the grid.
    first, last : float
        At the first and last value of the setting for which it is told, the mean over the other.
    told : (float, float)
        These values of the setting.
    against : tuple of Against
        Where it goes the other way.
    """

    quantity: str
    wanted: Trend
    found: Trend
    first: float
    last: float
    told: tuple[float, float]
    against: tuple[Against, ...] = ()

    @property
    def agrees(self) -> bool:
        """Whether the grid goes the way of the rule."""
        return self.found == self.wanted


@dataclass(frozen=True)
class Determinant:
    """A varied setting that is a determinant of occlusion.

    Attributes
    ----------
    axis : int
        Which axis of the grid.
    rule : Rule
        What is published.
    compared : tuple of Compared
        Quantities that tell it.
    """

    axis: int
    rule: Rule
    compared: tuple[Compared, ...]


def determinants_on(found: Variation) -> tuple[Determinant, ...]:
    """Return the axes of a grid that are determinants of occlusion, beside what is published."""
    return tuple(
        Determinant(number, rule, tuple(_compared(found, number, rule)))
        for number, axis in enumerate(found.grid.axes)
        for rule in RULES
        if axis.setting == rule.setting or axis.setting.endswith(f".{rule.setting}")
    )


def _compared(found: Variation, axis: int, rule: Rule) -> Iterator[Compared]:
    wanted: list[tuple[str, str, Trend]] = []
    if rule.cusps is not None:
        wanted.append((MOLAR_GAPS, "mm", "rises" if rule.cusps == "may be higher" else "falls"))
    if rule.angle is not None:
        wanted.append((BETWEEN_PATHS, "deg", "rises" if rule.angle == "wider" else "falls"))
    for beginning, unit, way in wanted:
        for name in _last_readings(found, beginning):
            if beginning == MOLAR_GAPS and _does(name) not in rule.acts:
                continue
            values = np.where(_counts(found, name), found.numbers(name), np.nan)
            values = _along(values, axis)
            told = np.flatnonzero(np.isfinite(values).any(axis=1))
            if len(told) > 1:
                first, last = (float(np.nanmean(values[end])) for end in told[[0, -1]])
                of = found.grid.axes[axis].values
                against = tuple(_against(found, axis, name, values if way == "falls" else -values))
                ends = of[told[0]], of[told[-1]]
                yield Compared(name, way, trend(values, _STAYS[unit]), first, last, ends, against)


def _along(values: np.ndarray[Any, Any], axis: int) -> np.ndarray[Any, Any]:
    """Return what stands at the points of a grid as (points of one axis, lines along it)."""
    return np.moveaxis(values, axis, 0).reshape(values.shape[axis], -1)


def _against(found: Variation, axis: int, name: str, values: Floats) -> Iterator[Against]:
    """Yield where values (n, lines) rise that should fall; neighbouring steps alike as one."""
    unit = name.rpartition(", ")[2]
    rises = np.diff(values, axis=0) > _STAYS[unit]
    guides = np.array([(told or {}).get(_guide(name), "") for told in _at_points(found)])
    kinds = _along(guides.reshape(found.grid.shape), axis)
    changes = (rises & (kinds[1:] != kinds[:-1])).any(axis=1)
    of = found.grid.axes[axis].values
    wrong = [(k, bool(changes[k])) for k in np.flatnonzero(rises.any(axis=1)).tolist()]
    for (_, changed), run in groupby(
        enumerate(wrong), lambda item: (item[1][0] - item[0], item[1][1])
    ):
        steps = [k for _, (k, _) in run]
        yield Against(of[steps[0]], of[steps[-1] + 1], changed)


def _at_points(found: Variation) -> Iterator[Told | None]:
    return (found.told[place] for place in found.grid.points)


def _guide(name: str) -> Feature:
    """Return what tells which teeth guide where a quantity is read."""
    return Feature("text", f"{GUIDES}: {name.partition(': ')[2].partition(',')[0]}")


def _does(name: str) -> Acts:
    """Return what the side of the first molars does, of which a gap is told."""
    where, side = name.partition(": ")[2].split(", ")[:2]
    if not where.startswith(("right", "left")):
        return "protrusive"
    return "working" if where.startswith(side) else "nonworking"


def _counts(found: Variation, name: str) -> Bools:
    """Tell at which grid points front teeth alone guide where a quantity is read."""
    guides = _guide(name)
    if guides.name not in found.columns:
        return np.ones(found.grid.shape, dtype=np.bool_)
    return found.says(guides, *_BY_FRONT_TEETH)


def _last_readings(found: Variation, beginning: str) -> list[str]:
    """Return quantities that begin so; of those read at several travels the last ones alone."""
    names = [name for name in found.columns if name.startswith(beginning)]
    # In the order of travel: the last of every excursion and side stays.
    return list({_without_travel(name): name for name in names}.values())


def _without_travel(name: str) -> str:
    before, at, after = name.partition(" at ")
    return before + after.partition(",")[2] if at else name


def trend(values: Floats, stays: float) -> Trend:
    """Return which way values (n, lines) go along every line.

    Parameters
    ----------
    values : ndarray, shape (n, m)
        NaN where there is none.
    stays : float
        Smaller changes from one value to the next are none.
    """
    steps = np.diff(values, axis=0)
    up, down = bool((steps > stays).any()), bool((steps < -stays).any())
    if up and down:
        return "rises and falls"
    return "rises" if up else "falls" if down else "stays"
