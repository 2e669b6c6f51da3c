"""Findings in plain language, for somebody who has never heard the words of the trade."""

from collections.abc import Sequence
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
from kinematics.planning.wording import enumeration
from kinematics.tooth_codes import mirror
from scenes.everyday import LEAST_MM, everyday_length
from scenes.finding_figures import HEIGHT, LEAST_GAP, RAISED, SLIDE_LENGTH, amount_mm
from scenes.tooth_names import tooth_name


@dataclass(frozen=True)
class _Saying:
    """How a kind of finding is told: what happens, how much of which figure, and of one tooth."""

    what: str
    figure: str = ""
    amount: str = ""
    of_one: str = ""


_TOUCH: Final = _Saying(
    "When your lower jaw slides {moves}, {teeth} touch.",
    HEIGHT,
    "There they keep the other teeth apart by {amount}.",
)
_SAYINGS: Final[dict[str, _Saying]] = {
    "nonworking interference": _TOUCH,
    "nonworking contact": _TOUCH,
    "working interference": _TOUCH,
    "protrusive interference": _TOUCH,
    "interference": _TOUCH,
    "replacement tooth touches": _TOUCH,
    "replacement tooth comes near": _Saying(
        "When your lower jaw slides {moves}, {teeth} come very close to each other.",
        LEAST_GAP,
        "At the closest place the gap is {amount}.",
    ),
    "balance missing": _Saying(
        "When your lower jaw slides {moves}, some teeth that should touch do not."
    ),
    WEAK_CANINE: _Saying(
        "When your lower jaw slides {moves}, {teeth} lead the way. One of them is not strong enough"
        " to do so alone."
    ),
    "scheme not reached": _Saying(
        "When your lower jaw slides {moves}, other teeth lead the way than was planned."
    ),
    "centric records differ": _Saying(
        "The records of how your jaws meet do not quite agree. They may be taken again."
    ),
    "records do not fit": _Saying(
        "The records of how your jaw moves do not quite agree. They may be taken again."
    ),
    "settings differ from records": _Saying(
        "The models do not move quite as the records of your jaw say. This will be put right before"
        " anything else."
    ),
    "settings differ from tracks": _Saying(
        "The models do not move quite as your jaw was seen to move. This will be put right before"
        " anything else."
    ),
    "hinge axis differs from track": _Saying(
        "The models do not open quite as your jaw was seen to open. This will be put right before"
        " anything else."
    ),
    "no bilateral tripod": _Saying(
        "Too few of your own teeth meet to hold the models of your jaws in place. The way your jaws"
        " meet will be checked again."
    ),
    "marks differ from the casts": _Saying(
        "The marks on your teeth are not quite those of the models. Why that is will be found out"
        " before any tooth is changed."
    ),
    "deflective contact": _Saying(
        "When your jaw closes far back, {teeth} meet first. To close fully, your jaw then slides a"
        " little.",
        SLIDE_LENGTH,
        "It slides by {amount}.",
    ),
    "no centric stop": _Saying(
        "When you bite together, {teeth} do not meet.",
        LEAST_GAP,
        "A gap of {amount} is left.",
        "When you bite together, this tooth meets no other tooth.",
    ),
    "centric stops": _Saying("When you bite together, the back teeth of one side do not meet."),
    "stops off the axis": _Saying(
        "When you bite together, the push on {teeth} goes a little to the side, not just straight"
        " along the tooth."
    ),
    ON_RIDGE: _Saying(
        "The gum under {teeth} is steep. A denture can slide there. Your dentist may leave this"
        " place free."
    ),
    LEFT_TO_ERUPT: _Saying(
        "When you bite together, {teeth} meet nothing, and nothing else holds them in place.",
        of_one="When you bite together, this tooth meets nothing, and nothing else holds it in"
        " place.",
    ),
    ABOVE: _Saying("This tooth stands out of the row of the other teeth."),
    BELOW: _Saying("This tooth does not reach the row of the other teeth."),
    **dict.fromkeys(
        GRAVER_ROOM_KINDS,
        _Saying(
            "There is too little room at {teeth} for what is planned. Room will be made first."
        ),
    ),
    NO_UNDERCUT: _Saying(
        "The clasp that is to hold your denture finds little hold on {teeth}. Your dentist will"
        " look for a better way."
    ),
    TOO_DEEP: _Saying(
        "To let your denture slide in well, much of {teeth} would have to be taken off. Your"
        " dentist will look for a better way."
    ),
    "raised bite": _Saying(
        "The plan is to raise your bite. Then your teeth stay farther apart when you close.",
        RAISED,
        "At the front teeth that is {amount}.",
    ),
    RIM_KIND: _Saying(
        "The model of your teeth ends where {teeth} meet. It has to be looked at again."
    ),
    OUTLIER_KIND: _Saying(
        "A single point of the model of your teeth holds them apart at {teeth}. It may be a fault"
        " of the model and has to be looked at again."
    ),
    "anterior contact in MI": _Saying(
        "When you bite together, {teeth} touch. They were meant to stay just apart."
    ),
}
#: Where not even one side has a stop: both counts of stops on back teeth are told as nothing.
_NEITHER_SIDE: Final = _Saying("When you bite together, no back teeth meet, on either side.")
#: Said instead of an amount where the records do not decide.
_NOT_CERTAIN: Final = "This is not certain yet: your dentist will measure it again."
_OTHERWISE: Final = _Saying("Your dentist will look more closely at {teeth}.")
#: Kinds that are told once for all their teeth.
_TOLD_TOGETHER: Final = ("stops off the axis", "anterior contact in MI")
#: Kinds that are told of the bite, not of the teeth they happen to name.
_OF_THE_BITE: Final = ("raised bite",)
#: More teeth than this are told by their numbers alone.
_MOST_NAMED: Final = 4
_MOVES: Final = {
    "protrusion": "forward",
    "right lateral": "to the right",
    "left lateral": "to the left",
    "retrusion": "backward",
}
#: How a direction between forward and one side begins.
_SLANTED: Final = "forward and "
#: More directions than this are not told one by one.
_MOST_MOVES: Final = 2


@dataclass(frozen=True)
class PlainItem:
    """One thing to know, in plain language.

    Attributes
    ----------
    teeth : tuple of int
        Numbers of the teeth it is about; empty where it is about all.
    title : str
        The same teeth by name.
    text : str
        What they do, and how much.
    """

    teeth: tuple[int, ...]
    title: str
    text: str


def plain_items(
    findings: Sequence[Finding], replacement_teeth: tuple[int, ...] = ()
) -> tuple[PlainItem, ...]:
    """Return what calls for attention, in the order of the findings; one item for what is alike.

    Findings of one kind about the same teeth are told once, with all their movements and the
    figure that matters most among them. So are those that differ by their teeth alone: too small
    to be told apart, or as much on the same teeth of the other side. What the records do not decide
    is told apart from what they do, as not certain and without an amount.

    Parameters
    ----------
    findings : sequence of Finding
        Gravest first; notes are left out.
    replacement_teeth : tuple of int
        Teeth that are called so.
    """
    alike: dict[tuple[str, tuple[int, ...], bool], list[Finding]] = {}
    for finding in findings:
        if finding.severity != "note":
            about = () if finding.kind in _TOLD_TOGETHER else _teeth(finding)
            alike.setdefault((finding.kind, about, finding.determined), []).append(finding)
    sets = [_AlikeFindings(_saying(own[0]), own) for own in alike.values()]
    return tuple(_item(told, replacement_teeth) for told in _told_together(sets))


def _saying(finding: Finding) -> _Saying:
    """Return how a finding is told; of back teeth that do not meet, whether on either side."""
    if finding.kind == "centric stops":
        back = [item.value for item in finding.figures if item.name.endswith("back teeth")]
        if back and not any(back):
            return _NEITHER_SIDE
    return _SAYINGS.get(finding.kind, _OTHERWISE)


@dataclass(frozen=True)
class _AlikeFindings:
    """Findings of one kind about the same teeth, and how they are told."""

    saying: _Saying
    findings: list[Finding]

    @property
    def teeth(self) -> tuple[int, ...]:
        """Every tooth once."""
        return tuple(dict.fromkeys(code for own in self.findings for code in _teeth(own)))

    @property
    def moves(self) -> tuple[str, ...]:
        """Directions, each once."""
        moves = (move_words(own.excursion) for own in self.findings if own.excursion)
        return tuple(dict.fromkeys(moves))

    @property
    def determined(self) -> bool:
        """Whether the records decide them."""
        return self.findings[0].determined

    @property
    def amount_mm(self) -> float:
        """The figure that matters most; 0 for none."""
        return amount_mm(self.findings, self.saying.figure)

    @property
    def amount_is_known(self) -> bool:
        """Whether that figure was found, be it 0."""
        names = [figure.name for own in self.findings for figure in own.figures]
        begins = self.saying.figure
        return bool(begins) and any(name.startswith(begins) for name in names)

    def joins(self, other: "_AlikeFindings") -> bool:
        """Whether both are told as one: too little to tell apart, or the same on either side."""
        if self.saying is not other.saying or self.determined != other.determined:
            return False
        if not (self.moves and other.moves):
            return False
        if not (self.amount_is_known and other.amount_is_known):
            return False
        amounts = self.amount_mm, other.amount_mm
        if not all(amounts):
            return not any(amounts)
        if max(amounts) < LEAST_MM:
            return True
        same = len({everyday_length(amount) for amount in amounts}) == 1
        return same and {mirror(code) for code in self.teeth} == set(other.teeth)


def _told_together(sets: Sequence[_AlikeFindings]) -> list[list[_AlikeFindings]]:
    """Return the sets in their order, each with those later ones that are told with it."""
    groups: list[list[_AlikeFindings]] = []
    for own in sets:
        group = next((group for group in groups if group[0].joins(own)), None)
        if group is None:
            groups.append([own])
        else:
            group.append(own)
    return groups


def _teeth(finding: Finding) -> tuple[int, ...]:
    return tuple(dict.fromkeys(code for pair in _pairs(finding) for code in pair))


def _pairs(finding: Finding) -> tuple[tuple[int, ...], ...]:
    """Return the teeth of a finding as they are named together: pairs, or one tooth alone."""
    if finding.kind in _OF_THE_BITE:
        return ()
    pairs = ((finding.tooth_upper, finding.tooth_lower), *finding.together)
    return tuple(tuple(code for code in pair if code) for pair in pairs)


def _item(told: Sequence[_AlikeFindings], replaced: tuple[int, ...]) -> PlainItem:
    saying = told[0].saying
    teeth = tuple(dict.fromkeys(code for own in told for code in own.teeth))
    if not teeth and "{teeth}" in saying.what:
        return PlainItem((), "Your bite", "Your dentist will look more closely at one point.")
    text = _what(told, teeth)
    amount = amount_mm([finding for own in told for finding in own.findings], saying.figure)
    if not told[0].determined:
        text += f" {_NOT_CERTAIN}"
    elif amount:
        text += " " + saying.amount.format(amount=everyday_length(amount))
    names = [tooth_name(code, "replacement tooth" * (code in replaced)) for code in teeth]
    if len(teeth) > _MOST_NAMED:
        names = [f"teeth {enumeration(teeth)}"]
    title = enumeration(names) or "Your bite"
    return PlainItem(teeth, title[0].upper() + title[1:], text)


def _what(told: Sequence[_AlikeFindings], teeth: tuple[int, ...]) -> str:
    """Return what teeth do; where several sets are told as one, which of them in which movement."""
    saying = told[0].saying
    if len(told) == 1:
        what = saying.of_one if saying.of_one and len(teeth) == 1 else saying.what
        return what.format(moves=_moves_words(told[0].moves), teeth=_these(teeth))
    by_moves: dict[str, list[str]] = {}
    for own in told:
        pairs = dict.fromkeys(pair for finding in own.findings for pair in _pairs(finding))
        named = by_moves.setdefault(_moves_words(own.moves), [])
        named += [" with ".join(map(str, pair)) for pair in pairs]
    first, *others = by_moves
    parts = [saying.what.format(moves=first, teeth="these teeth").removesuffix(".")]
    parts += [f"When it slides {moves}" for moves in others]
    named_parts = zip(parts, by_moves.values(), strict=True)
    return " ".join(f"{part}: {enumeration(named)}." for part, named in named_parts)


def _these(teeth: tuple[int, ...]) -> str:
    """Return how the teeth of a title are called in the sentence below it."""
    return {1: "this tooth", 2: "these two teeth"}.get(len(teeth), "these teeth")


def _moves_words(moves: Sequence[str]) -> str:
    """Return the directions, each once, straight ones first; a movement to both sides as one."""
    told = sorted(dict.fromkeys(moves), key=lambda move: (_SLANTED in move, move != "forward"))
    for before, either in (("", "to either side"), (_SLANTED, f"{_SLANTED}to either side")):
        sides = [f"{before}to the {side}" for side in ("left", "right")]
        if all(side in told for side in sides):
            at = min(told.index(side) for side in sides)
            told = [move for move in told if move not in sides]
            told.insert(at, either)
    if len(told) > _MOST_MOVES:
        return "in several directions"
    slanted = [f"{move} at the same time" for move in told if _SLANTED in move]
    if len(told) > 1 and slanted:
        return ", or ".join([move for move in told if _SLANTED not in move] + slanted)
    return " or ".join(told) or "aside"


def move_words(label: str) -> str:
    """Return the direction of an excursion in plain words, whatever it starts from."""
    name = label.removesuffix(" from CR")
    if name.startswith("lateroprotrusion"):
        return f"{_SLANTED}to the {'right' if float(name.split()[-1]) < 0.0 else 'left'}"
    return _MOVES.get(name, "aside")
