"""How much each seed says of each place of a surface: a random walk that seldom crosses folds."""

import numpy as np
from scipy.sparse import csr_matrix, diags
from scipy.sparse.csgraph import connected_components
from scipy.sparse.linalg import splu

from kinematics.conventions import Floats, Ints


def seed_shares(net: csr_matrix, fixed: Ints, groups: int, towards_last: Floats) -> Floats:
    """Return the chances that a walk from each vertex first meets each group.

    The random walker of Grady (IEEE Trans Pattern Anal Mach Intell 2006;28:1768), with a chance of
    ending in the last group anywhere (Grady, CVPR 2005).

    Parameters
    ----------
    net : sparse matrix, shape (n, n)
        Symmetric: how easily a walk takes each edge.
    fixed : ndarray, shape (n,)
        Group of every vertex that is known, -1 for the others.
    groups : int
        How many there are.
    towards_last : ndarray, shape (n,)
        How easily a walk ends in the last group at each vertex, on the scale of `net`.

    Returns
    -------
    ndarray, shape (n, groups)
        Sums are 1; 0 where no walk from a vertex meets any group.
    """
    shares = np.zeros((len(fixed), groups))
    known = np.flatnonzero(fixed >= 0)
    shares[known, fixed[known]] = 1.0
    pieces = connected_components(net, directed=False)[1]
    reached = np.zeros(pieces.max() + 1, dtype=bool)
    reached[pieces[known]] = True
    free = np.flatnonzero((fixed < 0) & reached[pieces])
    if not len(free):
        return shares
    leaving = np.asarray(net.sum(axis=1)).ravel() + towards_last
    system = (diags(leaving) - net).tocsr()[free][:, free].tocsc()
    right = np.asarray(net[free] @ shares)
    right[:, -1] += towards_last[free]
    symmetric = {"SymmetricMode": True}
    solver = splu(system, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options=symmetric)
    shares[free] = solver.solve(right)
    return shares
