"""Interocclusal records of a case, what of the case is needed to read them, and where they lie."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import GuidanceSettings
from kinematics.records.recorded_places import (
    RecordedPlace,
    centres_in_records,
    recorded_places,
    refuse_impossible,
)
from kinematics.records.settings import KEY, InterocclusalRecord, RecordFitting
from kinematics.scans.settings import ScanSettings


@dataclass(frozen=True)
class Recorded:
    """Records, and what is needed to read them.

    Attributes
    ----------
    records : sequence of InterocclusalRecord
        The records.
    fitting : RecordFitting
        How they scatter, and what is not sought in them.
    settings : GuidanceSettings
        Of the case: start, and what is kept.
    scans : ScanSettings or None
        Mounting, bite and records of CR; None for built-in teeth.
    mi : GuidanceCoordinates
        MI along the paths.
    """

    records: Sequence[InterocclusalRecord]
    fitting: RecordFitting
    settings: GuidanceSettings
    scans: ScanSettings | None
    mi: GuidanceCoordinates


def read_records(recorded: Recorded) -> tuple[tuple[RecordedPlace, ...], Floats]:
    """Return where records put the lower, and its condyle centres (n, 2, 3).

    Raises
    ------
    InputError
        Records that cannot be read, or that no jaw can have left; a measured path.
    """
    settings, records = recorded.settings, recorded.records
    for side in ("right", "left"):
        if records and getattr(settings, side).path == "measured":
            raise InputError(
                f"guidance.{side}: path = 'measured' says more than {KEY} can; leave one of them"
                " out"
            )
    plane = settings.reference_plane
    places = recorded_places(records, recorded.fitting, recorded.scans, plane)
    if not places:
        return (), np.zeros((0, 2, 3))
    centres = centres_in_records(places, prepare(settings), recorded.mi)[0]
    refuse_impossible(places, centres)
    return places, centres
