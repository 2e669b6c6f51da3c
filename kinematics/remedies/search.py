"""For a flagged tooth the smallest single change of each kind that clears it."""

from collections.abc import Callable, Iterable
from typing import Final, Literal

from kinematics.checks import InputError
from kinematics.planning.remedies.flagged import flags_of
from kinematics.planning.remedies.found import Remedy, ToothRemedies
from kinematics.remedies.adjusting import adjust
from kinematics.remedies.amounts import Smallest, between, smallest
from kinematics.remedies.made import Kind, made_remedy
from kinematics.remedies.steepening import STEP_MM as STEEPEN_MM
from kinematics.remedies.steepening import guides_for, lifted_poses, steepest_needed
from kinematics.remedies.subject import FlaggedTooth, Subject, flagged_tooth, wanted_in
from kinematics.trial.settings import Change

#: An amount smaller by this does not help.
STEP_MM: Final = 0.01
STEP_DEG: Final = 0.1
#: Tilts are tried so many steps apart, then in between.
_SCAN: Final = 5

_WAYS: Final = (
    ("mesial_deg", 1.0),
    ("mesial_deg", -1.0),
    ("facial_deg", 1.0),
    ("facial_deg", -1.0),
)
_DONE: Final = {"lower": "lowered", "flatten": "flattened"}


def remedies_for(subject: Subject, teeth: Iterable[int]) -> tuple[ToothRemedies, ...]:
    """Search for each of some teeth.

    Parameters
    ----------
    subject : Subject
        The case as it is.
    teeth : iterable of int
        ISO 3950 numbers.

    Raises
    ------
    InputError
        A tooth that is not there.
    """
    return tuple(_remedies(subject, tooth) for tooth in teeth)


def _remedies(subject: Subject, tooth: int) -> ToothRemedies:
    _ = subject.occlusion.tooth(tooth)  # refuses one that is not there
    flags = flags_of(subject.found.findings, tooth)
    wanted = wanted_in(subject, tooth)
    margin_mm = max((one.most_mm for one in wanted), default=subject.case.remedies.margin_mm)

    def told(note: str, remedies: tuple[Remedy, ...] = ()) -> ToothRemedies:
        return ToothRemedies(tooth, margin_mm, flags, note, remedies)

    if not wanted:
        return told("by its scheme this tooth may touch wherever it does: nothing is to be cleared")
    subject.progress(f"remedies for {tooth}: following excursions without it")
    try:
        flagged = flagged_tooth(subject, tooth, wanted)
    except InputError:
        return told("without it nothing meets in MI: it cannot be judged what it would have to do")
    if flagged.lost:
        return told(f"{flagged.lost}: there it has to guide, and cannot clear")
    if flagged.judge.too_near(flagged.mesh) is None:
        return told("it is clear as it is")
    found = (
        _by_mm(flagged, "lower"),
        _by_mm(flagged, "flatten"),
        _tilted(flagged),
        _steepened(flagged),
        adjust(flagged),
    )
    return told("", found)


def _by_mm(flagged: FlaggedTooth, kind: Literal["lower", "flatten"]) -> Remedy:
    """Search for how far a tooth must be lowered or flattened."""
    subject, tooth = flagged.subject, flagged.tooth
    subject.progress(f"remedies for {tooth}: how far it would have to be {_DONE[kind]}")
    limit = subject.case.remedies.most_mm

    def make(steps: int) -> tuple[Change, ...]:
        return (Change(kind, tooth, by_mm=round(steps * STEP_MM, 4)),)

    def does(steps: int) -> bool:
        return flagged.judge.clears(subject.changed_mesh(make(steps)[0]))

    found = smallest(does, round(limit / STEP_MM), 4)
    return made_remedy(flagged, Kind(kind, "mm", STEP_MM, limit, make), found)


def _tilted(flagged: FlaggedTooth) -> Remedy:
    """Search in four directions for the least tilt."""
    subject, tooth = flagged.subject, flagged.tooth
    subject.progress(f"remedies for {tooth}: how far it would have to be tilted")
    limit = subject.case.remedies.most_tilt_deg
    most = round(limit / STEP_DEG)
    best: int | None = None
    way = _WAYS[0]
    for name, sign in _WAYS:

        def does(steps: int, name: str = name, sign: float = sign) -> bool:
            return flagged.judge.clears(subject.changed_mesh(_tilt(tooth, name, sign, steps)))

        found = _least_tilt(does, most if best is None else best - 1)
        if found is not None:
            best, way = found, (name, sign)

    def make(steps: int) -> tuple[Change, ...]:
        return (_tilt(tooth, *way, steps),)

    kind = Kind("tilt", "deg", STEP_DEG, limit, make)
    return made_remedy(flagged, kind, Smallest(best, most))


def _tilt(tooth: int, name: str, sign: float, steps: int) -> Change:
    return Change("tilt", tooth, **{name: sign * round(steps * STEP_DEG, 4)})


def _least_tilt(does: Callable[[int], bool], most: int) -> int | None:
    """Return the least tilt that does: more need not do where less does, so all are scanned."""
    fails = 0
    for tries in [*range(_SCAN, most, _SCAN), most]:
        if tries <= fails:
            continue
        if does(tries):
            return between(does, fails, tries)
        fails = tries
    return None


def _steepened(flagged: FlaggedTooth) -> Remedy:
    """Search for how much the guides of the excursions in question must be built up."""
    subject, tooth = flagged.subject, flagged.tooth
    subject.progress(f"remedies for {tooth}: how much its guides would have to be built up")
    guides, limit = guides_for(flagged), subject.case.remedies.most_added_mm
    if guides.reason:
        kind = Kind("steepen", "mm", STEEPEN_MM, limit, guides.changes)
        return made_remedy(flagged, kind, Smallest(None, 0, guides.reason))
    guides, found = steepest_needed(flagged, guides, limit)
    kind = Kind("steepen", "mm", STEEPEN_MM, limit, guides.changes)
    poses = None if found.tried == 0 else lifted_poses(flagged, guides, found.tried)
    return made_remedy(flagged, kind, found, poses)
