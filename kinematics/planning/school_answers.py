"""Whether a set-up does what a school wants, place by place, with the figures that decide."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

from kinematics.planning.articulation_schools import Demand, MiDemand, School
from kinematics.planning.findings import Figure
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.replaced_units import ReplacedUnit
from kinematics.planning.schemes_compared import JudgedContact
from kinematics.planning.unit_contacts import UnitContacts

Met = Literal["yes", "no", "not asked"]

#: Teeth share a guidance if they touch over at least this much of the judged travel.
SHARING_PERCENT: Final = 50.0
SHARING_SOURCE: Final = "chosen for this program"


@dataclass(frozen=True)
class Answer:
    """One thing that a school wants, and whether the set-up does it.

    Attributes
    ----------
    place : str
        "MI", "working side", "nonworking side" or "protrusion".
    side : str
        Side on which the teeth stand; empty in MI and protrusion.
    demand : str
        What is wanted; see the table of schools.
    met : str
        "yes", "no" or "not asked".
    figures : tuple of Figure
        What decides.
    """

    place: str
    side: str
    demand: str
    met: Met
    figures: tuple[Figure, ...]


@dataclass(frozen=True)
class SchoolAnswers:
    """A school, and what it wants in turn: in MI, by side, in protrusion."""

    school: School
    answers: tuple[Answer, ...]

    @property
    def met(self) -> bool:
        """Whether everything that it asks for is done."""
        return all(answer.met != "no" for answer in self.answers)


def answers_of(
    school: School,
    unit: ReplacedUnit,
    stopped: tuple[int, ...],
    done: Iterable[UnitContacts],
    as_natural: tuple[JudgedContact, ...],
    settings: JudgingSettings,
) -> SchoolAnswers:
    """Ask everything that a school wants of some teeth.

    Parameters
    ----------
    school : School
        Who asks.
    unit : ReplacedUnit
        The teeth.
    stopped : tuple of int
        Those of them with a centric stop.
    done : iterable of UnitContacts
        What they do, place by place.
    as_natural : tuple of JudgedContact
        Their contacts as judged by what the natural teeth do.
    settings : JudgingSettings
        Tolerances.
    """
    answers = [_in_mi(school.mi, unit, stopped)]
    answers += [_at(school.wanted_at(item.place), item, as_natural, settings) for item in done]
    return SchoolAnswers(school, tuple(answers))


def _in_mi(demand: MiDemand, unit: ReplacedUnit, stopped: tuple[int, ...]) -> Answer:
    back, front = unit.back_teeth, tuple(c for c in unit.teeth if c not in unit.back_teeth)
    wanted = front if demand == "front stops" else () if demand == "front clear" else back
    bare = [code for code in wanted if code not in stopped]
    clear = front if demand in ("stops, front clear", "front clear") else ()
    meeting = [code for code in clear if code in stopped]
    words = "front teeth" if demand == "front stops" else "back teeth"
    figures = []
    if wanted:
        figures.append(Figure(f"{words} with a centric stop", len(wanted) - len(bare), ""))
        figures.append(Figure(f"{words} in all", len(wanted), ""))
    if clear:
        figures.append(Figure("front teeth that meet in MI", len(meeting), ""))
    asked = bool(wanted or clear)
    met: Met = "not asked" if not asked else "no" if bare or meeting else "yes"
    return Answer("MI", "", demand, met, tuple(figures))


def _at(
    demand: Demand,
    done: UnitContacts,
    as_natural: tuple[JudgedContact, ...],
    settings: JudgingSettings,
) -> Answer:
    touching = Figure("judged travel in which it touches", done.touching_percent, "%")
    nearest = Figure(
        f"least distance, {done.least_gap_in} at {done.least_gap_at_mm:.1f} mm",
        done.least_gap_mm,
        "mm",
    )
    held = Figure("most that it holds the other teeth open", done.held_mm, "mm")
    back = Figure("judged travel in which its back teeth touch", done.back_touching_percent, "%")
    balanced = Figure(
        "judged travel in which it touches within the balanced tolerance",
        done.balanced_percent,
        "%",
    )
    against = [item for item in as_natural if _stands_at(item, done) and item.is_against]
    unlike = Figure("contacts against the guidance of the natural teeth", len(against), "")
    light = done.held_mm <= settings.tolerance_mm
    # Where nothing but the unit would meet, what it holds open cannot be told by leaving it out.
    even = done.held_mm <= settings.balanced_tolerance_mm or math.isinf(done.held_mm)
    does, figures = {
        "clear": (done.touching_percent == 0.0, (touching, nearest)),
        "back clear": (done.back_touching_percent == 0.0, (back,)),
        "shares": (done.touching_percent >= SHARING_PERCENT and light, (touching, held)),
        "lifts nothing": (light, (touching, held)),
        "balanced": (done.balanced_percent == 100.0 and even, (balanced, held)),
        "as natural": (not against, (unlike, touching)),
        "free": (True, (touching,)),
    }[demand]
    met: Met = "not asked" if demand == "free" else "yes" if does else "no"
    told = tuple(figure for figure in figures if math.isfinite(figure.value))
    return Answer(done.place, done.side, demand, met, told)


def _stands_at(item: JudgedContact, done: UnitContacts) -> bool:
    return item.from_mi and item.place == done.place and done.side in ("", item.side)
