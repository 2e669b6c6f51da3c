"""In which order what a whole run found of a case would be done."""

from collections.abc import Iterator

from kinematics.case import Case
from kinematics.checkup_result import Checkup
from kinematics.planning.centric_basis import CENTRIC_STEPS, CentricBasis, centric_basis
from kinematics.planning.extent_rules import LEFT_TO_ERUPT
from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.sequence.abutment_items import (
    changed_opponents,
    clasp_items,
    guide_items,
    seat_items,
)
from kinematics.planning.sequence.adjusting_items import adjusting_items
from kinematics.planning.sequence.conflicts import decisions, reconciled
from kinematics.planning.sequence.crown_items import crown_items
from kinematics.planning.sequence.finding_items import finding_items
from kinematics.planning.sequence.making_items import Made, check_items, making_items
from kinematics.planning.sequence.ordering import Wanted, in_order
from kinematics.planning.sequence.plane_items import plane_items
from kinematics.planning.sequence.remedy_items import cleared_teeth, remedy_items
from kinematics.planning.sequence.set_up_items import set_up_items
from kinematics.planning.sequence.steps import Item, OrderOfWork
from kinematics.planning.sequence.trial_items import trial_items
from kinematics.planning.wording import sentence

#: Kinds of findings about teeth that nothing stops.
_UNSTOPPED = (LEFT_TO_ERUPT, "tooth behind a set-up without a stop")


def order_of_work(case: Case, found: Checkup) -> OrderOfWork:
    """Return the steps that a case needs, in order, with the amounts of every tooth.

    Parameters
    ----------
    case : Case
        What was asked.
    found : Checkup
        All that a whole run found of it.
    """
    wanted = reconciled(
        _prepared(case, found),
        _crowned(case),
        changed_opponents(
            found.rooms, _out_of_line(case, found, 1.0), _out_of_line(case, found, -1.0)
        ),
        case.tooth_conditions,
    )
    made = _made(case, found, wanted)
    after = (
        *making_items(made, found.verdicts, found.surveys, found.rooms),
        *check_items(made, _unstopped(found)),
    )
    return in_order((*_before(found, wanted), *wanted, *after))


def _prepared(case: Case, found: Checkup) -> Iterator[Wanted]:
    """Yield all that the parts of a run ask for, up to the set-up."""
    replaced = {*case.replacement_teeth, *case.pontics}
    scatter_mm = case.judging.record_scatter_mm
    adjusted = [(item.planned, item.outcome) for item in found.adjusted]
    cut = {one.tooth for planned, _ in adjusted for one in planned.cuts}
    groups = finding_groups(found.findings, case.denture_bases)
    yield from trial_items(case.change, replaced)
    for item in crown_items(found.rooms.crowns, scatter_mm):
        yield "crowns", item
    for item in plane_items(found.planes, case.occlusal_plane.limit_mm):
        yield "occlusal plane", item
    yield from adjusting_items(adjusted, replaced, scatter_mm)
    for item in guide_items(found.surveys, found.frameworks):
        yield "guide planes", item
    for item in clasp_items(found.surveys):
        yield "clasp undercuts", item
    for item in seat_items(found.rooms, replaced, scatter_mm):
        yield "rest seats", item
    margin_mm = case.judging.approach_margin_mm
    for item in set_up_items(
        case.denture_bases, case.bridges, found.extents, found.replacement, margin_mm
    ):
        yield "set-up", item
    yield from remedy_items(found.remedies, replaced, cut)
    yield from finding_items(groups, replaced, cut | cleared_teeth(found.remedies), _basis(found))


def _basis(found: Checkup) -> CentricBasis:
    return centric_basis(on_scans=found.scans is not None, recorded=found.centric is not None)


def _crowned(case: Case) -> set[int]:
    """Return the natural teeth that get a crown, as planned or as on trial."""
    replaced = {*case.replacement_teeth, *case.pontics}
    on_trial = {change.tooth for change in case.change if change.kind == "crown"}
    return {crown.tooth for crown in case.crowns} | (on_trial - replaced)


def _out_of_line(case: Case, found: Checkup, way: float) -> set[int]:
    """Return the teeth that stand above the curve of their arch (1) or short of it (-1)."""
    limit = case.occlusal_plane.limit_mm
    return {
        tooth.tooth
        for plane in found.planes
        for tooth in plane.teeth
        if tooth.is_out_of_line(limit) and way * tooth.along_axis_mm > 0.0
    }


def _made(case: Case, found: Checkup, wanted: tuple[Wanted, ...]) -> Made:
    joined = [code for bridge in case.bridges for code in bridge.joined]
    cut = frozenset(
        code
        for kind, item in wanted
        if kind not in ("settle", "set-up") and (item.cuts or kind == "occlusal plane")
        for code in item.teeth
    )
    return Made(
        bases=case.denture_bases,
        frameworks=found.frameworks,
        others=tuple(dict.fromkeys((*sorted(_crowned(case)), *joined))),
        cut=cut,
        raised=found.raised,
        closes_mm=max((item.outcome.closes_mm for item in found.adjusted), default=0.0),
    )


def _unstopped(found: Checkup) -> set[int]:
    return {
        code
        for finding in found.findings
        if finding.kind in _UNSTOPPED
        for code in (finding.tooth_upper, finding.tooth_lower)
        if code
    }


def _before(found: Checkup, wanted: tuple[Wanted, ...]) -> Iterator[Wanted]:
    """Yield what comes before anything is cut: compare with the mouth, and choose."""
    cut = sorted({code for _, item in wanted if item.cuts for code in item.teeth})
    if cut:
        yield (
            "settle",
            Item(
                tuple(cut),
                "",
                "Compare marks of the mouth with the check list; where they differ, cut nothing.",
                "check list at the chair",
                because="Casts, records and mounting may be wrong; cut enamel does not grow back.",
            ),
        )
    chosen = decisions(wanted)
    if chosen:
        teeth = sorted({code for _, item in wanted if item.choices for code in item.teeth})
        text = f"Choose a way for {chosen}: the ways stand with the steps."
        yield "settle", Item(tuple(teeth), "", text, "later steps")
    if wanted and _basis(found) == "assumed":
        text = sentence(CENTRIC_STEPS["assumed"])
        yield "settle", Item((), "", text, "what the records cannot tell")
