"""The page for the patient: which teeth, what they do, how much, and what may come next."""

from dataclasses import dataclass
from typing import Final

from kinematics.checkup_result import Checkup
from kinematics.planning.wording import enumeration
from scenes.arch_scenes import LOWER, UPPER
from scenes.plain_findings import PlainItem, plain_items
from scenes.ringed_teeth import RingedArch, ringed_arch
from scenes.tooth_names import kinds_explained

#: How many things are told; more would alarm rather than help.
_MOST_TOLD: Final = 4


@dataclass(frozen=True)
class PatientPage:
    """What the page for the patient says.

    Attributes
    ----------
    items : tuple of PlainItem
        What calls for attention, gravest first.
    more : tuple of str
        What the further points are about, one entry a point.
    pictures : tuple of RingedArch
        Where these teeth are, by arch.
    kinds : tuple of (str, str)
        Kinds of teeth that are named, and what they are.
    replacement_teeth : bool
        Whether the case has replacement teeth, which are then explained.
    """

    items: tuple[PlainItem, ...]
    more: tuple[str, ...]
    pictures: tuple[RingedArch, ...]
    kinds: tuple[tuple[str, str], ...]
    replacement_teeth: bool


def patient_page(checkup: Checkup, replacement_teeth: tuple[int, ...]) -> PatientPage:
    """Return the page for the patient.

    Parameters
    ----------
    checkup : Checkup
        What was computed.
    replacement_teeth : tuple of int
        ISO 3950 numbers.
    """
    items = plain_items(checkup.findings, replacement_teeth)
    told = items[:_MOST_TOLD]
    teeth = tuple(dict.fromkeys(code for item in told for code in item.teeth))
    arches = ((checkup.upper, UPPER), (checkup.lower, LOWER))
    pictures = tuple(
        picture for arch, side in arches if (picture := ringed_arch(arch, side, teeth))
    )
    return PatientPage(
        items=told,
        more=tuple(_short_title(item) for item in items[_MOST_TOLD:]),
        pictures=pictures,
        kinds=kinds_explained(teeth),
        replacement_teeth=bool(replacement_teeth),
    )


def _short_title(item: PlainItem) -> str:
    """Return the teeth of an item by their numbers alone."""
    if not item.teeth:
        return "your bite"
    return f"{'teeth' if len(item.teeth) > 1 else 'tooth'} {enumeration(item.teeth)}"
