"""The arguments of the command `film`."""

import argparse
import math
from collections.abc import Callable
from pathlib import Path
from typing import Final

from scenes.argument_parts import add_threads_and_traceback

#: Movements by the names that the command takes.
MOVEMENTS: Final = ("protrusion", "right-lateral", "left-lateral", "retrusion")
#: Those shown where none is named.
USUAL: Final = MOVEMENTS[:3]
#: What may be written, by the ending of the file.
ENDINGS: Final = {".glb": "animated 3-D file (glTF 2.0), for any viewer of that open format"}
_FARTHEST_MM: Final = 12.0
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
        "  cuspway film natural_dentition --out casts.glb\n"
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
        " protrusion and both lateral excursions)",
    )
    film.add_argument(
        "--travel",
        type=_amount("mm", 0.5, _FARTHEST_MM),
        default=5.0,
        metavar="MM",
        help="travel of the lower incisal point at which the jaw turns back, 0.5 to"
        f" {_FARTHEST_MM:g} mm (default: 5)",
    )
    film.add_argument(
        "--speed",
        type=_amount("mm a second", 0.1, _FASTEST_MM_A_S),
        default=2.0,
        metavar="MM_A_S",
        help=f"travel in a second, 0.1 to {_FASTEST_MM_A_S:g} mm (default: 2)",
    )
    add_threads_and_traceback(film)


def _file(text: str) -> Path:
    path = Path(text)
    if path.suffix.lower() not in ENDINGS:
        found = f"ends with '{path.suffix}'" if path.suffix else "has no ending"
        raise argparse.ArgumentTypeError(f"'{text}' {found}; accepted: {', '.join(ENDINGS)}")
    return path


def _amount(unit: str, least: float, most: float) -> Callable[[str], float]:
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
