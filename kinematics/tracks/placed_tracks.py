"""Tracks of a case read, placed in the hinge frame and smoothed there."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.records.settings import RecordFitting
from kinematics.scans.bites import bite_pose
from kinematics.scans.centric_records import mounted_hinge, nearest_rigid, record_poses
from kinematics.scans.settings import ScanSettings
from kinematics.tracks.settings import KEY, JawTrack, TrackKind
from kinematics.tracks.smoothing import Rows, SmoothTrack, smoothed
from kinematics.tracks.track_files import TrackRows, read_track


@dataclass(frozen=True)
class PlacedTrack:
    """A track in the hinge frame.

    Attributes
    ----------
    number : int
        Which of the case, counted from 1.
    kind : TrackKind
        Which way the jaw went.
    rows : TrackRows
        As its file has it.
    smooth : SmoothTrack
        Motions of the lower, smoothed; from MI or from CR.
    from_mi : bool
        These motions begin in MI; else in CR.
    zeroed : bool
        They were measured from the first row on, in MI, so that an error of how the recorder was
        fixed turns them but does not shift them.
    about : ndarray, shape (3,)
        Middle of the teeth, hinge frame, mm.
    hinge_from_file : ndarray, shape (4, 4)
        From the coordinates of the file to the hinge frame.
    from_mi_to_start : ndarray, shape (4, 4), or None
        Motion of the lower from MI to where its motions begin, if that is a place of scanned casts
        other than MI; None of built-in teeth, whose motions from CR are hinge_from_lower.
    """

    number: int
    kind: TrackKind
    rows: TrackRows
    smooth: SmoothTrack
    from_mi: bool
    zeroed: bool
    about: Floats
    hinge_from_file: Floats
    from_mi_to_start: Floats | None

    def hinge_from_lower(self, mi_pose: Floats) -> Floats:
        """Return the poses (n, 4, 4) of the lower, from its pose in MI (4, 4)."""
        if self.from_mi_to_start is None:
            return self.smooth.poses
        return np.asarray(self.smooth.poses @ self.from_mi_to_start @ mi_pose)


def placed_tracks(
    tracks: Sequence[JawTrack],
    fitting: RecordFitting,
    scans: ScanSettings | None,
    reference_plane: str,
) -> tuple[PlacedTrack, ...]:
    """Read, place and smooth the tracks of a case.

    Parameters
    ----------
    tracks : sequence of JawTrack
        Of the case; their files are looked for as they are named.
    fitting : RecordFitting
        Says where the middle of the teeth lies, for tracks in poses.
    scans : ScanSettings or None
        Mounting, bite and records of CR; None for built-in teeth.
    reference_plane : str
        Plane of the hinge frame.

    Raises
    ------
    InputError
        Files that cannot be read, or rows that cannot be smoothed.
    """
    return tuple(
        _placed(number, track, fitting, scans, reference_plane)
        for number, track in enumerate(tracks, start=1)
    )


def _placed(
    number: int,
    track: JawTrack,
    fitting: RecordFitting,
    scans: ScanSettings | None,
    reference_plane: str,
) -> PlacedTrack:
    in_mi = np.array(track.points_in_mi) if track.points_in_mi else None
    rows = read_track(Path(track.file), in_mi)
    in_points = rows.layout == "points"
    about = np.array(fitting.scatter_about_mm)
    hinge = np.eye(4) if scans is None else mounted_hinge(scans, reference_plane)
    if rows.middle is not None:
        about = move_points(hinge, rows.middle[None])[0]
    from_mi_to_start: Floats | None = np.eye(4)
    if scans is None:
        motions, from_mi = rows.poses, in_points
        from_mi_to_start = np.eye(4) if from_mi else None
    else:
        bite = nearest_rigid(bite_pose(scans.scan_from_lower))
        from_mi = not scans.centric_records
        start = bite if from_mi else record_poses(scans)[0]
        there = rows.poses @ bite if in_points else rows.poses
        motions = hinge @ there @ inverse(start) @ inverse(hinge)
        from_mi_to_start = hinge @ start @ inverse(bite) @ inverse(hinge)
    where = f"{KEY}[{number - 1}] ({track.kind}): {rows.path}"
    smooth = smoothed(
        Rows(rows.time_s, nearest_rigid(motions), rows.lines, where),
        about,
        track.bandwidth_hz,
        track.smoothed_before,
    )
    zeroed = in_points and in_mi is None
    return PlacedTrack(
        number, track.kind, rows, smooth, from_mi, zeroed, about, hinge, from_mi_to_start
    )
