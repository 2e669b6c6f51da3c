"""What tracks of a case say: what was recorded, hinge axes, settings, residuals, paths."""

from dataclasses import dataclass, field

from kinematics.conventions import Floats
from kinematics.records.found_settings import FromRecords
from kinematics.records.sought import SideName
from kinematics.tracks.found_axis import HingeAxis
from kinematics.tracks.settings import TrackKind
from kinematics.tracks.track_columns import Layout

Vector = tuple[float, float, float]


@dataclass(frozen=True)
class TrackMisfit:
    """How far a track lies from the guidance that fits all tracks best.

    Attributes
    ----------
    rows : int
        Independent rows that counted.
    root_mean_square_mm, largest_mm : float
        Of what is left at both condyles, beyond what an error of how the recorder was fixed
        explains.
    at_mm : float
        Advance of the condyle that has gone farther where it is largest.
    by_fixing_mm : float
        What such an error explains: by so much the whole track lies beside, root mean square.
    """

    rows: int
    root_mean_square_mm: float
    largest_mm: float
    at_mm: float
    by_fixing_mm: float


@dataclass(frozen=True)
class ToldTrack:
    """What one track is by itself.

    Attributes
    ----------
    number : int
        Which track, counted from 1.
    kind : TrackKind
        Which way the jaw went.
    file, sha256 : str
        Name and fingerprint.
    layout : "quaternion", "transform" or "points"
        How it is given.
    rows : int
        Of the file.
    seconds, rate_hz : float
        How long it lasts, and rows a second.
    resampled : bool
        They were unevenly spaced.
    bandwidth_hz, end_s : float
        What smoothing leaves, and how much of both ends is not used.
    smoothed_before : bool
        Smoothed by whoever recorded it.
    taken_off_mm : float
        By how much smoothing moves the teeth, root mean square.
    shift_noise_mm, turn_noise_deg : float
        Noise left in a row.
    shape_off_mm : float
        By how much points are off a rigid jaw; 0 of poses.
    farthest_right_mm, farthest_left_mm : tuple of float
        From CR to where it takes the condyle centre that is farthest ahead: forward, to the left,
        up; hinge frame.
    misfit : TrackMisfit or None
        Of tracks from which settings are found.
    """

    number: int
    kind: TrackKind
    file: str
    sha256: str
    layout: Layout
    rows: int
    seconds: float
    rate_hz: float
    resampled: bool
    bandwidth_hz: float
    end_s: float
    smoothed_before: bool
    taken_off_mm: float
    shift_noise_mm: float
    turn_noise_deg: float
    shape_off_mm: float
    farthest_right_mm: Vector
    farthest_left_mm: Vector
    misfit: TrackMisfit | None


@dataclass(frozen=True)
class MeasuredPath:
    """The path of a condyle as points, from protrusive tracks.

    Attributes
    ----------
    side : "right" or "left"
        Whose.
    points : tuple of (float, float)
        Forward and drop from CR, mm; the first is (0, 0). Ready for `measured_points`.
    spread_mm : float
        How far rows at one place of the path lie above and below it, root mean square: the way
        there and the way back together.
    rows : int
        From so many.
    reason : str
        Why there is none; empty where there is one.
    """

    side: SideName
    points: tuple[tuple[float, float], ...]
    spread_mm: float
    rows: int
    reason: str


@dataclass(frozen=True)
class TrackLine:
    """Where one track, and the guidance fitted to all, put the condyles, for a picture.

    Attributes
    ----------
    number : int
        Which track.
    kind : TrackKind
        Which way the jaw went.
    measured : ndarray, shape (n, 2, 3)
        Right and left condyle centre in smoothed rows that are kept, from CR, hinge frame, mm.
    fitted : ndarray, shape (m, 2, 3)
        The same by the fitted guidance, by rising advance; no rows of tracks that are not fitted.
    """

    number: int
    kind: TrackKind
    measured: Floats
    fitted: Floats


@dataclass(frozen=True)
class FromTracks:
    """What the tracks of a case say.

    Attributes
    ----------
    tracks : tuple of ToldTrack
        What was recorded.
    axes : tuple of HingeAxis
        Of hinge openings.
    settings : FromRecords or None
        What protrusive and lateral tracks say of guidance; None where there are none.
    widened : float
        By how many times standard errors are larger than noise and fixing explain, because the
        misfit is.
    paths : tuple of MeasuredPath
        Right and left, from protrusive tracks; empty without.
    lines : tuple of TrackLine
        For pictures.
    """

    tracks: tuple[ToldTrack, ...]
    axes: tuple[HingeAxis, ...]
    settings: FromRecords | None
    widened: float
    paths: tuple[MeasuredPath, ...]
    lines: tuple[TrackLine, ...] = field(repr=False)
