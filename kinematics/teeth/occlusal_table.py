"""Height of the occlusal table: cusps, ridges, floor and grooves of a posterior crown.

Every part is a smooth function of the place (x, y) in the crown's own frame; the table is their
smooth maximum less the grooves. Heights of cusps and ridges enter only as constants added to what
each looks like below its top, so a crown can be settled without computing the shape again.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.teeth.crown_table import CuspForm, GrooveForm, PosteriorForm, RidgeForm

#: Sharpness of the smooth maximum, per mm: parts blend within about 0.3 mm of equal height.
BLEND_PER_MM: Final = 6.0
#: Rounding of the four ridges of a cusp, of its tip, and of other ridges, mm.
RIDGE_ROUNDING_MM: Final = 0.14
TIP_RADIUS_MM: Final = 0.45
CREST_RADIUS_MM: Final = 0.35
#: A ridge's slope and sag level out past its ends over this share of its length.
END_ROUNDING: Final = 0.1
#: Over this width the inner half of a cusp begins to turn, mm.
TURN_ROUNDING_MM: Final = 0.3
#: Exponent that joins the sides of a cusp: 1 gives a pyramid with sharp ridges, 2 a cone.
SIDE_EXPONENT: Final = 1.15
#: Legs of grooves that meet are not added up: the exponent of a mean that takes nearly the deepest
#: of them, without a kink where they are equal.
GROOVE_EXPONENT: Final = 8.0
#: The floor falls away outside this share of the outline's radius, mm per unit, and begins to
#: over this width.
FLOOR_RIM: Final = 0.5
FLOOR_FALL: Final = 5.0
FLOOR_ROUNDING: Final = 0.08


def _rounded(value: Floats, radius: float) -> Floats:
    """Return about |value|, rounded at 0 and 0 there."""
    return np.sqrt(value * value + radius * radius) - radius


def cusp_drop(cusp: CuspForm, size: tuple[float, float, float], x: Floats, y: Floats) -> Floats:
    """Return how far the cusp has fallen below its tip at places (x, y), mm."""
    slope_in, slope_out, slope_mesial, slope_distal = np.tan(
        np.radians([cusp.inner, cusp.outer, cusp.mesial, cusp.distal])
    )
    dx = x - cusp.at[0] * size[0]
    dy = y - cusp.at[1] * size[1]
    outward = np.sign(cusp.at[1]) * dy
    inside = outward < 0.0
    # A shear of the inner half turns the triangular ridge; it begins gently, so that the halves
    # join without a kink, and leaves the tip where it is.
    inner = 0.5 * (outward - np.sqrt(outward**2 + TURN_ROUNDING_MM**2) + TURN_ROUNDING_MM)
    along = dx + np.tan(np.radians(cusp.turn)) * np.sign(cusp.at[1]) * inner
    width = size[1] * (0.5 - abs(cusp.at[1]))
    across = np.where(
        inside,
        _rounded(slope_in * outward, RIDGE_ROUNDING_MM),
        slope_out * outward**2 / (2.0 * width)
        + 0.25 * _rounded(0.5 * slope_out * outward, RIDGE_ROUNDING_MM),
    )
    lengthwise = _rounded(
        np.where(along > 0.0, slope_mesial, slope_distal) * along, RIDGE_ROUNDING_MM
    )
    fall = (lengthwise**SIDE_EXPONENT + across**SIDE_EXPONENT) ** (1.0 / SIDE_EXPONENT)
    return _rounded(fall, TIP_RADIUS_MM)


def _along_segment(x: Floats, y: Floats, start: Floats, end: Floats) -> tuple[Floats, Floats]:
    """Return the share of the way along a segment, beyond 0 and 1 too, and the distance, mm."""
    step = end - start
    share = ((x - start[0]) * step[0] + (y - start[1]) * step[1]) / (step @ step)
    on = np.clip(share, 0.0, 1.0)
    return share, np.hypot(x - start[0] - on * step[0], y - start[1] - on * step[1])


def ridge_drop(ridge: RidgeForm, size: tuple[float, float, float], x: Floats, y: Floats) -> Floats:
    """Return how far the ridge's tent has fallen below its mean height at places (x, y), mm."""
    ends = ridge.ends[:, :2] * np.array(size[:2])
    beyond, distance = _along_segment(x, y, ends[0], ends[1])
    # Between 0 and 1, levelling out gently past both ends.
    share = 0.5 * (
        np.sqrt(beyond**2 + END_ROUNDING**2) - np.sqrt((beyond - 1.0) ** 2 + END_ROUNDING**2) + 1.0
    )
    tilt = (share - 0.5) * (ridge.ends[1, 2] - ridge.ends[0, 2])
    sag = ridge.sag * 4.0 * share * (1.0 - share)
    flank = float(np.tan(np.radians(ridge.flank)))
    tent = _rounded(flank * distance, CREST_RADIUS_MM) + sag - tilt
    return np.asarray(tent)


def groove_depth(
    grooves: Sequence[GrooveForm], size: tuple[float, float, float], x: Floats, y: Floats
) -> Floats:
    """Return the depth of all grooves together at places (x, y), mm."""
    total = np.zeros_like(x)
    for groove in grooves:
        for start, end in pairwise(groove.along * np.array(size[:2])):
            distance = _along_segment(x, y, start, end)[1]
            bell = np.exp(-((distance / groove.half_width) ** 2))
            total += (groove.depth * bell) ** GROOVE_EXPONENT
    return np.asarray(total ** (1.0 / GROOVE_EXPONENT))


def _floor_fall(rho: Floats) -> Floats:
    """Return how far the floor has fallen at shares rho of the outline's radius, mm."""
    outside = rho - FLOOR_RIM
    return np.asarray(FLOOR_FALL * 0.5 * (outside + np.sqrt(outside**2 + FLOOR_ROUNDING**2)))


@dataclass(frozen=True)
class TableShape:
    """An occlusal table at fixed places, all but the heights of its parts.

    Attributes
    ----------
    drops : ndarray, shape (parts, n)
        How far each cusp, then each ridge, has fallen below its height, mm.
    floor : ndarray, shape (n,)
        exp(BLEND_PER_MM (floor - level)).
    grooves : ndarray, shape (n,)
        Depth of all grooves together, mm.
    level : float
        Height about which exponentials are taken, mm.
    """

    drops: Floats
    floor: Floats
    grooves: Floats
    level: float

    def heights(self, part_heights: Floats) -> Floats:
        """Return the table's heights (n,) for heights of its parts (parts,), mm."""
        total = self.floor + self._terms(part_heights).sum(axis=0)
        return np.asarray(self.level + np.log(total) / BLEND_PER_MM - self.grooves)

    def shares(self, part_heights: Floats) -> Floats:
        """Return by how much the table rises per mm of each part's height, (parts, n)."""
        terms = self._terms(part_heights)
        return np.asarray(terms / (self.floor + terms.sum(axis=0)))

    def _terms(self, part_heights: Floats) -> Floats:
        return np.asarray(np.exp(BLEND_PER_MM * (part_heights[:, None] - self.level - self.drops)))


def table_shape(form: PosteriorForm, x: Floats, y: Floats, rho: Floats) -> TableShape:
    """Return the shape of a form's occlusal table at places (x, y).

    Parameters
    ----------
    form : PosteriorForm
        The crown.
    x, y : ndarray, shape (n,)
        Places in the crown's own frame, mm.
    rho : ndarray, shape (n,)
        Their distance from the axis as a share of the outline's radius in that direction.
    """
    size = form.size
    drops = [cusp_drop(cusp, size, x, y) for cusp in form.cusps]
    drops += [ridge_drop(ridge, size, x, y) for ridge in form.ridges]
    return TableShape(
        drops=np.array(drops),
        floor=np.exp(-BLEND_PER_MM * _floor_fall(rho)),
        grooves=groove_depth(form.grooves, size, x, y),
        level=form.floor,
    )
