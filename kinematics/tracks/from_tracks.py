"""What the tracks of a case say: settings fitted along them, axes, paths, and what is left."""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import RIGHT, Bools, Floats, Ints
from kinematics.geometry.poses import move_points
from kinematics.guidance.guidance import prepare
from kinematics.records.best_fit import BestFit, Jaw, Observations, observations
from kinematics.records.found_settings import FromRecords
from kinematics.records.from_records import settled_fit, told_by
from kinematics.records.guided_condyles import condyles_in_mi
from kinematics.records.recorded_places import NONWORKING, RecordedPlace
from kinematics.records.settings import RecordFitting, RecordKind
from kinematics.records.sought import SIDES, advances_along
from kinematics.tracks.found_tracks import FromTracks, ToldTrack, TrackLine, TrackMisfit, Vector
from kinematics.tracks.hinge_axis import hinge_axis
from kinematics.tracks.measured_paths import measured_paths
from kinematics.tracks.placed_tracks import PlacedTrack, placed_tracks
from kinematics.tracks.settings import KEY
from kinematics.tracks.sought_along import (
    LEAST_USED_MM,
    SHIFT_OVER_MM,
    Advances,
    sought_along,
)
from kinematics.tracks.track_errors import effects_of_fixing, noise_of_rows
from kinematics.tracks.tracked import Tracked

#: So many independent rows of a track are fitted at most: how the recorder is fixed counts for more
#: than the noise of so many. Chosen for this program.
_MOST_ROWS: Final = 40
#: So many rows of a track are drawn at most. Chosen for this program: more show nothing more.
_MOST_DRAWN: Final = 400
#: No condyle goes farther than the longest path that can be set, mm.
_MOST_MM: Final = 25.0
#: A condyle that should advance may stand this far behind CR, mm. Chosen for this program: four
#: times the error of how a recorder is usually fixed.
_MOST_BEHIND_MM: Final = 1.5


def placed_in(tracked: Tracked) -> tuple[PlacedTrack, ...]:
    """Return tracks read, placed and smoothed; see `placed_tracks`."""
    plane = tracked.settings.reference_plane
    return placed_tracks(tracked.tracks, tracked.fitting, tracked.scans, plane)


def found_in_tracks(tracked: Tracked, placed: Sequence[PlacedTrack]) -> FromTracks:
    """Say what tracks tell.

    Parameters
    ----------
    tracked : Tracked
        The case.
    placed : sequence of PlacedTrack
        Its tracks, as `placed_in` returns them.

    Raises
    ------
    InputError
        Tracks that no jaw can have left, or of another kind than told.
    NotConverged
        Tracks that no guidance comes near to.
    """
    jaw = Jaw(tracked.settings, prepare(tracked.settings), tracked.mi)
    half_mm = jaw.prepared.half_distance_mm
    seats = np.array([[0.0, -half_mm, 0.0], [0.0, half_mm, 0.0]])
    along = [_Along(track, jaw, seats) for track in placed]
    settings, misfits, widened, lines = _fitted(along, jaw, tracked.fitting)
    return FromTracks(
        tuple(_told(one, misfits.get(one.track.number)) for one in along),
        tuple(
            hinge_axis(track, half_mm, tracked.fitting)
            for track in placed
            if track.kind == "hinge opening"
        ),
        settings,
        widened,
        measured_paths([one.kept for one in along if one.track.kind == "protrusive"]),
        tuple(
            TrackLine(
                one.track.number,
                one.track.kind,
                one.kept[:: math.ceil(len(one.kept) / _MOST_DRAWN)] - seats,
                lines.get(one.track.number, np.zeros((0, 2, 3))),
            )
            for one in along
        ),
    )


class _Along:
    """Condyles along one track, and the rows of it that are fitted."""

    def __init__(self, track: PlacedTrack, jaw: Jaw, seats: Floats) -> None:
        self.track, self.seats = track, seats
        self.start = condyles_in_mi(jaw.prepared, jaw.mi, 1)[0] if track.from_mi else seats
        centres = move_points(track.smooth.poses, self.start)
        self.kept: Floats = centres[track.smooth.kept]
        if self.kind is None:
            return
        advances = advances_along(centres, float(seats[1, 1]))
        _refuse_impossible(self, advances, centres[:, :, 0])
        rows = track.smooth.independent(_MOST_ROWS)
        self.rows: Ints = rows[_tells(self.nonworking, advances[rows], jaw)]
        self.advances: Floats = advances[self.rows]
        self.centres: Floats = centres[self.rows]

    @property
    def kind(self) -> RecordKind | None:
        """The kind of an excursion from which settings follow; else None."""
        kind = self.track.kind
        return None if kind == "hinge opening" or kind == "other" else kind

    @property
    def nonworking(self) -> int:
        """RIGHT, LEFT, or 0 in protrusion."""
        return 0 if self.kind is None else NONWORKING[self.kind]

    @property
    def places(self) -> list[RecordedPlace]:
        """The rows that are fitted, as records."""
        track = self.track
        assert self.kind is not None
        return [
            RecordedPlace(track.number, self.kind, pose, track.from_mi, track.about)
            for pose in track.smooth.poses[self.rows]
        ]


def _tells(nonworking: int, advances: Floats, jaw: Jaw) -> Bools:
    """Tell which rows of a track say something of the paths, (n,)."""
    if nonworking == 0:
        return np.asarray(advances.max(axis=1) >= LEAST_USED_MM)
    side = jaw.prepared.right if nonworking == RIGHT else jaw.prepared.left
    mine = 0 if nonworking == RIGHT else 1
    beyond = advances[:, mine] - advances[:, 1 - mine]
    over_mm = SHIFT_OVER_MM if side.early_over_mm == 0.0 else LEAST_USED_MM
    return np.asarray(beyond >= over_mm)


def _refuse_impossible(along: _Along, advances: Floats, forward: Floats) -> None:
    track = along.track
    lines, time_s = track.rows.lines, track.smooth.time_s

    def where(row: int) -> str:
        line = lines[int(np.argmin(np.abs(track.rows.time_s - time_s[row])))]
        return f"{KEY}[{track.number - 1}] ({track.kind}): {track.rows.path}: near line {line}"

    for side, (name, sign) in enumerate(SIDES):
        farthest = int(np.argmax(np.abs(advances[:, side])))
        if abs(advances[farthest, side]) > _MOST_MM:
            raise InputError(
                f"{where(farthest)}: the {name} condyle is {abs(advances[farthest, side]):.1f} mm"
                f" from centric relation; accepted are up to {_MOST_MM:g} mm. Does the track move"
                " the lower, in the right coordinates?"
            )
        behind = int(np.argmin(forward[:, side]))
        if along.nonworking in (0, sign) and -forward[behind, side] > _MOST_BEHIND_MM:
            raise InputError(
                f"{where(behind)}: the {name} condyle is {-forward[behind, side]:.1f} mm behind"
                f" centric relation; accepted are up to {_MOST_BEHIND_MM:g} mm. Check the kind of"
                " the track, its coordinates, and the mounting"
            )
    if along.nonworking:
        mine = 0 if along.nonworking == RIGHT else 1
        most = advances[int(np.argmax(np.abs(advances[:, 0] - advances[:, 1])))]
        if most[mine] <= most[1 - mine]:
            raise InputError(
                f"{where(0)}: where they are farthest apart the condyle of the working side is"
                f" ahead ({most[1 - mine]:.1f} mm, the other {most[mine]:.1f} mm); is its kind"
                " right?"
            )


Lines = dict[int, Floats]


def _fitted(
    along: Sequence[_Along], jaw: Jaw, fitting: RecordFitting
) -> tuple[FromRecords | None, dict[int, TrackMisfit], float, Lines]:
    """Fit guidance to all excursions; return it, misfits and lines by track, and the widening."""
    excursions = [one for one in along if one.kind is not None]
    used = [one for one in excursions if len(one.rows)]
    if not excursions:
        return None, {}, 1.0, {}
    numbers = np.concatenate([np.full(len(one.rows), one.nonworking) for one in excursions])
    advances = np.concatenate([one.advances for one in excursions])
    sought = sought_along(Advances(numbers, advances), jaw.settings, fitting)
    if not used:
        return told_by((), jaw, sought, (), None), {}, 1.0, {}
    places = [place for one in used for place in one.places]
    errors = np.concatenate([noise_of_rows(one.track, one.centres) for one in used])
    shared = np.concatenate(
        [
            effects_of_fixing(one.track, one.track.smooth.poses[one.rows], one.start, fitting)
            for one in used
        ]
    )
    observed = observations(places, list(errors), shared)
    fit = settled_fit(jaw, observed, sought, advances, by_misfit=True)
    widened = math.sqrt(max(1.0, fit.chi_square / fit.freedom)) if fit.freedom > 0 else 1.0
    return (
        told_by((), jaw, sought, places, fit),
        _misfits(used, observed, fit),
        widened,
        _lines(used, fit),
    )


def _lines(used: Sequence[_Along], fit: BestFit) -> Lines:
    """Return where the fit puts the condyles along each track, from CR, by rising advance."""
    ends = np.cumsum([len(one.rows) for one in used])[:-1]
    parts = zip(used, np.split(fit.allowed, ends), np.split(fit.advances_mm, ends), strict=True)
    return {
        one.track.number: allowed[np.argsort(gone.max(axis=1))] - one.seats
        for one, allowed, gone in parts
    }


def _misfits(
    used: Sequence[_Along], observed: Observations, fit: BestFit
) -> dict[int, TrackMisfit]:
    """Return how far each track lies from the fit."""
    ends = np.cumsum([len(one.rows) for one in used])[:-1]
    by_fixing = observed.by_shared_mm(fit.left_mm)
    beside, left = (
        np.split(np.linalg.norm(part, axis=1), ends)
        for part in (by_fixing, fit.left_mm - by_fixing)
    )
    gone = np.split(fit.advances_mm.max(axis=1), ends)
    return {
        one.track.number: TrackMisfit(
            len(one.rows),
            _root_mean_square(mine),
            float(mine.max()),
            float(far[int(np.argmax(mine))]),
            _root_mean_square(fixed),
        )
        for one, mine, far, fixed in zip(used, left, gone, beside, strict=True)
    }


def _root_mean_square(values: Floats) -> float:
    return float(np.sqrt(np.mean(values**2)))


def _told(along: _Along, misfit: TrackMisfit | None) -> ToldTrack:
    track, smooth = along.track, along.track.smooth
    moves = along.kept - along.seats
    right, left = (moves[int(np.argmax(moves[:, side, 0])), side] for side in range(2))
    return ToldTrack(
        track.number,
        track.kind,
        track.rows.name,
        track.rows.sha256,
        track.rows.layout,
        len(track.rows.time_s),
        float(smooth.time_s[-1] - smooth.time_s[0]),
        smooth.rate_hz,
        smooth.resampled,
        smooth.bandwidth_hz,
        smooth.end_s,
        smooth.before,
        smooth.taken_off_mm,
        smooth.shift_noise_mm,
        math.degrees(smooth.turn_noise_rad),
        track.rows.shape_off_mm,
        _vector(right),
        _vector(left),
        misfit,
    )


def _vector(values: Floats) -> Vector:
    x, y, z = values.tolist()
    return x, y, z
