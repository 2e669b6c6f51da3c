"""Where on a crown a point lies, in the words of the trade: cusp, incline, fossa, ridge, third.

Boundaries between regions are chosen for this program: no standard draws them. Mesial is towards
the midline along the arch, as its neighbours stand; extents are those of the tooth's triangles.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.conventions import Floats
from kinematics.tooth_codes import is_posterior, is_right, is_upper

#: A point no farther than this from a cusp tip or an edge, seen along the long axis, is on it.
AT_TIP_MM: Final = 0.7
#: Share of the crown's length at either end that is its marginal ridge.
RIDGE_SHARE: Final = 0.12
#: Middle part of the way from the lingual to the buccal tips that is the fossa with its grooves.
FOSSA: Final = (0.35, 0.65)

_CUSPS: Final = {
    "MB": "mesiobuccal",
    "DB": "distobuccal",
    "ML": "mesiolingual",
    "DL": "distolingual",
    "D": "distal",
    "B": "buccal",
    "L": "lingual",
}


@dataclass(frozen=True)
class Crown:
    """One crown with its own directions, in the coordinates of its arch.

    Attributes
    ----------
    tooth : Tooth
        Its landmarks.
    mesial, outward, up : ndarray, shape (3,)
        Unit vectors at right angles: towards the midline along the arch, towards cheek or lip,
        and from the cervix to the edge or table.
    low, high : ndarray, shape (3,)
        Extents of its triangles along these three, mm.
    """

    tooth: Tooth
    mesial: Floats
    outward: Floats
    up: Floats
    low: Floats
    high: Floats

    def coordinates(self, points: Floats) -> Floats:
        """Return points (n, 3) along mesial, outward and up, mm."""
        return points @ np.stack([self.mesial, self.outward, self.up], axis=1)


def crown_of(arch: Arch, code: int) -> Crown:
    """Return the directions and extents of one crown.

    Raises
    ------
    InputError
        The arch has no such tooth.
    """
    tooth = arch.tooth(code)
    up = tooth.long_axis / np.linalg.norm(tooth.long_axis)
    mesial = _towards_midline(arch, code)
    mesial = mesial - (mesial @ up) * up
    mesial = mesial / np.linalg.norm(mesial)
    turns_right = is_upper(code) == is_right(code)
    outward = np.cross(up, mesial) if turns_right else np.cross(mesial, up)
    points = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == code]].reshape(-1, 3)
    seen = points @ np.stack([mesial, outward, up], axis=1)
    return Crown(tooth, mesial, outward, up, seen.min(axis=0), seen.max(axis=0))


def _towards_midline(arch: Arch, code: int) -> Floats:
    """Return the direction along the arch from a tooth to the midline; forward for a lone tooth."""
    if len(arch.teeth) < 2:
        return np.array([1.0, 0.0, 0.0])
    at = arch.codes.index(code)
    before, after = arch.teeth[max(at - 1, 0)], arch.teeth[min(at + 1, len(arch.teeth) - 1)]
    along = np.asarray(after.centre - before.centre)  # from the patient's right to left
    return along if is_right(code) else -along


def region_words(crown: Crown, point: Floats) -> str:
    """Say where on a crown a point lies.

    Parameters
    ----------
    crown : Crown
        The crown.
    point : ndarray, shape (3,)
        In the coordinates of its arch, mm.
    """
    at = crown.coordinates(np.asarray(point)[None])[0]
    if not is_posterior(crown.tooth.code):
        return _on_front_tooth(crown, at)
    tips = crown.tooth.cusp_tips
    named = {name: tips[name] for name in tips if name in _CUSPS}
    places = crown.coordinates(np.array([*named.values()]).reshape(-1, 3))
    aside = places[:, 1]
    if len(named) < 2 or np.ptp(aside) < 2.0 * AT_TIP_MM:
        half = "buccal" if at[1] >= 0.5 * (crown.low[1] + crown.high[1]) else "lingual"
        return f"{half} half, {_third(crown, at)} third"
    return _on_table(crown, at, tuple(_CUSPS[name] for name in named), places)


def _on_table(crown: Crown, at: Floats, names: tuple[str, ...], tips: Floats) -> str:
    """Say where on the table of a back tooth a point lies; tips (k, 3) along its directions."""
    apart = np.hypot(tips[:, 0] - at[0], tips[:, 1] - at[1])
    nearest = int(np.argmin(apart))
    if apart[nearest] <= AT_TIP_MM:
        return f"tip of the {names[nearest]} cusp"
    outer = tips[:, 1] >= 0.5 * (tips[:, 1].min() + tips[:, 1].max())
    lingual, buccal = float(tips[~outer, 1].mean()), float(tips[outer, 1].mean())
    across = (at[1] - lingual) / (buccal - lingual)
    if 0.0 < across < 1.0:
        length = float(crown.high[0] - crown.low[0])
        if crown.high[0] - at[0] <= RIDGE_SHARE * length:
            return "mesial marginal ridge"
        if at[0] - crown.low[0] <= RIDGE_SHARE * length:
            return "distal marginal ridge"
        if FOSSA[0] <= across <= FOSSA[1]:
            return f"fossa, {_third(crown, at)} third"
    same_side = np.flatnonzero(outer == (across > 0.5))
    cusp = int(same_side[np.argmin(np.abs(tips[same_side, 0] - at[0]))])
    way = "mesial" if at[0] >= tips[cusp, 0] else "distal"
    facing = "inner" if 0.0 < across < 1.0 else "outer"
    return f"{facing} {way} incline of the {names[cusp]} cusp"


def _on_front_tooth(crown: Crown, at: Floats) -> str:
    """Say where on an incisor or canine a point lies."""
    edge = crown.coordinates(np.atleast_2d(crown.tooth.edge))
    nearest = edge[int(np.argmin(np.abs(edge[:, 0] - at[0])))]
    if "tip" in crown.tooth.cusp_tips:
        tip = crown.coordinates(crown.tooth.cusp_tips["tip"][None])[0]
        if np.linalg.norm(tip - at) <= AT_TIP_MM:
            return "tip"
    if np.linalg.norm(nearest[1:] - at[1:]) <= AT_TIP_MM:
        return f"incisal edge, {_third(crown, at)} third"
    surface = "labial" if at[1] > nearest[1] else "lingual"
    down = _share(crown.high[2] - at[2], crown.high[2] - crown.low[2])
    level = ("incisal", "middle", "cervical")[min(int(3.0 * down), 2)]
    aside = {"mesial": "mesially", "middle": "centrally", "distal": "distally"}[_third(crown, at)]
    return f"{surface} surface, {level} third, {aside}"


def _third(crown: Crown, at: Floats) -> str:
    """Return in which third of the crown's length a place lies."""
    share = _share(at[0] - crown.low[0], crown.high[0] - crown.low[0])
    return ("distal", "middle", "mesial")[min(int(3.0 * share), 2)]


def _share(part: float, whole: float) -> float:
    """Return part over whole, 0 to 1; the middle where there is no extent."""
    return float(np.clip(part / whole, 0.0, 1.0)) if whole > 0.0 else 0.5
