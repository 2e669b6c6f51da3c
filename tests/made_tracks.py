"""Jaw tracks made from known guidance or a known hinge axis: exact, noisy, as files."""

import numpy as np
from scipy.spatial.transform import Rotation

from kinematics.conventions import LEFT, RIGHT
from kinematics.geometry.poses import move_points, opening_rotation, pose_of
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import place
from kinematics.tracks.placed_tracks import PlacedTrack
from kinematics.tracks.smoothing import Rows, smoothed
from kinematics.tracks.track_columns import LAYOUTS
from kinematics.tracks.track_files import TrackRows
from tests.made_excursion_records import ABOUT

#: Three places of a lower arch in lower coordinates, as a track in points follows them.
POINTS = np.array([[84.0, 0.0, -33.0], [50.0, -26.0, -31.0], [50.0, 26.0, -31.0]])


def times(seconds=3.0, rate_hz=100.0):
    """Return evenly spaced times, s."""
    return np.arange(round(seconds * rate_hz) + 1) / rate_hz


def there_and_back(time_s, far):
    """Return a smooth way from 0 to `far` and back, at rest at both ends."""
    share = (time_s - time_s[0]) / (time_s[-1] - time_s[0])
    return 0.5 * far * (1.0 - np.cos(2.0 * np.pi * share))


def excursion_track(given, kind, far_mm, time_s=None, opening_rad=0.05, start_mm=0.0):
    """Return times and hinge_from_lower along an excursion and back, on given guidance.

    The shift of a lateral excursion comes first, while the condyle has not moved forward.
    """
    time_s = times() if time_s is None else time_s
    guidance = prepare(given)
    gone = there_and_back(time_s, far_mm)
    if kind == "protrusive":
        right = left = start_mm + gone
        shift = np.zeros_like(gone)
    else:
        sign = LEFT if kind == "right lateral" else RIGHT
        side = guidance.left if sign == LEFT else guidance.right
        ahead = np.maximum(there_and_back(time_s, far_mm + 1.0) - 1.0, 0.0)
        near = np.minimum(there_and_back(time_s, far_mm + 1.0), 1.0)
        if side.early_over_mm > 0.0:
            near = np.clip(ahead / side.early_over_mm, 0.0, 1.0)
        still = np.full_like(gone, start_mm)
        right, left = (start_mm + ahead, still) if sign == RIGHT else (still, start_mm + ahead)
        shift = -sign * side.shift_limit_mm * near
    at = place(guidance, right, left, shift).pose_at_zero
    return time_s, at @ opening_rotation(there_and_back(time_s, opening_rad))


def hinge_track(point, direction, far_rad=0.15, time_s=None, start=None):
    """Return times and poses of an opening about a line and back."""
    time_s = times() if time_s is None else time_s
    along = np.asarray(direction) / np.linalg.norm(direction)
    turn = Rotation.from_rotvec(there_and_back(time_s, far_rad)[:, None] * along).as_matrix()
    start = np.eye(4) if start is None else start
    return time_s, pose_of(turn, point - turn @ point) @ start


def with_noise(poses, rng, shift_mm, turn_deg):
    """Return poses with independent noise: turned about the teeth and shifted there."""
    turn = Rotation.from_rotvec(rng.normal(0.0, np.radians(turn_deg), (len(poses), 3))).as_matrix()
    shift = rng.normal(0.0, shift_mm, (len(poses), 3))
    return pose_of(turn, ABOUT - turn @ ABOUT + shift) @ poses


def table(time_s, poses, layout="quaternion", digits=12):
    """Return the text of a file of a track."""
    if layout == "quaternion":
        quaternions = Rotation.from_matrix(poses[:, :3, :3]).as_quat()
        numbers = np.hstack([poses[:, :3, 3], quaternions[:, [3, 0, 1, 2]]])
    elif layout == "transform":
        numbers = poses[:, :3].reshape(len(poses), 12)
    else:
        numbers = move_points(poses, POINTS).reshape(len(poses), 9)
    rows = np.hstack([time_s[:, None], numbers])
    head = ",".join(("time_s", *LAYOUTS[layout]))
    return "\n".join([head, *(",".join(f"{x:.{digits}g}" for x in row) for row in rows), ""])


def written(path, *track, **more):
    """Write a track to a file and return its path."""
    path.write_text(table(*track, **more), "utf-8")
    return path


def placed_track(kind, time_s, poses, number=1, bandwidth_hz=6.0, before=False, **more):
    """Return a smoothed track of built-in teeth, as if read from a file of poses."""
    lines = np.arange(len(time_s)) + 2
    rows = TrackRows("track.csv", "track.csv", "", "quaternion", time_s, poses, lines, 0.0, None)
    smooth = smoothed(Rows(time_s, poses, lines, "track.csv"), ABOUT, bandwidth_hz, before)
    settled = {
        "from_mi": False,
        "zeroed": False,
        "about": ABOUT,
        "hinge_from_file": np.eye(4),
        "from_mi_to_start": None,
    }
    return PlacedTrack(number, kind, rows, smooth, **{**settled, **more})


def fixed_with_errors(poses, rng, fitting):
    """Return poses as a recorder has them that is off on the upper and on the lower."""
    off = [with_noise(np.eye(4)[None], rng, *scatter_of(fitting))[0] for _ in range(2)]
    return off[0] @ poses @ off[1]


def scatter_of(fitting):
    """Return how far a record may be off: shift, mm, and turn, degrees."""
    return fitting.translation_scatter_mm, fitting.rotation_scatter_deg
