"""A whole case with its files as one ZIP file, which `cuspway check` runs when it is unpacked."""

import dataclasses
import shutil
import tempfile
import zipfile
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from kinematics.case import Case
from kinematics.case_file import case_toml
from kinematics.scans.picked_points import PickedPoint, points_of
from kinematics.scans.settings import ScanFiles
from scenes.new_case_file import fill_folder, new_names

#: Folder in the archive, so that unpacking it makes one.
INSIDE: Final = "case"
#: The same content gives the same bytes, whenever it is written.
_MOMENT: Final = (1980, 1, 1, 0, 0, 0)


def write_whole_case(case: Case, path: Path, told: str = "") -> None:
    """Write a case of scans or with tracks; `told`: comments that its file begins with."""
    scans = case.scans
    points = () if scans is None else points_of(scans)
    if scans is not None:
        scans = scans.renamed(new_names(scans))
    tracks = {f"track_{n}.csv": track for n, track in enumerate(case.jaw_tracks, start=1)}
    named = tuple(dataclasses.replace(track, file=name) for name, track in tracks.items())
    alone = dataclasses.replace(case, scans=scans, jaw_tracks=named)
    from_where = {name: track.file for name, track in tracks.items()}
    archive(path, case.scans, told + case_toml(alone), points, from_where)


def archive(
    path: Path,
    files: ScanFiles | None,
    text: str,
    points: tuple[PickedPoint, ...],
    tracks: Mapping[str, str] | None = None,
) -> None:
    """Write a case file with its scans, labels, points and tracks.

    Parameters
    ----------
    path : Path
        Of the ZIP file.
    files : ScanFiles or None
        Scans and labels, from where they are copied; None for built-in teeth.
    text : str
        The case file, which names them as `new_names` does.
    points : tuple of PickedPoint
        Picked points; none: no file of them.
    tracks : mapping of text to text, optional
        Tracks of the jaw, from where they are copied, by their names in the archive.
    """
    with tempfile.TemporaryDirectory(dir=path.parent.parent) as workplace:
        fill_folder(Path(workplace), files, text, points)
        for name, track in (tracks or {}).items():
            shutil.copyfile(track, Path(workplace, name))
        with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as made:
            for file in sorted(Path(workplace).iterdir()):
                entry = zipfile.ZipInfo(f"{INSIDE}/{file.name}", _MOMENT)
                entry.compress_type = zipfile.ZIP_DEFLATED
                entry.external_attr = 0o644 << 16
                with file.open("rb") as content, made.open(entry, "w", force_zip64=True) as kept:
                    while block := content.read(1 << 20):
                        kept.write(block)
