"""The arguments and exit codes of the command `cuspway`; those of studies stand beside."""

import argparse
from pathlib import Path
from typing import Final

from scenes.argument_parts import (
    FOLDER,
    WRITE,
    add_out,
    add_threads_and_traceback,
    add_traceback,
    whole,
)
from scenes.film_arguments import add_film
from scenes.lesson_arguments import add_lessons
from scenes.study_arguments import add_study, add_vary
from scenes.view_arguments import add_view

FINISHED: Final = 0
FINDINGS: Final = 1
BAD_INPUT: Final = 2
INTERNAL_ERROR: Final = 3
INTERRUPTED: Final = 130

_EXAMPLE: Final = "cuspway check --out cuspway-report"
_EXIT_CODES: Final = """\
exit codes:
  0    finished
  1    finished, and --fail-on found something of that severity or graver, or a
       case of a study could not be judged
  2    the arguments, the case file or the output folder cannot be used
  3    internal error, a fault of the program
  130  interrupted
"""


def build_parser() -> argparse.ArgumentParser:
    """Return the parser of all arguments."""
    parser = argparse.ArgumentParser(
        prog="cuspway",
        description=(
            "Takes an upper and a lower arch through the movements of the jaw and says which\n"
            "teeth touch, what guides, what interferes, and what a replacement tooth would carry."
        ),
        epilog=f"example, with nothing but this program:\n  {_EXAMPLE}\n\n{_EXIT_CODES}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument(
        "--version", action="store_true", help="show the versions that results depend on"
    )
    commands = parser.add_subparsers(title="commands", dest="command", metavar="COMMAND")
    _add_check(commands)
    _add_compare(commands)
    add_vary(commands)
    _add_advise(commands)
    add_study(commands)
    _add_page(commands)
    add_view(commands)
    add_film(commands)
    _add_new(commands)
    _add_teeth(commands)
    _add_records(commands)
    _add_tracks(commands)
    _add_cases(commands)
    add_lessons(commands)
    settings = commands.add_parser(
        "settings",
        help="print every setting of a case file, explained",
        description="Prints every setting of a case file with its default, what is accepted and"
        " what it means, as a case file.",
        allow_abbrev=False,
    )
    settings.add_argument("--traceback", action="store_true", help=argparse.SUPPRESS)
    return parser


def _add_check(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    check = commands.add_parser(
        "check",
        help="run a case and write its report",
        description="Runs a case and writes its report, findings and tables into a folder.",
        epilog=(
            "examples:\n"
            f"  {_EXAMPLE}\n"
            "  cuspway check my_case.toml --out my-report --fail-on serious\n\n"
            f"{_EXIT_CODES}"
        ),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    check.add_argument(
        "case",
        nargs="?",
        metavar="CASE",
        help="a case file (TOML), or the name of a built-in case; "
        "the built-in upper distal-extension case when left out",
    )
    add_out(check)
    check.add_argument(
        "--fail-on",
        choices=("note", "attention", "serious"),
        metavar="SEVERITY",
        help="end with exit code 1 if there is a finding this grave or graver: "
        "note, attention or serious",
    )
    check.add_argument(
        "--changed-from",
        metavar="CASE",
        help="a case that this one was made from: the report names on its first page every setting "
        "that differs",
    )
    add_threads_and_traceback(check)


def _add_compare(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    compare = commands.add_parser(
        "compare",
        help="run two cases and show what differs",
        description="Runs two cases and writes what is gone, new and changed from one to the other:"
        " findings, guidance, centric stops, height of the bite and loads. For a trial set-up, a"
        " change of settings, or a remount after processing.",
        epilog="example:\n  cuspway compare my_case.toml my_trial.toml --out my-comparison\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    for name, what in (("before", "BEFORE"), ("after", "AFTER")):
        compare.add_argument(
            name, metavar=what, help="a case file (TOML), or the name of a built-in case"
        )
    add_out(compare)
    add_threads_and_traceback(compare)


def _add_advise(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    advise = commands.add_parser(
        "advise",
        help="search for the smallest changes that clear flagged teeth",
        description="Searches for the smallest single change of each kind that clears flagged teeth"
        " in every excursion, runs the case again with each, and prints what helps.",
        epilog="example:\n  cuspway advise my_case.toml 17 47\n",
        allow_abbrev=False,
    )
    which = "a case file (TOML), or the name of a built-in case"
    advise.add_argument("case", metavar="CASE", help=which)
    advise.add_argument(
        "teeth",
        nargs="*",
        type=whole(11, 85),
        metavar="TOOTH",
        help="tooth numbers of ISO 3950; left out: those that the case names, else all flagged",
    )
    add_threads_and_traceback(advise)


def _add_page(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    page = commands.add_parser(
        "page",
        help="move the jaw and change settings on a page in the browser",
        description="Serves a page on this machine and opens a browser on it: move the jaw, change "
        "settings, and watch contacts come and go. Ctrl-C ends it.",
        epilog="examples:\n  cuspway page\n  cuspway page my_case.toml --no-browser\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    page.add_argument(
        "case",
        nargs="?",
        metavar="CASE",
        help="the case to begin with: a case file (TOML), or the name of a built-in case",
    )
    page.add_argument(
        "--port",
        type=whole(0, 65535),
        metavar="N",
        help="port to listen on (default: one that is free)",
    )
    page.add_argument(
        "--host",
        default="127.0.0.1",
        metavar="ADDRESS",
        help="address to listen on (default: 127.0.0.1, which only this machine can reach)",
    )
    page.add_argument(
        "--lessons",
        type=Path,
        metavar="PLACE",
        help="your own lessons: a lesson file (TOML), or a folder of them",
    )
    page.add_argument(
        "--no-browser",
        dest="browser",
        action="store_false",
        help="print the address and open no browser",
    )
    add_threads_and_traceback(page)


def _add_new(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    new = commands.add_parser(
        "new",
        help="begin a case from two scans",
        description="Reads two scan files, says what was found and mended, and writes a folder with"
        " copies of them and a commented case file, in which the lines with CHECK are yours.",
        epilog="example:\n  cuspway new my-case --upper upper.stl --lower lower.stl\n"
        "  cuspway check my-case --out my-report\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    new.add_argument("folder", type=Path, metavar=FOLDER, help="folder for the case: new or empty")
    for side in ("upper", "lower"):
        new.add_argument(
            f"--{side}",
            required=True,
            metavar="FILE",
            help=f"scan of the {side} teeth: STL, PLY, OBJ or GLB",
        )
    for side in ("upper", "lower"):
        new.add_argument(
            f"--{side}-labels",
            metavar="FILE",
            help=f"JSON list with the tooth number of every vertex of the {side} scan (default: the"
            " file beside the scan that is called like it, or what the scan itself says)",
        )
    new.add_argument(
        "--bite",
        type=Path,
        metavar="FILE",
        help="bite record, where the scans do not lie as they bite: text with the transform, four "
        "lines of four numbers, mm, that moves the lower scan into maximal intercuspation in the "
        "coordinates of the upper scan; or a scan of both arches biting, in any coordinates, from "
        "which that transform is found",
    )
    new.add_argument(
        "--points",
        type=Path,
        metavar="FILE",
        help="CSV file of points picked on the scans: those of a mounting, seeds of teeth, rest "
        "seats (header: point,tooth,x_mm,y_mm,z_mm)",
    )
    new.add_argument(
        "--units",
        choices=("mm", "cm", "m", "inch", "um"),
        default="mm",
        help="unit of the coordinates in both files (default: mm)",
    )
    add_traceback(new)


def _add_teeth(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    teeth = commands.add_parser(
        "teeth",
        help="tell the teeth of scans by picked seeds, with pictures to check",
        description="Parts the scans of a case among the teeth that scans.tooth_seeds names, writes"
        " a picture of each cast and a list of labels, and says which teeth are doubtful.",
        epilog="example:\n  cuspway teeth my-case --out my-teeth\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    teeth.add_argument(
        "case", metavar="CASE", help="a case file (TOML) of scans with seeds, or its folder"
    )
    teeth.add_argument(
        "--out",
        type=Path,
        required=True,
        metavar="DIR",
        help="folder for pictures and lists: new, or of an earlier run",
    )
    add_traceback(teeth)


def _add_records(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    records = commands.add_parser(
        "records",
        help="find settings of guidance from interocclusal records",
        description="Tells what the protrusive and lateral records of a case say of condylar paths"
        " and side shift, with standard errors, and what they do not say and why.",
        epilog="example:\n  cuspway records my_case.toml --write my_case_set.toml\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    records.add_argument(
        "case",
        metavar="CASE",
        help="a case file (TOML) with interocclusal_records, or its folder",
    )
    records.add_argument(
        WRITE,
        type=Path,
        metavar="FILE",
        help="write the case with the settings found and their standard errors as a new case file",
    )
    add_traceback(records)


def _add_tracks(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    tracks = commands.add_parser(
        "tracks",
        help="find the hinge axis and settings of guidance from measured tracks of the jaw",
        description="Tells what the measured tracks of a case (jaw_tracks) say of the hinge axis,"
        " condylar paths and side shift, with standard errors, what is left along them, and what"
        " they do not say and why.",
        epilog="example:\n  cuspway tracks my_case.toml --write my_case_set.toml\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    tracks.add_argument(
        "case", metavar="CASE", help="a case file (TOML) with jaw_tracks, or its folder"
    )
    tracks.add_argument(
        WRITE,
        type=Path,
        metavar="FILE",
        help="write the case with the settings found and their standard errors as a new case file",
    )
    tracks.add_argument(
        "--measured-paths",
        action="store_true",
        help="with --write: set condylar paths as measured points, in place of inclination and"
        " curvature",
    )
    add_traceback(tracks)


def _add_cases(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    cases = commands.add_parser(
        "cases",
        help="list the built-in cases, or print one to start from",
        description="Lists the built-in cases; with a name, prints that case file.",
        epilog="example:\n  cuspway cases upper_distal_extension > my_case.toml\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    cases.add_argument("name", nargs="?", metavar="NAME", help="which case to print")
    cases.add_argument("--traceback", action="store_true", help=argparse.SUPPRESS)
