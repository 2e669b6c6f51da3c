"""The body of a cast made around the teeth of an arch: gums, ridges, palate, base."""

from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.casts.cast_bodies import GUM, LAND, PALATE, RIDGE, CastBody
from kinematics.casts.casts import NO_TOOTH, Arch
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import mesh_of
from kinematics.teeth.arch_coordinates import ArchCoordinates, coordinates_of
from kinematics.teeth.cast_mesh import Grid, closed_grid
from kinematics.teeth.cervical_places import lost, places_of
from kinematics.teeth.denture_base import denture_base, replaced_spans
from kinematics.teeth.gum_lines import GumLines, gum_lines, stations_for
from kinematics.teeth.gum_sections import POINTS_PER_CONTROL, Sections, curve_matrix, sections
from kinematics.tooth_codes import is_upper

#: Distance of two sections, mm.
STEP_MM: Final = 0.5
#: Control points inside the lower arch, and before the outer land's edge, from which land begins.
INNER_LAND_CONTROLS: Final = 1.8
OUTER_LAND_CONTROLS: Final = 0.9
#: Thickness of the base under the deepest place of the vestibule: 10 to 12 mm, flat, parallel to
#: the occlusal plane (common practice).
BASE_MM: Final = 10.0


def with_body(arch: Arch, replacement_teeth: tuple[int, ...] = ()) -> Arch:
    """Return an arch with its body; see `cast_body`."""
    return replace(arch, body=cast_body(arch, replacement_teeth))


def cast_body(arch: Arch, replacement_teeth: tuple[int, ...] = ()) -> CastBody:
    """Make the body of a cast.

    Parameters
    ----------
    arch : Arch
        Teeth in the hinge frame (a lower one in its place in MI), about the midline y = 0.
    replacement_teeth : tuple of int
        Teeth that do not stand in the gum: under them is a residual ridge with a denture base.
    """
    upper = is_upper(arch.teeth[0].code)
    crowns = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face != NO_TOOTH]].reshape(-1, 3)
    coordinates = coordinates_of(crowns, upper)
    everything = places_of(arch, upper, arch.codes, coordinates)
    station = stations_for(everything, STEP_MM)
    natural = tuple(code for code in arch.codes if code not in replacement_teeth)
    # An arch of replacement teeth alone is a complete denture on a ridge of its own shape.
    places = places_of(arch, upper, natural, coordinates) if natural else lost(everything)
    lines = gum_lines(places, station, upper)
    shape = sections(arch, places, lines, coordinates, upper)
    weights = curve_matrix(shape.radius.shape[1], POINTS_PER_CONTROL)
    points = coordinates.points(
        station[:, None], shape.radius @ weights.T, shape.height @ weights.T
    )
    vertices, faces, kinds = closed_grid(
        _grid(arch, points, coordinates),
        _kinds(shape, lines, points.shape[1], upper),
        at_midline=upper,
    )
    base = None
    if len(natural) < len(arch.codes):
        full = gum_lines(everything, station, upper)
        teeth = sections(arch, everything, full, coordinates, upper)
        spans = replaced_spans(everything, replacement_teeth)
        base = denture_base(spans, full, teeth, shape, coordinates)
    if upper:
        return CastBody(mesh_of(vertices, faces), kinds, base)
    return CastBody(mesh_of(vertices, faces[:, ::-1]), kinds, base)


def _kinds(shape: Sections, lines: GumLines, across: int, upper: bool) -> Ints:
    """Return the kind of every quad (n - 1, k - 1)."""
    control = np.linspace(0.0, shape.radius.shape[1] - 1.0, across)
    middle = 0.5 * (control[:-1] + control[1:])
    ridge = lines.ridge[:-1] + lines.ridge[1:] > 1.0
    kinds = np.where(ridge[:, None], RIDGE, GUM) * np.ones(len(middle), dtype=np.int64)
    inside, kind = (shape.first_gum, PALATE) if upper else (INNER_LAND_CONTROLS, LAND)
    kinds[:, middle < inside] = kind
    kinds[:, middle > shape.last_gum - OUTER_LAND_CONTROLS] = LAND
    return np.asarray(kinds)


def _grid(arch: Arch, points: Floats, coordinates: ArchCoordinates) -> Grid:
    """Return sections with their underside: a plane parallel to that through the teeth's edges."""
    tips = np.concatenate([tooth.edge for tooth in arch.teeth])
    slope = np.polyfit(tips[:, 0], tips[:, 2], 1)[0] if len(arch.teeth) > 3 else 0.0
    facing = coordinates.facing
    height = facing * (points[..., 2] - slope * points[..., 0])
    level = float(np.min(height[:, -1])) - BASE_MM

    def under(above: Floats) -> Floats:
        below = above.copy()
        below[..., 2] = facing * level + slope * above[..., 0]
        return below

    return Grid(points, under(points[:, [0, -1]]), under(points[[0, -1]]))
