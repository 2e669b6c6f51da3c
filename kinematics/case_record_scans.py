"""A case whose scans of interocclusal records were brought onto its casts: transforms of all."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Final

from kinematics.case import Case
from kinematics.casts.casts import NO_TOOTH
from kinematics.checks import InputError
from kinematics.geometry.meshes import Mesh, part_of
from kinematics.records.record_scans import BittenCasts, ScannedRecord, bitten_casts, scanned_record
from kinematics.records.settings import KEY, InterocclusalRecord, ScanRegistration
from kinematics.scans.bites import bite_pose
from kinematics.scans.cast_seeds import seeds_by_cast
from kinematics.scans.cleaning import cleaned
from kinematics.scans.picked_points import points_of
from kinematics.scans.scan_files import read_scan
from kinematics.scans.scanned_casts import labelled_casts, read_cast
from kinematics.scans.settings import SIDES, Matrix, ScanSettings
from kinematics.scans.units import in_millimetres

#: Decimals of a transform in a case file: rigid to far below what is asked of it.
_DECIMALS: Final = 12
#: Decimals of what is told of it.
_TOLD: Final = 6


def with_scans_registered(case: Case, progress: Callable[[str], None]) -> Case:
    """Return a case in which the scan of every record has become the transform found from it.

    A case without such records is returned as it is, and no file is read.

    Parameters
    ----------
    case : Case
        Its files are named from the current folder.
    progress : callable
        Gets the name of every step when it begins.

    Raises
    ------
    InputError
        Files that cannot be used, or scans that do not lie on the casts; with the file and the key.
    """
    if not any(record.awaits_scan for record in case.interocclusal_records):
        return case
    if case.scans is None:
        raise InputError(f"{KEY}: a scan of a record needs scanned casts, and the case has none")
    casts = _bitten(case.scans, progress)
    records = tuple(
        _registered(record, number, casts, case.scans.units, progress)
        for number, record in enumerate(case.interocclusal_records)
    )
    return replace(case, interocclusal_records=records)


def _bitten(scans: ScanSettings, progress: Callable[[str], None]) -> BittenCasts:
    """Read both casts, and prepare them for scans of records."""
    read = {side: read_cast(scans, side, progress) for side in SIDES}
    seeds = seeds_by_cast(points_of(scans), bite_pose(scans.scan_from_lower))
    casts = labelled_casts(read, scans, progress, seeds)
    meshes = {
        side: (cast.mesh, part_of(cast.mesh, cast.codes != NO_TOOTH)[0])
        for side, cast in casts.items()
    }
    progress("preparing both casts for the scans of records")
    return bitten_casts(meshes["upper"], meshes["lower"], bite_pose(scans.scan_from_lower))


def _registered(
    record: InterocclusalRecord,
    number: int,
    casts: BittenCasts,
    units: str,
    progress: Callable[[str], None],
) -> InterocclusalRecord:
    """Return a record with the transform found from its scan."""
    if record.scan is None:
        return record
    path = Path(record.scan)
    where = f"{KEY}[{number}].scan"
    progress(f"reading {path.name}, the {record.kind} record")
    found = scanned_record(
        casts,
        _read(path, units, where),
        record.scan_shows,
        f"{where} = {path.name}",
        lambda step: progress(f"{path.name}: {step}"),
    )
    return replace(
        record,
        scan=None,
        scan_shows="both arches",
        transform=_matrix(found),
        registration=ScanRegistration(
            scan=path.name,
            upper_share=None if found.upper is None else _told(found.upper.share),
            lower_share=_told(found.lower.share),
            residual_mm=_told(found.residual_mm),
            translation_error_mm=_told(found.shift_error_mm),
            rotation_error_deg=_told(found.turn_error_deg),
        ),
    )


def _read(path: Path, units: str, where: str) -> Mesh:
    try:
        scan = read_scan(path)
        return cleaned(scan, in_millimetres(scan.vertices, units, scan.name)).mesh
    except InputError as error:
        raise InputError(f"{where}: {error}") from error


def _told(value: float) -> float:
    return round(value, _TOLD)


def _matrix(found: ScannedRecord) -> Matrix:
    rows = [[round(value, _DECIMALS) + 0.0 for value in row] for row in found.from_lower.tolist()]
    first, second, third, last = ((row[0], row[1], row[2], row[3]) for row in rows)
    return first, second, third, last
