"""What `cuspway film` does: a case in, its casts in motion out, as one file."""

import argparse
from collections.abc import Callable, Iterator
from concurrent.futures import Executor
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
from scenes.film_arguments import (
    MOST_VIEWS,
    MOVEMENTS,
    USUAL,
    USUAL_PICTURES_A_S,
    USUAL_SIZE,
    USUAL_SPEED_MM_A_S,
    USUAL_TRAVEL_MM,
    USUAL_VIEWS,
    VIEWS,
)
from scenes.film_drawing import drawn_pictures
from scenes.film_files import coder, write_gif, write_mp4
from scenes.film_moments import moments
from scenes.film_page import film_page
from scenes.film_shot import Shot, shot_views
from scenes.gap_colours import still
from scenes.moving_casts import moves, moving_casts
from scenes.opengl_probe import probe
from scenes.output_folder import new_file_in_one_piece, refuse_there
from scenes.page_answers import teeth_answer
from scenes.phrases import excursion_title, length
from scenes.scene import Frame, Gaps, Scene

#: Travel from one pose of a file without pictures to the next: players move the lower evenly.
STEP_MM: Final = 0.1
_FOOT: Final = "Planning and teaching aid, not a medical device."
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
    views : tuple of str
        Of `film_shot.VIEWS`, one or two; for pictures.
    size : (int, int)
        Width and height of pictures, pixels.
    pictures_a_s : float
        How many pictures a second has.
    """

    movements: tuple[str, ...]
    travel_mm: float = USUAL_TRAVEL_MM
    speed_mm_a_s: float = USUAL_SPEED_MM_A_S
    views: tuple[str, ...] = USUAL_VIEWS
    size: tuple[int, int] = USUAL_SIZE
    pictures_a_s: float = USUAL_PICTURES_A_S


def options_of(arguments: argparse.Namespace) -> FilmOptions:
    """Return what the arguments of the command ask for."""
    return FilmOptions(
        tuple(arguments.movement or USUAL),
        arguments.travel,
        arguments.speed,
        tuple(arguments.view or USUAL_VIEWS),
        arguments.size,
        arguments.pictures_a_second,
    )


def film(
    given: Case,
    out: Path,
    options: FilmOptions,
    progress: Callable[[str], None],
    threads: int,
    drawing: Executor,
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
    drawing : Executor
        Draws pictures; what is written does not depend on who does.

    Returns
    -------
    str
        What was written, in words.

    Raises
    ------
    InputError
        A case that cannot be used; a file that is there already or cannot be written; a coder that
        is not installed.
    """
    refuse_there(out, OUT_FILE)
    if len(options.views) > MOST_VIEWS:
        raise InputError(
            f"--view: given {len(options.views)} times ({', '.join(options.views)}); accepted:"
            " once, or twice for two views side by side"
        )
    if not out.absolute().parent.is_dir():
        raise InputError(f"{OUT_FILE} {out}: there is no folder {out.parent}; make it first")
    ending = out.suffix.lower()
    if ending == ".mp4":
        coder(out)  # so that it is told at once
    case = with_scans_registered(given, progress)
    warm_up(progress, maps=True, scans=case.scans is not None)
    casts = remounted(teeth_for(case, progress, threads), case, None, Workers(threads))
    step_mm = STEP_MM if ending == ".glb" else options.speed_mm_a_s / options.pictures_a_s
    shown = list(_followed(case, casts, options, step_mm, progress, threads))
    scene = moving_casts(casts, case.replacement_teeth)
    if ending == ".glb":
        progress("writing the file")
        motions = [_motion(casts, one, options.speed_mm_a_s) for one in shown]
        content = animated_file(
            _coloured(scene, shown), motions, case.title, f"cuspway {__version__}"
        )
        with new_file_in_one_piece(out, OUT_FILE) as made:
            made.write_bytes(content)
        return "\n".join(_told_of_animations(out, shown, motions))
    every = moments(casts, shown, options.pictures_a_s)
    names = VIEWS if ending == ".html" else options.views
    views = shot_views(scene, names, np.array([moment.move for moment in every]))
    shot = Shot(scene, views, options.size, case.sweep.gap_limit_mm, case.title, _FOOT)
    if ending == ".html":
        progress("writing the page")
        teeth = teeth_answer(0, scene, casts, case.replacement_teeth)
        speeds = options.speed_mm_a_s, options.pictures_a_s
        page = film_page(shot, teeth, every, options.views[0], *speeds).encode()
        with new_file_in_one_piece(out, OUT_FILE) as made:
            made.write_bytes(page)
        return "\n".join(_told_of_page(out, shown, len(page), len(every) / options.pictures_a_s))
    write = write_mp4 if ending == ".mp4" else write_gif
    with new_file_in_one_piece(out, OUT_FILE) as made:
        write(
            made, drawn_pictures(shot, every, progress, drawing), options.size, options.pictures_a_s
        )
    return "\n".join(_told_of_pictures(out, shown, len(every), options))


def _followed(
    case: Case,
    casts: MountedCasts,
    options: FilmOptions,
    step_mm: float,
    progress: Callable[[str], None],
    threads: int,
) -> Iterator[Filmed]:
    """Yield the movements that are shown."""
    travel_mm = options.travel_mm
    steps = np.append(np.arange(0.0, travel_mm - 1e-6, step_mm), travel_mm)
    for name in options.movements:
        progress(f"following {name.replace('-', ' ')}")
        found = filmed(case, casts, _EXCURSIONS[name], steps, Workers(threads))
        if found.travel_mm[-1] == 0.0:
            raise InputError(
                f"--movement {name}: there is no way back to show: MI is in CR; leave it out"
            )
        yield found


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


def _told_of_animations(out: Path, shown: list[Filmed], motions: list[Motion]) -> Iterator[str]:
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


def _told_of_page(out: Path, shown: list[Filmed], size: int, seconds: float) -> Iterator[str]:
    yield (
        f"Written to {out}: a page of {size / 1e6:.1f} MB, {seconds:.1f} s long, which opens in a"
        " browser without a network. There the casts are turned by hand, and stopped at any moment."
    )
    yield from _ways(shown)
    yield CAUTION


def _ways(shown: list[Filmed]) -> Iterator[str]:
    for one in shown:
        way = length(float(one.travel_mm[-1]))
        yield f"  {excursion_title(one.excursion)}: {way} of travel out and back"


def _told_of_pictures(
    out: Path, shown: list[Filmed], count: int, options: FilmOptions
) -> Iterator[str]:
    width, height = options.size
    yield (
        f"Written to {out}: {count} pictures of {width} x {height},"
        f" {count / options.pictures_a_s:.1f} s."
    )
    yield from _ways(shown)
    if probe().missing:
        yield probe().missing
    yield CAUTION
