"""Findings in plain language, for somebody who has never heard the words of the trade."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.planning.findings import Finding
from kinematics.planning.wording import enumeration
from kinematics.tooth_codes import mirror
from scenes.everyday import LEAST_MM, everyday_length
from scenes.finding_figures import amount_mm
from scenes.plain_sayings import Saying, saying_of
from scenes.tooth_names import tooth_name

#: Said instead of an amount where the records do not decide.
_NOT_CERTAIN: Final = "This is not certain yet: your dentist will measure it again."
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
    sets = [_AlikeFindings(saying_of(own[0]), own) for own in alike.values()]
    return tuple(_item(told, replacement_teeth) for told in _told_together(sets))


@dataclass(frozen=True)
class _AlikeFindings:
    """Findings of one kind about the same teeth, and how they are told."""

    saying: Saying
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
