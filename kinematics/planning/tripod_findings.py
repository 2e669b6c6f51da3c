"""Casts that cannot be put together by hand with certainty, as a finding."""

from collections.abc import Container
from typing import Final

from kinematics.planning.findings import Figure, Finding, Severity, margin_to, told_apart
from kinematics.planning.stops import Stop
from kinematics.planning.tripod import LEAST_WIDTH_MM, Tripod, tripod
from kinematics.planning.wording import length, sentence

NO_TRIPOD: Final = "no bilateral tripod"
_SOURCE: Final = (
    "common practice: a bilateral tripod of stops, or record bases; least width chosen for this"
    " program: a stop off by 0.05 mm then tips the cast by 0.25 mm at a tooth 50 mm away"
)


def tripod_finding(
    stops: tuple[Stop, ...],
    replaced: Container[int],
    scatter_mm: float,
    rests_on_hand: bool,
) -> Finding | None:
    """Return that the natural stops do not hold the casts in one place; None where they do.

    Parameters
    ----------
    stops : tuple of Stop
        Centric stops in MI.
    replaced : container of int
        Replacement teeth and pontics, which the casts of a record do not have.
    scatter_mm : float
        Scatter of the records that MI rests on.
    rests_on_hand : bool
        Whether MI of this case rests on casts as they were put together, without a bite record.
    """
    found = tripod(stops, replaced)
    if found.holds:
        return None
    severity: Severity = "attention" if rests_on_hand else "note"
    threshold = Figure("least width of a tripod", LEAST_WIDTH_MM, "mm")
    margin = margin_to(found.width_mm, threshold)
    check = "; MI of this case rests on no bite record: compare it with the mouth"
    return Finding(
        kind=NO_TRIPOD,
        severity=severity,
        text=sentence(
            f"the stops of natural teeth in MI form no bilateral tripod: {_why(found)}; casts"
            " cannot be articulated by hand with certainty, and the record needs record bases with"
            f" occlusion rims{check if rests_on_hand else ''}"
        ),
        figures=(
            Figure("natural stops behind the right canines", float(found.right), ""),
            Figure("natural stops behind the left canines", float(found.left), ""),
            Figure("other natural stops", float(found.front), ""),
            Figure("width of the best tripod", found.width_mm, "mm"),
        ),
        threshold=threshold,
        threshold_source=_SOURCE,
        margin=margin,
        determined=told_apart(scatter_mm, margin.value),
    )


def _why(found: Tripod) -> str:
    """Say what is missing for a tripod."""
    bare = [side for side in ("right", "left") if getattr(found, side) == 0]
    if len(bare) == 2:
        return "behind the canines there is none on either side"
    if bare:
        return f"behind the canines there is none on the {bare[0]}"
    if found.right + found.left + found.front < 3:
        return "there are only two"
    return (
        f"they lie nearly in a line, the best triangle of them only {length(found.width_mm)} wide"
    )
