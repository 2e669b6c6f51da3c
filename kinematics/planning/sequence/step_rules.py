"""In which order steps are done: one table, each row with its reason and source."""

from dataclasses import dataclass
from typing import Final

from kinematics.planning.sequence.steps import StepKind

_PRACTICE: Final = "common practice"
_ABUTMENTS: Final = (
    "order of abutment preparation: guide planes, then contours, then the cast is surveyed again,"
    " then rest seats (McCracken's Removable Partial Prosthodontics, textbook, from memory)"
)
_MOUTH: Final = (
    "the mouth is prepared before the final impression (McCracken's Removable Partial"
    " Prosthodontics, textbook, from memory)"
)


@dataclass(frozen=True)
class StepRule:
    """One row.

    Attributes
    ----------
    kind, title : StepKind, str
        Which step, and its heading.
    after : tuple of StepKind
        Steps that come first, where the case needs them.
    changed_by : tuple of StepKind
        Those of them after which its amounts are measured again.
    why : str
        Why it stands there.
    source : str
        Where that comes from.
    """

    kind: StepKind
    title: str
    after: tuple[StepKind, ...]
    changed_by: tuple[StepKind, ...]
    why: str
    source: str


_CUT_IN_THE_MOUTH: Final[tuple[StepKind, ...]] = (
    "occlusal plane",
    "adjustment",
    "guide planes",
    "clasp undercuts",
    "rest seats",
    "crowns",
)

#: The order. A row stands behind everything that it names under `after`.
STEP_RULES: Final[tuple[StepRule, ...]] = (
    StepRule(
        "settle",
        "What must be settled first",
        (),
        (),
        "what rests on a doubtful record, scan or choice cannot be undone once a tooth is cut",
        _PRACTICE,
    ),
    StepRule(
        "occlusal plane",
        "Bring teeth into the occlusal plane",
        ("settle",),
        (),
        "contacts, room for rests and the set-up all change with the height of a tooth",
        _PRACTICE,
    ),
    StepRule(
        "adjustment",
        "Adjust natural teeth that interfere",
        ("settle", "occlusal plane"),
        ("occlusal plane",),
        "teeth are adjusted once their height is settled, and before anything is made to fit them",
        _PRACTICE,
    ),
    StepRule(
        "guide planes",
        "Prepare guide planes",
        ("settle", "occlusal plane", "adjustment"),
        ("occlusal plane",),
        "guide planes give the path of insertion by which all other abutment surfaces are judged",
        _ABUTMENTS,
    ),
    StepRule(
        "clasp undercuts",
        "See to the hold of clasps",
        ("settle", "occlusal plane", "guide planes"),
        ("guide planes",),
        "undercuts count along the path that the guide planes give",
        _ABUTMENTS,
    ),
    StepRule(
        "rest seats",
        "Prepare rest seats",
        ("settle", "occlusal plane", "adjustment", "guide planes", "clasp undercuts"),
        ("occlusal plane", "adjustment", "guide planes"),
        "room is known only once both arches have their height; where a guide plane is cut beside a"
        " seat it comes first, for it may take part of the seat",
        _ABUTMENTS,
    ),
    StepRule(
        "crowns",
        "Prepare teeth for crowns",
        ("settle", "occlusal plane", "adjustment", "guide planes", "clasp undercuts", "rest seats"),
        ("occlusal plane", "adjustment"),
        "surveyed crowns are waxed parallel to the guide planes of the other abutments, and are in"
        " place before the impression for the framework",
        _PRACTICE,
    ),
    StepRule(
        "impression",
        "Final impression",
        ("settle", *_CUT_IN_THE_MOUTH),
        (),
        "everything that is cut in the mouth must be on the cast on which the work is made",
        _MOUTH,
    ),
    StepRule(
        "framework",
        "Make the framework and try it in the mouth",
        ("settle", "impression"),
        _CUT_IN_THE_MOUTH,
        "it is made on the cast of the prepared mouth, and must be seated before records are taken"
        " on it",
        _PRACTICE,
    ),
    StepRule(
        "records",
        "Take records again and mount the new casts",
        ("settle", *_CUT_IN_THE_MOUTH, "impression", "framework"),
        (),
        "the records of this case belong to the casts as they are now",
        _PRACTICE,
    ),
    StepRule(
        "set-up",
        "Set up the replacement teeth",
        ("settle", "impression", "framework", "records"),
        (*_CUT_IN_THE_MOUTH, "records"),
        "teeth are set up against what stands opposite then, not now; the set-up is tried in the"
        " mouth",
        _PRACTICE,
    ),
    StepRule(
        "processing",
        "Process, mount again and compare",
        ("impression", "framework", "records", "set-up"),
        (),
        "teeth move when a base is processed; stops and height are compared before it goes out",
        _PRACTICE,
    ),
    StepRule(
        "check",
        "Check in the mouth, then and later",
        (
            "settle",
            *_CUT_IN_THE_MOUTH,
            "impression",
            "framework",
            "records",
            "set-up",
            "processing",
        ),
        (),
        "the mouth decides whether contacts are as the casts let expect",
        _PRACTICE,
    ),
)

#: Said of every amount.
MEASURED_AS_THEY_ARE: Final = (
    "Every amount is measured on the casts as they are. Earlier steps change later ones: measure"
    " again where a step says so, best by scanning the changed teeth and running the case anew."
)


def rule_of_step(kind: StepKind) -> StepRule:
    """Return the row of a kind of step."""
    return next(rule for rule in STEP_RULES if rule.kind == kind)
