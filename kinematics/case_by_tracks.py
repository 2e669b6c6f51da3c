"""A case with the settings that its tracks give, or with their paths as measured points."""

from dataclasses import replace

from kinematics.case import Case
from kinematics.case_by_records import CaseByRecords, case_by
from kinematics.checks import InputError
from kinematics.records.found_settings import FromRecords
from kinematics.records.settings import KEY as RECORDS
from kinematics.tracks.found_tracks import FromTracks, MeasuredPath
from kinematics.tracks.from_tracks import found_in_tracks
from kinematics.tracks.placed_tracks import PlacedTrack
from kinematics.tracks.settings import KEY

#: Decimals of points in a case file: far below what any recorder shows.
_DECIMALS = 4


def case_by_tracks(
    case: Case, placed: tuple[PlacedTrack, ...], found: FromTracks, *, as_points: bool
) -> CaseByRecords:
    """Return a case with what its tracks give.

    Parameters
    ----------
    case : Case
        With tracks.
    placed : tuple of PlacedTrack
        Its tracks.
    found : FromTracks
        What they say of the case.
    as_points : bool
        Set condylar paths as measured points, from protrusive tracks, in place of inclination and
        curvature.

    Raises
    ------
    InputError
        Nothing follows, or what follows contradicts the case.
    NotConverged
        Tracks that no guidance comes near to.
    """

    def settings_of(of: Case) -> FromRecords:
        told = found_in_tracks(of.tracked, placed).settings
        assert told is not None
        return told

    paths = [path for path in found.paths if path.points] if as_points else []
    if as_points and not paths:
        why = "; ".join(path.reason for path in found.paths) or "there is no protrusive track"
        raise InputError(f"{KEY}: no measured path follows: {why}")
    if paths and case.interocclusal_records:
        raise InputError(
            f"{RECORDS}: measured paths say more than these can, so a case has one or the other;"
            f" take [[{RECORDS}]] out, or leave --measured-paths away"
        )
    # With the paths set, what is left to be found are the shifts.
    start = _with_paths(case, paths)
    if found.settings is not None and settings_of(start).estimates:
        return case_by(start, settings_of, KEY)
    if not paths:
        raise InputError(f"{KEY}: nothing follows that could be set; see the reasons")
    return CaseByRecords(replace(start, guidance_spread=None), ())


def _with_paths(case: Case, paths: list[MeasuredPath]) -> Case:
    """Return a case with measured paths."""
    guidance = case.guidance
    for path in paths:
        points = tuple((round(f, _DECIMALS), round(d, _DECIMALS)) for f, d in path.points)
        side = replace(getattr(guidance, path.side), path="measured", measured_points=points)
        guidance = replace(guidance, **{path.side: side})
    return replace(case, guidance=guidance)
