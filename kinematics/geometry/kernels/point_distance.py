"""How far a point lies from the triangles of a tile, exactly, and from boxes, at least."""

from kinematics.geometry.kernels.compiling import inner_kernel
from kinematics.geometry.kernels.lanes import (
    ALL,
    WIDTH,
    choose,
    greater,
    lesser,
    load,
    not_below,
    size,
    spread,
)
from kinematics.geometry.kernels.tree_tiles import (
    BOX_AXES,
    BOX_MIDDLE,
    BOX_SIDES,
    CORNER,
    PER_B,
    PER_C,
    PER_THIRD,
    SHARE_B,
    SHARE_C,
    SIDE_B,
    SIDE_C,
)
from kinematics.geometry.kernels.vectors import dot, minus


@inner_kernel
def reach_squared(square):
    """Squared distance beyond which nothing matters, whatever rounding does to bounds.

    Above (d + 1e-5)^2 for every distance d: boxes are kept in short numbers.
    """
    return 1.001 * square + 1.1e-7


@inner_kernel
def _three(rows, row, first):
    return (
        load(rows, row, first),
        load(rows, row, first + WIDTH),
        load(rows, row, first + 2 * WIDTH),
    )


@inner_kernel
def _outside(boxes, wide, k, p):
    """How far a point lies out of the boxes of all children along axis k of each."""
    along = size(dot(_three(boxes, wide, BOX_AXES + 3 * k * WIDTH), p))
    return greater(along - load(boxes, wide, BOX_SIDES + k * WIDTH), spread(0.0))


@inner_kernel
def near_children(boxes, wide, x, y, z, reach2):
    """Return the bits of those children of a wide node that may reach within a squared distance."""
    p = minus((spread(x), spread(y), spread(z)), _three(boxes, wide, BOX_MIDDLE))
    u, v, w = _outside(boxes, wide, 0, p), _outside(boxes, wide, 1, p), _outside(boxes, wide, 2, p)
    return not_below(spread(reach2), u * u + v * v + w * w)


@inner_kernel
def _side_squared(p, u, per):
    """Squared distances of points from sides that begin at the origin."""
    t = lesser(spread(1.0), greater(spread(0.0), dot(p, u) * per))
    w = p[0] - t * u[0], p[1] - t * u[1], p[2] - t * u[2]
    return dot(w, w)


@inner_kernel
def faces_squared(tiles, tile, x, y, z):
    """Squared distances of a point from the eight triangles of a tile.

    Always measured to a point of the triangle, the nearest of the three sides and, where it lies
    inside, the foot: a triangle without area has sides, and one with next to none a poor foot.
    """
    p = minus((spread(x), spread(y), spread(z)), _three(tiles, tile, CORNER))
    u, v = _three(tiles, tile, SIDE_B), _three(tiles, tile, SIDE_C)
    s, t = dot(_three(tiles, tile, SHARE_B), p), dot(_three(tiles, tile, SHARE_C), p)
    w = (
        p[0] - s * u[0] - t * v[0],
        p[1] - s * u[1] - t * v[1],
        p[2] - s * u[2] - t * v[2],
    )
    none, one = spread(0.0), spread(1.0)
    inside = not_below(s, none) & not_below(t, none) & not_below(one, s + t)
    nearest = lesser(
        _side_squared(p, u, load(tiles, tile, PER_B)), _side_squared(p, v, load(tiles, tile, PER_C))
    )
    third = _side_squared(minus(p, u), minus(v, u), load(tiles, tile, PER_THIRD))
    nearest = lesser(nearest, third)
    return choose(inside, lesser(nearest, dot(w, w)), nearest)


@inner_kernel
def below(squares, square):
    """Return the bits of the lanes below a number."""
    return ALL & ~not_below(squares, spread(square))


@inner_kernel
def lowest_bit(bits):
    """Return the place of the lowest of eight bits that is set."""
    one = bits & -bits
    return int(one & 0xAA != 0) + 2 * int(one & 0xCC != 0) + 4 * int(one & 0xF0 != 0)
