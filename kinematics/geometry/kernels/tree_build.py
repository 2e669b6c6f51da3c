"""Build a tree over triangles: their order, its nodes, and which triangle owns which feature."""

import numpy as np

from kinematics.geometry.kernels.compiling import kernel
from kinematics.geometry.kernels.selection import select
from kinematics.geometry.kernels.tree_arrays import RIGHT, START, STOP

_SCATTER = np.uint64(0x9E3779B97F4A7C15)  # 2^64 / golden ratio


@kernel
def split_triangles(order, keys, group_start, links, group_root):
    """Order triangles and lay out nodes in preorder; return the number of nodes.

    keys: (3, m) coordinates to split on. order: (m,) comes grouped by tooth, group_start: (t + 1,).
    """
    groups = group_start.shape[0] - 1
    stack = np.empty((256, 3), np.int64)
    stack[0, 0], stack[0, 1], stack[0, 2] = 0, order.shape[0], -1
    top, count = 1, 0
    while top > 0:
        top -= 1
        a, b, parent = stack[top, 0], stack[top, 1], stack[top, 2]
        node = count
        count += 1
        if parent >= 0:
            links[parent, RIGHT] = node
        links[node, START], links[node, STOP], links[node, RIGHT] = a, b, 0
        first = 0
        while group_start[first + 1] <= a:
            first += 1
        if group_start[first] == a and group_start[first + 1] == b:
            group_root[first] = node
        middle = (a + b) // 2
        if group_start[first + 1] < b:
            # Several teeth: cut between two of them, as near to the middle as can be.
            best = group_start[first + 1]
            for g in range(first + 1, groups):
                cut = group_start[g]
                if a < cut < b and abs(cut - middle) < abs(best - middle):
                    best = cut
            middle = best
        elif b - a == 1:
            continue
        else:
            widest, axis = -1.0, 0
            for k in range(3):
                least = most = keys[k, order[a]]
                for i in range(a + 1, b):
                    v = keys[k, order[i]]
                    least = min(least, v)
                    most = max(most, v)
                if most - least > widest:
                    widest, axis = most - least, k
            select(order, keys[axis], a, b, middle)
        stack[top, 0], stack[top, 1], stack[top, 2] = middle, b, node
        stack[top + 1, 0], stack[top + 1, 1], stack[top + 1, 2] = a, middle, -1
        top += 2
    return count


@kernel
def find_holders(faces, vertex_count, holder):
    """Find the first triangle that has the vertex at each corner. holder: (m, 3)."""
    seen = np.full(vertex_count, -1, np.int32)
    for f in range(faces.shape[0]):
        for c in range(3):
            if seen[faces[f, c]] < 0:
                seen[faces[f, c]] = f
            holder[f, c] = seen[faces[f, c]]


@kernel
def own_features(faces, tooth, copy, vertex_count, owned):
    """Give each vertex and edge of a tooth to one triangle, and mark what lies on open rims.

    faces: (m, 3), those of a tooth together. copy: (m,) the triangle is there already. owned: (m,)
    bits 0-2 vertices, 3-5 edges, 6-8 edges on a rim, 9-11 vertices on a rim.
    """
    count = faces.shape[0]
    seen = np.full(vertex_count, -1, np.int64)
    for f in range(count):
        for k in range(3):
            if seen[faces[f, k]] != tooth[f]:
                seen[faces[f, k]] = tooth[f]
                owned[f] |= 1 << k
    size = 4
    while size < 6 * count:
        size *= 2
    keys = np.full(size, -1, np.int64)  # a table of edges, found by a scattered place
    last_tooth, times = np.full(size, -1, np.int64), np.zeros(size, np.int64)
    places = np.empty((count, 3), np.int64)
    for f in range(count):
        for k in range(3):
            v, w = faces[f, k], faces[f, (k + 1) % 3]
            key = min(v, w) * vertex_count + max(v, w)
            place = np.int64((np.uint64(key) * _SCATTER) >> np.uint64(20)) & (size - 1)
            while keys[place] >= 0 and keys[place] != key:
                place = (place + 1) & (size - 1)
            keys[place] = key
            if last_tooth[place] != tooth[f]:
                last_tooth[place] = tooth[f]
                owned[f] |= 8 << k
            if not copy[f]:
                times[place] += 1
            places[f, k] = place
    on_rim = np.zeros(vertex_count, np.bool_)
    for f in range(count):
        for k in range(3):
            if times[places[f, k]] == 1:
                owned[f] |= 64 << k
                on_rim[faces[f, k]] = on_rim[faces[f, (k + 1) % 3]] = True
    for f in range(count):
        for k in range(3):
            if on_rim[faces[f, k]]:
                owned[f] |= 512 << k
