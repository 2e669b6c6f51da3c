"""Measured tracks of a case, and what of the case is needed to read them."""

from collections.abc import Sequence
from dataclasses import dataclass

from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import GuidanceSettings
from kinematics.records.settings import RecordFitting
from kinematics.scans.settings import ScanSettings
from kinematics.tracks.settings import JawTrack


@dataclass(frozen=True)
class Tracked:
    """Tracks, and what is needed to read them.

    Attributes
    ----------
    tracks : sequence of JawTrack
        Of the case, their files named so that they are found.
    fitting : RecordFitting
        How far a recorder may be off, and what is not sought.
    settings : GuidanceSettings
        Of the case: start, and what is kept.
    scans : ScanSettings or None
        Mounting, bite and records of CR; None for built-in teeth.
    mi : GuidanceCoordinates
        MI along the paths.
    """

    tracks: Sequence[JawTrack]
    fitting: RecordFitting
    settings: GuidanceSettings
    scans: ScanSettings | None
    mi: GuidanceCoordinates
