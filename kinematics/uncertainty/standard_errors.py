"""How far each setting of a case may be off, and where that comes from."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from kinematics.records.settings import FOUND, GuidanceSpread
from kinematics.scans.hinge_pose import PLANE_TO_OCCLUSAL_DEG
from kinematics.scans.settings import ScanSettings
from kinematics.uncertainty.hinge_axis import AXIS_FORWARD, AXIS_TILT, AXIS_UP
from kinematics.uncertainty.published_spreads import (
    ARBITRARY_AXIS,
    INCLINATION_CORRELATION,
    MEAN_PLANE,
    OF_GUIDANCE,
    RECORDED_MI,
    UNRECORDED_MI,
    PublishedSpread,
    mean_axis,
)
from kinematics.uncertainty.variable_settings import SIDES, StudiedSettings

_FROM_RECORDS = "found from records, with its standard error"
_BY_USER = "given in the case file"


@dataclass(frozen=True)
class KnownWithin:
    """Standard error of one setting.

    Attributes
    ----------
    standard_error : float
        In the unit of the setting; 0: exact.
    source : str
        Where it comes from.
    published : bool
        Whether it is that of people, since nothing is known of this one.
    """

    standard_error: float
    source: str
    published: bool = False


#: Pairs of settings with the correlation of their errors.
Correlations = Mapping[frozenset[str], float]


def standard_errors(studied: StudiedSettings) -> dict[str, KnownWithin]:
    """Return what is known of every setting: by the user, else from records, else published."""
    known = _published(studied) if studied.settings.unrecorded == "published" else {}
    known |= {path: KnownWithin(error, _FROM_RECORDS) for path, error in recorded_errors(studied)}
    for one in studied.settings.spread:
        known[one.setting] = KnownWithin(one.standard_error, one.source or _BY_USER)
    return known


def recorded_errors(studied: StudiedSettings) -> Iterator[tuple[str, float]]:
    """Yield settings that records gave, by their paths, with their standard errors."""
    spread = studied.guidance_spread or GuidanceSpread()
    for side in SIDES:
        for key, error in vars(getattr(spread, side)).items():
            if not key.startswith(FOUND) and error is not None:
                yield f"guidance.{side}.{key}", float(error)


def recorded_correlations(studied: StudiedSettings) -> dict[frozenset[str], float]:
    """Return the correlations that records gave."""
    spread = studied.guidance_spread or GuidanceSpread()
    names = [f"guidance.{name}" for name in spread.correlated]
    return {
        frozenset((one, other)): spread.correlations[row][column]
        for row, one in enumerate(names)
        for column, other in enumerate(names[:row])
    }


def correlations(studied: StudiedSettings, known: Mapping[str, KnownWithin]) -> Correlations:
    """Return the correlations of errors: by the user, from records, and published.

    What is published of two settings holds where both are taken as published.
    """
    found = _published_correlations(studied, known) | recorded_correlations(studied)
    for one in studied.settings.correlation:
        found[frozenset(one.settings)] = one.correlation
    return found


def _published(studied: StudiedSettings) -> dict[str, KnownWithin]:
    """Return the spreads of people and mountings that hold for a case."""
    spreads: dict[str, PublishedSpread] = {}
    for key, spread in OF_GUIDANCE.items():
        places = [f"guidance.{side}.{key}" for side in SIDES]
        for path in places if hasattr(studied.guidance.right, key) else [f"guidance.{key}"]:
            spreads[path] = spread
    if studied.scans is not None:
        spreads |= _of_scans(studied.scans, studied.guidance.reference_plane)
    return {path: KnownWithin(of.standard_error, of.source, True) for path, of in spreads.items()}


def _of_scans(scans: ScanSettings, plane: str) -> dict[str, PublishedSpread]:
    """Return what is uncertain of scanned casts: built-in teeth stand where they are said to."""
    place = RECORDED_MI if scans.centric_records else UNRECORDED_MI
    spreads = {f"maximal_intercuspation.advance_{side}_mm": place for side in SIDES}
    if scans.mounting.kind != "mean values":
        return spreads | {AXIS_FORWARD: ARBITRARY_AXIS, AXIS_UP: ARBITRARY_AXIS}
    axis = mean_axis(scans.mounting, math.radians(PLANE_TO_OCCLUSAL_DEG[plane]))
    spreads |= {AXIS_FORWARD: axis.forward, AXIS_UP: axis.up}
    return spreads | ({AXIS_TILT: MEAN_PLANE[plane]} if plane in MEAN_PLANE else {})


def _published_correlations(
    studied: StudiedSettings, known: Mapping[str, KnownWithin]
) -> dict[frozenset[str], float]:
    right, left = (f"guidance.{side}.condylar_inclination_deg" for side in SIDES)
    found = {frozenset((right, left)): INCLINATION_CORRELATION}
    scans, plane = studied.scans, studied.guidance.reference_plane
    if scans is not None and scans.mounting.kind == "mean values":
        axis = mean_axis(scans.mounting, math.radians(PLANE_TO_OCCLUSAL_DEG[plane]))
        found[frozenset((AXIS_FORWARD, AXIS_UP))] = axis.correlation
    return {
        pair: value
        for pair, value in found.items()
        if all(path in known and known[path].published for path in pair)
    }
