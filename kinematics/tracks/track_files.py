"""Files of jaw tracks: CSV with one row for every moment, read with every fault named."""

from collections.abc import Callable
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Final

import numpy as np
from scipy.spatial.transform import Rotation

from kinematics.checks import InputError
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.poses import pose_of
from kinematics.scans.centric_records import nearest_rigid
from kinematics.scans.csv_rows import MOST_TOLD, Row, csv_rows, csv_text, number_in, refuse_faults
from kinematics.scans.limits import ordinary_content
from kinematics.tracks.point_motions import point_motions
from kinematics.tracks.track_columns import LAYOUTS, TIME, Layout, layout_of

#: Room for `MOST_ROWS` rows with all their digits. Chosen for this program.
LARGEST_BYTES: Final = 25_000_000
#: Ten minutes at 100 rows a second. Chosen for this program.
MOST_ROWS: Final = 60_000
#: Fewer rows show no movement that could be told from noise. Chosen for this program.
FEWEST_ROWS: Final = 20
_FARTHEST_MM: Final = 10_000.0
_LATEST_S: Final = 1e7
#: By how much a quaternion may be longer or shorter than 1, or a transform may scale or shear:
#: files have few digits. Chosen for this program; what is left is taken out.
_RIGID: Final = 1e-3


@dataclass(frozen=True)
class TrackRows:
    """A track as its file has it.

    Attributes
    ----------
    path, name : str
        The file as given, and without its folder.
    sha256 : str
        Fingerprint of its content.
    layout : "quaternion", "transform" or "points"
        How it is given.
    time_s : ndarray, shape (n,)
        Rising.
    poses : ndarray, shape (n, 4, 4)
        As in the file; of points their motion from MI, or from the first row.
    lines : ndarray, shape (n,)
        Line of each row in the file.
    shape_off_mm : float
        Of points: by how much they stay beside the places that a rigid jaw would give them, root
        mean square; else 0.
    middle : ndarray, shape (3,), or None
        Of points: their middle in MI, or in the first row; in the coordinates of the file, mm.
    """

    path: str
    name: str
    sha256: str
    layout: Layout
    time_s: Floats
    poses: Floats
    lines: Ints
    shape_off_mm: float
    middle: Floats | None


def read_track(path: Path, points_in_mi: Floats | None = None) -> TrackRows:
    """Read a file of a track.

    Parameters
    ----------
    path : Path
        CSV in UTF-8 with the columns of one of the `LAYOUTS` and the time, at most `LARGEST_BYTES`.
    points_in_mi : ndarray, shape (3, 3), optional
        Where the points of a track in points stand in MI, mm; if not given, as in the first row.

    Raises
    ------
    InputError
        The file cannot be read, or rows cannot be used; with line and column.
    """
    content = ordinary_content(
        path,
        LARGEST_BYTES,
        "give a CSV file of a track in it",
        f"a track has at most {MOST_ROWS} rows, was another file meant?",
    )
    rows = csv_rows(csv_text(content, path), path)
    header = next(rows, Row(1, []))
    layout = layout_of(header, path)
    if points_in_mi is not None and layout != "points":
        raise InputError(
            f"{path}: has poses, but points_in_mi is given, which belongs to a track in points:"
            " leave it out"
        )
    numbers, lines = _numbers(list(rows), header, path)
    columns = [header.fields.index(name) for name in LAYOUTS[layout]]
    time_s = numbers[:, header.fields.index(TIME)]
    _refuse_time(time_s, lines, path)
    given = np.ascontiguousarray(numbers[:, columns])
    shape_off_mm, middle = 0.0, None
    if layout == "points":
        points = given.reshape(-1, 3, 3)
        first = points[0] if points_in_mi is None else points_in_mi
        poses, shape_off_mm = point_motions(points, first, lines, path)
        middle = first.mean(axis=0)
    elif layout == "quaternion":
        poses = _by_quaternions(given, lines, path)
    else:
        poses = _by_transforms(given.reshape(-1, 3, 4), lines, path)
    digest = sha256(content).hexdigest()
    return TrackRows(
        str(path), path.name, digest, layout, time_s, poses, lines, shape_off_mm, middle
    )


def _numbers(rows: list[Row], header: Row, path: Path) -> tuple[Floats, Ints]:
    """Return all numbers (n, k) in the order of the header, and the lines they stand in."""
    if not FEWEST_ROWS <= len(rows) <= MOST_ROWS:
        raise InputError(
            f"{path}: has {len(rows)} rows below the header; accepted are {FEWEST_ROWS} to"
            f" {MOST_ROWS}"
        )
    names = header.fields
    limits = [
        ("s", _LATEST_S) if n == TIME else ("mm", _FARTHEST_MM) if n.endswith("_mm") else ("", 10.0)
        for n in names
    ]
    faults: list[str] = []
    numbers = np.zeros((len(rows), len(names)))
    for place, row in enumerate(rows):
        if len(row.fields) != len(names):
            faults.append(
                f"line {row.line}: has {len(row.fields)} columns; wanted {len(names)}, as the"
                " header has"
            )
        for column, (text, (unit, farthest)) in enumerate(zip(row.fields, limits, strict=False)):
            value = number_in(text, unit, farthest)
            if isinstance(value, str):
                faults.append(f"line {row.line}, column {names[column]}: {value}")
            else:
                numbers[place, column] = value
        if len(faults) > 2 * MOST_TOLD:  # a file of something else
            break
    refuse_faults(faults, path)
    return numbers, np.array([row.line for row in rows], dtype=np.int64)


def _refuse_time(time_s: Floats, lines: Ints, path: Path) -> None:
    wrong = np.flatnonzero(np.diff(time_s) <= 0.0)
    if len(wrong):
        row = int(wrong[0]) + 1
        raise InputError(
            f"{path}: line {lines[row]}, column {TIME}: {time_s[row]:g} s does not come after"
            f" {time_s[row - 1]:g} s in the row before; time must rise from row to row"
        )


def _by_quaternions(given: Floats, lines: Ints, path: Path) -> Floats:
    sizes = np.linalg.norm(given[:, 3:], axis=1)
    _refuse_row(
        np.abs(sizes - 1.0) > _RIGID,
        lines,
        path,
        lambda row: (
            f"the quaternion has a length of {sizes[row]:.4g}; it must be 1 to within {_RIGID:g}"
        ),
    )
    turns = Rotation.from_quat(given[:, [4, 5, 6, 3]]).as_matrix()
    return pose_of(turns, given[:, :3])


def _by_transforms(given: Floats, lines: Ints, path: Path) -> Floats:
    turns = given[:, :, :3]
    off = np.abs(turns @ np.swapaxes(turns, 1, 2) - np.eye(3)).max(axis=(1, 2))
    off = np.maximum(off, np.abs(np.linalg.det(turns) - 1.0))
    _refuse_row(
        off > _RIGID,
        lines,
        path,
        lambda row: (
            f"r11 to r33 are no rotation: off by {off[row]:.2g} (accepted: {_RIGID:g});"
            " they must not scale or mirror"
        ),
    )
    return nearest_rigid(pose_of(turns, given[:, :, 3]))


def _refuse_row(wrong: Bools, lines: Ints, path: Path, said: Callable[[int], str]) -> None:
    if wrong.any():
        row = int(np.argmax(wrong))
        count = int(wrong.sum())
        more = "" if count == 1 else f"; so are {count - 1} more rows"
        raise InputError(f"{path}: line {lines[row]}: {said(row)}{more}")
