"""What the survey of a cast means, as findings."""

from collections.abc import Iterable, Iterator
from typing import Final

from kinematics.planning.findings import Figure, Finding, margin_to
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.surveying.survey import Survey, SurveyedGuide, SurveyedTooth
from kinematics.planning.surveying.survey_rules import (
    MOST_CUT_MM,
    NO_UNDERCUT,
    SOFT_UNDERCUT,
    SURVEY_RULES,
    TO_BE_CUT,
    TOO_DEEP,
)
from kinematics.planning.tooth_findings import rule_for, tooth_finding

_PATH: Final = "along the path of insertion"


def survey_findings(occlusion: Occlusion, surveys: Iterable[Survey]) -> tuple[Finding, ...]:
    """Return what surveys mean, cast by cast: clasps, guide planes, mucosa.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    surveys : iterable of Survey
        What was found of them.
    """
    return tuple(finding for survey in surveys for finding in _of(occlusion, survey))


def _of(occlusion: Occlusion, survey: Survey) -> Iterator[Finding]:
    for tooth in survey.teeth:
        if tooth.clasped and tooth.retentive.usable_mm < survey.undercut_mm:
            yield _no_undercut(occlusion, survey, tooth)
    for guide in survey.guides:
        if guide.height_mm < survey.guide_plane_height_mm:
            yield _guide(occlusion, survey, guide)
    if survey.soft is not None:
        least = Figure("smallest undercut gauge", 0.25, "mm")
        deepest = survey.soft.deepest_mm
        yield tooth_finding(
            occlusion,
            rule_for(SURVEY_RULES, SOFT_UNDERCUT),
            f"the mucosa of the {survey.side} cast undercuts the path of insertion by up to"
            f" {deepest:.2f} mm: rigid parts of a framework are relieved there",
            figures=(
                Figure("greatest undercut of the mucosa", deepest, "mm"),
                Figure("mucosa that undercuts by 0.25 mm or more", survey.soft.area_mm2, "mm2"),
            ),
            threshold=least,
            margin=margin_to(deepest, least),
        )


def _no_undercut(occlusion: Occlusion, survey: Survey, tooth: SurveyedTooth) -> Finding:
    wanted = Figure("wanted undercut", survey.undercut_mm, "mm")
    facial, lingual = tooth.side("facial").usable_mm, tooth.side("lingual").usable_mm
    return tooth_finding(
        occlusion,
        rule_for(SURVEY_RULES, NO_UNDERCUT),
        f"the clasp on {tooth.tooth} finds no undercut of {survey.undercut_mm:.2f} mm {_PATH}:"
        f" {facial:.2f} mm facially and {lingual:.2f} mm lingually, 1 mm above the border of the"
        " crown",
        tooth=tooth.tooth,
        figures=(
            Figure("usable undercut, facial", facial, "mm"),
            Figure("usable undercut, lingual", lingual, "mm"),
        ),
        threshold=wanted,
        margin=margin_to(tooth.retentive.usable_mm, wanted),
    )


def _guide(occlusion: Occlusion, survey: Survey, guide: SurveyedGuide) -> Finding:
    most = Figure("most that is cut", MOST_CUT_MM, "mm")
    wanted = survey.guide_plane_height_mm
    start = (
        f"the {guide.side} surface of {guide.tooth}, towards base '{guide.base}', is parallel to"
        f" the path of insertion within {survey.guide_plane_deg:g} degrees over"
        f" {guide.height_mm:.1f} mm of height; a guide plane of {wanted:g} mm"
    )
    figures = [
        Figure("height of the surface that guides", guide.height_mm, "mm"),
        Figure("lean from the path of insertion", guide.lean_deg, "deg"),
    ]
    if guide.cut_mm is None:
        return tooth_finding(
            occlusion,
            rule_for(SURVEY_RULES, TOO_DEEP),
            f"{start} finds no room, the crown is too low",
            tooth=guide.tooth,
            figures=tuple(figures),
            threshold=most,
        )
    deep = guide.cut_mm > MOST_CUT_MM
    return tooth_finding(
        occlusion,
        rule_for(SURVEY_RULES, TOO_DEEP if deep else TO_BE_CUT),
        f"{start} needs {guide.cut_mm:.2f} mm cut from the tooth"
        f"{f', more than {MOST_CUT_MM:g} mm' if deep else ''}",
        tooth=guide.tooth,
        figures=(*figures, Figure("cut for the wanted height", guide.cut_mm, "mm")),
        threshold=most,
        margin=margin_to(guide.cut_mm, most),
    )
