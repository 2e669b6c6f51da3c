"""Forces on the teeth and abutments of a framework, split along and across their long axes."""

from dataclasses import dataclass

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.planning.frame_forces import FrameForces


@dataclass(frozen=True)
class SplitForces:
    """Forces of one framework in p poses as settings have it, hinge frame, N per 100 N.

    Attributes
    ----------
    balanced : ndarray, shape (p,)
        Where supports balance the load; elsewhere all forces are 0.
    teeth_along_n, teeth_across_n : ndarray, shape (p, t, 3)
        On each replacement tooth: parts of the force along its long axis, and across it.
    abutments_along_n, abutments_across_n : ndarray, shape (p, a, 3)
        On each abutment by the framework, in the same way.
    """

    balanced: Bools
    teeth_along_n: Floats
    teeth_across_n: Floats
    abutments_along_n: Floats
    abutments_across_n: Floats


def split_forces(frame: FrameForces) -> SplitForces:
    """Return the forces of a framework in every pose, split.

    Parameters
    ----------
    frame : FrameForces
        Its forces; the first variant is taken.
    """
    teeth = _split(frame.teeth_n[0], frame.tooth_roots)
    abutments = _split(frame.abutments_n[0], frame.abutment_roots)
    return SplitForces(frame.balanced[0], *teeth, *abutments)


def _split(forces: Floats, roots: Floats) -> tuple[Floats, Floats]:
    """Return the parts of forces (..., 3) along unit vectors (..., 3), and across them."""
    along = np.sum(forces * roots, axis=-1, keepdims=True) * roots
    return along, forces - along
