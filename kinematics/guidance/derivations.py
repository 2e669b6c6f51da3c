"""Closed forms of the movement, derived by symbols; the fast code is compared with them.

Nothing that computes movements imports this module; lessons show what it derives.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import mpmath  # type: ignore[import-untyped]  # comes with sympy
import sympy

_DIGITS: Final = 40


@dataclass(frozen=True)
class ClosedForm:
    """Solutions of one equation.

    Attributes
    ----------
    arguments : tuple of sympy.Symbol
        What the solutions depend on, in order.
    solutions : tuple of sympy.Expr
        The roots, or the quantities that belong together.
    """

    arguments: tuple[sympy.Symbol, ...]
    solutions: tuple[sympy.Expr, ...]

    def compiled(self) -> Callable[..., list[complex]]:
        """Return a function of the arguments, as numbers, that computes with 40 digits."""
        plain = sympy.lambdify(self.arguments, list(self.solutions), modules="mpmath", cse=True)

        def evaluate(*values: float) -> list[complex]:
            with mpmath.workdps(_DIGITS):
                exact = [mpmath.mpf(float(value)) for value in values]
                return [complex(solution) for solution in plain(*exact)]

        return evaluate


def _symbols(names: str) -> tuple[sympy.Symbol, ...]:
    return tuple(sympy.symbols(names, real=True))


def rigid_distance() -> ClosedForm:
    """Derive the slide of the working condyle that keeps its distance from the other one.

    Arguments: the vector (x, y, z) from the nonworking condyle to the working one, its outward
    direction (dx, dy, dz), a unit vector, and the distance. The first solution is the one near
    zero where the working condyle goes outward.
    """
    slide = sympy.Symbol("slide", real=True)
    x, y, z, dx, dy, dz, distance = arguments = _symbols("x y z dx dy dz distance")
    apart = sympy.Matrix([x, y, z])
    outward = sympy.Matrix([dx, dy, dz])
    moved = apart + slide * outward
    condition = sympy.expand(moved.dot(moved) - distance**2)
    condition = sympy.expand(condition - slide**2 * (outward.dot(outward) - 1))
    roots = sympy.solve(condition, slide)
    toward_zero = sorted(
        roots,
        key=lambda root: -root.subs(dict(zip(arguments, (0, 9, 0, 0, 1, 0, 10), strict=True))),
    )
    return ClosedForm(arguments, tuple(toward_zero))


def _turning_angles(standing_off: sympy.Expr, angle: sympy.Symbol) -> tuple[sympy.Expr, ...]:
    """Return both angles at which A cos t + B sin t + C vanishes."""
    spread = sympy.expand(standing_off)
    cosine, sine = spread.coeff(sympy.cos(angle)), spread.coeff(sympy.sin(angle))
    constant = spread.subs({sympy.cos(angle): 0, sympy.sin(angle): 0})
    middle = sympy.atan2(sine, cosine)
    half = sympy.acos(-constant / sympy.sqrt(cosine**2 + sine**2))
    return middle + half, middle - half


def turning_point_meets_plane() -> ClosedForm:
    """Derive the openings at which a point of the lower meets a plane.

    Arguments: the point (px, py, pz) in lower coordinates, the normal (nx, ny, nz) of the plane and
    its distance k along the normal, both in the frame of the lower at opening 0. The first
    solution is met first, coming from open.
    """
    angle = sympy.Symbol("angle", real=True)
    px, py, pz, nx, ny, nz, k = arguments = _symbols("px py pz nx ny nz k")
    point = sympy.rot_ccw_axis2(angle) * sympy.Matrix([px, py, pz])
    return ClosedForm(arguments, _turning_angles(point.dot(sympy.Matrix([nx, ny, nz])) - k, angle))


def vertex_meets_face() -> ClosedForm:
    """Derive the angles about the hinge axis at which a vertex meets the plane of a triangle.

    Arguments: place s of the vertex along the axis and its distance r from it; corners (ax, ay,
    az), (bx, by, bz), (cx, cy, cz). Angles grow downwards ahead of the axis.
    """
    angle = sympy.Symbol("angle", real=True)
    arguments = _symbols("s r ax ay az bx by bz cx cy cz")
    s, r = arguments[:2]
    a, b, c = (sympy.Matrix(arguments[i : i + 3]) for i in (2, 5, 8))
    normal = (b - a).cross(c - a)
    vertex = sympy.Matrix([r * sympy.cos(angle), s, -r * sympy.sin(angle)])
    return ClosedForm(arguments, _turning_angles(normal.dot(vertex - a), angle))


def edge_meets_edge() -> ClosedForm:
    """Derive where two edges have points with the same s and r, as fractions along them.

    Arguments: end points (ax, ay, az), (bx, by, bz) of the first edge and (cx, cy, cz), (dx, dy,
    dz) of the second. Solutions: for each of the two roots the fraction along the first edge,
    then that along the second.
    """
    first, second = sympy.symbols("first second", real=True)
    arguments = _symbols("ax ay az bx by bz cx cy cz dx dy dz")
    a, b, c, d = (sympy.Matrix(arguments[i : i + 3]) for i in (0, 3, 6, 9))
    on_first, on_second = a + first * (b - a), c + second * (d - c)
    level = sympy.solve(on_first[1] - on_second[1], second)[0]
    radii = (on_first[0] ** 2 + on_first[2] ** 2 - on_second[0] ** 2 - on_second[2] ** 2).subs(
        second, level
    )
    q2, q1, q0 = sympy.Poly(sympy.together(radii).as_numer_denom()[0], first).all_coeffs()
    root = sympy.sqrt(q1**2 - 4 * q2 * q0)
    fractions = [(-q1 + root) / (2 * q2), (-q1 - root) / (2 * q2)]
    return ClosedForm(
        arguments,
        tuple(value for f in fractions for value in (f, level.subs(first, f))),
    )


def christensen_angle() -> ClosedForm:
    """Derive Christensen angle and condylar advance for a straight incisal travel.

    Arguments: condylar guide inclination, incisal guidance and Balkwill angle (radians), height of
    the Bonwill triangle a and straight travel p of the incisal point (mm). Christensen, J Prosthet
    Dent 1960 gives sin((beta - phi) + gamma) = sin(beta - phi) + (p / a) sin(beta - sigma) for
    sigma = 0. Solutions: angle gamma, condylar advance.
    """
    gamma, advance = sympy.symbols("gamma advance", real=True)
    beta, sigma, phi, a, p = arguments = _symbols("beta sigma phi a p")

    def toward(slope: sympy.Expr) -> sympy.Matrix:
        return sympy.Matrix([sympy.cos(slope), -sympy.sin(slope)])

    # The line from the condyle to the incisal point keeps its length a and turns by gamma.
    lack = a * toward(phi) + p * toward(sigma) - advance * toward(beta) - a * toward(phi - gamma)
    across = sympy.Matrix([sympy.sin(beta), sympy.cos(beta)])
    turned = sympy.Symbol("turned", real=True)  # beta - phi + gamma
    condition = sympy.expand_trig(sympy.simplify(across.dot(lack).subs(gamma, turned - beta + phi)))
    sine = sympy.solve(condition, sympy.sin(turned))[0]
    angle = sympy.asin(sine) - beta + phi
    along = sympy.solve(sympy.simplify(toward(beta).dot(lack)), advance)[0]
    return ClosedForm(arguments, (angle, along.subs(gamma, angle)))
