"""Shortest distance of every vertex of one arch from the surface of the other, least over poses.

Both arches are gone through at once: a node of the own tree gets from its parent the wide nodes of
the other arch that may lie near enough, and hands on those that are near enough for it. What is
near enough is known from the triangle found last, since neighbours in the tree are neighbours in
space, and from what earlier poses have left.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel, kernel
from kinematics.geometry.kernels.lanes import WIDTH, greatest, spread, store
from kinematics.geometry.kernels.placing import inverse_pose, placed
from kinematics.geometry.kernels.point_distance import (
    below,
    faces_squared,
    lowest_bit,
    near_children,
    reach_squared,
)
from kinematics.geometry.kernels.tree_arrays import MIDDLE, RIGHT, SIDES, STACK
from kinematics.geometry.kernels.tree_points import end_of, points_of
from kinematics.geometry.kernels.vectors import three
from kinematics.geometry.kernels.watching import count_some, told_to_stop

#: A node with so few vertices is not parted further: they are looked at one by one.
GROUP = 32
#: A wide node is parted while its squared size is more than so many times that of the own node.
LARGER = 16.0


@inner_kernel
def _near_nodes(tiles, x, y, z, reach2, size2, near, first, last, stack):
    """Add to `near` what lies below near[first:last] and reaches a ball about a point.

    Wide nodes of a greater squared size are parted. Returns the new end, -1 if there is no room.
    """
    end = last
    for i in range(first, last):
        stack[0] = near[i]
        top = 1
        while top > 0:
            top -= 1
            wide = stack[top]
            bits = near_children(tiles.boxes, wide, x, y, z, reach2)
            if bits == 0:
                continue
            if tiles.size2[wide] <= size2:
                if end == near.shape[0]:
                    return -1
                near[end] = wide
                end += 1
                continue
            while bits != 0:
                stack[top] = tiles.children[wide, lowest_bit(bits)]
                bits &= bits - 1
                top += 1
    return end


@inner_kernel
def _in_tile(tiles, tile, x, y, z, best2, seed, line):
    """Least squared distance of a point from a tile, if below best2, and the tile it is in."""
    squares = faces_squared(tiles.faces, tile, x, y, z)
    if below(squares, best2) == 0:
        return best2, seed
    store(line, 0, 0, squares)
    for k in range(WIDTH):
        best2 = min(best2, line[0, k])
    return best2, tile


@bare_kernel
def _nearest(tiles, near, first, last, x, y, z, best2, seed, stack, line):
    """Least squared distance of a point from near[first:last], if below best2, and its tile."""
    reach2 = reach_squared(best2)
    for i in range(first, last):
        stack[0] = near[i]
        top = 1
        while top > 0:
            top -= 1
            here = stack[top]
            if here < 0:
                best2, seed = _in_tile(tiles, -1 - here, x, y, z, best2, seed, line)
                reach2 = reach_squared(best2)
                continue
            bits = near_children(tiles.boxes, here, x, y, z, reach2)
            while bits != 0:
                stack[top] = tiles.children[here, lowest_bit(bits)]
                bits &= bits - 1
                top += 1
    return best2, seed


@inner_kernel
def _group(points, tiles, pose, v0, v1, n, near, first, last, seed, best, at, seeds, stack, line):
    """Bring the vertices of a small node up to date; return the greatest of their distances.

    Also the tile in which the last of them was nearest.
    """
    most = 0.0
    for v in range(v0, v1):
        x, y, z = placed(pose, points.places[v, 0], points.places[v, 1], points.places[v, 2])
        best2, found = best[v] * best[v] * (1.0 + 1e-12), -1
        if seed >= 0:
            best2, found = _in_tile(tiles, seed, x, y, z, best2, found, line)
        if seeds[v] >= 0 and seeds[v] != seed:
            best2, found = _in_tile(tiles, seeds[v], x, y, z, best2, found, line)
        best2, found = _nearest(tiles, near, first, last, x, y, z, best2, found, stack, line)
        if found >= 0:
            seed = seeds[v] = found
            distance = math.sqrt(best2)
            if distance < best[v]:
                best[v] = distance
                if at.shape[0] > 0:
                    at[v] = n
        most = max(most, best[v])
    return most, seed


@bare_kernel
def _search(own, points, tiles, pose, root, n, best, at, seeds, worst, near, stack, todo, line):
    """Bring the vertices below one node up to date in pose n; return whether there was room.

    worst: (k,) greatest of the distances below each node.
    """
    near[0] = 0
    todo[0, 0], todo[0, 1], todo[0, 2] = root, 0, 1
    top, seed = 1, -1
    while top > 0:
        top -= 1
        a, first, last = todo[top, 0], todo[top, 1], todo[top, 2]
        right = own.links[a, RIGHT]
        if first < 0:  # both children are done
            worst[a] = max(worst[a + 1], worst[right])
            continue
        v0, v1 = points_of(own.links, points, a)
        if v0 == v1:
            worst[a] = 0.0
            continue
        middle, half = three(own.slab, a, MIDDLE), three(own.slab, a, SIDES)
        x, y, z = placed(pose, middle[0], middle[1], middle[2])
        size2 = half[0] ** 2 + half[1] ** 2 + half[2] ** 2
        size, limit = math.sqrt(size2), worst[a]
        if seed >= 0:
            squares = faces_squared(tiles.faces, seed, x, y, z)
            least2 = -greatest(spread(0.0) - squares)
            limit = min(limit, math.sqrt(least2) + size)
        reach2 = reach_squared((limit + size) ** 2)
        end = _near_nodes(tiles, x, y, z, reach2, LARGER * size2, near, first, last, stack)
        if end < 0:
            return False
        if end == last:
            continue
        if right == 0 or v1 - v0 <= GROUP:
            worst[a], seed = _group(
                points, tiles, pose, v0, v1, n, near, last, end, seed, best, at, seeds, stack, line
            )
            continue
        todo[top, 0], todo[top, 1] = a, -1
        todo[top + 1, 0], todo[top + 1, 1], todo[top + 1, 2] = right, last, end
        todo[top + 2, 0], todo[top + 2, 1], todo[top + 2, 2] = a + 1, last, end
        top += 3
    return True


@kernel
def least_distances(
    own, points, tiles, poses, own_is_upper, span, roots, first, last, limit, watch, best, at
):  # fmt: skip
    """Shortest distance of every vertex, the least over each run of `span` poses.

    Work is counted in parts: part i is what lies below roots[i % k], of k roots, in run i // k.
    points: the own vertices; tiles: the other arch. poses: hinge_from_lower. best: (runs, p + 1),
    mm; inf beyond the limit. at: (runs, p + 1), or (runs, 0) if not wanted: the first pose of the
    least distance, -1 beyond the limit.
    """
    above = np.nextafter(limit, np.inf)
    pose, line = np.empty((3, 4)), np.empty((1, WIDTH))
    stack, todo = np.empty(STACK, np.int64), np.empty((STACK, 3), np.int64)
    near = np.empty(4096, np.int64)
    seeds, worst = np.empty(points.places.shape[0], np.int64), np.empty(own.links.shape[0])
    for i in range(first, last):
        root, run = roots[i % roots.shape[0]], i // roots.shape[0]
        v0, v1 = points_of(own.links, points, root)
        best_here, at_here = best[run], at[run]
        best_here[v0:v1], at_here[v0:v1], seeds[v0:v1] = above, -1, -1
        worst[root : end_of(own.links, root)] = above
        for n in range(run * span, run * span + span):
            if told_to_stop(watch):
                return
            if own_is_upper:
                inverse_pose(poses[n], pose)
            else:
                pose[:] = poses[n, :3]
            while not _search(
                own, points, tiles, pose, root, n, best_here, at_here, seeds, worst, near, stack,
                todo, line,
            ):  # fmt: skip
                near = np.empty(2 * near.shape[0], np.int64)
            count_some(watch, 1)
        for v in range(v0, v1):
            if best_here[v] == above:
                best_here[v] = np.inf
