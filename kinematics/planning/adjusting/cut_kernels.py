"""What compiles the kernels of adjustments before they are needed."""

from typing import Final

import numpy as np

from kinematics.contact.envelope import Measure, Side, envelope
from kinematics.contact.gap_maps import distance_map
from kinematics.contact.pair import prepare
from kinematics.contact.warm_up import Kernels, smallest_arch
from kinematics.contact.workers import Workers


def _smallest_cut() -> None:
    """Look for what would have to come off one triangle, and how deep that is."""
    pair = prepare(smallest_arch(11, 1e-3), smallest_arch(41, 0.0))
    envelope(pair, np.eye(4)[None], 1.0, Side.UPPER, Measure.ARC_GAP, Workers())
    distance_map(pair, np.eye(4), 1.0)


#: For `contact.warm_up`.
CUT_KERNELS: Final = Kernels("adjustments", _smallest_cut)
