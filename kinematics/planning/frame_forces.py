"""What reaches a denture framework: force on its teeth, turning, abutments, ridge."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.geometry.poses import turn_vectors
from kinematics.load.equilibrium import Equilibrium
from kinematics.load.links import Links
from kinematics.planning.frame_axes import frame_axes
from kinematics.planning.framework import CarrierKind
from kinematics.planning.load_contacts import LoadPoses
from kinematics.planning.load_model import LoadModel, PoseLinks
from kinematics.planning.occlusion import Occlusion, centre_of, root_direction
from kinematics.tooth_codes import is_posterior, is_right

#: Figures of a framework in one pose: along and across the axes of its teeth (N), turning about
#: fulcrum line, crest and vertical (N mm), push on the ridge (N) and deepest sinking (mm).
QUANTITIES: Final = (
    "along_n",
    "across_n",
    "about_fulcrum_nmm",
    "about_crest_nmm",
    "about_vertical_nmm",
    "mucosa_n",
    "sinking_mm",
)


@dataclass(frozen=True)
class FrameForces:
    """Forces on one framework in p poses, for v variants of which the first is as set.

    Attributes
    ----------
    framework : str
        Its name.
    has_fulcrum : bool
        Whether it turns about a line through rests.
    teeth, abutments : tuple of int
        ISO 3950 numbers.
    balanced : ndarray, shape (v, p)
        Where supports balance the load.
    figures : ndarray, shape (v, p, len(QUANTITIES))
        Per 100 N of closing force; 0 where nothing is balanced. Turning about the fulcrum line is
        positive where it presses the bases on their ridges; that about the crest is of the base
        where it is greatest as set, towards cheek or lip positive; about the vertical to the left,
        seen from above.
    teeth_n : ndarray, shape (v, p, t, 3)
        Force on each replacement tooth, hinge frame.
    tooth_roots : ndarray, shape (p, t, 3)
        Unit vectors along their axes towards the ridge.
    places : ndarray, shape (p, t, 3)
        Where it acts, hinge frame, mm; the middle of the crown where nothing acts.
    abutments_n : ndarray, shape (v, p, a, 3)
        Force on each abutment by the framework, hinge frame.
    abutment_roots : ndarray, shape (p, a, 3)
        Unit vectors along their axes towards the root.
    opponents_n : ndarray, shape (v, p, a, 3)
        Force on each abutment by its own opponents, hinge frame; 0 for bridges and splints, whose
        roots bear it already.
    lever_mm : ndarray, shape (p, t)
        Horizontal distance of the force on a tooth to the nearest abutment; 0 where it has none.
    kind : "base", "bridge" or "splint"
        Bases lie on a ridge; bridges and splints do not.
    rounds_arch : bool
        Whether a base has back teeth on both sides: its crest runs around the arch, and the line
        along it lies across.
    """

    framework: str
    has_fulcrum: bool
    teeth: tuple[int, ...]
    abutments: tuple[int, ...]
    balanced: Bools
    figures: Floats
    teeth_n: Floats
    tooth_roots: Floats
    places: Floats
    abutments_n: Floats
    abutment_roots: Floats
    opponents_n: Floats
    lever_mm: Floats
    kind: CarrierKind = "base"
    rounds_arch: bool = False

    @property
    def has_ridge(self) -> bool:
        """Whether it lies on a ridge."""
        return self.kind == "base"

    def of(self, quantity: str) -> Floats:
        """Return one of `QUANTITIES`, shape (v, p)."""
        return np.asarray(self.figures[..., QUANTITIES.index(quantity)])


def forces_on(
    loaded: LoadModel,
    poses: LoadPoses,
    made: list[PoseLinks],
    rests: list[tuple[Equilibrium, ...]],
    number: int,
    told: float,
) -> FrameForces:
    """Return what reaches one framework.

    Parameters
    ----------
    loaded : LoadModel
        The case.
    poses : LoadPoses
        Poses, with what touches in each.
    made : list of PoseLinks
        Their links.
    rests : list of tuple of Equilibrium
        For every variant the rest of every pose.
    number : int
        Which framework.
    told : float
        Factor on all forces.
    """
    frame, held = loaded.frameworks[number], loaded.held[number]
    teeth = tuple(code for base in frame.bases for code in base.teeth)
    abutments = tuple(sorted(held.holds))
    v, p = len(rests), len(made)
    figures = np.zeros((v, p, len(QUANTITIES)))
    teeth_n, abutments_n = np.zeros((v, p, len(teeth), 3)), np.zeros((v, p, len(abutments), 3))
    opponents_n = np.zeros_like(abutments_n)
    places, tooth_roots = np.zeros((p, len(teeth), 3)), np.zeros((p, len(teeth), 3))
    roots = np.zeros((p, len(abutments), 3))
    lever = np.zeros((p, len(teeth)))
    held_up = [[rest.status == "equilibrium" for rest in row] for row in rests]
    balanced = np.array(held_up, dtype=np.bool_)
    for i, one in enumerate(made):
        pose = poses.poses[i]
        for at_abutment, code in enumerate(abutments):
            roots[i, at_abutment] = root_direction(loaded.occlusion, code, pose)
        axes = frame_axes(loaded.occlusion, frame, pose)
        tooth_roots[i] = axes.roots
        bases = (0, 0)
        for variant, row in enumerate(rests):
            rest = row[i]
            forces, moments, at = _on_teeth(loaded, poses, i, one, rest, teeth, frame.is_upper)
            teeth_n[variant, i] = told * forces
            if variant == 0:
                bases = axes.most_turned(forces, moments)
                places[i] = at
                if frame.kind != "splint":
                    lever[i] = _levers(loaded.occlusion, abutments, pose, at)
            pressed = told * _on_abutments(one, rest, held.holds, abutments, held.part.body)
            abutments_n[variant, i] = pressed if frame.is_upper else turn_vectors(pose, pressed)
            if frame.kind == "base" and abutments:
                own, _, _ = _on_teeth(loaded, poses, i, one, rest, abutments, frame.is_upper)
                opponents_n[variant, i] = told * own
            figures[variant, i, 0:2] = _along_and_across(axes.roots, told * forces)
            figures[variant, i, 2:5] = axes.turning(told * forces, told * moments, bases)
            bed = rest.force_n[list(held.bed)]
            figures[variant, i, 5] = told * bed.sum()
            figures[variant, i, 6] = _sinking(one, rest, held.bed)
    return FrameForces(
        frame.name,
        frame.fulcrum is not None,
        teeth,
        abutments,
        balanced,
        figures,
        teeth_n,
        tooth_roots,
        places,
        abutments_n,
        roots,
        opponents_n,
        lever,
        frame.kind,
        any(_rounds_arch(base.teeth) for base in frame.bases),
    )


def _rounds_arch(teeth: tuple[int, ...]) -> bool:
    return len({is_right(code) for code in teeth if is_posterior(code)}) == 2


def _on_teeth(
    loaded: LoadModel,
    poses: LoadPoses,
    index: int,
    one: PoseLinks,
    rest: Equilibrium,
    teeth: tuple[int, ...],
    upper: bool,
) -> tuple[Floats, Floats, Floats]:
    """Return force and moment about the origin by opponents on some teeth, and where it acts.

    All of shape (t, 3); the last is the middle of its contacts, each counted by what it carries.
    """
    near, rows = poses.near, np.flatnonzero(poses.near.pose == index)
    carried = rest.force_n[list(one.contacts)]
    codes = (near.tooth_upper if upper else near.tooth_lower)[rows]
    pushes = carried[:, None] * one.pushes * (1.0 if upper else -1.0)
    pose = poses.poses[index]
    turns = np.cross(near.centroid[rows], pushes)
    forces, moments, at = [], [], []
    for code in teeth:
        own = codes == code
        weight = carried[own]
        forces.append(pushes[own].sum(axis=0))
        moments.append(turns[own].sum(axis=0))
        if weight.sum() > 0.0:
            at.append((weight[:, None] * near.centroid[rows][own]).sum(axis=0) / weight.sum())
        else:
            at.append(centre_of(loaded.occlusion, code, pose))
    return np.array(forces), np.array(moments), np.array(at)


def _on_abutments(
    one: PoseLinks,
    rest: Equilibrium,
    holds: dict[int, tuple[int, ...]],
    abutments: tuple[int, ...],
    body: int,
) -> Floats:
    """Return the force of a framework on every abutment, (a, 3), in the frame of its arch."""
    forces = [force_by_body(one.links, rest, holds[code], body) for code in abutments]
    return np.array(forces).reshape(-1, 3)


def force_by_body(links: Links, rest: Equilibrium, own: Sequence[int], body: int) -> Floats:
    """Return the force of a body through some of its links on what they lead to, shape (3,).

    A link acts on the first three coordinates of the body, which begin at `body`, with its
    direction; what acts on its other end is the same. In the frame of those coordinates.
    """
    total = np.zeros(3)
    for link in own:
        first = int(np.flatnonzero(links.places[link] == body)[0])
        total += rest.force_n[link] * links.pull[link, first : first + 3]
    return total


def _along_and_across(roots: Floats, forces: Floats) -> tuple[float, float]:
    """Return N along and across the long axes of teeth, (t, 3) each; those across as one sum."""
    along = (forces * roots).sum(axis=1)
    across = (forces - along[:, None] * roots).sum(axis=0)
    return float(along.sum()), float(np.linalg.norm(across))


def _levers(
    occlusion: Occlusion, abutments: tuple[int, ...], pose: Floats, places: Floats
) -> Floats:
    """Return the horizontal distance of places (t, 3) to the nearest abutment; 0 without one."""
    if not abutments:
        return np.zeros(len(places))
    centres = np.array([centre_of(occlusion, code, pose) for code in abutments])
    apart = np.linalg.norm((places[:, None] - centres[None])[..., :2], axis=2)
    return np.asarray(apart.min(axis=1))


def _sinking(one: PoseLinks, rest: Equilibrium, bed: tuple[int, ...]) -> float:
    """Return how deep a base is pressed into the mucosa where it is deepest, mm."""
    laws = one.links.laws[list(bed), 1]
    return float((rest.force_n[list(bed)] / laws).max(initial=0.0))
