"""Which triangles to turn so that neighbours are wound alike."""

import numpy as np

from kinematics.conventions import Bools, Ints
from kinematics.scans.edges import Edges, joined_numbers


def to_turn(faces: Ints, edges: Edges) -> tuple[Bools, int]:
    """Find the triangles that are wound against most of their patch.

    A patch is all triangles joined by edges that just two share. Fewer triangles are turned than
    stay; where they are as many, the triangle whose vertex numbers come first stays.

    Parameters
    ----------
    faces : ndarray, shape (m, 3)
    edges : Edges
        Of these faces.

    Returns
    -------
    turn : ndarray, shape (m,)
    one_sided : int
        Patches that cannot be wound alike, as a strip with half a twist; they stay as they are.
    """
    count = len(faces)
    at = edges.starts[edges.counts == 2]
    one, other = edges.faces[at], edges.faces[at + 1]
    against = edges.rising[at] == edges.rising[at + 1]
    turn = np.zeros(count, dtype=bool)
    if not against.any():
        return turn, 0
    # Every triangle twice, as it is and turned; what is wound alike is joined. A patch falls into
    # two halves, the one the other turned; a patch with one side stays in one.
    sheet = joined_numbers(
        np.concatenate((one, one + count)),
        np.concatenate((other + count * against, other + count * ~against)),
        2 * count,
    )
    as_is, turned = sheet[:count], sheet[count:]
    one_sided = len(np.unique(as_is[as_is == turned]))
    first_half = as_is < turned
    patch = np.minimum(as_is, turned)
    excess = np.bincount(patch, weights=np.where(first_half, 1, -1))
    tied = np.flatnonzero((excess[patch] == 0) & (as_is != turned))
    corners = np.sort(faces[tied], axis=1)
    tied = tied[np.lexsort((*corners.T[::-1], patch[tied]))]
    _, first_of_patch = np.unique(patch[tied], return_index=True)
    stays = tied[first_of_patch]
    excess[patch[stays]] = np.where(first_half[stays], 1, -1)
    turn = (first_half != (excess[patch] > 0)) & (as_is != turned)
    return turn, one_sided
