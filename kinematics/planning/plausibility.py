"""Settings that no record of a person is known to have given: a slip, or another unit."""

from collections.abc import Iterator
from typing import Final

from kinematics.guidance.settings import GuidanceSettings

#: Condylar inclinations of people lay between these, degrees: students 42 +/- 8, 26 to 62 (n = 32);
#: orthodontic patients 49 +/- 12 (Appl Sci 2025;15(18):10231, n = 154). Rounded outward.
USUAL_INCLINATION_DEG: Final = (20.0, 65.0)


def implausible_settings(guidance: GuidanceSettings) -> Iterator[str]:
    """Yield a sentence for every condylar inclination outside what has been recorded."""
    low, high = USUAL_INCLINATION_DEG
    for side in ("right", "left"):
        path = getattr(guidance, side)
        given = path.condylar_inclination_deg
        if path.path != "measured" and not low <= given <= high:
            yield (
                f"The condylar inclination of the {side} side is {given:g}°; recorded ones lie"
                f" between about {low:g} and {high:g}°. Check the record and the unit: degrees."
            )
