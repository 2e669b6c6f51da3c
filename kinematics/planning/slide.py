"""From the first contact in CR to MI: is there a slide, which way, and does it change height?"""

from dataclasses import dataclass


@dataclass(frozen=True)
class CentricSlide:
    """The slide, read at the lower incisal point.

    Attributes
    ----------
    first_contact_upper, first_contact_lower : int
        Teeth that meet first in CR.
    first_contact_point : tuple of float
        Hinge frame, mm.
    forward_mm, left_mm, up_mm : float
        From first contact in CR to MI.
    opening_cr_deg : float
        Opening at first contact in CR, less that of MI.
    kind : str
        "none", "slide" (changes height) or "intercuspal contact area" (does not).
    """

    first_contact_upper: int
    first_contact_lower: int
    first_contact_point: tuple[float, float, float]
    forward_mm: float
    left_mm: float
    up_mm: float
    opening_cr_deg: float
    kind: str
