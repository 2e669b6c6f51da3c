"""In how many samples something holds, how sure that is, and whether it is settled."""

import math
from typing import Final

import numpy as np
from numpy.typing import NDArray

from kinematics.uncertainty.found import Settled, Share

Bools = NDArray[np.bool_]

#: At least so many of all samples agree on what is settled. Chosen for this program.
AGREE: Final = 0.95
#: Half width of a 95 % interval, in standard errors.
WIDE: Final = 1.959963984540054


def share_of(holds: Bools) -> Share:
    """Return how many of some samples something holds in.

    Its interval is Wilson's score interval for independent samples (J Am Stat Assoc 1927;22:209).
    Samples that fill their range evenly scatter less, so that it is on the safe side.

    Parameters
    ----------
    holds : ndarray, shape (n,)
        Of every sample that counts.
    """
    count, of = int(np.count_nonzero(holds)), len(holds)
    if not of:
        return Share(0, 0, 0.0, 1.0)
    share, wide = count / of, WIDE**2 / of
    middle = (share + 0.5 * wide) / (1.0 + wide)
    half = WIDE * math.sqrt(share * (1.0 - share) / of + 0.25 * wide / of) / (1.0 + wide)
    return Share(count, of, max(0.0, middle - half), min(1.0, middle + half))


def settled(share: float) -> Settled:
    """Return whether a share of samples settles a question.

    The share itself is judged, not its interval: more samples then tell the same thing more surely,
    and do not turn one answer into another.
    """
    if share >= AGREE:
        return "holds"
    return "does not hold" if share <= 1.0 - AGREE else "not settled"


def is_left_open(share: Share) -> bool:
    """Tell whether the interval of a share leaves open what the share settles."""
    return settled(share.share) != "not settled" and "not settled" in map(
        settled, (share.low, share.high)
    )
