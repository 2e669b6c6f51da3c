"""Upper teeth formed by the movement itself: cut and built up to the swept envelope of the lower.

A functionally generated path (Glossary of Prosthodontic Terms): the lower teeth move on a guide
table, and what they sweep shapes the opposing surfaces. Here the sweep is exact closure and
envelope: surfaces that stand in the way are cut, surfaces that stay a little short are built up,
so that the teeth named share contact along the whole path. Teeth that are not to touch are cut to a
clearance.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.casts.casts import NO_TOOTH, Arch
from kinematics.checks import NotConverged
from kinematics.contact.closure import MEETS, close
from kinematics.contact.envelope import Measure, Side, envelope
from kinematics.contact.mounted import MountedCasts, mount
from kinematics.contact.pair import LeaveOut, Pair, prepare, upper_tree
from kinematics.contact.workers import Workers
from kinematics.conventions import LEFT, RIGHT, Bools, Floats, Ints
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import inverse, move_points, opening_rotation
from kinematics.guidance.excursions import (
    RETRUSION,
    Excursion,
    along,
    greatest_progress,
    lateroprotrusion,
    left_lateral,
    protrusion,
    retrusion,
    right_lateral,
)
from kinematics.guidance.guide_table import prepare_table
from kinematics.guidance.incisal_guide import table_opening
from kinematics.guidance.mandible import JawPositions, opened, place
from kinematics.guidance.settings import IncisalTable
from kinematics.teeth.generated_path_settings import RETRUSIVE, GeneratedPath
from kinematics.teeth.moves_without_cliffs import without_cliffs
from kinematics.tooth_codes import is_posterior, is_right

#: Poses along each path, mm of condylar advance.
STEP_MM: Final = 0.1
#: The same on the short way back to CR.
RETRUSIVE_STEP_MM: Final = 0.02
#: Lateroprotrusions that are followed beside straight protrusion, degrees.
FORWARD_DEG: Final = (-45.0, 45.0)
#: Overlaps are measured up to this depth, gaps too, mm.
LIMIT_MM: Final = 3.0
#: Contacts are built up from this travel on; nearer to MI the stops stay as they are, mm.
BUILT_FROM_MM: Final = 0.25
#: Built up is what comes nearer to the lower teeth on the path than in MI, by more than the first,
#: in full by the second, mm.
MI_GUARD_MM: Final = 0.03
MI_FADE_MM: Final = 0.05
#: What is built up stays this much short of the envelope at the vertices, since edges between
#: them reach a little farther, mm.
SHORT_MM: Final = 0.006
#: Clearance grows from nothing in MI to its full amount at this travel, mm.
CLEAR_FROM_MM: Final = 0.6
#: Triangles farther from the lower teeth than this in all poses need no cutting, mm.
NEAR_MM: Final = 0.1
#: Rounds of moving vertices to the envelope, and of cutting what still stands in the way between
#: them; overlap that is left at the end, mm.
VERTEX_ROUNDS: Final = 2
CUT_ROUNDS: Final = 60
LEFT_OVER_MM: Final = 5e-4
#: Poses in which a tooth stays farther away than this need not be looked at again, mm.
RECHECKED_MM: Final = 0.02
#: A cut takes this much more than the overlap, mm.
CUT_MORE_MM: Final = 2e-4


@dataclass(frozen=True)
class _Sweep:
    """Poses of one excursion on the guide table.

    `poses` (n, 4, 4) as guided, `cleared` the same, closed further by the clearance; `travel_mm`
    (n,) of the incisal point; `side` works, 0 for none. Where the front teeth guide and not the
    table, only back teeth are cut. Contacts are built up from `built_from_mm` of travel on.
    """

    excursion: Excursion
    poses: Floats
    cleared: Floats
    travel_mm: Floats
    side: int
    on_table: bool
    built_from_mm: float = BUILT_FROM_MM


def formed(casts: MountedCasts, given: GeneratedPath, workers: Workers) -> MountedCasts:
    """Return the casts with upper teeth formed by their movement on a guide table.

    Parameters
    ----------
    casts : MountedCasts
        As settled, closed in MI; stops in MI are kept.
    given : GeneratedPath
        Table, teeth that share contact, and limits.
    workers : Workers
        Threads; results do not depend on them.

    Raises
    ------
    NotConverged
        Something still stands in the way after the last round.
    """
    sweeps = _sweeps(casts, given, workers)
    code = _code_of_vertex(casts.upper)
    vertices = casts.upper.mesh.vertices.copy()
    for number in range(VERTEX_ROUNDS):
        pair = casts.pair if number == 0 else _pair(casts, vertices)
        move = _moves(casts, pair, given, sweeps, code, number == 0, workers)
        vertices = _moved(casts, vertices, without_cliffs(casts.upper.mesh.faces, vertices, move))
    vertices = _cut(casts, vertices, _touching_poses(casts, sweeps), given.spared, workers)
    upper = replace(casts.upper, mesh=mesh_of(vertices, casts.upper.mesh.faces))
    start = replace(casts.mi, opening_rad=0.0)
    return mount(
        upper,
        casts.lower,
        prepare(upper, casts.lower, workers.threads),
        casts.guidance,
        start,
        casts.incisal_point,
    )


def _sweeps(casts: MountedCasts, given: GeneratedPath, workers: Workers) -> list[_Sweep]:
    """Return the way back to CR, and excursions: on the table, forward ones on front teeth too."""
    back = [_swept_back(casts)] if RETRUSIVE in given.contacts else []
    if given.contacts == (RETRUSIVE,):
        return back
    forward = (protrusion(), *(lateroprotrusion(azimuth) for azimuth in FORWARD_DEG))
    shared = "protrusion" in given.contacts
    found = [_swept(casts, given, e, True, workers) for e in (right_lateral(), left_lateral())]
    return back + found + [_swept(casts, given, e, shared, workers) for e in forward]


def _swept_back(casts: MountedCasts) -> _Sweep:
    """Return the way from MI to CR with the incisal point at its height in MI."""
    guidance = replace(casts.guidance, table=prepare_table(IncisalTable()))
    start = replace(casts.mi, opening_rad=0.0)
    last = greatest_progress(guidance, retrusion(), start)
    progress = np.linspace(0.0, last, int(np.ceil(last / RETRUSIVE_STEP_MM)) + 1)
    positions = place(guidance, *along(guidance, retrusion(), start, progress))
    tip, in_mi = casts.incisal_point, casts.incisal_point_in_mi
    poses = opened(positions, table_opening(guidance, positions, tip, in_mi))
    return _Sweep(retrusion(), poses, poses, _travel(casts, poses), 0, True, 0.0)


def _swept(
    casts: MountedCasts,
    given: GeneratedPath,
    excursion: Excursion,
    on_table: bool,
    workers: Workers,
) -> _Sweep:
    """Return an excursion on the table, or on the front teeth alone, up to the reach."""
    guidance = replace(casts.guidance, table=prepare_table(given.table))
    start = replace(casts.mi, opening_rad=0.0)
    last = min(1.6 * given.reach_mm, greatest_progress(guidance, excursion, start))
    progress = np.arange(0.0, last, STEP_MM)
    positions = place(guidance, *along(guidance, excursion, start, progress))
    if on_table:
        tip = casts.incisal_point
        opening = table_opening(guidance, positions, tip, casts.incisal_point_in_mi)
    else:
        opening = _front_opening(casts, positions, workers)
    travel = _travel(casts, opened(positions, opening))
    ramp = np.clip(travel / CLEAR_FROM_MM, 0.0, 1.0)
    # Front teeth that do not quite touch in MI would carry the jaw into the stops of the back ones.
    opening = opening + (1.0 - ramp) * (casts.mi.opening_rad - opening[0])
    radius = float(np.hypot(casts.incisal_point[0], casts.incisal_point[2]))
    cleared = opened(positions, opening - ramp * given.clearance_mm / radius)
    poses = opened(positions, opening)
    within = travel <= given.reach_mm
    side = 0 if excursion.azimuth_deg == 0.0 else (LEFT if excursion.azimuth_deg > 0.0 else RIGHT)
    return _Sweep(excursion, poses[within], cleared[within], travel[within], side, on_table)


def _front_opening(casts: MountedCasts, positions: JawPositions, workers: Workers) -> Floats:
    """Return the opening (n,) at which front teeth alone meet, that of MI where they do not."""
    back = LeaveOut(upper=frozenset(c for c in casts.upper.codes if is_posterior(c)))
    met = close(casts.pair, positions.pose_at_zero, back, workers)
    return np.where(met.status == MEETS, met.opening_rad, casts.mi.opening_rad)


def _travel(casts: MountedCasts, poses: Floats) -> Floats:
    """Return the horizontal travel (n,) of the incisal point, mm."""
    incisal = move_points(poses, casts.incisal_point[None])[:, 0]
    return np.asarray(np.hypot(*(incisal - incisal[0])[:, :2].T))


def _code_of_vertex(arch: Arch) -> Ints:
    """Return the tooth number of every vertex (v,)."""
    code = np.full(len(arch.mesh.vertices), NO_TOOTH)
    code[arch.mesh.faces.ravel()] = np.repeat(arch.tooth_of_face, 3)
    return code


def _shares_contact(given: GeneratedPath, sweep: _Sweep, code: int) -> bool:
    """Tell whether a tooth is to touch during an excursion."""
    if code not in given.teeth:
        return False
    if sweep.excursion.name == RETRUSION:
        return True
    if abs(sweep.excursion.azimuth_deg) != 90.0:
        return "protrusion" in given.contacts
    working = (sweep.side == RIGHT) == is_right(code)
    return ("working" if working else "nonworking") in given.contacts


def _moves(
    casts: MountedCasts,
    pair: Pair,
    given: GeneratedPath,
    sweeps: list[_Sweep],
    code: Ints,
    build: bool,
    workers: Workers,
) -> Floats:
    """Return how far every upper vertex (v,) goes towards the lower, mm; negative: is cut."""

    def least(poses: Floats) -> Floats:
        found = envelope(pair, poses, LIMIT_MM, Side.UPPER, Measure.ARC_GAP, workers)
        return found.least_mm

    back = np.array([is_posterior(c) for c in code])
    in_mi = least(casts.mi_pose[None])
    short, missing = in_mi.copy(), np.full(len(code), np.inf)
    for sweep in sweeps:
        touches = np.isin(code, [c for c in np.unique(code) if _shares_contact(given, sweep, c)])
        far = sweep.travel_mm >= sweep.built_from_mm
        near, along_path = least(sweep.poses[~far]), least(sweep.poses[far])
        cleared = least(sweep.cleared)
        cleared = cleared if sweep.on_table else np.where(back, cleared, np.inf)
        short = np.minimum(short, np.where(touches, np.minimum(near, along_path), cleared))
        missing = np.where(touches, np.minimum(missing, along_path), missing)
    formed_too = ~np.isin(code, given.spared)
    cut = np.maximum(np.where((short < 0.0) & formed_too, short, 0.0), -LIMIT_MM)
    if not build:
        return cut
    most = given.build_up_mm
    wanted = np.minimum(np.minimum(missing, short), LIMIT_MM) - SHORT_MM
    # What lies nearer in MI than anywhere on the path is a stop's neighbourhood and stays.
    met = np.isfinite(missing)
    finite = np.where(met, missing, LIMIT_MM)
    beyond = np.clip((in_mi - finite - MI_GUARD_MM) / MI_FADE_MM, 0.0, 1.0)
    if RETRUSIVE in given.contacts:  # the stops in MI are part of the path themselves
        beyond = np.ones_like(beyond)
    # Where more is missing than may be added, the addition fades out, gone where twice is missing.
    fade = np.clip(2.0 - wanted / max(most, SHORT_MM), 0.0, 1.0)
    added = np.where(wanted > 0.0, np.minimum(wanted, most) * fade * beyond, 0.0)
    return np.where(short < 0.0, cut, np.where(met & back & _faces_lower(casts), added, 0.0))


def _faces_lower(casts: MountedCasts) -> Bools:
    """Tell which upper vertices (v,) lie on surfaces that look to the lower."""
    mesh = casts.upper.mesh
    corners = mesh.corners
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    total = np.zeros_like(mesh.vertices)
    for k in range(3):
        np.add.at(total, mesh.faces[:, k], normal)
    return np.asarray(total[:, 2] < -0.25 * np.linalg.norm(total, axis=1))


def _moved(casts: MountedCasts, vertices: Floats, move_mm: Floats) -> Floats:
    """Return vertices moved along the closing arc in MI, towards the lower where positive."""
    local = move_points(inverse(casts.mi_pose), vertices)
    radius = np.maximum(np.hypot(local[:, 0], local[:, 2]), 1.0)  # nothing moves at the axis
    turn = (casts.mi_pose @ opening_rotation(move_mm / radius))[:, :3]
    moved = np.einsum("nij,nj->ni", turn[:, :, :3], local) + turn[:, :, 3]
    return np.where((move_mm != 0.0)[:, None], moved, vertices)


def _pair(casts: MountedCasts, vertices: Floats) -> Pair:
    upper = replace(casts.upper, mesh=mesh_of(vertices, casts.upper.mesh.faces))
    return Pair(upper_tree(upper), casts.pair.lower)


def _touching_poses(casts: MountedCasts, sweeps: list[_Sweep]) -> Floats:
    """Return every pose (n, 4, 4) in which nothing may stand in the way."""
    return np.concatenate([casts.mi_pose[None], *(sweep.poses for sweep in sweeps)])


def _near(casts: MountedCasts, vertices: Floats, poses: Floats, workers: Workers) -> Arch:
    """Return the upper triangles that come near the lower in one of the poses, vertices kept."""
    pair = _pair(casts, vertices)
    gap = envelope(pair, poses, NEAR_MM, Side.UPPER, Measure.DISTANCE, workers).least_mm
    faces = casts.upper.mesh.faces
    near = np.isfinite(gap)[faces].any(axis=1)
    return Arch(mesh_of(vertices, faces[near]), casts.upper.tooth_of_face[near], ())


def _cut(
    casts: MountedCasts,
    vertices: Floats,
    poses: Floats,
    spared: tuple[int, ...],
    workers: Workers,
) -> Floats:
    """Return vertices (v, 3) cut until nothing between them stands in the way either.

    Raises
    ------
    NotConverged
        Something still does after the last round.
    """
    upper = _near(casts, vertices, poses, workers)
    codes = frozenset(int(code) for code in np.unique(upper.tooth_of_face))
    in_the_way = {code: np.arange(len(poses)) for code in codes - frozenset(spared)}
    left = np.inf
    for _ in range(CUT_ROUNDS):
        upper = replace(upper, mesh=mesh_of(vertices, upper.mesh.faces))
        pair = Pair(upper_tree(upper), casts.pair.lower)
        move, left = np.zeros(len(vertices)), 0.0
        for code, rows in in_the_way.items():
            alone = LeaveOut(upper=codes - {code})
            met = close(pair, poses[rows], alone, workers)
            meets = met.status == MEETS
            overlap = np.where(
                meets, np.where(meets, met.opening_rad, 0.0) * met.radius_mm, -np.inf
            )
            high = overlap > 0.5 * LEFT_OVER_MM
            corners = upper.mesh.faces[met.face_upper[high]]
            np.maximum.at(move, corners.ravel(), np.repeat(overlap[high] + CUT_MORE_MM, 3))
            left = max(left, float(overlap.max(initial=0.0)))
            in_the_way[code] = rows[overlap > -RECHECKED_MM]
        if left <= LEFT_OVER_MM:
            return vertices
        vertices = _moved(casts, vertices, -move)
    raise NotConverged("forming the teeth by a generated path, mm", left, CUT_ROUNDS)
