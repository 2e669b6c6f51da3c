"""A crown where it stands: its frame in the arch, its heights, its triangles and regions."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.conventions import Floats, Ints
from kinematics.teeth.anterior_crown import Sheets, anterior_crown
from kinematics.teeth.arch_form import Placement
from kinematics.teeth.crown_table import WHOLE_TOOTH, CrownTable
from kinematics.teeth.posterior_crown import PosteriorCrown, cusp_tips, posterior_crown
from kinematics.teeth.wear_facets import worn_down

#: Region of the triangles of a front tooth; regions of a posterior crown count its cusps from 1.
WHOLE_CROWN: Final = 0


@dataclass(frozen=True)
class StandingTooth:
    """One tooth of the left side, in the hinge frame as it stands in MI.

    Attributes
    ----------
    kind : str
        Crown type, as "U6".
    place : Placement
        Its frame.
    heights : ndarray, shape (parts,)
        Heights of cusps, then of ridges, mm; empty for a front tooth.
    wear : ndarray, shape (cusps,)
        How much height each cusp has lost by wear, mm; empty for a front tooth.
    faces : ndarray, shape (m, 3)
        Counter-clockwise seen from outside.
    region : ndarray, shape (m,)
        Cusp (from 1) whose tip is nearest to each triangle; `WHOLE_CROWN` on a front tooth.
    crown : PosteriorCrown or None
        Surface of a posterior tooth with its heights left open.
    sheets : Sheets or None
        Surface of a front tooth, and
    front_points : ndarray, shape (n, 3)
        its vertices in its own frame.
    front_gap_mm : float
        Of a front tooth: the arc gap at which it is left from its opponents in MI, mm.
    """

    kind: str
    place: Placement
    heights: Floats
    wear: Floats
    faces: Ints
    region: Ints
    crown: PosteriorCrown | None
    sheets: Sheets | None
    front_points: Floats
    front_gap_mm: float

    @property
    def is_upper(self) -> bool:
        """Tell whether it stands in the upper arch."""
        return self.kind[0] == "U"

    @property
    def number(self) -> int:
        """Place from the midline, 1 to 8."""
        return int(self.kind[1])

    @property
    def cusp_names(self) -> tuple[str, ...]:
        """Names of the cusps; empty for a front tooth."""
        return () if self.crown is None else self.crown.form.cusp_names

    def local_vertices(self) -> Floats:
        """Return the vertices (n, 3) in the crown's own frame, mm."""
        if self.crown is None:
            return self.front_points
        points = self.crown.vertices(self.heights)
        if not self.wear.any():
            return points
        return worn_down(points, cusp_tips(self.crown.form, self.heights), self.wear)

    def tips(self) -> Floats:
        """Return the cusp tips (cusps, 3) in the crown's own frame, mm; none on a front tooth."""
        if self.crown is None:
            return np.empty((0, 3))
        tips = cusp_tips(self.crown.form, self.heights)
        return worn_down(tips, tips, self.wear)

    def vertices(self) -> Floats:
        """Return the vertices (n, 3) in the hinge frame, mm."""
        return self.place.points(self.local_vertices())

    def at(self, place: Placement) -> "StandingTooth":
        """Return the tooth in another frame."""
        return replace(self, place=place)

    def lifted(self, advance_mm: float) -> "StandingTooth":
        """Return the tooth moved straight towards the other arch."""
        towards = -advance_mm if self.is_upper else advance_mm
        return self.at(self.place.moved(np.array([0.0, 0.0, towards])))

    def erupted(self, distance_mm: float) -> "StandingTooth":
        """Return the tooth moved along its own axis."""
        return self.at(self.place.moved(distance_mm * self.place.axes[:, 2]))

    def with_heights(self, heights: Floats) -> "StandingTooth":
        """Return the tooth with other heights (parts,) of cusps and ridges, mm."""
        return replace(self, heights=heights)


def standing_tooth(
    table: CrownTable, kind: str, place: Placement, edge_mm: float, front_gap_mm: float
) -> StandingTooth:
    """Return a tooth with crowns of the wanted triangle edge, mm."""
    if kind in table.posterior:
        form = table.posterior[kind]
        crown = posterior_crown(form, edge_mm)
        faces, heights = crown.faces, form.heights
        tips = np.array([cusp.at for cusp in form.cusps]) * np.array(form.size[:2])
        x, y = crown.x[faces].mean(axis=1), crown.y[faces].mean(axis=1)
        away = (x[:, None] - tips[:, 0]) ** 2 + (y[:, None] - tips[:, 1]) ** 2
        region = np.argmin(away, axis=1).astype(np.int64) + 1
        sheets, points = None, np.empty((0, 3))
    else:
        sheets = Sheets(kind)
        points, faces = anterior_crown(sheets, edge_mm)
        heights, crown = np.empty(0), None
        region = np.full(len(faces), WHOLE_CROWN, dtype=np.int64)
    if kind[0] == "U":
        faces = faces[:, ::-1]
    wear = np.zeros(0 if crown is None else len(crown.form.cusps))
    return StandingTooth(
        kind, place, heights, wear, faces, region, crown, sheets, points, front_gap_mm
    )


def worn(tooth: StandingTooth, loss_mm: Mapping[str, float], edge_mm: float) -> StandingTooth:
    """Return a tooth that has lost something by wear.

    Parameters
    ----------
    tooth : StandingTooth
        As it was.
    loss_mm : mapping of str to float
        Loss of height by cusp; of a front tooth, under `WHOLE_TOOTH`, see `Sheets.wear_mm`.
    edge_mm : float
        Triangle edge of its crown.
    """
    if tooth.crown is not None:
        return replace(tooth, wear=np.array([loss_mm.get(name, 0.0) for name in tooth.cusp_names]))
    sheets = Sheets(tooth.kind, loss_mm[WHOLE_TOOTH])
    return replace(tooth, sheets=sheets, front_points=anterior_crown(sheets, edge_mm)[0])
