"""What the parts of a case say of its teeth, and where they contradict each other."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from kinematics.checks import Contradiction
from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.framework_rules import framework_contradictions
from kinematics.planning.joined_teeth import Bridge, Joined, Splint, joined_contradictions
from kinematics.planning.judging import DentureBase
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.teeth.generated_path_settings import RETRUSIVE, GeneratedPath


def called(base: DentureBase) -> str:
    """Return what to call a denture base in a message."""
    return f"denture base '{base.name}'"


@dataclass(frozen=True)
class CaseTeeth:
    """What a case says of its teeth.

    Attributes
    ----------
    dentition : DentitionSettings
        The built-in teeth.
    scanned : bool
        Scanned casts take their place.
    bases, splints, bridges : tuple of DentureBase, Splint and Bridge
        What carries or joins teeth.
    formed : GeneratedPath or None
        Teeth formed by movement.
    mi_in_cr : bool
        Of built-in teeth, that MI and CR are one position.
    conditions : tuple of ToothCondition
        How natural teeth stand.
    """

    dentition: DentitionSettings
    scanned: bool
    bases: tuple[DentureBase, ...]
    splints: tuple[Splint, ...]
    bridges: tuple[Bridge, ...]
    formed: GeneratedPath | None
    mi_in_cr: bool
    conditions: tuple[ToothCondition, ...] = ()

    @property
    def replacements(self) -> tuple[int, ...]:
        """ISO 3950 numbers of the teeth of all denture bases, in their order."""
        return tuple(code for base in self.bases for code in base.teeth)

    @property
    def pontics(self) -> tuple[int, ...]:
        """ISO 3950 numbers of the pontics of all bridges, in their order."""
        return tuple(code for bridge in self.bridges for code in bridge.pontics)

    def may_have(self, code: int) -> bool:
        """Tell whether there may be such a tooth; what scans hold is known when they are read."""
        return self.scanned or code in self._standing

    @cached_property
    def _standing(self) -> frozenset[int]:
        """ISO 3950 numbers of the teeth that are there where they are not scanned."""
        return frozenset(self.dentition.standing(self.carried))

    @property
    def carried(self) -> tuple[int, ...]:
        """ISO 3950 numbers of all teeth on bases and in bridges."""
        return (*self.replacements, *self.pontics)


def teeth_contradictions(teeth: CaseTeeth) -> Iterator[Contradiction]:
    """Yield everything that is said of teeth and cannot be so."""
    if not teeth.scanned:
        keys = ("dentition.missing", "denture_bases", "bridges")
        yield from ((keys, text) for text in teeth.dentition.emptied_arches(teeth.carried))
    yield from _of_bases(teeth)
    yield from _of_formed(teeth)
    for base in teeth.bases:
        yield from _of_base(teeth, base)
    joined: tuple[Joined, ...] = (*teeth.splints, *teeth.bridges)
    yield from joined_contradictions(joined, teeth.may_have, teeth.replacements)
    yield from _of_scans(teeth)
    yield from _of_pontics(teeth)
    yield from framework_contradictions(
        teeth.bases, teeth.conditions, teeth.may_have, teeth.replacements, teeth.pontics
    )


def _of_scans(teeth: CaseTeeth) -> Iterator[Contradiction]:
    """Yield what is said of built-in teeth where scanned ones take their place."""
    if not teeth.scanned:
        return
    missing = teeth.dentition.missing
    told = missing and teeth.dentition == DentitionSettings(missing=missing)
    if told:
        yield (
            ("dentition", "scans"),
            "dentition.missing is about the built-in teeth; scans hold the teeth that are labelled "
            "on them, so that none has to be called missing: leave it out",
        )
    about = {
        "dentition": teeth.dentition != DentitionSettings() and not told,
        "generated_path": teeth.formed is not None,
    }
    for key, given in about.items():
        if given:
            yield (
                (key, "scans"),
                f"{key} is about the built-in teeth, but scans are given: leave one of them out",
            )


def _of_bases(teeth: CaseTeeth) -> Iterator[Contradiction]:
    named, carried = teeth.dentition.replacements, teeth.carried
    if named and set(named) != set(carried):
        yield (
            ("dentition.replacements", "denture_bases", "bridges"),
            f"dentition.replacements = {list(named)}, but denture bases and bridges carry "
            f"{list(carried)}: leave the first out, the second is enough",
        )
    for code, count in Counter(teeth.replacements).items():
        if count > 1:
            yield (), f"denture_bases: {code} stands on two bases; name it once"
    for name, count in Counter(base.name for base in teeth.bases).items():
        if count > 1:
            yield (), f"denture_bases: two bases are called '{name}'; give each its own name"


def _of_formed(teeth: CaseTeeth) -> Iterator[Contradiction]:
    path = teeth.formed
    for code in (*path.teeth, *path.spared) if path else ():
        if not teeth.may_have(code):
            yield (
                ("generated_path", "dentition.missing"),
                f"generated_path: the dentition has no tooth {code}; name only upper "
                "teeth that are there",
            )
    asks = path is not None and RETRUSIVE in path.contacts
    # Teeth of scans are not formed; that is refused elsewhere.
    if asks and not teeth.scanned and teeth.mi_in_cr:
        yield (
            ("generated_path.contacts", "maximal_intercuspation"),
            'generated_path.contacts: "retrusion" follows the way from maximal intercuspation '
            "back to centric relation, but both are one position here; set "
            "maximal_intercuspation.advance_right_mm and advance_left_mm, or leave it out",
        )


def _of_base(teeth: CaseTeeth, base: DentureBase) -> Iterator[Contradiction]:
    """Yield what the dentition, or another base, does not leave to a base."""
    where = called(base)
    for code in (*base.teeth, *base.abutments):
        if not teeth.may_have(code):
            yield (
                (),
                f"{where}: the dentition has no tooth {code}; accepted are the permanent teeth, "
                "third molars if they are in dentition.third_molars; an abutment stands, and is "
                "not in dentition.missing",
            )
    for code in base.teeth:
        if code in teeth.dentition.over_erupted_mm:
            yield (
                (),
                f"{where}: {code} is a replacement tooth and cannot be in "
                "dentition.over_erupted_mm",
            )
    for code in base.abutments:
        if code in teeth.replacements:
            yield (
                (),
                f"{where}: its abutment {code} is a replacement tooth; an "
                "abutment is a natural tooth",
            )


def _of_pontics(teeth: CaseTeeth) -> Iterator[Contradiction]:
    for code, count in Counter(teeth.pontics).items():
        if count > 1:
            yield (), f"bridges: {code} is a pontic twice; name it once"
        if code in teeth.dentition.over_erupted_mm:
            yield (), f"bridges: {code} is a pontic and cannot be in dentition.over_erupted_mm"
    for code in {c for b in teeth.bridges for c in b.abutments} & set(teeth.pontics):
        yield (), f"bridges: {code} is both abutment and pontic; an abutment is a natural tooth"
