"""Canine guidance questioned: canines that guide but are not sound teeth on sound roots."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final, Literal

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools
from kinematics.planning.articulation import judged_poses
from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.findings import SEVERITIES, Severity
from kinematics.planning.grazing import GRAZING_TRAVEL_MM
from kinematics.planning.guidance_kinds import (
    CANINE,
    CANINE_WITH_INCISORS,
    Pair,
    role,
    working_side,
)
from kinematics.planning.guidance_stretches import EQUAL_MM, Stretch, stretches, travel_of_kinds
from kinematics.planning.guidance_without import GuidanceWithout, guidance_without
from kinematics.planning.occlusion import Occlusion
from kinematics.tooth_codes import place

Weakness = Literal[
    "replacement tooth",
    "pontic",
    "implant",
    "post crown",
    "root-filled",
    "mobile",
    "loose",
    "reduced bone",
    "half of the bone lost",
]

#: Bone support below which a canine is questioned, and at which the question is serious, percent.
SOUND_BONE_PERCENT: Final = 75.0
HALF_BONE_PERCENT: Final = 50.0
_PRACTICE: Final = "common practice"
_CHOSEN: Final = "common practice; the limit is chosen for this program"


@dataclass(frozen=True)
class WeaknessRow:
    """One row of the table of weak canines.

    Attributes
    ----------
    weakness : str
        What the canine is, in a word or two.
    severity : str
        How grave it is that it guides alone.
    text : str
        Why, as the end of a sentence.
    source : str
        Where the row comes from.
    """

    weakness: Weakness
    severity: Severity
    text: str
    source: str


#: Canines that should not guide alone, and how grave it is if they do.
WEAKNESS_RULE: Final[tuple[WeaknessRow, ...]] = (
    WeaknessRow(
        "replacement tooth",
        "serious",
        "a replacement tooth passes every push across its axis to the base, which turns about its"
        " supports",
        _PRACTICE,
    ),
    WeaknessRow(
        "loose",
        "serious",
        "a tooth that can be moved by 1 mm or more guides nothing, and is worked looser",
        _PRACTICE,
    ),
    WeaknessRow(
        "half of the bone lost",
        "serious",
        f"with {HALF_BONE_PERCENT:g} % of its bone or less the same push turns its root much more",
        _CHOSEN,
    ),
    WeaknessRow(
        "implant",
        "attention",
        "an implant gives way by 3 to 5 µm along its axis, a tooth by 25 to 100 µm, and it feels"
        " less: it would take the load before the teeth do",
        "Kim et al., Clin Oral Implants Res 2005;16:26-35 (from memory); that it should not guide"
        " alone: common practice",
    ),
    WeaknessRow(
        "pontic",
        "attention",
        "a push across a pontic turns the bridge about its abutments",
        _PRACTICE,
    ),
    WeaknessRow(
        "post crown",
        "attention",
        "a push across a post works as a lever in the root, which may split or let go",
        _PRACTICE,
    ),
    WeaknessRow(
        "root-filled",
        "attention",
        "a root-filled tooth has lost tooth structure and breaks more easily under a push from"
        " the side",
        _PRACTICE,
    ),
    WeaknessRow(
        "mobile",
        "attention",
        "a mobile tooth gives way as it guides, and the teeth behind it come to meet",
        _PRACTICE,
    ),
    WeaknessRow(
        "reduced bone",
        "attention",
        f"with less than {SOUND_BONE_PERCENT:g} % of its bone the same push turns its root more",
        _CHOSEN,
    ),
)

#: Kind of the stretches of one canine while their travel is measured.
_ITS_OWN: Final = "its own"

_OF_CONDITION: Final[tuple[tuple[Weakness, Callable[[ToothCondition], bool]], ...]] = (
    ("loose", lambda tooth: tooth.mobility_degree >= 2),
    ("half of the bone lost", lambda tooth: tooth.bone_support_percent <= HALF_BONE_PERCENT),
    ("implant", lambda tooth: tooth.implant),
    ("post crown", lambda tooth: tooth.post),
    ("root-filled", lambda tooth: tooth.root_filled and not tooth.post),
    ("mobile", lambda tooth: tooth.mobility_degree == 1),
    (
        "reduced bone",
        lambda tooth: HALF_BONE_PERCENT < tooth.bone_support_percent < SOUND_BONE_PERCENT,
    ),
)


@dataclass(frozen=True)
class WeakCanine:
    """A canine that guides a movement to its side though it should not guide alone.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    rows : tuple of WeaknessRow
        What is weak about it, gravest first.
    pairs : tuple of (int, int)
        Pairs in which it guides, upper and lower tooth.
    travel_mm : float
        Judged travel over which a canine guides, alone or with incisors, this one among its pairs.
    from_mm, to_mm : float
        First and last travel of that.
    of_mm : float
        All judged travel.
    instead : GuidanceWithout
        What guides there if it is taken out.
    """

    tooth: int
    rows: tuple[WeaknessRow, ...]
    pairs: tuple[Pair, ...]
    travel_mm: float
    from_mm: float
    to_mm: float
    of_mm: float
    instead: GuidanceWithout

    @property
    def severity(self) -> Severity:
        """Severity of the gravest row."""
        return self.rows[0].severity


def weaknesses(occlusion: Occlusion, code: int) -> tuple[WeaknessRow, ...]:
    """Return what is weak about a tooth, gravest first, else in the order of the table."""
    named: set[Weakness] = set()
    if code in occlusion.replacement_teeth:
        named.add("replacement tooth")
    if code in occlusion.pontics:
        named.add("pontic")
    told = [condition for condition in occlusion.conditions if condition.tooth == code]
    named |= {word for word, is_so in _OF_CONDITION for condition in told if is_so(condition)}
    found = (row for row in WEAKNESS_RULE if row.weakness in named)
    return tuple(sorted(found, key=lambda row: -SEVERITIES.index(row.severity)))


def weak_canines(occlusion: Occlusion, sweep: Sweep) -> tuple[WeakCanine, ...]:
    """Return the weak canines that guide a movement to their side, by tooth number.

    A canine guides where the kind of guidance is "canine" or "canine with incisors" over most of
    the judged travel, or over as much of it on the whole as makes a guidance.

    Parameters
    ----------
    occlusion : Occlusion
        The arches, and what is known about their teeth.
    sweep : Sweep
        One excursion; a straight one has no canine guidance.
    """
    mask = judged_poses(sweep, occlusion.settings)
    if working_side(sweep.excursion) == 0 or not mask.any():
        return ()
    parts = stretches(sweep, mask, occlusion.settings.tolerance_mm)
    whole_mm = sum(travel_of_kinds(parts).values())
    return tuple(_questioned(occlusion, sweep, mask, parts, whole_mm))


def _questioned(
    occlusion: Occlusion,
    sweep: Sweep,
    mask: Bools,
    parts: tuple[Stretch, ...],
    whole_mm: float,
) -> Iterator[WeakCanine]:
    side = working_side(sweep.excursion)
    led = [part for part in parts if part.kind in (CANINE, CANINE_WITH_INCISORS)]
    pairs = [pair for part in led for pair in part.guiding if role(pair, side) == "canine"]
    canines = sorted({code for pair in pairs for code in pair if place(code) == 3})
    for code in canines:
        rows = weaknesses(occlusion, code)
        own = [part for part in led if any(code in pair for pair in part.guiding)]
        # As other kinds are measured: between two stretches each takes half of the step.
        marked = tuple(
            part if part not in own else Stretch(part.from_mm, part.to_mm, _ITS_OWN, (), ())
            for part in parts
        )
        travel_mm = travel_of_kinds(marked)[_ITS_OWN]
        enough = 2.0 * travel_mm > whole_mm or travel_mm > GRAZING_TRAVEL_MM - EQUAL_MM
        if not rows or not enough:
            continue
        first, last = own[0].from_mm, own[-1].to_mm
        asked = mask & (sweep.travel_mm >= first) & (sweep.travel_mm <= last)
        yield WeakCanine(
            tooth=code,
            rows=rows,
            pairs=tuple(dict.fromkeys(pair for pair in pairs if code in pair)),
            travel_mm=travel_mm,
            from_mm=first,
            to_mm=last,
            of_mm=whole_mm,
            instead=guidance_without(occlusion, sweep, frozenset({code}), asked),
        )
