"""The arguments of the command `view`."""

import argparse
from pathlib import Path
from typing import Final

from scenes.argument_parts import add_threads_and_traceback
from scenes.film_arguments import FARTHEST_MM, MOVEMENTS, amount, size_from

#: The argument that names the folder of pictures.
PICTURES: Final = "--pictures"
USUAL_SIZE: Final = (1280, 800)
#: In smaller windows words could not be read.
SMALLEST: Final = (1000, 700)


def add_view(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command `view`."""
    view = commands.add_parser(
        "view",
        help="turn, cut and move the casts in a window",
        description="Opens a window with the casts of a case: turn them, look through one of them,"
        " cut them by a plane, move the jaw along excursions, change guidance and watch contacts"
        " follow, and keep pictures. The key h shows all keys; q, or Ctrl-C in the terminal, ends"
        " it.",
        epilog="examples:\n"
        "  cuspway view\n"
        "  cuspway view natural_dentition --movement right-lateral --travel 2\n"
        "  cuspway view my_case.toml --pictures my-pictures\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    view.add_argument(
        "case",
        nargs="?",
        metavar="CASE",
        help="a case file (TOML), or the name of a built-in case; "
        "the built-in upper distal-extension case when left out",
    )
    view.add_argument(
        "--movement",
        choices=MOVEMENTS,
        default=MOVEMENTS[0],
        metavar="NAME",
        help="what is shown first: " + ", ".join(MOVEMENTS) + " (default: protrusion)",
    )
    view.add_argument(
        "--travel",
        type=amount("mm", 0.0, FARTHEST_MM),
        default=0.0,
        metavar="MM",
        help="how far the lower incisal point has travelled at first, 0 to"
        f" {FARTHEST_MM:g} mm (default: 0)",
    )
    view.add_argument(
        "--size",
        type=size_from(SMALLEST, 1),
        default=USUAL_SIZE,
        metavar="WxH",
        help="width and height of the window, pixels, from 1000x700 (default: 1280x800)",
    )
    view.add_argument(
        PICTURES,
        type=Path,
        default=Path(),
        metavar="DIR",
        help="folder for the pictures that are kept with the key p (default: the current one)",
    )
    add_threads_and_traceback(view)
