"""Axes, units, signs, and the few numerical tolerances everything agrees on.

Hinge frame, fixed to the upper arch: origin midway between the condyle centres in centric
relation (CR), x anterior, y to the patient's left, z superior, right-handed. Millimetres,
radians inside and degrees in settings and reports, newtons. A pose is the 4x4 matrix that maps
lower-arch coordinates (equal to the hinge frame in CR at opening 0) to the hinge frame. Opening
is a positive rotation about the line from the right to the left condyle centre: points ahead of
the axis go down.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

RIGHT: Final = -1
LEFT: Final = 1

#: Metadata of fields of results that files have only where they say something.
TOLD_IF_SET: Final[Mapping[str, bool]] = {"told if set": True}


@dataclass(frozen=True)
class Tolerances:
    """Numerical slack, each with its unit and its reason.

    Attributes
    ----------
    inside : float
        Slack outward of an inside test, as a fraction of an edge: a contact that falls on a shared
        edge must be seen by at least one of the two faces.
    stop_mm : float
        Largest arc gap of a centric stop on built-in teeth.
    """

    inside: float = 1e-9
    stop_mm: float = 0.002


TOLERANCES: Final = Tolerances()
