"""Arches whose surfaces yield where they overlap at the bite, and a record of how much they do."""

from dataclasses import dataclass, replace

import numpy as np

from kinematics.casts.casts import Arch, carried
from kinematics.contact.gap_maps import arc_map
from kinematics.contact.pair import Pair, lower_tree, prepare
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.scans.seating import DEEPEST_MM, Overlaps, Seating, seat
from kinematics.scans.yielding import back_along_arcs, edges_parted


@dataclass(frozen=True)
class ToothOverlap:
    """The deepest overlap of one tooth, mm: in the bite as scanned, and what was let in."""

    code: int
    as_scanned_mm: float
    let_in_mm: float


@dataclass(frozen=True)
class SeatingRecord:
    """How the lower cast was seated at the bite.

    Attributes
    ----------
    allowance_mm : float
        Overlap that may be let in.
    as_scanned_mm, seated_mm : float
        Deepest overlap in the bite as scanned or recorded, and after the lower was moved.
    move : ndarray, shape (4, 4)
        Motion of the lower in the hinge frame, before the jaw closes.
    moved_mm : float
        Greatest distance by which that moves a vertex of the lower.
    by_tooth : tuple of ToothOverlap
        Teeth that overlap in the bite as scanned or after it.
    edges_mm : float
        By how much either side yielded besides, at most, where edges crossed between vertices.
    """

    allowance_mm: float
    as_scanned_mm: float
    seated_mm: float
    move: Floats
    moved_mm: float
    by_tooth: tuple[ToothOverlap, ...]
    edges_mm: float = 0.0


def let_in(
    upper: Arch, lower: Arch, pose: Floats, allowance_mm: float, workers: Workers
) -> tuple[Arch, Arch, SeatingRecord, Overlaps]:
    """Seat the lower at the bite, and let surfaces yield where they still overlap.

    Parameters
    ----------
    upper, lower : Arch
        In the hinge frame, the lower in the bite as scanned or recorded.
    pose : ndarray, shape (4, 4)
        hinge_from_lower in MI, at opening 0: says where the hinge axis lies there.
    allowance_mm : float
        Overlap that may be let in. At 0 nothing is moved and nothing yields: the rigid answer.
    workers : Workers
        Threads.

    Returns
    -------
    upper, lower : Arch
        In the hinge frame, the lower seated.
    record : SeatingRecord
        What was done; overlaps are told at an allowance of 0 too.
    overlaps : Overlaps
        In the bite as scanned or recorded, of every vertex.
    """
    standing = carried(lower, inverse(pose))
    pair = prepare(upper, standing, workers.threads)
    measured_only = allowance_mm == 0.0
    limit_mm = np.inf if measured_only else allowance_mm
    found = seat(upper.mesh, standing.mesh, pair, pose, limit_mm, workers)
    if measured_only:
        return upper, lower, _record(upper, lower, found, allowance_mm), found.as_scanned
    below = carried(carried(lower, found.move), inverse(pose))
    # The lower yields first, as its vertices stand against the upper; what then still sticks out
    # between them is the upper's to yield, and edges that cross are parted last.
    pair = Pair(pair.upper, lower_tree(below))
    past = arc_map(pair, pose, DEEPEST_MM, workers).lower_mm
    below = replace(below, mesh=back_along_arcs(below.mesh, past, np.eye(4), 1.0))
    pair = Pair(pair.upper, lower_tree(below))
    past = arc_map(pair, pose, DEEPEST_MM, workers).upper_mm
    above = replace(upper, mesh=back_along_arcs(upper.mesh, past, inverse(pose), -1.0))
    above, below, yielded_mm = edges_parted(above, below, pose, workers)
    record = replace(_record(upper, lower, found, allowance_mm), edges_mm=yielded_mm)
    return above, carried(below, pose), record, found.as_scanned


def _record(upper: Arch, lower: Arch, found: Seating, allowance_mm: float) -> SeatingRecord:
    """Tell what seating found and did, tooth by tooth."""
    moved = move_points(found.move, lower.mesh.vertices) - lower.mesh.vertices
    rows = []
    for arch, name in ((upper, "upper_mm"), (lower, "lower_mm")):
        for code in arch.codes:
            used = np.unique(arch.mesh.faces[arch.tooth_of_face == code])
            deepest = [
                float(getattr(overlaps, name)[used].max())
                for overlaps in (found.as_scanned, found.seated)
            ]
            if max(deepest) > 0.0:
                rows.append(ToothOverlap(code, deepest[0], deepest[1] if allowance_mm else 0.0))
    return SeatingRecord(
        allowance_mm,
        found.as_scanned.deepest_mm,
        found.seated.deepest_mm,
        found.move,
        float(np.linalg.norm(moved, axis=1).max()),
        tuple(rows),
    )
