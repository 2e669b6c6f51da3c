"""Sections across an arch: control points from the tongue's side over the crest to the base."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.interpolate import BSpline
from scipy.ndimage import gaussian_filter1d

from kinematics.casts.casts import Arch
from kinematics.conventions import Bools, Floats, Ints
from kinematics.teeth.arch_coordinates import ArchCoordinates
from kinematics.teeth.cervical_places import Places
from kinematics.teeth.gum_lines import TIP_SMOOTH_MM, GumLines
from kinematics.teeth.palate import Rim, vault
from kinematics.tooth_codes import place

#: Points of a section for each of its control points.
POINTS_PER_CONTROL: Final = 2
#: Depth of the vestibule below the facial gum margin, front and molars: upper 10 to 13 and 8 to 10,
#: lower 8 to 10 and 6 to 8 mm (from memory).
SULCUS_MM: Final = {True: (11.0, 10.0), False: (9.0, 8.0)}
#: What lies this near to the height of the margin shows where it meets the crown.
NEAR_MARGIN_MM: Final = 0.3
#: Width that is left of a tuberosity or a pad where it ends.
SLIM: Final = 0.4
#: Depth of the lower lingual gum, which falls at 60 to 70 degrees (from memory).
LINGUAL_DEPTH_MM: Final = 8.0
#: Control points of the palate, as shares of the way from the midline to the gum.
PALATE_SHARES: Final = np.array(
    [
        0.0,
        0.05,
        0.1,
        0.16,
        0.22,
        0.28,
        0.34,
        0.4,
        0.46,
        0.52,
        0.58,
        0.64,
        0.7,
        0.76,
        0.82,
        0.89,
        0.96,
    ]
)
#: Bulges over roots and over canines (from memory).
ROOT_MM: Final = 0.45
CANINE_MM: Final = 0.8
#: Height of the ridge at radii from its crest: 7 to 9 mm wide 3 mm below it, 11 to 13 at 6 mm
#: (from memory; the control points stand closer, since the curve passes outside them).
RIDGE_OUT_MM: Final = (0.7, 1.5, 2.4, 3.3, 4.2, 5.0)
RIDGE_HALF_3_MM: Final = 3.6
#: Width of the land around the vestibule, and how far it lies above the deepest place.
LAND_MM: Final = 4.2
LAND_UP_MM: Final = 0.5
#: How far heels are trimmed inward for every millimetre behind the last place.
HEEL_TRIM: Final = 0.33
#: Where the vestibule is deepest and where the land begins, from the gum's surface.
VESTIBULE_MM: Final = 2.0


@dataclass(frozen=True)
class Sections:
    """Control points of all sections, and the kind of what lies between them.

    Attributes
    ----------
    radius, height : ndarray, shape (n, c)
        From the tongue's side to the outer edge of the land, mm.
    first_gum, top, last_gum : int
        Control points between which gum or ridge lies, and the one on the crest; before them is
        the palate or the inner land, after them the outer land.
    """

    radius: Floats
    height: Floats
    first_gum: int
    top: int
    last_gum: int


def land_height(lines: GumLines, upper: bool) -> Floats:
    """Return the height of the vestibule (n,), mm: smooth, deeper in front."""
    front, back = SULCUS_MM[upper]
    share = np.clip(lines.station / 40.0, -1.0, 1.0) ** 2
    depth = front + (back - front) * share
    return _smooth(lines, lines.base_line[:, 1], 6.0) - depth


def sections(
    arch: Arch, places: Places, lines: GumLines, coordinates: ArchCoordinates, upper: bool
) -> Sections:
    """Return the sections of an arch at the stations of its lines."""
    crown, below = _crown_radii(arch, places, lines, coordinates)
    land = land_height(lines, upper)
    facial = _facial(places, lines, (crown[:, 1], below[:, 1]), land)
    top = _top(lines, crown)
    lingual = _lingual(lines, (crown[:, 0], below[:, 0]), land)
    inner = _palate(lines, lingual) if upper else _tongue(lines, lingual, land)
    radius = np.concatenate([inner[0], lingual[0], top[0], facial[0]], axis=1)
    height = np.concatenate([inner[1], lingual[1], top[1], facial[1]], axis=1)
    first, last = inner[0].shape[1], radius.shape[1] - 2
    gum = slice(first - 1 if not upper else first, radius.shape[1] - 3)
    fallen = land[:, None] + (height[:, gum] - land[:, None]) * lines.standing[:, None]
    height[:, gum] = np.where(height[:, gum] > land[:, None], fallen, height[:, gum])
    towards = SLIM + (1.0 - SLIM) * np.sqrt(lines.standing)[:, None]
    body = slice(first, radius.shape[1] - 4)
    middle = lines.middle[:, None]
    radius[:, body] = middle + towards * (radius[:, body] - middle)
    if upper:
        radius[:, :first] = _palate(lines, (radius[:, first:], height))[0]
        edge = Rim(radius[:, first - 1] / PALATE_SHARES[-1], _smooth(lines, height[:, first], 1.2))
        height[:, :first] = vault(
            lines, edge, coordinates, lines.station[:, None], radius[:, :first]
        )
    return Sections(radius, height, first, first + lingual[0].shape[1], last)


def curve_matrix(controls: int, points_per_control: int) -> Floats:
    """Return the weights (points, controls) of control points on a clamped cubic curve."""
    knots = np.concatenate([np.zeros(3), np.linspace(0.0, 1.0, controls - 2), np.ones(3)])
    at = np.linspace(0.0, 1.0, points_per_control * controls)
    return np.asarray(BSpline(knots, np.eye(controls), 3)(at))


def _smooth(lines: GumLines, values: Floats, length_mm: float) -> Floats:
    step = float(lines.station[1] - lines.station[0])
    return np.asarray(gaussian_filter1d(values, length_mm / step, axis=0, mode="nearest"))


def _crown_radii(
    arch: Arch, places: Places, lines: GumLines, coordinates: ArchCoordinates
) -> tuple[Floats, Floats]:
    """Return lingual and facial radii (n, 2) of the crowns: at the gum margin; the most below."""
    if not places.stands.any():
        return lines.surface, lines.surface
    counted = np.isin(arch.tooth_of_face, places.codes[places.stands])
    corners = arch.mesh.vertices[arch.mesh.faces[counted]]
    samples = np.concatenate(
        [corners.mean(axis=1), *(0.5 * (corners[:, k] + corners[:, k - 1]) for k in range(3))]
    )
    facial = np.tile(_is_facial(arch, counted, coordinates), 4)
    seen = coordinates.seen(samples)
    station, step = lines.station, lines.station[1] - lines.station[0]
    index = np.round((seen[:, 0] - station[0]) / step).astype(np.int64)
    found, below = np.empty((2, len(station), 2))
    for side, sign in ((0, -1.0), (1, 1.0)):
        margin = np.interp(seen[:, 0], station, lines.margin[:, side])
        own = facial == (side == 1)
        at_margin = own & (np.abs(seen[:, 2] - margin) < NEAR_MARGIN_MM)
        reach = _reach(len(station), index[at_margin], sign * seen[at_margin, 1])
        known = np.isfinite(reach)
        found[:, side] = sign * np.interp(station, station[known], reach[known])
        under = own & (seen[:, 2] < margin)
        bulge = _reach(len(station), index[under], sign * seen[under, 1])
        below[:, side] = np.maximum(sign * found[:, side], bulge) * sign
    return _smooth(lines, found, TIP_SMOOTH_MM), _smooth(lines, below, TIP_SMOOTH_MM)


def _reach(count: int, index: Ints, values: Floats) -> Floats:
    """Return the greatest value at each of `count` stations; minus infinity without any."""
    reach = np.full(count, -np.inf)
    np.maximum.at(reach, index, values)
    return reach


def _is_facial(arch: Arch, counted: Bools, coordinates: ArchCoordinates) -> Bools:
    """Tell which of the counted triangles lie on the facial side of their tooth's axis."""
    rows = np.searchsorted(np.sort(arch.codes), arch.tooth_of_face[counted])
    order = np.argsort(arch.codes)
    centre = np.array([tooth.centre for tooth in arch.teeth])[order]
    axis = np.array([tooth.long_axis for tooth in arch.teeth])[order]
    outward = coordinates.outward(centre)
    across = outward - (outward * axis).sum(axis=1, keepdims=True) * axis
    middle = arch.mesh.vertices[arch.mesh.faces[counted]].mean(axis=1)
    return np.asarray(((middle - centre[rows]) * across[rows]).sum(axis=1) > 0.0)


def _bulges(places: Places, lines: GumLines) -> Floats:
    """Return how far roots bulge the facial gum (n,), mm."""
    rows = np.flatnonzero(places.stands)
    canine = np.array([place(int(code)) == 3 for code in places.codes[rows]])
    width = 0.3 * (places.end[rows] - places.start[rows])
    away = (lines.station[:, None] - places.station[rows]) / width
    return np.asarray((np.where(canine, CANINE_MM, ROOT_MM) * np.exp(-(away**2))).sum(axis=1))


def _beside_ridge(lines: GumLines, side: int) -> tuple[Floats, Floats]:
    """Return radius and height (n, 6) of a ridge beside its crest, outward from it."""
    out = np.array(RIDGE_OUT_MM)
    fall = 3.0 * (out / RIDGE_HALF_3_MM) ** 2
    sign = -1.0 if side == 0 else 1.0
    return lines.middle[:, None] + sign * out, lines.crest[:, None] - fall


def _blended(lines: GumLines, gum: Floats, ridge: Floats) -> Floats:
    return np.asarray(gum + lines.ridge[:, None] * (ridge - gum))


def _facial(
    places: Places, lines: GumLines, crowns: tuple[Floats, Floats], land: Floats
) -> tuple[Floats, Floats]:
    """Return the facial control points (n, 10) from the margin to the edge of the land."""
    crown, below = crowns
    margin, base_line = lines.margin[:, 1], lines.base_line[:, 1]
    surface = lines.surface[:, 1] + 0.55
    bulge = _bulges(places, lines)
    depth = base_line - land
    gum_r = [
        crown - 1.2,
        crown + 0.15,
        np.maximum(crown + 0.6, 0.5 * (crown + below) + 0.6),
        np.maximum(surface + 0.5 * bulge, below + 0.6),
        surface + 0.9 * bulge,
        surface + 0.7 * bulge,
    ]
    gum_h = [
        margin - 0.2,
        margin + 0.3,
        margin - 0.55,
        base_line - 1.3,
        base_line - 0.38 * depth,
        base_line - 0.66 * depth,
    ]
    ridge_r, ridge_h = _beside_ridge(lines, 1)
    ridge_h = np.maximum(ridge_h, land[:, None] + 0.8)
    radius = _blended(lines, np.stack(gum_r, axis=1), ridge_r)
    height = _blended(lines, np.stack(gum_h, axis=1), ridge_h)
    edge = _smooth(lines, surface, 6.0) + VESTIBULE_MM
    edge_of_land = edge + LAND_MM - HEEL_TRIM * np.maximum(lines.behind, 0.0)
    outer_r = [surface + 0.35, edge - 0.5, edge + 0.4, edge_of_land]
    outer_h = [land + 1.2, land, land + LAND_UP_MM, land + LAND_UP_MM]
    return (
        np.concatenate([radius, np.stack(outer_r, axis=1)], axis=1),
        np.concatenate([height, np.stack(outer_h, axis=1)], axis=1),
    )


def _top(lines: GumLines, crown: Floats) -> tuple[Floats, Floats]:
    """Return the control point (n, 1) between both margins: inside the crowns, or the crest."""
    saddle = lines.margin.mean(axis=1) - 0.2
    return (
        _blended(lines, crown.mean(axis=1)[:, None], lines.middle[:, None]),
        _blended(lines, saddle[:, None], lines.crest[:, None]),
    )


def _lingual(lines: GumLines, crowns: tuple[Floats, Floats], land: Floats) -> tuple[Floats, Floats]:
    """Return the lingual control points (n, 4), from the tongue's side to the margin."""
    crown, below = crowns
    margin = lines.margin[:, 0]
    surface = lines.surface[:, 0] - 0.5
    gum_r = [
        np.minimum(surface, below - 0.35),
        np.minimum(crown - 0.5, 0.3 * crown + 0.7 * below - 0.45),
        crown - 0.15,
        crown + 1.2,
    ]
    gum_h = [lines.base_line[:, 0] - 1.3, margin - 0.55, margin + 0.3, margin - 0.2]
    ridge_r, ridge_h = _beside_ridge(lines, 0)
    return (
        _blended(lines, np.stack(gum_r, axis=1), ridge_r[:, 3::-1]),
        _blended(
            lines, np.stack(gum_h, axis=1), np.maximum(ridge_h[:, 3::-1], land[:, None] + 0.8)
        ),
    )


def _palate(lines: GumLines, lingual: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
    """Return the radii of the palate's control points (n, p); heights follow."""
    radius = np.minimum(lines.surface[:, 0], lingual[0][:, 0])[:, None] * PALATE_SHARES
    return radius, np.zeros_like(radius)


def _tongue(lines: GumLines, lingual: tuple[Floats, Floats], land: Floats) -> tuple[Floats, Floats]:
    """Return the control points (n, 5) of a lower arch inside its lingual margin."""
    surface, base_line = lines.surface[:, 0] - 0.4, lines.base_line[:, 0]
    edge = _smooth(lines, surface, 6.0)
    deep = land - 0.2
    # Inside a low ridge nothing rises above its side.
    outer_r, outer_h = lingual[0][:, 0], lingual[1][:, 0]
    drop = np.minimum(base_line, outer_h + 1.3) - deep
    beside = surface - 1.1 + lines.ridge * (outer_r - 0.5 - surface + 1.1)
    near = np.minimum(beside, outer_r - 0.4)
    radius = [edge - 6.5, edge - 5.0, edge - 4.0, np.minimum(surface - 2.6, near - 0.8), near]
    height = [deep, deep, deep + 0.4, deep + 0.32 * drop, deep + 0.62 * drop]
    return np.stack(radius, axis=1), np.stack(height, axis=1)
