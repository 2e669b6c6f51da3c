"""A patch of a surface spread out flat within its border, by a harmonic map."""

import numpy as np
from scipy.sparse import csr_matrix
from scipy.sparse.linalg import splu

from kinematics.conventions import Bools, Floats, Ints


def spread_flat(vertices: Floats, faces: Ints, border: Bools) -> Floats:
    """Return the vertices of a patch, each inside it in the middle of those it is joined to.

    The border keeps its place; lies it in a plane, so does all of the patch. Within a convex border
    nothing folds (W. T. Tutte, Proc London Math Soc 1963;s3-13:743-767); within others that is to
    be looked at.

    Parameters
    ----------
    vertices : ndarray, shape (n, 3)
        Where the vertices lie, mm. Those at one place are one.
    faces : ndarray, shape (m, 3)
        Triangles of the patch.
    border : ndarray, shape (n,)
        Which of the vertices keep their place; every connected part of the patch has some.

    Returns
    -------
    ndarray, shape (n, 3)
        New places; the same bits for any order of vertices and triangles.
    """
    used = np.unique(faces)
    # In the order of their places, whatever their numbers are.
    places, number = np.unique(vertices[used], axis=0, return_inverse=True)
    one_of = np.zeros(len(vertices), dtype=np.int64)
    one_of[used] = number.ravel()
    kept = np.zeros(len(places), dtype=bool)
    kept[one_of[used[border[used]]]] = True
    triangles = one_of[faces]
    ends = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    ends = np.unique(np.sort(ends, axis=1), axis=0)
    rows, columns = np.concatenate([ends, ends[:, ::-1]]).T
    joined = csr_matrix((np.ones(len(rows)), (rows, columns)), shape=(len(places),) * 2)
    free = np.flatnonzero(~kept)
    degree = np.asarray(joined.sum(axis=1)).ravel()[free]
    inside = joined[free]
    system = csr_matrix((degree, (np.arange(len(free)),) * 2)) - inside[:, free]
    places[free] = splu(system.tocsc()).solve(inside[:, kept] @ places[kept])
    spread = vertices.copy()
    spread[used] = places[one_of[used]]
    return spread
