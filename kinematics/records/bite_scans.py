"""Where the lower scan stands in maximal intercuspation, from a scan of both arches biting."""

from collections.abc import Callable

import numpy as np

from kinematics.checks import InputError
from kinematics.geometry.meshes import Mesh
from kinematics.records.record_scans import ScannedRecord, firmly_found, share_words
from kinematics.scans.registration_target import target_of
from kinematics.scans.scan_search import CastTarget, find_on, likely_places, sought_scan


def scanned_bite(
    upper: Mesh, lower: Mesh, bite: Mesh, where: str, progress: Callable[[str], None]
) -> ScannedRecord:
    """Find how both casts bite.

    Teeth need not be told: gums count too, and what changed of them does not pull.

    Parameters
    ----------
    upper, lower : Mesh
        Both scans, cleaned, mm, each in coordinates of its own.
    bite : Mesh
        A scan of both arches in maximal intercuspation, or of one face of them, in any coordinates.
    where : str
        What to call it in a message.
    progress : callable
        Gets the name of every step when it begins.

    Raises
    ------
    InputError
        The scan does not lie on both casts, in more than one way, or not firmly.
    """
    scan, as_it_lies = sought_scan(bite), np.eye(4)[None]
    above, below = (CastTarget(target, target) for target in map(target_of, (upper, lower)))
    progress("finding the upper arch in the bite")
    on_upper = find_on(above, scan, as_it_lies)
    if not on_upper.lies_on:
        on_upper = find_on(above, scan, likely_places(above.whole, scan))
    if not on_upper.lies_on or on_upper.best is None:
        raise InputError(
            f"{where}: does not lie on the upper scan: {share_words(on_upper)}. Is it a scan of"
            " this patient, of both arches biting, in the unit of the scans?"
        )
    rest = scan.without(on_upper.best.on)
    progress("finding the lower arch in the bite")
    on_lower = find_on(below, rest, on_upper.best.pose[None])
    if not on_lower.lies_on:
        on_lower = find_on(below, rest, likely_places(below.whole, rest))
    if not on_lower.lies_on:
        raise InputError(
            f"{where}: lies on the upper scan, but not on the lower one: {share_words(on_lower)}."
            " Does it show both arches?"
        )
    return firmly_found(on_upper, on_lower, where)
