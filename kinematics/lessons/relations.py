"""Relations of lessons by symbols: the equation as it is taught, and its solution."""

from dataclasses import dataclass
from functools import cache

import sympy

from kinematics.guidance.derivations import christensen_angle


@dataclass(frozen=True)
class Relation:
    """An equation, and what it gives.

    Attributes
    ----------
    equation : sympy.Eq
        As it is taught.
    arguments : tuple of sympy.Symbol
        What is put in, angles in radians.
    solution : sympy.Expr
        What comes out, by the arguments.
    """

    equation: sympy.Eq
    arguments: tuple[sympy.Symbol, ...]
    solution: sympy.Expr


def _relation(wanted: sympy.Symbol, equation: sympy.Eq, solution: sympy.Expr) -> Relation:
    arguments = tuple(sorted(equation.free_symbols - {wanted}, key=lambda s: s.name))
    return Relation(equation, arguments, solution)


def _symbols(names: str) -> tuple[sympy.Symbol, ...]:
    return tuple(sympy.symbols(names, real=True))


@cache
def christensen() -> Relation:
    """Return how far the rear of the jaw drops against its front in protrusion."""
    beta, sigma, phi, a, p = _symbols("beta sigma phi a p")
    gamma = sympy.Symbol("gamma", real=True)
    taught = sympy.Eq(
        sympy.sin(beta - phi + gamma), sympy.sin(beta - phi) + p / a * sympy.sin(beta - sigma)
    )
    return _relation(gamma, taught, christensen_angle().solutions[0])


@cache
def slope_behind() -> Relation:
    """Return how steeply a tooth behind the incisal point goes down, in protrusion."""
    sigma, p, gamma, d, h, theta = _symbols("sigma p gamma d h theta")
    down = p * sympy.sin(sigma) + d * sympy.sin(gamma) + h * (1 - sympy.cos(gamma))
    ahead = p * sympy.cos(sigma) + d * (1 - sympy.cos(gamma)) - h * sympy.sin(gamma)
    return _relation(theta, sympy.Eq(sympy.tan(theta), down / ahead), sympy.atan2(down, ahead))


@cache
def shared_drop() -> Relation:
    """Return how the drop of a tooth is made up of those of incisal point and condyles."""
    w_i, w_r, w_l, z_i, z_r, z_l, z = _symbols("w_I w_R w_L z_I z_R z_L z")
    drop = w_i * z_i + w_r * z_r + w_l * z_l
    return _relation(z, sympy.Eq(z, drop), drop)


@cache
def pure_rotation() -> Relation:
    """Return the Bennett angle of a jaw that turns about one condyle and shifts nowhere."""
    x, z, distance, inward, angle = _symbols("x z D m B")
    apart = sympy.Eq((distance - inward) ** 2 + x**2 + z**2, distance**2)
    nearest = min(sympy.solve(apart, inward), key=lambda r: abs(r.subs({x: 1, z: 0, distance: 9})))
    return _relation(angle, sympy.Eq(sympy.tan(angle), nearest / x), sympy.atan2(nearest, x))


@cache
def side_shift() -> Relation:
    """Return how far inward the nonworking condyle goes."""
    s, x, b, m = _symbols("s x b m")
    inward = s + x * sympy.tan(b)
    return _relation(m, sympy.Eq(m, inward), inward)


@cache
def slope_of_way() -> Relation:
    """Return the inclination of a way."""
    x, z, s = _symbols("x z s")
    return _relation(s, sympy.Eq(sympy.tan(s), z / x), sympy.atan2(z, x))


@cache
def other_plane() -> Relation:
    """Return the inclination of the same way to another plane."""
    beta, delta, alpha = _symbols("beta delta alpha")
    return _relation(alpha, sympy.Eq(alpha, beta + delta), beta + delta)


@cache
def axis_error() -> Relation:
    """Return how far every cusp is off where the jaw closes about a wrong axis."""
    e, g, x, epsilon = _symbols("e g x epsilon")
    return _relation(epsilon, sympy.Eq(epsilon, e * g / x), e * g / x)


@cache
def turning() -> Relation:
    """Return the turning by a force on a lever."""
    force, lever, moment = _symbols("F l M")
    return _relation(moment, sympy.Eq(moment, force * lever), force * lever)
