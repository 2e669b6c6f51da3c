"""The arguments of commands that run a case many times: `vary` and `study`."""

import argparse
import os
from pathlib import Path
from typing import Final

from scenes.argument_parts import add_out, add_traceback, whole

#: Where in the folder of a study its samples are kept, and what they say together.
SAMPLES: Final = "samples"
RESULTS: Final = "results"


def add_vary(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command `vary`."""
    vary = commands.add_parser(
        "vary",
        help="run a case over a grid of one or two settings and map what changes",
        description="Runs a case over a grid of one or two of its settings and maps what guides,"
        " which posterior teeth touch, gaps and loads of replacement teeth, and at which settings"
        " findings flip.",
        epilog="examples:\n"
        "  cuspway vary my_case.toml --over guidance.condylar_inclination_deg=20..50 --out my-map\n"
        "  cuspway vary my_case.toml --over guidance.right.condylar_inclination_deg=20..50:7 \\\n"
        "    --over guidance.left.condylar_inclination_deg=20..50:7 --out my-map\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    vary.add_argument(
        "case", metavar="CASE", help="a case file (TOML), or the name of a built-in case"
    )
    vary.add_argument(
        "--over",
        action="append",
        required=True,
        metavar="SETTING=FROM..TO[:POINTS]",
        help="a setting by its path in a case file, its range, and how many grid points (default:"
        " 11); of guidance without a side the right and the left together; given twice: both are"
        " varied",
    )
    add_out(vary)
    vary.add_argument(
        "--runs",
        type=Path,
        metavar="DIR",
        help="folder in which finished runs are kept, so that the same command goes on where it was"
        " stopped",
    )
    _add_hands(vary)
    add_traceback(vary)


def add_study(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command `study`."""
    study = commands.add_parser(
        "study",
        help="tell how sure findings are where settings are uncertain; many cases in one table",
        description="Runs cases many times with their settings varied as far as they are uncertain:"
        " in which share of samples each finding holds, which settings decide it, and how good a"
        " record would have to be to settle it. Every finished run is kept; a study that was"
        " stopped goes on when the same command is given again.",
        epilog="examples:\n  cuspway study my_case.toml --out my-study\n"
        "  cuspway study folder-of-cases --samples 0 --out all-cases\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    study.add_argument(
        "cases",
        nargs="+",
        metavar="CASE",
        help="case files (TOML), folders of cases, or names of built-in cases",
    )
    study.add_argument(
        "--out",
        required=True,
        type=Path,
        metavar="DIR",
        help="folder of the study: new, or that of a study to go on with",
    )
    study.add_argument(
        "--samples",
        type=_samples,
        metavar="N",
        help="independent samples of every case, a power of two from 16 to 65536 (default: as each"
        " case says, 256 where it says nothing); 0 runs the settings as they are and no others",
    )
    _add_hands(study)
    add_traceback(study)


def _samples(text: str) -> int:
    """Read a number of samples."""
    count = int(text) if text.isdecimal() else -1
    if count == 0 or (16 <= count <= 65536 and count & (count - 1) == 0):
        return count
    wanted = "must be 0 or a power of two from 16 to 65536"
    raise argparse.ArgumentTypeError(f"'{text}': {wanted}")


def _add_hands(command: argparse.ArgumentParser) -> None:
    hands = command.add_mutually_exclusive_group()
    hands.add_argument(
        "--processes",
        type=whole(1, 256),
        default=min(os.cpu_count() or 1, 256),
        metavar="N",
        help="how many processes of this machine compute (default: one a processor); results do not"
        " depend on it",
    )
    hands.add_argument(
        "--cluster",
        metavar="ADDRESS",
        help="address of a Dask cluster that computes instead, as tcp://192.0.2.7:8786",
    )
