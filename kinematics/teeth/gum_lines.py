"""Lines along an arch that shape its gums: margins with papillae, ridge crests, ends."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.ndimage import gaussian_filter1d

from kinematics.conventions import Bools, Floats
from kinematics.teeth.cervical_places import Places
from kinematics.tooth_codes import place

#: Facial and lingual gum margin above the cervical line at the middle of a tooth (0.5 to 1 mm in
#: young adults; from memory).
MARGIN_MM: Final = 0.7
#: Tip of a papilla above the margin: front 4.0 (Chu et al., Int J Periodontics Restorative Dent
#: 2009, upper front), back 2.5 to 3 (from memory).
PAPILLA_FRONT_MM: Final = 4.0
PAPILLA_BACK_MM: Final = 2.7
#: Lingual and facial height of a papilla over these: lingual ones are lower (our choice).
PAPILLA_SHARES: Final = (0.7, 1.0)
#: Share of a papilla that is left where there is no neighbour.
_LONE_SHARE: Final = 0.6
#: Crest of a residual ridge below the cervical line: 8 to 10 mm from the occlusal plane when teeth
#: were lost lately (from memory), with back crowns of 7 to 7.5 mm.
CREST_BELOW_MM: Final = 1.8
#: How far a body reaches behind the last tooth or place: tuberosity and retromolar pad end after 8
#: to 10 mm (from memory).
BEHIND_MM: Final = 10.0
#: A tuberosity stands so far above the crest of the ridge (our choice).
TUBEROSITY_RISE_MM: Final = 1.3
#: A retromolar pad rises so far above the cervical line: nearly to the occlusal plane.
PAD_RISE_MM: Final = 2.4
#: Where it begins to rise and where it ends, behind the last place.
_PAD_FROM_MM: Final = 0.0
_PAD_TO_MM: Final = 5.5
#: Over this length tuberosity and pad fall to the land behind them.
_END_MM: Final = 5.0
#: Land behind tuberosity and pad.
_HEEL_MM: Final = 1.5
#: Power of the scallop between the middle of a tooth and a papilla.
_SCALLOP: Final = 2.3
#: Teeth farther apart than this have a ridge between them, not a papilla.
_GAP_MM: Final = 1.5
#: Over this length gum at a tooth becomes ridge.
_FADE_MM: Final = 2.2
#: Lines are smoothed with these lengths: margins and surfaces.
TIP_SMOOTH_MM: Final = 0.35
SURFACE_SMOOTH_MM: Final = 2.0


@dataclass(frozen=True)
class GumLines:
    """Values at the stations of an arch (n,), mm; pairs are lingual and facial (n, 2).

    Attributes
    ----------
    station : ndarray, shape (n,)
        Evenly spaced, symmetric.
    margin : ndarray, shape (n, 2)
        Height of the gum margin, with papillae.
    base_line : ndarray, shape (n, 2)
        The same without papillae, smooth.
    surface : ndarray, shape (n, 2)
        Radius of the gum below the margin, smooth.
    crest, middle : ndarray, shape (n,)
        Height and radius of the crest of the ridge where there is one.
    ridge : ndarray, shape (n,)
        1 on a ridge, 0 around teeth.
    standing : ndarray, shape (n,)
        1 but for the ends, where everything falls to the land, 0.
    behind : ndarray, shape (n,)
        How far behind the last place a station lies, negative before it, mm.
    """

    station: Floats
    margin: Floats
    base_line: Floats
    surface: Floats
    crest: Floats
    middle: Floats
    ridge: Floats
    standing: Floats
    behind: Floats


def stations_for(places: Places, step_mm: float) -> Floats:
    """Return stations (n,) over an arch and its ends, the same on both sides."""
    reach = max(-float(places.start[0]), float(places.end[-1])) + BEHIND_MM
    half = round(reach / step_mm)
    return np.asarray(np.arange(-half, half + 1) * (reach / half))


def gum_lines(places: Places, station: Floats, upper: bool) -> GumLines:
    """Return the lines of an arch at given stations."""
    step = float(station[1] - station[0])

    def smooth(values: Floats, length_mm: float) -> Floats:
        return np.asarray(gaussian_filter1d(values, length_mm / step, axis=0, mode="nearest"))

    def along(values: Floats) -> Floats:
        columns = values.reshape(len(values), -1)
        lines = [np.interp(station, places.station, column) for column in columns.T]
        return np.stack(lines, axis=1).reshape(len(station), *values.shape[1:])

    base_line = smooth(along(places.height + MARGIN_MM), SURFACE_SMOOTH_MM)
    rise = smooth(_papillae(places, station), TIP_SMOOTH_MM)
    exact = smooth(along(places.height + MARGIN_MM), TIP_SMOOTH_MM)
    behind = np.maximum(places.start[0] - station, station - places.end[-1])
    crest = along(places.height.mean(axis=1)) - CREST_BELOW_MM
    crest = crest + _end_rise(places, station, behind, upper)
    ridge = smooth(1.0 - _near_teeth(places, station).astype(float), 0.4 * _FADE_MM)
    to_end = np.clip((BEHIND_MM - _HEEL_MM - behind) / _END_MM, 0.0, 1.0)
    return GumLines(
        station,
        exact + rise[:, None] * PAPILLA_SHARES,
        base_line,
        smooth(along(places.radius), SURFACE_SMOOTH_MM),
        smooth(crest, 1.2),
        smooth(along(places.middle), SURFACE_SMOOTH_MM),
        ridge,
        1.0 - (1.0 - to_end) ** 2,
        behind,
    )


def _papillae(places: Places, station: Floats) -> Floats:
    """Return how far the margin rises above that at the middles of the teeth (n,)."""
    rows = np.flatnonzero(places.stands)
    if len(rows) == 0:
        return np.zeros(len(station))
    knots, tips = [], []
    for k, row in enumerate(rows):
        start, end = float(places.start[row]), float(places.end[row])
        full = PAPILLA_FRONT_MM if place(int(places.codes[row])) <= 3 else PAPILLA_BACK_MM
        before = float(places.end[rows[k - 1]]) if k > 0 else -np.inf
        after = float(places.start[rows[k + 1]]) if k + 1 < len(rows) else np.inf
        left = 0.5 * (start + before) if start - before < _GAP_MM else start
        right = 0.5 * (end + after) if after - end < _GAP_MM else end
        knots.append((left, float(places.station[row]), right))
        tips.append(
            (
                full * (1.0 if start - before < _GAP_MM else _LONE_SHARE),
                full * (1.0 if after - end < _GAP_MM else _LONE_SHARE),
            )
        )
    at = np.array(knots)
    high = np.array(tips)
    # Where two teeth meet, the lower of both papillae is the papilla of both.
    joined = at[1:, 0] - at[:-1, 2] < 1e-9
    lower = np.minimum(high[1:, 0], high[:-1, 1])
    high[1:, 0] = np.where(joined, lower, high[1:, 0])
    high[:-1, 1] = np.where(joined, lower, high[:-1, 1])
    owner = np.argmin(np.abs(station[:, None] - at[None, :, 1]), axis=1)
    # The owner is the tooth between whose ends the station lies, not always the nearest middle.
    inside = (station[:, None] >= at[None, :, 0]) & (station[:, None] <= at[None, :, 2])
    owner = np.where(inside.any(axis=1), np.argmax(inside, axis=1), owner)
    away = station - at[owner, 1]
    half = np.where(away < 0.0, at[owner, 1] - at[owner, 0], at[owner, 2] - at[owner, 1])
    tip = np.where(away < 0.0, high[owner, 0], high[owner, 1])
    return np.asarray(tip * np.minimum(np.abs(away) / half, 1.0) ** _SCALLOP)


def _near_teeth(places: Places, station: Floats) -> Bools:
    """Tell at which stations (n,) there is gum around teeth rather than a ridge."""
    rows = np.flatnonzero(places.stands)
    start, end = places.start[rows], places.end[rows]
    near = (station[:, None] > start - 0.3 * _FADE_MM) & (station[:, None] < end + 0.3 * _FADE_MM)
    between = np.zeros(len(station), dtype=bool)
    for k in range(len(rows) - 1):
        if start[k + 1] - end[k] < _GAP_MM:
            between |= (station >= end[k]) & (station <= start[k + 1])
    return np.asarray(near.any(axis=1) | between)


def _end_rise(places: Places, station: Floats, behind: Floats, upper: bool) -> Floats:
    """Return how far the crest rises behind the last place (n,): tuberosity, retromolar pad."""
    if upper:
        return np.where(behind > 0.0, TUBEROSITY_RISE_MM * np.minimum(behind / 2.0, 1.0), 0.0)
    share = np.clip((behind - _PAD_FROM_MM) / (_PAD_TO_MM - _PAD_FROM_MM), 0.0, 1.0)
    rise = share * share * (3.0 - 2.0 * share)
    return np.asarray((PAD_RISE_MM + CREST_BELOW_MM) * rise)
