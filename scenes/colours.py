"""Colours, marker shapes and line styles by role; nothing is told by colour alone.

The mark colours are those of Okabe and Ito (Color Universal Design, 2008), which stay apart in the
common kinds of colour blindness; every role has its own shape and line style beside its colour.
"""

from dataclasses import dataclass
from typing import Final, Literal

from kinematics.guidance.excursions import Excursion
from kinematics.planning.findings import Severity

INK: Final = "#1c1f24"
SOFT_INK: Final = "#5b626c"
FAINT: Final = "#c9ced6"
PAPER: Final = "#ffffff"

#: Surfaces of a three-dimensional picture, by role of the part.
SURFACE: Final = {
    "upper tooth": "#efe6d2",
    "lower tooth": "#efe6d2",
    "replacement tooth": "#c3d3dc",
    "gum": "#d9a9a3",
}

SEVERITY_SIGN: Final[dict[Severity, str]] = {"serious": "■", "attention": "▲", "note": "○"}


#: A line style of matplotlib: an offset, and the lengths of strokes and gaps (none: unbroken).
Line = tuple[float, tuple[float, ...]] | Literal["-"]


@dataclass(frozen=True)
class Style:
    """How one role is drawn.

    Attributes
    ----------
    colour : str
        Hexadecimal colour.
    marker : str
        Marker of matplotlib.
    shape : str
        The marker in words, for legends and captions.
    line : Line
        Line style.
    """

    colour: str
    marker: str
    shape: str
    line: Line


MI: Final = Style(INK, "x", "cross", "-")
PROTRUSION: Final = Style("#0072B2", "^", "triangle", "-")
RIGHT_LATERAL: Final = Style("#D55E00", "s", "square", (0, (6, 2)))
LEFT_LATERAL: Final = Style("#009E73", "o", "circle", (0, (5, 1, 1, 1)))
RIGHT_BETWEEN: Final = Style("#A6761D", "D", "diamond", (0, (3, 1)))
LEFT_BETWEEN: Final = Style("#9A5B92", "P", "plus", (0, (2, 1, 2, 1)))
RETRUSION: Final = Style("#56606b", "v", "triangle on its tip", (0, (1, 1)))


def style_of(excursion: Excursion) -> Style:
    """Return the style of an excursion, by its name and, between the main ones, its azimuth."""
    named = {
        "protrusion": PROTRUSION,
        "right lateral": RIGHT_LATERAL,
        "left lateral": LEFT_LATERAL,
        "retrusion": RETRUSION,
    }
    if excursion.name in named:
        return named[excursion.name]
    return RIGHT_BETWEEN if excursion.azimuth_deg < 0.0 else LEFT_BETWEEN
