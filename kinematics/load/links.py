"""Links between bodies: springs, and contacts that only push, as rows over all coordinates."""

from copy import copy
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Bools, Floats, Ints

#: A turn of a body is counted as the way of a point this far from its centre, mm, so that all
#: coordinates are lengths of like size.
TURN_ARM_MM: Final = 30.0


@dataclass(frozen=True)
class Law:
    """How hard a link pushes when it is shortened.

    Attributes
    ----------
    stiffness_n_per_mm : float
        Stiffness; of a link in two phases beyond its knee.
    first_n_per_mm : float
        Stiffness up to the knee; 0 for a link in one phase.
    knee_n : float
        Force at which the second phase begins; 0 for a link in one phase.
    gap_mm : float
        How far it shortens before it pushes.
    one_sided : bool
        True: it pushes and never pulls.
    """

    stiffness_n_per_mm: float
    first_n_per_mm: float = 0.0
    knee_n: float = 0.0
    gap_mm: float = 0.0
    one_sided: bool = False

    @property
    def row(self) -> tuple[float, float, float, float, float]:
        """What the kernel reads; see `geometry.kernels.balancing`."""
        first = self.first_n_per_mm if self.knee_n > 0.0 else self.stiffness_n_per_mm
        return (
            first,
            self.stiffness_n_per_mm,
            self.knee_n,
            self.gap_mm,
            1.0 if self.one_sided else 0.0,
        )


@dataclass(frozen=True)
class Links:
    """All links of one model, over n coordinates (mm).

    Attributes
    ----------
    places : ndarray, shape (m, w)
        Coordinates a link depends on; -1 fills the row.
    closing : ndarray, shape (m, w)
        How far it shortens for each of them.
    pull : ndarray, shape (m, w)
        Force on each of them for 1 N in the link; the same as `closing` where nothing rubs.
    laws : ndarray, shape (m, 5)
        Rows of `Law`.
    coordinates : int
        n.
    """

    places: Ints
    closing: Floats
    pull: Floats
    laws: Floats
    coordinates: int

    @property
    def frictionless(self) -> bool:
        """Whether nothing rubs."""
        return self.pull is self.closing

    @property
    def one_sided(self) -> Bools:
        """Which links only push, shape (m,)."""
        return np.asarray(self.laws[:, 4] != 0.0)

    def dense(self, values: Floats) -> Floats:
        """Return `closing` or `pull` as a matrix, shape (m, n)."""
        matrix = np.zeros((len(values), self.coordinates + 1))
        np.put_along_axis(matrix, self.places % (self.coordinates + 1), values, axis=1)
        return matrix[:, :-1]


@dataclass(frozen=True)
class Part:
    """Something that moves: the skull (not at all), a rigid body, or a tooth on its body.

    Attributes
    ----------
    body : int
        First of six coordinates of its rigid body: three shifts, mm, and three turns times
        `TURN_ARM_MM`; -1 where it stands on the skull.
    centre : tuple of float
        Point about which the body turns, mm.
    tooth : int
        First of three coordinates of its own shift; -1 where it has none.
    """

    body: int = -1
    centre: tuple[float, float, float] = (0.0, 0.0, 0.0)
    tooth: int = -1


SKULL: Final = Part()


@dataclass(frozen=True)
class Hold:
    """Where and how a link takes hold of a part, in the frame of its coordinates.

    Attributes
    ----------
    part : Part
        The part.
    point, direction : ndarray, shape (3,)
        Place, mm, and unit vector along which the link is shortened.
    force : ndarray, shape (3,)
        Force for every newton in the link: the direction, and friction across it.
    """

    part: Part
    point: Floats
    direction: Floats
    force: Floats


def motion(part: Part, point: Floats) -> tuple[list[int], Floats]:
    """Return the coordinates on which the shift of a point of a part depends, and how.

    Parameters
    ----------
    part : Part
        What the point belongs to.
    point : ndarray, shape (3,)
        mm.

    Returns
    -------
    list of int, ndarray of shape (3, k)
        The k coordinates, and mm of shift for each mm of them.
    """
    places: list[int] = []
    blocks = []
    if part.body >= 0:
        x, y, z = (np.asarray(point) - part.centre) / TURN_ARM_MM
        turns = np.array([[0.0, z, -y], [-z, 0.0, x], [y, -x, 0.0]])
        places += range(part.body, part.body + 6)
        blocks += [np.eye(3), turns]
    if part.tooth >= 0:
        places += range(part.tooth, part.tooth + 3)
        blocks.append(np.eye(3))
    return places, np.hstack(blocks) if blocks else np.zeros((3, 0))


class Model:
    """Links and coordinates as they are put together.

    Bodies and teeth are added, then what links them; `links` and `load` give the arrays. Links are
    numbered in the order in which they are added.
    """

    def __init__(self) -> None:
        self.coordinates = 0
        self._places: list[list[int]] = []
        self._closing: list[Floats] = []
        self._pull: list[Floats] = []
        self._laws: list[tuple[float, float, float, float, float]] = []
        self._rubs = False

    def copy(self) -> "Model":
        """Return a model to which links can be added without changing this one."""
        other = copy(self)
        for name in ("_places", "_closing", "_pull", "_laws"):
            setattr(other, name, list(getattr(self, name)))
        return other

    def body(self, centre: Floats) -> Part:
        """Add a rigid body that turns about a point, shape (3,), mm."""
        part = Part(self.coordinates, _triple(centre))
        self.coordinates += 6
        return part

    def tooth_on(self, part: Part) -> Part:
        """Add a tooth that shifts on the skull or on a body, without turning on it."""
        tooth = Part(part.body, part.centre, self.coordinates)
        self.coordinates += 3
        return tooth

    def link(
        self,
        pushing: Part,
        pushed: Part,
        point: Floats,
        direction: Floats,
        law: Law,
        rubbing: Floats | None = None,
    ) -> int:
        """Add a link between two parts at a point and return its number.

        Parameters
        ----------
        pushing, pushed : Part
            The first pushes the second along `direction`.
        point, direction : ndarray, shape (3,)
            Place, mm, and unit vector.
        law : Law
            How hard.
        rubbing : ndarray, shape (3,), optional
            Friction on the pushed part for every newton along `direction`.
        """
        force = direction if rubbing is None else direction + rubbing
        return self.link_across(
            Hold(pushing, point, direction, force), Hold(pushed, point, direction, force), law
        )

    def link_across(self, pushing: "Hold", pushed: "Hold", law: Law) -> int:
        """Add a link between two parts whose coordinates lie in frames of their own.

        Parameters
        ----------
        pushing, pushed : Hold
            Point, direction and force, each in the frame of its part.
        law : Law
            How hard.
        """
        places: dict[int, tuple[float, float]] = {}
        for hold, sign in ((pushing, 1.0), (pushed, -1.0)):
            self._rubs |= bool(np.any(hold.force != hold.direction))
            at, how = motion(hold.part, hold.point)
            for place, close, pull in zip(at, hold.direction @ how, hold.force @ how, strict=True):
                before = places.get(place, (0.0, 0.0))
                places[place] = (before[0] + sign * close, before[1] + sign * pull)
        self._places.append(list(places))
        self._closing.append(np.array([close for close, _ in places.values()]))
        self._pull.append(np.array([pull for _, pull in places.values()]))
        self._laws.append(law.row)
        return len(self._laws) - 1

    def load(self, part: Part, point: Floats, force_n: Floats) -> Floats:
        """Return a force (3,), N, on a part at a point as forces on all coordinates, shape (n,)."""
        loads = np.zeros(self.coordinates)
        places, how = motion(part, point)
        loads[places] = force_n @ how
        return loads

    def links(self) -> Links:
        """Return everything that was linked.

        Raises
        ------
        InputError
            No link was added.
        """
        if not self._laws:
            raise InputError("load: nothing supports anything; add a support or a contact")
        width = max(map(len, self._places))
        shape = (len(self._laws), width)
        places = np.full(shape, -1, dtype=np.int64)
        closing, pull = np.zeros(shape), np.zeros(shape)
        for row, at in enumerate(self._places):
            places[row, : len(at)] = at
            closing[row, : len(at)] = self._closing[row]
            pull[row, : len(at)] = self._pull[row]
        laws = np.array(self._laws)
        return Links(places, closing, pull if self._rubs else closing, laws, self.coordinates)


def _triple(point: Floats) -> tuple[float, float, float]:
    x, y, z = (float(value) for value in point)
    return x, y, z
