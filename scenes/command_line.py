"""The command `cuspway`: arguments, progress, exit codes.

Everything else is imported by the subcommand that needs it, so that help comes at once.
"""

import argparse
import gc
import os
import signal
import sys
import time
import traceback
from collections.abc import Sequence
from pathlib import Path
from types import FrameType
from typing import Final, NoReturn

FINISHED: Final = 0
FINDINGS: Final = 1
BAD_INPUT: Final = 2
INTERNAL_ERROR: Final = 3
INTERRUPTED: Final = 130

_EXAMPLE: Final = "cuspway check --out cuspway-report"
_EXIT_CODES: Final = """\
exit codes:
  0    finished
  1    finished, and --fail-on found something of that severity or graver
  2    the arguments, the case file or the output folder cannot be used
  3    internal error, a fault of the program
  130  interrupted
"""


def build_parser() -> argparse.ArgumentParser:
    """Return the parser of all arguments; help texts live nowhere else."""
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
    _add_cases(commands)
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
    check.add_argument(
        "--out",
        required=True,
        type=Path,
        metavar="DIR",
        help="folder for the results: new, empty, or written by an earlier run, which is replaced",
    )
    check.add_argument(
        "--fail-on",
        choices=("note", "attention", "serious"),
        metavar="SEVERITY",
        help="end with exit code 1 if there is a finding this grave or graver: "
        "note, attention or serious",
    )
    check.add_argument(
        "--threads",
        type=_thread_count,
        default=min(os.cpu_count() or 1, 256),
        metavar="N",
        help="how many threads compute (default: one a processor); results do not depend on it",
    )
    check.add_argument(
        "--traceback", action="store_true", help="show where in the program an internal error arose"
    )


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


def _thread_count(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 256:
        raise argparse.ArgumentTypeError(f"'{text}': must be a whole number from 1 to 256")
    return int(text)


class _Progress:
    """Prints each step with the seconds since the start, to stderr."""

    def __init__(self) -> None:
        self._start = time.monotonic()

    def __call__(self, step: str) -> None:
        print(f"{time.monotonic() - self._start:6.1f} s  {step}", file=sys.stderr, flush=True)


def _check(arguments: argparse.Namespace) -> int:
    # importing and drawing allocate much and drop little: saves about a tenth of the run
    gc.set_threshold(100_000, 50, 100)

    from kinematics.planning.findings import SEVERITIES
    from scenes.check_command import REPORT_FILE, check

    outcome = check(arguments.case, arguments.out, _Progress(), arguments.threads)
    print(outcome.summary)
    print(f"\nWritten to {arguments.out}: open {arguments.out / REPORT_FILE} in a browser.")
    limit, gravest = arguments.fail_on, outcome.gravest
    if limit and gravest and SEVERITIES.index(gravest) >= SEVERITIES.index(limit):
        return FINDINGS
    return FINISHED


def _cases(arguments: argparse.Namespace) -> int:
    from scenes.builtin_cases import case_names, case_text

    if arguments.name:
        print(case_text(arguments.name), end="")
    else:
        print("\n".join(case_names()))
    return FINISHED


def _carry_out(arguments: argparse.Namespace) -> int:
    from kinematics.checks import InputError, NotConverged

    try:
        return {"check": _check, "cases": _cases}[arguments.command](arguments)
    except (InputError, NotConverged) as error:  # both name the settings that do not fit
        print(f"cuspway: {error}", file=sys.stderr)
        return BAD_INPUT


def _end_on_signal(_signal: int, _frame: FrameType | None) -> NoReturn:
    raise KeyboardInterrupt


def main(given: Sequence[str] | None = None) -> int:
    """Run the command line.

    Parameters
    ----------
    given : sequence of str, optional
        Arguments without the program's name; those of the process when left out.

    Returns
    -------
    int
        Exit code.
    """
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a narrow terminal must not end a long run
    parser = build_parser()
    arguments = parser.parse_args(given)
    if arguments.version:
        from scenes.versions import version_text

        print(version_text())
        return FINISHED
    if arguments.command is None:
        parser.print_help()
        return FINISHED
    signal.signal(signal.SIGTERM, _end_on_signal)  # so that a half-made folder is cleared away
    try:
        return _carry_out(arguments)
    except KeyboardInterrupt:
        print("cuspway: interrupted; nothing was written", file=sys.stderr)
        return INTERRUPTED
    except BrokenPipeError:  # the reader of our output left, as `head` does
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINISHED
    except Exception as error:  # the outermost place: everything becomes exit code 3
        if arguments.traceback:
            traceback.print_exc()
        hint = "" if arguments.traceback else "; repeat with --traceback to see where"
        print(
            f"cuspway: internal error: {type(error).__name__}: {error}{hint}",
            file=sys.stderr,
        )
        return INTERNAL_ERROR


if __name__ == "__main__":
    sys.exit(main())
