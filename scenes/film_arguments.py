"""The arguments of the command `film`."""

import argparse
import math
import re
from collections.abc import Callable
from pathlib import Path
from typing import Final

from scenes.argument_parts import add_threads_and_traceback

#: Movements by the names that the command takes.
MOVEMENTS: Final = (
    "protrusion", "right-lateral", "left-lateral", "retrusion", "opening", "border-movement",
)  # fmt: skip
#: Those shown where none is named.
USUAL: Final = MOVEMENTS[:3]
#: What may be written, by the ending of the file.
ENDINGS: Final = {
    ".mp4": "film (MPEG-4; takes the extra 'film')",
    ".gif": "film of 256 colours",
    ".html": "page to be turned by hand, which opens in a browser without a network",
    ".glb": "animated 3-D file (glTF 2.0), for any viewer of that open format",
}
#: From where casts are looked at; by themselves where both are not named.
VIEWS: Final = ("front", "right", "left", "upper", "lower")
USUAL_VIEWS: Final = ("front", "lower")
MOST_VIEWS: Final = 2
#: What holds where nothing else is said: mm, mm a second, pixels, pictures a second.
USUAL_TRAVEL_MM, USUAL_SPEED_MM_A_S = 5.0, 2.0
USUAL_SIZE: Final = (1280, 720)
USUAL_PICTURES_A_S: Final = 25.0
#: Processes that draw, at most: more would wait for what writes the file.
MOST_DRAWING: Final = 8
_SIZE: Final = re.compile(r"(\d{3,4})x(\d{3,4})")
_SMALLEST, _LARGEST = (320, 240), (3840, 2160)
FARTHEST_MM: Final = 12.0
_FASTEST_MM_A_S: Final = 50.0


def add_film(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command `film`."""
    film = commands.add_parser(
        "film",
        help="write the casts in motion as a file that other programs play",
        description="Moves the casts of a case along excursions, out and back, and writes them as"
        " a file that other programs play: "
        + "; ".join(f"{ending}, {what}" for ending, what in ENDINGS.items())
        + ".",
        epilog="examples:\n"
        "  cuspway film natural_dentition --out film.mp4\n"
        "  cuspway film natural_dentition --view right --view upper --out film.gif\n"
        "  cuspway film natural_dentition --out film.html\n"
        "  cuspway film my_case.toml --movement right-lateral --travel 3 --out right.glb\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    film.add_argument(
        "case", metavar="CASE", help="a case file (TOML), or the name of a built-in case"
    )
    film.add_argument(
        "--out",
        required=True,
        type=_file,
        metavar="FILE",
        help=f"new file; its ending says what is written: {', '.join(ENDINGS)}",
    )
    film.add_argument(
        "--movement",
        action="append",
        choices=MOVEMENTS,
        metavar="NAME",
        help="what is shown: " + ", ".join(MOVEMENTS) + "; may be given several times (default:"
        " protrusion and both lateral excursions); opening: hinge opening and on to the greatest"
        " one; border-movement: once round all that the lower incisal point reaches as seen from"
        " the side",
    )
    film.add_argument(
        "--travel",
        type=amount("mm", 0.5, FARTHEST_MM),
        default=USUAL_TRAVEL_MM,
        metavar="MM",
        help="travel of the lower incisal point at which excursions turn back, 0.5 to"
        f" {FARTHEST_MM:g} mm (default: 5); border movements go to their limits",
    )
    film.add_argument(
        "--speed",
        type=amount("mm a second", 0.1, _FASTEST_MM_A_S),
        default=USUAL_SPEED_MM_A_S,
        metavar="MM_A_S",
        help=f"travel in a second, 0.1 to {_FASTEST_MM_A_S:g} mm (default: 2); border movements go"
        " five times as fast",
    )
    film.add_argument(
        "--view",
        action="append",
        choices=VIEWS,
        metavar="NAME",
        help="films: from where the casts are looked at: front, right, left (both casts), upper,"
        " lower (that arch alone, its chewing surfaces); once, or twice for two side by side"
        " (default: front and lower); a page opens with the first",
    )
    film.add_argument(
        "--size",
        type=size_from(_SMALLEST, 2),
        default=USUAL_SIZE,
        metavar="WxH",
        help="films: width and height of the picture, pixels (default: 1280x720)",
    )
    film.add_argument(
        "--pictures-a-second",
        type=amount("a second", 5.0, 50.0),
        default=USUAL_PICTURES_A_S,
        metavar="N",
        help="films: 5 to 50 (default: 25)",
    )
    add_threads_and_traceback(film)


def size_from(smallest: tuple[int, int], steps: int) -> Callable[[str], tuple[int, int]]:
    """Return what reads a width and a height in pixels.

    Parameters
    ----------
    smallest : (int, int)
        The least of either that is accepted.
    steps : int
        2 where only even numbers are, 1 where all are.
    """
    numbers = "two even numbers" if steps == 2 else "two numbers"
    ends = (f"{width}x{height}" for width, height in (smallest, _LARGEST))
    wanted = f"must be {numbers} of pixels, as 1280x720, from {' to '.join(ends)}"

    def read(text: str) -> tuple[int, int]:
        found = _SIZE.fullmatch(text)
        if found:
            width, height = int(found[1]), int(found[2])
            fits = all(
                low <= side <= high and side % steps == 0
                for low, side, high in zip(smallest, (width, height), _LARGEST, strict=True)
            )
            if fits:
                return width, height
        raise argparse.ArgumentTypeError(f"'{text}': {wanted}")

    return read


def _file(text: str) -> Path:
    path = Path(text)
    if path.suffix.lower() not in ENDINGS:
        found = f"ends with '{path.suffix}'" if path.suffix else "has no ending"
        raise argparse.ArgumentTypeError(f"'{text}' {found}; accepted: {', '.join(ENDINGS)}")
    return path


def amount(unit: str, least: float, most: float) -> Callable[[str], float]:
    """Return what reads a number from one to another."""

    def read(text: str) -> float:
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if least <= value <= most:
            return value
        wanted = f"must be a number from {least:g} to {most:g} {unit}"
        raise argparse.ArgumentTypeError(f"'{text}': {wanted}")

    return read
