"""Where on a crown a point lies, in the words of the trade: cusp, incline, fossa, ridge, third.

Boundaries between regions are chosen for this program: no standard draws them. Mesial is towards
the midline along the arch, as its neighbours stand; extents are those of the tooth's triangles.
"""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from kinematics.casts.crown_directions import Crown
from kinematics.conventions import Floats
from kinematics.tooth_codes import is_posterior

#: A text for every point.
Words = NDArray[np.str_]

#: A point no farther than this from a cusp tip or an edge, seen along the long axis, is on it.
AT_TIP_MM: Final = 0.7
#: Share of the crown's length at either end that is its marginal ridge.
RIDGE_SHARE: Final = 0.12
#: Middle part of the way from the lingual to the buccal tips that is the fossa with its grooves.
FOSSA: Final = (0.35, 0.65)

#: Words of the cusps by their short names.
CUSPS: Final = {
    "MB": "mesiobuccal",
    "DB": "distobuccal",
    "ML": "mesiolingual",
    "DL": "distolingual",
    "D": "distal",
    "B": "buccal",
    "L": "lingual",
}


def region_words(crown: Crown, point: Floats) -> str:
    """Say where on a crown a point lies.

    Parameters
    ----------
    crown : Crown
        The crown.
    point : ndarray, shape (3,)
        In the coordinates of its arch, mm.
    """
    return str(region_names(crown, np.asarray(point)[None])[0])


def region_names(crown: Crown, points: Floats) -> Words:
    """Say where on a crown many points lie; see `region_words`.

    Parameters
    ----------
    crown : Crown
        The crown.
    points : ndarray, shape (n, 3)
        In the coordinates of its arch, mm.

    Returns
    -------
    ndarray of str, shape (n,)
        Words of the trade.
    """
    at = crown.coordinates(points)
    if not is_posterior(crown.tooth.code):
        return _on_front_tooth(crown, at)
    tips = crown.tooth.cusp_tips
    named = {name: tips[name] for name in tips if name in CUSPS}
    places = crown.coordinates(np.array([*named.values()]).reshape(-1, 3))
    aside = places[:, 1]
    if len(named) < 2 or np.ptp(aside) < 2.0 * AT_TIP_MM:
        buccal = at[:, 1] >= 0.5 * (crown.low[1] + crown.high[1])
        return _joined(
            np.where(buccal, "buccal", "lingual"), " half, ", _third(crown, at), " third"
        )
    return _on_table(crown, at, np.array([CUSPS[name] for name in named]), places)


def _joined(*parts: Words | str) -> Words:
    """Return texts put together, each part a text or one for every point."""
    joined: Words = np.asarray(parts[0])
    for part in parts[1:]:
        joined = np.char.add(joined, part)
    return joined


def _on_table(crown: Crown, at: Floats, names: Words, tips: Floats) -> Words:
    """Say where on the table of a back tooth points lie; tips (k, 3) along its directions."""
    apart = np.hypot(tips[:, 0] - at[:, :1], tips[:, 1] - at[:, 1:2])
    nearest = np.argmin(apart, axis=1)
    outer = tips[:, 1] >= 0.5 * (tips[:, 1].min() + tips[:, 1].max())
    lingual, buccal = float(tips[~outer, 1].mean()), float(tips[outer, 1].mean())
    across = (at[:, 1] - lingual) / (buccal - lingual)
    inside = (across > 0.0) & (across < 1.0)
    ridge = RIDGE_SHARE * float(crown.high[0] - crown.low[0])
    along = np.abs(tips[:, 0] - at[:, :1])
    along[outer[None] != (across > 0.5)[:, None]] = np.inf
    cusp = np.argmin(along, axis=1)
    way = np.where(at[:, 0] >= tips[cusp, 0], "mesial", "distal")
    facing = np.where(inside, "inner ", "outer ")
    return np.select(
        [
            apart[np.arange(len(at)), nearest] <= AT_TIP_MM,
            inside & (crown.high[0] - at[:, 0] <= ridge),
            inside & (at[:, 0] - crown.low[0] <= ridge),
            inside & (across >= FOSSA[0]) & (across <= FOSSA[1]),
        ],
        [
            _joined("tip of the ", names[nearest], " cusp"),
            np.full(len(at), "mesial marginal ridge"),
            np.full(len(at), "distal marginal ridge"),
            _joined("fossa, ", _third(crown, at), " third"),
        ],
        _joined(facing, way, " incline of the ", names[cusp], " cusp"),
    )


def _on_front_tooth(crown: Crown, at: Floats) -> Words:
    """Say where on an incisor or canine points lie."""
    edge = crown.coordinates(np.atleast_2d(crown.tooth.edge))
    nearest = edge[np.argmin(np.abs(edge[:, 0] - at[:, :1]), axis=1)]
    tip = crown.tooth.cusp_tips.get("tip")
    at_tip = np.zeros(len(at), dtype=bool)
    if tip is not None:
        at_tip = np.linalg.norm(crown.coordinates(tip[None]) - at, axis=1) <= AT_TIP_MM
    third = _third(crown, at)
    surface = np.where(at[:, 1] > nearest[:, 1], "labial", "lingual")
    down = _share(crown.high[2] - at[:, 2], crown.high[2] - crown.low[2])
    level = _in_thirds(down, ("incisal", "middle", "cervical"))
    aside = _in_thirds(_share_along(crown, at), ("distally", "centrally", "mesially"))
    return np.select(
        [at_tip, np.linalg.norm((nearest - at)[:, 1:], axis=1) <= AT_TIP_MM],
        [np.full(len(at), "tip"), _joined("incisal edge, ", third, " third")],
        _joined(surface, " surface, ", level, " third, ", aside),
    )


def _third(crown: Crown, at: Floats) -> Words:
    """Return in which third of the crown's length places lie."""
    return _in_thirds(_share_along(crown, at), ("distal", "middle", "mesial"))


def _share_along(crown: Crown, at: Floats) -> Floats:
    return _share(at[:, 0] - crown.low[0], crown.high[0] - crown.low[0])


def _in_thirds(share: Floats, words: tuple[str, str, str]) -> Words:
    """Return the word of the third that shares, 0 to 1, lie in."""
    return np.array(words)[np.minimum((3.0 * share).astype(np.int64), 2)]


def _share(part: Floats, whole: float) -> Floats:
    """Return parts over the whole, 0 to 1; the middle where there is no extent."""
    return np.clip(part / whole, 0.0, 1.0) if whole > 0.0 else np.full(len(part), 0.5)
