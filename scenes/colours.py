"""Colours, marker shapes and line styles by role; nothing is told by colour alone.

The mark colours are those of Okabe and Ito (Color Universal Design, 2008), which stay apart in the
common kinds of colour blindness, the green darker: without red or green vision it would turn to
the grey of a tooth in the shade. Every role has its own shape and line style beside its colour.
"""

from dataclasses import dataclass
from typing import Final, Literal

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
    # Neighbours apart where teeth of a scan are to be checked, and what is not sure.
    "next tooth": "#9fb6c9",
    "doubtful": "#8a4b08",
    "gum": "#e9cdc5",
    "stone": "#f3f1eb",
    "denture base": "#dba7a8",
}

#: Colours of a gap from none to the limit: "cividis" (Nunez, Anderton, Renslow, PLoS ONE 2018;13:
#: e0199239), which reads alike with and without red or green vision; dark is near.
GAP_SCALE: Final = (
    "#00224e", "#002e6a", "#1a386f", "#32436d", "#434e6c", "#535a6d", "#61656f", "#6f7073",
    "#7d7c78", "#8c8878", "#9b9476", "#aba072", "#bcae6c", "#cdbb63", "#dec958", "#f0d846",
    "#fee838",
)  # fmt: skip

#: Colours of a depth to be cut, in steps from shallow to deep: "YlOrRd" (Harrower & Brewer, Cartogr
#: J 2003;40:27-37), from light to dark for every kind of colour vision, without the grey of shade.
CUT_STEPS: Final = (
    "#fed976", "#feb24c", "#fd8d3c", "#fc4e2a", "#e31a1c", "#b10026", "#5c0018",
)  # fmt: skip

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
    line : Line
        Line style.
    """

    colour: str
    marker: str
    line: Line
