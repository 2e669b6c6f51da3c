"""The casts of a case as surveyed, where it asks for that, and what it means."""

from collections.abc import Callable
from typing import TypedDict

from kinematics.case import Case
from kinematics.case_judged import occlusion_of
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.workers import Workers
from kinematics.planning.findings import Finding, first_of_severity
from kinematics.planning.framework import frameworks
from kinematics.planning.surveying.survey import Survey
from kinematics.planning.surveying.survey_findings import survey_findings
from kinematics.planning.surveying.surveys import surveys


class Surveyed(TypedDict):
    """What a survey adds to the results of a case."""

    surveys: tuple[Survey, ...]
    findings: tuple[Finding, ...]


def surveyed_case(
    case: Case,
    casts: MountedCasts,
    findings: tuple[Finding, ...],
    progress: Callable[[str], None],
) -> Surveyed:
    """Survey the casts that a case asks for.

    Parameters
    ----------
    case, casts
        The case, and its teeth, mounted.
    findings : tuple of Finding
        What was found of it, gravest first.
    progress : callable
        Gets the name of the step when it begins.

    Returns
    -------
    Surveyed
        Surveys, and all findings with theirs, after the others of their severity.
    """
    if case.survey is None:
        return {"surveys": (), "findings": findings}
    progress("surveying the casts along the path of insertion")
    occlusion = occlusion_of(case, casts, Workers())
    found = surveys(occlusion, frameworks(occlusion), case.survey)
    more = survey_findings(occlusion, found)
    return {"surveys": found, "findings": first_of_severity(more, findings)}
