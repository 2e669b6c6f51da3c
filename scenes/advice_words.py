"""Which articulation for which teeth, in words: wanted, done, and what would change."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, get_args

from kinematics.checkup import Checkup
from kinematics.planning.articulation_schools import School
from kinematics.planning.canine_findings import WEAK_CANINE
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.judging import Scheme
from kinematics.planning.scheme_advice import SchemeAdvice
from kinematics.planning.scheme_findings import scheme_name
from kinematics.planning.schemes_compared import OtherWay
from kinematics.planning.school_answers import Answer, SchoolAnswers
from kinematics.planning.wording import enumeration, pair_list
from scenes.phrases import length
from scenes.report_tables import Table

_CARRIED: Final = {
    "complete denture": "A complete denture",
    "distal extension, both sides": "A distal-extension base, the ridge free behind on both sides",
    "distal extension, one side": "A distal-extension base, the ridge free behind on one side",
    "tooth-bounded": "A base held between teeth",
    "anterior": "A base in front, held between teeth",
    "bridge": "Pontics of a bridge",
    "implants": "Crowns on implants",
}
_OPPOSITE: Final = {
    "complete denture": "opposite a complete denture",
    "other teeth": "opposite natural or other teeth",
}
_WANTED: Final = {
    "stops": "back teeth meet",
    "front stops": "front teeth meet",
    "stops, front clear": "back teeth meet, front teeth stay clear",
    "front clear": "front teeth stay clear",
    "clear": "stays clear",
    "back clear": "back teeth stay clear",
    "shares": "shares, holds nothing open",
    "lifts nothing": "may touch, holds nothing open",
    "balanced": "touches all the way",
    "as natural": "as the natural teeth guide",
    "free": "not asked",
}
_NATURAL: Final[dict[str, str]] = {name: scheme_name(name) for name in get_args(Scheme)}
_PLACES: Final = ("MI", "working side", "nonworking side", "protrusion")
#: More pairs than this are counted, not named.
_MOST_PAIRS: Final = 6
#: Figures of which only what counts is told: how often, how near, how far open.
_SHARES: Final = "judged travel in which "


@dataclass(frozen=True)
class UnitAdvice:
    """What the report says about the articulation of one unit."""

    title: str
    facts: str
    schools: Table
    schemes: Table


@dataclass(frozen=True)
class AdviceWords:
    """The advice of the report: unit by unit, then questions to canine guidance."""

    units: tuple[UnitAdvice, ...]
    canines: tuple[str, ...]


def advice_words(checkup: Checkup) -> AdviceWords | None:
    """Return the advice of a report; None where there is nothing to advise on."""
    canines = tuple(item.text for item in checkup.findings if item.kind == WEAK_CANINE)
    if not checkup.advice and not canines:
        return None
    return AdviceWords(tuple(_unit(item) for item in checkup.advice), canines)


def _unit(advice: SchemeAdvice) -> UnitAdvice:
    unit = advice.unit
    scheme = _scheme_words(advice.scheme, natural=unit.base is None)
    return UnitAdvice(
        title=f"{unit.name[0].upper()}{unit.name[1:]}: {enumeration(unit.teeth)}",
        facts=f"{_CARRIED[unit.kind]}, {_OPPOSITE[unit.opposite]}. Scheme of this case: {scheme}.",
        schools=Table(
            ("school", "what it wants, and where it is published", *_PLACES),
            tuple(_school_row(asked) for asked in advice.schools),
        ),
        schemes=Table(
            ("scheme", "serious", "attention", "notes", "against it", "changes from this case"),
            tuple(_scheme_rows(advice)),
        ),
    )


def _scheme_words(scheme: str, natural: bool) -> str:
    return _NATURAL[scheme] if natural else scheme


def _school_row(asked: SchoolAnswers) -> tuple[str, ...]:
    cells = (_cell([a for a in asked.answers if a.place == place]) for place in _PLACES)
    return (asked.school.name, _position(asked.school), *cells)


def _position(school: School) -> str:
    return f"{school.says} Source: {school.source}."


def _cell(answers: Sequence[Answer]) -> str:
    """Return whether it is done, then by what; of two sides each, if they differ."""
    if not answers or answers[0].met == "not asked":
        return "not asked"
    told = {answer.side: (answer.met, _reason(answer)) for answer in answers}
    if len(set(told.values())) == 1:
        met, reason = next(iter(told.values()))
        return f"{met}: {_WANTED[answers[0].demand]}\n{reason}"
    words = [f"{side} {met}, {reason}" for side, (met, reason) in told.items()]
    all_met = "yes" if all(met == "yes" for met, _ in told.values()) else "no"
    return f"{all_met}: {_WANTED[answers[0].demand]}\n{'; '.join(words)}"


def _reason(answer: Answer) -> str:
    """Return the figures that decide, short."""
    figures = {item.name: item.value for item in answer.figures}
    parts = []
    for name, value in figures.items():
        if name.startswith(_SHARES):
            parts.append(_share_words(name.removeprefix(_SHARES), value))
        elif name.endswith("with a centric stop"):
            words = name.removesuffix(" with a centric stop")
            parts.append(f"{value:.0f} of {figures[f'{words} in all']:.0f} {words} with a stop")
        elif name.startswith("front teeth that meet"):
            parts.append(f"{value:.0f} front teeth meet")
        elif name.startswith("most that") and value > 0.0:
            parts.append(f"holds open by up to {length(value)}")
        elif name.startswith("least distance") and not _touches(figures):
            parts.append(f"nearest {length(value)}")
        elif name.startswith("contacts against"):
            parts.append(f"{value:.0f} against it (contacts, near approaches)")
    return ", ".join(parts)


def _share_words(does: str, percent: float) -> str:
    """Return how often something is so along the way."""
    words = does.removeprefix("it ").removeprefix("its ")
    if percent == 0.0:
        return f"{words} nowhere"
    return (
        f"{words} all the way" if percent == 100.0 else f"{words} over {percent:.0f} % of the way"
    )


def _touches(figures: dict[str, float]) -> bool:
    return any(name.startswith(_SHARES) and value > 0.0 for name, value in figures.items())


def _scheme_rows(advice: SchemeAdvice) -> Iterator[tuple[str, ...]]:
    chosen = next((way for way in advice.other_ways if way.chosen), None)
    for way in advice.other_ways:
        name = _scheme_words(way.scheme, natural=advice.unit.base is None)
        yield (
            f"{name} (this case)" if way.chosen else name,
            str(way.serious),
            str(way.attention),
            str(way.allowed),
            _pairs(way.against) or "nothing",
            "" if chosen is None or way.chosen else _change(chosen, way),
        )


def _change(chosen: OtherWay, way: OtherWay) -> str:
    freed = tuple(pair for pair in chosen.against if pair not in way.against)
    new = tuple(pair for pair in way.against if pair not in chosen.against)
    parts = [f"no longer against it: {_pairs(freed)}"] if freed else []
    parts += [f"then against it: {_pairs(new)}"] if new else []
    if not parts and (way.serious, way.attention) != (chosen.serious, chosen.attention):
        return "the same pairs, in other movements or otherwise grave"
    return "; ".join(parts) or "none"


def _pairs(pairs: tuple[Pair, ...]) -> str:
    if len(pairs) <= _MOST_PAIRS:
        return pair_list(pairs)
    return f"{len(pairs)} pairs of teeth"
