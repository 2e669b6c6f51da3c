"""Graver findings without an amount of their own, each as an item of the step that it asks for."""

import math
from collections.abc import Collection, Iterable, Iterator
from typing import Final

from kinematics.planning.canine_findings import WEAK_CANINE
from kinematics.planning.centric_basis import CENTRIC_STEPS, CentricBasis
from kinematics.planning.extent_rules import LEFT_TO_ERUPT, ON_RIDGE
from kinematics.planning.finding_groups import (
    MOST_APART,
    REPLACEMENT_NEAR,
    REPLACEMENT_TOUCHES,
    FindingGroup,
)
from kinematics.planning.group_wording import group_sentence, kind_words
from kinematics.planning.outlier_contacts import OUTLIER_KIND
from kinematics.planning.plane.plane_findings import PLANE_KINDS
from kinematics.planning.rim_contacts import RIM_KIND
from kinematics.planning.rooms.room_rules import ROOM_KINDS
from kinematics.planning.scheme_findings import BALANCE_MISSED
from kinematics.planning.sequence.ordering import Wanted
from kinematics.planning.sequence.steps import Amount, Item, Part, StepKind
from kinematics.planning.surveying.survey_rules import SURVEY_RULES
from kinematics.planning.wording import enumeration, sentence

#: Kinds whose teeth and amounts other items tell.
TOLD_WITH_AMOUNTS: Final = frozenset(
    (
        *PLANE_KINDS,
        *ROOM_KINDS,
        *(rule.kind for rule in SURVEY_RULES),
        REPLACEMENT_TOUCHES,
        REPLACEMENT_NEAR,
    )
)
#: Kinds that are answered in the set-up.
_IN_SET_UP: Final = (BALANCE_MISSED, ON_RIDGE, LEFT_TO_ERUPT)
#: Kinds that are, where they speak of a replacement tooth.
_IN_SET_UP_IF_REPLACED: Final = (
    "stops off the axis",
    "no centric stop",
    "anterior contact in MI",
    WEAK_CANINE,
)
_OF_SCANS: Final = (RIM_KIND, OUTLIER_KIND)
_HEIGHT: Final = "height along the closing arc"
#: What holds the other teeth open by less than this is not cut, mm (chosen for this program: the
#: usual contact tolerance).
LEAST_CUT_MM: Final = 0.02
_NOT_WORKED_OUT: Final = (
    "how much would come off is not worked out: ask for it under [[adjustments]] of the case file"
)


def finding_items(
    groups: Iterable[FindingGroup],
    replaced: Collection[int],
    adjusted: Collection[int],
    centric: CentricBasis,
) -> Iterator[Wanted]:
    """Yield one item a group of findings graver than notes, what others rest on first.

    Parameters
    ----------
    groups : iterable of FindingGroup
        All findings of a case, in groups.
    replaced : collection of int
        Replacement teeth and pontics.
    adjusted : collection of int
        Teeth that adjustments of the case cut, or for which a change was found that clears them:
        what they interfere with is told there.
    centric : CentricBasis
        What is known of centric relation.
    """
    graver = [group for group in groups if group.severity != "note"]
    for group in sorted(graver, key=lambda one: kind_words(one.kind).turn):
        if group.kind in TOLD_WITH_AMOUNTS:
            continue
        kind = _step_of(group, replaced)
        if kind == "adjustment" and _is_adjusted(group, adjusted):
            continue
        yield kind, _item(group, kind, centric)


def _is_adjusted(group: FindingGroup, adjusted: Collection[int]) -> bool:
    return all(any(code in adjusted for code in pair) for pair in group.pairs)


def _step_of(group: FindingGroup, replaced: Collection[int]) -> StepKind:
    with_replaced = any(code in replaced for code in group.teeth)
    if group.kind in _IN_SET_UP or (with_replaced and group.kind in _IN_SET_UP_IF_REPLACED):
        return "set-up"
    if _interferes(group):
        if with_replaced:
            return "set-up"
        return "settle" if len(group.pairs) > MOST_APART or _is_slight(group) else "adjustment"
    return "settle"


def _is_slight(group: FindingGroup) -> bool:
    """Tell whether what interferes is too little to be cut."""
    held = _held_mm(group)
    return bool(held) and max(held) < LEAST_CUT_MM


def _held_mm(group: FindingGroup) -> list[float]:
    """Return by how much each finding holds the other teeth open, as far as that is known."""
    return [
        figure.value
        for finding in group.findings
        for figure in finding.figures
        if figure.name.startswith(_HEIGHT) and 0.0 < figure.value < math.inf
    ]


def _interferes(group: FindingGroup) -> bool:
    return group.kind.endswith("interference") or group.kind == "nonworking contact"


def _item(group: FindingGroup, kind: StepKind, centric: CentricBasis) -> Item:
    text = kind_words(group.kind).step
    named = enumeration(group.teeth) or "the teeth"
    held = _held_mm(group)
    amounts = (Amount("holds the other teeth open by up to", max(held)),) if held else ()
    cautions = []
    if kind == "settle" and _interferes(group) and len(group.pairs) <= MOST_APART:
        text = "see whether foil marks {teeth} in the excursions named: so little is not cut"
    elif kind == "settle" and _interferes(group):
        text = "see to what should guide and does not; do not cut these teeth one by one"
        cautions.append("so many pairs interfere for one reason")
    if not group.determined:
        cautions.append("the records of this case do not decide it")
    if kind == "adjustment":
        cautions.append(_NOT_WORKED_OUT)
    return Item(
        teeth=group.teeth,
        where="",
        text=sentence(text.format(teeth=named, limit="the limit", centric=CENTRIC_STEPS[centric])),
        part=_part(group),
        because=sentence(group_sentence(group).partition(";")[0]),
        amounts=amounts,
        cautions=tuple(cautions),
        cuts=kind == "adjustment",
    )


def _part(group: FindingGroup) -> Part:
    return "scans" if group.kind in _OF_SCANS else "findings"
