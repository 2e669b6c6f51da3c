"""The same contacts of the same teeth, judged by every scheme they could be given."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import get_args

from kinematics.contact.sweep import Sweep
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.base_rules import Place, place_in
from kinematics.planning.findings import Severity
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.interference import interferences
from kinematics.planning.judging import BaseScheme, Scheme
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.replaced_units import ReplacedUnit
from kinematics.planning.replacement import contacts_of_base
from kinematics.planning.unit_contacts import SideName
from kinematics.planning.wording import excursion_label
from kinematics.tooth_codes import is_right, is_upper


@dataclass(frozen=True)
class JudgedContact:
    """One contact or approach of a unit in one excursion, as one scheme judges it.

    Attributes
    ----------
    pair : (int, int)
        Upper and lower tooth.
    excursion : str
        Name of the excursion; " from CR" is added where it starts there.
    place : str
        Where the pair stands in it.
    side : str
        Side on which the tooth of the unit stands, "right" or "left".
    severity : str
        "note", "attention" or "serious".
    from_mi : bool
        Whether it is a movement from MI other than a retrusion.
    touches : bool
        False of a near approach.
    """

    pair: Pair
    excursion: str
    place: Place
    side: SideName
    severity: Severity
    from_mi: bool
    touches: bool = True

    @property
    def is_against(self) -> bool:
        """Whether it is against the scheme."""
        return self.severity != "note"


@dataclass(frozen=True)
class OtherWay:
    """The same set-up and movements, judged by one scheme.

    Attributes
    ----------
    scheme : str
        Scheme of the base; of bridges and implants that of the natural teeth.
    chosen : bool
        Whether it is the one that the case has.
    serious, attention, allowed : int
        How many contacts and approaches of the unit, over all excursions, would be serious, would
        call for attention, or would be notes only.
    against : tuple of (int, int)
        Pairs, upper and lower tooth, that would be against it.
    """

    scheme: str
    chosen: bool
    serious: int
    attention: int
    allowed: int
    against: tuple[Pair, ...]


def judged_by_schemes(
    occlusion: Occlusion, sweeps: Sequence[Sweep], unit: ReplacedUnit
) -> dict[str, tuple[JudgedContact, ...]]:
    """Judge the contacts of a unit by every scheme in turn; nothing else of the case changes.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    sweeps : sequence of Sweep
        The excursions.
    unit : ReplacedUnit
        The teeth: of a base judged by the schemes of bases, else as natural teeth are.
    """
    if unit.base is None:
        schemes: tuple[Scheme, ...] = get_args(Scheme)
        return {
            scheme: tuple(_as_natural_teeth(occlusion, sweeps, unit, scheme)) for scheme in schemes
        }
    base_schemes: tuple[BaseScheme, ...] = get_args(BaseScheme)
    return {scheme: tuple(_on_base(occlusion, sweeps, unit, scheme)) for scheme in base_schemes}


def other_ways(found: dict[str, tuple[JudgedContact, ...]], chosen: str) -> tuple[OtherWay, ...]:
    """Return what `judged_by_schemes` found in numbers, scheme by scheme."""
    return tuple(_counted(scheme, contacts, chosen) for scheme, contacts in found.items())


def _counted(scheme: str, contacts: tuple[JudgedContact, ...], chosen: str) -> OtherWay:
    severities = [contact.severity for contact in contacts]
    return OtherWay(
        scheme,
        scheme == chosen,
        severities.count("serious"),
        severities.count("attention"),
        severities.count("note"),
        tuple(dict.fromkeys(contact.pair for contact in contacts if contact.is_against)),
    )


def _on_base(
    occlusion: Occlusion, sweeps: Sequence[Sweep], unit: ReplacedUnit, scheme: BaseScheme
) -> Iterable[JudgedContact]:
    by_label = {excursion_label(sweep.excursion): sweep for sweep in sweeps}
    bases = tuple(
        replace(base, scheme=scheme) if base.name == unit.name else base for base in occlusion.bases
    )
    (base,) = (base for base in bases if base.name == unit.name)
    for contact in contacts_of_base(replace(occlusion, bases=bases), sweeps, base):
        pair = (
            (contact.tooth, contact.opponent)
            if is_upper(contact.tooth)
            else (contact.opponent, contact.tooth)
        )
        judged = _judged(by_label[contact.excursion], pair, contact.tooth, contact.severity)
        yield replace(judged, touches=contact.touches)


def _as_natural_teeth(
    occlusion: Occlusion, sweeps: Sequence[Sweep], unit: ReplacedUnit, scheme: Scheme
) -> Iterable[JudgedContact]:
    changed = replace(occlusion, settings=replace(occlusion.settings, scheme=scheme))
    for sweep in sweeps:
        for item in interferences(changed, sweep):
            own = [code for code in item.pair or () if code in unit.teeth]
            if item.pair is not None and own:
                yield _judged(sweep, item.pair, own[0], item.severity)


def _judged(sweep: Sweep, pair: Pair, own: int, severity: Severity) -> JudgedContact:
    excursion = sweep.excursion
    from_mi = excursion.start == "MI" and excursion.name != RETRUSION
    side: SideName = "right" if is_right(own) else "left"
    label, place = excursion_label(excursion), place_in(sweep, pair)
    return JudgedContact(pair, label, place, side, severity, from_mi)
