"""The command `cuspway`: what is run, progress, exit codes.

Everything else is imported by the subcommand that needs it, so that help comes at once.
"""

import argparse
import os
import signal
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from scenes.argument_parts import FOLDER, OUT_FILE, WRITE
from scenes.asked_cases import asked_cases, refuse_unusable
from scenes.command_arguments import (
    FINDINGS,
    FINISHED,
    INTERNAL_ERROR,
    INTERRUPTED,
    build_parser,
)
from scenes.film_arguments import MOST_DRAWING
from scenes.interruption import Ending, Interrupted
from scenes.study_arguments import RESULTS
from scenes.terminal_lines import Complaints, Steps, warn
from scenes.told_results import SIGNALS, refused, results_stand, show

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from kinematics.case import Case
    from kinematics.engine.hands import Hands


def _drawing(cores: int, run: "Callable[[Steps, Executor], int]") -> int:
    """Do what a command asks while processes of their own draw for it."""
    progress = Steps()

    from scenes.drawing_processes import drawing_processes

    # on two cores a second one would cost more time, for its libraries, than it saves
    count = 2 if cores >= 4 else 1
    with drawing_processes(count) as drawing:  # first of all: they fetch their libraries meanwhile
        from scenes.drawing_orders import get_ready

        for _ in range(count):
            drawing.submit(get_ready)
        return run(progress, drawing)


def _vary(arguments: argparse.Namespace) -> int:
    (case,) = asked_cases(arguments.out, arguments.case)

    from kinematics.varying.grid import grid_over

    grid = grid_over(case, arguments.over)

    def run(progress: Steps, drawing: "Executor") -> int:
        from scenes.vary_command import PAGE_FILE, SAMPLES_A_TASK, VaryOptions, vary

        out = arguments.out
        options = VaryOptions(tuple(arguments.over), out, arguments.runs)
        hands = _hands(arguments, SAMPLES_A_TASK)
        summary = vary(case, grid, options, progress, hands, drawing)
        return _shown(summary, out, PAGE_FILE)

    return _drawing(arguments.processes, run)


def _shown(summary: str, out: Path, page: str, warning: str = "") -> int:
    """Tell what was found, when it is written."""
    results_stand(warning)
    written = f"Written to {out}: open {out / page} in a browser."
    show(f"{summary}\n\n{written}", written)
    return FINISHED


def _hands(arguments: argparse.Namespace, samples_a_task: int) -> "Hands":
    """Return who runs the samples of a study."""
    from kinematics.engine.cluster_hands import ClusterHands
    from kinematics.engine.local_hands import LocalHands

    address, processes = arguments.cluster, arguments.processes
    return ClusterHands(address, samples_a_task) if address else LocalHands(processes)


def _compare(arguments: argparse.Namespace) -> int:
    out, threads = arguments.out, arguments.threads
    before, after = asked_cases(out, arguments.before, arguments.after)

    def run(progress: Steps, drawing: "Executor") -> int:
        from scenes.compare_command import PAGE_FILE, compare

        done = compare(before, after, out, progress, threads, drawing)
        return _shown(done.summary, out, PAGE_FILE, done.warning)

    return _drawing(threads, run)


def _check(arguments: argparse.Namespace) -> int:
    out, threads = arguments.out, arguments.threads
    case, *others = asked_cases(out, arguments.case, *filter(None, [arguments.changed_from]))

    def run(progress: Steps, drawing: "Executor") -> int:
        from kinematics.planning.findings import SEVERITIES
        from scenes.check_command import REPORT_FILE, check

        outcome = check(case, out, progress, threads, drawing, *others)
        _shown(outcome.summary, out, REPORT_FILE, outcome.warning)
        limit, gravest = arguments.fail_on, outcome.gravest
        grave = limit and gravest and SEVERITIES.index(gravest) >= SEVERITIES.index(limit)
        return FINDINGS if grave else FINISHED

    return _drawing(threads, run)


def _page(arguments: argparse.Namespace) -> int:
    (case,) = asked_cases(None, arguments.case)

    from scenes.page_command import PageOptions, page

    options = PageOptions(
        arguments.host, arguments.port, arguments.threads, arguments.browser, arguments.lessons
    )
    say, complain = _say, Complaints(traceback_too=arguments.traceback)
    page(case, arguments.case, options, say, warn, complain)
    return _told("The page has ended.")


def _new(arguments: argparse.Namespace) -> int:
    from scenes.output_folder import refuse_unless_empty

    folder = arguments.folder
    refuse_unless_empty(folder, FOLDER)

    from kinematics.scans.settings import ScanFiles
    from scenes.new_command import new

    files = ScanFiles(
        upper=arguments.upper,
        lower=arguments.lower,
        units=arguments.units,
        upper_labels=arguments.upper_labels,
        lower_labels=arguments.lower_labels,
    )
    begun = new(folder, files, Steps(), arguments.points, arguments.bite)
    first = "read case.toml in it" if begun.ready else "fill in what case.toml marks with CHECK"
    then = f"Written to {folder}: {first}, then run\n  cuspway check {folder} --out {folder}-report"
    return _told("\n".join((*begun.lines, "", then)))


def _records(arguments: argparse.Namespace) -> int:
    case = _asked_for_settings(arguments)

    from scenes.records_command import records

    return _told(records(case, arguments.case, arguments.write, Steps()))


def _tracks(arguments: argparse.Namespace) -> int:
    case = _asked_for_settings(arguments)

    from scenes.tracks_command import tracks

    return _told(tracks(case, arguments.case, arguments.write, arguments.measured_paths))


def _asked_for_settings(arguments: argparse.Namespace) -> "Case":
    """Return the case in which settings are to be found, and perhaps written as another file."""
    from scenes.output_folder import refuse_there

    refuse_there(arguments.write, WRITE)
    (case,) = asked_cases(None, arguments.case)
    return case


def _advise(arguments: argparse.Namespace) -> int:
    (case,) = asked_cases(None, arguments.case)

    from scenes.advise_command import advise

    return _told(advise(case, arguments.teeth, Steps(), arguments.threads))


def _film(arguments: argparse.Namespace) -> int:
    from scenes.output_folder import refuse_there

    refuse_there(arguments.out, OUT_FILE)
    (case,) = asked_cases(None, arguments.case)

    from scenes.drawing_processes import drawing_processes

    progress, threads = Steps(), arguments.threads
    with drawing_processes(min(threads, MOST_DRAWING)) as drawing:
        from scenes.film_command import film, options_of

        return _told(film(case, arguments.out, options_of(arguments), progress, threads, drawing))


def _view(arguments: argparse.Namespace) -> int:
    (case,) = asked_cases(None, arguments.case)

    from scenes.view_command import options_of, view

    options = options_of(arguments)
    return _told(view(case, arguments.case, options, Steps(), _say))


def _say(text: str) -> None:
    """Print a line at once, also where nobody is at a terminal."""
    print(text, flush=True)


def _told(text: str) -> int:
    """Print what a command has to tell."""
    _say(text)
    return FINISHED


def _study(arguments: argparse.Namespace) -> int:
    out = arguments.out
    refuse_unusable(out / RESULTS, *arguments.cases)

    from scenes.found_cases import found_cases

    cases = found_cases(arguments.cases)

    def run(progress: Steps, drawing: "Executor") -> int:
        from scenes.study_command import FIRST_PAGE, SAMPLES_A_TASK, is_begun, study

        hands = _hands(arguments, SAMPLES_A_TASK)
        try:
            done = study(cases, out, arguments.samples, progress, hands, drawing)
        except (Interrupted, KeyboardInterrupt):
            if not is_begun(out):
                raise
            kept = f"finished runs are kept in {out}: the same command goes on"
            warn(f"interrupted; {kept}")
            return INTERRUPTED
        _told(f"{done.summary}\n\nWritten to {out}: open {out / FIRST_PAGE} in a browser.")
        return FINISHED if done.all_judged else FINDINGS

    return _drawing(arguments.processes, run)


def _teeth(arguments: argparse.Namespace) -> int:
    (case,) = asked_cases(arguments.out, arguments.case)

    from scenes.teeth_command import teeth

    return _told(teeth(case, arguments.case, arguments.out, Steps()))


def _printed(arguments: argparse.Namespace) -> int:
    from scenes.printed_texts import text_for

    print(text_for(arguments), end="")
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
        warn("interrupted; nothing was written")
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
            "view": _view,
            "film": _film,
            "new": _new,
            "teeth": _teeth,
            "records": _records,
            "tracks": _tracks,
            "cases": _printed,
            "settings": _printed,
            "lessons": _printed,
        }
        return commands[arguments.command](arguments)
    except BrokenPipeError:  # the reader of our output left, as `head` does
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINISHED
    except Exception as error:  # the outermost place: all that is no mistake becomes exit code 3
        from kinematics.checks import InputError, NotConverged

        if isinstance(error, InputError | NotConverged):  # both name what does not fit
            return refused(error)
        if ending.came:  # some libraries make an error of their own of it
            raise Interrupted from error
        Complaints(traceback_too=arguments.traceback)(error)
        return INTERNAL_ERROR


if __name__ == "__main__":
    sys.exit(main())
