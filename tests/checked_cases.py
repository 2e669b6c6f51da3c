"""Whole runs of coarse cases for tests of what is printed about them, made once a process."""

from functools import cache

from kinematics.case_file import parse_case
from kinematics.checkup import run

_COARSE = "dentition.triangles_per_arch = 10000\nsweep.step_mm = 0.2\n"
_TEXTS = {
    # A distal-extension base against an over-erupted tooth: replacement teeth in the way.
    "replaced": """
        dentition.over_erupted_mm = { 46 = 1.2 }
        [[denture_bases]]
        name = "upper right base"
        teeth = [15, 16, 17]
        abutments = [14, 13]
        """,
    # Teeth lost on both sides, one of them replaced on a balanced base without abutment.
    "lost": """
        dentition.missing = [36, 37, 46]
        judging.scheme = "balanced"
        judging.record_scatter_mm = 0.3
        [[denture_bases]]
        name = "lower right base"
        teeth = [47]
        scheme = "balanced"
        """,
    # Everything in place, MI in CR.
    "natural": """
        maximal_intercuspation.advance_right_mm = 0.0
        maximal_intercuspation.advance_left_mm = 0.0
        """,
    # Everything in place, MI ahead of CR, the bite to be raised on the pin.
    "raised": """
        pin_opening_mm = 3.0
        maximal_intercuspation.advance_right_mm = 0.5
        maximal_intercuspation.advance_left_mm = 0.5
        """,
}
NAMES = tuple(_TEXTS)


@cache
def checked(name):
    """Return a case and what was found about it."""
    case = parse_case(_COARSE + _TEXTS[name], name)
    return case, run(case, lambda step: None, 1)
