"""Flattened and worn teeth: which plane a tooth is cut along, and the cut."""

import math
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.trial.cutting import Overhangs, Plane, along, cut_flat
from kinematics.trial.settings import Change
from kinematics.trial.standing import TrialTooth

CUTTING: Final = ("flatten", "wear")
#: So many teeth on either side are neighbours along whose plane a tooth wears. Chosen for this
#: program.
NEIGHBOURS: Final = 2
#: Tips of neighbours must spread at least so far in both directions of their plane, root mean
#: square, mm; where they do not, the whole arch counts. Chosen for this program.
LEAST_SPREAD_MM: Final = 1.0


def facetted(tooth: TrialTooth, change: Change, arch: Arch) -> TrialTooth:
    """Return a tooth flattened or worn.

    Parameters
    ----------
    tooth : TrialTooth
        The tooth.
    change : Change
        What is to be done.
    arch : Arch
        Its arch as it stands, for the plane along which it wears.

    Raises
    ------
    InputError
        So much cannot be cut: the surface overhangs above the plane.
    """
    up = tooth.axes[:, 2]
    normal = up if change.kind == "flatten" else _wear_normal(arch, tooth)
    assert change.by_mm is not None
    heights = along(tooth.vertices, normal)
    highest = int(np.argmax(heights))
    top = tooth.vertices[highest]
    try:
        return cut_flat(tooth, Plane(top - change.by_mm * normal, normal))
    except Overhangs as error:
        most_mm = math.floor(100.0 * (change.by_mm - error.height_mm)) / 100.0
        accepted = f"at most {most_mm:g} mm" if most_mm > 0.0 else "none of it"
        raise InputError(
            f"tooth {tooth.tooth.code}: by_mm = {change.by_mm:g} would cut below where its surface "
            f"overhangs, as under the widest part of a crown; accepted here is {accepted}"
        ) from error


def _wear_normal(arch: Arch, tooth: TrialTooth) -> Floats:
    """Return the normal of the plane along which a tooth wears, towards the opponent.

    Of the plane through the tips and edges of its neighbours, or where these lie on a line, of its
    whole arch; its own long axis where even these do.
    """
    up = tooth.axes[:, 2]
    others = [other for other in arch.teeth if other.code != tooth.tooth.code]
    at = arch.codes.index(tooth.tooth.code)
    beside = arch.teeth[max(at - NEIGHBOURS, 0) : at + NEIGHBOURS + 1]
    for teeth in ([other for other in beside if other.code != tooth.tooth.code], others):
        normal = _normal_through(teeth)
        if normal is not None:
            return normal if normal @ up > 0.0 else -normal
    return up


def _normal_through(teeth: list[Tooth]) -> Floats | None:
    """Return the normal of the plane nearest to the tips of teeth; None where there is none."""
    if not teeth:
        return None
    points = np.concatenate([_tips(tooth) for tooth in teeth])
    away = points - points.mean(axis=0)
    _, sizes, directions = np.linalg.svd(away, full_matrices=False)
    if len(sizes) < 3 or sizes[1] < LEAST_SPREAD_MM * math.sqrt(len(points)):
        return None
    return np.asarray(directions[2])


def _tips(tooth: Tooth) -> Floats:
    """Return the cusp tips (n, 3) of a tooth, or both ends and the middle of its edge."""
    if len(tooth.cusp_tips) > 1:
        return np.array(list(tooth.cusp_tips.values()))
    edge = tooth.edge
    return edge[[0, len(edge) // 2, -1]]
