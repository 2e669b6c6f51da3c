"""Which articulation for which teeth: what schools want, what is done, what others would change."""

from collections.abc import Sequence
from dataclasses import dataclass

from kinematics.contact.sweep import Sweep
from kinematics.planning.articulation_schools import schools_for
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.replaced_units import ReplacedUnit, replaced_units
from kinematics.planning.schemes_compared import OtherWay, judged_by_schemes, other_ways
from kinematics.planning.school_answers import Answer, SchoolAnswers, answers_of
from kinematics.planning.stops import Stop
from kinematics.planning.unit_contacts import UnitContacts, unit_contacts


@dataclass(frozen=True)
class SchemeAdvice:
    """What there is to say about the articulation of one unit.

    Attributes
    ----------
    unit : ReplacedUnit
        The teeth.
    scheme : str
        The scheme they have: of bridges and implants that of the natural teeth.
    stopped : tuple of int
        Those of them with a centric stop.
    contacts : tuple of UnitContacts
        What they do, place by place.
    schools : tuple of SchoolAnswers
        What is wanted of them.
    other_ways : tuple of OtherWay
        What each scheme makes of the same set-up.
    """

    unit: ReplacedUnit
    scheme: str
    stopped: tuple[int, ...]
    contacts: tuple[UnitContacts, ...]
    schools: tuple[SchoolAnswers, ...]
    other_ways: tuple[OtherWay, ...]

    def done_at(self, answer: Answer) -> UnitContacts | None:
        """Return what the teeth do where something is wanted; None in MI."""
        here = (answer.place, answer.side)
        return next((item for item in self.contacts if (item.place, item.side) == here), None)


def scheme_advice(
    occlusion: Occlusion, sweeps: Sequence[Sweep], stops: Sequence[Stop]
) -> tuple[SchemeAdvice, ...]:
    """Return the advice on every denture base, bridge and arch with implants.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    sweeps : sequence of Sweep
        The excursions.
    stops : sequence of Stop
        Centric stops in MI.
    """
    held = {code for stop in stops for code in (stop.tooth_upper, stop.tooth_lower)}
    return tuple(_advice(occlusion, sweeps, held, unit) for unit in replaced_units(occlusion))


def _advice(
    occlusion: Occlusion, sweeps: Sequence[Sweep], held: set[int], unit: ReplacedUnit
) -> SchemeAdvice:
    settings = occlusion.settings
    judged = judged_by_schemes(occlusion, sweeps, unit)
    scheme = unit.base.scheme if unit.base else settings.scheme
    as_natural = judged["as the existing guidance" if unit.base else scheme]
    done = unit_contacts(occlusion, sweeps, unit.opposed)
    stopped = tuple(code for code in unit.teeth if code in held)
    wanted = schools_for(unit.kind, unit.is_upper, unit.opposite, unit.has_canine)
    return SchemeAdvice(
        unit=unit,
        scheme=scheme,
        stopped=stopped,
        contacts=done,
        schools=tuple(
            answers_of(school, unit, stopped, done, as_natural, settings) for school in wanted
        ),
        other_ways=other_ways(judged, scheme),
    )
