"""Which contacts hold the other teeth open but only graze: too little and too briefly to guide."""

from typing import Final

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats
from kinematics.planning.contact_runs import lasts

#: Teeth and mucosa give way by this much at once: what holds open by more guides under any load.
GRAZING_HEIGHT_MM: Final = 0.1
#: What holds open on end for less travel than this is passed over before it guides.
GRAZING_TRAVEL_MM: Final = 0.5
GRAZING_SOURCE: Final = (
    "chosen for this program, no published rule being known to it; teeth give way along their axis"
    " by 25 to 100 µm (Kim et al., Clin Oral Implants Res 2005;16:26-35, from memory)"
)


def grazes(sweep: Sweep, held_mm: Floats, judged: Bools, tolerance_mm: float) -> bool:
    """Tell whether a contact that holds the other teeth open only grazes.

    Parameters
    ----------
    sweep : Sweep
        One excursion.
    held_mm : ndarray, shape (n,)
        How far it holds them open, 0 where it does not.
    judged : ndarray, shape (n,)
        The poses in which it is judged.
    tolerance_mm : float
        Contact tolerance.

    Returns
    -------
    bool
        True if it holds open by no more than `GRAZING_HEIGHT_MM`, and by more than the tolerance
        over less than `GRAZING_TRAVEL_MM` on end. True too where it holds nothing open.
    """
    most = float(np.max(held_mm, where=judged, initial=0.0))
    guides = lasts(sweep, judged & (held_mm > tolerance_mm), GRAZING_TRAVEL_MM)
    return most <= GRAZING_HEIGHT_MM and not guides
