"""Where bodies come to rest on their links, what each link carries, or how they escape."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeVar

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import null_space
from scipy.optimize import nnls

from kinematics.checks import finite_array
from kinematics.contact.workers import Watch, Workers, usable
from kinematics.conventions import Floats
from kinematics.geometry.kernels import balancing
from kinematics.load.links import Links

_Number = TypeVar("_Number", np.int64, np.float64)
Status = Literal["equilibrium", "no equilibrium"]

#: Forces balance when what is left of them is no more than this part of the load.
MOST_LEFT: Final = 1e-9
#: A direction in which two-sided links resist less than this part of the most is not held by them.
_HELD: Final = 1e-9
#: A part of its own, so long beside a length of 1, keeps a push apart from those it depends on; its
#: square, 1e-16, is how far that turns the answer.
_APART: Final = 1e-8


@dataclass(frozen=True)
class Equilibrium:
    """Rest of bodies on their links under one load.

    Attributes
    ----------
    status : str
        "equilibrium", or "no equilibrium" where no pushes of the supports balance the load.
    moved : ndarray, shape (n,)
        Coordinates at rest, mm; where there is no rest, all 0.
    force_n : ndarray, shape (m,)
        What each link carries; all 0 where there is no rest.
    left : float
        What is left of the load, as a part of it.
    unique : bool
        Whether no other rest is possible: nothing rubs, and links that push hold everything.
    escape : ndarray, shape (n,), or None
        Where there is no rest, the motion along which the load does work and which no link hinders;
        its greatest part is 1. None where there is rest, and where contacts rub and none was found.
    """

    status: Status
    moved: Floats
    force_n: Floats
    left: float
    unique: bool
    escape: Floats | None = None


def equilibria(
    models: Sequence[Links],
    loads: Floats,
    start: Floats | None = None,
    workers: Workers | None = None,
) -> tuple[Equilibrium, ...]:
    """Find where bodies come to rest, for several loads or poses.

    Newton steps on the set of links that push (generalised Newton method on a piecewise quadratic
    energy: textbooks of optimisation, as common practice). With friction, whose direction is given,
    rest may not be the only one.

    Parameters
    ----------
    models : sequence of p Links
        All over the same coordinates.
    loads : ndarray, shape (p, n)
        Forces on the coordinates, N.
    start : ndarray, shape (p, n), optional
        Where to begin, mm; at 0 if not given.
    workers : Workers, optional
        Threads; one if not given.

    Raises
    ------
    InputError
        Loads of another shape or not finite.
    """
    if not models:
        return ()
    n = models[0].coordinates
    loads = finite_array(loads, "loads", (len(models), n))
    x = np.zeros_like(loads) if start is None else np.array(start)
    ends = np.cumsum([0, *(len(links.laws) for links in models)])
    width = max(links.places.shape[1] for links in models)
    places = np.concatenate([_wide(links.places, width, -1) for links in models])
    closing = np.concatenate([_wide(links.closing, width, 0) for links in models])
    frictionless = all(links.frictionless for links in models)
    pull = closing
    if not frictionless:
        pull = np.concatenate([_wide(links.pull, width, 0) for links in models])
    laws = np.concatenate([links.laws for links in models])
    force = np.empty(len(laws))
    status, held = np.empty(len(models), np.int64), np.empty(len(models), np.int64)

    def settle(along: Floats, symmetric: bool) -> None:
        def block(first: int, last: int, watch: Watch) -> None:
            balancing.balance(
                places, closing, along, laws, ends, loads, symmetric, first, last, watch,
                x, force, status, held,
            )  # fmt: skip

        usable(workers).run(len(models), block, shortest_part=4)

    settle(closing, True)
    if not frictionless:
        # From where everything would rest without friction: from afar halved steps lose their way.
        x[status != balancing.BALANCED] = 0.0
        settle(pull, False)
    return tuple(
        _equilibrium(
            links,
            loads[i],
            int(status[i]),
            x[i],
            force[ends[i] : ends[i + 1]],
            bool(held[i]) and frictionless,
        )
        for i, links in enumerate(models)
    )


def _wide(rows: NDArray[_Number], width: int, fill: int) -> NDArray[_Number]:
    """Return rows filled up to a width."""
    return np.pad(rows, ((0, 0), (0, width - rows.shape[1])), constant_values=fill)


def _equilibrium(
    links: Links, load: Floats, status: int, x: Floats, force: Floats, unique: bool
) -> Equilibrium:
    left = left_of(links, load, force)
    if status == balancing.BALANCED and left <= MOST_LEFT:
        return Equilibrium("equilibrium", x, force, left, unique)
    return Equilibrium(
        "no equilibrium",
        np.zeros_like(x),
        np.zeros_like(force),
        1.0,
        False,
        escape_of(links, load),
    )


def left_of(links: Links, load: Floats, force: Floats) -> float:
    """Return what is left of a load (n,) beside the forces (m,) of links, as a part of it."""
    carried = links.dense(links.pull).T @ force
    most = float(np.abs(load).max(initial=0.0))
    return float(np.abs(load - carried).max(initial=0.0)) / most if most > 0.0 else 0.0


def escape_of(links: Links, load: Floats) -> Floats | None:
    """Return a motion along which a load does work and no link hinders it, shape (n,).

    Pushes of one-sided links and any forces of the others span a cone. What is left of the load
    after its nearest point in it is such a motion (Farkas; common practice). Forces of the others
    are left out first, so that not even rounding moves against them.

    Parameters
    ----------
    links : Links
        Links.
    load : ndarray, shape (n,)
        N.

    Returns
    -------
    ndarray or None
        Its greatest part is 1; None where pushes can balance the load but for rounding, or where
        rounding leaves no motion that nothing hinders.
    """
    rows = links.dense(links.pull)
    free = null_space(rows[~links.one_sided], rcond=_HELD)
    cone, beside = free.T @ rows[links.one_sided].T, free.T @ load
    length = np.linalg.norm(cone, axis=0)
    cone = (cone / np.maximum(length, 1e-300))[:, length > _HELD]
    motion = free @ (beside - cone @ _pushes(cone, beside))
    most = float(np.abs(motion).max(initial=0.0))
    if most <= MOST_LEFT * float(np.abs(load).max(initial=0.0)):
        return None
    motion /= most
    hindered = (rows @ motion)[links.one_sided].max(initial=0.0) > MOST_LEFT
    return None if hindered else np.asarray(motion)


def _pushes(cone: Floats, wanted: Floats) -> Floats:
    """Return the weights, none below 0, of columns whose sum comes nearest to what is wanted.

    Columns may depend on each other. Without what is added below, weights of 1e16 that are rounding
    can pass for an answer, on some processors and not on others.
    """
    count = cone.shape[1]
    if cone.size == 0:
        return np.zeros(count)
    found, _ = nnls(np.vstack([cone, _APART * np.eye(count)]), np.append(wanted, np.zeros(count)))
    return np.asarray(found)
