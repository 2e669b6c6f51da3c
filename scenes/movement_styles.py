"""How each movement of the jaw is drawn: its colour, shape of marks and style of line."""

from typing import Final

from kinematics.guidance.excursions import Excursion
from scenes.colours import INK, Style

MI: Final = Style(INK, "x", "-")
PROTRUSION: Final = Style("#0072B2", "^", "-")
RIGHT_LATERAL: Final = Style("#D55E00", "s", (0, (6, 2)))
LEFT_LATERAL: Final = Style("#007A5A", "o", (0, (5, 1, 1, 1)))
RIGHT_BETWEEN: Final = Style("#A6761D", "D", (0, (3, 1)))
LEFT_BETWEEN: Final = Style("#9A5B92", "P", (0, (2, 1, 2, 1)))
BORDER: Final = Style(INK, "p", (0, (8, 2, 2, 2)))
RETRUSION: Final = Style("#56606b", "v", (0, (1, 1)))


def style_of(excursion: Excursion) -> Style:
    """Return the style of an excursion, by its name and, between the main ones, its azimuth."""
    named = {
        "protrusion": PROTRUSION,
        "right lateral": RIGHT_LATERAL,
        "left lateral": LEFT_LATERAL,
        "retrusion": RETRUSION,
        "opening": BORDER,
        "border movement": BORDER,
    }
    if excursion.name in named:
        return named[excursion.name]
    return RIGHT_BETWEEN if excursion.azimuth_deg < 0.0 else LEFT_BETWEEN
