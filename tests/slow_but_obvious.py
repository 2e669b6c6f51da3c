"""Brute-force twins of the fast kernels. They share no code with what they check."""

import numpy as np

from kinematics.conventions import Floats, Ints


def _roots(a: Floats, b: Floats, c: Floats) -> tuple[Floats, Floats]:
    """Solve a cos t + b sin t + c = 0; return t (2, ...) and how nearly the roots are one."""
    size = np.hypot(a, b)
    with np.errstate(invalid="ignore", divide="ignore"):
        ratio = np.where(size > 0, -c / size, np.nan)
        spread = np.arccos(np.where(np.abs(ratio) <= 1, ratio, np.nan))
    middle = np.arctan2(b, a)
    t = np.stack([middle + spread, middle - spread])
    return (t + np.pi) % (2 * np.pi) - np.pi, np.abs(np.sin(spread))


def _turned(points: Floats, t: Floats) -> Floats:
    """Open points (..., 3) by angles t (...) about the y axis."""
    c, s = np.cos(t), np.sin(t)
    x, y, z = points[..., 0], points[..., 1], points[..., 2]
    return np.stack([c * x + s * z, y * np.ones_like(c), -s * x + c * z], axis=-1)


def _plane_terms(normal: Floats, point: Floats, d: Floats) -> tuple[Floats, Floats, Floats]:
    """Write normal . opened(point, t) - d as a cos t + b sin t + c."""
    nx, ny, nz = normal[..., 0], normal[..., 1], normal[..., 2]
    x, y, z = point[..., 0], point[..., 1], point[..., 2]
    return nx * x + nz * z, nx * z - nz * x, ny * y - d


def _inside(p: Floats, tri: Floats, slack: float) -> Floats:
    """Tell whether points (in the plane of the triangle) lie inside it."""
    a, b, c = tri[..., 0, :], tri[..., 1, :], tri[..., 2, :]
    n = np.cross(b - a, c - a)
    nn = np.sum(n * n, axis=-1)
    with np.errstate(invalid="ignore", divide="ignore"):
        w = [
            np.sum(np.cross(e1 - e0, p - e0) * n, axis=-1) / nn
            for e0, e1 in ((a, b), (b, c), (c, a))
        ]
        return np.all([x >= -slack for x in w], axis=0) & (nn > 0)


def _vertex_face(points: Floats, triangles: Floats, sign: float, slack: float) -> Floats:
    """All opening angles at which points, turned by sign * t, lie in triangles."""
    tri = triangles[None]
    normal = np.cross(tri[..., 1, :] - tri[..., 0, :], tri[..., 2, :] - tri[..., 0, :])
    d = np.sum(normal * tri[..., 0, :], axis=-1)
    a, b, c = _plane_terms(normal, points[:, None, :], d)
    t, sharp = _roots(a, b, c)
    hit = _inside(_turned(points[None, :, None, :], t), tri[None], slack)
    rows = np.stack([sign * t, np.broadcast_to(sharp, t.shape)], axis=-1)
    return rows[hit & np.isfinite(t)]


def _edge_edge(lower: Floats, upper: Floats, slack: float) -> Floats:
    """All opening angles at which lower edges (n, 2, 3) meet upper edges (m, 2, 3)."""
    l0, dl = lower[:, None, 0], lower[:, None, 1] - lower[:, None, 0]
    u0, du = upper[None, :, 0], upper[None, :, 1] - upper[None, :, 0]
    # du . (l0 x dl turned) - (du x u0) . (dl turned): both linear in the rotation.
    m = np.cross(l0, dl)
    m, dub = np.broadcast_arrays(m, du)
    a1, b1, c1 = _plane_terms(dub, m, np.zeros(m.shape[:-1]))
    k = np.cross(du, u0)
    kb, dlb = np.broadcast_arrays(k, dl)
    a2, b2, c2 = _plane_terms(kb, dlb, np.zeros(kb.shape[:-1]))
    t, sharp = _roots(a1 - a2, b1 - b2, c1 - c2)
    p = _turned(np.broadcast_to(l0, kb.shape)[None], t)
    q = _turned(np.broadcast_to(dl, kb.shape)[None], t)
    # Intersection of the lines p + x q and u0 + y du by least squares.
    w = p - u0[None]
    qq, qd, dd = np.sum(q * q, -1), np.sum(q * du, -1), np.sum(du * du, -1)
    wq, wd = np.sum(w * q, -1), np.sum(w * du, -1)
    det = qq * dd - qd * qd
    with np.errstate(invalid="ignore", divide="ignore"):
        x = (qd * wd - dd * wq) / det
        y = (qq * wd - qd * wq) / det
        near = np.linalg.norm(w + x[..., None] * q - y[..., None] * du, axis=-1) < 1e-6
        hit = near & (det > 1e-12 * qq * dd) & (x >= -slack) & (x <= 1 + slack)
    hit &= (y >= -slack) & (y <= 1 + slack)
    rows = np.stack([t, np.broadcast_to(sharp, t.shape)], axis=-1)
    return rows[hit]


def first_contact(upper: Floats, lower: Floats, slack: float = 1e-9) -> tuple[float, float]:
    """Return the greatest opening at which two triangle sets touch, by trying everything.

    Parameters
    ----------
    upper, lower : ndarray, shape (m, 3, 3)
        Corners in the lower's frame.

    Returns
    -------
    opening_rad, sharpness : float
        -inf and 1 where nothing meets; sharpness near 0 means a nearly tangential contact.
    """
    edges = [[0, 1], [1, 2], [2, 0]]
    found = np.concatenate(
        [
            _vertex_face(lower.reshape(-1, 3), upper, 1.0, slack),
            _vertex_face(upper.reshape(-1, 3), lower, -1.0, slack),
            _edge_edge(lower[:, edges].reshape(-1, 2, 3), upper[:, edges].reshape(-1, 2, 3), slack),
        ]
    )
    if len(found) == 0:
        return -np.inf, 1.0
    best = found[np.argmax(found[:, 0])]
    return float(best[0]), float(best[1])


def _closest_on_triangle(p: Floats, tri: Floats) -> float:
    """Distance of one point from one triangle, by projection onto face and sides."""
    a, b, c = tri
    n = np.cross(b - a, c - a)
    best = np.inf
    if n @ n > 0:
        q = p - n * (n @ (p - a)) / (n @ n)
        if bool(_inside(q[None], tri[None], 0.0)[0]):
            best = float(np.linalg.norm(p - q))
    for e0, e1 in ((a, b), (b, c), (c, a)):
        d = e1 - e0
        t = np.clip((p - e0) @ d / (d @ d), 0, 1) if d @ d > 0 else 0.0
        best = min(best, float(np.linalg.norm(p - e0 - t * d)))
    return best


def _segment_distance(p: Floats, q: Floats) -> float:
    """Distance of two segments: interior solution, else an end against the other."""
    d1, d2, r = p[1] - p[0], q[1] - q[0], p[0] - q[0]
    matrix = np.array([[d1 @ d1, -d1 @ d2], [-d1 @ d2, d2 @ d2]])
    best = np.inf
    if abs(np.linalg.det(matrix)) > 1e-14:
        s, t = np.linalg.solve(matrix, [-d1 @ r, d2 @ r])
        if 0 <= s <= 1 and 0 <= t <= 1:
            best = float(np.linalg.norm(r + s * d1 - t * d2))
    for point, (a, d) in (
        (p[0], (q[0], d2)),
        (p[1], (q[0], d2)),
        (q[0], (p[0], d1)),
        (q[1], (p[0], d1)),
    ):
        t = np.clip((point - a) @ d / (d @ d), 0, 1) if d @ d > 0 else 0.0
        best = min(best, float(np.linalg.norm(point - a - t * d)))
    return best


def _pierces(edge: Floats, tri: Floats) -> bool:
    """Tell whether a segment passes through a triangle."""
    n = np.cross(tri[1] - tri[0], tri[2] - tri[0])
    a, b = n @ (edge[0] - tri[0]), n @ (edge[1] - tri[0])
    if a * b > 0 or a == b:
        return False
    p = edge[0] + (edge[1] - edge[0]) * a / (a - b)
    return bool(_inside(p[None], tri[None], 0.0)[0])


def triangle_distance(u: Floats, v: Floats) -> float:
    """Shortest distance of two triangles, 0 where they intersect."""
    edges = [(0, 1), (1, 2), (2, 0)]
    for i, j in edges:
        if _pierces(u[[i, j]], v) or _pierces(v[[i, j]], u):
            return 0.0
    corner = [_closest_on_triangle(p, v) for p in u] + [_closest_on_triangle(p, u) for p in v]
    side = [_segment_distance(u[list(e)], v[list(f)]) for e in edges for f in edges]
    return min(corner + side)


def permuted(faces: Ints, seed: int) -> Ints:
    """Return an order of the faces drawn from a seed."""
    return np.random.default_rng(seed).permutation(len(faces))


def openings_at_touch(points: Floats, triangles: Floats) -> Floats:
    """Return the greatest opening (n,) at which each lower point meets the upper triangles."""
    tri = triangles[None]
    normal = np.cross(tri[..., 1, :] - tri[..., 0, :], tri[..., 2, :] - tri[..., 0, :])
    d = np.sum(normal * tri[..., 0, :], axis=-1)
    t, _ = _roots(*_plane_terms(normal, points[:, None, :], d))
    hit = _inside(_turned(points[None, :, None, :], t), tri[None], 1e-9) & np.isfinite(t)
    return np.asarray(np.where(hit, t, -np.inf).max(axis=(0, 2)))


def _to_segments(p: Floats, a: Floats, b: Floats) -> Floats:
    """Distances (n,) of points from segments a-b."""
    d = b - a
    square = np.sum(d * d, axis=-1)
    t = np.divide(np.sum((p - a) * d, axis=-1), square, out=np.zeros(len(p)), where=square > 0)
    return np.asarray(np.linalg.norm(p - a - np.clip(t, 0, 1)[:, None] * d, axis=-1))


def distances_to_triangles(p: Floats, tri: Floats) -> Floats:
    """Distances (n,) of points (n, 3) from a triangle each (n, 3, 3)."""
    a, b, c = tri[:, 0], tri[:, 1], tri[:, 2]
    n = np.cross(b - a, c - a)
    best = np.min([_to_segments(p, *ends) for ends in ((a, b), (b, c), (c, a))], axis=0)
    with np.errstate(invalid="ignore", divide="ignore"):
        height = np.sum((p - a) * n, axis=-1) / np.linalg.norm(n, axis=-1)
        foot = p - (height / np.linalg.norm(n, axis=-1))[:, None] * n
        over = _inside(foot, tri, 0.0)
    return np.where(over, np.minimum(best, np.abs(height)), best)


def _between_segments(p: Floats, q: Floats) -> Floats:
    """Distances (n,) of the lines of segments (n, 2, 3) where they are nearest inside both."""
    d, e, r = p[:, 1] - p[:, 0], q[:, 1] - q[:, 0], q[:, 0] - p[:, 0]
    n = np.cross(d, e)
    square = np.sum(n * n, axis=-1)
    with np.errstate(invalid="ignore", divide="ignore"):
        s = np.sum(np.cross(r, e) * n, axis=-1) / square
        t = np.sum(np.cross(r, d) * n, axis=-1) / square
        inside = (s >= 0) & (s <= 1) & (t >= 0) & (t <= 1)
        return np.where(inside, np.abs(np.sum(r * n, axis=-1)) / np.sqrt(square), np.inf)


def _piercing(edge: Floats, tri: Floats) -> Floats:
    """Tell which segments (n, 2, 3) pass through their triangle (n, 3, 3)."""
    n = np.cross(tri[:, 1] - tri[:, 0], tri[:, 2] - tri[:, 0])
    a, b = (np.sum(n * (edge[:, k] - tri[:, 0]), axis=-1) for k in (0, 1))
    with np.errstate(invalid="ignore", divide="ignore"):
        p = edge[:, 0] + (a / (a - b))[:, None] * (edge[:, 1] - edge[:, 0])
        return np.asarray((a * b <= 0) & (a != b) & _inside(p, tri, 0.0))


def triangle_distances(u: Floats, v: Floats) -> Floats:
    """Shortest distances (n,) of triangles (n, 3, 3) and (n, 3, 3), 0 where they intersect."""
    best = np.full(len(u), np.inf)
    sides = ([0, 1], [1, 2], [2, 0])
    for k in range(3):
        best = np.minimum(best, distances_to_triangles(u[:, k], v))
        best = np.minimum(best, distances_to_triangles(v[:, k], u))
        for side in sides:
            best = np.minimum(best, _between_segments(u[:, sides[k]], v[:, side]))
    for side in sides:
        best[_piercing(u[:, side], v) | _piercing(v[:, side], u)] = 0.0
    return best


def pairs_within(u: Floats, v: Floats, limit: float) -> tuple[Ints, Ints, Floats]:
    """All pairs of triangles (n, 3, 3) and (m, 3, 3) up to a distance: numbers and distances."""
    middles = u.mean(axis=1), v.mean(axis=1)
    reach = [
        np.linalg.norm(t - m[:, None], axis=2).max(1) for t, m in zip((u, v), middles, strict=True)
    ]
    apart = np.linalg.norm(middles[0][:, None] - middles[1], axis=2)
    i, j = np.nonzero(apart <= (reach[0][:, None] + reach[1] + limit) * (1 + 1e-12))
    gap = triangle_distances(u[i], v[j])
    near = gap <= limit
    return i[near], j[near], gap[near]


def areas_near(u: Floats, v: Floats, tolerance: float) -> Floats:
    """Areas (n,) of triangles u that lie over triangles v, square to them, within a tolerance.

    In the plane of u this is a polygon cut by 8 lines; its area is half the sum, over the lines,
    of the distance from the origin times the length of the line's part inside all the others.
    """
    origin = u[:, 0]
    e = u[:, 1] - origin
    e = e / np.linalg.norm(e, axis=1, keepdims=True)
    up = np.cross(e, u[:, 2] - origin)
    f = np.cross(up / np.linalg.norm(up, axis=1, keepdims=True), e)
    n = np.cross(v[:, 1] - v[:, 0], v[:, 2] - v[:, 0])
    n = n / np.linalg.norm(n, axis=1, keepdims=True)
    lines = [(n, v[:, 0], tolerance), (-n, v[:, 0], tolerance)]
    for corners, normal in ((u, up), (v, n)):
        for k in range(3):
            side = corners[:, (k + 1) % 3] - corners[:, k]
            lines.append((np.cross(side, normal), corners[:, k], 0.0))
    # Each as a . x <= b with a unit vector a.
    a = np.stack([np.stack([np.sum(m * e, 1), np.sum(m * f, 1)], 1) for m, _, _ in lines], 1)
    b = np.stack([np.sum(m * (at - origin), 1) + add for m, at, add in lines], 1)
    size = np.linalg.norm(a, axis=2)
    level = size < 1e-12  # the plane that makes this line is parallel to u: all of it, or nothing
    nowhere = (level & (b < 0)).any(axis=1)
    size[level] = 1.0
    a, b = np.where(level[..., None], 0.0, a / size[..., None]), np.where(level, 0.0, b / size)
    area = np.zeros(len(u))
    for i in range(8):
        foot, along = b[:, i, None] * a[:, i], np.stack([-a[:, i, 1], a[:, i, 0]], 1)
        low, high = np.full(len(u), -np.inf), np.full(len(u), np.inf)
        for j in (j for j in range(8) if j != i):
            slope, room = np.sum(a[:, j] * along, 1), b[:, j] - np.sum(a[:, j] * foot, 1)
            with np.errstate(divide="ignore", invalid="ignore"):
                high = np.where(slope > 0, np.minimum(high, room / slope), high)
                low = np.where(slope < 0, np.maximum(low, room / slope), low)
            high = np.where((slope == 0) & (room < 0), -np.inf, high)
        cut = ~level[:, i] & (high > low)
        inside = np.subtract(high, low, out=np.zeros(len(u)), where=cut)
        area += 0.5 * b[:, i] * inside
    return np.where(nowhere, 0.0, area)
