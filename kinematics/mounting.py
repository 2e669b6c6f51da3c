"""The teeth of a case, built once, and mounted on whatever guidance they are to move on."""

from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.case import Case
from kinematics.casts.casts import Arch, carried
from kinematics.checks import InputError
from kinematics.contact.closure import close
from kinematics.contact.mounted import MountedCasts, mount
from kinematics.contact.pair import Pair, lower_tree, upper_tree
from kinematics.contact.workers import Progress, Workers, usable
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.geometry.trees import moved_tree
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.mandible import pose_at
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.scans.centric_records import pose_by_record
from kinematics.scans.scanned_casts import ScansRecord
from kinematics.scans.scanned_surfaces import ScannedSurfaces
from kinematics.teeth.generated_path import formed
from kinematics.teeth.natural_side import edges_mm
from kinematics.teeth_in_mi import built, scanned
from kinematics.trial.changed_surfaces import changed_surface
from kinematics.trial.changed_teeth import ChangedTeeth, changed_teeth

#: Scanned casts that meet farther from their bite than this, mm at the incisal point, are not in a
#: bite. Chosen for this program: many times the error of scanned bites.
FARTHEST_REST_MM: Final = 1.0


@dataclass(frozen=True)
class Teeth:
    """Both arches as they stand in MI, and the trees over them; what a change of guidance leaves.

    Attributes
    ----------
    upper : Arch
        In the hinge frame.
    lower : Arch
        In lower coordinates, as mounted first.
    pair : Pair
        Both, prepared.
    incisal_point : ndarray, shape (3,)
        Lower incisal point in the same lower coordinates, mm.
    pose : ndarray, shape (4, 4)
        hinge_from_lower in MI, at opening 0, as mounted first.
    scans : ScansRecord or None
        Where the arches came from; None for built-in teeth.
    surfaces : ScannedSurfaces or None
        Their crowns as scanned; None for built-in teeth.
    unchanged : Teeth or None
        The teeth before the changes of a trial set-up; None where there are none.
    change_notes : tuple of str
        What of these changes could not be done as asked.
    """

    upper: Arch
    lower: Arch
    pair: Pair
    incisal_point: Floats
    pose: Floats
    scans: ScansRecord | None = None
    surfaces: ScannedSurfaces | None = None
    unchanged: "Teeth | None" = None
    change_notes: tuple[str, ...] = ()


def same_teeth(case: Case, other: Case) -> bool:
    """Tell whether two cases have the same teeth, so that either may be mounted with them.

    Teeth stand in MI whatever guides the jaw on its way; only teeth that are formed by their
    movement depend on guidance.
    """
    return case.change == other.change and same_unchanged_teeth(case, other)


def same_unchanged_teeth(case: Case, other: Case) -> bool:
    """Tell whether two cases have the same teeth before the changes of their trial set-ups.

    Then `changed` makes the teeth of either from the unchanged ones of the other.
    """
    return _made_from(case) == _made_from(other)


def _made_from(case: Case) -> tuple[object, ...]:
    """Return all settings that the teeth depend on before they are changed."""
    guidance = case.guidance if case.generated_path else _nominal_guidance(case)
    given = case.dentition_with_replacements(), case.replacement_teeth, case.generated_path
    plane = case.guidance.reference_plane if case.scans else None  # scans are mounted to it
    mi = None if case.mi_is_recorded else case.mi  # a record is part of the scans
    return (*given, mi, guidance, case.scans, plane)


def _nominal_guidance(case: Case) -> GuidanceSettings:
    """Return the guidance on which teeth are settled: the default, with room for the shift in MI.

    A default path is longer than any advance in MI, so that it takes every MI a case can have.
    """
    shift_mm = 0.0 if case.mi_is_recorded else abs(case.mi.shift_mm)
    side = SideGuidance(immediate_shift_mm=shift_mm)
    return GuidanceSettings(right=side, left=side)


def _pose_in_mi(case: Case) -> Floats:
    """Return hinge_from_lower (4, 4) in which teeth are made to stand in MI, at opening 0."""
    nominal = prepare_guidance(_nominal_guidance(case))
    if case.scans is not None and case.mi_is_recorded:
        plane = case.guidance.reference_plane
        return pose_by_record(case.scans, plane, nominal.half_distance_mm)
    return pose_at(nominal, case.mi)


def teeth_for(
    case: Case,
    progress: Callable[[str], None],
    threads: int = 1,
    watched: Progress | None = None,
) -> Teeth:
    """Build the teeth of a case, settle them into MI, form them by their movement, change them.

    Parameters
    ----------
    case : Case
        What the case file says.
    progress : callable
        Gets the name of the step when it begins.
    threads : int
        How many threads may compute; results do not depend on it.
    watched : callable, optional
        See `Workers`; what it raises stops the forming of teeth, which takes seconds.

    Raises
    ------
    InputError
        Settings that cannot be used together.
    NotConverged
        A dentition that does not settle.
    """
    return changed(_unchanged(case, progress, threads, watched), case, threads)


def _unchanged(
    case: Case, progress: Callable[[str], None], threads: int, watched: Progress | None
) -> Teeth:
    """Return the teeth of a case before the changes of its trial set-up; see `teeth_for`."""
    pose = _pose_in_mi(case)
    workers = Workers(threads, watched)
    made = scanned(case, pose, progress, workers) if case.scans else built(case, pose, progress)
    back = inverse(pose)
    standing = carried(made.lower, back)
    with ThreadPoolExecutor(threads) as pool:
        # Trees are of teeth alone; one is built while the body of a cast is made.
        above = pool.submit(upper_tree, made.upper)
        upper = pool.submit(made.with_body, made.upper)
        below = pool.submit(lower_tree, standing)
        lower = pool.submit(lambda: carried(made.with_body(made.lower), back))
    pair = Pair(above.result(), below.result())
    incisal_point = move_points(back, made.incisal_point[None])[0]
    scans = made.scans and replace(made.scans, rest_mm=_rest_mm(pair, pose, incisal_point))
    settled = Teeth(upper.result(), lower.result(), pair, incisal_point, pose, scans, made.surfaces)
    if case.generated_path is None:
        return settled
    casts = remounted(settled, case)
    casts = formed(casts, case.generated_path, workers)
    pose = pose_at(casts.guidance, case.mi)
    return Teeth(casts.upper, casts.lower, casts.pair, casts.incisal_point, pose)


def changed(teeth: Teeth, case: Case, threads: int = 1) -> Teeth:
    """Return the teeth of a case after the changes of its trial set-up.

    Parameters
    ----------
    teeth : Teeth
        Made for a case with the same teeth before changes; see `same_unchanged_teeth`. What that
        case changed is undone first.
    case : Case
        Its changes.
    threads : int
        With more than one, trees of both arches are built side by side.

    Raises
    ------
    InputError
        A change that cannot be made; the message says which, and why.
    """
    unchanged = teeth.unchanged or teeth
    if not case.change:
        return unchanged
    edges = edges_mm(case.dentition.triangles_per_arch)
    after = changed_teeth(
        unchanged.upper,
        unchanged.lower,
        unchanged.pair,
        unchanged.pose,
        case.change,
        {True: edges["U"], False: edges["L"]},
    )
    upper, lower = (
        arch if change is None else change.arch
        for arch, change in ((unchanged.upper, after.upper), (unchanged.lower, after.lower))
    )
    with ThreadPoolExecutor(threads) as pool:
        above = pool.submit(upper_tree, upper) if after.upper else None
        below = pool.submit(lower_tree, lower) if after.lower else None
    pair = Pair(
        unchanged.pair.upper if above is None else above.result(),
        unchanged.pair.lower if below is None else below.result(),
    )
    return replace(
        unchanged,
        upper=upper,
        lower=lower,
        pair=pair,
        surfaces=_changed_surfaces(unchanged, after),
        unchanged=unchanged,
        change_notes=after.notes,
    )


def _changed_surfaces(teeth: Teeth, after: ChangedTeeth) -> ScannedSurfaces | None:
    """Return what was scanned of teeth that are left as they were, and the others as they are."""
    surfaces = teeth.surfaces
    if surfaces is None:
        return None
    return ScannedSurfaces(
        changed_surface(surfaces.upper, after.upper, np.eye(4)),
        changed_surface(surfaces.lower, after.lower, teeth.pose),
    )


def _rest_mm(pair: Pair, pose: Floats, incisal_point: Floats) -> float:
    """Return by how much scanned casts meet before their bite, at the incisal point, mm.

    Raises
    ------
    InputError
        They meet far from it: what was scanned is no bite.
    """
    found = close(pair, pose[None])
    radius_mm = float(np.hypot(incisal_point[0], incisal_point[2]))
    rest_mm = float(found.opening_rad[0]) * radius_mm
    if abs(rest_mm) <= FARTHEST_REST_MM:
        return rest_mm
    how = (
        f"stand in each other: the jaw would stay {rest_mm:.2f} mm open"
        if rest_mm > 0.0
        else f"do not meet: the jaw would close by {-rest_mm:.2f} mm more"
    )
    raise InputError(
        f"scans: in the bite as scanned or recorded the casts {how} at the incisal point; accepted "
        f"are {FARTHEST_REST_MM:g} mm. Do both files lie in the coordinates of one bite, and is "
        "scans.scan_from_lower right, if it is given?"
    )


def remounted(
    teeth: Teeth,
    case: Case,
    before: Iterable[MountedCasts] = (),
    workers: Workers | None = None,
) -> MountedCasts:
    """Mount teeth on the guidance of a case, closed in MI.

    They keep their place in MI, and with it the upper its tree. Where MI lies away from CR, another
    guidance brings the condyles there another way: then the lower moves rigidly in its own
    coordinates, and its tree with it.

    Parameters
    ----------
    teeth : Teeth
        Made for a case with the same teeth; see `same_teeth`.
    case : Case
        Its guidance and MI.
    before : iterable of MountedCasts
        The same teeth on other guidances, to take over what has not changed.
    workers : Workers, optional
        Threads; one if not given.

    Raises
    ------
    InputError
        The casts do not meet in MI.
    """
    workers = usable(workers)
    guidance, mi = prepare_guidance(case.guidance), case.mi
    pose = pose_at(guidance, mi)
    for casts in before:
        same_mi = replace(casts.mi, opening_rad=mi.opening_rad) == mi
        if casts.upper is teeth.upper and same_mi and np.array_equal(casts.mi_pose_at_zero, pose):
            return replace(casts, guidance=guidance)
    if np.array_equal(pose, teeth.pose):
        point = teeth.incisal_point
        return mount(teeth.upper, teeth.lower, teeth.pair, guidance, mi, point, workers)
    move = inverse(pose) @ teeth.pose
    return mount(
        teeth.upper,
        carried(teeth.lower, move),
        Pair(teeth.pair.upper, moved_tree(teeth.pair.lower, move, workers.threads)),
        guidance,
        mi,
        move_points(move, teeth.incisal_point[None])[0],
        workers,
    )


def lower_moved(teeth: Teeth, casts: MountedCasts) -> Floats:
    """Return how the lower has moved in its own coordinates since it was mounted first, (4, 4).

    Distances under a pose of the casts are those of the teeth under this motion and then the pose.
    """
    return np.asarray(inverse(casts.mi_pose_at_zero) @ teeth.pose)


def mounted_casts(case: Case, threads: int = 1) -> MountedCasts:
    """Build the teeth of a case and mount them on its guidance, closed in MI."""
    return remounted(teeth_for(case, lambda _: None, threads), case, (), Workers(threads))
