"""What `python -m benchmarks` does: its parts, its arguments, the tables of figures and ratios."""

import argparse
import importlib.metadata
import os
import platform
from collections.abc import Callable, Iterable, Iterator, Sequence

from pydantic import ValidationError

from benchmarks import (
    adjust,
    advise,
    figures,
    film,
    frames,
    live,
    load,
    maps,
    page,
    ratios,
    scans,
    start,
    study,
    whole_run,
)
from benchmarks.scenes import TRIANGLES, casts_of
from benchmarks.table import Figure, Run, counted, figure_lines, ratio_lines
from kinematics.teeth.dentition_settings import DentitionSettings

_REPEATS = 5


#: What each part measures.
FIGURES: dict[str, Callable[[Run], Iterable[Figure]]] = {
    "closure": figures.closure,
    "conforming": figures.conforming_bodies,
    "patches": figures.contact_patches,
    "trees": figures.trees,
    "memory": figures.memory,
    "maps": lambda run: maps.rows(casts_of(run.triangles)),
    "start": start.rows,
    "command": whole_run.rows,
    "live": live.rows,
    "page": page.rows,
    "frames": frames.rows,
    "film": film.rows,
    "scans": scans.rows,
    "growth": figures.growth,
    "load": load.rows,
    "adjust": adjust.rows,
    "advise": advise.rows,
    "study": study.rows,
}


def main(given: Sequence[str] | None = None) -> int:
    """Run what is asked for and print it; ends with 1 where a library disagrees."""
    arguments = _parser().parse_args(given)
    run = Run(arguments.triangles, arguments.repeats)
    chosen = arguments.only or [*FIGURES, *ratios.LIBRARIES]
    return _measured(run, chosen)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m benchmarks",
        description="Times the closure engine, and other libraries on the same poses.",
        allow_abbrev=False,
    )
    parser.add_argument(
        "--only", nargs="+", choices=[*FIGURES, *ratios.LIBRARIES], metavar="PART",
        help="measure some parts only: %(choices)s",
    )  # fmt: skip
    parser.add_argument(
        "--repeats", type=_count, default=_REPEATS, metavar="N",
        help="medians are over so many runs (default: %(default)s; 1 for a quick look)",
    )  # fmt: skip
    parser.add_argument(
        "--triangles", type=_triangles, default=TRIANGLES, metavar="N",
        help="about so many in each arch (default: %(default)s, for which figures are asked)",
    )  # fmt: skip
    return parser


def _count(text: str) -> int:
    if not text.isdecimal() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"'{text}': must be a whole number above 0")
    return int(text)


def _triangles(text: str) -> int:
    try:
        return DentitionSettings(triangles_per_arch=_count(text)).triangles_per_arch
    except ValidationError as error:  # it tells the range
        reason = error.errors()[0]["msg"]
        raise argparse.ArgumentTypeError(f"'{text}': {reason}") from error


def _measured(run: Run, chosen: Sequence[str]) -> int:
    print("\n".join(_heading(run)), flush=True)
    rows = [row for name, part in FIGURES.items() if name in chosen for row in part(run)]
    if rows:
        print("\n" + "\n".join(figure_lines(rows)), flush=True)
    pairs = [row for key in ratios.LIBRARIES if key in chosen for row in ratios.rows(key, run)]
    if pairs:
        print("\n" + "\n".join(ratio_lines(pairs)))
    return int(any(not getattr(row, "agrees", True) for row in pairs))


def _heading(run: Run) -> Iterator[str]:
    """Yield what figures depend on."""
    run.say(f"building arches of {run.triangles:,} triangles")
    casts = casts_of(run.triangles)
    versions = ", ".join(
        _versions(["numpy", "numba", *(x.name for x in ratios.LIBRARIES.values())])
    )
    yield (
        f"Built-in teeth, {len(casts.upper.mesh.faces):,} triangles in the upper arch and "
        f"{len(casts.lower.mesh.faces):,} in the lower; medians of {counted(run.repeats, 'run')}; "
        f"{os.cpu_count()} cores, {platform.machine()}; Python {platform.python_version()}, "
        f"{versions}."
    )


def _versions(names: Sequence[str]) -> Iterator[str]:
    for name in names:
        try:
            yield f"{name} {importlib.metadata.version(name)}"
        except importlib.metadata.PackageNotFoundError:
            continue
