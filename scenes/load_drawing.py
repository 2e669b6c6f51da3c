"""What all views of a loaded framework share: how forces are drawn, and how long an arrow is."""

from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats
from kinematics.planning.framework import Framework
from kinematics.planning.load_readings import BaseLoad
from scenes import colours
from scenes.panel import step_for
from scenes.sheet import Ground, Words

#: Forces on replacement teeth are black, those on abutments blue and dashed, turning is orange.
TOOTH: Final = colours.INK
ABUTMENT: Final = "#0072B2"
TURNING: Final = "#D55E00"
RIDGE: Final = "#56606b"
ABUTMENT_DASH: Final[colours.Line] = (0, (2.2, 1.0))
FULCRUM_DASH: Final[colours.Line] = (0, (7, 1.6, 1.6, 1.6))
#: What teeth that opponents push are, and what their framework presses on, by what it is.
PUSHED: Final = {
    "base": ("replaced", "abutment"),
    "bridge": ("pontic", "root"),
    "splint": ("crown", "root"),
}
#: Length of the longest arrow, mm; weaker forces than this part of the greatest are not drawn.
LONGEST_MM: Final = 15.0
_OFF_NUMBER_MM: Final = 1.9
_LEAST_SHARE: Final = 0.02


def tooth_number(code: int, place: Floats) -> Words:
    """Return the number of a tooth at a place, (2,), on a ground that keeps it legible."""
    where = float(place[0]), float(place[1])
    ground = Ground(colours.PAPER, 0.5, rounded=True, opacity=0.85)
    return Words(str(code), where, size_pt=5.8, colour=colours.SOFT_INK, ground=ground)


def beside_number(middle: Floats, way: Floats) -> tuple[Floats, Floats]:
    """Return both ends of an arrow that begins beside the number in the middle of a crown."""
    long = float(np.hypot(*way))
    start = middle + (_OFF_NUMBER_MM / long if long > 0.0 else 0.0) * way
    return start, start + way


@dataclass(frozen=True)
class Push:
    """A force on one tooth, as it is drawn.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    at : ndarray, shape (3,)
        Middle of its crown, in the coordinates of its arch, mm.
    force_n : ndarray, shape (3,)
        Per 100 N of closing force.
    along_n, across_n : float
        Along its long axis towards ridge or root, and across it.
    root : ndarray, shape (3,)
        Unit vector along its axis towards ridge or root.
    is_abutment : bool
        Whether the framework presses on it; else opponents do.
    """

    tooth: int
    at: Floats
    force_n: Floats
    along_n: float
    across_n: float
    root: Floats
    is_abutment: bool

    @property
    def size_n(self) -> float:
        """Size of the force."""
        return float(np.linalg.norm(self.force_n))

    @property
    def sideways_n(self) -> Floats:
        """The part of the force across the axis, shape (3,)."""
        return np.asarray(self.force_n - self.along_n * self.root)


@dataclass(frozen=True)
class LoadedFrame:
    """A framework under load, with the arch it lies in.

    The lower has moved by some millimetres: it is drawn where it stands in its own coordinates,
    with the directions of forces as they are in the hinge frame, a few degrees off.
    """

    load: BaseLoad
    framework: Framework
    arch: Arch

    @cached_property
    def pushes(self) -> tuple[Push, ...]:
        """Forces worth drawing: on replacement teeth, then on abutments."""
        found = [
            self._push(item.tooth, item.force_n, item.along_n, item.across_n, abutment)
            for items, abutment in ((self.load.teeth, False), (self.load.abutments, True))
            for item in items
        ]
        greatest = max((push.size_n for push in found), default=0.0)
        return tuple(p for p in found if p.size_n > max(_LEAST_SHARE * greatest, 0.05))

    def _push(
        self,
        tooth: int,
        force_n: tuple[float, float, float],
        along_n: float,
        across_n: float,
        is_abutment: bool,
    ) -> Push:
        known = self.arch.tooth(tooth)
        return Push(
            tooth,
            np.asarray(known.centre, dtype=float),
            np.array(force_n),
            along_n,
            across_n,
            -np.asarray(known.long_axis, dtype=float),
            is_abutment,
        )

    @cached_property
    def newtons_per_mm(self) -> float:
        """How much a millimetre of arrow stands for."""
        return max((push.size_n for push in self.pushes), default=1.0) / LONGEST_MM

    @cached_property
    def sample_n(self) -> float:
        """A round force for the sample arrow of the key, about half of the longest."""
        return step_for(LONGEST_MM * self.newtons_per_mm, 2)

    @property
    def replaced(self) -> tuple[int, ...]:
        """ISO 3950 numbers of its replacement teeth."""
        return tuple(code for base in self.framework.bases for code in base.teeth)
