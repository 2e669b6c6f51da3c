"""What `cuspway new` does: two scan files in, a folder with a case for a person to check out."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from kinematics.conventions import Floats
from kinematics.records.bite_scans import scanned_bite
from kinematics.scans.cleaning import cleaned
from kinematics.scans.cleaning_report import cleaning_words
from kinematics.scans.point_files import read_points
from kinematics.scans.scan_files import SCAN_ENDINGS, read_scan
from kinematics.scans.scanned_casts import CleanCast, read_cast
from kinematics.scans.settings import SIDES, ScanFiles, Side
from kinematics.scans.transform_files import read_transform
from kinematics.scans.units import in_millimetres
from scenes.argument_parts import FOLDER
from scenes.new_case import BegunCase, begun, read_casts, with_labels_beside
from scenes.new_case_file import case_text, fill_folder
from scenes.output_folder import (
    folder_in_one_piece,
    refuse_unless_empty,
    write_errors_said_plainly,
)
from scenes.seed_words import teeth_told


@dataclass(frozen=True)
class Begun:
    """What the command line tells of a new case.

    Attributes
    ----------
    lines : tuple of str
        What was found out.
    ready : bool
        Whether the case can be run as it stands.
    """

    lines: tuple[str, ...]
    ready: bool


def new(
    folder: Path,
    files: ScanFiles,
    progress: Callable[[str], None],
    points_file: Path | None = None,
    bite_file: Path | None = None,
) -> Begun:
    """Read two scans and write a folder with copies of them and a commented case.

    Parameters
    ----------
    folder : Path
        New, or empty.
    files : ScanFiles
        The scans, as the user named them.
    progress : callable
        Gets the name of every step when it begins.
    points_file : Path, optional
        Points picked on the scans, as CSV.
    bite_file : Path, optional
        Bite record: a transform, or a scan of both arches biting.

    Raises
    ------
    InputError
        Files that cannot be used, or a folder that cannot be written.
    """
    refuse_unless_empty(folder, FOLDER)
    points = () if points_file is None else read_points(points_file)
    bite, bite_lines = _bite(bite_file, files, progress)
    files = with_labels_beside(files)
    case = begun(read_casts(files, progress, bite, points), points)
    text = case_text(case)
    with (
        folder_in_one_piece(folder, FOLDER) as made,
        write_errors_said_plainly(folder, FOLDER),
    ):
        fill_folder(made, files, text, points)
    lines = (*_cleaning_lines(case.read.casts), *_finding_lines(case), *bite_lines)
    return Begun(lines, not case.why)


def _bite(
    file: Path | None, files: ScanFiles, progress: Callable[[str], None]
) -> tuple[Floats | None, tuple[str, ...]]:
    """Return a bite record, if there is one, and how it was found, if from a scan."""
    if file is None:
        return None, ()
    if file.suffix.lower() not in SCAN_ENDINGS:
        return read_transform(file), ()
    upper, lower = (read_cast(files, side, progress).cleaned.mesh for side in SIDES)
    progress(f"reading {file.name}, the bite")
    scan = read_scan(file)
    mesh = cleaned(scan, in_millimetres(scan.vertices, files.units, scan.name)).mesh
    found = scanned_bite(upper, lower, mesh, str(file), progress)
    assert found.upper is not None
    shares = " and ".join(
        f"{100.0 * place.share:.0f} % on the {side} one"
        for side, place in zip(SIDES, found.places, strict=True)
    )
    told = (
        f"bite: found from {file.name}: of what lies beside the casts, {shares}, off by"
        f" {1e3 * found.residual_mm:.0f} micrometres (root mean square)"
    )
    return found.from_lower, (told,)


def _cleaning_lines(casts: Mapping[Side, CleanCast]) -> Iterator[str]:
    for side, cast in casts.items():
        count = f"{len(cast.scan.faces):,}"
        yield f"{side} cast, {cast.scan.name} ({cast.scan.kind}, {count} triangles):"
        yield from (f"  {words}" for words in cleaning_words(cast.cleaned.report))


def _finding_lines(case: BegunCase) -> Iterator[str]:
    if case.read.untold:
        flags = " and ".join(f"--{side}-labels" for side in case.read.untold)
        yield f"teeth: not known yet. {case.read.no_labels}; `cuspway new` takes lists with {flags}"
    if told := teeth_told(case.read):
        yield f"teeth: {told} `cuspway teeth` draws them"
    if case.read.proposal is not None:
        yield f"teeth: {', '.join(map(str, case.read.proposal.teeth))}"
    if case.bite_open:
        yield (
            f"bite: not known yet. {case.bite_open} A bite record is given with --bite FILE, in a "
            "new folder, or as scans.scan_from_lower in the case"
        )
    elif case.read.bite is not None:
        yield "bite: the lower scan is moved into maximal intercuspation by the bite record"
    if case.points:
        yield f"points: {', '.join(point.called for point in case.points)}"
    if case.mounting is not None:
        yield f"mounting: by {case.mounting.kind}, from the points given"
    elif not case.why:
        yield (
            "mounting: by mean values, from landmarks found on the lower cast; check them in the "
            "case"
        )
    else:
        why = f" {case.lacking}" if case.lacking else ""
        yield (
            f"mounting: not known yet.{why} Fill in one way under [scans.mounting], or give"
            " picked points with --points"
        )
