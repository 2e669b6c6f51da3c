"""Axes about which load turns a denture base: fulcrum line, crest of the ridge, vertical."""

from dataclasses import dataclass

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points, turn_vectors
from kinematics.planning.framework import Framework
from kinematics.planning.occlusion import Occlusion, centre_of, root_direction
from kinematics.planning.ridge_lines import RidgeLine


@dataclass(frozen=True)
class Axis:
    """A line: a point of it, mm, and its unit direction, hinge frame."""

    point: Floats
    direction: Floats

    def turning_nmm(self, forces_n: Floats, moments_nmm: Floats) -> float:
        """Return by how much forces (t, 3) with moments (t, 3) about the origin turn about it."""
        about = moments_nmm - np.cross(self.point, forces_n)
        return float((about @ self.direction).sum())


@dataclass(frozen=True)
class FrameAxes:
    """Axes of a framework in one pose.

    Attributes
    ----------
    roots : ndarray, shape (t, 3)
        Unit vectors along its teeth towards the ridge.
    fulcrum : Axis or None
        Positive turns press the bases on their ridges; None where it turns about no line.
    crests : tuple of (ndarray of shape (t,), Axis)
        Of every base which teeth it carries, and the axis along its crest; positive turns tip the
        teeth towards cheek or lip.
    verticals : tuple of (ndarray of shape (t,), Axis)
        Of every base its teeth, and the vertical through the abutment next to them, or through
        their own middle where it has none.
    """

    roots: Floats
    fulcrum: Axis | None
    crests: tuple[tuple[Floats, Axis], ...]
    verticals: tuple[tuple[Floats, Axis], ...]

    def most_turned(self, forces_n: Floats, moments_nmm: Floats) -> tuple[int, int]:
        """Return which crest and which vertical forces on the teeth turn most about."""
        crests = _turns(self.crests, forces_n, moments_nmm)
        verticals = _turns(self.verticals, forces_n, moments_nmm)
        return int(np.argmax(np.abs(crests))) if crests else 0, int(np.argmax(np.abs(verticals)))

    def turning(
        self, forces_n: Floats, moments_nmm: Floats, bases: tuple[int, int] | None = None
    ) -> tuple[float, float, float]:
        """Return how much forces on the teeth turn about fulcrum line, crest and vertical, N mm.

        Forces and their moments about the origin of the hinge frame have shape (t, 3). Of several
        bases the crest and the vertical are those that `bases` says, or those where it is most: so
        that a range is of one and the same base.
        """
        crest, vertical = bases or self.most_turned(forces_n, moments_nmm)
        about = 0.0 if self.fulcrum is None else self.fulcrum.turning_nmm(forces_n, moments_nmm)
        return (
            about,
            _turns(self.crests, forces_n, moments_nmm)[crest] if self.crests else 0.0,
            _turns(self.verticals, forces_n, moments_nmm)[vertical],
        )


def frame_axes(occlusion: Occlusion, frame: Framework, pose: Floats) -> FrameAxes:
    """Return the axes of a framework in one pose (4, 4)."""
    moved = np.eye(4) if frame.is_upper else pose
    teeth = [code for base in frame.bases for code in base.teeth]
    crests, verticals = [], []
    for base in frame.bases:
        own = np.array([1.0 if code in base.teeth else 0.0 for code in teeth])
        middle = np.mean([centre_of(occlusion, code, pose) for code in base.teeth], axis=0)
        centres = [centre_of(occlusion, code, pose) for code in base.held_by]
        apart = [float(np.linalg.norm(centre - middle)) for centre in centres]
        at = centres[int(np.argmin(apart))] if apart else middle
        verticals.append((own, Axis(at, np.array([0.0, 0.0, 1.0]))))
        for line in frame.ridges:
            if line.base == base.name:
                crests.append((own, _crest(line, moved)))
    return FrameAxes(
        roots=np.array([root_direction(occlusion, code, pose) for code in teeth]),
        fulcrum=_fulcrum(frame, moved),
        crests=tuple(crests),
        verticals=tuple(verticals),
    )


def _crest(line: RidgeLine, moved: Floats) -> Axis:
    """Return the axis along a crest about which positive turns tip teeth towards cheek or lip."""
    crest = move_points(moved, line.crest)
    along = crest[-1] - crest[0]
    facial = turn_vectors(moved, line.facial).mean(axis=0)
    outward = turn_vectors(moved, line.outward).mean(axis=0)
    sign = np.sign(np.cross(along, outward) @ facial)
    return Axis(crest.mean(axis=0), sign * along / np.linalg.norm(along))


def _fulcrum(frame: Framework, moved: Floats) -> Axis | None:
    """Return the fulcrum line so that a push on the ridge turns about it positively."""
    if frame.fulcrum is None:
        return None
    ends = move_points(moved, np.array([frame.fulcrum.right, frame.fulcrum.left]))
    axis = Axis(ends[0], (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0]))
    free = [line for line in frame.ridges if line.base in frame.extension_sides] or frame.ridges
    at = move_points(moved, np.concatenate([line.crest for line in free]))
    push = -turn_vectors(moved, np.concatenate([line.outward for line in free]))
    return (
        axis
        if axis.turning_nmm(push, np.cross(at, push)) >= 0.0
        else Axis(axis.point, -axis.direction)
    )


def _turns(
    axes: tuple[tuple[Floats, Axis], ...], forces_n: Floats, moments_nmm: Floats
) -> list[float]:
    """Return how much forces on the teeth of each base turn about its axis, N mm."""
    return [
        axis.turning_nmm(own[:, None] * forces_n, own[:, None] * moments_nmm) for own, axis in axes
    ]
