"""First contact of two meshes by trying every pair of features, the winners solved in 40 digits.

It shares no code with the kernels. Planes and edges meet where a triple product of turned vectors
is zero, which is a cos t + b sin t + c = 0. Double precision finds the features that meet first;
the same equation in 40 digits says at which opening, so that the twin's rounding is no limit.
"""

from dataclasses import dataclass

import mpmath
import numpy as np

DIGITS = 40
#: Openings that double precision may take for equal, rad: all of them are solved in 40 digits.
NEAR_BEST = 1e-7
#: Slack outward of an inside test, as a fraction of a side.
INSIDE = 1e-9
LOWER_VERTEX, UPPER_VERTEX, EDGES = range(3)


@dataclass(frozen=True)
class Touch:
    """First contact, as the greatest opening; -inf where nothing meets.

    sine: of the angle between the movement and the touching surface, small where they only graze.
    """

    opening_rad: float = -np.inf
    radius_mm: float = 0.0
    kind: int = -1
    sine: float = 1.0


def _dot(a, b):
    return np.einsum("...k,...k->...", a, b)


def _across(a, b):
    """Return cross products (..., 3), many at once quicker than numpy's own."""
    out = np.empty(np.broadcast_shapes(a.shape, b.shape))
    for k in range(3):
        i, j = (k + 1) % 3, (k + 2) % 3
        out[..., k] = a[..., i] * b[..., j] - a[..., j] * b[..., i]
    return out


def turned(points, angle):
    """Open points (..., 3) by angles (...) about the y axis."""
    c, s = np.cos(angle), np.sin(angle)
    x, y, z = points[..., 0], points[..., 1], points[..., 2]
    return np.stack([c * x + s * z, y * np.ones_like(c), c * z - s * x], axis=-1)


def _reach(corners):
    """Return the least and greatest s, and radii that bound the radius, of features (n, k, 3)."""
    s, r = corners[..., 1], np.hypot(corners[..., 0], corners[..., 2])
    sides = corners - np.roll(corners, 1, axis=1)
    longest = np.sqrt(_dot(sides, sides).max(axis=1))
    return s.min(1), s.max(1), r.min(1) - longest, r.max(1)


def _could_meet(first, second):
    """List the pairs of features (n, k, 3) and (m, l, 3) that share a place s and a radius.

    Every pair is looked at; turning about the axis changes neither s nor the radius.
    """
    (s0, s1, r0, r1), (p0, p1, q0, q1) = _reach(first), _reach(second)
    slack = 1e-6 * max(r1.max(), q1.max())
    meet = (s0[:, None] <= p1 + slack) & (s1[:, None] >= p0 - slack)
    meet &= (r0[:, None] <= q1 + slack) & (r1[:, None] >= q0 - slack)
    return np.divmod(np.flatnonzero(meet), len(second))


def _roots(a, b, c):
    """Solve a cos t + b sin t + c = 0: t (2, n), not a number where there is none."""
    with np.errstate(invalid="ignore", divide="ignore"):
        spread = np.arccos(-c / np.hypot(a, b))
    t = np.arctan2(b, a) + np.stack([spread, -spread])
    return (t + np.pi) % (2.0 * np.pi) - np.pi


def _vertices_on_faces(points, triangles):
    """Find where points, turned by t, lie in triangles: t, point, triangle."""
    i, j = _could_meet(points[:, None], triangles)
    p, (a, b, c) = points[i], np.moveaxis(triangles[j], 1, 0)
    n = _across(b - a, c - a)
    t = _roots(
        n[:, 0] * p[:, 0] + n[:, 2] * p[:, 2],
        n[:, 0] * p[:, 2] - n[:, 2] * p[:, 0],
        n[:, 1] * p[:, 1] - _dot(n, a),
    )
    q = turned(p[None], t)
    with np.errstate(invalid="ignore", divide="ignore"):
        shares = [_dot(_across(v - u, q - u), n) / _dot(n, n) for u, v in ((a, b), (b, c), (c, a))]
        root, k = np.nonzero(np.min(shares, axis=0) >= -INSIDE)
    return t[root, k], i[k], j[k]


def _edges_on_edges(lower, upper):
    """Find where lower edges (n, 2, 3), turned by t, meet upper edges (m, 2, 3)."""
    i, j = _could_meet(lower, upper)
    l0, dl = lower[i, 0], lower[i, 1] - lower[i, 0]
    u0, du = upper[j, 0], upper[j, 1] - upper[j, 0]
    # du . (l0 x dl turned) = (du x u0) . (dl turned): both are linear in the rotation.
    m, k = _across(l0, dl), _across(du, u0)
    t = _roots(
        du[:, 0] * m[:, 0] + du[:, 2] * m[:, 2] - k[:, 0] * dl[:, 0] - k[:, 2] * dl[:, 2],
        du[:, 0] * m[:, 2] - du[:, 2] * m[:, 0] - k[:, 0] * dl[:, 2] + k[:, 2] * dl[:, 0],
        du[:, 1] * m[:, 1] - k[:, 1] * dl[:, 1],
    )
    w, q = turned(l0[None], t) - u0, turned(dl[None], t)
    n = _across(du, q)
    with np.errstate(invalid="ignore", divide="ignore"):
        lower_share = _dot(_across(w, du), n) / _dot(n, n)
        upper_share = _dot(_across(w, q), n) / _dot(n, n)
        inside = np.minimum(lower_share, upper_share) >= -INSIDE
        inside &= np.maximum(lower_share, upper_share) <= 1.0 + INSIDE
    root, k = np.nonzero(inside)
    return t[root, k], i[k], j[k]


def edges_of(faces):
    """Return the corner numbers (n, 2) of every edge, once."""
    sides = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    return np.unique(np.sort(sides, axis=1), axis=0)


class Twin:
    """Two meshes, or anything with `vertices` and `faces`, made ready for many poses.

    Parameters
    ----------
    upper, lower : Mesh
        The upper in the hinge frame, the lower in lower coordinates.
    """

    def __init__(self, upper, lower):
        self.points = upper.vertices, lower.vertices
        # Of both meshes: corner numbers of vertices, edges and faces.
        self.features = tuple(
            (np.unique(mesh.faces)[:, None], edges_of(mesh.faces), mesh.faces)
            for mesh in (upper, lower)
        )

    def first_contact(self, pose):
        """Return the first contact of hinge_from_lower (4, 4), coming from wide open."""
        upper, lower = self.points
        moved = (upper - pose[:3, 3]) @ pose[:3, :3]
        (points_u, edges_u, faces_u), (points_l, edges_l, faces_l) = self.features
        t0, i0, j0 = _vertices_on_faces(lower[points_l[:, 0]], moved[faces_u])
        t1, i1, j1 = _vertices_on_faces(moved[points_u[:, 0]], lower[faces_l])
        t2, i2, j2 = _edges_on_edges(lower[edges_l], moved[edges_u])
        found = (
            (t0, faces_u[j0], points_l[i0]),
            (-t1, points_u[i1], faces_l[j1]),
            (t2, edges_u[j2], edges_l[i2]),
        )
        most = max((float(t.max()) for t, _, _ in found if len(t)), default=np.inf)
        best = Touch()
        for kind, (t, of_upper, of_lower) in enumerate(found):
            for n in np.flatnonzero(t >= most - NEAR_BEST):
                features = upper[of_upper[n]], lower[of_lower[n]]
                touch = _solved(*features, pose, kind, float(t[n]))
                if touch.opening_rad > best.opening_rad:
                    best = touch
        return best


def _cross(a, b):
    return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]


def _minus(a, b):
    return [x - y for x, y in zip(a, b, strict=True)]


def _terms(n, p):
    """Write n . (p turned by t) as a cos t + b sin t + c."""
    return n[0] * p[0] + n[2] * p[2], n[0] * p[2] - n[2] * p[0], n[1] * p[1]


def _solved(upper, lower, pose, kind, near):
    """Solve the meeting of two features in 40 digits: the root next to `near`."""
    with mpmath.workdps(DIGITS):
        exact = np.vectorize(mpmath.mpf, otypes=[object])
        u = ((exact(upper) - exact(pose[:3, 3])) @ exact(pose[:3, :3])).tolist()
        w = exact(lower).tolist()
        sign = -1 if kind == UPPER_VERTEX else 1
        if kind == EDGES:
            du, dl = _minus(u[1], u[0]), _minus(w[1], w[0])
            of_moment, of_side = _terms(du, _cross(w[0], dl)), _terms(_cross(du, u[0]), dl)
            a, b, c = _minus(of_moment, of_side)
        else:
            p, face = (w[0], u) if kind == LOWER_VERTEX else (u[0], w)
            n = _cross(_minus(face[1], face[0]), _minus(face[2], face[0]))
            a, b, c = _terms(n, p)
            c -= sum(x * y for x, y in zip(n, face[0], strict=True))
        size = mpmath.hypot(a, b)
        if size == 0 or abs(c) > size:
            return Touch()
        middle, spread = mpmath.atan2(b, a), mpmath.acos(-c / size)

        def wrapped(angle):
            return (angle + mpmath.pi) % (2 * mpmath.pi) - mpmath.pi

        roots = [wrapped(sign * (middle + spread)), wrapped(sign * (middle - spread))]
        opening = float(min(roots, key=lambda t: abs(wrapped(t - near))))
        slope = float(size * mpmath.sin(spread))
    upper, lower = np.array(u, dtype=float), np.array(w, dtype=float)
    if kind == EDGES:
        n = _across(upper[1] - upper[0], turned(lower[1] - lower[0], opening))
        across = _across(turned(lower[0], opening) - upper[0], upper[1] - upper[0])
        point = lower[0] + (across @ n) / (n @ n) * (lower[1] - lower[0])
    else:
        point = lower[0] if kind == LOWER_VERTEX else upper[0]
        a, b, c = upper if kind == LOWER_VERTEX else lower
        n = _across(b - a, c - a)
    radius = float(np.hypot(point[0], point[2]))
    return Touch(opening, radius, kind, abs(slope) / (float(np.linalg.norm(n)) * radius))
