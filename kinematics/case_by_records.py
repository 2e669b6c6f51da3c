"""A case with the settings that its interocclusal records give, and how certain they are."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, replace
from typing import Final

from kinematics.case import Case
from kinematics.case_changes import Changed, ChangesRefused, changed_case
from kinematics.checks import InputError
from kinematics.records.found_settings import Estimate, FromRecords
from kinematics.records.from_records import settings_from_records
from kinematics.records.settings import (
    FOUND,
    KEY,
    GuidanceSpread,
    KnownSetting,
    RecordFitting,
    SideSpread,
)
from kinematics.records.sought import SIDE_NAMES, SideName
from kinematics.records.spread import spread_of

#: Decimals of settings in a case file: far below any standard error.
_DECIMALS: Final = 4
#: What each setting takes, in the unit told; see `SideGuidance`.
_INCLINATIONS: Final = (0.0, 80.0)
_RADII: Final = (5.0, 100.0)
_SHIFTS: Final[dict[KnownSetting, tuple[float, float]]] = {
    "immediate shift": (0.0, 5.0),
    "progressive shift": (0.0, 45.0),
}
_PATH: Final = ("path", "eminence_radius_mm")

Finder = Callable[[Case], FromRecords]


@dataclass(frozen=True)
class CaseByRecords:
    """A case whose settings are those that its records give.

    Attributes
    ----------
    case : Case
        With the settings found, and their standard errors.
    notes : tuple of str
        What was not taken over as it was found, and why.
    """

    case: Case
    notes: tuple[str, ...]


def case_by_records(case: Case) -> CaseByRecords:
    """Return a case with the settings that its records give.

    What they do not give stays as it is. A shift that no setting takes is set to the nearest that
    one does, and the other is sought anew; a curve that cannot be told from a straight path, or
    that no setting takes, is not taken over.

    Raises
    ------
    InputError
        There are no records, or the settings found contradict the case.
    NotConverged
        Records that no guidance comes near to.
    """
    if not case.interocclusal_records:
        raise InputError(f"the case has no {KEY}, so there is nothing to find settings from")
    return case_by(case, lambda of: settings_from_records(of.recorded), KEY)


def case_by(case: Case, find: Finder, key: str) -> CaseByRecords:
    """Return a case with settings that are found from it; see `case_by_records`.

    Parameters
    ----------
    case : Case
        With what they are found from.
    find : callable
        Finds them, from the case or one that is set otherwise.
    key : str
        What to call it in messages.
    """
    taken, notes = _with_possible_shifts(case, find)
    found = find(taken)
    changes: dict[str, Changed] = {}
    for side in SIDE_NAMES:
        changes |= _shifts_at_limits(case, taken, side)
        mine, told = _changes(found, taken, side)
        changes |= mine
        notes += told
    if not changes:
        raise InputError(f"{key}: nothing follows that could be set; see the reasons")
    start = replace(case, guidance_spread=None)
    try:
        made = changed_case(start, changes)
    except ChangesRefused:
        straight = {path: value for path, value in changes.items() if not path.endswith(_PATH)}
        if straight == changes:
            raise
        notes.append(
            "the curvature found makes a path that no setting takes: the path stays as set"
        )
        made, changes = changed_case(start, straight), straight
    keys = {path.removeprefix("guidance.") for path in changes}
    spread = spread_of(found, made.guidance, keys)
    notes += _less_certain(case.guidance_spread, spread)
    return CaseByRecords(replace(made, guidance_spread=spread), tuple(notes))


def _less_certain(before: GuidanceSpread | None, after: GuidanceSpread | None) -> Iterator[str]:
    """Yield which standard errors the case had that are lost, or become larger."""
    for side in SIDE_NAMES if before else ():
        for name in (field.name for field in fields(SideSpread)):
            had = getattr(getattr(before, side), name)
            now = getattr(getattr(after, side), name) if after else None
            if had is None or name.startswith(FOUND) or (now is not None and now <= had):
                continue
            became = (
                "is lost, since nothing of it follows here" if now is None else f"is now {now:g}"
            )
            yield f"{side} {name}: the case had it with a standard error of {had:g}, which {became}"


def _with_possible_shifts(case: Case, find: Finder) -> tuple[Case, list[str]]:
    """Return the case with shifts that no setting takes at their limits, and known."""
    notes: list[str] = []
    while True:
        found = find(case)
        outside = next(_impossible_shifts(found), None)
        if outside is None:
            return case, notes
        estimate, name, limit = outside
        notes.append(
            f"{estimate.side} {name}: {estimate.value:.2f} {estimate.unit} follow, which no setting"
            f" takes; it is set to {limit:g} {estimate.unit} and the rest is sought with it"
        )
        case = _with_known_shift(case, estimate.side, name, limit)


def _impossible_shifts(found: FromRecords) -> Iterator[tuple[Estimate, KnownSetting, float]]:
    for estimate in found.estimates:
        for name, (least, most) in _SHIFTS.items():
            if estimate.quantity == name and not least <= estimate.value <= most:
                yield estimate, name, least if estimate.value < least else most


def _with_known_shift(case: Case, side: SideName, name: KnownSetting, value: float) -> Case:
    fitting = case.settings_from_records or RecordFitting()
    if side == "right":
        fitting = replace(fitting, right_as_set=(*fitting.right_as_set, name))
    else:
        fitting = replace(fitting, left_as_set=(*fitting.left_as_set, name))
    changed = changed_case(case, _shift_changes(side, name, value))
    return replace(changed, settings_from_records=fitting)


def _shift_changes(side: SideName, name: str, value: float) -> dict[str, Changed]:
    at = f"guidance.{side}"
    if name == "immediate shift":
        return {f"{at}.immediate_shift_mm": value}
    # A Bennett angle is the other way to say it.
    return {
        f"{at}.progressive_shift_deg": value,
        f"{at}.bennett_angle_deg": None,
        f"{at}.bennett_read_at_mm": None,
    }


def _shifts_at_limits(case: Case, taken: Case, side: SideName) -> dict[str, Changed]:
    """Return the shifts that `_with_possible_shifts` has set."""
    before, after = (getattr(of.recorded.fitting, f"{side}_as_set") for of in (case, taken))
    mine = getattr(taken.guidance, side)
    values = {
        "immediate shift": mine.immediate_shift_mm,
        "progressive shift": mine.progressive_shift_deg,
    }
    changes: dict[str, Changed] = {}
    for name in after:
        if name not in before:
            changes |= _shift_changes(side, name, values[name])
    return changes


def _changes(
    found: FromRecords, case: Case, side: SideName
) -> tuple[dict[str, Changed], list[str]]:
    """Return what to change on one side, and what not to take over."""
    changes: dict[str, Changed] = {}
    notes: list[str] = []
    at = f"guidance.{side}"
    for estimate in found.estimates:
        if estimate.side != side:
            continue
        value = round(estimate.value, _DECIMALS)
        if estimate.quantity in _SHIFTS:
            changes |= _shift_changes(side, estimate.quantity, value)
        elif estimate.quantity == "curvature":
            mine, note = _path_changes(estimate)
            changes |= mine
            notes += note
        elif _INCLINATIONS[0] <= value <= _INCLINATIONS[1]:
            changes[f"{at}.condylar_inclination_deg"] = value
        else:
            notes.append(
                f"{side} condylar inclination: {value:.1f} degrees follow, which no setting takes;"
                " it stays as set"
            )
    return changes, notes


def _path_changes(estimate: Estimate) -> tuple[dict[str, Changed], list[str]]:
    at = f"guidance.{estimate.side}"
    if estimate.high < 0.0:
        told = (
            "bends the other way than a curved path can be set to (hollow upward): the path is set"
            " straight; as measured points (cuspway tracks with --measured-paths) it can be set"
        )
        return {f"{at}.path": "straight"}, [f"{estimate.side} curvature: {told}"]
    if estimate.low <= 0.0:
        if estimate.holds_as_set:
            told = "cannot be told from none: the path stays as set"
            return {}, [f"{estimate.side} curvature: {told}"]
        told = "cannot be told from none: the path is set straight"
        return {f"{at}.path": "straight"}, [f"{estimate.side} curvature: {told}"]
    radius_mm = 1.0 / estimate.value
    if not _RADII[0] <= radius_mm <= _RADII[1]:
        return {}, [
            f"{estimate.side} curvature: a radius of {radius_mm:.1f} mm follows, which no setting"
            " takes; the path stays as set"
        ]
    return {
        f"{at}.path": "curved",
        f"{at}.eminence_radius_mm": round(radius_mm, _DECIMALS),
    }, []
