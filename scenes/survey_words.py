"""The survey of a cast as the report tells it: sentences and tables."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.planning.surveying.survey import KEPT_FREE_MM, Survey, SurveyedSide, SurveyedTooth
from kinematics.planning.surveying.survey_rules import ENAMEL_SOURCE, MOST_CUT_MM, SURVEY_RULES
from kinematics.planning.surveying.tilt_search import CRITERION
from kinematics.planning.wording import enumeration
from kinematics.table_cells import coordinates
from scenes import colours
from scenes.phrases import degrees, number
from scenes.report_tables import Table

_NONE: Final = "–"
#: How exactly a tilt is told.
_LEVEL_DEG: Final = 0.05


@dataclass(frozen=True)
class SurveyWords:
    """What is said of one surveyed cast.

    Attributes
    ----------
    title, lead : str
        Its name; its tilt and path.
    teeth : Table
        Undercuts, side by side.
    guides : Table
        Proximal surfaces that face bases; without rows there are none.
    rests : Table
        Rests against the path; without rows there are none.
    tripod : Table
        Tripod marks.
    mucosa : str
        Undercut of gums, ridge and palate; empty where there is none.
    description : str
        The picture in words.
    is_upper : bool
        Which cast.
    """

    title: str
    lead: str
    teeth: Table
    guides: Table
    rests: Table
    tripod: Table
    mucosa: str
    description: str
    is_upper: bool


@dataclass(frozen=True)
class SurveySection:
    """The section: casts, and how severe what is."""

    casts: tuple[SurveyWords, ...]
    rules: Table
    enamel: str


def survey_section(surveys: Sequence[Survey]) -> SurveySection | None:
    """Return the section; None where no cast is surveyed."""
    if not surveys:
        return None
    signs = colours.SEVERITY_SIGN
    rules = tuple(
        (f"{signs[rule.severity]} {rule.severity}", rule.kind, rule.text, rule.source)
        for rule in SURVEY_RULES
    )
    return SurveySection(
        tuple(_words(survey) for survey in surveys),
        Table(("severity", "what is found", "when", "source"), rules),
        f"{ENAMEL_SOURCE[0].upper()}{ENAMEL_SOURCE[1:]}.",
    )


def _words(survey: Survey) -> SurveyWords:
    return SurveyWords(
        title=f"{survey.side.capitalize()} cast",
        lead=f"{_tilt(survey)} {_search(survey)}".strip(),
        teeth=_teeth(survey),
        guides=_guides(survey),
        rests=_rests(survey),
        tripod=_tripod(survey),
        mucosa=_mucosa(survey),
        description=_description(survey),
        is_upper=survey.is_upper,
    )


def _tilt(survey: Survey) -> str:
    """Say how the cast is tilted, standing with its teeth up."""
    forward, left = survey.forward_deg, survey.left_deg
    ways = []
    if abs(forward) >= _LEVEL_DEG:
        ways.append(f"front {'lowered' if forward > 0.0 else 'raised'} by {degrees(abs(forward))}")
    if abs(left) >= _LEVEL_DEG:
        side = "left" if left > 0.0 else "right"
        ways.append(f"the patient's {side} side lowered by {degrees(abs(left))}")
    how = "as found" if survey.search else "as given"
    if not ways:
        square = "the path of insertion is square to the occlusal plane of the arch"
        return f"Tilt ({how}): none; {square}."
    return (
        f"Tilt from the occlusal plane of the arch ({how}), the cast standing with its teeth up:"
        f" {enumeration(ways)}."
    )


def _search(survey: Survey) -> str:
    found = survey.search
    if found is None:
        return ""
    return (
        f"{found.tilts} tilts were compared. What a tilt costs: {CRITERION}. This one costs"
        f" {number(found.cost_mm, 2)} mm, no tilt {number(found.level_cost_mm, 2)} mm."
    )


def _teeth(survey: Survey) -> Table:
    head = (
        "tooth, side",
        "survey line above the border of the crown",
        f"undercut of the outline, at least {KEPT_FREE_MM:g} mm above the border",
        "deepest undercut anywhere on the side",
        "0.25 / 0.50 / 0.75 mm gauges touch below the survey line at",
        "use",
    )
    rows = tuple(
        (
            f"{tooth.tooth} {side.side}",
            f"{number(side.line_above_border_mm, 1)} mm",
            f"{number(side.usable_mm, 2)} mm",
            f"{number(side.deepest_mm, 2)} mm",
            _gauges(side),
            _use(survey, tooth, side),
        )
        for tooth in survey.teeth
        for side in tooth.sides
        if side.side in ("facial", "lingual") or side.faces_base
    )
    return Table(head, rows)


def _gauges(side: SurveyedSide) -> str:
    return " / ".join(
        _NONE if gauge.below_line_mm is None else f"{number(gauge.below_line_mm, 1)} mm"
        for gauge in side.gauges
    )


def _use(survey: Survey, tooth: SurveyedTooth, side: SurveyedSide) -> str:
    if side.faces_base:
        deep = side.usable_mm >= 0.05
        return "faces the base: blocked out or cut below the line" if deep else "faces the base"
    if not tooth.clasped:
        return _NONE
    if side is not tooth.retentive:
        return "reciprocal arm"
    enough = side.usable_mm >= survey.undercut_mm
    return "clasp: undercut as wanted" if enough else "clasp: less than wanted"


def _guides(survey: Survey) -> Table:
    head = (
        "tooth, surface",
        "faces base",
        f"parallel within {degrees(survey.guide_plane_deg)}: height, width",
        "lean from the path",
        f"cut for {number(survey.guide_plane_height_mm, 1)} mm of height",
        f"no deeper than {MOST_CUT_MM:g} mm?",
    )
    rows = []
    for guide in survey.guides:
        lean = f"{degrees(abs(guide.lean_deg))}, {_lean_words(guide.lean_deg)}"
        if guide.cut_mm is None:
            cut, reach = "the crown is too low", "–"
        else:
            cut = f"{number(guide.cut_mm, 2)} mm"
            reach = "yes" if guide.cut_mm <= MOST_CUT_MM else "no"
        rows.append(
            (
                f"{guide.tooth} {guide.side}",
                f"{guide.base}{' (assumed)' if guide.assumed else ''}",
                f"{number(guide.height_mm, 1)} mm, {number(guide.width_mm, 1)} mm",
                lean,
                cut,
                reach,
            )
        )
    return Table(head, tuple(rows))


def _lean_words(lean_deg: float) -> str:
    if abs(lean_deg) < _LEVEL_DEG:
        return "parallel"
    return "opens towards the bite" if lean_deg > 0.0 else "undercuts"


def _rests(survey: Survey) -> Table:
    head = ("rest", "its press, along the axis of the tooth, is off the path by")
    rows = tuple((f"{r.tooth} {r.place}", degrees(r.off_path_deg)) for r in survey.rests)
    return Table(head, rows)


def _tripod(survey: Survey) -> Table:
    frame = coordinates(survey.is_upper)
    head = ("tripod mark", *(f"{axis} ({frame})" for axis in "xyz"))
    rows = tuple(
        (str(k), *(f"{number(value, 2)} mm" for value in mark))
        for k, mark in enumerate(survey.tripod, start=1)
    )
    return Table(head, rows)


def _mucosa(survey: Survey) -> str:
    if survey.soft is None:
        return ""
    return (
        f"Gums, ridge and palate undercut the path by up to {number(survey.soft.deepest_mm, 2)} mm,"
        f" by 0.25 mm or more over {number(survey.soft.area_mm2, 0)} mm²: rigid parts are relieved"
        " there, or the path is tilted."
    )


def _description(survey: Survey) -> str:
    clasped = [tooth.tooth for tooth in survey.teeth if tooth.clasped]
    told = f"The {survey.side} cast along the path of insertion with survey lines"
    return f"{told}; clasped teeth: {enumeration(clasped)}." if clasped else f"{told}."
