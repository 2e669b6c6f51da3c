"""Which triangle of a cleaned scan belongs to which tooth, from whatever says so."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Bools, Ints
from kinematics.scans.cast_seeds import CastSeeds, ToothDoubt, told_by_seeds
from kinematics.scans.cleaning import Cleaned
from kinematics.scans.label_sources import (
    labels_from_json,
    labels_from_parts,
    labels_from_scalars,
)
from kinematics.scans.labels import check_arch, face_labels, without_strays
from kinematics.scans.scan import Scan
from kinematics.scans.settings import ScanFiles, Side


class NoLabels(InputError):
    """Nothing says which triangle of some scans belongs to which tooth.

    Attributes
    ----------
    names : mapping of side to str
        Their files.
    """

    def __init__(self, names: Mapping[Side, str]) -> None:
        super().__init__(_untold_words(names))
        self.names = names


@dataclass(frozen=True)
class LabelRecord:
    """Where tooth numbers came from.

    Attributes
    ----------
    source : str
        In words: the JSON file, the scalar, or the meshes of the scan file.
    strays : dict of tooth number to int
        Triangles of small separate pieces that were given to what surrounds them.
    doubtful : ndarray, shape (m,), or None
        Triangles of the cleaned scan whose tooth is not sure, where seeds tell it.
    doubts : tuple of ToothDoubt
        Teeth whose limits are not sure.
    """

    source: str
    strays: dict[int, int]
    doubtful: Bools | None = None
    doubts: tuple[ToothDoubt, ...] = ()


def tooth_of_face(
    scan: Scan, clean: Cleaned, files: ScanFiles, side: Side, seeds: CastSeeds | None
) -> tuple[Ints, LabelRecord]:
    """Return the tooth number of every triangle (m,) of a cleaned scan, 0 for none.

    Parameters
    ----------
    scan, clean : Scan, Cleaned
        The file as read, and what cleaning left of it.
    files : ScanFiles
        What names the labels.
    side : "upper" or "lower"
        Which arch it is meant to be.
    seeds : CastSeeds or None
        What tells the teeth where nothing else does.

    Raises
    ------
    NoLabels
        Nothing says which triangle belongs to which tooth.
    InputError
        What says it cannot be used.
    """
    if seeds is not None and not _is_told(scan, files, side):
        try:
            told = told_by_seeds(clean.mesh, seeds)
        except InputError as error:
            raise InputError(f"{scan.name}, the {side} cast: {error}") from error
        mended = without_strays(told.tooth_of_face, clean.mesh.faces)
        source = f"seeds picked on {len(seeds.teeth)} teeth"
        record = LabelRecord(source, mended.moved, told.doubtful, told.doubts)
    else:
        labels, source = _as_given(scan, files, side)
        mended = without_strays(labels[clean.face_of], clean.mesh.faces)
        record = LabelRecord(source, mended.moved)
    check_arch(mended.tooth_of_face, side, scan.name)
    return mended.tooth_of_face, record


def _as_given(scan: Scan, files: ScanFiles, side: Side) -> tuple[Ints, str]:
    """Return the label of every triangle of a scan file, and where it came from."""
    listed = getattr(files, f"{side}_labels")
    if listed is not None:
        path = Path(listed)
        return face_labels(labels_from_json(path, len(scan.vertices)), scan.faces), path.name
    key = files.label_scalar
    if key is not None or scan.vertex_scalars or scan.face_scalars:
        kind, labels = labels_from_scalars(scan.vertex_scalars, scan.face_scalars, key)
        of_faces = face_labels(labels, scan.faces) if kind == "vertex" else labels
        return of_faces, f"a scalar of each {kind} of the file"
    if scan.parts:
        return labels_from_parts(_parts(scan), len(scan.faces)), "names of the meshes in the file"
    raise NoLabels({side: scan.name})


def refuse_untold(
    scans: Mapping[Side, Scan], files: ScanFiles, seeded: Collection[Side] = ()
) -> None:
    """Refuse scans of which nothing says which triangle belongs to which tooth, all at once.

    Parameters
    ----------
    scans : mapping of side to Scan
        The files as read.
    files : ScanFiles
        What names the labels.
    seeded : collection of side
        Casts with seeds of teeth.

    Raises
    ------
    NoLabels
        Of one scan or both.
    """
    untold = {
        side: scan.name
        for side, scan in scans.items()
        if side not in seeded and not _is_told(scan, files, side)
    }
    if untold:
        raise NoLabels(untold)


def _is_told(scan: Scan, files: ScanFiles, side: Side) -> bool:
    listed = getattr(files, f"{side}_labels") is not None or files.label_scalar is not None
    return bool(listed or scan.vertex_scalars or scan.face_scalars or scan.parts)


def _untold_words(names: Mapping[Side, str]) -> str:
    keys = ", ".join(f"scans.{side}_labels" for side in names)
    return (
        f"{keys}: missing, and nothing says which triangle belongs to which tooth in"
        f" {' and '.join(names.values())}; give for each scan a JSON list with the ISO 3950 number"
        " of every vertex (0: gum), a PLY file with a scalar of tooth numbers, or a file with one"
        " mesh for each tooth, named by its number; or pick a seed on each tooth"
        " (scans.tooth_seeds)"
    )


def _parts(scan: Scan) -> Iterator[tuple[str, Ints]]:
    for part in scan.parts:
        yield part.name, np.arange(part.first_face, part.last_face + 1)
