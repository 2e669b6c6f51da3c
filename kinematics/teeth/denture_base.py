"""The base under replacement teeth: from the ridge up to their necks, with two flanges."""

from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh, joined, mesh_of
from kinematics.teeth.arch_coordinates import ArchCoordinates
from kinematics.teeth.cast_mesh import closed_sheet
from kinematics.teeth.cervical_places import Places
from kinematics.teeth.gum_lines import BEHIND_MM, GumLines
from kinematics.teeth.gum_sections import Sections, curve_matrix

#: Thickness of flanges and over a ridge without teeth (common practice), and of their borders.
THICK_MM: Final = 1.5
BORDER_MM: Final = 0.4
#: How far a base stays from a neighbouring tooth, and from the end of tuberosity or pad.
_FROM_TOOTH_MM: Final = 0.2
_FROM_END_MM: Final = 4.0
#: Over this length it becomes thin towards its end.
_TAPER_MM: Final = 2.5
#: How many control points on the lingual and the facial side of the crest it reaches.
_LINGUAL, _FACIAL = 7, 6
_POINTS_PER_CONTROL: Final = 4


def replaced_spans(places: Places, replacement_teeth: tuple[int, ...]) -> list[tuple[float, float]]:
    """Return where bases begin and end along an arch: first and last station of each, mm."""
    replaced = np.isin(places.codes, replacement_teeth) & places.stands
    edges = np.flatnonzero(np.diff(np.concatenate([[False], replaced, [False]]).astype(int)))
    spans = []
    for first, last in zip(edges[::2], edges[1::2] - 1, strict=True):
        start, end = float(places.start[first]), float(places.end[last])
        before, after = first - 1, last + 1
        if before >= 0 and places.stands[before]:
            start = max(start, float(places.end[before])) + _FROM_TOOTH_MM
        elif before < 0:
            start -= BEHIND_MM - _FROM_END_MM
        if after < len(replaced) and places.stands[after]:
            end = min(end, float(places.start[after])) - _FROM_TOOTH_MM
        elif after == len(replaced):
            end += BEHIND_MM - _FROM_END_MM
        spans.append((start, end))
    return spans


def denture_base(
    spans: list[tuple[float, float]],
    lines: GumLines,
    teeth: Sections,
    ridge: Sections,
    coordinates: ArchCoordinates,
) -> Mesh:
    """Return closed meshes over some spans of an arch.

    Parameters
    ----------
    spans : list of (float, float)
        First and last station, mm.
    lines : GumLines
        Of the arch as if all its teeth stood in the gum.
    teeth, ridge : Sections
        As if all teeth stood in the gum, and of the cast under the base.
    coordinates : ArchCoordinates
        Of the arch.
    """
    controls = teeth.radius.shape[1]
    weights = curve_matrix(controls, _POINTS_PER_CONTROL)
    control = np.linspace(0.0, controls - 1.0, len(weights))
    inside = (control >= teeth.top - _LINGUAL) & (control <= teeth.top + _FACIAL)
    weights, beside = weights[inside], np.abs(control[inside] - teeth.top)
    outer = np.stack([teeth.radius @ weights.T, teeth.height @ weights.T], axis=-1)
    inner = np.stack([ridge.radius @ weights.T, ridge.height @ weights.T], axis=-1)
    # At the necks the base ends on the crowns; flanges and what has no tooth get their thickness.
    flange = np.clip((beside - 2.5) / 1.5, 0.0, 1.0)
    thick = THICK_MM * np.maximum(flange, lines.ridge[:, None])
    outer = outer + thick[..., None] * _normals(outer)
    pieces = []
    for start, end in spans:
        rows = np.flatnonzero((lines.station >= start) & (lines.station <= end))
        station = lines.station[rows]
        to_side = np.minimum(*(np.arange(inside.sum())[::step] for step in (1, -1))) / 5.0
        to_end = np.minimum(station - station[0], station[-1] - station) / _TAPER_MM
        at_tooth = lines.ridge[rows[[0, -1]]] < 0.5
        to_end = np.where(
            at_tooth[(station - station[0] > station[-1] - station).astype(int)], 1.0, to_end
        )
        share = np.minimum(to_side[None, :], to_end[:, None]).clip(0.0, 1.0)
        share = np.sqrt(1.0 - (1.0 - share) ** 2)
        normals = _normals(inner[rows])
        off = outer[rows] - inner[rows]
        sheet = inner[rows] + share[..., None] * off
        above = ((sheet - inner[rows]) * normals).sum(axis=-1)
        sheet += np.maximum(BORDER_MM - above, 0.0)[..., None] * normals
        points = [
            coordinates.points(station[:, None], side[..., 0], side[..., 1])
            for side in (sheet, inner[rows])
        ]
        vertices, faces = closed_sheet(*points)
        pieces.append(mesh_of(vertices, faces if coordinates.facing < 0.0 else faces[:, ::-1]))
    return joined(pieces)


def _normals(section: Floats) -> Floats:
    """Return unit normals (n, k, 2) of sections, away from the cast."""
    along = np.gradient(section, axis=1)
    normal = np.stack([-along[..., 1], along[..., 0]], axis=-1)
    return np.asarray(normal / np.linalg.norm(normal, axis=-1, keepdims=True))
