"""A tooth raised or lowered along its long axis until it just stops against the other arch."""

from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.contact.closure import MEETS, Closures, close
from kinematics.contact.pair import Pair, lower_tree, upper_tree
from kinematics.conventions import Floats
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.trees import Tree
from kinematics.tooth_codes import is_upper
from kinematics.trial.rigid import shifted
from kinematics.trial.standing import TrialTooth

#: A tooth just stops when its first contact comes within this arc of the wanted closure, mm: far
#: below the 0.002 mm within which contacts count as stops.
STOPS_MM: Final = 1e-4
#: No tooth is moved farther than this along its axis to reach its opponents, mm. Chosen for this
#: program.
FARTHEST_MM: Final = 4.0
_ROUNDS: Final = 30


def set_to_opponents(
    tooth: TrialTooth, opposing: Tree, pose: Floats, opening_rad: float
) -> tuple[TrialTooth, str]:
    """Return a tooth that first touches the other arch at a given opening, and what hinders it.

    Parameters
    ----------
    tooth : TrialTooth
        In the coordinates of its arch.
    opposing : Tree
        Of the other arch.
    pose : ndarray, shape (4, 4)
        hinge_from_lower in MI at opening 0.
    opening_rad : float
        Opening at which it is to stop.

    Returns
    -------
    tooth : TrialTooth
        Moved along its own axis; as it was where it reaches no opponent.
    note : str
        Why it does not stop; empty where it does.
    """
    code, up = tooth.tooth.code, tooth.axes[:, 2]
    raised_mm, low, high = 0.0, -np.inf, np.inf
    for _ in range(_ROUNDS):
        found = _closure(shifted(tooth, raised_mm * up), opposing, pose)
        over_mm = (float(found.opening_rad[0]) - opening_rad) * float(found.radius_mm[0])
        if abs(over_mm) <= STOPS_MM:
            return shifted(tooth, raised_mm * up), ""
        if over_mm > 0.0:
            high = raised_mm
        else:
            low = raised_mm
        # At an end of its way, with its opponents still beyond, or with none at all.
        if found.status[0] != MEETS or low >= FARTHEST_MM or high <= -FARTHEST_MM:
            break
        step = float(np.clip(raised_mm - over_mm, -FARTHEST_MM, FARTHEST_MM))
        raised_mm = step if low < step < high else 0.5 * (low + high)
    return tooth, (
        f"{code} reaches no opponent within {FARTHEST_MM:g} mm along its long axis: it stands at "
        "the height of what was there, without a stop"
    )


def _closure(tooth: TrialTooth, opposing: Tree, pose: Floats) -> Closures:
    """Return where one tooth first meets the other arch."""
    codes = np.full(len(tooth.faces), tooth.tooth.code, dtype=np.int64)
    alone = Arch(mesh_of(tooth.vertices, tooth.faces), codes, (tooth.tooth,))
    if is_upper(tooth.tooth.code):
        return close(Pair(upper_tree(alone), opposing), pose[None])
    return close(Pair(opposing, lower_tree(alone)), pose[None])
