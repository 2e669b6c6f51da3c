"""A tilt of the cast that gives clasps alike undercuts and guide planes little to cut."""

from collections.abc import Callable, Iterable, Sequence
from typing import Final

from kinematics.planning.surveying.survey import TiltSearch

#: Steps of the search, degrees: a grid by the first, then about the best by each other.
STEPS_DEG: Final = (2.5, 1.0, 0.5)
#: What a missing undercut weighs against unlike undercuts and cuts of guide planes.
SHORTFALL_WEIGHT: Final = 4.0
#: What a degree of tilt costs, mm: a tilt must earn so much.
PER_DEGREE_MM: Final = 0.01
#: A crown too low for a guide plane counts as so much to cut, mm.
TOO_LOW_MM: Final = 1.0
#: How far apart heights are in the search, mm.
SEARCH_STEP_MM: Final = 0.05
#: Costs that differ by less are equal, mm.
_EQUAL_MM: Final = 1e-9

#: The criterion in words, as the report tells it. All weights are chosen for this program.
CRITERION: Final = (
    f"{SHORTFALL_WEIGHT:g} times what clasped teeth lack of the wanted undercut (sum), plus the"
    " difference between the deepest and the shallowest of their undercuts (each counted up to"
    " twice the wanted one), plus what guide planes of the wanted height need cut (sum), plus"
    f" {PER_DEGREE_MM:g} mm a degree of tilt; the least wins"
)


def cost_mm(
    usable_mm: Sequence[float], cuts_mm: Iterable[float], wanted_mm: float, tilt_deg: float
) -> float:
    """Return what a tilt costs: see `CRITERION`.

    Parameters
    ----------
    usable_mm : sequence of float
        Usable undercut of every clasped tooth.
    cuts_mm : iterable of float
        Cut of every guide plane; inf where the crown is too low.
    wanted_mm : float
        Wanted undercut.
    tilt_deg : float
        Angle from the occlusal plane.
    """
    counted = [min(value, 2.0 * wanted_mm) for value in usable_mm]
    lacking = sum(max(0.0, wanted_mm - value) for value in counted)
    unlike = max(counted) - min(counted) if counted else 0.0
    cut = sum(min(value, TOO_LOW_MM) for value in cuts_mm)
    return SHORTFALL_WEIGHT * lacking + unlike + cut + PER_DEGREE_MM * tilt_deg


def searched_tilt(
    cost: Callable[[float, float], float], limit_deg: float
) -> tuple[float, float, TiltSearch]:
    """Return the tilt (forward, left) of least cost on a grid that is refined about the best.

    Parameters
    ----------
    cost : callable
        Of a tilt, forward and to the left, degrees.
    limit_deg : float
        No tilt goes farther in any direction.
    """
    known: dict[tuple[float, float], float] = {}

    def tried(tilts: Iterable[tuple[float, float]]) -> None:
        for forward, left in tilts:
            if (forward, left) not in known and forward**2 + left**2 <= limit_deg**2 + 1e-9:
                known[forward, left] = cost(forward, left)

    reach = int(limit_deg / STEPS_DEG[0])
    grid = [k * STEPS_DEG[0] for k in range(-reach, reach + 1)]
    tried((forward, left) for forward in grid for left in grid)
    for step in STEPS_DEG[1:]:
        middle, before = _best(known), None
        while middle != before:
            before = middle
            tried(
                (round(middle[0] + i * step, 6), round(middle[1] + j * step, 6))
                for i in (-1, 0, 1)
                for j in (-1, 0, 1)
            )
            middle = _best(known)
    forward, left = _best(known)
    return forward, left, TiltSearch(len(known), known[forward, left], known[0.0, 0.0])


def _best(known: dict[tuple[float, float], float]) -> tuple[float, float]:
    """Return the tilt of least cost; of equal ones the smallest, then the least forward."""
    least = min(known.values())
    equal = [tilt for tilt, value in known.items() if value <= least + _EQUAL_MM]
    return min(equal, key=lambda tilt: (round(tilt[0] ** 2 + tilt[1] ** 2, 9), tilt))
