"""The body of a cast around its teeth: gums, ridges, palate, base. It takes part in no contact."""

from dataclasses import dataclass
from typing import Final

from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, moved_mesh

#: Kinds of triangles: gum around standing teeth, residual ridge (with tuberosity or retromolar
#: pad), palate, and of the base: the land around the vestibule, walls, the flat underside.
GUM: Final = 1
RIDGE: Final = 2
PALATE: Final = 3
LAND: Final = 4
WALL: Final = 5
UNDERSIDE: Final = 6
#: Kinds that are mucosa in the mouth.
SOFT: Final = (GUM, RIDGE, PALATE)


@dataclass(frozen=True)
class CastBody:
    """What a cast has besides its teeth, in the coordinates of its arch.

    Attributes
    ----------
    mesh : Mesh
        Closed; counter-clockwise seen from outside.
    kind : ndarray, shape (m,)
        Kind of every triangle.
    denture_base : Mesh or None
        The base under replacement teeth: a closed mesh over the ridge (several, if it has parts);
        None without replacement teeth.
    """

    mesh: Mesh
    kind: Ints
    denture_base: Mesh | None = None


def moved_body(body: CastBody, pose: Floats) -> CastBody:
    """Return a body moved by a pose (4, 4)."""
    base = body.denture_base
    return CastBody(
        moved_mesh(body.mesh, pose),
        body.kind,
        None if base is None else moved_mesh(base, pose),
    )
