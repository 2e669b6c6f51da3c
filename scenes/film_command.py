"""What `cuspway film` does: a case in, its casts in motion out, as one file."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import numpy as np

from kinematics import __version__
from kinematics.case import Case
from kinematics.case_filmed import Filmed, filmed
from kinematics.case_record_scans import with_scans_registered
from kinematics.checks import InputError
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.warm_up import warm_up
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.guidance.excursions import (
    Excursion,
    left_lateral,
    protrusion,
    retrusion,
    right_lateral,
)
from kinematics.mounting import remounted, teeth_for
from kinematics.result_texts import CAUTION
from scenes.animated_file import Motion, animated_file
from scenes.argument_parts import OUT_FILE
from scenes.film_arguments import MOVEMENTS
from scenes.gap_colours import still
from scenes.moving_casts import moves, moving_casts
from scenes.output_folder import new_file_in_one_piece, refuse_there
from scenes.phrases import excursion_title, length
from scenes.scene import Frame, Gaps, Scene

#: Travel from one pose to the next: between them viewers move the lower evenly.
STEP_MM: Final = 0.1
_EXCURSIONS: Final[dict[str, Excursion]] = dict(
    zip(MOVEMENTS, (protrusion(), right_lateral(), left_lateral(), retrusion()), strict=True)
)


@dataclass(frozen=True)
class FilmOptions:
    """What is shown.

    Attributes
    ----------
    movements : tuple of str
        Names of `MOVEMENTS`, in the order in which they are shown.
    travel_mm : float
        Travel at which the jaw turns back.
    speed_mm_a_s : float
        Travel in a second.
    """

    movements: tuple[str, ...]
    travel_mm: float
    speed_mm_a_s: float


def film(
    given: Case, out: Path, options: FilmOptions, progress: Callable[[str], None], threads: int
) -> str:
    """Move the casts of a case and write them as one file.

    Parameters
    ----------
    given : Case
        The case, scans that are to be brought onto each other as they are.
    out : Path
        New file, written whole or not at all; its ending says as what.
    options : FilmOptions
        What is shown.
    progress : callable
        Gets the name of every step when it begins.
    threads : int
        How many threads may compute; what is written does not depend on it.

    Returns
    -------
    str
        What was written, in words.

    Raises
    ------
    InputError
        A case that cannot be used; a file that is there already or cannot be written.
    """
    refuse_there(out, OUT_FILE)
    case = with_scans_registered(given, progress)
    warm_up(progress, maps=True, scans=case.scans is not None)
    casts = remounted(teeth_for(case, progress, threads), case, None, Workers(threads))
    shown = []
    for name in options.movements:
        progress(f"following {name.replace('-', ' ')}")
        steps = np.arange(0.0, options.travel_mm + 0.5 * STEP_MM, STEP_MM)
        found = filmed(case, casts, _EXCURSIONS[name], steps, Workers(threads))
        if found.travel_mm[-1] == 0.0:
            raise InputError(
                f"--movement {name}: there is no way back to show: MI is in CR; leave it out"
            )
        shown.append(found)
    progress("writing the file")
    scene = _coloured(moving_casts(casts, case.replacement_teeth), shown)
    motions = [_motion(casts, one, options.speed_mm_a_s) for one in shown]
    content = animated_file(scene, motions, case.title, f"cuspway {__version__}")
    with new_file_in_one_piece(out, OUT_FILE) as made:
        made.write_bytes(content)
    return "\n".join(_told(out, shown, motions))


def _coloured(scene: Scene, shown: list[Filmed]) -> Scene:
    """Return the casts in MI, each vertex coloured by how near it comes in all that is shown."""
    upper, lower = (
        np.min([getattr(one.near, side).min(axis=0) for one in shown], axis=0)
        for side in ("upper_mm", "lower_mm")
    )
    return still(scene, Frame(np.eye(4), Gaps(upper, lower, shown[0].limit_mm)))


def _motion(casts: MountedCasts, one: Filmed, speed_mm_a_s: float) -> Motion:
    """Return a movement out and back."""
    there = one.travel_mm / speed_mm_a_s
    times: Floats = np.concatenate([there, 2.0 * there[-1] - there[-2::-1]])
    poses = np.concatenate([one.poses, one.poses[-2::-1]])
    return Motion(excursion_title(one.excursion), times, moves(casts, poses))


def _told(out: Path, shown: list[Filmed], motions: list[Motion]) -> Iterator[str]:
    yield f"Written to {out}: casts that move, {len(motions)} animation(s) of the lower."
    for one, motion in zip(shown, motions, strict=True):
        yield (
            f"  {motion.name}: {length(float(one.travel_mm[-1]))} of travel out and back in"
            f" {motion.times_s[-1]:.1f} s, {len(motion.times_s)} poses"
        )
    yield (
        "Teeth are coloured by how near they come to the other arch in these movements: dark is"
        f" near, their own colour at {length(shown[0].limit_mm)} and beyond. Units of the file are"
        " metres, as glTF asks."
    )
    yield CAUTION
