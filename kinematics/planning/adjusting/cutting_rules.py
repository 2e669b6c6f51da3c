"""Rules of the trade: which surface is cut, in which order, and how thick enamel is.

One readable table; the first row that fits a contact decides.
"""

from dataclasses import dataclass
from typing import Final, Literal

High = Literal[
    "a replacement tooth",
    "in MI and in excursions",
    "in MI alone",
    "in excursions alone, front teeth",
    "in excursions alone, nonworking side",
    "in excursions alone, working side",
    "in excursions alone, protrusion",
]


@dataclass(frozen=True)
class CuttingRule:
    """One row.

    Attributes
    ----------
    high : str
        Where a contact is too high.
    cut : str
        Which surface is cut then.
    why : str
        What that keeps.
    order : int
        Which is cut first, from 1.
    source : str
        Where the rule comes from.
    """

    high: High
    cut: str
    why: str
    order: int
    source: str


_PRACTICE: Final = "common practice"

# fmt: off
CUTTING_RULES: Final[tuple[CuttingRule, ...]] = (
    CuttingRule("a replacement tooth", "the replacement tooth",
                "no tooth structure is lost", 1, _PRACTICE),
    CuttingRule("in MI and in excursions", "the cusp",
                "a deeper fossa would leave the cusp too high in excursions", 1, _PRACTICE),
    CuttingRule("in MI alone", "the fossa",
                "the cusp keeps its height, and with it its stop", 1, _PRACTICE),
    CuttingRule("in excursions alone, nonworking side",
                "of both supporting cusps, the incline that lies farther from its stop",
                "the stops of both cusps stay", 2, _PRACTICE),
    CuttingRule("in excursions alone, front teeth", "the palatal surface of the upper tooth",
                "lower edges keep their length, and with it their stops", 4, _PRACTICE),
    CuttingRule("in excursions alone, working side",
                "the incline of the cusp that does not support (upper buccal, lower lingual)",
                "the supporting cusp keeps its stop", 3, _PRACTICE),
    CuttingRule("in excursions alone, protrusion",
                "the incline of the cusp that does not support (upper buccal, lower lingual)",
                "the supporting cusp keeps its stop", 4, _PRACTICE),
)
# fmt: on

#: In which order cuts are made.
CUTTING_ORDER: Final = (
    "First what is high in MI, then contacts of the nonworking side, then of the working side, then"
    " of protrusion (common practice). After each step foil is used again, since the next contact"
    " may have changed."
)

#: Published thickness of enamel, of populations.
ENAMEL_RANGES: Final[tuple[str, ...]] = (
    "At most 0.50 mm (mesial) and 0.63 mm (distal) of enamel were left at the floor of rest seats"
    " in 29 premolars; in more than half of them dentine was reached. A depth of 1.0 mm was"
    " possible on unworn teeth, 1.5 mm usually not (pucrs.br, Revista Odonto Ciencia, article"
    " 11792).",
    "Occlusal enamel is thinner on first molars than on second and third ones, and thicker on the"
    " functional side (Macho & Berner 1993).",
    "Textbook figures, from memory: 2.0 to 2.5 mm at the cusp, 0.6 to 1.5 mm in the fossa.",
)

#: Beside every figure of depth.
CUT_CAUTION: Final = (
    "A planning aid. Figures of enamel are of populations, not of this tooth; cut enamel does not"
    " grow back. Mounted casts are adjusted first, and the clinician decides."
)


def rule_for(high: High) -> CuttingRule:
    """Return the row about one way of being high."""
    return next(rule for rule in CUTTING_RULES if rule.high == high)
