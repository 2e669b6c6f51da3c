"""The casts of a case as surveyed, and its wax-ups, where it asks for that, and what it means."""

from collections.abc import Callable, Iterable, Iterator
from typing import TypedDict

from kinematics.case import Case
from kinematics.case_judged import occlusion_of
from kinematics.casts.casts import Arch
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.workers import Workers
from kinematics.planning.findings import Finding, first_of_severity
from kinematics.planning.framework import frameworks
from kinematics.planning.surveying.survey import Survey
from kinematics.planning.surveying.survey_findings import survey_findings
from kinematics.planning.surveying.surveys import surveys
from kinematics.planning.wax_up import WaxUp, changed_crowns, wax_up
from kinematics.scans.settings import WAX_UP_KEYS
from kinematics.scans.wax_up_scans import waxed_scans
from kinematics.tooth_codes import is_upper


class Surveyed(TypedDict):
    """What surveys and wax-ups add to the results of a case."""

    surveys: tuple[Survey, ...]
    wax_ups: tuple[WaxUp, ...]
    findings: tuple[Finding, ...]


def surveyed_case(
    case: Case,
    casts: MountedCasts,
    findings: tuple[Finding, ...],
    progress: Callable[[str], None],
    changed: Iterable[tuple[Arch, Arch]] = (),
) -> Surveyed:
    """Survey the casts that a case asks for, and compare wax-ups with their casts.

    Parameters
    ----------
    case, casts
        The case, and its teeth, mounted.
    findings : tuple of Finding
        What was found of it, gravest first.
    progress : callable
        Gets the name of the step when it begins.
    changed : iterable of (Arch, Arch), optional
        Arches before and after changes of their teeth, each pair in the same coordinates.

    Returns
    -------
    Surveyed
        Surveys, wax-ups, and all findings with theirs, after the others of their severity.

    Raises
    ------
    InputError
        A wax-up that cannot be read, or does not lie on its cast.
    """
    by_changes = (
        changed_crowns(before, after, is_upper=is_upper(after.codes[0]))
        for before, after in changed
    )
    waxed = (*_wax_ups(case, progress), *by_changes)
    if case.survey is None:
        return {"surveys": (), "wax_ups": waxed, "findings": findings}
    progress("surveying the casts along the path of insertion")
    occlusion = occlusion_of(case, casts, Workers())
    found = surveys(occlusion, frameworks(occlusion), case.survey)
    more = survey_findings(occlusion, found)
    return {
        "surveys": found,
        "wax_ups": waxed,
        "findings": first_of_severity(more, findings),
    }


def _wax_ups(case: Case, progress: Callable[[str], None]) -> Iterator[WaxUp]:
    """Yield wax-ups of scanned casts against their originals."""
    if case.scans is None:
        return
    for scan in waxed_scans(case.scans, case.guidance.reference_plane, progress):
        progress(f"comparing {scan.name} with the {scan.side} cast")
        upper = scan.side == "upper"
        where = f"scans.{WAX_UP_KEYS[scan.side]}"
        yield wax_up(
            scan.original, scan.codes, scan.waxed, is_upper=upper, name=scan.name, where=where
        )
