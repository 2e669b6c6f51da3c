"""Open edges of labelled crowns: where the scan ends or has a hole, and where a label ends."""

from dataclasses import dataclass

import numpy as np

from kinematics.conventions import Bools, Ints
from kinematics.scans.edges import Edges, edges_of


@dataclass(frozen=True)
class Rims:
    """Edges of a crown surface that one triangle alone has.

    Attributes
    ----------
    ends : ndarray, shape (k, 2)
        Vertex numbers of the crown surface.
    at_gum : ndarray, shape (k,)
        True where a label ends: there is surface beyond, which takes no part in contacts. False
        where the scan itself ends, at its border or at a hole.
    """

    ends: Ints
    at_gum: Bools


def rims_of(faces: Ints, crown: Bools) -> Rims:
    """Find the rims of the crowns of one cast.

    Parameters
    ----------
    faces : ndarray, shape (m, 3)
        All triangles of the cleaned cast, gums included.
    crown : ndarray, shape (m,)
        Which of them are of teeth; at least one.

    Returns
    -------
    Rims
        Vertices numbered as in the crowns alone, in the order of the cast.
    """
    used = np.unique(faces[crown])
    ends = used[_open_ends(edges_of(np.searchsorted(used, faces[crown])))]
    beyond = int(faces.max()) + 1
    of_scan = np.isin(_keys(ends, beyond), _keys(_open_ends(edges_of(faces)), beyond))
    return Rims(np.searchsorted(used, ends), ~of_scan)


def _open_ends(edges: Edges) -> Ints:
    return np.asarray(edges.ends[edges.counts == 1])


def _keys(ends: Ints, beyond: int) -> Ints:
    return np.asarray(ends[:, 0] * beyond + ends[:, 1])
