"""What `cuspway teeth` does: scans with seeds in; their teeth as pictures and label lists out."""

import json
import os
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np

from kinematics.case import Case
from kinematics.casts.casts import NO_TOOTH
from kinematics.checks import InputError
from kinematics.scans.bites import bite_pose
from kinematics.scans.cast_seeds import labels_of_scan
from kinematics.scans.picked_points import points_of
from kinematics.scans.settings import SIDES, Side
from scenes.new_case import ReadCasts, read_casts
from scenes.output_folder import folder_in_one_piece, write_errors_said_plainly
from scenes.seed_pictures import seeded_png
from scenes.seed_words import doubt_words, teeth_told


def teeth(case: Case, given: str, out: Path, progress: Callable[[str], None]) -> str:
    """Tell the teeth of a case's scans by its seeds, and write pictures and label lists.

    Parameters
    ----------
    case : Case
        A case of scans.
    given : str
        Its file or folder, as the user named it.
    out : Path
        Folder for the results, written whole or not at all.
    progress : callable
        Gets the name of every step when it begins.

    Raises
    ------
    InputError
        A case that cannot be used, has no scans, or whose teeth are told by something else; a
        folder that cannot be written.
    """
    if case.scans is None:
        raise InputError(f"{given}: has built-in teeth and no scans, so there is nothing to tell")
    given_bite = case.scans.scan_from_lower
    bite = None if given_bite is None else bite_pose(given_bite)
    read = read_casts(case.scans, progress, bite, points_of(case.scans))
    seeded = [side for side in SIDES if read.is_seeded(side)]
    if not seeded:
        raise InputError(
            f"{given}: the teeth of its scans are told by labels, not by seeds; take the labels out"
            " to tell them by scans.tooth_seeds"
        )
    progress("drawing the casts")
    with folder_in_one_piece(out) as folder, write_errors_said_plainly(out):
        for side in seeded:
            (folder / f"{side}_teeth.png").write_bytes(seeded_png(read, side))
            text = json.dumps({"jaw": side, "labels": _labels(read, side)})
            (folder / f"{side}_labels.json").write_text(text + "\n", "utf-8", newline="\n")
    return "\n".join(_told(read, seeded, out, Path(given)))


def _labels(read: ReadCasts, side: Side) -> list[int]:
    """Return the tooth number of every vertex of a scan file."""
    cast = read.casts[side]
    told = np.full(len(cast.cleaned.mesh.vertices), NO_TOOTH, dtype=np.int64)
    codes = read.codes[side]
    told[cast.cleaned.mesh.faces[codes != NO_TOOTH]] = codes[codes != NO_TOOTH][:, None]
    labels: list[int] = labels_of_scan(cast.scan.vertices, cast.cleaned.vertex_of, told).tolist()
    return labels


def _told(read: ReadCasts, seeded: list[Side], out: Path, case: Path) -> Iterator[str]:
    folder = case if case.is_dir() else case.parent
    yield teeth_told(read)
    for side in seeded:
        for doubt in read.labels[side].doubts:
            yield f"  {side} cast: {doubt_words(doubt)}"
    for side in seeded:
        yield f"{out / f'{side}_teeth.png'}: look whether every tooth is all there"
    yield "To keep these teeth as they are, name their lists in the case, under [scans]:"
    for side in seeded:
        name = Path(os.path.relpath(out / f"{side}_labels.json", folder)).as_posix()
        yield f"  {side}_labels = {json.dumps(name)}"
    yield "Seeds then tell nothing more."
