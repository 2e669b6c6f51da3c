"""The command `cuspway`: what is run, progress, exit codes.

Everything else is imported by the subcommand that needs it, so that help comes at once.
"""

import argparse
import os
import signal
import sys
import time
import traceback
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Final

from scenes.command_arguments import (
    FINDINGS,
    FINISHED,
    INTERNAL_ERROR,
    INTERRUPTED,
    build_parser,
)
from scenes.interruption import Ending, Interrupted
from scenes.told_results import SIGNALS, refused, results_stand, show

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from kinematics.engine.hands import Hands


_TRACEBACK_HINT: Final = "; repeat with --traceback to see where"


class _Progress:
    """Prints each step with the seconds since the start, to stderr."""

    def __init__(self) -> None:
        self._start = time.monotonic()

    def __call__(self, step: str) -> None:
        print(f"{time.monotonic() - self._start:6.1f} s  {step}", file=sys.stderr, flush=True)


def _drawing(
    arguments: argparse.Namespace,
    run: "Callable[[argparse.Namespace, _Progress, Executor], int]",
    cores: int,
) -> int:
    """Do what a command asks while processes of their own draw for it."""
    progress = _Progress()

    from scenes.drawing_processes import drawing_processes

    # on two cores a second one would cost more time, for its libraries, than it saves
    count = 2 if cores >= 4 else 1
    with drawing_processes(count) as drawing:  # first of all: they fetch their libraries meanwhile
        from scenes.drawing_orders import get_ready

        for _ in range(count):
            drawing.submit(get_ready)
        return run(arguments, progress, drawing)


def _check(arguments: argparse.Namespace) -> int:
    return _drawing(arguments, _checked, arguments.threads)


def _compare(arguments: argparse.Namespace) -> int:
    return _drawing(arguments, _compared, arguments.threads)


def _vary(arguments: argparse.Namespace) -> int:
    return _drawing(arguments, _varied, arguments.processes)


def _varied(arguments: argparse.Namespace, progress: _Progress, drawing: "Executor") -> int:
    from kinematics.checks import InputError, NotConverged
    from scenes.vary_command import PAGE_FILE, SAMPLES_A_TASK, VaryOptions, vary

    out = arguments.out
    options = VaryOptions(tuple(arguments.over), out, arguments.runs)
    hands = _hands(arguments, SAMPLES_A_TASK)
    try:
        summary = vary(arguments.case, options, progress, hands, drawing)
    except (InputError, NotConverged) as error:
        return refused(error)
    results_stand("")
    written = f"Written to {out}: open {out / PAGE_FILE} in a browser."
    show(f"{summary}\n\n{written}", written)
    return FINISHED


def _hands(arguments: argparse.Namespace, samples_a_task: int) -> "Hands":
    """Return who runs the samples of a study."""
    from kinematics.engine.cluster_hands import ClusterHands
    from kinematics.engine.local_hands import LocalHands

    address, processes = arguments.cluster, arguments.processes
    return ClusterHands(address, samples_a_task) if address else LocalHands(processes)


def _compared(arguments: argparse.Namespace, progress: _Progress, drawing: "Executor") -> int:
    from kinematics.checks import InputError, NotConverged
    from scenes.compare_command import PAGE_FILE, compare

    out = arguments.out
    try:
        done = compare(arguments.before, arguments.after, out, progress, arguments.threads, drawing)
    except (InputError, NotConverged) as error:
        return refused(error)
    results_stand(done.warning)
    written = f"Written to {out}: open {out / PAGE_FILE} in a browser."
    show(f"{done.summary}\n\n{written}", written)
    return FINISHED


def _checked(arguments: argparse.Namespace, progress: _Progress, drawing: "Executor") -> int:
    from kinematics.checks import InputError, NotConverged
    from kinematics.planning.findings import SEVERITIES
    from scenes.check_command import REPORT_FILE, check

    try:
        outcome = check(
            arguments.case,
            arguments.out,
            progress,
            arguments.threads,
            drawing,
            arguments.changed_from,
        )
    except (InputError, NotConverged) as error:  # both name the settings that do not fit
        return refused(error)
    results_stand(outcome.warning)
    written = f"Written to {arguments.out}: open {arguments.out / REPORT_FILE} in a browser."
    show(f"{outcome.summary}\n\n{written}", written)
    limit, gravest = arguments.fail_on, outcome.gravest
    if limit and gravest and SEVERITIES.index(gravest) >= SEVERITIES.index(limit):
        return FINDINGS
    return FINISHED


def _page(arguments: argparse.Namespace) -> int:
    from kinematics.checks import InputError
    from scenes.page_command import PageOptions, page

    def warn(text: str) -> None:
        print(f"cuspway: {text}", file=sys.stderr, flush=True)

    told: set[str] = set()

    def complain(error: Exception) -> None:
        text = f"internal error: {type(error).__name__}: {error}"
        if text not in told:  # what fails once fails with every movement of a hand
            told.add(text)
            warn(text if arguments.traceback else f"{text}{_TRACEBACK_HINT}")
            if arguments.traceback:
                traceback.print_exception(error)

    options = PageOptions(
        arguments.host, arguments.port, arguments.threads, not arguments.no_browser
    )
    try:
        page(arguments.case, options, lambda text: print(text, flush=True), warn, complain)
    except InputError as error:
        return refused(error)
    print("The page has ended.", flush=True)
    return FINISHED


def _new(arguments: argparse.Namespace) -> int:
    from kinematics.checks import InputError
    from kinematics.scans.settings import ScanFiles
    from scenes.new_command import new

    files = ScanFiles(
        upper=arguments.upper,
        lower=arguments.lower,
        units=arguments.units,
        upper_labels=arguments.upper_labels,
        lower_labels=arguments.lower_labels,
    )
    folder = arguments.folder
    try:
        begun = new(folder, files, _Progress(), arguments.points, arguments.bite)
    except InputError as error:
        return refused(error)
    first = "read case.toml in it" if begun.ready else "fill in what case.toml marks with CHECK"
    then = f"Written to {folder}: {first}, then run\n  cuspway check {folder} --out {folder}-report"
    print("\n".join((*begun.lines, "", then)), flush=True)
    return FINISHED


def _records(arguments: argparse.Namespace) -> int:
    from scenes.records_command import records

    return _told(lambda: records(arguments.case, arguments.write, _Progress()))


def _tracks(arguments: argparse.Namespace) -> int:
    from scenes.tracks_command import tracks

    return _told(lambda: tracks(arguments.case, arguments.write, arguments.measured_paths))


def _advise(arguments: argparse.Namespace) -> int:
    from scenes.advise_command import advise

    return _told(lambda: advise(arguments.case, arguments.teeth, _Progress(), arguments.threads))


def _told(tell: Callable[[], str]) -> int:
    """Print what a command has to tell, or what keeps it from that."""
    from kinematics.checks import InputError, NotConverged

    try:
        told = tell()
    except (InputError, NotConverged) as error:
        return refused(error)
    print(told, flush=True)
    return FINISHED


def _study(arguments: argparse.Namespace) -> int:
    return _drawing(arguments, _studied, arguments.processes)


def _studied(arguments: argparse.Namespace, progress: _Progress, drawing: "Executor") -> int:
    from scenes.study_command import FIRST_PAGE, SAMPLES_A_TASK, is_begun, study

    out, hands = arguments.out, _hands(arguments, SAMPLES_A_TASK)

    def told() -> str:
        summary = study(arguments.cases, out, arguments.samples, progress, hands, drawing)
        return f"{summary}\n\nWritten to {out}: open {out / FIRST_PAGE} in a browser."

    try:
        return _told(told)
    except (Interrupted, KeyboardInterrupt):
        if not is_begun(out):
            raise
        print(
            f"cuspway: interrupted; finished runs are kept in {out}: the same command goes on",
            file=sys.stderr,
        )
        return INTERRUPTED


def _teeth(arguments: argparse.Namespace) -> int:
    from scenes.teeth_command import teeth

    return _told(lambda: teeth(arguments.case, arguments.out, _Progress()))


def _cases(arguments: argparse.Namespace) -> int:
    from kinematics.checks import InputError
    from scenes.builtin_cases import case_names, case_text

    try:
        shown = case_text(arguments.name) if arguments.name else "\n".join(case_names()) + "\n"
    except InputError as error:
        return refused(error)
    print(shown, end="")
    return FINISHED


def _settings(_arguments: argparse.Namespace) -> int:
    from scenes.settings_reference import settings_reference

    print(settings_reference(), end="")
    return FINISHED


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
    ending = Ending()
    before = {number: signal.signal(number, ending) for number in SIGNALS}
    try:
        return _answer(given, ending)
    except (Interrupted, KeyboardInterrupt):
        print("cuspway: interrupted; nothing was written", file=sys.stderr)
        return INTERRUPTED
    finally:
        alone = given is None  # the program itself, with nothing left to do but end
        for number, handler in before.items():
            signal.signal(number, signal.SIG_IGN if alone else handler)


def _answer(given: Sequence[str] | None, ending: Ending) -> int:
    """Do what the arguments say; whatever goes wrong becomes a line and an exit code."""
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
    try:
        commands = {
            "check": _check,
            "compare": _compare,
            "vary": _vary,
            "advise": _advise,
            "study": _study,
            "page": _page,
            "new": _new,
            "teeth": _teeth,
            "records": _records,
            "tracks": _tracks,
            "cases": _cases,
            "settings": _settings,
        }
        return commands[arguments.command](arguments)
    except BrokenPipeError:  # the reader of our output left, as `head` does
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINISHED
    except Exception as error:  # the outermost place: everything becomes exit code 3
        if ending.came:  # some libraries make an error of their own of it
            raise Interrupted from error
        if arguments.traceback:
            traceback.print_exc()
        hint = "" if arguments.traceback else _TRACEBACK_HINT
        print(
            f"cuspway: internal error: {type(error).__name__}: {error}{hint}",
            file=sys.stderr,
        )
        return INTERNAL_ERROR


if __name__ == "__main__":
    sys.exit(main())
