"""Findings in plain language, for somebody who has never heard the words of the trade."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.planning.findings import Finding
from kinematics.planning.wording import enumeration
from scenes.everyday import everyday_length
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
    "scheme not reached": _Saying(
        "When your lower jaw slides {moves}, other teeth lead the way than was planned."
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
    "raised bite": _Saying(
        "The plan is to raise your bite. Then your teeth stay farther apart when you close.",
        RAISED,
        "At the front teeth that is {amount}.",
    ),
    "anterior contact in MI": _Saying(
        "When you bite together, {teeth} touch. They were meant to stay just apart."
    ),
}
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
    figure that matters most among them.

    Parameters
    ----------
    findings : sequence of Finding
        Gravest first; notes are left out.
    replacement_teeth : tuple of int
        Teeth that are called so.
    """
    alike: dict[tuple[str, tuple[int, ...]], list[Finding]] = {}
    for finding in findings:
        if finding.severity != "note":
            about = () if finding.kind in _TOLD_TOGETHER else _teeth(finding)
            alike.setdefault((finding.kind, about), []).append(finding)
    return tuple(_item(kind, own, replacement_teeth) for (kind, _), own in alike.items())


def _teeth(finding: Finding) -> tuple[int, ...]:
    if finding.kind in _OF_THE_BITE:
        return ()
    pairs = ((finding.tooth_upper, finding.tooth_lower), *finding.together)
    return tuple(dict.fromkeys(code for pair in pairs for code in pair if code))


def _item(kind: str, findings: list[Finding], replaced: tuple[int, ...]) -> PlainItem:
    saying = _SAYINGS.get(kind, _OTHERWISE)
    teeth = tuple(dict.fromkeys(code for finding in findings for code in _teeth(finding)))
    if not teeth and "{teeth}" in saying.what:
        return PlainItem((), "Your bite", "Your dentist will look more closely at one point.")
    moves = [move_words(finding.excursion) for finding in findings if finding.excursion]
    what = saying.of_one if saying.of_one and len(teeth) == 1 else saying.what
    text = what.format(moves=_moves_words(moves), teeth=_these(teeth))
    amount = amount_mm(findings, saying.figure)
    if amount:
        text += " " + saying.amount.format(amount=everyday_length(amount))
    names = [tooth_name(code, "replacement tooth" * (code in replaced)) for code in teeth]
    if len(teeth) > _MOST_NAMED:
        names = [f"teeth {enumeration(teeth)}"]
    title = enumeration(names) or "Your bite"
    return PlainItem(teeth, title[0].upper() + title[1:], text)


def _these(teeth: tuple[int, ...]) -> str:
    """Return how the teeth of a title are called in the sentence below it."""
    return {1: "this tooth", 2: "these two teeth"}.get(len(teeth), "these teeth")


def _moves_words(moves: Sequence[str]) -> str:
    """Return the directions, each once; a movement to both sides as one."""
    told = dict.fromkeys(moves)
    for before in ("", "forward and "):
        sides = [f"{before}to the {side}" for side in ("left", "right")]
        if all(side in told for side in sides):
            told = dict.fromkeys(move for move in told if move not in sides)
            told[f"{before}to either side"] = None
    return "in several directions" if len(told) > 2 else " or ".join(told) or "aside"


def move_words(label: str) -> str:
    """Return the direction of an excursion in plain words, whatever it starts from."""
    name = label.removesuffix(" from CR")
    if name.startswith("lateroprotrusion"):
        return f"forward and to the {'right' if float(name.split()[-1]) < 0.0 else 'left'}"
    return _MOVES.get(name, "aside")
