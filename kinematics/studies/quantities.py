"""Which quantities a study keeps of every run, and what they are in one run."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.case import Case
from kinematics.case_judged import Judged
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.engine.plan import ColumnKind
from kinematics.guidance.cusp_paths import cusp_paths
from kinematics.guidance.readings import christensen_angles
from kinematics.planning.articulation import Reading, Verdict
from kinematics.planning.contact_runs import judged
from kinematics.planning.guidance_kinds import is_posterior_pair
from kinematics.planning.guidance_words import guidance_in_short
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.wording import excursion_label
from kinematics.tooth_codes import is_upper

#: What one run says of its quantities, by their names.
Values = dict[str, float | str | tuple[str, ...]]

#: Excursions of which every run tells something.
EXCURSIONS: Final = ("protrusion", "right lateral", "left lateral")
#: With what the names of some quantities begin: the kind of guidance, the load on teeth, gaps of
#: the first molars, and the angle between the lateral paths of one.
GUIDES: Final = "what guides"
LOAD: Final = "load across replacement teeth"
MOLAR_GAPS: Final = "gap of first molars"
BETWEEN_PATHS: Final = "angle between working and nonworking path of first molar"
#: First molars, upper and lower, and how a quantity calls their side.
_FIRST_MOLARS: Final = ((16, 46, "right"), (26, 36, "left"))
#: Kind of guidance at a reading position that an excursion does not reach.
NOT_REACHED: Final = "not reached"
#: Straight way of the lower incisal point from first contact in CR to MI.
SLIDE: Final = "centric slide, mm"
#: Advance of the nonworking condyle at which the paths of cusps are read, mm: that of every path.
_PATHS_AT_MM: Final = 3.0
#: By how much farther gaps are measured from one try to the next.
_FARTHER: Final = 2.0


@dataclass(frozen=True)
class Quantity:
    """One quantity.

    Attributes
    ----------
    name : str
        In words, with excursion and travel; that of a number ends with its unit.
    unit : str
        "mm", "deg", "N/N", or empty.
    kind : ColumnKind
        What holds it.
    """

    name: str
    unit: str
    kind: ColumnKind


def quantities(case: Case) -> tuple[Quantity, ...]:
    """Return the quantities that a study of a case keeps."""
    return tuple(_quantities(case))


def _quantities(case: Case) -> Iterator[Quantity]:
    yield Quantity(SLIDE, "mm", "float")
    for label in EXCURSIONS:
        yield Quantity(_guides(label), "", "text")
        for travel_mm in case.judging.readings_mm[1:]:
            where = f"{label} at {travel_mm:g} mm"
            yield Quantity(_guides(where), "", "text")
            yield Quantity(_touching(where), "", "texts")
            yield from (Quantity(_molars(where, side), "mm", "float") for *_, side in _FIRST_MOLARS)
            if label == EXCURSIONS[0]:
                yield Quantity(_turned(where), "deg", "float")
        if case.replacement_teeth:
            yield Quantity(_least(label), "mm", "float")
            yield Quantity(_held(label), "mm", "float")
            yield Quantity(_across(label), "N/N", "float")
    yield from (Quantity(_between(side), "deg", "float") for *_, side in _FIRST_MOLARS)


def _guides(where: str) -> str:
    return f"{GUIDES}: {where}"


def _touching(where: str) -> str:
    return f"posterior contacts: {where}"


def _molars(where: str, side: str) -> str:
    return f"{MOLAR_GAPS}: {where}, {side}, mm"


def _turned(where: str) -> str:
    return f"Christensen angle: {where}, deg"


def _between(side: str) -> str:
    return f"{BETWEEN_PATHS}: {side}, deg"


def _least(label: str) -> str:
    return f"least gap of replacement teeth: {label}, mm"


def _held(label: str) -> str:
    return f"replacement teeth hold open: {label}, mm"


def _across(label: str) -> str:
    return f"{LOAD}: {label}, N across per N along"


def measured(case: Case, casts: MountedCasts, found: Judged, workers: Workers) -> Values:
    """Return every quantity of one run.

    Parameters
    ----------
    case : Case
        By what it was judged.
    casts : MountedCasts
        The casts that were moved.
    found : Judged
        Protrusion, right and left lateral excursion from MI and retrusion, in this order.
    workers : Workers
        Threads.

    Returns
    -------
    dict
        By the names of `quantities`. A number is NaN where there is none: a gap beyond what is
        measured (`gap_limit_mm` of the case), or a position that is not reached. Loads and what is
        held open are 0 where nothing touches.
    """
    values: Values = {}
    verdicts = {item.excursion: item for item in found.verdicts}
    sweeps = found.sweeps[: len(EXCURSIONS)]
    read = [_read(verdicts[excursion_label(one.excursion)], case.judging) for one in sweeps]
    # All at once: eight poses are measured in little more time than one.
    poses = [
        one.poses[item.pose]
        for one, by_at in zip(sweeps, read, strict=True)
        for item in by_at.values()
    ]
    gaps = iter(
        _molar_gaps(casts, np.array(poses).reshape(-1, 4, 4), case.sweep.gap_limit_mm, workers)
    )
    for label, sweep, by_at in zip(EXCURSIONS, sweeps, read, strict=True):
        told = verdicts[excursion_label(sweep.excursion)]
        values[_guides(label)] = guidance_in_short(told.kind, told.stretches)
        values |= _at_readings(case, sweep, by_at, {at: next(gaps) for at in by_at}, label)
        if case.replacement_teeth:
            mine = [item for item in found.replacement if item.excursion == told.excursion]
            values |= _of_replacements(case, casts, sweep, mine, label, workers)
    return values | _path_angles(casts)


def tolerance_of_readings_mm(judging: JudgingSettings) -> float:
    """Return the tolerance at which readings are told, the one nearest to that of the case."""
    return min(judging.reading_tolerances_mm, key=lambda mm: abs(mm - judging.tolerance_mm))


def _read(told: Verdict, judging: JudgingSettings) -> dict[float, Reading]:
    """Return the readings of one excursion but that of its start, by their positions, mm."""
    tolerance_mm = tolerance_of_readings_mm(judging)
    return {
        item.travel_mm: item
        for item in told.readings
        if item.tolerance_mm == tolerance_mm and item.travel_mm in judging.readings_mm[1:]
    }


def _at_readings(
    case: Case,
    sweep: Sweep,
    read: Mapping[float, Reading],
    gaps: Mapping[float, Sequence[float]],
    label: str,
) -> Values:
    """Return what is read at the reading positions of one excursion."""
    values: Values = {}
    for at in case.judging.readings_mm[1:]:
        where, found = f"{label} at {at:g} mm", read.get(at)
        values[_guides(where)] = NOT_REACHED if found is None else found.label
        values[_touching(where)] = () if found is None else _posterior(found)
        for number, (*_, side) in enumerate(_FIRST_MOLARS):
            values[_molars(where, side)] = gaps[at][number] if at in gaps else np.nan
        if label == EXCURSIONS[0]:
            values[_turned(where)] = np.nan if found is None else _turn_deg(sweep, found.pose)
    return values


def _turn_deg(sweep: Sweep, pose: int) -> float:
    return float(np.degrees(christensen_angles(sweep.poses[[pose]], sweep.poses[0])[0]))


def _posterior(found: Reading) -> tuple[str, ...]:
    pairs = (pair for pair in found.touching if is_posterior_pair(pair))
    return tuple(f"{upper}-{lower}" for upper, lower in sorted(pairs))


def _molar_gaps(
    casts: MountedCasts, poses: Floats, limit_mm: float, workers: Workers
) -> list[list[float]]:
    """Return the shortest distances of the first molars of both sides in some poses, mm."""
    gaps = np.full((len(poses), len(_FIRST_MOLARS)), np.inf)
    for number, (upper, lower, _) in enumerate(_FIRST_MOLARS):
        if len(poses) and upper in casts.upper.codes and lower in casts.lower.codes:
            found = pair_gaps(casts.pair, poses, limit_mm, (upper,), (lower,), workers)
            gaps[:, number] = found[:, 0, 0]
    return [[float(gap) for gap in row] for row in np.where(np.isinf(gaps), np.nan, gaps)]


def _path_angles(casts: MountedCasts) -> Values:
    """Return the angles between both lateral paths of first molars from CR, seen from above."""
    values: Values = {_between(side): np.nan for *_, side in _FIRST_MOLARS}
    points = {}
    for _, code, side in _FIRST_MOLARS:
        if code in casts.lower.codes:
            tooth = casts.lower.tooth(code)
            tips = [tooth.cusp_tips[name] for name in tooth.supporting]
            points[_between(side)] = tips[0] if tips else tooth.centre
    at = np.array([*points.values()]).reshape(-1, 3)
    paths = cusp_paths(casts.guidance, at, _PATHS_AT_MM, casts.mi.opening_rad)
    return values | {name: one.between_deg for name, one in zip(points, paths, strict=True)}


def _of_replacements(
    case: Case,
    casts: MountedCasts,
    sweep: Sweep,
    contacts: list[ReplacementContact],
    label: str,
    workers: Workers,
) -> Values:
    """Return what replacement teeth do in the judged travel of one excursion."""
    touching = [item for item in contacts if item.touches and item.standing != "near MI only"]
    loads = [item.across_per_along for item in touching if np.isfinite(item.across_per_along)]
    heights = [item.height_mm for item in touching if np.isfinite(item.height_mm)]
    return {
        _least(label): _least_gap(case, casts, sweep, workers),
        _held(label): max(heights, default=0.0),
        _across(label): max(loads, default=0.0),
    }


def _least_gap(case: Case, casts: MountedCasts, sweep: Sweep, workers: Workers) -> float:
    """Return the least shortest distance of replacement teeth in the judged travel, mm."""
    where, most_mm = judged(sweep, case.judging), case.sweep.gap_limit_mm
    replaced = case.replacement_teeth
    rows, columns = (np.isin(codes, replaced) for codes in (sweep.upper_codes, sweep.lower_codes))
    known = sweep.pair_gap_mm[where]
    of_them = np.concatenate([known[:, rows].ravel(), known[:, :, columns].ravel()])
    least = float(of_them.min(initial=np.inf))
    limit_mm = max(sweep.measured_mm, case.judging.approach_margin_mm)  # see `live.brisk`
    # The nearest counts alone: none is measured much farther than that.
    while np.isinf(least) and limit_mm < most_mm and where.any():
        limit_mm = min(_FARTHER * limit_mm, most_mm)
        for upper in (True, False):
            mine = tuple(code for code in replaced if is_upper(code) == upper)
            codes = (mine, casts.lower.codes) if upper else (casts.upper.codes, mine)
            if mine:
                gaps = pair_gaps(casts.pair, sweep.poses[where], limit_mm, *codes, workers)
                least = min(least, float(gaps.min()))
    return least if np.isfinite(least) else np.nan
