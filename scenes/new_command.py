"""What `cuspway new` does: two scan files in, a folder with a case for a person to check out."""

import shutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from kinematics.case_file import toml_value
from kinematics.checks import InputError
from kinematics.scans.cleaning_report import cleaning_words
from kinematics.scans.proposals import Proposal, proposed
from kinematics.scans.scan_labels import NoLabels
from kinematics.scans.scanned_casts import CleanCast, labelled, read_cast
from kinematics.scans.settings import FILE_KEYS, MOUNTING_KEYS, SIDES, ScanFiles, Side
from scenes.check_command import CASE_FILE
from scenes.output_folder import folder_in_one_piece, write_errors_said_plainly

_ARGUMENT: Final = "DIR"
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
# centric_records = [[[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1]]]
"""
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
                                    # leave out where scans.centric_records is given
advance_right_mm = 0.3
advance_left_mm = 0.3

[judging]
scheme = "canine"                   # CHECK: articulation aimed at for the natural teeth
record_scatter_mm = 0.3             # usual scatter of recorded mountings, unless known better
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
class Begun:
    """What the command line tells of a new case.

    Attributes
    ----------
    lines : tuple of str
        What was found out.
    ready : bool
        Whether the case can be run as it stands.
    """

    lines: tuple[str, ...]
    ready: bool


def new(folder: Path, files: ScanFiles, progress: Callable[[str], None]) -> Begun:
    """Read two scans and write a folder with copies of them and a commented case.

    Parameters
    ----------
    folder : Path
        New, or empty.
    files : ScanFiles
        The scans, as the user named them.
    progress : callable
        Gets the name of every step when it begins.

    Raises
    ------
    InputError
        Files that cannot be used, or a folder that cannot be written.
    """
    if folder.is_dir() and any(folder.iterdir()):
        raise InputError(
            f"{_ARGUMENT} {folder}: is not empty, and nothing in it is replaced; give a new folder"
        )
    files = _with_labels_beside(files)
    casts = {side: read_cast(files, side, progress) for side in SIDES}
    progress("finding landmarks")
    proposal, why = _proposal(casts, files)
    given = {key: getattr(files, key) for key in FILE_KEYS if getattr(files, key) is not None}
    names = {key: f"{key}{Path(name).suffix.lower()}" for key, name in given.items()}
    text = _case_text(files.renamed(names), proposal, why)
    with (
        folder_in_one_piece(folder, _ARGUMENT) as made,
        write_errors_said_plainly(folder, _ARGUMENT),
    ):
        for key, name in names.items():
            shutil.copyfile(given[key], made / name)
        (made / CASE_FILE).write_text(text, "utf-8", newline="\n")
    return Begun((*_cleaning_lines(casts), *_finding_lines(proposal, why)), not why)


def _with_labels_beside(files: ScanFiles) -> ScanFiles:
    """Take label lists that lie beside the scans under their names, where none are given."""
    found: dict[str, str] = {}
    for side in SIDES:
        beside = Path(getattr(files, side)).with_suffix(".json")
        if getattr(files, f"{side}_labels") is None and beside.is_file():
            found[f"{side}_labels"] = str(beside)
    return files.renamed(found)


def _proposal(casts: Mapping[Side, CleanCast], files: ScanFiles) -> tuple[Proposal | None, str]:
    """Return what the labels say, and why that is not enough to run the case; empty if it is."""
    try:
        found = proposed(*(labelled(casts[side], files, side) for side in SIDES))
    except NoLabels as error:
        return None, str(error)
    if any(point is None for point in found.mean_value_points):
        return found, "The casts lack the teeth for mean values: a lower incisor, a molar a side."
    return found, ""


def _case_text(files: ScanFiles, proposal: Proposal | None, why: str) -> str:
    """Return the case file."""
    lines = [_HEAD, "[scans]"]
    for key in (*FILE_KEYS, "units"):
        if (value := getattr(files, key)) is not None:
            lines.append(f"{key} = {toml_value(value)}")
    lines.append(_RECORDS)
    if proposal is None or why:
        lines += [_MOUNTING_OPEN.format(why=" ".join(why.split()))]
        lines.insert(-1, "[scans.mounting]")
    else:
        lines += [_MOUNTING_FOUND + "[scans.mounting]"]
        keys = zip(MOUNTING_KEYS["mean values"], proposal.mean_value_points, strict=True)
        notes = ("between 31 and 41", *(f"on {code}" for code in proposal.molar_teeth))
        for (key, point), note in zip(keys, notes, strict=True):
            assert point is not None
            shown = toml_value([round(float(value), 3) for value in point])
            lines.append(f"{key} = {shown:30s}  # {note}")
        lines += [
            "axis_incisal_mm = 90.5              # mean values: from the incisal point to the axis",
            "balkwill_deg = 20.4                 # and the angle to the occlusal plane",
        ]
    return "\n".join(lines) + _REST


def _cleaning_lines(casts: Mapping[Side, CleanCast]) -> Iterator[str]:
    for side, cast in casts.items():
        count = f"{len(cast.scan.faces):,}"
        yield f"{side} cast, {cast.scan.name} ({cast.scan.kind}, {count} triangles):"
        yield from (f"  {words}" for words in cleaning_words(cast.cleaned.report))


def _finding_lines(proposal: Proposal | None, why: str) -> Iterator[str]:
    if proposal is not None:
        yield f"teeth: {', '.join(map(str, proposal.teeth))}"
    yield why or (
        "mounting: by mean values, from landmarks found on the lower cast; check them in the case"
    )
