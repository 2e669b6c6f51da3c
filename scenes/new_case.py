"""A case begun from two scans: what they say, and what was picked on them."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from typing import Final

import numpy as np

from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh, moved_mesh
from kinematics.scans.bites import apart_mm, bite_doubt
from kinematics.scans.cast_seeds import seeds_by_cast
from kinematics.scans.hinge_pose import hinge_from_scan
from kinematics.scans.lower_landmarks import FARTHEST_MM, check_landmarks
from kinematics.scans.picked_points import GUM_SEED, SEED, PickedPoint, mounting_of
from kinematics.scans.point_places import check_on_casts
from kinematics.scans.proposals import Proposal, proposed
from kinematics.scans.scan_labels import LabelRecord, NoLabels
from kinematics.scans.scanned_casts import CleanCast, labelled_casts, read_cast
from kinematics.scans.settings import SIDES, ScanFiles, ScanMounting, Side

_LACKING: Final = "The casts lack the teeth for mean values: a lower incisor, a molar a side."
_NO_BITE: Final = "Landmarks are looked for when the bite is known."
_NO_LANDMARKS: Final = "Without tooth numbers no landmarks can be found on the casts."


@dataclass(frozen=True)
class ReadCasts:
    """Two scans as read and cleaned, and what their labels say.

    Attributes
    ----------
    files : ScanFiles
        The scans, as they were named.
    casts : dict of side to CleanCast
        Their triangles, in their own coordinates.
    codes : dict of side to ndarray, shape (m,)
        Tooth number of every triangle; empty without labels.
    proposal : Proposal or None
        Landmarks found by labels; None without labels.
    no_labels : str
        Why there are none; empty if there are.
    bite : ndarray, shape (4, 4), or None
        Bite record: motion of the lower scan into MI. None: both lie there.
    untold : tuple of side
        Scans whose teeth nothing tells.
    labels : dict of side to LabelRecord
        Where tooth numbers came from; empty without any.
    seeds : tuple of PickedPoint
        Seeds that were looked at.
    """

    files: ScanFiles
    casts: dict[Side, CleanCast]
    codes: dict[Side, Ints]
    proposal: Proposal | None
    no_labels: str
    bite: Floats | None
    untold: tuple[Side, ...] = ()
    labels: dict[Side, LabelRecord] = field(default_factory=dict)
    seeds: tuple[PickedPoint, ...] = ()

    @cached_property
    def meshes(self) -> dict[Side, Mesh]:
        """Both surfaces in the coordinates of the upper scan, the jaw in MI, mm."""
        return {
            side: _at_the_bite(self.casts[side].cleaned.mesh, side, self.bite) for side in SIDES
        }

    def is_seeded(self, side: Side) -> bool:
        """Tell whether seeds tell the teeth of a cast."""
        return side in self.labels and self.labels[side].doubtful is not None

    def doubtful(self, side: Side) -> Bools:
        """Return which triangles (m,) may belong to another tooth than told."""
        labels = self.labels.get(side)
        if labels is None or labels.doubtful is None:
            return np.zeros(len(self.meshes[side].faces), dtype=bool)
        return labels.doubtful

    @cached_property
    def apart_mm(self) -> float:
        """About how far they are apart there where they are nearest, mm."""
        return apart_mm(self.meshes["upper"], self.meshes["lower"])

    @property
    def bite_doubt(self) -> str:
        """Why the casts can be in no bite, as a sentence; empty if they can."""
        doubt = bite_doubt(self.apart_mm, by_record=self.bite is not None)
        return f"{doubt[:1].upper()}{doubt[1:]}"


@dataclass(frozen=True)
class BegunCase:
    """What two scans and the points picked on them make.

    Attributes
    ----------
    read : ReadCasts
        The scans.
    points : tuple of PickedPoint
        Picked by a person.
    mounting : ScanMounting or None
        Made of them; None where they make none.
    bite_open, lacking : str
        That the casts are in no bite, and that they lack the teeth for mean values; else empty.
    """

    read: ReadCasts
    points: tuple[PickedPoint, ...]
    mounting: ScanMounting | None
    bite_open: str
    lacking: str

    @property
    def why(self) -> str:
        """Why the case cannot be run yet; empty if it can."""
        return " ".join(filter(None, (self.bite_open, self.read.no_labels, self.lacking)))

    @property
    def unmounted(self) -> str:
        """Why nothing could be found out about the mounting."""
        bite = _NO_BITE if self.bite_open else ""
        landmarks = _NO_LANDMARKS if self.read.untold else ""
        return " ".join(filter(None, (bite, landmarks, self.lacking)))


def read_casts(
    files: ScanFiles,
    progress: Callable[[str], None],
    bite: Floats | None = None,
    points: tuple[PickedPoint, ...] = (),
) -> ReadCasts:
    """Read and clean both scans, tell their teeth, and find landmarks on them.

    Parameters
    ----------
    files : ScanFiles
        The scans.
    progress : callable
        Gets the name of every step when it begins.
    bite : ndarray, shape (4, 4), optional
        Bite record.
    points : tuple of PickedPoint
        Picked on the casts; seeds among them tell teeth where nothing else does.

    Raises
    ------
    InputError
        Files that cannot be used.
    """
    casts = {side: read_cast(files, side, progress) for side in SIDES}
    return told_casts(files, casts, progress, bite, points)


def told_casts(
    files: ScanFiles,
    casts: dict[Side, CleanCast],
    progress: Callable[[str], None],
    bite: Floats | None = None,
    points: tuple[PickedPoint, ...] = (),
) -> ReadCasts:
    """Tell the teeth of two casts, in their own coordinates, and find landmarks on them.

    See `read_casts`. What `progress` raises ends it between steps.

    Raises
    ------
    InputError
        Labels that cannot be used.
    """
    seeds = seeds_in(points)
    at_bite = ReadCasts(files, casts, {}, None, "", bite, seeds=seeds)
    check_on_casts(seeds, at_bite.meshes, np.eye(4), {})
    by_cast = seeds_by_cast(seeds, np.eye(4) if bite is None else bite)
    try:
        told = labelled_casts(casts, files, progress, by_cast)
    except NoLabels as error:
        return replace(at_bite, no_labels=str(error), untold=tuple(error.names))
    codes = {side: told[side].codes for side in SIDES}
    progress("finding how the casts lie to each other")
    labels = {side: told[side].labels for side in SIDES}
    read = replace(at_bite, codes=codes, labels=labels)
    upper, lower = (
        replace(told[side], cleaned=replace(casts[side].cleaned, mesh=read.meshes[side]))
        for side in SIDES
    )
    if read.bite_doubt:
        return read  # nothing can be told of a jaw from casts that are not related to each other
    progress("finding landmarks")
    return replace(read, proposal=proposed(upper, lower))


def seeds_in(points: tuple[PickedPoint, ...]) -> tuple[PickedPoint, ...]:
    """Return the points by which teeth are told."""
    return tuple(point for point in points if point.point in (SEED, GUM_SEED))


def _at_the_bite(mesh: Mesh, side: Side, bite: Floats | None) -> Mesh:
    return moved_mesh(mesh, bite) if side == "lower" and bite is not None else mesh


def begun(read: ReadCasts, points: tuple[PickedPoint, ...]) -> BegunCase:
    """Put together what was read and what was picked.

    Parameters
    ----------
    read : ReadCasts
        The scans.
    points : tuple of PickedPoint
        Those for a mounting complete for one way, or none.

    Raises
    ------
    InputError
        Points that make no mounting, or do not lie on their casts.
    """
    mounting = mounting_of(points, {})
    if mounting is not None:
        hinge_from_scan(mounting, "occlusal")
    check_on_casts(points, read.meshes, np.eye(4), read.codes)
    if read.proposal is not None:
        given = {p.point: np.array(p.place) for p in points if p.point in FARTHEST_MM}
        check_landmarks(given, read.proposal)
    lacking = ""
    if mounting is None and read.proposal is not None:
        found = read.proposal.mean_value_points
        lacking = _LACKING if any(point is None for point in found) else ""
    return BegunCase(read, points, mounting, read.bite_doubt, lacking)


def with_labels_beside(files: ScanFiles) -> ScanFiles:
    """Take label lists that lie beside the scans under their names, where none are given."""
    found: dict[str, str] = {}
    for side in SIDES:
        beside = Path(getattr(files, side)).with_suffix(".json")
        if getattr(files, f"{side}_labels") is None and beside.is_file():
            found[f"{side}_labels"] = str(beside)
    return files.renamed(found)
