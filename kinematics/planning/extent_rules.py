"""What the length of a set-up means: one table, each row with its source, and what is published."""

from typing import Final, Literal

from kinematics.planning.tooth_findings import FindingRule
from kinematics.planning.unstopped_findings import OVER_ERUPTION_SOURCE

ExtentKind = Literal[
    "replacement tooth on the ascending ridge",
    "tooth left to over-erupt by a set-up",
    "tooth behind a set-up without a stop",
    "set-up longer than needed",
    "set-up as long as needed",
    "one more tooth would stand opposite",
    "length of a set-up not told by stops",
]

ON_RIDGE: Final[ExtentKind] = "replacement tooth on the ascending ridge"
LEFT_TO_ERUPT: Final[ExtentKind] = "tooth left to over-erupt by a set-up"


_RIDGE: Final = (
    "common practice, from memory: a tooth on the slope to the retromolar pad, or on that of the"
    " tuberosity, makes its base slide; the angle is chosen for this program"
)
_STOPS: Final = "common practice: replacement teeth go as far back as opposing teeth need a stop"

#: How grave it is; printed in the report as it stands here.
EXTENT_RULES: Final[tuple[FindingRule[ExtentKind], ...]] = (
    FindingRule(
        ON_RIDGE,
        "attention",
        "a replacement tooth stands where the crest of the ridge is steeper than the limit",
        _RIDGE,
    ),
    FindingRule(
        LEFT_TO_ERUPT,
        "attention",
        "a tooth that a base faces has no centric stop as the teeth are set up, comes no nearer"
        " than the contact tolerance, and no splint, bridge, rest or implant holds it",
        _STOPS,
    ),
    FindingRule(
        "tooth behind a set-up without a stop",
        "note",
        "the same of a tooth behind all that a base faces: it may be held in another way",
        _STOPS,
    ),
    FindingRule(
        "set-up longer than needed",
        "note",
        "a shorter set-up leaves no further tooth unheld without a stop, lets MI close no further,"
        " and leaves no side without back stops",
        _STOPS,
    ),
    FindingRule("set-up as long as needed", "note", "no shorter set-up does", _STOPS),
    FindingRule(
        "one more tooth would stand opposite",
        "note",
        "a tooth without a stop that nothing holds faces the place of the next tooth behind a"
        " set-up, no farther back than a second molar, and the ridge there is not steeper than the"
        " limit",
        f"{_STOPS}; told by place alone, the least that they must face each other is chosen for"
        " this program",
    ),
    FindingRule(
        "length of a set-up not told by stops",
        "note",
        "only replacement teeth stand opposite, which do not erupt, or no natural tooth stands in"
        " the arch of the base",
        "common practice: the length of a set-up goes by balance and hold there",
    ),
)

#: All kinds of findings about lengths of set-ups.
EXTENT_KINDS: Final = tuple(rule.kind for rule in EXTENT_RULES)

#: What is published of over-eruption, told as what it is: frequencies in groups of people.
OVER_ERUPTION_PUBLISHED: Final[tuple[str, ...]] = (
    f"{OVER_ERUPTION_SOURCE[0].upper()}{OVER_ERUPTION_SOURCE[1:]}.",
    "Of 65 upper second molars without an opponent 78 % had over-erupted, by 0.91 mm in the mean"
    " (Lee et al., J Periodontal Implant Sci 2020;50:260-267).",
)
