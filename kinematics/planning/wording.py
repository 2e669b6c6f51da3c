"""Numbers, teeth and movements in plain words, for the sentences of findings."""

import math
from collections.abc import Iterable
from typing import Final

from kinematics.guidance.excursions import Excursion

Pairs = Iterable[tuple[int, int]]

#: Lengths below this are told in micrometres.
_SMALL_MM: Final = 0.0995
#: The smallest length that is told, mm.
LEAST_TOLD_MM: Final = 1e-4


def length(value_mm: float) -> str:
    """Return a length with its unit: micrometres below a tenth of a millimetre."""
    if abs(value_mm) < _SMALL_MM:
        micrometres = 1000.0 * value_mm
        text = f"{micrometres:.{0 if abs(micrometres) >= 9.95 else 1}f}"
        return f"{text} µm" if float(text) else "0 µm"
    return f"{value_mm:.2f} mm"


def at_most(value_mm: float) -> str:
    """Return a length as a bound: what rounds to nothing is told as a tenth of a micrometre."""
    return length(max(value_mm, LEAST_TOLD_MM))


def travel_range(from_mm: float, to_mm: float) -> str:
    """Return a range of travel in words."""
    if f"{from_mm:.1f}" == f"{to_mm:.1f}":
        return f"at {from_mm:.1f} mm"
    return f"from {from_mm:.1f} to {to_mm:.1f} mm"


def pair_name(upper: int, lower: int) -> str:
    """Return a tooth pair, upper first; 0 stands for a part of the cast that is no tooth."""
    names = [str(code) if code > 0 else "no tooth" for code in (upper, lower)]
    return f"{names[0]} on {names[1]}"


def pair_list(pairs: Pairs) -> str:
    """Return tooth pairs as an enumeration."""
    return enumeration([pair_name(upper, lower) for upper, lower in pairs])


def enumeration(items: Iterable[object]) -> str:
    """Return items as "a, b and c"."""
    texts = [str(item) for item in items]
    if len(texts) < 2:
        return "".join(texts)
    return f"{', '.join(texts[:-1])} and {texts[-1]}"


def excursion_label(excursion: Excursion) -> str:
    """Return the name of an excursion, told apart by its start."""
    return excursion.name if excursion.start == "MI" else f"{excursion.name} from CR"


def excursion_words(excursion: Excursion) -> str:
    """Return an excursion as it stands in a sentence."""
    azimuth = excursion.azimuth_deg
    if excursion.name.startswith("lateroprotrusion"):
        side = "right" if azimuth < 0.0 else "left"
        words = f"lateroprotrusion {abs(azimuth):g} degrees to the {side}"
    elif abs(azimuth) == 90.0:
        words = f"{excursion.name} excursion"
    else:
        words = excursion.name
    return words if excursion.start == "MI" else f"{words} from CR"


def sentence(text: str) -> str:
    """Return text with a capital first letter and a full stop."""
    return text[:1].upper() + text[1:] + ("" if text.endswith(".") else ".")


def newtons_across(across_per_along: float) -> str:
    """Return a lateral load in words."""
    if math.isinf(across_per_along):
        return "a force wholly across its long axis"
    return f"{across_per_along:.2f} N across its long axis for every N along it"
