"""What a survey means: one table, each row with its source."""

from typing import Final, Literal

from kinematics.planning.tooth_findings import FindingRule

SurveyKind = Literal[
    "clasp without a usable undercut",
    "guide plane too deep to cut",
    "guide plane to be cut",
    "mucosa undercuts the path of insertion",
]

NO_UNDERCUT: Final[SurveyKind] = "clasp without a usable undercut"
TOO_DEEP: Final[SurveyKind] = "guide plane too deep to cut"
TO_BE_CUT: Final[SurveyKind] = "guide plane to be cut"
SOFT_UNDERCUT: Final[SurveyKind] = "mucosa undercuts the path of insertion"

#: No guide plane is cut deeper, mm.
MOST_CUT_MM: Final = 0.5
ENAMEL_SOURCE: Final = (
    "proximal enamel of upper first premolars is 1.22 mm thick mesially (s.d. 0.18) and 1.28 to"
    " 1.39 mm distally (Munhoz 2012), that of lower second molars 0.3 to 0.4 mm thicker than that"
    " of premolars (Stroud et al., Angle Orthod 1998;68:141-146); at most 0.5 mm of it is cut"
    " (chosen for this program). These are figures of groups of people, not of this tooth: a"
    " planning aid; the clinician decides"
)


#: How grave it is; printed in the report as it stands here.
SURVEY_RULES: Final[tuple[FindingRule[SurveyKind], ...]] = (
    FindingRule(
        NO_UNDERCUT,
        "attention",
        "neither the facial nor the lingual outline of a clasped tooth undercuts by as much as is"
        " wanted, at least 1 mm above the border of the crown",
        "common practice: 0.25 mm for cast cobalt-chromium, 0.50 mm for wrought wire; the distance"
        " from the border is chosen for this program",
    ),
    FindingRule(
        TOO_DEEP,
        "attention",
        f"a guide plane of the wanted height needs more than {MOST_CUT_MM:g} mm cut from the tooth,"
        " or the crown is too low for it",
        ENAMEL_SOURCE,
    ),
    FindingRule(
        TO_BE_CUT,
        "note",
        "the surface that is parallel to the path, within the limit, is lower than wanted"
        f", but no more than {MOST_CUT_MM:g} mm must be cut",
        ENAMEL_SOURCE,
    ),
    FindingRule(
        SOFT_UNDERCUT,
        "note",
        "gums, ridge or palate undercut the path by 0.25 mm or more: rigid parts are relieved"
        " there",
        "common practice",
    ),
)
