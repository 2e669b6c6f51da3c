"""Whether a set-up does what a school wants, place by place, with the figures that decide."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from kinematics.planning.articulation_schools import Demand, MiDemand, School
from kinematics.planning.findings import Figure
from kinematics.planning.guidance_kinds import Pair, is_posterior_pair
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.replaced_units import ReplacedUnit
from kinematics.planning.schemes_compared import JudgedContact
from kinematics.planning.unit_contacts import UnitContacts
from kinematics.tooth_codes import is_posterior

Met = Literal["yes", "no", "not asked"]

#: Teeth share a guidance if they touch over at least this much of the judged travel (chosen for
#: this program).
SHARING_PERCENT: Final = 50.0


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
    teeth : tuple of int
        Teeth that it speaks of: in MI those that are to have a centric stop.
    clear : tuple of int
        In MI, teeth that are to have none.
    amiss : tuple of int
        In MI, those of both that do not do so.
    pairs : tuple of (int, int)
        Elsewhere, pairs that touch, upper and lower tooth; where balance is wanted those within the
        balanced tolerance, where the natural guidance is, those that touch against it.
    figures : tuple of Figure
        What decides.
    """

    place: str
    side: str
    demand: str
    met: Met
    figures: tuple[Figure, ...]
    teeth: tuple[int, ...] = ()
    clear: tuple[int, ...] = ()
    amiss: tuple[int, ...] = ()
    pairs: tuple[Pair, ...] = ()


@dataclass(frozen=True)
class SchoolAnswers:
    """A school, and what it wants in turn: in MI, by side, in protrusion."""

    school: School
    answers: tuple[Answer, ...]

    @property
    def judged(self) -> tuple[Answer, ...]:
        """What it asks for here and could be judged."""
        return tuple(answer for answer in self.answers if answer.met != "not asked")

    @property
    def missed(self) -> tuple[Answer, ...]:
        """What it asks for and is not done."""
        return tuple(answer for answer in self.answers if answer.met == "no")

    @property
    def met(self) -> bool:
        """Whether everything that it asks for is done."""
        return not self.missed


def nearest_of(asked: Sequence[SchoolAnswers]) -> tuple[SchoolAnswers, ...]:
    """Return the schools of which the largest share of wants is met; none where none was judged.

    Every want counts the same: it is a count, not a recommendation.
    """
    judged = [item for item in asked if item.judged]
    share = {item.school.name: Fraction(len(item.missed), len(item.judged)) for item in judged}
    least = min(share.values(), default=None)
    return tuple(item for item in judged if share[item.school.name] == least)


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
    back = tuple(code for code in unit.opposed if is_posterior(code))
    front = tuple(code for code in unit.opposed if code not in back)
    wanted = {"front stops": front, "front clear": (), "free": ()}.get(demand, back)
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
    return Answer("MI", "", demand, met, tuple(figures), wanted, clear, (*bare, *meeting))


def _at(
    demand: Demand,
    done: UnitContacts,
    as_natural: tuple[JudgedContact, ...],
    settings: JudgingSettings,
) -> Answer:
    touching = Figure(
        f"judged travel in which it touches, {done.touching_in}", done.touching_percent, "%"
    )
    nearest = Figure(
        f"least distance, {done.least_gap_in} at {done.least_gap_at_mm:.1f} mm",
        done.least_gap_mm,
        "mm",
    )
    held = Figure("most that it holds the other teeth open", done.held_mm, "mm")
    back = Figure("judged travel in which its back teeth touch", done.back_touching_percent, "%")
    balanced = Figure(
        f"judged travel in which it is within the balanced tolerance, {done.balanced_in}",
        done.balanced_percent,
        "%",
    )
    against = [item for item in as_natural if _is_against_at(item, done)]
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
    pairs = {
        "back clear": tuple(pair for pair in done.touching if is_posterior_pair(pair)),
        "balanced": done.within,
        "as natural": tuple(dict.fromkeys(item.pair for item in against)),
    }.get(demand, done.touching)
    teeth = done.teeth
    if demand == "back clear":
        teeth = tuple(code for code in teeth if is_posterior(code))
    return Answer(done.place, done.side, demand, met, told, teeth=teeth, pairs=pairs)


def _is_against_at(item: JudgedContact, done: UnitContacts) -> bool:
    """Tell whether a contact touches at a place against its scheme; a near approach adds none."""
    here = item.from_mi and item.place == done.place and done.side in ("", item.side)
    return here and item.touches and item.is_against
