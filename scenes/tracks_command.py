"""What `cuspway tracks` does: a case with measured tracks in, what they give out."""

from pathlib import Path

from kinematics.case import Case
from kinematics.case_by_tracks import case_by_tracks
from kinematics.checks import InputError
from kinematics.tracks.from_tracks import found_in_tracks, placed_in
from kinematics.tracks.settings import KEY
from scenes.argument_parts import WRITE
from scenes.case_words import PLANES
from scenes.output_folder import refuse_there
from scenes.records_command import with_what_follows
from scenes.track_words import track_lines, track_words


def tracks(case: Case, given: str, new_file: Path | None, as_points: bool) -> str:
    """Return what the tracks of a case say, and write a case with what follows.

    Parameters
    ----------
    case : Case
        As it was read.
    given : str
        As the user named it.
    new_file : Path or None
        Case file to be written, whole or not at all; nothing is written without it.
    as_points : bool
        Write condylar paths as measured points.

    Raises
    ------
    InputError
        A case that cannot be used or has no tracks, a track that cannot be used, or a file that is
        there already or cannot be written.
    NotConverged
        Tracks that no guidance comes near to.
    """
    if not case.jaw_tracks:
        raise InputError(
            f"{given}: has no {KEY}; add them to the case file, as 'cuspway settings' describes"
        )
    if as_points and new_file is None:
        raise InputError(f"--measured-paths: says what to write; give {WRITE} FILE too")
    refuse_there(new_file, WRITE)
    placed = placed_in(case.tracked)
    found = found_in_tracks(case.tracked, placed)
    fitting = case.tracked.fitting
    words = track_words(found, fitting, PLANES[case.guidance.reference_plane])
    assert words is not None
    made = None
    if new_file is not None:
        made = case_by_tracks(case, placed, found, as_points=as_points)
    return with_what_follows(track_lines(words), made, new_file, given)
