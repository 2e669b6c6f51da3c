"""Which articulation for which teeth, in words: wanted, done, and what would change."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, get_args

from kinematics.checkup_result import Checkup
from kinematics.planning.articulation_schools import School
from kinematics.planning.canine_findings import WEAK_CANINE
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.judging import JudgingSettings, Scheme
from kinematics.planning.scheme_advice import SchemeAdvice
from kinematics.planning.scheme_findings import scheme_name
from kinematics.planning.schemes_compared import OtherWay
from kinematics.planning.school_answers import Answer, SchoolAnswers, nearest_of
from kinematics.planning.school_words import change_words, found_words, wanted_words
from kinematics.planning.wording import enumeration, pair_list
from scenes.report_tables import Table

_CARRIED: Final = {
    "complete denture": "A complete denture",
    "distal extension, both sides": "A distal-extension base, the ridge free behind on both sides",
    "distal extension, one side": "A distal-extension base, the ridge free behind on one side",
    "tooth-bounded": "A base held between teeth",
    "anterior": "A base in front, held between teeth",
    "bridge": "Pontics of a bridge",
    "implants": "Crowns or pontics on implants",
}
_OPPOSITE: Final = {
    "complete denture": "opposite a complete denture",
    "other teeth": "opposite natural or other teeth",
}
_NATURAL: Final[dict[str, str]] = {name: scheme_name(name) for name in get_args(Scheme)}
_PLACES: Final = ("MI", "working side", "nonworking side", "protrusion")
#: More pairs than this are counted, not named.
_MOST_PAIRS: Final = 6


@dataclass(frozen=True)
class UnitAdvice:
    """What the report says about the articulation of one unit.

    Attributes
    ----------
    title, facts : str
        Name and teeth; what carries them, and their scheme.
    schools : Table
        What each school wants, and what is found.
    counts : str
        How many of the wants of each are met, and which is nearest by that count.
    changes : tuple of str
        What would have to change for each school that misses one want alone.
    schemes : Table
        What each scheme makes of the same contacts.
    """

    title: str
    facts: str
    schools: Table
    counts: str
    changes: tuple[str, ...]
    schemes: Table


@dataclass(frozen=True)
class AdviceWords:
    """The advice of the report: unit by unit, then questions to canine guidance."""

    units: tuple[UnitAdvice, ...]
    canines: tuple[str, ...]


def advice_words(checkup: Checkup, settings: JudgingSettings) -> AdviceWords | None:
    """Return the advice of a report; None where there is nothing to advise on.

    Parameters
    ----------
    checkup : Checkup
        What was computed.
    settings : JudgingSettings
        Tolerances by which the case is judged.
    """
    canines = tuple(item.text for item in checkup.findings if item.kind == WEAK_CANINE)
    if not checkup.advice and not canines:
        return None
    return AdviceWords(tuple(_unit(item, settings) for item in checkup.advice), canines)


def _unit(advice: SchemeAdvice, settings: JudgingSettings) -> UnitAdvice:
    unit = advice.unit
    scheme = scheme_words(advice.scheme, natural=unit.base is None)
    return UnitAdvice(
        title=f"{unit.name[0].upper()}{unit.name[1:]}: {enumeration(unit.teeth)}",
        facts=f"{_CARRIED[unit.kind]}, {_OPPOSITE[unit.opposite]}. Scheme of this case: {scheme}."
        f"{_unopposed(unit.unopposed)}",
        schools=Table(
            ("school", "what it wants, and where it is published", *_PLACES),
            tuple(_school_row(advice, asked, settings) for asked in advice.schools),
        ),
        counts=_counts(advice),
        changes=tuple(_single_changes(advice, settings)),
        schemes=Table(
            ("scheme", "serious", "attention", "notes", "against it", "changes from this case"),
            tuple(_scheme_rows(advice)),
        ),
    )


def _unopposed(teeth: tuple[int, ...]) -> str:
    if not teeth:
        return ""
    faces = "faces" if len(teeth) == 1 else "face"
    return f" {enumeration(teeth)} {faces} no tooth, so that nothing can be asked there."


def scheme_words(scheme: str, natural: bool) -> str:
    """Return the name of a scheme: of natural teeth, or of a base."""
    return _NATURAL[scheme] if natural else scheme


def _school_row(
    advice: SchemeAdvice, asked: SchoolAnswers, settings: JudgingSettings
) -> tuple[str, ...]:
    cells = (
        _cell(advice, [a for a in asked.answers if a.place == place], settings) for place in _PLACES
    )
    return (asked.school.name, _position(asked.school, advice.unit.base is not None), *cells)


def _position(school: School, on_base: bool) -> str:
    aim = (
        f" Scheme of a base that aims at it: {school.scheme}." if on_base and school.scheme else ""
    )
    return f"{school.says}{aim} Source: {school.source}."


def _cell(advice: SchemeAdvice, answers: Sequence[Answer], settings: JudgingSettings) -> str:
    """Return whether it is done, what was wanted and what is found; of two sides each."""
    answers = [answer for answer in answers if answer.met != "not asked"]
    if not answers:
        return "not asked"
    met = "met" if all(answer.met == "yes" for answer in answers) else "not met"
    wanted = list(dict.fromkeys(wanted_words(answer, settings) for answer in answers))
    found = [found_words(answer, advice.done_at(answer), settings) for answer in answers]
    if len(answers) == 1:
        return f"{met}\nwanted: {wanted[0]}; found: {found[0]}"
    if len(wanted) > 1:
        wanted = [wanted_words(replace(answers[0], teeth=()), settings)]
    if len(set(found)) == 1:
        return f"{met}\nwanted on either side: {wanted[0]}; found on both: {found[0]}"
    by_side = (
        f"{answer.side} side {'met' if answer.met == 'yes' else 'not met'}: {words}"
        for answer, words in zip(answers, found, strict=True)
    )
    return f"{met}\nwanted on either side: {wanted[0]}; found: {'; '.join(by_side)}"


def counted_words(asked: SchoolAnswers) -> str:
    """Return how many of the wants of a school are met, as "mutual protection 3 of 4"."""
    judged = len(asked.judged)
    return f"{asked.school.name} {judged - len(asked.missed)} of {judged}"


def _counts(advice: SchemeAdvice) -> str:
    """Return how many wants are met, school by school, and which school is nearest by that."""
    nearest = nearest_of(advice.schools)
    if not nearest:
        return "None of what the schools want could be judged here."
    told = ", ".join(counted_words(asked) for asked in advice.schools if asked.judged)
    names = enumeration(asked.school.name for asked in nearest)
    counts = f"Wants met, of those that could be judged here: {told}."
    if len(advice.schools) == 1:
        return counts
    return f"{counts} Nearest by the share of wants met: {names}."


def _single_changes(advice: SchemeAdvice, settings: JudgingSettings) -> Iterator[str]:
    """Yield, of every school of which one want alone is missed, what would have to change."""
    for asked in advice.schools:
        if len(asked.missed) == 1:
            (answer,) = asked.missed
            change = change_words(answer, advice.done_at(answer), settings)
            yield f"{asked.school.name} misses one want: {change}."


def _scheme_rows(advice: SchemeAdvice) -> Iterator[tuple[str, ...]]:
    chosen = next((way for way in advice.other_ways if way.chosen), None)
    for way in advice.other_ways:
        name = scheme_words(way.scheme, natural=advice.unit.base is None)
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
