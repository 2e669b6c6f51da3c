"""Cuspway from Python: from a case to findings, figures and pictures.

Everything named here stays as it is described; the packages `kinematics` and `scenes` behind it may
change from version to version. Millimetres, newtons, degrees in settings and readings, radians
elsewhere; hinge frame (x anterior, y to the patient's left, z superior), as DEVELOPERS.md says.

A planning and teaching aid, not a medical device.
"""

from collections.abc import Callable
from pathlib import Path

from kinematics import __version__
from kinematics import checkup as _checkup
from kinematics.case import Case
from kinematics.case_changes import changed_case
from kinematics.checks import InputError, NotConverged, in_range
from kinematics.checkup_result import Checkup
from kinematics.contact.workers import Workers
from kinematics.examining import not_asked
from kinematics.lessons.moment import Moment, moment_at
from kinematics.lessons.readings import KINDS
from kinematics.lessons.readings import reading as _reading
from kinematics.live import RAISED_BITE, movement_named, pose_asked_for
from kinematics.mounting import mounted_casts
from kinematics.planning.findings import Finding
from scenes import case_places
from scenes import check_command as _check_command
from scenes.drawing_processes import InLine
from scenes.given_case import find_case

__all__ = [
    "Case",
    "Checkup",
    "Finding",
    "InputError",
    "Moment",
    "NotConverged",
    "__version__",
    "case",
    "case_names",
    "changed_case",
    "moment",
    "picture",
    "read",
    "readings",
    "report",
    "run",
]


#: As far as `cuspway film` and `cuspway view` go.
_FARTHEST_MM = 12.0


def case_names() -> list[str]:
    """Return the names of the built-in cases."""
    return case_places.case_names()


def case(name: str | Path) -> Case:
    """Return a case.

    Parameters
    ----------
    name : str or Path
        Name of a built-in case, a case file (TOML), or a folder with a `case.toml`.

    Raises
    ------
    InputError
        There is none, or it cannot be used; all faults in one message.
    """
    return find_case(str(name))


def run(
    case: Case,
    *,
    threads: int = 1,
    planning: bool = False,
    progress: Callable[[str], None] = not_asked,
) -> Checkup:
    """Take a case through its excursions and say what was found.

    Parameters
    ----------
    case : Case
        See `case`.
    threads : int
        How many threads may compute; the result does not depend on it.
    planning : bool
        Whether what a plan rests on is told as well: loads, border movements, occlusal plane,
        survey, room for rests and crowns, remedies. It takes more than half of the time.
    progress : callable
        Gets the name of every step when it begins.

    Returns
    -------
    Checkup
        `findings` (gravest first), `verdicts` (what guides), `stops`, `slide`, `sweeps`, ...

    Raises
    ------
    InputError
        Settings that cannot be used together.
    NotConverged
        A dentition that does not settle.
    """
    return _checkup.run(case, progress, threads, planning=planning)


def report(case: Case, folder: str | Path, *, threads: int = 1) -> None:
    """Write what `cuspway check` writes: report, findings and tables.

    Parameters
    ----------
    case : Case
        See `case`.
    folder : str or Path
        Appears when everything in it is written; an earlier result in it is replaced.
    threads : int
        How many threads may compute; what is written does not depend on it.

    Raises
    ------
    InputError
        The case or the folder cannot be used.
    """
    _check_command.check(case, Path(folder), not_asked, threads, InLine())


def moment(case: Case, movement: str, travel_mm: float, *, start: str = "MI") -> Moment:
    """Return the closed jaw at one place of a movement.

    Parameters
    ----------
    case : Case
        See `case`.
    movement : str
        "protrusion", "right lateral", "left lateral", "lateroprotrusion -45" (to the right, 45 to
        the left), "retrusion", or "raised bite" (by `pin_opening_mm`).
    travel_mm : float
        Horizontal travel of the lower incisal point from the start, 0 to 12. Where the path ends
        before, its last place is returned: `at.travel_mm` says how far that is.
    start : str
        "MI" or "CR".

    Returns
    -------
    Moment
        `at.pose` is hinge_from_lower (4, 4); `at.patches` are the contacts; see also `read`.

    Raises
    ------
    InputError
        The case has no such movement, or nothing meets at its start.
    """
    movement_asked = movement_named(case, movement, start)
    travel_mm = in_range(travel_mm, "travel_mm", 0.0, _FARTHEST_MM, "mm")
    casts, workers = mounted_casts(case), Workers()
    return moment_at(
        case, casts, pose_asked_for(case, casts, movement_asked, travel_mm, workers), workers
    )


def readings() -> dict[str, str]:
    """Return the names of all readings with what they mean.

    In place of TOOTH stands an ISO 3950 number, of SIDE right or left, of MM a travel.
    """
    return {
        kind.form: f"{kind.meaning} {f'In {kind.unit}.' if kind.unit else ''}".strip()
        for kind in KINDS
    }


def read(at: Moment, name: str) -> float | str:
    """Read a figure or words at a moment.

    Parameters
    ----------
    at : Moment
        See `moment`.
    name : str
        A reading, as "gap of 47", "drop of the right condyle" or "guidance at 3 mm"; see
        `readings`.

    Returns
    -------
    float or str
        Millimetres, degrees, newtons or newton millimetres, as `readings` says; or words.

    Raises
    ------
    InputError
        There is no such reading, or these teeth do not have it.
    """
    if not isinstance(at, Moment):
        raise InputError(f"read: what is read is a moment, not a {type(at).__name__}; see `moment`")
    return _reading(name).of(at)


def picture(at: Moment, path: str | Path, *, views: tuple[str, ...] = ("right", "upper")) -> None:
    """Draw the casts at a moment: teeth coloured by their gaps, contacts, a scale (PNG).

    Parameters
    ----------
    at : Moment
        See `moment`; not a raised bite.
    path : str or Path
        New file.
    views : tuple of str
        One or two of "front", "right", "left", "upper", "lower", side by side.

    Raises
    ------
    InputError
        The file is there already, or there is no such view.
    """
    from scenes.still_picture import still_picture  # fetches the drawing libraries

    if Path(path).suffix.lower() != ".png":
        raise InputError(f"picture: {path}: pictures are written as PNG; let the name end in .png")
    if at.excursion == RAISED_BITE:
        raise InputError("picture: a raised bite is no movement that can be drawn so")
    still_picture(at.case, at.casts, at.excursion, at.at.travel_mm, Path(path), views)
