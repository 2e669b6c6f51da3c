"""Measured tracks in words: what was recorded, what follows of axis and guidance, what does not."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from kinematics.planning.centric_findings import way_words
from kinematics.records.settings import RecordFitting
from kinematics.tracks.found_axis import AxisPlace, FoundAxis, HingeAxis
from kinematics.tracks.found_tracks import FromTracks, MeasuredPath, ToldTrack
from kinematics.tracks.hinge_axis import FAR_MM, MOST_MOVED_MM
from kinematics.tracks.sought_along import SHIFT_OVER_MM
from scenes.phrases import counted, degrees, length, number
from scenes.record_words import differ_words, follows_table, kept_table
from scenes.report_tables import Table

_EMPTY: Final = Table((), ())
#: Errors so many times as large as explained speak of paths of another shape. Chosen for this
#: program.
_OTHER_SHAPE: Final = 1.5
#: Told of each kind of file.
_GIVEN: Final = {"quaternion": "poses", "transform": "poses", "points": "three points"}
_NOT_SOUGHT: Final = (
    "Taken as exact: the mounting, and where centric relation and MI lie. The Fischer angle and the"
    " direction in which a working condyle leaves are taken as set; how far the jaw sways in a"
    f" protrusive track is left out. Of lateral tracks the first {SHIFT_OVER_MM:g} mm by which one"
    " condyle is ahead are not used where an immediate shift comes first."
)


@dataclass(frozen=True)
class TrackWords:
    """The part of the report about measured tracks.

    Attributes
    ----------
    recorded : Table
        Each track, how it was smoothed, and how far it takes the condyles.
    axes : Table
        Hinge axes at both condyles; no rows without.
    axis_notes : tuple of str
        How far they hold, and why there is none.
    follows, kept : Table
        Settings that follow, and those that do not; no rows without.
    differ : str
        Which settings of the case lie outside their interval; empty where none does.
    misfit : Table
        How far each track lies from the guidance that fits all best.
    misfit_note : str
        What that means for the standard errors.
    paths : tuple of str
        Condylar paths as measured points.
    smoothing, certainty, not_sought : str
        How tracks are smoothed, what standard errors hold, what is taken as exact or as set; the
        last two are empty where nothing is fitted.
    """

    recorded: Table
    axes: Table
    axis_notes: tuple[str, ...]
    follows: Table
    kept: Table
    differ: str
    misfit: Table
    misfit_note: str
    paths: tuple[str, ...]
    smoothing: str
    certainty: str
    not_sought: str


def track_words(
    found: FromTracks | None, fitting: RecordFitting, reference_plane: str
) -> TrackWords | None:
    """Return what the report says about measured tracks; None where there are none.

    Parameters
    ----------
    found : FromTracks or None
        What they say.
    fitting : RecordFitting
        How far a recorder may be off.
    reference_plane : str
        In words.
    """
    if found is None:
        return None
    settings = found.settings
    fitted = any(track.misfit for track in found.tracks)
    return TrackWords(
        Table(
            ("track", "recorded", "smoothed", "right condyle from CR", "left condyle from CR"),
            tuple(_recorded_row(track) for track in found.tracks),
        ),
        Table(
            ("track", "by", "right condyle", "left condyle", "farthest from the axis of the case"),
            tuple(row for axis in found.axes for row in _axis_rows(axis)),
        ),
        tuple(note for axis in found.axes for note in _axis_notes(axis)),
        _EMPTY if settings is None else follows_table(settings),
        _EMPTY if settings is None else kept_table(settings),
        "" if settings is None else differ_words(settings, "tracks"),
        Table(
            ("track", "rows", "root mean square", "largest", "at an advance of", "beside"),
            tuple(_misfit_row(track) for track in found.tracks if track.misfit),
        ),
        _misfit_note(found) if fitted else "",
        tuple(map(_path_words, found.paths)),
        _smoothing(found),
        _certainty(fitting, reference_plane) if fitted or found.axes else "",
        _NOT_SOUGHT if fitted else "",
    )


def track_lines(words: TrackWords) -> tuple[str, ...]:
    """Return the same as lines of text for the screen."""
    lines = ["What was recorded:"]
    for track, recorded, smooth, right, left in words.recorded.rows:
        lines += [
            f"  {track}: {recorded}; smoothed: {smooth}",
            f"    right condyle from centric relation, farthest ahead: {right}",
            f"    left condyle from centric relation, farthest ahead: {left}",
        ]
    if words.axes.rows or words.axis_notes:
        lines += ["", "Hinge axis, from the axis of the case (forward, up):"]
        lines += [
            f"  {track}, {by}: right {right}, left {left}; farthest {far}"
            for track, by, right, left, far in words.axes.rows
        ]
        lines += [f"  {note}" for note in words.axis_notes]
    if words.follows.head:
        lines += ["", "What follows:"]
        lines += [
            f"  {name}: {value}, standard error {error}, 95 % interval {interval}; as set {as_set}"
            for name, value, error, interval, as_set in words.follows.rows
        ] or ["  nothing"]
    if words.kept.rows:
        lines += ["", "What does not follow, and stays as set:"]
        lines += [f"  {name} ({as_set}): {why}" for name, as_set, why in words.kept.rows]
    if words.misfit.rows:
        lines += ["", "What is left along the tracks:"]
        lines += [
            f"  {track}: {rms} root mean square of {rows} rows, {most} at most, at an advance of"
            f" {at}; as a whole {beside} beside"
            for track, rows, rms, most, at, beside in words.misfit.rows
        ]
    told = (words.differ, words.misfit_note, *words.paths)
    more = (words.smoothing, words.certainty, words.not_sought)
    return (*lines, "", *filter(None, told), *filter(None, more))


def _name(track: ToldTrack) -> str:
    return f"{track.number}, {track.kind}"


def _recorded_row(track: ToldTrack) -> tuple[str, ...]:
    given = _GIVEN[track.layout]
    if track.shape_off_mm:
        given += f", which are {length(track.shape_off_mm)} off a rigid jaw (root mean square)"
    recorded = (
        f"{track.file}: {counted(track.rows, 'row')}, {number(track.seconds, 1)} s,"
        f" {number(track.rate_hz, 0)} a second{', unevenly spaced' if track.resampled else ''};"
        f" {given}"
    )
    if track.smoothed_before:
        smooth = f"before, to {number(track.bandwidth_hz, 1)} Hz"
    else:
        smooth = (
            f"to {number(track.bandwidth_hz, 1)} Hz, which moves the teeth by"
            f" {length(track.taken_off_mm)}; noise left {length(track.shift_noise_mm)} and"
            f" {number(track.turn_noise_deg, 2)}°"
        )
    return (
        _name(track),
        recorded,
        smooth,
        way_words(track.farthest_right_mm),
        way_words(track.farthest_left_mm),
    )


def _axis_rows(axis: HingeAxis) -> Iterator[tuple[str, ...]]:
    for by, found in (("turns", axis.finite), ("velocities", axis.instantaneous)):
        if found is not None:
            yield (
                f"{axis.number}",
                by,
                _place(found.right),
                _place(found.left),
                length(max(found.right.distance_mm, found.left.distance_mm))
                + ("" if _holds(found) else " (outside)"),
            )


def _holds(found: FoundAxis) -> bool:
    return found.right.holds_as_set and found.left.holds_as_set


def _place(place: AxisPlace) -> str:
    forward, up = (
        f"{number(value, 2)} ± {number(error, 2)} mm"
        for value, error in zip((place.forward_mm, place.up_mm), place.errors_mm, strict=True)
    )
    return f"forward {forward}, up {up}"


def _axis_notes(axis: HingeAxis) -> Iterator[str]:
    if axis.finite is None:
        yield f"Track {axis.number} gives no hinge axis: {axis.reason}."
        return
    told = (
        f"Track {axis.number}: the jaw opens by {degrees(axis.opened_deg)}; up to"
        f" {degrees(axis.used_deg)} it turns about one axis, which moves by"
        f" {length(axis.moved_mm)} at the condyles"
    )
    if axis.used_deg < axis.opened_deg:
        told += (
            f" ({length(axis.moved_in_all_mm)} over the whole track: beyond, condyles advance, and"
            " those rows are left out)"
        )
    yield f"{told}. ± are standard errors."
    if axis.instantaneous is None:
        yield "The jaw turned too slowly to find its axis from velocities too."
    else:
        yield (
            "The axes of single moments pass"
            f" {length(axis.wander_mm)} from their common one (root mean square)."
        )
    points = (axis.finite.point_right, axis.finite.point_left)
    right, left = ("[" + ", ".join(number(x, 2) for x in point) + "]" for point in points)
    yield f"In the coordinates of the file it passes {right} and {left} mm."
    if axis.far_mm > FAR_MM:
        yield (
            f"That is more than {FAR_MM:g} mm from the axis of the case. An opening in which the"
            " condyles advance evenly from the start looks like a turn about an axis that lies"
            " elsewhere: was the jaw held in centric relation, and is the mounting right?"
        )


def _misfit_row(track: ToldTrack) -> tuple[str, ...]:
    misfit = track.misfit
    assert misfit is not None
    return (
        _name(track),
        str(misfit.rows),
        length(misfit.root_mean_square_mm),
        length(misfit.largest_mm),
        f"{number(misfit.at_mm, 1)} mm",
        length(misfit.by_fixing_mm),
    )


def _misfit_note(found: FromTracks) -> str:
    told = (
        "Left is what the guidance that fits all tracks best does not explain at both condyles;"
        " beside is by how much an error of how the recorder was fixed moves the whole track."
    )
    if found.widened <= 1.0:
        return told
    return (
        f"{told} That is {number(found.widened, 1)} times what noise and fixing explain, so all"
        " standard errors are taken as many times larger"
        + (
            ". The paths are of another shape than an arc: set them as measured points, or look for"
            " a track that is off."
            if found.widened > _OTHER_SHAPE
            else "."
        )
    )


def _path_words(path: MeasuredPath) -> str:
    if path.reason:
        return f"No measured path of the {path.side} condyle: {path.reason}."
    forward, drop = path.points[-1]
    return (
        f"The path of the {path.side} condyle as {counted(len(path.points), 'measured point')}:"
        f" up to {length(forward)} forward and {length(drop)} down, from"
        f" {counted(path.rows, 'row')}, which lie {length(path.spread_mm)} above or below it (root"
        " mean square, the way there and the way back together)."
    )


def _smoothing(found: FromTracks) -> str:
    end_s = max(track.end_s for track in found.tracks)
    return (
        "Smoothed without delay, as screw motions, by a Butterworth filter of second order run"
        f" forward and back; {number(end_s, 2)} s or less at both ends of a track are not used."
        " What smoothing takes off shows the noise, and how much of it is left."
    )


def _certainty(fitting: RecordFitting, reference_plane: str) -> str:
    return (
        "Standard errors hold the noise of rows, of which as many count as are independent at the"
        " bandwidth, and how the recorder was fixed: off by"
        f" {length(fitting.translation_scatter_mm)} each way and by"
        f" {number(fitting.rotation_scatter_deg, 2)}° about each axis at the teeth on either jaw,"
        " standard deviations, the same in all tracks. An axis may move by"
        f" {length(MOST_MOVED_MM)} beyond noise. Inclinations refer to the {reference_plane}."
    )
