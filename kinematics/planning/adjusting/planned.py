"""What would have to come off so that an adjustment reaches its aim: the engine.

Nothing is cut here: `adjusted_casts` makes the casts of what is planned.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.casts.crown_directions import crown_of
from kinematics.contact.gap_maps import distance_map
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.pair import Pair as Trees
from kinematics.contact.pair import lower_tree, upper_tree
from kinematics.contact.sweep import Sweep
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.planning.adjusting.aims import shared_out, too_high
from kinematics.planning.adjusting.cutting_rules import CuttingRule
from kinematics.planning.adjusting.flat_stop import flat_depth, flat_width_mm
from kinematics.planning.adjusting.high_contacts import HighContact
from kinematics.planning.adjusting.protected_stops import may_come_off
from kinematics.planning.adjusting.settings import FLAT_STOP, Adjustment
from kinematics.planning.adjusting.tooth_cut import CutSurface, cut_tooth, tooth_part
from kinematics.planning.adjusting.wanted_paths import WantedPath
from kinematics.planning.contact_runs import point_of
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.stops import Stop
from kinematics.planning.tooth_regions import region_words
from kinematics.tooth_codes import is_upper

#: Less than this is not worth cutting, mm along the closing arc (chosen for this program).
LEAST_CUT_MM: Final = 2e-3


@dataclass(frozen=True)
class ToothCut:
    """What comes off one tooth.

    Attributes
    ----------
    surface : CutSurface
        The tooth before and after.
    against : tuple of int
        Teeth of the other arch that it clears then.
    rules : tuple of CuttingRule
        Rows of the table that fit its contacts.
    by_rule : bool
        False where the case names the arch that is cut.
    square_mm : ndarray, shape (k,)
        Depth at every vertex, square to the uncut surface: shortest distance from it.
    place : tuple of float
        The deepest place, hinge frame, MI, mm.
    region : str
        Where on the crown it lies.
    excursion : str
        Movement in which its highest contact is highest.
    travel_mm : float
        Travel there.
    height_mm : float
        By how much it is too high there, the margin included, along the closing arc.
    flat_mm : float or None
        Width of the flat stop that comes of it, where one is asked for.
    """

    surface: CutSurface
    against: tuple[int, ...]
    rules: tuple[CuttingRule, ...]
    by_rule: bool
    square_mm: Floats
    place: tuple[float, float, float]
    region: str
    excursion: str
    travel_mm: float
    height_mm: float
    flat_mm: float | None = None

    @property
    def tooth(self) -> int:
        """ISO 3950 number."""
        return self.surface.tooth

    @property
    def deepest_mm(self) -> float:
        """Greatest depth along the closing arc."""
        return float(self.surface.arc_mm.max())

    @property
    def deepest_square_mm(self) -> float:
        """Greatest depth square to the uncut surface."""
        return float(self.square_mm.max())

    @property
    def order(self) -> int:
        """When it is cut, by the first of its rules."""
        return min(rule.order for rule in self.rules)


@dataclass(frozen=True)
class Planned:
    """What one adjustment takes.

    Attributes
    ----------
    adjustment : Adjustment
        What is asked for.
    cuts : tuple of ToothCut
        One a tooth, in the order of cutting.
    hinders : tuple of str
        What keeps it from its aim, a sentence each.
    """

    adjustment: Adjustment
    cuts: tuple[ToothCut, ...]
    hinders: tuple[str, ...]


def plan(
    occlusion: Occlusion,
    sweeps: Sequence[Sweep],
    stops: tuple[Stop, ...],
    adjustment: Adjustment,
) -> Planned:
    """Find what would have to come off, and from which teeth.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    sweeps : sequence of Sweep
        Its excursions, the first from MI.
    stops : tuple of Stop
        Its centric stops.
    adjustment : Adjustment
        The aim.
    """
    contacts, hinders = too_high(occlusion, sweeps, adjustment)
    by_tooth = shared_out(occlusion, sweeps, stops, adjustment, contacts)
    tasks = [
        partial(_cut, occlusion, stops, adjustment, code, own, rules)
        for code, (own, rules) in by_tooth.items()
    ]
    cuts, left = [], []
    for cut, why in occlusion.workers.side_by_side(tasks):
        left += why
        if cut is not None:
            cuts.append(cut)
    order = sorted(cuts, key=lambda cut: (cut.order, cut.tooth))
    return Planned(adjustment, tuple(order), tuple(dict.fromkeys((*hinders, *left))))


def _cut(
    occlusion: Occlusion,
    stops: tuple[Stop, ...],
    adjustment: Adjustment,
    code: int,
    contacts: list[HighContact],
    rules: list[CuttingRule],
    workers: Workers,
) -> tuple[ToothCut | None, list[str]]:
    """Return what comes off one tooth, and what keeps it from reaching the aim."""
    casts = occlusion.casts
    own = 0 if is_upper(code) else 1
    against = frozenset(one.pair[1 - own] for one in contacts)
    mesh, _, _ = tooth_part(casts.upper if is_upper(code) else casts.lower, code)
    count = len(mesh.vertices)
    radius = _from_axis_mm(casts, code, mesh.vertices)
    cleared = [path.cleared(adjustment.margin_mm, radius) for path in _paths(contacts)]
    kept = () if adjustment.is_in_mi else stops
    most = np.minimum(adjustment.deepest_mm, may_come_off(casts, code, mesh.vertices, kept))
    worst = max(contacts, key=lambda one: one.height_mm)
    flat = adjustment.so_that == FLAT_STOP
    least = np.zeros(count)
    if flat:
        least = flat_depth(occlusion, code, mesh.vertices, worst, adjustment.width_mm)
    poses = np.concatenate(cleared)
    surface = cut_tooth(casts, code, against, poses, most, least, workers)
    why = _left_words(occlusion, adjustment, contacts, surface)
    if surface.arc_mm.max() < LEAST_CUT_MM:
        return None, why
    width = flat_width_mm(surface, least) if flat else None
    if width is not None and width < 0.9 * adjustment.width_mm:
        why.append(
            f"tooth {code}: the flat stop is only {width:.2f} mm wide, of {adjustment.width_mm:g}"
            " mm asked for: at the height at which it carries the hump is no wider"
        )
    return _told(occlusion, code, against, rules, adjustment, surface, worst, width), why


def _from_axis_mm(casts: MountedCasts, code: int, vertices: Floats) -> float:
    """Return how far the middle of a tooth lies from the hinge axis, the jaw in MI."""
    middle = vertices.mean(axis=0)[None]
    x, _, z = (move_points(inverse(casts.mi_pose), middle) if is_upper(code) else middle)[0]
    return float(np.hypot(x, z))


def _paths(contacts: list[HighContact]) -> list[WantedPath]:
    """Return every path once, in order."""
    return list({one.path.name: one.path for one in contacts}.values())


def _left_words(
    occlusion: Occlusion,
    adjustment: Adjustment,
    contacts: list[HighContact],
    surface: CutSurface,
) -> list[str]:
    """Return what is left in the way, and what keeps it there."""
    if surface.left_pose < 0:
        return []
    number, where = surface.left_pose, None
    for path in _paths(contacts):
        if number < len(path.poses):
            where = path
            break
        number -= len(path.poses)
    assert where is not None
    deep = surface.arc_mm.max() >= adjustment.deepest_mm - 1e-9
    if deep:
        because = f"no cut is to be deeper than deepest_mm = {adjustment.deepest_mm:g}"
    elif surface.is_held:
        because = "more would take a wanted stop in MI; cut the other tooth, or accept another stop"
    else:
        because = "its triangles are too large for a closer answer"
    at = "" if where.in_mi else f" at {float(where.travel_mm[number]):.1f} mm of travel"
    return [
        f"{occlusion.name_of(surface.tooth)} stays {surface.left_mm:.3f} mm too near in"
        f" {where.words}{at}: {because}"
    ]


def _told(
    occlusion: Occlusion,
    code: int,
    against: frozenset[int],
    rules: list[CuttingRule],
    adjustment: Adjustment,
    surface: CutSurface,
    worst: HighContact,
    width_mm: float | None,
) -> ToothCut:
    casts = occlusion.casts
    arch = casts.upper if is_upper(code) else casts.lower
    deepest = surface.before.vertices[int(np.argmax(surface.arc_mm))]
    in_hinge = deepest
    if not is_upper(code):
        in_hinge = casts.mi_pose[:3, :3] @ deepest + casts.mi_pose[:3, 3]
    return ToothCut(
        surface=surface,
        against=tuple(sorted(against)),
        rules=tuple(sorted(rules, key=lambda rule: rule.order)),
        by_rule=adjustment.cut == "by the rule",
        square_mm=square_depths_mm(surface),
        place=point_of(in_hinge),
        region=region_words(crown_of(arch, code), deepest),
        excursion=worst.path.name,
        travel_mm=worst.travel_mm,
        height_mm=worst.height_mm,
        flat_mm=width_mm,
    )


def square_depths_mm(surface: CutSurface) -> Floats:
    """Return how far every vertex (k,) of a cut surface lies from the uncut one, mm."""
    codes = np.full(len(surface.before.faces), surface.tooth)
    both = Trees(
        upper_tree(Arch(surface.before, codes, ())), lower_tree(Arch(surface.after, codes, ()))
    )
    limit = float(surface.arc_mm.max()) + 0.01
    found = distance_map(both, np.eye(4), limit).lower_mm
    return np.where(surface.arc_mm > 0.0, found, 0.0)


def in_order(adjustments: Sequence[Adjustment]) -> tuple[Adjustment, ...]:
    """Return adjustments in the order in which they are made: what is high in MI first."""
    return tuple(sorted(adjustments, key=lambda item: not item.is_in_mi))
