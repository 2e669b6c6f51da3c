"""Named movements of the jaw, as paths of advances and shift."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Excursion:
    """One movement from MI or CR.

    Attributes
    ----------
    name : str
        "protrusion", "right lateral", "left lateral", "lateroprotrusion A" or "retrusion".
    azimuth_deg : float
        -90 right lateral, 0 protrusion, +90 left lateral; for retrusion 0.
    start : str
        "MI" (travel counted from MI) or "CR" (border excursion, travel counted from CR).
    """

    name: str
    azimuth_deg: float
    start: str
