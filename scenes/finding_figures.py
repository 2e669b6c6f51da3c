"""Figures of findings, looked up by how their names begin."""

from collections.abc import Iterable
from typing import Final

from kinematics.planning.findings import Finding

HEIGHT: Final = "height along the closing arc"
LEAST_GAP: Final = "least distance"
RAISED: Final = "drop of the lower incisal point"
SLIDE_LENGTH: Final = "length of the slide"


def amount_mm(findings: Iterable[Finding], name: str) -> float:
    """Return the figure that matters most: the least of gaps, the greatest of all else; 0 for none.

    Parameters
    ----------
    findings : iterable of Finding
        Findings that say the same.
    name : str
        How the figure's name begins; nothing for no figure.
    """
    values = [
        item.value
        for finding in findings
        for item in finding.figures
        if name and item.name.startswith(name) and item.unit == "mm"
    ]
    if not values:
        return 0.0
    return min(values) if name == LEAST_GAP else max(values)
