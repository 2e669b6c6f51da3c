"""A case begun from two scans: what they say, what was picked on them, and its commented file."""

import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Final

import numpy as np

from kinematics.case_file import toml_value
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, moved_mesh
from kinematics.scans.bites import FARTHEST_MM, apart_mm
from kinematics.scans.hinge_pose import hinge_from_scan
from kinematics.scans.picked_points import PickedPoint, mounting_of, scan_values
from kinematics.scans.point_files import points_text
from kinematics.scans.point_places import check_on_casts
from kinematics.scans.proposals import Proposal, proposed
from kinematics.scans.scan_labels import NoLabels
from kinematics.scans.scanned_casts import CleanCast, labelled_casts, read_cast
from kinematics.scans.settings import FILE_KEYS, MOUNTING_KEYS, SIDES, ScanFiles, ScanMounting, Side
from scenes.check_command import CASE_FILE

POINTS_FILE: Final = "points.csv"
_HEAD: Final = """\
# A case from two scans. What could be found out stands below; lines with CHECK are for you.
# The unit is part of each name: _mm millimetres, _deg degrees. `cuspway settings` explains every
# setting there is.

title = "Case from scans"
note = ""                           # CHECK: what a reader must know
"""
_MOUNTING_FOUND: Final = """\
# Where the hinge axis lies, found by mean values from three landmarks of the lower cast, in the
# coordinates of the scans, mm. CHECK the points. Mean values tell nothing about this patient: with
# a hinge axis located on the patient, give axis_right, axis_left and reference_point instead, with
# a known transform hinge_from_scan.
"""
_TEETH_OPEN: Final = """\
# CHECK, before the case can be run: which triangle belongs to which tooth. Nothing tells it in
# {names}.
# Give the tooth number (ISO 3950; 0: gum) of every vertex, in the order of the file, as a JSON
# list, {{"labels": [0, 16, 16, ...]}}, beside this file; `cuspway new` takes such lists with
# --upper-labels and --lower-labels. A PLY file with a scalar of tooth numbers, or a file with one
# mesh for each tooth, named by its number, needs no list.
"""
_LACKING: Final = "The casts lack the teeth for mean values: a lower incisor, a molar a side."
_NO_LANDMARKS: Final = "Without tooth numbers no landmarks can be found on the casts."
_MEAN_VALUES: Final = """\
axis_incisal_mm = 90.5              # mean values: from the incisal point to the axis
balkwill_deg = 20.4                 # and the angle to the occlusal plane"""
_MOUNTING_PICKED: Final = """\
# Where the hinge axis lies, by points that were picked, in the coordinates of the upper scan, mm.
"""
_MOUNTING_OPEN: Final = """\
# CHECK, before the case can be run: where the hinge axis lies, in the coordinates of the scans, mm.
# {why}
# Keep one way and take away its # signs: a transform, the hinge axis, or mean values.
# hinge_from_scan = [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1]]
# axis_right = [0, 0, 0]            # beside the patient's right condyle
# axis_left = [0, 0, 0]
# reference_point = [0, 0, 0]       # ahead, in the reference plane
# incisal_point = [0, 0, 0]         # between the mesial corners of 31 and 41
# molar_right = [0, 0, 0]           # distobuccal cusp tip of 47
# molar_left = [0, 0, 0]            # distobuccal cusp tip of 37
"""
_RECORDS: Final = """\
# With records of centric relation, give of each where the lower scan stands in it, as the transform
# that moves it there in the coordinates of the upper scan, mm; up to five, the first counts:
# centric_records = [[[1, 0, 0, 0.3], [0, 1, 0, 0], [0, 0, 1, -0.1], [0, 0, 0, 1]]]  # an example
"""
_BITE_RECORD: Final = """\
# Bite record: the transform that moves the lower scan into maximal intercuspation, in the
# coordinates of the upper scan, mm. All points below are of the jaw in that place.
"""
_APART: Final = (
    "As they lie, the casts do not bite: where they are nearest they are some {apart:.0f} mm "
    "apart. Give the bite record too: the transform that moves the lower scan into maximal "
    "intercuspation in the coordinates of the upper one ({where})."
)
_REST: Final = """
[guidance]                          # CHECK: these are mean values until records are given
reference_plane = "occlusal"        # plane to which all inclinations refer
intercondylar_distance_mm = 104.0

[guidance.right]
condylar_inclination_deg = 35.0
progressive_shift_deg = 9.0

[guidance.left]
condylar_inclination_deg = 35.0
progressive_shift_deg = 9.0

[maximal_intercuspation]            # CHECK: how far the condyles stand from centric relation;
                                    # take this table out where scans.centric_records is given
advance_right_mm = 0.3
advance_left_mm = 0.3

[judging]
scheme = "canine"                   # CHECK: articulation aimed at for the natural teeth
record_scatter_mm = 0.3             # what records usually differ by; with two or three records of
                                    # centric relation, what the report says they differ by
stop_tolerance_mm = 0.02            # scans: the contact tolerance

# CHECK: replacement teeth, with their base and the teeth that hold it, if there are any:
# [[denture_bases]]
# name = "upper right base"
# teeth = [15, 16, 17]
# abutments = [14, 13]
# scheme = "contacts only in MI"

# CHECK: marks of foil found in the mouth, to set against the check list of the report:
# [[observed_marks]]
# movement = "MI"                   # or "right lateral", "protrusion", ...
# marked = [16, 46]
# unmarked = [27]
"""


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
    """

    files: ScanFiles
    casts: dict[Side, CleanCast]
    codes: dict[Side, Ints]
    proposal: Proposal | None
    no_labels: str
    bite: Floats | None
    untold: tuple[Side, ...] = ()

    @cached_property
    def meshes(self) -> dict[Side, Mesh]:
        """Both surfaces in the coordinates of the upper scan, the jaw in MI, mm."""
        return {
            side: _at_the_bite(self.casts[side].cleaned.mesh, side, self.bite) for side in SIDES
        }

    @cached_property
    def apart_mm(self) -> float:
        """About how far they are apart there where they are nearest, mm."""
        return apart_mm(self.meshes["upper"], self.meshes["lower"])


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
        landmarks = _NO_LANDMARKS if self.read.untold else ""
        return " ".join(filter(None, (self.bite_open, landmarks, self.lacking)))


def read_casts(
    files: ScanFiles, progress: Callable[[str], None], bite: Floats | None = None
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

    Raises
    ------
    InputError
        Files that cannot be used.
    """
    casts = {side: read_cast(files, side, progress) for side in SIDES}
    return told_casts(files, casts, progress, bite)


def told_casts(
    files: ScanFiles,
    casts: dict[Side, CleanCast],
    progress: Callable[[str], None],
    bite: Floats | None = None,
) -> ReadCasts:
    """Tell the teeth of two casts, in their own coordinates, and find landmarks on them.

    See `read_casts`. What `progress` raises ends it between steps.

    Raises
    ------
    InputError
        Labels that cannot be used.
    """
    try:
        told = labelled_casts(casts, files, progress)
    except NoLabels as error:
        return ReadCasts(files, casts, {}, None, str(error), bite, tuple(error.names))
    codes = {side: told[side].codes for side in SIDES}
    progress("finding how the casts lie to each other")
    read = ReadCasts(files, casts, codes, None, "", bite)
    upper, lower = (
        replace(told[side], cleaned=replace(casts[side].cleaned, mesh=read.meshes[side]))
        for side in SIDES
    )
    if read.apart_mm > FARTHEST_MM:
        return read  # nothing can be told of a jaw from casts that are not related to each other
    progress("finding landmarks")
    return replace(read, proposal=proposed(upper, lower))


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
    check_on_casts(points, read.meshes, np.eye(4))
    lacking = ""
    if mounting is None and read.proposal is not None:
        found = read.proposal.mean_value_points
        lacking = _LACKING if any(point is None for point in found) else ""
    bite_open = bite_doubt(read, "cuspway new with --bite FILE")
    return BegunCase(read, points, mounting, bite_open, lacking)


def bite_doubt(read: ReadCasts, where: str) -> str:
    """Return why the casts can be in no bite as they lie; empty if they can.

    Parameters
    ----------
    read : ReadCasts
        The scans.
    where : str
        Where a bite record is to be given.
    """
    apart = read.apart_mm
    return _APART.format(apart=apart, where=where) if apart > FARTHEST_MM else ""


def with_labels_beside(files: ScanFiles) -> ScanFiles:
    """Take label lists that lie beside the scans under their names, where none are given."""
    found: dict[str, str] = {}
    for side in SIDES:
        beside = Path(getattr(files, side)).with_suffix(".json")
        if getattr(files, f"{side}_labels") is None and beside.is_file():
            found[f"{side}_labels"] = str(beside)
    return files.renamed(found)


def new_names(files: ScanFiles) -> dict[str, str]:
    """Return by its key what each file is called in the folder of a case."""
    given = {key: getattr(files, key) for key in FILE_KEYS}
    return {
        key: f"{key}{Path(name).suffix.lower()}" for key, name in given.items() if name is not None
    }


def fill_folder(folder: Path, files: ScanFiles, text: str, points: tuple[PickedPoint, ...]) -> None:
    """Write a case file and copies of its scans, labels and points into a folder."""
    for key, name in new_names(files).items():
        shutil.copyfile(getattr(files, key), folder / name)
    if points:
        (folder / POINTS_FILE).write_text(points_text(points), "utf-8", newline="\n")
    (folder / CASE_FILE).write_text(text, "utf-8", newline="\n")


def case_text(case: BegunCase) -> str:
    """Return the commented case file."""
    files = case.read.files.renamed(new_names(case.read.files))
    lines = [_HEAD, "[scans]"]
    for key in (*FILE_KEYS, "units"):
        if (value := getattr(files, key)) is not None:
            lines.append(f"{key} = {toml_value(value)}")
    lines += _label_lines(case.read)
    if (bite := case.read.bite) is not None:
        lines.append(f"{_BITE_RECORD}scan_from_lower = {toml_value(bite.tolist())}")
    lines += [f"{key} = {toml_value(value)}" for key, value in scan_values(case.points).items()]
    return "\n".join([*lines, _RECORDS, *_mounting_lines(case), _REST])


def _label_lines(read: ReadCasts) -> Iterator[str]:
    """Yield what is to be done where nothing tells the teeth, and the keys for it."""
    if read.untold:
        names = " and ".join(new_names(read.files)[side] for side in read.untold)
        yield _TEETH_OPEN.format(names=names).rstrip()
        yield from (f'# {side}_labels = "{side}_labels.json"' for side in read.untold)


def _mounting_lines(case: BegunCase) -> Iterator[str]:
    """Yield the lines that say where the hinge axis lies."""
    if case.mounting is not None:
        yield f"{_MOUNTING_PICKED}[scans.mounting]"
        keys = MOUNTING_KEYS[case.mounting.kind]
        yield from (f"{key} = {toml_value(getattr(case.mounting, key))}" for key in keys)
        if case.mounting.kind == "mean values":
            yield _MEAN_VALUES
    elif case.read.proposal is None or case.why:
        yield "[scans.mounting]"
        yield _MOUNTING_OPEN.format(why=case.unmounted)
    else:
        yield f"{_MOUNTING_FOUND}[scans.mounting]"
        keys = MOUNTING_KEYS["mean values"]
        found = case.read.proposal
        notes = (
            "between 31 and 41",
            *(f"distobuccal cusp tip of {code}" for code in found.molar_teeth),
        )
        for key, point, note in zip(keys, found.mean_value_points, notes, strict=True):
            assert point is not None
            shown = toml_value([round(float(value), 3) for value in point])
            yield f"{key} = {shown:30s}  # {note}"
        yield _MEAN_VALUES
