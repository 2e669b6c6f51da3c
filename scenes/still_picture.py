"""One picture of the casts at one place of a movement, as a moment of a film shows it."""

from pathlib import Path
from typing import Final

import numpy as np
from PIL import Image

from kinematics.case import Case
from kinematics.case_filmed import filmed
from kinematics.checks import InputError, in_range
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import Excursion
from scenes.film_arguments import FARTHEST_MM, MOST_VIEWS, USUAL_SIZE, USUAL_VIEWS, VIEWS
from scenes.film_moments import last_moment
from scenes.film_sheet import pictures
from scenes.film_shot import FOOT, Shot, shot_views
from scenes.moving_casts import moving_casts
from scenes.output_folder import new_file_in_one_piece, refuse_there

_WHERE: Final = "picture"


def still_picture(
    case: Case,
    casts: MountedCasts,
    excursion: Excursion,
    travel_mm: float,
    out: Path,
    views: tuple[str, ...] = USUAL_VIEWS,
    size: tuple[int, int] = USUAL_SIZE,
) -> None:
    """Draw the casts as they stand, closed, with what touches, colours of gaps and a scale.

    Parameters
    ----------
    case, casts : Case, MountedCasts
        A case, and its teeth mounted by it.
    excursion : Excursion
        A movement of the case.
    travel_mm : float
        Horizontal travel of the lower incisal point, 0 to 15; where the path ends before, its last
        place is drawn.
    out : Path
        New file (PNG), written whole or not at all.
    views : tuple of str
        One or two of "front", "right", "left", "upper", "lower", side by side.
    size : (int, int)
        Width and height, pixels, both even.

    Raises
    ------
    InputError
        A file that is there, views that there are not, or nothing meets at the start.
    """
    refuse_there(out, _WHERE)
    travel_mm = in_range(travel_mm, "travel_mm", 0.0, FARTHEST_MM, "mm")
    if not 1 <= len(views) <= MOST_VIEWS or not set(views) <= set(VIEWS):
        raise InputError(f"views: {', '.join(views)}; accepted: one or two of {', '.join(VIEWS)}")
    travels = np.array([0.0, travel_mm][: 1 + (travel_mm > 0.0)])
    one = filmed(case, casts, excursion, travels, Workers())
    moment, scene = last_moment(casts, one), moving_casts(casts, case.replacement_teeth)
    seen = shot_views(scene, views, moment.move[None])
    shot = Shot(scene, seen, size, one.limit_mm, case.title, FOOT)
    (pixels,) = pictures(shot, [moment])
    with new_file_in_one_piece(out, _WHERE) as made:
        Image.frombytes("RGB", size, pixels).save(made, "PNG")
