"""Numbers, teeth and movements as words, the same way everywhere in pictures and in the report."""

from dataclasses import replace
from typing import Final

from kinematics.conventions import RIGHT
from kinematics.guidance.excursions import Excursion
from kinematics.planning import wording
from kinematics.planning.findings import Figure
from kinematics.planning.guidance_kinds import working_side
from kinematics.tooth_codes import is_posterior, is_right, place

_UNIT_SIGN: Final = {"deg": "°", "um": "µm", "N/N": "N across per N along"}
_DECIMALS: Final = {"mm": 2, "deg": 1, "um": 0, "N/N": 2, "mm2": 2, "mm²": 2, "N": 0, "per mm": 3}
_MINUS: Final = "−"

#: Said beside every statement that the scatter of the records leaves open.
UNDETERMINED: Final = "not determined by these records"

#: What the letters of short cusp names stand for.
CUSP_LETTERS: Final = (
    "M mesial, D distal, B buccal, L lingual; so 36 DL is the distolingual cusp of 36"
)


def number(value: float, decimals: int) -> str:
    """Return a number with a true minus sign, and never "minus nothing"."""
    text = f"{value:.{decimals}f}"
    if float(text) == 0.0:
        text = f"{0.0:.{decimals}f}"
    return text.replace("-", _MINUS)


def length(value_mm: float) -> str:
    """Return a length with its unit: micrometres where it is small."""
    return wording.length(value_mm + 0.0).replace("-", _MINUS)


def tolerance(value_mm: float) -> str:
    """Return a contact tolerance in micrometres, as foils are named."""
    return f"{number(1000.0 * value_mm, 0)} µm"


def degrees(value_deg: float) -> str:
    """Return an angle with its unit."""
    return f"{number(value_deg, 1)}°"


def figure(item: Figure) -> str:
    """Return the value of a figure with its unit."""
    if item.unit == "mm":
        return length(item.value)
    sign = _UNIT_SIGN.get(item.unit, item.unit)
    if item.unit == "" and float(item.value).is_integer():
        return number(item.value, 0)
    value = number(item.value, _DECIMALS.get(item.unit, 2))
    return f"{value}{sign}" if sign == "°" else f"{value} {sign}".rstrip()


def travel(start_mm: float | None, end_mm: float | None) -> str:
    """Return a range of travel; empty where there is none."""
    if start_mm is None and end_mm is None:
        return ""
    ends = list(dict.fromkeys(number(at, 1) for at in (start_mm, end_mm) if at is not None))
    return f"at {ends[0]} mm" if len(ends) == 1 else f"{ends[0]} to {ends[1]} mm"


def counted(number: int, what: str) -> str:
    """Return how many of something: "1 stop", "2 stops"."""
    return f"{number} {what}{'s' * (number != 1)}"


def severity_count(severity: str, count: int) -> str:
    """Return how many findings of a severity there are."""
    plural = "s" if severity == "note" and count != 1 else ""
    return f"{count} {severity}{plural}"


def pair(upper: int | None, lower: int | None) -> str:
    """Return the upper over the lower tooth number, or the one that is known."""
    known = [str(code) for code in (upper, lower) if code]
    return "/".join(known)


def place_words(place: tuple[float, float, float]) -> str:
    """Return a point of the hinge frame in words."""
    forward, left, up = place
    side = "to the left of" if left >= 0.0 else "to the right of"
    level = "above" if up >= 0.0 else "below"
    return (
        f"{number(forward, 1)} mm in front of the hinge axis, {number(abs(left), 1)} mm {side} the"
        f" midplane, {number(abs(up), 1)} mm {level} the hinge axis"
    )


def side_word(code: int) -> str:
    """Return the patient's side of a tooth."""
    return "right" if is_right(code) else "left"


def role_of(code: int, excursion: Excursion) -> str:
    """Return "working" or "nonworking" for a tooth, empty where neither side works."""
    side = working_side(excursion)
    if side == 0:
        return ""
    return "working" if (side == RIGHT) == is_right(code) else "nonworking"


def region(code: int) -> str:
    """Return where a tooth stands: back teeth and canine by side, incisors together."""
    if is_posterior(code):
        return f"{side_word(code)} back teeth"
    if place(code) == 3:
        return f"{side_word(code)} canine"
    return "incisors"


def excursion_title(excursion: Excursion) -> str:
    """Return the name of an excursion as a heading, with its azimuth where it lies between."""
    words = wording.excursion_words(replace(excursion, start="MI"))
    return words[0].upper() + words[1:].replace(" degrees", "°")


def start_words(excursion: Excursion) -> str:
    """Return where the travel is counted from."""
    if excursion.start == "CR":
        return "from centric relation (CR)"
    return "from maximal intercuspation (MI)"


def side_words(excursion: Excursion) -> str:
    """Return which side works, in words; empty for a straight movement."""
    side = working_side(excursion)
    return "" if side == 0 else f"{'right' if side == RIGHT else 'left'} side working"
