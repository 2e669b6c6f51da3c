"""Who carries what in every pose of an excursion, for 100 N of closing force."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.contact.sweep import GUIDED_BY_TEETH, Sweep
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.poses import turn_vectors
from kinematics.load.equilibrium import Equilibrium, equilibria
from kinematics.load.settings import LoadSettings
from kinematics.planning.contact_runs import judged, upto_edge
from kinematics.planning.frame_forces import FrameForces, force_by_body, forces_on
from kinematics.planning.framework import Framework
from kinematics.planning.lateral_load import sliding_at
from kinematics.planning.load_contacts import (
    LoadPoses,
    load_poses,
    load_poses_without,
    some_poses,
)
from kinematics.planning.load_model import (
    LoadModel,
    PoseLinks,
    closing_direction,
    closing_load,
    load_model,
    pose_links,
    with_mucosa_ratio,
)
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.wording import excursion_label

#: Closing force for which figures are told, N.
TOLD_FOR_N: Final = 100.0


@dataclass(frozen=True)
class ContactLoads:
    """What contacts carry, one row each, of all poses; as the settings have it.

    Attributes
    ----------
    pose : ndarray, shape (k,)
        Index among the poses.
    tooth_upper, tooth_lower : ndarray, shape (k,)
        ISO 3950 numbers.
    place : ndarray, shape (k, 3)
        Hinge frame, mm.
    force_n : ndarray, shape (k, 3)
        On the upper tooth, hinge frame, N per 100 N.
    """

    pose: Ints
    tooth_upper: Ints
    tooth_lower: Ints
    place: Floats
    force_n: Floats


@dataclass(frozen=True)
class SweepLoads:
    """Loads along one excursion, in p poses that teeth guide.

    Attributes
    ----------
    excursion : str
        Name; " from CR" is added where it starts there.
    travel_mm : ndarray, shape (p,)
        Travel of the lower incisal point.
    judged : ndarray, shape (p,)
        Whether it lies beyond the near-MI length.
    balanced, unique : ndarray, shape (p,)
        Whether supports can balance the closing force, and in one way only.
    left : ndarray, shape (p,)
        What is left of force and moment, as a part of the load.
    escape : tuple of str
        For every pose what gives way where nothing balances the force; empty where it is balanced.
    contacts : ContactLoads
        What each contact carries.
    condyles_n : ndarray, shape (p, 2, 3)
        Right and left condyle: push against its eminence, sideways (to the left) on the skull, and
        what muscles must hold along its path (forward on the skull), N per 100 N.
    joints_n : ndarray, shape (p, 2, 3)
        The same as one force of each condyle on the skull, hinge frame.
    closing_n : ndarray, shape (3,)
        Closing force on the lower, hinge frame: 100 N in its direction.
    frames : tuple of FrameForces
        What reaches every denture framework, then every bridge, then every splint.
    """

    excursion: str
    travel_mm: Floats
    judged: Bools
    balanced: Bools
    unique: Bools
    left: Floats
    escape: tuple[str, ...]
    contacts: ContactLoads
    condyles_n: Floats
    joints_n: Floats
    closing_n: Floats
    frames: tuple[FrameForces, ...]


@dataclass(frozen=True)
class ExcursionLoads:
    """One excursion as it is, and with the guidance taken off the replacement teeth.

    Attributes
    ----------
    as_is : SweepLoads
        As the teeth are set up.
    taken_off : SweepLoads or None
        Beyond the near-MI length, with the jaw closed as if there were no replacement teeth; None
        where nothing else would ever meet. Without ranges.
    taken_off_ranged : SweepLoads or None
        Of those poses the ones in which a framework carries most as it is, with their ranges.
    """

    as_is: SweepLoads
    taken_off: SweepLoads | None
    taken_off_ranged: SweepLoads | None = None


def excursion_loads(
    occlusion: Occlusion,
    settings: LoadSettings,
    frameworks: tuple[Framework, ...],
    sweep: Sweep,
) -> ExcursionLoads:
    """Return who carries what along an excursion.

    Asked are the poses from its start to edge-to-edge that teeth guide: what a guide table carries
    is not known.

    Parameters
    ----------
    occlusion : Occlusion
        The arches, bases, and what joins teeth.
    settings : LoadSettings
        Closing force, and how far everything gives way.
    frameworks : tuple of Framework
        Denture bases with their supports.
    sweep : Sweep
        The excursion.
    """
    guided = upto_edge(sweep, occlusion.settings) & (sweep.guide == GUIDED_BY_TEETH)
    as_is = sweep_loads(
        occlusion, settings, frameworks, sweep, load_poses(occlusion, sweep, guided)
    )
    beyond = guided & judged(sweep, occlusion.settings)
    replaced = occlusion.replacement_teeth | occlusion.pontics
    if not replaced:
        return ExcursionLoads(as_is, None)
    off = load_poses_without(occlusion, sweep, beyond, replaced)
    if not len(off.rows):
        return ExcursionLoads(as_is, None)
    taken_off = sweep_loads(occlusion, settings, frameworks, sweep, off, ranged=False)
    most = {largest_pose(as_is, frame) for frame in as_is.frames} - {None}
    worst = [float(as_is.travel_mm[pose]) for pose in most if pose is not None]
    read = some_poses(off, np.isin(sweep.travel_mm[off.rows], worst))
    ranged = sweep_loads(occlusion, settings, frameworks, sweep, read) if len(read.rows) else None
    return ExcursionLoads(as_is, taken_off, ranged)


def largest_pose(loads: SweepLoads, frame: FrameForces) -> int | None:
    """Return the pose of the largest load across the teeth of a framework; None where it has none.

    Among poses beyond the near-MI length that are balanced; of equals the first.
    """
    across = np.where(frame.balanced[0] & loads.judged, frame.of("across_n")[0], 0.0)
    return int(np.argmax(across)) if across.max(initial=0.0) > 0.0 else None


def variants(settings: LoadSettings) -> tuple[tuple[float, float], ...]:
    """Return tilt, degrees, and mucosa ratio: as set, then all corners of their ranges.

    A range reaches at least as far as what is set.
    """
    tilt_range, ratio_range = settings.ranges
    corners = [(tilt, ratio) for tilt in tilt_range for ratio in ratio_range]
    return ((settings.force_tilt_deg, settings.mucosa_ratio), *corners)


def sweep_loads(
    occlusion: Occlusion,
    settings: LoadSettings,
    frameworks: tuple[Framework, ...],
    sweep: Sweep,
    poses: LoadPoses,
    ranged: bool = True,
) -> SweepLoads:
    """Return who carries what in some poses of an excursion.

    Parameters
    ----------
    occlusion, settings, frameworks, sweep
        See `excursion_loads`.
    poses : LoadPoses
        Some of its poses.
    ranged : bool
        Whether forces are also wanted over the ranges of force tilt and mucosa ratio.
    """
    near = poses.near
    touching = frozenset({*near.tooth_upper.tolist(), *near.tooth_lower.tolist()})
    loaded = load_model(occlusion, settings, frameworks, touching)
    slide = _slides(occlusion, sweep, poses)
    made = [pose_links(loaded, poses, slide, i) for i in range(len(poses.rows))]
    rests = _rests(loaded, poses, made, variants(settings)[: None if ranged else 1])
    told = TOLD_FOR_N / settings.closing_force_n
    return SweepLoads(
        excursion=excursion_label(sweep.excursion),
        travel_mm=sweep.travel_mm[poses.rows],
        judged=judged(sweep, occlusion.settings)[poses.rows],
        balanced=np.array([rest.status == "equilibrium" for rest in rests[0]], dtype=np.bool_),
        unique=np.array([rest.unique for rest in rests[0]], dtype=np.bool_),
        left=np.array([rest.left for rest in rests[0]]),
        escape=tuple(_escape_words(loaded, rest) for rest in rests[0]),
        contacts=_contacts(poses, made, rests[0], told),
        condyles_n=_condyles(made, rests[0], told),
        joints_n=_joints(loaded, poses, made, rests[0], told),
        closing_n=TOLD_FOR_N * closing_direction(settings.force_tilt_deg),
        frames=tuple(
            forces_on(loaded, poses, made, rests, number, told)
            for number in range(len(loaded.held))
        ),
    )


def _slides(occlusion: Occlusion, sweep: Sweep, poses: LoadPoses) -> Floats:
    """Return how the lower slides at every patch, shape (k, 3); zero where nothing rubs."""
    near = poses.near
    if occlusion.settings.friction_coefficient == 0.0:
        return np.zeros((len(near.pose), 3))
    return np.array(
        [
            sliding_at(sweep, int(poses.rows[pose]), place)
            for pose, place in zip(near.pose, near.centroid, strict=True)
        ]
    ).reshape(-1, 3)


def _rests(
    loaded: LoadModel,
    poses: LoadPoses,
    made: list[PoseLinks],
    asked: tuple[tuple[float, float], ...],
) -> list[tuple[Equilibrium, ...]]:
    """Return the rest of every pose, for every tilt and mucosa ratio asked."""
    found: list[tuple[Equilibrium, ...]] = []
    start = None
    for tilt, ratio in asked:
        models = [with_mucosa_ratio(loaded, one.links, ratio) for one in made]
        loads = np.array([closing_load(loaded, pose, tilt) for pose in poses.poses])
        found.append(equilibria(models, loads, start, loaded.occlusion.workers))
        start = np.array([rest.moved for rest in found[0]])
    return found


def _contacts(
    poses: LoadPoses,
    made: list[PoseLinks],
    rests: tuple[Equilibrium, ...],
    told: float,
) -> ContactLoads:
    near = poses.near
    carried = np.concatenate(
        [
            np.zeros(0),
            *(rest.force_n[list(one.contacts)] for one, rest in zip(made, rests, strict=True)),
        ]
    )
    push = np.concatenate([np.zeros((0, 3)), *(one.pushes for one in made)])
    some = carried > 0.0
    return ContactLoads(
        pose=near.pose[some],
        tooth_upper=near.tooth_upper[some],
        tooth_lower=near.tooth_lower[some],
        place=near.centroid[some],
        force_n=(told * carried[:, None] * push)[some],
    )


def _condyles(made: list[PoseLinks], rests: tuple[Equilibrium, ...], told: float) -> Floats:
    return np.array(
        [
            [
                told * rest.force_n[[side.against, side.sideways, side.along]]
                for side in one.condyles
            ]
            for one, rest in zip(made, rests, strict=True)
        ]
    ).reshape(-1, 2, 3)


def _joints(
    loaded: LoadModel,
    poses: LoadPoses,
    made: list[PoseLinks],
    rests: tuple[Equilibrium, ...],
    told: float,
) -> Floats:
    """Return the force of each condyle on the skull, hinge frame, shape (p, 2, 3)."""
    body = loaded.jaw.body
    found = np.zeros((len(made), 2, 3))
    for i, (one, rest) in enumerate(zip(made, rests, strict=True)):
        for k, side in enumerate(one.condyles):
            links = [side.against, side.sideways, side.along]
            found[i, k] = (
                told
                * turn_vectors(poses.poses[i], force_by_body(one.links, rest, links, body)[None])[0]
            )
    return found


#: What moves less than this part of what moves most does not escape.
_MOVES: Final = 0.05


def _escape_words(loaded: LoadModel, rest: Equilibrium) -> str:
    """Return what gives way where nothing balances the force; empty where it is balanced."""
    if rest.status == "equilibrium":
        return ""
    if rest.escape is None:
        return "a part that was not told apart"
    bodies = [("the jaw", loaded.jaw.body)]
    bodies += [
        (f"'{frame.name}'", held.part.body)
        for frame, held in zip(loaded.frameworks, loaded.held, strict=True)
    ]
    moving = [
        name for name, at in bodies if np.abs(rest.escape[at : at + 6]).max(initial=0.0) > _MOVES
    ]
    return " and ".join(moving) or "a tooth"
