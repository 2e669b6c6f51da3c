"""What `cuspway film` does: a case in, its casts in motion out, as one file."""

import argparse
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from itertools import chain
from pathlib import Path
from typing import Final

import numpy as np

from kinematics import __version__
from kinematics.case import Case
from kinematics.case_filmed import Filmed
from kinematics.case_record_scans import with_scans_registered
from kinematics.checks import InputError
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.warm_up import warm_up
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.mounting import remounted, teeth_for
from kinematics.result_texts import CAUTION
from scenes.animated_file import Motion, animated_file
from scenes.argument_parts import OUT_FILE
from scenes.film_arguments import (
    MOST_VIEWS,
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
from scenes.film_moments import moments, moments_of_each
from scenes.film_movements import (
    borders_of,
    followed,
    needs_borders,
    order_of,
    speed_of,
    tracks_of,
    way_words,
)
from scenes.film_page import film_page
from scenes.film_shot import FOOT, Moment, Shot, shot_views
from scenes.gap_colours import still
from scenes.moving_casts import moves, moving_casts
from scenes.opengl_probe import probe
from scenes.output_folder import new_file_in_one_piece, refuse_there
from scenes.page_answers import teeth_answer
from scenes.phrases import excursion_title, length
from scenes.scene import Frame, Gaps, Scene

#: Travel from one pose of a file without pictures to the next: players move the lower evenly.
STEP_MM: Final = 0.1


@dataclass(frozen=True)
class FilmOptions:
    """What is shown.

    Attributes
    ----------
    movements : tuple of str
        Names of `MOVEMENTS`, in the order in which they are shown.
    travel_mm : float
        Travel at which excursions turn back.
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
    _refuse_unusable(out, options)
    case = with_scans_registered(given, progress)
    ending = out.suffix.lower()
    take = _taken(case, options, ending == ".glb", progress, threads)
    if ending == ".glb":
        told = _animations(take, out, progress)
    elif ending == ".html":
        told = _page(take, out, progress)
    else:
        told = _pictures(take, out, progress, drawing)
    return "\n".join((*told, CAUTION))


def _refuse_unusable(out: Path, options: FilmOptions) -> None:
    """Refuse what cannot be written before anything is computed for it."""
    refuse_there(out, OUT_FILE)
    if len(options.views) > MOST_VIEWS:
        raise InputError(
            f"--view: given {len(options.views)} times ({', '.join(options.views)}); accepted:"
            " once, or twice for two views side by side"
        )
    if not out.absolute().parent.is_dir():
        raise InputError(f"{OUT_FILE} {out}: there is no folder {out.parent}; make it first")
    if out.suffix.lower() == ".mp4":
        coder(out)


@dataclass(frozen=True)
class _Take:
    """What is to be shown, in whichever kind of file."""

    case: Case
    casts: MountedCasts
    scene: Scene
    shown: list[Filmed]
    tracks: tuple[Floats, ...]
    options: FilmOptions

    def every(self) -> list[Moment]:
        """Return all moments."""
        return moments(self.casts, self.shown, self.options.pictures_a_s)

    def shot(self, views: Sequence[str], every: Sequence[Moment]) -> Shot:
        """Return what stays the same in them."""
        return Shot(
            self.scene,
            shot_views(self.scene, views, np.array([moment.move for moment in every])),
            self.options.size,
            self.case.sweep.gap_limit_mm,
            self.case.title,
            FOOT,
            self.tracks,
        )


def _taken(
    case: Case, options: FilmOptions, animated: bool, progress: Callable[[str], None], threads: int
) -> _Take:
    """Mount the casts and follow what is shown; players move what is animated evenly."""
    warm_up(progress, maps=True, scans=case.scans is not None)
    casts = remounted(teeth_for(case, progress, threads), case, (), Workers(threads))
    names = options.movements
    borders = borders_of(case, casts, threads) if needs_borders(names) else None
    step_mm = STEP_MM if animated else options.speed_mm_a_s / options.pictures_a_s
    way = options.travel_mm, step_mm
    shown = list(followed(case, casts, names, borders, *way, progress, threads))
    scene = moving_casts(casts, case.replacement_teeth)
    return _Take(case, casts, scene, shown, tracks_of(borders), options)


def _animations(take: _Take, out: Path, progress: Callable[[str], None]) -> Iterator[str]:
    """Write casts that move; yield what was written."""
    progress("writing the file")
    motions = [_motion(take.casts, one, take.options.speed_mm_a_s) for one in take.shown]
    scene = _coloured(take.scene, take.shown)
    content = animated_file(scene, motions, take.case.title, f"cuspway {__version__}")
    with new_file_in_one_piece(out, OUT_FILE) as made:
        made.write_bytes(content)
    yield f"Written to {out}: casts that move, {len(motions)} animation(s) of the lower."
    for one, motion in zip(take.shown, motions, strict=True):
        yield f"  {way_words(one)} in {motion.times_s[-1]:.1f} s, {len(motion.times_s)} poses"
    yield (
        "Teeth are coloured by how near they come to the other arch in these movements: dark is"
        f" near, their own colour at {length(take.shown[0].limit_mm)} and beyond. Units of the file"
        " are metres, as glTF asks."
    )


def _page(take: _Take, out: Path, progress: Callable[[str], None]) -> Iterator[str]:
    """Write a page to turn by hand; yield what was written."""
    progress("writing the page")
    options = take.options
    by_movement = moments_of_each(take.casts, take.shown, options.pictures_a_s)
    every = list(chain.from_iterable(by_movement))
    teeth = teeth_answer(0, take.scene, take.casts, take.case.replacement_teeth)
    speeds = [speed_of(one, options.speed_mm_a_s) for one in take.shown]
    shot, begin = take.shot(VIEWS, every), options.views[0]
    page = film_page(shot, teeth, by_movement, begin, speeds, options.pictures_a_s).encode()
    with new_file_in_one_piece(out, OUT_FILE) as made:
        made.write_bytes(page)
    seconds = len(every) / options.pictures_a_s
    yield (
        f"Written to {out}: a page of {len(page) / 1e6:.1f} MB, {seconds:.1f} s long. It opens in a"
        " browser without a network; there the casts are turned by hand, and stopped at any moment."
    )
    yield from (f"  {way_words(one)}" for one in take.shown)


def _pictures(
    take: _Take, out: Path, progress: Callable[[str], None], drawing: Executor
) -> Iterator[str]:
    """Write pictures one after another; yield what was written."""
    options, every = take.options, take.every()
    drawn = drawn_pictures(take.shot(options.views, every), every, progress, drawing)
    write = write_mp4 if out.suffix.lower() == ".mp4" else write_gif
    with new_file_in_one_piece(out, OUT_FILE) as made:
        write(made, drawn, options.size, options.pictures_a_s)
    width, height = options.size
    yield (
        f"Written to {out}: {len(every)} pictures of {width} x {height},"
        f" {len(every) / options.pictures_a_s:.1f} s."
    )
    yield from (f"  {way_words(one)}" for one in take.shown)
    if probe().missing:
        yield probe().missing


def _coloured(scene: Scene, shown: list[Filmed]) -> Scene:
    """Return the casts in MI, each vertex coloured by how near it comes in all that is shown."""
    upper, lower = (
        np.min([getattr(one.near, side).min(axis=0) for one in shown], axis=0)
        for side in ("upper_mm", "lower_mm")
    )
    return still(scene, Frame(np.eye(4), Gaps(upper, lower, shown[0].limit_mm)))


def _motion(casts: MountedCasts, one: Filmed, speed_mm_a_s: float) -> Motion:
    """Return a movement as it is shown."""
    order = order_of(one)
    ways = np.abs(np.diff(one.travel_mm[order], prepend=0.0))
    times: Floats = np.cumsum(ways) / speed_of(one, speed_mm_a_s)
    return Motion(excursion_title(one.excursion), times, moves(casts, one.poses[order]))
