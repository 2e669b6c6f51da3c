"""How every kind of finding is said in plain language."""

from dataclasses import dataclass
from typing import Final

from kinematics.planning.canine_findings import WEAK_CANINE
from kinematics.planning.extent_rules import LEFT_TO_ERUPT, ON_RIDGE
from kinematics.planning.findings import Finding
from kinematics.planning.outlier_contacts import OUTLIER_KIND
from kinematics.planning.plane.plane_findings import ABOVE, BELOW
from kinematics.planning.rim_contacts import RIM_KIND
from kinematics.planning.rooms.room_rules import GRAVER_ROOM_KINDS
from kinematics.planning.surveying.survey_rules import NO_UNDERCUT, TOO_DEEP
from scenes.finding_figures import HEIGHT, LEAST_GAP, RAISED, SLIDE_LENGTH


@dataclass(frozen=True)
class Saying:
    """How a kind of finding is told: what happens, how much of which figure, and of one tooth."""

    what: str
    figure: str = ""
    amount: str = ""
    of_one: str = ""


_TOUCH: Final = Saying(
    "When your lower jaw slides {moves}, {teeth} touch.",
    HEIGHT,
    "There they keep the other teeth apart by {amount}.",
)
_SAYINGS: Final[dict[str, Saying]] = {
    "nonworking interference": _TOUCH,
    "nonworking contact": _TOUCH,
    "working interference": _TOUCH,
    "protrusive interference": _TOUCH,
    "interference": _TOUCH,
    "replacement tooth touches": _TOUCH,
    "replacement tooth comes near": Saying(
        "When your lower jaw slides {moves}, {teeth} come very close to each other.",
        LEAST_GAP,
        "At the closest place the gap is {amount}.",
    ),
    "balance missing": Saying(
        "When your lower jaw slides {moves}, some teeth that should touch do not."
    ),
    WEAK_CANINE: Saying(
        "When your lower jaw slides {moves}, {teeth} lead the way. One of them is not strong enough"
        " to do so alone."
    ),
    "scheme not reached": Saying(
        "When your lower jaw slides {moves}, other teeth lead the way than was planned."
    ),
    "centric records differ": Saying(
        "The records of how your jaws meet do not quite agree. They may be taken again."
    ),
    "records do not fit": Saying(
        "The records of how your jaw moves do not quite agree. They may be taken again."
    ),
    "settings differ from records": Saying(
        "The models do not move quite as the records of your jaw say. This will be put right before"
        " anything else."
    ),
    "settings differ from tracks": Saying(
        "The models do not move quite as your jaw was seen to move. This will be put right before"
        " anything else."
    ),
    "hinge axis differs from track": Saying(
        "The models do not open quite as your jaw was seen to open. This will be put right before"
        " anything else."
    ),
    "no bilateral tripod": Saying(
        "Too few of your own teeth meet to hold the models of your jaws in place. The way your jaws"
        " meet will be checked again."
    ),
    "marks differ from the casts": Saying(
        "The marks on your teeth are not quite those of the models. Why that is will be found out"
        " before any tooth is changed."
    ),
    "deflective contact": Saying(
        "When your jaw closes far back, {teeth} meet first. To close fully, your jaw then slides a"
        " little.",
        SLIDE_LENGTH,
        "It slides by {amount}.",
    ),
    "no centric stop": Saying(
        "When you bite together, {teeth} do not meet.",
        LEAST_GAP,
        "A gap of {amount} is left.",
        "When you bite together, this tooth meets no other tooth.",
    ),
    "centric stops": Saying("When you bite together, the back teeth of one side do not meet."),
    "stops off the axis": Saying(
        "When you bite together, the push on {teeth} goes a little to the side, not just straight"
        " along the tooth."
    ),
    ON_RIDGE: Saying(
        "The gum under {teeth} is steep. A denture can slide there. Your dentist may leave this"
        " place free."
    ),
    LEFT_TO_ERUPT: Saying(
        "When you bite together, {teeth} meet nothing, and nothing else holds them in place.",
        of_one="When you bite together, this tooth meets nothing, and nothing else holds it in"
        " place.",
    ),
    ABOVE: Saying("This tooth stands out of the row of the other teeth."),
    BELOW: Saying("This tooth does not reach the row of the other teeth."),
    **dict.fromkeys(
        GRAVER_ROOM_KINDS,
        Saying("There is too little room at {teeth} for what is planned. Room will be made first."),
    ),
    NO_UNDERCUT: Saying(
        "The clasp that is to hold your denture finds little hold on {teeth}. Your dentist will"
        " look for a better way."
    ),
    TOO_DEEP: Saying(
        "To let your denture slide in well, much of {teeth} would have to be taken off. Your"
        " dentist will look for a better way."
    ),
    "raised bite": Saying(
        "The plan is to raise your bite. Then your teeth stay farther apart when you close.",
        RAISED,
        "At the front teeth that is {amount}.",
    ),
    RIM_KIND: Saying(
        "The model of your teeth ends where {teeth} meet. It has to be looked at again."
    ),
    OUTLIER_KIND: Saying(
        "A single point of the model of your teeth holds them apart at {teeth}. It may be a fault"
        " of the model and has to be looked at again."
    ),
    "anterior contact in MI": Saying(
        "When you bite together, {teeth} touch. They were meant to stay just apart."
    ),
}
#: Where not even one side has a stop: both counts of stops on back teeth are told as nothing.
_NEITHER_SIDE: Final = Saying("When you bite together, no back teeth meet, on either side.")
_OTHERWISE: Final = Saying("Your dentist will look more closely at {teeth}.")


def saying_of(finding: Finding) -> Saying:
    """Return how a finding is told; of back teeth that do not meet, whether on either side."""
    if finding.kind == "centric stops":
        back = [item.value for item in finding.figures if item.name.endswith("back teeth")]
        if back and not any(back):
            return _NEITHER_SIDE
    return _SAYINGS.get(finding.kind, _OTHERWISE)
