"""The first page of the report: what is wrong, where it is, and what to do in which order."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Final

from kinematics.checkup_result import Checkup
from kinematics.planning.finding_groups import FindingGroup
from kinematics.planning.group_wording import group_sentence, kind_words, next_steps
from kinematics.planning.judging import Scheme
from kinematics.planning.scan_quality import QualityLine
from kinematics.planning.scheme_findings import BALANCE_MISSED, SCHEME_MISSED, scheme_name
from kinematics.planning.wording import enumeration
from scenes import colours
from scenes.arch_scenes import LOWER, UPPER
from scenes.centric_words import basis_of
from scenes.ringed_teeth import Ring, ringed_arch
from scenes.share_words import ShownAt, ShownShare, shown_at

#: How many groups the first page tells, and in how many lines of about so many letters; the others
#: are named there by their titles, as many as this, and told below.
_MOST_TOLD: Final = 5
_MOST_LINES: Final = 13
_MOST_TITLES: Final = 4
#: Lines that steps may take after the first, which is always the same; those that do not fit stand
#: above the findings.
_MOST_STEP_LINES: Final = 7
_LETTERS_A_LINE: Final = 115
#: Room of a bar, and of the lines that tell what shares are of.
_BAR_LETTERS: Final = 12
_SHARES_LINES: Final = 1
#: Room that a line about scans takes of a line of points: its letters are smaller.
_OF_A_LINE: Final = 0.7


@dataclass(frozen=True)
class Point:
    """One group of findings: its number in the picture, plain words, and its sentence.

    `sure` tells how often the gravest of them holds where settings are uncertain; None where that
    was not studied. `several` tells whether there are others beside it.
    """

    number: int
    severity: str
    sign: str
    plain: str
    text: str
    determined: bool
    sure: ShownShare | None = None
    several: bool = False

    @property
    def sure_words(self) -> str:
        """In how many samples it holds; empty where it was not studied."""
        if self.sure is None:
            return ""
        return f"{'the gravest holds in' if self.several else 'holds in'} {self.sure.short}"

    def heading_after(self, before: "Point | None") -> str:
        """Return the plain words; empty where the sentence or the point before has the same."""
        said = self.text.startswith(self.plain) or (before and before.plain == self.plain)
        return "" if said else f"{self.plain}."


@dataclass(frozen=True)
class Title:
    """Groups that are told below only and have one title.

    Attributes
    ----------
    numbers : tuple of int
        Their numbers there.
    severity, sign : str
        That of all of them.
    plain : str
        What they are called in plain words.
    """

    numbers: tuple[int, ...]
    severity: str
    sign: str
    plain: str

    @property
    def words(self) -> str:
        """Numbers and plain words."""
        return f"{enumeration(self.numbers)}. {self.plain}"


@dataclass(frozen=True)
class NumberedArch:
    """An arch with rings about the teeth spoken of, each with the numbers of its points.

    Attributes
    ----------
    side : str
        "upper" or "lower".
    width_mm, height_mm : float
        Size of the picture.
    rings : tuple of (Ring, str)
        Where the teeth are, and the numbers of the points that name them.
    """

    side: str
    width_mm: float
    height_mm: float
    rings: tuple[tuple[Ring, str], ...]


@dataclass(frozen=True)
class FirstPage:
    """What the first page says.

    Attributes
    ----------
    points : tuple of Point
        Gravest first.
    more : int
        How many further groups are told below only.
    titles : tuple of Title
        What they are called, gravest first.
    untitled : int
        How many of them are not even named here.
    arches : tuple of NumberedArch
        Both arches, or none where nothing is wrong.
    steps : tuple of str
        What to do, in this order.
    later_steps : tuple of str
        What to do then, for which there is no room here.
    sure : str
        What shares are of, and which points have none; empty where settings were not studied.
    scheme : str
        That the articulation aimed at is reached; empty where it is not.
    rests_on : tuple of QualityLine
        Of scanned casts, what the findings rest on; none for built-in teeth.
    """

    points: tuple[Point, ...]
    more: int
    titles: tuple[Title, ...]
    untitled: int
    arches: tuple[NumberedArch, ...]
    steps: tuple[str, ...]
    scheme: str
    rests_on: tuple[QualityLine, ...] = ()
    later_steps: tuple[str, ...] = ()
    sure: str = ""


def point(number: int, group: FindingGroup, sure: ShownAt) -> Point:
    """Return a group of findings in words; `sure` tells how often a finding holds."""
    plain = kind_words(group.kind).plain
    return Point(
        number,
        group.severity,
        colours.SEVERITY_SIGN[group.severity],
        plain[0].upper() + plain[1:],
        group_sentence(group),
        group.determined,
        sure(group.findings[0]),
        len(group.findings) > 1,
    )


def first_page(checkup: Checkup, groups: Sequence[FindingGroup], scheme: Scheme) -> FirstPage:
    """Return what the first page says.

    Parameters
    ----------
    checkup : Checkup
        What was computed.
    groups : sequence of FindingGroup
        All groups of its findings, gravest first.
    scheme : str
        Articulation aimed at for the natural teeth, or those of complete dentures.
    """
    urgent = [group for group in groups if group.severity != "note"]
    sure = shown_at(checkup.findings, checkup.uncertainty)
    points = [point(number, group, sure) for number, group in enumerate(urgent, start=1)]
    rest = checkup.doubts.quality.lines if checkup.doubts else ()
    taken = round(_OF_A_LINE * sum(map(_lines_of, rest)))
    samples = 0 if checkup.uncertainty is None else checkup.uncertainty.samples
    told = _what_fits(points, _MOST_LINES - taken - (_SHARES_LINES if samples else 0))
    below = points[len(told) :]
    titles = _titles(below)
    numbers: dict[int, list[str]] = {}
    for number, group in enumerate(urgent[: len(told)], start=1):
        for code in group.teeth:
            numbers.setdefault(code, []).append(str(number))
    steps = (*_bite_first(checkup), *next_steps(urgent, basis_of(checkup)))
    fit = _steps_that_fit(steps)
    arches = ((checkup.upper, UPPER), (checkup.lower, LOWER))
    ringed = (ringed_arch(arch, side, tuple(numbers)) for arch, side in arches)
    return FirstPage(
        told,
        len(below),
        titles,
        len(below) - sum(len(title.numbers) for title in titles),
        tuple(
            NumberedArch(
                found.side,
                found.width_mm,
                found.height_mm,
                tuple((ring, "·".join(numbers[ring.code])) for ring in found.rings),
            )
            for found in ringed
            if found
        ),
        steps[:fit],
        _scheme_words(groups, scheme),
        rest,
        steps[fit:],
        _shares_words(told, samples),
    )


def _bite_first(checkup: Checkup) -> tuple[str, ...]:
    """Return what a bite at which scanned casts hardly meet asks for before anything else."""
    step = checkup.doubts.quality.first_step if checkup.doubts else ""
    return (step,) if step else ()


def _shares_words(told: Sequence[Point], samples: int) -> str:
    """Return what shares are of, and which points have none; empty without a study."""
    if not samples:
        return ""
    without = [item.number for item in told if item.sure is None]
    points = "point" if len(without) == 1 else "points"
    missing = f" Not studied: {points} {enumeration(without)}." if without else ""
    return f"Shares are of {samples} samples of uncertain settings, not of patients.{missing}"


def _scheme_words(groups: Sequence[FindingGroup], scheme: Scheme) -> str:
    name = scheme_name(scheme)
    if any(group.kind in (SCHEME_MISSED, BALANCE_MISSED) for group in groups):
        return ""
    return (
        f"{name[0].upper()}{name[1:]} was aimed at and is reached over most of the judged travel."
    )


def _steps_that_fit(steps: Sequence[str]) -> int:
    """Return how many steps the page has room for."""
    lines = accumulate(math.ceil(len(step) / _LETTERS_A_LINE) for step in steps)
    return sum(used <= _MOST_STEP_LINES for used in lines)


def _lines_of(line: QualityLine) -> int:
    return math.ceil(len(f"{line.name}: {line.text}; {line.meaning}.") / _LETTERS_A_LINE)


def _titles(points: Sequence[Point]) -> tuple[Title, ...]:
    """Return what some points are called, those with one title together; no more than may be."""
    numbers: dict[tuple[str, str, str], list[int]] = {}
    for item in points:
        numbers.setdefault((item.severity, item.sign, item.plain), []).append(item.number)
    found = [Title(tuple(own), *key) for key, own in numbers.items()]
    return tuple(found[:_MOST_TITLES])


def _letters(item: Point, before: Point | None) -> int:
    """Return how many letters a point takes, its bar among them."""
    bar = _BAR_LETTERS if item.sure else 0
    return len(item.heading_after(before)) + len(item.text) + len(item.sure_words) + bar


def _what_fits(points: Sequence[Point], most_lines: int) -> tuple[Point, ...]:
    """Return the first points, as many as leave the page room for all else; at least one.

    What does not fit takes room by its titles.
    """
    lines = [
        math.ceil(_letters(item, before) / _LETTERS_A_LINE)
        for before, item in zip((None, *points), points, strict=False)
    ]
    fit = 0
    for count, used in enumerate(accumulate(lines[:_MOST_TOLD]), start=1):
        letters = sum(len(title.words) + 4 for title in _titles(points[count:]))
        fit = count if used + letters // _LETTERS_A_LINE <= most_lines else fit
    return tuple(points[: max(fit, 1)])
