"""What the settings of the built-in dentition say of one side, by crown type."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from kinematics.teeth.centric_stops import code_of
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.tooth_codes import is_right, place

#: Share of the rise of incisors in an open bite that reaches the canines.
RAISED_CANINE_SHARE: Final = 0.5


@dataclass(frozen=True)
class SideSettings:
    """Lost, moved and worn teeth of one side; right ones mirrored to the left.

    Attributes
    ----------
    left : bool
        Which side it is.
    scale : float
        Factor from these teeth to the real ones.
    crossed : frozenset of int
        Places from the midline of the pairs in crossbite.
    over_erupted : mapping of str to float
        Crown type and how far it has moved along its axis, mm before scaling.
    worn : mapping of str to mapping of str to float
        Crown type and what it has lost, see `worn` of `kinematics.teeth.standing_tooth`, mm before
        scaling.
    raised : mapping of str to float
        Crown type of the upper front teeth of an open bite, and how far each is raised, mm before
        scaling.
    replacements, missing : frozenset of str
        Crown types; a third molar that is not there counts as missing, a replacement tooth never.
    """

    left: bool
    scale: float
    crossed: frozenset[int]
    over_erupted: Mapping[str, float]
    worn: Mapping[str, Mapping[str, float]]
    raised: Mapping[str, float]
    replacements: frozenset[str]
    missing: frozenset[str]

    def changes_as(self, other: "SideSettings") -> bool:
        """Tell whether the other side is the mirror image of this one."""
        mine, theirs = (
            (side.over_erupted, side.worn, side.replacements, side.missing)
            for side in (self, other)
        )
        return mine == theirs

    def code(self, kind: str) -> int:
        """Return the ISO 3950 number of a crown type."""
        return code_of(kind, self.left)


def _raised(settings: DentitionSettings) -> dict[str, float]:
    if settings.open_bite_mm == 0.0:
        return {}
    full = (settings.overbite_mm + settings.open_bite_mm) / settings.size_scale
    return {"U1": full, "U2": full, "U3": RAISED_CANINE_SHARE * full}


def side_settings(settings: DentitionSettings, left: bool) -> SideSettings:
    """Return what the settings say of one side."""
    scale = settings.size_scale
    there = settings.standing(settings.replacements)
    kinds = {
        code_of(f"{arch}{number}", left): f"{arch}{number}"
        for arch in "UL"
        for number in range(1, 9)
    }

    def unscaled(by_code: Mapping[int, float]) -> dict[str, float]:
        return {kinds[code]: mm / scale for code, mm in sorted(by_code.items()) if code in kinds}

    return SideSettings(
        left=left,
        scale=scale,
        crossed=frozenset(place(code) for code in settings.crossbite if is_right(code) != left),
        over_erupted=unscaled(settings.over_erupted_mm),
        worn={
            kinds[code]: {name: mm / scale for name, mm in loss.items()}
            for code, loss in sorted(settings.worn().items())
            if code in kinds
        },
        raised=_raised(settings),
        replacements=frozenset(kinds[code] for code in settings.replacements if code in kinds),
        missing=frozenset(kind for code, kind in kinds.items() if code not in there),
    )
