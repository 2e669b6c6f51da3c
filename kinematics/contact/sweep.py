"""Closure, guide, tracks, patches and gaps along one excursion."""

from dataclasses import dataclass

from kinematics.contact.closure import Closures
from kinematics.contact.contacts import Patches
from kinematics.conventions import Bools, Floats, Ints
from kinematics.guidance.excursions import Excursion
from kinematics.guidance.mandible import JawPositions

GUIDED_BY_TEETH = 0
GUIDED_BY_TABLE = 1
GUIDED_BY_NOTHING = 2


@dataclass(frozen=True)
class Sweep:
    """One excursion in n poses, the first at its start (MI or CR).

    Attributes
    ----------
    excursion : Excursion
        Name, azimuth and start.
    travel_mm : ndarray, shape (n,)
        Horizontal travel of the lower incisal point from the start, increasing.
    crossover : ndarray, shape (n,)
        True beyond edge-to-edge: shown, not judged.
    edge_to_edge_mm : float or None
        Travel at edge-to-edge, None where it is not reached.
    positions : JawPositions
        Advances, shift, condyles and poses at opening 0.
    opening_rad : ndarray, shape (n,)
        Opening at closure (teeth or table, whichever comes first).
    poses : ndarray, shape (n, 4, 4)
        hinge_from_lower at closure.
    guide : ndarray, shape (n,)
        GUIDED_BY_TEETH, GUIDED_BY_TABLE or GUIDED_BY_NOTHING.
    closures : Closures
        First touch of the teeth.
    runner_up : Closures
        First touch when the first tooth pair is left out.
    runner_up_gap_mm : ndarray, shape (n,)
        Arc gap of the runner-up at its own contact; inf where there is none.
    incisal_point : ndarray, shape (n, 3)
        Lower incisal point in the hinge frame, mm.
    patches : Patches
        Contact patches within `tolerance_mm`.
    tolerance_mm : float
        Distance up to which two surfaces count as touching.
    upper_codes, lower_codes : tuple of int
        Teeth of the rows and columns of `pair_gap_mm`.
    pair_gap_mm : ndarray, shape (n, uppers, lowers)
        Shortest distance of every tooth pair; inf beyond `gap_limit_mm`.
    gap_limit_mm : float
        Distance beyond which gaps are not measured.
    table_opening_rad : ndarray, shape (n,), or None
        Opening at which the tip meets the incisal guide table; None where there is no table.
    """

    excursion: Excursion
    travel_mm: Floats
    crossover: Bools
    edge_to_edge_mm: float | None
    positions: JawPositions
    opening_rad: Floats
    poses: Floats
    guide: Ints
    closures: Closures
    runner_up: Closures
    runner_up_gap_mm: Floats
    incisal_point: Floats
    patches: Patches
    tolerance_mm: float
    upper_codes: tuple[int, ...]
    lower_codes: tuple[int, ...]
    pair_gap_mm: Floats
    gap_limit_mm: float
    table_opening_rad: Floats | None = None
