"""How large triangles must be for a wanted number of them in an arch."""

from functools import cache

from kinematics.teeth.anterior_crown import anterior_triangles_of
from kinematics.teeth.crown_table import KINDS, crown_table
from kinematics.teeth.posterior_crown import triangles_of


def _count(arch: str, edge_mm: float) -> int:
    """Return the triangles of a whole arch ("U" or "L") of fourteen teeth, without third molars."""
    table = crown_table()
    kinds = [kind for kind in KINDS if kind[0] == arch]
    return 2 * sum(
        triangles_of(kind, edge_mm)
        if kind in table.posterior
        else anterior_triangles_of(kind, edge_mm)
        for kind in kinds
    )


@cache
def edge_for(arch: str, triangles: int) -> float:
    """Return the triangle edge on occlusal surfaces, mm, that gives about so many triangles.

    Parameters
    ----------
    arch : str
        "U" or "L".
    triangles : int
        Wanted in the whole arch.
    """
    edge = 0.3
    for _ in range(8):
        edge *= (_count(arch, edge) / triangles) ** 0.5
    return edge
