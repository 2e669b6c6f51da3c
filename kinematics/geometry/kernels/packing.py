"""Put points in packs of eight that lie near each other, one pack after the other."""

import numpy as np

from kinematics.geometry.kernels.compiling import kernel
from kinematics.geometry.kernels.lanes import WIDTH
from kinematics.geometry.kernels.selection import select


@kernel
def pack(places, order):
    """Reorder points so that each eight in turn are a pack; those left over are the last.

    Half of the packs are parted from the others across the widest side of all that they hold, and
    so on (as trees are: Bentley, Multidimensional binary search trees used for associative
    searching, Commun. ACM 18, 1975).

    places: (k, n) coordinates. order: (n,) numbers of points.
    """
    stack = np.empty((128, 2), np.int64)
    stack[0, 0], stack[0, 1] = 0, order.shape[0]
    top = 1
    while top > 0:
        top -= 1
        a, b = stack[top, 0], stack[top, 1]
        if b - a <= WIDTH:
            continue
        widest, axis = -1.0, 0
        for k in range(places.shape[0]):
            least = most = places[k, order[a]]
            for i in range(a + 1, b):
                v = places[k, order[i]]
                least, most = min(least, v), max(most, v)
            if most - least > widest:
                widest, axis = most - least, k
        packs = (b - a + WIDTH - 1) // WIDTH
        middle = a + packs // 2 * WIDTH
        select(order, places[axis], a, b, middle)
        stack[top, 0], stack[top, 1] = middle, b
        stack[top + 1, 0], stack[top + 1, 1] = a, middle
        top += 2
