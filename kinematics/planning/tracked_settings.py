"""Settings and a hinge axis that are not those that measured tracks give, as findings."""

from collections.abc import Iterator
from typing import Final

from kinematics.planning.findings import Figure, Finding, margin_to
from kinematics.planning.recorded_settings import differing_settings
from kinematics.planning.wording import sentence
from kinematics.tracks.found_axis import HingeAxis
from kinematics.tracks.found_tracks import FromTracks

SETTINGS_DIFFER_FROM_TRACKS: Final = "settings differ from tracks"
AXIS_DIFFERS: Final = "hinge axis differs from track"


def tracked_findings(found: FromTracks) -> Iterator[Finding]:
    """Yield what measured tracks say against the settings and the mounting of a case.

    Parameters
    ----------
    found : FromTracks
        What they say.
    """
    if found.settings is not None:
        yield from differing_settings(
            found.settings,
            SETTINGS_DIFFER_FROM_TRACKS,
            ("the tracks", "the measured tracks"),
            "set what the tracks give (cuspway tracks with --write), or record them again",
        )
    for axis in found.axes:
        yield from _axis_finding(axis)


def _axis_finding(axis: HingeAxis) -> Iterator[Finding]:
    """Yield that the axis of the case is not that of a hinge opening, if it is not."""
    if axis.finite is None:
        return
    sides = {"right": axis.finite.right, "left": axis.finite.left}
    if all(place.holds_as_set for place in sides.values()):
        return
    worst = max(sides, key=lambda side: sides[side].distance_mm)
    place = sides[worst]
    known = Figure("half width of its 95 % interval, upward", place.reach_mm[1], "mm")
    yield Finding(
        kind=AXIS_DIFFERS,
        severity="attention",
        text=sentence(
            f"the hinge axis of the case is not that of the hinge opening (track {axis.number}):"
            f" beside the {worst} condyle they pass each other by {place.distance_mm:.2f} mm"
            f" ({place.forward_mm:+.2f} ± {place.reach_mm[0]:.2f} mm forward and"
            f" {place.up_mm:+.2f} ± {place.reach_mm[1]:.2f} mm up, 95 % intervals); mount the casts"
            " by the axis that was found, or record the opening again"
        ),
        figures=tuple(
            Figure(f"{side}, {what}", value, "mm")
            for side, where in sides.items()
            for what, value in (("forward", where.forward_mm), ("up", where.up_mm))
        ),
        threshold=known,
        threshold_source="noise of the track, and how the recorder was fixed",
        margin=margin_to(abs(place.up_mm), known),
    )
