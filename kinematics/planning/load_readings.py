"""Loads read in single poses: the largest of an excursion, what each tooth and abutment carries."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.load.equilibrium import Status
from kinematics.planning.base_loads import ExcursionLoads, SweepLoads, largest_pose
from kinematics.planning.closing_shares import Overload, Share, closing_shares, overloads
from kinematics.planning.contact_runs import point_of
from kinematics.planning.frame_forces import QUANTITIES, FrameForces
from kinematics.planning.framework import CarrierKind

Point = tuple[float, float, float]
Range = tuple[float, float]

#: Poses are the same if their travels differ by less, mm.
_SAME_TRAVEL_MM: Final = 1e-6


@dataclass(frozen=True)
class ToothLoad:
    """What a replacement tooth carries, hinge frame, N per 100 N.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    place : tuple of float
        Where the force acts, mm.
    force_n : tuple of float
        On the tooth.
    along_n, across_n : float
        Along its long axis towards the ridge, and across it.
    lever_mm : float
        Horizontal distance to the nearest abutment; 0 without one.
    """

    tooth: int
    place: Point
    force_n: Point
    along_n: float
    across_n: float
    lever_mm: float


@dataclass(frozen=True)
class AbutmentLoad:
    """What a framework presses on an abutment with, hinge frame, N per 100 N.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    force_n : tuple of float
        On the tooth.
    along_n, across_n : float
        Along its long axis towards its root, and across it.
    across_range_n, along_range_n : (float, float)
        Least and greatest of them over force tilt and mucosa ratio.
    """

    tooth: int
    force_n: Point
    along_n: float
    across_n: float
    across_range_n: Range
    along_range_n: Range = (0.0, 0.0)


@dataclass(frozen=True)
class BaseLoad:
    """What a framework carries in one pose, per 100 N of closing force.

    Attributes
    ----------
    framework, excursion : str
        Names.
    travel_mm : float
        Travel of the lower incisal point.
    status : str
        "equilibrium" or "no equilibrium", under the settings as given.
    teeth : tuple of ToothLoad
        Teeth that carry something.
    abutments : tuple of AbutmentLoad
        All that hold it.
    figures, least, greatest : dict of str to float
        By the names of `frame_forces.QUANTITIES`: as set, and the range over force tilt and mucosa
        ratio (of the sizes, of what can have a sign).
    always_balanced : bool
        Whether supports balance the force over the whole range.
    has_fulcrum : bool
        Whether it turns about a line through rests.
    kind : "base", "bridge" or "splint"
        What it is.
    rounds_arch : bool
        See `frame_forces.FrameForces`.
    """

    framework: str
    excursion: str
    travel_mm: float
    status: Status
    teeth: tuple[ToothLoad, ...]
    abutments: tuple[AbutmentLoad, ...]
    figures: dict[str, float]
    least: dict[str, float]
    greatest: dict[str, float]
    always_balanced: bool
    has_fulcrum: bool
    kind: CarrierKind = "base"
    rounds_arch: bool = False

    @property
    def has_ridge(self) -> bool:
        """Whether it lies on a ridge."""
        return self.kind == "base"

    @property
    def is_hinged(self) -> bool:
        """Whether it can turn about a vertical: two roots keep a bridge from it."""
        return self.kind == "base" or (self.kind == "bridge" and len(self.abutments) < 2)


def base_load(loads: SweepLoads, frame: FrameForces, pose: int) -> BaseLoad:
    """Return what one framework carries in one pose.

    Parameters
    ----------
    loads : SweepLoads
        An excursion.
    frame : FrameForces
        One of its frameworks.
    pose : int
        Index among its poses.
    """
    figures = frame.figures[:, pose]
    held = frame.balanced[:, pose]
    ranged = figures[held] if held.any() else figures[:1] * 0.0
    signed = ranged * np.where(ranged[:1] < 0.0, -1.0, 1.0)
    return BaseLoad(
        framework=frame.framework,
        excursion=loads.excursion,
        travel_mm=float(loads.travel_mm[pose]),
        status="equilibrium" if held[0] else "no equilibrium",
        teeth=tuple(_teeth(frame, pose)),
        abutments=tuple(_abutments(frame, pose)),
        figures=_named(figures[0]),
        least=_named(signed.min(axis=0)),
        greatest=_named(signed.max(axis=0)),
        always_balanced=bool(held.all()),
        has_fulcrum=frame.has_fulcrum,
        kind=frame.kind,
        rounds_arch=frame.rounds_arch,
    )


def _named(values: Floats) -> dict[str, float]:
    return dict(zip(QUANTITIES, values.tolist(), strict=True))


def _teeth(frame: FrameForces, pose: int) -> Iterator[ToothLoad]:
    for row, tooth in enumerate(frame.teeth):
        force = frame.teeth_n[0, pose, row]
        if np.any(force != 0.0):
            along, across = _parts(force[None], frame.tooth_roots[pose, row])
            yield ToothLoad(
                tooth,
                point_of(frame.places[pose, row]),
                point_of(force),
                float(along[0]),
                float(across[0]),
                float(frame.lever_mm[pose, row]),
            )


def _abutments(frame: FrameForces, pose: int) -> Iterator[AbutmentLoad]:
    held = frame.balanced[:, pose]
    for row, tooth in enumerate(frame.abutments):
        forces = frame.abutments_n[:, pose, row]
        along, across = _parts(forces, frame.abutment_roots[pose, row])
        yield AbutmentLoad(
            tooth,
            point_of(forces[0]),
            float(along[0]),
            float(across[0]),
            _range(across, held),
            _range(along, held),
        )


def _range(values: Floats, held: Bools) -> Range:
    """Return least and greatest among variants (v,) that are balanced."""
    among = values[held] if held.any() else values[:1]
    return float(among.min()), float(among.max())


def _parts(forces: Floats, root: Floats) -> tuple[Floats, Floats]:
    """Return N along a unit vector, and across it, of forces (v, 3)."""
    along = forces @ root
    return along, np.linalg.norm(forces - along[:, None] * root, axis=1)


@dataclass(frozen=True)
class LargestLoad:
    """The largest load across the teeth of a framework in one excursion.

    Attributes
    ----------
    as_is : BaseLoad
        As the teeth are set up.
    taken_off : tuple of (int, float)
        Each abutment of the framework, and the force across its axis, N per 100 N, that opponents
        and framework together bring on it at this travel with the guidance taken off the
        replacement teeth; empty where nothing else meets there.
    with_guidance : tuple of (int, float)
        The same as the teeth are set up.
    taken_off_ranges, with_guidance_ranges : tuple of (float, float)
        Least and greatest of each over force tilt and mucosa ratio.
    shares : tuple of Share
        Who carries the closing force in this pose.
    overloads : tuple of Overload
        Where that is more than one would expect.
    """

    as_is: BaseLoad
    taken_off: tuple[tuple[int, float], ...]
    with_guidance: tuple[tuple[int, float], ...]
    taken_off_ranges: tuple[Range, ...] = ()
    with_guidance_ranges: tuple[Range, ...] = ()
    shares: tuple[Share, ...] = ()
    overloads: tuple[Overload, ...] = ()


def largest_load(loads: ExcursionLoads, number: int) -> LargestLoad | None:
    """Return the largest load of one framework in an excursion, beyond the near-MI length.

    None where it carries none there.
    """
    frame = loads.as_is.frames[number]
    pose = largest_pose(loads.as_is, frame)
    if pose is None:
        return None
    off: tuple[tuple[int, float], ...] = ()
    off_ranges: tuple[Range, ...] = ()
    ranged = loads.taken_off_ranged
    if ranged is not None:
        apart = np.abs(ranged.travel_mm - loads.as_is.travel_mm[pose])
        other = int(np.argmin(apart))
        if apart[other] < _SAME_TRAVEL_MM and ranged.balanced[other]:
            off, off_ranges = across_abutments(ranged.frames[number], other)
    whole, whole_ranges = across_abutments(frame, pose)
    return LargestLoad(
        as_is=base_load(loads.as_is, frame, pose),
        taken_off=off,
        with_guidance=whole,
        taken_off_ranges=off_ranges,
        with_guidance_ranges=whole_ranges,
        shares=closing_shares(loads.as_is, pose),
        overloads=overloads(loads.as_is, pose),
    )


def across_abutments(
    frame: FrameForces, pose: int
) -> tuple[tuple[tuple[int, float], ...], tuple[Range, ...]]:
    """Return the force across the axis of each abutment from opponents and framework together.

    Each with the number of the tooth, and beside it least and greatest over the ranges.
    """
    told, ranges = [], []
    for row, tooth in enumerate(frame.abutments):
        forces = frame.abutments_n[:, pose, row] + frame.opponents_n[:, pose, row]
        across = _parts(forces, frame.abutment_roots[pose, row])[1]
        told.append((tooth, float(across[0])))
        ranges.append(_range(across, frame.balanced[:, pose]))
    return tuple(told), tuple(ranges)
