"""The one table that says which contacts interfere in which scheme of articulation.

Rows are read from the top: the first row that fits a tooth pair is the one reported for it.
"""

from dataclasses import dataclass
from typing import Final, Literal

from kinematics.guidance.excursions import RETRUSION, Excursion
from kinematics.planning.findings import Severity

Movement = Literal["centric", "MI", "lateral", "protrusive", "retrusive"]

#: Which tooth pairs a row looks at. Sides are those of the excursion.
Contact = Literal[
    "first contact",
    "any",
    "anterior",
    "posterior",
    "right posterior",
    "left posterior",
    "working posterior",
    "nonworking",
]

#: What must be true of them.
Condition = Literal[
    "changes height",  # the slide from this contact to MI changes the height
    "touches",  # within the tolerance
    "holds open",  # touches; its height, or the gap of `against` where it carries, above tolerance
    "lifts",  # its height is above the balanced tolerance
    "is missing",  # no such pair is within the balanced tolerance
]

#: Pairs that a contact may hold open.
Against = Literal["", "the front teeth", "the working side", "the working side and the incisors"]


@dataclass(frozen=True)
class Rule:
    """One row.

    Attributes
    ----------
    scheme : str
        "canine", "group", "balanced", or "any".
    movement : str
        "centric" (CR to MI), "MI", "lateral" (any direction with a working side) or "protrusive".
    contact : str
        Which tooth pairs the row looks at.
    condition : str
        What must be true of them.
    against : str
        For "holds open": which pairs are held open. Pairs that share a tooth are not counted.
    severity : str
        "note", "attention" or "serious".
    kind : str
        Stable name of the finding.
    text : str
        Why it matters, as the end of a sentence.
    source : str
        Where the rule comes from.
    """

    scheme: str
    movement: Movement
    contact: Contact
    condition: Condition
    against: Against
    severity: Severity
    kind: str
    text: str
    source: str


_TERMS: Final = "terms of the Glossary of Prosthodontic Terms, J Prosthet Dent 2017;117(5S)"
_CANINE: Final = "with canine guidance no back tooth should touch beyond MI"
_GROUP_FRONT: Final = "with group function the front teeth alone should guide protrusion"
_LIFT: Final = "a nonworking contact must not lift the working side"
_NO_LIFT: Final = "by itself this contact lifts nothing beyond the tolerance: no interference"
_BALANCE: Final = "in balanced articulation no contact may open the others"
_PRACTICE: Final = "common practice"
_WITH_INCISORS: Final = "the working side and the incisors"

# fmt: off
RULES: Final[tuple[Rule, ...]] = (
    #    scheme      movement      contact              condition         against
    #    severity    kind                      text                       source
    Rule("any",      "centric",    "first contact",     "changes height", "",
         "attention", "deflective contact",    "the first contact in CR deflects the jaw",
         f"deflective contact: {_TERMS}"),
    Rule("canine",   "lateral",    "nonworking",        "holds open",     _WITH_INCISORS,
         "serious",  "nonworking interference", _LIFT,                    _PRACTICE),
    Rule("canine",   "lateral",    "nonworking",        "touches",        "",
         "note",     "nonworking contact",     _NO_LIFT,                  _PRACTICE),
    Rule("canine",   "lateral",    "working posterior", "holds open",     "the front teeth",
         "serious",  "working interference",   _CANINE,                   _PRACTICE),
    Rule("canine",   "lateral",    "working posterior", "touches",        "",
         "attention", "working interference",  _CANINE,                   _PRACTICE),
    Rule("canine",   "protrusive", "posterior",         "holds open",     "the front teeth",
         "serious",  "protrusive interference", _CANINE,                  _PRACTICE),
    Rule("canine",   "protrusive", "posterior",         "touches",        "",
         "attention", "protrusive interference", _CANINE,                 _PRACTICE),
    Rule("group",    "lateral",    "nonworking",        "holds open",     _WITH_INCISORS,
         "serious",  "nonworking interference", _LIFT,                    _PRACTICE),
    Rule("group",    "lateral",    "nonworking",        "touches",        "",
         "note",     "nonworking contact",     _NO_LIFT,                  _PRACTICE),
    Rule("group",    "lateral",    "working posterior", "holds open",     "the working side",
         "attention", "working interference",  "a single tooth must not hold the group open",
         f"group function, several teeth at once: {_TERMS}"),
    Rule("group",    "protrusive", "posterior",         "holds open",     "the front teeth",
         "serious",  "protrusive interference", _GROUP_FRONT,             _PRACTICE),
    Rule("group",    "protrusive", "posterior",         "touches",        "",
         "attention", "protrusive interference", _GROUP_FRONT,            _PRACTICE),
    Rule("balanced", "lateral",    "any",               "lifts",          "",
         "serious",  "interference",           _BALANCE,                  _PRACTICE),
    Rule("balanced", "lateral",    "working posterior", "is missing",     "",
         "attention", "balance missing",       "a working contact of back teeth must hold",
         f"balanced articulation: {_TERMS}"),
    Rule("balanced", "lateral",    "nonworking",        "is missing",     "",
         "attention", "balance missing",       "a nonworking contact must hold",
         f"balanced articulation: {_TERMS}"),
    Rule("balanced", "protrusive", "any",               "lifts",          "",
         "serious",  "interference",           _BALANCE,                  _PRACTICE),
    Rule("balanced", "protrusive", "right posterior",   "is missing",     "",
         "attention", "balance missing",       "back teeth of the right must touch in protrusion",
         f"balanced articulation: {_TERMS}"),
    Rule("balanced", "protrusive", "left posterior",    "is missing",     "",
         "attention", "balance missing",       "back teeth of the left must touch in protrusion",
         f"balanced articulation: {_TERMS}"),
    Rule("balanced", "protrusive", "anterior",          "is missing",     "",
         "attention", "balance missing",       "front teeth must touch in protrusion",
         f"balanced articulation: {_TERMS}"),
    Rule("balanced", "MI",         "anterior",          "touches",        "",
         "attention", "anterior contact in MI", "with balanced articulation front teeth stay clear"
         " in MI", _PRACTICE),
)
# fmt: on


def movement_of(excursion: Excursion) -> Movement:
    """Return which rows of the table an excursion is judged by."""
    if excursion.name == RETRUSION:
        return "retrusive"
    return "protrusive" if excursion.azimuth_deg == 0.0 else "lateral"


def rules_for(scheme: str, movement: Movement) -> tuple[Rule, ...]:
    """Return the rows of one scheme (and those of any scheme) for one movement, in order."""
    return tuple(
        rule for rule in RULES if rule.scheme in (scheme, "any") and rule.movement == movement
    )
