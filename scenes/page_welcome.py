"""What a page is told before it shows anything: cases, controls, colours by role, limits."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

from kinematics import __version__
from kinematics.case import Case
from kinematics.guidance.excursions import RETRUSION, Excursion
from kinematics.lessons.lesson import Lesson
from kinematics.live import RAISED_BITE, movements_of
from kinematics.result_texts import CAUTION
from kinematics.scans.picked_points import points_of
from scenes import colours, movement_styles
from scenes.builtin_cases import builtin_case
from scenes.case_places import case_names
from scenes.page_answers import MAP_LIMIT_MM
from scenes.page_controls import control_groups, hidden_controls, values_for_page
from scenes.page_frames import frame
from scenes.page_lessons import lessons_welcome
from scenes.page_messages import GIVEN_CASE, MOST_OPENING_MM, Show
from scenes.page_results import movement_rows
from scenes.page_trial import trial_of, trial_offered
from scenes.scan_words import PICTURE_WORDS

_STYLES: Final[Mapping[str, colours.Style]] = {
    "MI": movement_styles.MI,
    "protrusion": movement_styles.PROTRUSION,
    "right lateral": movement_styles.RIGHT_LATERAL,
    "left lateral": movement_styles.LEFT_LATERAL,
    "right between": movement_styles.RIGHT_BETWEEN,
    "left between": movement_styles.LEFT_BETWEEN,
    "retrusion": movement_styles.RETRUSION,
}


def welcome(
    first: Show, given: Case | None, given_name: str, lessons: Mapping[str, Lesson]
) -> bytes:
    """Return the message with everything that stays the same while the page is open.

    Parameters
    ----------
    first : Show
        State the page begins with.
    given : Case or None
        The case of the file named on the command line.
    given_name : str
        What it is called on the page.
    lessons : mapping of str to Lesson
        Lessons that can be taken, by their names.
    """
    told = {
        "kind": "welcome",
        "version": __version__,
        "cautions": CAUTION,
        "cases": _cases(given, given_name),
        "controls": control_groups(),
        "trial": trial_offered(),
        "roles": dict(colours.SURFACE),
        "ink": {"ink": colours.INK, "soft": colours.SOFT_INK, "faint": colours.FAINT},
        "severities": dict(colours.SEVERITY_SIGN),
        "gap_scale": colours.GAP_SCALE,
        "map_limit_mm": MAP_LIMIT_MM,
        "opening_most_mm": MOST_OPENING_MM,
        "styles": {
            name: {"colour": style.colour, "shape": style.marker, "dash": _dash(style)}
            for name, style in _STYLES.items()
        },
        "lessons": lessons_welcome(lessons),
        "first": first.model_dump(exclude={"kind", "number", "lesson"}),
    }
    return frame(told)


def _cases(given: Case | None, given_name: str) -> list[Mapping[str, str]]:
    """Return the names, titles and notes of all cases, the one given first."""
    cases = [(given_name, given)] if given else []
    cases += [(name, builtin_case(name)) for name in case_names()]
    return [{"name": name, "title": case.title, "note": case.note} for name, case in cases if case]


def _dash(style: colours.Style) -> list[float]:
    """Return the lengths of strokes and gaps; none for an unbroken line."""
    return [] if style.line == "-" else list(style.line[1])


def _not_offered(movements: Sequence[Excursion]) -> dict[str, dict[str, str]]:
    """Return, by movement and start, why a movement of a case does not start there as well."""
    offered = {(item.name, item.start) for item in movements}
    from_cr = any(item.start == "CR" for item in movements if item != RAISED_BITE)
    why: dict[str, dict[str, str]] = {}
    for name in dict.fromkeys(item.name for item in movements):
        for start in ("MI", "CR"):
            if (name, start) not in offered:
                why.setdefault(name, {})[start] = _why_not(name, from_cr)
    return why


def _why_not(name: str, others_from_cr: bool) -> str:
    if name == RAISED_BITE.name:
        return "The incisal pin raises the bite with the condyles in centric relation (CR)."
    if name == RETRUSION:
        return "Retrusion leads from MI back to centric relation (CR): it ends there."
    if others_from_cr:
        return "From centric relation (CR), protrusion and both lateral excursions are followed."
    return "MI and centric relation (CR) are one position in this case: it is the same from both."


def _scans_words(case: Case) -> list[str]:
    """Return which scans and which mounting are in use; none for built-in teeth."""
    scans = case.scans
    if scans is None:
        return []
    named = scans.names_alone()
    bite = "by a bite record" if scans.scan_from_lower is not None else "as scanned"
    return [
        f"Upper scan: {named.upper}",
        f"Lower scan: {named.lower}",
        f"Mounted by {scans.mounting.kind}; maximal intercuspation (MI) {bite}",
        f"Points on the casts: {len(points_of(scans))}",
        PICTURE_WORDS,
    ]


def case_answer(number: int, name: str, case: Case, changed: Case) -> bytes:
    """Return the message with the settings of an unchanged case, and movements of the changed one.

    Parameters
    ----------
    number : int
        Of the message answered.
    name : str
        Name of the case on the page.
    case : Case
        The case without changes.
    changed : Case
        The case as it is asked for.
    """
    told: dict[str, Any] = {
        "kind": "case",
        "number": number,
        "name": name,
        "title": case.title,
        "note": case.note,
        "given": name.startswith(GIVEN_CASE),
        "values": values_for_page(case),
        "trial": trial_of(case),
        "hidden": hidden_controls(case),
        "scans": _scans_words(case),
        "movements": movement_rows(changed),
        "not_offered": _not_offered(movements_of(changed)),
        "readings_mm": list(case.judging.readings_mm),
    }
    return frame(told)
