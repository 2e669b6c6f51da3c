"""An incisor or canine as a closed surface: a labial and a lingual sheet, edge, base.

Both sheets run over the same columns (from distal to mesial) and rows (from the cervical line to
the edge). They meet at the sides; a rounded edge closes them above, a saddle below.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np
from scipy.interpolate import PchipInterpolator

from kinematics.conventions import Floats, Ints
from kinematics.teeth.crown_table import AnteriorForm, crown_table
from kinematics.teeth.wear_facets import soft_excess

Profile = Callable[[Floats], Floats]

#: Facial direction of the outward normal of a sheet.
LABIAL: Final = 1.0
LINGUAL: Final = -1.0
#: How far the rounded edge stands over the end of both sheets, mm.
EDGE_ROUNDING_MM: Final = 0.14
#: Place across the crown (0 axis, 1 side) and width of the lingual marginal ridges.
MARGINAL_RIDGE_AT: Final = 0.66
MARGINAL_RIDGE_WIDTH: Final = 0.2
CENTRAL_RIDGE_WIDTH: Final = 0.2
#: Wear takes the lingual surface above this share of the height, in full above the second.
WEAR_FROM: Final = 0.25
WEAR_FULL: Final = 0.4
#: A worn lower edge: slope of its facet (10 degrees), lower at the labial side; height of its
#: rounding, mm, once so much is lost, mm; the rim is rounded over the last height, mm.
FACET_SLOPE: Final = 0.176
WORN_ROUNDING_MM: Final = 0.03
FLAT_FROM_MM: Final = 0.3
FACET_RIM_MM: Final = 0.12
#: Least thickness that wear leaves at the edge, mm.
EDGE_LEFT_MM: Final = 0.2
#: Edges along the columns: at the cervical line they are this much longer than at the edge.
CERVICAL_COARSENESS: Final = 2.0


def _step(value: Floats, start: float, end: float) -> Floats:
    """Return a smooth step from 0 at `start` to 1 at `end`."""
    share = np.clip((value - start) / (end - start), 0.0, 1.0)
    return share * share * (3.0 - 2.0 * share)


def _bell(value: Floats, centre: float, width: float) -> Floats:
    return np.exp(-(((value - centre) / width) ** 2))


def _ridge_window(up: Floats) -> Floats:
    """Return where along the height lingual ridges stand, 0 to 1."""
    return _step(up, 0.12, 0.38) * (1.0 - _step(up, 0.72, 0.97))


@dataclass(frozen=True)
class _Profiles:
    """The four outlines of a crown type over the share of its height, brought to its exact size."""

    mesial: Profile
    distal: Profile
    labial: Profile
    lingual: Profile


def _profile(points: Floats, scale: float) -> Profile:
    curve = PchipInterpolator(points[:, 0], scale * points[:, 1])

    def at(up: Floats) -> Floats:
        return np.asarray(curve(up))

    return at


@cache
def _profiles(kind: str) -> _Profiles:
    form = crown_table().anterior[kind]
    width = form.size[0] / float(form.mesial[:, 1].max() + form.distal[:, 1].max())
    up = np.linspace(0.0, 1.0, 401)
    labial, lingual = _profile(form.labial, 1.0)(up), _profile(form.lingual, 1.0)(up)
    # A canine's lingual ridge adds to the depth but keeps its own height.
    ridge = form.lingual_ridge * _ridge_window(up)
    depth = form.size[1] / float(labial.max() - lingual.min())
    for _ in range(20):
        depth = form.size[1] / float(labial.max() - (lingual - ridge / depth).min())
    return _Profiles(
        _profile(form.mesial, width),
        _profile(form.distal, width),
        _profile(form.labial, depth),
        _profile(form.lingual, depth),
    )


@dataclass(frozen=True)
class Grid:
    """Columns and rows of a crown's two sheets.

    Attributes
    ----------
    across : ndarray, shape (columns,)
        -1 at the distal, +1 at the mesial side.
    up : ndarray, shape (rows,)
        0 at the cervical line, 1 at the edge.
    edge_rows, base_rows : int
        Rows of vertices between the sheets above and below.
    """

    across: Floats
    up: Floats
    edge_rows: int
    base_rows: int


@cache
def _columns(kind: str, columns: int) -> Floats:
    """Return places across the crown at about equal steps round its section at mid-height."""
    form = crown_table().anterior[kind]
    fine = np.sin(0.5 * np.pi * np.linspace(-1.0, 1.0, 801))
    depth = (1.0 - np.abs(fine) ** form.section[0]) ** (1.0 / form.section[0])
    length = np.hypot(np.diff(fine) * form.size[0] * 0.5, np.diff(depth) * form.size[1] * 0.22)
    way = np.append(0.0, np.cumsum(length))
    # The halves are mirrored, so that the grid itself favours no side.
    half = np.interp(np.linspace(0.0, 0.5 * way[-1], columns // 2 + 1), way, fine)
    half[0], half[-1] = -1.0, 0.0
    return np.concatenate([half, -half[-2::-1]])


def grid_of(kind: str, edge_mm: float) -> Grid:
    """Return the grid of a crown type for a wanted triangle edge on its lingual surface, mm."""
    form = crown_table().anterior[kind]
    width = 0.5 * form.size[0] * 2.0 + 0.3 * form.size[1]
    columns = max(6, 2 * round(0.5 * width / edge_mm))
    rows = max(6, round(form.size[2] / (edge_mm * 0.5 * (1.0 + CERVICAL_COARSENESS))))
    even = np.linspace(0.0, 1.0, rows + 1)
    # Row spacing falls linearly from the cervical line to the edge.
    up = (CERVICAL_COARSENESS * even - 0.5 * (CERVICAL_COARSENESS - 1.0) * even**2) / (
        0.5 * (CERVICAL_COARSENESS + 1.0)
    )
    edge_rows = max(1, round(1.1 / edge_mm) - 1)
    base_rows = max(1, round(0.8 * form.size[1] / (3.0 * edge_mm)) - 1)
    return Grid(_columns(kind, columns), up, edge_rows, base_rows)


def anterior_triangles_of(kind: str, edge_mm: float) -> int:
    """Return the number of triangles of a crown type at a wanted edge."""
    grid = grid_of(kind, edge_mm)
    columns, rows = len(grid.across) - 1, len(grid.up) - 1
    sheets = 4 * columns * rows
    bands = 2 * columns * (grid.edge_rows + grid.base_rows + 2)
    return sheets + bands - 2 * (grid.edge_rows + grid.base_rows + 2)


@dataclass(frozen=True)
class Sheets:
    """The smooth surface of a front crown over places across (u) and up (s), broadcast.

    Attributes
    ----------
    kind : str
        Crown type, as "U1".
    wear_mm : float
        How much is lost, mm: of an upper tooth's lingual guiding surface, of a lower tooth's height
        at its edge or tip.
    """

    kind: str
    wear_mm: float = 0.0

    @property
    def form(self) -> AnteriorForm:
        """What it is made from."""
        return crown_table().anterior[self.kind]

    def half_widths(self, up: Floats) -> tuple[Floats, Floats]:
        """Return the middle of a row along x and half its width, mm."""
        profiles = _profiles(self.kind)
        mesial, distal = profiles.mesial(up), profiles.distal(up)
        return 0.5 * (mesial - distal), 0.5 * (mesial + distal)

    def top(self, across: Floats) -> Floats:
        """Return the height of the end of both sheets, mm."""
        form = self.form
        height = form.size[2] - EDGE_ROUNDING_MM
        if form.is_canine:
            place, mesial, distal, radius = form.tip
            slope = np.tan(np.radians(np.where(across > place, mesial, distal)))
            away = slope * (across - place) * 0.5 * form.size[0]
            return height - (np.sqrt(away**2 + radius**2) - radius)
        drop_m, power_m, drop_d, power_d = form.corner
        side = np.abs(across)
        return height - np.where(across > 0, drop_m * side**power_m, drop_d * side**power_d)

    def cervical(self, across: Floats) -> Floats:
        """Return the height of the cervical line, mm: an arch seen from the side."""
        power = self.form.section[0]
        return self.rise(across) * (1.0 - (1.0 - np.abs(across) ** power) ** (2.0 / power))

    def rise(self, across: Floats) -> Floats:
        """Return the rise of the cervical line at the sides, blended across the crown, mm."""
        mesial, distal = self.form.cej
        return distal + 0.5 * (mesial - distal) * (1.0 + across)

    def profiles(self, up: Floats) -> tuple[Floats, Floats, Floats]:
        """Return labial and lingual profile and the plane where the halves meet, mm."""
        profiles = _profiles(self.kind)
        labial, lingual = profiles.labial(up), profiles.lingual(up)
        return labial, lingual, lingual + self.form.section[2] * (labial - lingual)

    def labial(self, across: Floats, up: Floats) -> Floats:
        """Return y of the labial surface, mm."""
        form = self.form
        labial, _, middle = self.profiles(up)
        power = form.section[0]
        section = (1.0 - np.abs(across) ** power) ** (1.0 / power)
        window = _step(up, 0.2, 0.5) * (1.0 - _step(up, 0.8, 1.0))
        ridge = form.labial_ridge * (_bell(across, 0.08, 0.34) - 1.0) * window
        return middle + (labial - middle + ridge) * section

    def lingual(self, across: Floats, up: Floats) -> Floats:
        """Return y of the lingual surface, mm."""
        form = self.form
        labial, lingual, middle = self.profiles(up)
        power = form.section[1]
        section = (1.0 - np.abs(across) ** power) ** (1.0 / power)
        window = _ridge_window(up)
        ridge = form.marginal_ridge * _bell(np.abs(across), MARGINAL_RIDGE_AT, MARGINAL_RIDGE_WIDTH)
        if form.is_canine:
            ridge = ridge + form.lingual_ridge * _bell(across, form.tip[0], CENTRAL_RIDGE_WIDTH)
        worn = (self.wear_mm if self.kind[0] == "U" else 0.0) * _step(up, WEAR_FROM, WEAR_FULL)
        surface = middle + (lingual - middle - ridge * window) * section + worn * section
        return np.minimum(surface, middle + (labial - middle) * section - EDGE_LEFT_MM * section)

    def lost(self, across: Floats) -> Floats:
        """Return by how much wear has lowered the edge at places across, mm."""
        if self.kind[0] == "U" or self.wear_mm == 0.0:
            return np.zeros_like(across)
        level = self.form.size[2] - self.wear_mm
        over = self.top(across) + EDGE_ROUNDING_MM - level
        return soft_excess(over, min(FACET_RIM_MM, self.wear_mm))

    def edge(self, across: Floats, over: Floats) -> Floats:
        """Return how far the rounded edge stands over the ends of both sheets, mm.

        `over` is the place between the labial (0) and the lingual sheet (1).
        """
        flat = np.clip(self.lost(across) / FLAT_FROM_MM, 0.0, 1.0)
        # The rounding fades towards both ends, where the sheets meet.
        height = (EDGE_ROUNDING_MM + flat * (WORN_ROUNDING_MM - EDGE_ROUNDING_MM)) * (
            1.0 - np.abs(across) ** 8
        )
        middle = 2.0 * over - 1.0
        return height * ((1.0 - flat) * np.sqrt(1.0 - middle**2) + flat * (1.0 - middle**8))

    def reached(self, across: Floats, up: Floats, surface: float) -> Floats:
        """Return `up` as share of the height before wear; the labial sheet then ends lower."""
        lost = self.lost(across)
        if not lost.any():
            return up
        low, top = self.cervical(across), self.top(across)
        flat = np.clip(lost / FLAT_FROM_MM, 0.0, 1.0)
        end = top - lost + flat * (EDGE_ROUNDING_MM - WORN_ROUNDING_MM)
        share = (end - low) / (top - low)
        thick = self.labial(across, share) - self.lingual(across, share)
        end = np.minimum(end - 0.5 * surface * FACET_SLOPE * flat * thick, top)
        return np.asarray(up * (end - low) / (top - low))

    def sheet(self, across: Floats, up: Floats, surface: float) -> Floats:
        """Return points (..., 3) of the `LABIAL` or the `LINGUAL` sheet, mm."""
        up = self.reached(across, up, surface)
        y = self.labial(across, up) if surface == LABIAL else self.lingual(across, up)
        return self.points(across, up, y)

    def points(self, across: Floats, up: Floats, y: Floats) -> Floats:
        """Return points (..., 3) in the crown's own frame for surface heights y."""
        middle, half = self.half_widths(up)
        low, high = self.cervical(across), self.top(across)
        return np.stack(
            np.broadcast_arrays(middle + across * half, y, low + up * (high - low)), axis=-1
        )


@cache
def _numbering(columns: int, rows: int, edge_rows: int, base_rows: int) -> tuple[Ints, Ints]:
    """Return vertex numbers (columns, cycle) and the triangles of the closed grid.

    The cycle goes up the labial sheet, over the edge, down the lingual sheet and back over the
    base; in the first and last column both sheets are one.
    """
    cycle = 2 * rows + edge_rows + base_rows
    number = np.full((columns, cycle), -1, dtype=np.int64)
    number[:, :rows] = np.arange(columns * rows).reshape(columns, rows)
    inner = np.arange((columns - 2) * (cycle - rows)).reshape(columns - 2, cycle - rows)
    number[1:-1, rows:] = columns * rows + inner
    for side in (0, -1):
        labial = number[side, :rows]
        number[side, rows : rows + edge_rows] = labial[-1]
        number[side, rows + edge_rows : 2 * rows + edge_rows] = labial[::-1]
        number[side, 2 * rows + edge_rows :] = labial[0]
    after = np.roll(number, -1, axis=1)
    a, b, c, d = number[:-1], number[1:], after[1:], after[:-1]
    faces = np.concatenate(
        [np.stack([a, c, b], -1).reshape(-1, 3), np.stack([a, d, c], -1).reshape(-1, 3)]
    )
    whole = (
        (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    )
    faces = np.ascontiguousarray(faces[whole])
    number.setflags(write=False)
    faces.setflags(write=False)
    return number, faces


def anterior_crown(sheets: Sheets, edge_mm: float) -> tuple[Floats, Ints]:
    """Return vertices (n, 3), mm, and faces (m, 3) of a front crown in its own frame.

    Faces are counter-clockwise seen from outside in the right-handed frame.
    """
    grid = grid_of(sheets.kind, edge_mm)
    across, up = grid.across[:, None], grid.up[None, :]
    labial = sheets.sheet(across, up, LABIAL)
    lingual = sheets.sheet(across, up, LINGUAL)[:, ::-1]
    over = np.arange(1, grid.edge_rows + 1) / (grid.edge_rows + 1)
    edge = labial[:, -1:] + over[:, None] * (lingual[:, :1] - labial[:, -1:])
    edge[..., 2] += sheets.edge(across, over)
    back = np.arange(1, grid.base_rows + 1) / (grid.base_rows + 1)
    base = lingual[:, -1:] + back[:, None] * (labial[:, :1] - lingual[:, -1:])
    # The base arches like the cervical line: every column takes up the arch from where it stands.
    arch = sheets.rise(across) - sheets.cervical(across)
    base[..., 2] += arch * (1.0 - (2.0 * back - 1.0) ** 2)
    number, faces = _numbering(len(grid.across), len(grid.up), grid.edge_rows, grid.base_rows)
    vertices = np.empty((number.max() + 1, 3))
    vertices[number.ravel()[::-1]] = np.concatenate([labial, edge, lingual, base], axis=1).reshape(
        -1, 3
    )[::-1]
    return vertices, faces


def edge_points(sheets: Sheets, count: int) -> Floats:
    """Return points (count, 3) along the incisal edge from mesial to distal, mm."""
    across = np.linspace(0.94, -0.94, count)
    end = np.ones_like(across)
    points = 0.5 * (sheets.sheet(across, end, LABIAL) + sheets.sheet(across, end, LINGUAL))
    points[:, 2] += sheets.edge(across, np.full_like(across, 0.5))
    return points
