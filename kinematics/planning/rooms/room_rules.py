"""What the room of rests and crowns means: one table, each row with its source."""

from typing import Final, Literal

from kinematics.planning.rooms.rest_rooms import ENAMEL_SOURCE
from kinematics.planning.rooms.settings import CERAMIC_SOURCE, METAL_SOURCE, REST_SOURCE
from kinematics.planning.tooth_findings import FindingRule

RoomKind = Literal[
    "no room for a rest",
    "rest without room unless its seat is cut",
    "no room for an assumed rest",
    "little room for a rest",
    "no room for a crown",
    "reduction for a crown",
]

NO_ROOM: Final[RoomKind] = "no room for a rest"
TO_BE_CUT: Final[RoomKind] = "rest without room unless its seat is cut"
ASSUMED: Final[RoomKind] = "no room for an assumed rest"
LITTLE_ROOM: Final[RoomKind] = "little room for a rest"
NO_CROWN_ROOM: Final[RoomKind] = "no room for a crown"
REDUCTION: Final[RoomKind] = "reduction for a crown"


_CROWN_SOURCE: Final = f"{METAL_SOURCE}; {CERAMIC_SOURCE}"

#: How grave it is; printed in the report as it stands here. Severities are chosen for this program.
ROOM_RULES: Final[tuple[FindingRule[RoomKind], ...]] = (
    FindingRule(
        NO_ROOM,
        "serious",
        "a seat has been cut, and still the opposing arch comes nearer to it than the least room,"
        " in MI or on a path",
        REST_SOURCE,
    ),
    FindingRule(
        TO_BE_CUT,
        "attention",
        "the same of a rest that the case names, on a crown without a seat: it has yet to be cut,"
        " or the rest put elsewhere",
        REST_SOURCE,
    ),
    FindingRule(
        ASSUMED,
        "note",
        "the same of a rest that is assumed, not given",
        REST_SOURCE,
    ),
    FindingRule(
        LITTLE_ROOM,
        "note",
        "there is the least room, but not the room wanted",
        REST_SOURCE,
    ),
    FindingRule(
        NO_CROWN_ROOM,
        "serious",
        "a tooth is prepared, and the opposing arch comes nearer to a cusp than its material wants,"
        " in MI or on a path",
        _CROWN_SOURCE,
    ),
    FindingRule(
        REDUCTION,
        "note",
        "the same of a tooth that is not prepared yet: what would come off its cusps",
        _CROWN_SOURCE,
    ),
)

#: All kinds of findings about room.
ROOM_KINDS: Final = tuple(rule.kind for rule in ROOM_RULES)
#: Those that are graver than notes.
GRAVER_ROOM_KINDS: Final = tuple(rule.kind for rule in ROOM_RULES if rule.severity != "note")

#: What is published of enamel below seats, told beside every depth that would be cut.
ENAMEL_CAUTION: Final = (
    "A planning aid: enamel figures are of populations, not of this tooth, and the clinician"
    f" decides. {ENAMEL_SOURCE[0].upper()}{ENAMEL_SOURCE[1:]}."
)
