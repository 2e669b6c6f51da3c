"""Teeth without a root of their own, in units set up together: bases, bridges, implants."""

from dataclasses import dataclass
from typing import Final

from kinematics.planning.articulation_schools import CarriedBy, Opposite
from kinematics.planning.free_ends import counting_teeth, extends
from kinematics.planning.joined_teeth import Bridge
from kinematics.planning.judging import DentureBase
from kinematics.planning.occlusion import Occlusion
from kinematics.tooth_codes import arch_place, is_posterior, is_upper, opponent, place

#: Steps along the arch from the place opposite within which teeth may meet.
_BESIDE: Final = 1


@dataclass(frozen=True)
class ReplacedUnit:
    """Some teeth of one arch whose articulation is chosen together.

    Attributes
    ----------
    name : str
        Name of the base or bridge, or "implants of the upper arch".
    kind : str
        What carries them; see the table of schools.
    teeth : tuple of int
        ISO 3950 numbers, from the patient's right to left.
    opposite : str
        "complete denture" where every opposing tooth is a replacement tooth.
    base : DentureBase or None
        The base they stand on, if they do.
    unopposed : tuple of int
        Those of them opposite to which no tooth stands, nor one beside that place.
    """

    name: str
    kind: CarriedBy
    teeth: tuple[int, ...]
    opposite: Opposite
    base: DentureBase | None = None
    unopposed: tuple[int, ...] = ()

    @property
    def is_upper(self) -> bool:
        """Which arch they stand in."""
        return is_upper(self.teeth[0])

    @property
    def has_canine(self) -> bool:
        """Whether a canine is among them."""
        return any(place(code) == 3 for code in self.teeth)

    @property
    def opposed(self) -> tuple[int, ...]:
        """Those of them opposite to which something stands: of which schools can be asked."""
        return tuple(code for code in self.teeth if code not in self.unopposed)


def replaced_units(occlusion: Occlusion) -> tuple[ReplacedUnit, ...]:
    """Return the units of both arches: denture bases, then bridges, then crowns on implants."""
    found = [
        _unit(occlusion, base.name, _kind(occlusion, base), base.teeth, base)
        for base in occlusion.bases
    ]
    bridges = [unit for unit in occlusion.joined if isinstance(unit, Bridge)]
    on_implants = {item.tooth for item in occlusion.conditions if item.implant}
    for unit in bridges:
        kind: CarriedBy = "implants" if on_implants.issuperset(unit.abutments) else "bridge"
        found.append(_unit(occlusion, unit.name, kind, unit.pontics))
    implants = on_implants - occlusion.replacement_teeth - occlusion.pontics
    for upper in (True, False):
        teeth = tuple(code for code in implants if is_upper(code) == upper)
        arch = "upper" if upper else "lower"
        if teeth:
            found.append(_unit(occlusion, f"implants of the {arch} arch", "implants", teeth))
    return tuple(found)


def _unit(
    occlusion: Occlusion,
    name: str,
    kind: CarriedBy,
    teeth: tuple[int, ...],
    base: DentureBase | None = None,
) -> ReplacedUnit:
    opposing = _arch_codes(occlusion, upper=not is_upper(teeth[0]))
    complete = bool(opposing) and occlusion.replacement_teeth.issuperset(opposing)
    opposite: Opposite = "complete denture" if complete else "other teeth"
    ordered = tuple(sorted(teeth, key=arch_place))
    return ReplacedUnit(name, kind, ordered, opposite, base, _unopposed(ordered, opposing))


def _unopposed(teeth: tuple[int, ...], opposing: tuple[int, ...]) -> tuple[int, ...]:
    """Return the teeth opposite to whose place, or beside that, no tooth stands."""
    places = [arch_place(code) for code in opposing]
    return tuple(
        code
        for code in teeth
        if all(abs(arch_place(opponent(code)) - at) > _BESIDE for at in places)
    )


def _arch_codes(occlusion: Occlusion, upper: bool) -> tuple[int, ...]:
    return (occlusion.casts.upper if upper else occlusion.casts.lower).codes


def _kind(occlusion: Occlusion, base: DentureBase) -> CarriedBy:
    """Return what carries a base: by whether teeth of its arch stand behind it, and in front."""
    upper = is_upper(base.teeth[0])
    natural = counting_teeth(occlusion, upper)
    if not natural:
        return "complete denture"
    own = [other for other in occlusion.bases if is_upper(other.teeth[0]) == upper]
    free = {side for other in own for side in _free_sides(other, natural)}
    if extends(base, natural):
        return "distal extension, both sides" if len(free) == 2 else "distal extension, one side"
    in_front = not any(is_posterior(code) for code in base.teeth)
    has_incisor = any(place(code) < 3 for code in base.teeth)
    return "anterior" if in_front and has_incisor else "tooth-bounded"


def _free_sides(base: DentureBase, natural: tuple[int, ...]) -> set[str]:
    """Return the sides on which a base ends behind without a natural tooth."""
    places = [arch_place(code) for code in base.teeth]
    stands = [arch_place(code) for code in natural]
    found = set()
    if not any(at < min(places) for at in stands):
        found.add("right")
    if not any(at > max(places) for at in stands):
        found.add("left")
    return found
