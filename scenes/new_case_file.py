"""The folder of a case begun from two scans: its commented file, and copies of what it needs."""

import shutil
import textwrap
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from kinematics.case_file import toml_value
from kinematics.scans.picked_points import PickedPoint, scan_values
from kinematics.scans.point_files import points_text
from kinematics.scans.settings import FILE_KEYS, MOUNTING_KEYS, ScanFiles
from scenes.case_places import CASE_FILE
from scenes.new_case import BegunCase, ReadCasts

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
_WIDTH: Final = 100
_MEAN_VALUES: Final = """\
axis_incisal_mm = 90.5              # mean values: from the incisal point to the axis
balkwill_deg = 20.4                 # and the angle to the occlusal plane"""
_MOUNTING_PICKED: Final = """\
# Where the hinge axis lies, by points that were picked, in the coordinates of the upper scan, mm.
"""
_MOUNTING_OPEN: Final = """\
# CHECK, before the case can be run: where the hinge axis lies, in the coordinates of the scans, mm.
{why}
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
_BITE_EXAMPLE: Final = (
    "# scan_from_lower = [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 30], [0, 0, 0, 1]]  # an example"
)
_BITE_RECORD: Final = """\
# Bite record: the transform that moves the lower scan into maximal intercuspation, in the
# coordinates of the upper scan, mm. All points below are of the jaw in that place.
"""
_REST: Final = """
# CHECK: these are mean values until records are given. With protrusive and lateral records in
# [[interocclusal_records]], `cuspway records` finds them, with measured tracks of the jaw in
# [[jaw_tracks]] `cuspway tracks`; see `cuspway settings`.
[guidance]
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
# rests = [{ tooth = 14, place = "mesial" }]    # left out: the usual ones are assumed

# CHECK: marks of foil found in the mouth, to set against the check list of the report:
# [[observed_marks]]
# movement = "MI"                   # or "right lateral", "protrusion", ...
# marked = [16, 46]
# unmarked = [27]
"""


def new_names(files: ScanFiles) -> dict[str, str]:
    """Return by its key what each file is called in the folder of a case."""
    given = {key: getattr(files, key) for key in FILE_KEYS}
    return {
        key: f"{key}{Path(name).suffix.lower()}" for key, name in given.items() if name is not None
    }


def fill_folder(
    folder: Path, files: ScanFiles | None, text: str, points: tuple[PickedPoint, ...]
) -> None:
    """Write a case file and copies of its scans, labels and points into a folder."""
    for key, name in (new_names(files) if files else {}).items():
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
    if case.bite_open:
        lines.append(_remark(f"CHECK, before the case can be run: {case.bite_open}"))
        if case.read.bite is None:
            lines.append(_BITE_EXAMPLE)
    if (bite := case.read.bite) is not None:
        lines.append(f"{_BITE_RECORD}scan_from_lower = {toml_value(bite.tolist())}")
    lines += [f"{key} = {toml_value(value)}" for key, value in scan_values(case.points).items()]
    return "\n".join([*lines, _RECORDS, *_mounting_lines(case), _REST])


def _remark(text: str) -> str:
    """Return text as lines of remarks."""
    return textwrap.fill(text, _WIDTH, initial_indent="# ", subsequent_indent="# ")


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
        yield _MOUNTING_OPEN.format(why=_remark(case.unmounted)).rstrip()
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
