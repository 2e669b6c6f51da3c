"""Writer of a film as one page to be turned by hand, which opens in a browser without a network."""

import base64
import hashlib
import zlib
from collections.abc import Iterator, Sequence
from importlib.resources import files
from itertools import chain
from typing import Any, Final

import numpy as np
from markupsafe import Markup
from numpy.typing import NDArray

from kinematics import __version__
from kinematics.conventions import Floats
from kinematics.result_texts import CAUTION
from scenes import colours
from scenes.arch_scenes import LOWER, UPPER
from scenes.film_arguments import VIEWS
from scenes.film_shot import Moment, Shot
from scenes.page_frames import frame
from scenes.report import template
from scenes.scene import Gaps, Scene
from scenes.scene_bytes import FARTHER, GAP_STEPS, gap_arrays

#: Gaps are kept as square roots of shares of the limit in so many steps, finest where teeth touch;
#: one more stands for "farther".
_STEPS: Final = 254
_BEYOND: Final = 255
#: To pack more tightly takes three times as long and gains a hundredth.
_TIGHTLY: Final = 6
#: The page draws tracks as dots so far apart, mm.
_DOT_MM: Final = 0.4


def film_page(
    shot: Shot,
    teeth: bytes,
    by_movement: Sequence[Sequence[Moment]],
    begin: str,
    speeds_mm_a_s: Sequence[float],
    pictures_a_s: float,
) -> str:
    """Return a film as a page that needs nothing from outside itself.

    Parameters
    ----------
    shot : Shot
        What stays the same, seen from all of `film_arguments.VIEWS` in their order.
    teeth : bytes
        The message with both casts, as `cuspway page` has it.
    by_movement : sequence of sequence of Moment
        Every picture of each movement; those that come again are the same objects.
    begin : str
        The view it opens with.
    speeds_mm_a_s : sequence of float
        Travel in a second of each movement, in their order.
    pictures_a_s : float
        Pictures in a second.
    """
    script = _served("film.js")
    every = list(chain.from_iterable(by_movement))
    told = {
        **_told(shot, begin, pictures_a_s),
        **_times(by_movement, speeds_mm_a_s),
    }
    firsts = list({id(moment): moment for moment in every}.values())
    told["moments"] = [_of_moment(moment) for moment in firsts]
    told["styles"] = {
        moment.marks.movement: {
            "colour": moment.marks.style.colour,
            "shape": moment.marks.style.marker,
        }
        for moment in firsts
    }
    digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
    return template("film.html").render(
        title=shot.title,
        style=Markup(_served("film.css")),
        script=Markup(script),
        script_hash=f"sha256-{digest}",
        teeth=_packed(teeth),
        moments=_packed(frame(told, _gaps(shot.scene, firsts, shot.limit_mm))),
        caution=CAUTION,
        version=__version__,
        notices=_served("notices.txt"),
    )


def _served(name: str) -> str:
    return files("scenes").joinpath("page", "served", name).read_text("utf-8")


def _packed(message: bytes) -> str:
    return base64.b64encode(zlib.compress(message, _TIGHTLY)).decode()


def _told(shot: Shot, begin: str, pictures_a_s: float) -> dict[str, Any]:
    """Return what holds for all pictures."""
    return {
        "kind": "film",
        "limit_mm": shot.limit_mm,
        "pictures_a_s": pictures_a_s,
        "roles": dict(colours.SURFACE),
        "gap_scale": colours.GAP_SCALE,
        "begin": begin,
        "tracks": [_place(place) for line in shot.tracks for place in _dots(line)],
        "views": [
            {
                "key": name,
                "words": one.view.name,
                "right": one.view.right.tolist(),
                "up": one.view.up.tolist(),
                "casts": one.casts,
            }
            for name, one in zip(VIEWS, shot.views, strict=True)
        ],
    }


def _times(
    by_movement: Sequence[Sequence[Moment]], speeds_mm_a_s: Sequence[float]
) -> dict[str, Any]:
    """Return which moment every picture shows, and where movements begin."""
    numbers: dict[int, int] = {}
    pictures: list[int] = []
    movements = []
    for some, speed_mm_a_s in zip(by_movement, speeds_mm_a_s, strict=True):
        told = {"words": some[0].head, "first": len(pictures), "speed_mm_a_s": speed_mm_a_s}
        movements.append(told)
        pictures += [numbers.setdefault(id(moment), len(numbers)) for moment in some]
    return {"pictures": pictures, "movements": movements}


def _of_moment(moment: Moment) -> dict[str, Any]:
    marks = moment.marks
    return {
        "move": moment.move.ravel().tolist(),
        "head": moment.head,
        "travel": moment.travel,
        "told": moment.told,
        "movement": marks.movement,
        "contacts": [
            {"place": _place(place), "side": "nonworking" if away else ""}
            for place, away in zip(marks.places, marks.nonworking, strict=True)
        ],
        "point": None if moment.point is None else _place(moment.point),
        "first": None if marks.first is None else {"place": _place(marks.first)},
        "keys": [{"look": look, "words": words} for look, words in marks.keys],
    }


def _dots(line: Floats) -> Floats:
    """Return places evenly along a line (k, 3)."""
    along = np.append(0.0, np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1)))
    at = np.arange(0.0, along[-1], _DOT_MM)
    return np.stack([np.interp(at, along, column) for column in line.T], axis=1)


def _place(point: Floats) -> list[float]:
    return [round(float(value), 4) for value in point]


def _gaps(scene: Scene, moments: Sequence[Moment], limit_mm: float) -> dict[str, NDArray[np.uint8]]:
    """Return the gaps of the teeth, a row a moment: by how many steps more than in the one before.

    Most change little from one moment to the next, so that rows of differences pack tightly.
    """
    rows = list(_steps(scene, moments, limit_mm))
    found = {}
    for side in (UPPER, LOWER):
        steps = np.stack([row[side] for row in rows])
        steps[1:] -= steps[:-1].copy()  # of a byte, and so added up again
        found[f"gap_{side}"] = steps
    return found


def _steps(
    scene: Scene, moments: Sequence[Moment], limit_mm: float
) -> Iterator[dict[str, NDArray[np.uint8]]]:
    for moment in moments:
        shares = gap_arrays(scene, Gaps(moment.upper_mm, moment.lower_mm, limit_mm))
        yield {side: _rooted(shares[f"gap_{side}"]) for side in (UPPER, LOWER)}


def _rooted(shares: NDArray[np.uint16]) -> NDArray[np.uint8]:
    steps = np.round(_STEPS * np.sqrt(shares / GAP_STEPS))
    return np.where(shares == FARTHER, _BEYOND, steps).astype(np.uint8)
