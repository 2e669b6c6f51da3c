"""How far findings on scanned casts rest on what was scanned: rims, single points, overlap."""

from dataclasses import dataclass, replace

from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.planning.findings import Finding, first_of_severity
from kinematics.planning.outlier_contacts import outlier_findings
from kinematics.planning.rim_contacts import RimShare, rim_contacts
from kinematics.planning.scan_quality import ScanQuality, centric_line, scan_quality
from kinematics.planning.stops import Stop
from kinematics.scans.bite_overlaps import BiteOverlaps, cast_overlap
from kinematics.scans.scanned_casts import ScansRecord
from kinematics.scans.scanned_surfaces import ScannedSurfaces


@dataclass(frozen=True)
class ScanDoubts:
    """What is known of scanned surfaces beside the findings.

    Attributes
    ----------
    on_rims : tuple of RimShare
        How many closing contacts of each excursion lie on a rim.
    overlaps : BiteOverlaps
        Where the casts stand in each other at the bite, before anything is let in.
    quality : ScanQuality
        What mounting, bite and meshes are worth.
    """

    on_rims: tuple[RimShare, ...]
    overlaps: BiteOverlaps
    quality: ScanQuality


@dataclass(frozen=True)
class Doubted:
    """Findings and stops with what is said of the surfaces at their contacts, and the rest."""

    findings: tuple[Finding, ...]
    stops: tuple[Stop, ...]
    doubts: ScanDoubts


def scan_doubts(
    casts: MountedCasts,
    surfaces: ScannedSurfaces,
    record: ScansRecord,
    sweeps: tuple[Sweep, ...],
    stops: tuple[Stop, ...],
    findings: tuple[Finding, ...],
    cr_recorded: bool,
) -> Doubted:
    """Say of what was found on scanned casts how far it rests on what was scanned.

    Parameters
    ----------
    casts : MountedCasts
        The casts that were moved.
    surfaces : ScannedSurfaces
        The same, as scanned.
    record : ScansRecord
        Where they came from, and how they were seated.
    sweeps : tuple of Sweep
        Their excursions; the first starts in MI.
    stops, findings : tuple of Stop, tuple of Finding
        What was found in them.
    cr_recorded : bool
        Whether MI follows from a record of centric relation.
    """
    rims = rim_contacts(casts, surfaces, sweeps, stops, findings)
    allowance_mm = record.seating.allowance_mm if record.seating else 0.0
    single = outlier_findings(casts, surfaces, sweeps, allowance_mm)
    overlaps = BiteOverlaps(
        cast_overlap(casts.upper, surfaces.upper.overlap_mm),
        cast_overlap(casts.lower, surfaces.lower.overlap_mm),
    )
    told = first_of_severity(rims.findings, single)
    tolerance_mm = sweeps[0].tolerance_mm
    codes = (*casts.upper.codes, *casts.lower.codes)
    quality = scan_quality(surfaces, record, rims.shares, rims.stops, codes, tolerance_mm)
    mounting, bite, *others = quality.lines
    lines = mounting, bite, centric_line(casts.mi, cr_recorded), *others
    doubts = ScanDoubts(rims.shares, overlaps, replace(quality, lines=lines))
    return Doubted(told, rims.stops, doubts)
