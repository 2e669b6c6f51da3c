"""A whole case of scans as one ZIP file, which `cuspway check` runs when it is unpacked."""

import dataclasses
import tempfile
import zipfile
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
    """Write a case of scans; `told`: comments that its file begins with."""
    assert case.scans is not None
    alone = dataclasses.replace(case, scans=case.scans.renamed(new_names(case.scans)))
    archive(path, case.scans, told + case_toml(alone), points_of(case.scans))


def archive(path: Path, files: ScanFiles, text: str, points: tuple[PickedPoint, ...]) -> None:
    """Write a case file with its scans, labels and points.

    Parameters
    ----------
    path : Path
        Of the ZIP file.
    files : ScanFiles
        Scans and labels, from where they are copied.
    text : str
        The case file, which names them as `new_names` does.
    points : tuple of PickedPoint
        Picked points; none: no file of them.
    """
    with tempfile.TemporaryDirectory(dir=path.parent.parent) as workplace:
        fill_folder(Path(workplace), files, text, points)
        with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as made:
            for file in sorted(Path(workplace).iterdir()):
                entry = zipfile.ZipInfo(f"{INSIDE}/{file.name}", _MOMENT)
                entry.compress_type = zipfile.ZIP_DEFLATED
                entry.external_attr = 0o644 << 16
                with file.open("rb") as content, made.open(entry, "w", force_zip64=True) as kept:
                    while block := content.read(1 << 20):
                        kept.write(block)
