"""Denture frameworks in words: class, rests, fulcrum line, and what is known of the abutments."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.framework import Framework, PlacedRest
from kinematics.planning.wording import enumeration
from scenes.phrases import number
from scenes.report_tables import Table

_NOT_TOLD: Final = "taken as sound"
_NONE: Final = "–"
_MOBILITY: Final = {
    0: "0: as a healthy tooth",
    1: "1: a little more than a healthy tooth",
    2: "2: about 1 mm sideways",
    3: "3: more than 1 mm, or along its axis",
}


@dataclass(frozen=True)
class FrameworkWords:
    """What the report says of one framework.

    Attributes
    ----------
    name : str
        Heading.
    facts : tuple of (str, str)
        Names and texts.
    abutments : Table
        Every tooth that holds it; without rows there is none.
    description : str
        Its drawing in words, for those who cannot see it.
    drawn : bool
        Whether it is drawn: only what teeth hold.
    """

    name: str
    facts: tuple[tuple[str, str], ...]
    abutments: Table
    description: str
    drawn: bool


def framework_words(
    frameworks: Sequence[Framework], conditions: Sequence[ToothCondition]
) -> tuple[FrameworkWords, ...]:
    """Say what was worked out of every framework.

    Parameters
    ----------
    frameworks : sequence of Framework
        What was found.
    conditions : sequence of ToothCondition
        What the case says of natural teeth.
    """
    known = {condition.tooth: condition for condition in conditions}
    return tuple(_words(framework, known) for framework in frameworks)


def _words(framework: Framework, known: dict[int, ToothCondition]) -> FrameworkWords:
    facts = [("carries", _carried(framework))]
    if framework.kennedy is not None:
        facts.append(("arch", framework.kennedy.text))
    if framework.held_by:
        facts += [
            ("joined by", framework.connector or "no connector: a body of its own"),
            ("rests", _rests(framework)),
            ("guide planes", _planes(framework)),
            ("fulcrum line", _fulcrum(framework)),
            ("indirect retainers", _indirect(framework)),
        ]
    else:
        facts.append(("held by", "no tooth: it lies on the mucosa alone"))
    facts.append(("ridge", _ridge(framework)))
    return FrameworkWords(
        name=framework.name[0].upper() + framework.name[1:],
        facts=tuple(facts),
        abutments=_abutments(framework, known),
        description=_description(framework),
        drawn=bool(framework.held_by),
    )


def _carried(framework: Framework) -> str:
    several = len(framework.bases) > 1
    return "; ".join(
        f"{f'{base.name}: ' if several else ''}{enumeration(base.teeth)}"
        f"{', distal extension' if _is_told_free(framework, base.name) else ''}"
        for base in framework.bases
    )


def _is_told_free(framework: Framework, base: str) -> bool:
    """Tell whether to say that a base ends free; of a complete denture that says nothing."""
    return framework.kennedy is not None and base in framework.extension_sides


def _rest(rest: PlacedRest) -> str:
    return f"{rest.tooth} {rest.place}{' (assumed)' if rest.assumed else ''}"


def _rests(framework: Framework) -> str:
    told = ", ".join(_rest(rest) for rest in framework.rests) or "none"
    if any(rest.assumed for rest in framework.rests):
        told += "; assumed: the usual places, since the case names none"
    return told


def _planes(framework: Framework) -> str:
    return ", ".join(str(plane.tooth) for plane in framework.guide_planes) or "none given"


def _fulcrum(framework: Framework) -> str:
    if framework.fulcrum is not None:
        right, left = framework.fulcrum.teeth
        return f"through the rests on {right} and {left}"
    free = bool(framework.extension_sides)
    sides = "rests on one side alone" if free else "teeth hold it at both ends"
    return f"none: {sides}"


def _indirect(framework: Framework) -> str:
    if framework.fulcrum is None:
        return "none, as there is no fulcrum line"
    told = (f"{_rest(i.rest)}, {number(i.distance_mm, 1)} mm" for i in framework.indirect)
    return "; ".join(told) or "none: no rest lies beyond the fulcrum line"


def _ridge(framework: Framework) -> str:
    texts = dict.fromkeys(
        (
            "crest worked out below the replacement teeth" if line.assumed else "crest as given",
            f"{number(line.ridge.crest_width_mm, 1)} mm wide between walls of"
            f" {number(line.ridge.wall_height_mm, 1)} mm at"
            f" {number(line.ridge.wall_inclination_deg, 0)}°",
            f"mucosa {number(line.ridge.mucosa_thickness_mm, 1)} mm thick, Young's modulus"
            f" {number(line.ridge.mucosa_modulus_mpa, 1)} MPa",
        )
        for line in framework.ridges
    )
    return "; ".join(", ".join(parts) for parts in texts)


def _abutments(framework: Framework, known: dict[int, ToothCondition]) -> Table:
    head = ("tooth", "holds by", "root", "crown", "bone support", "mobility (degree)")
    return Table(head, tuple(_row(framework, code, known.get(code)) for code in framework.held_by))


def _row(framework: Framework, code: int, known: ToothCondition | None) -> tuple[str, ...]:
    places = [f"rest, {rest.place}" for rest in framework.rests if rest.tooth == code]
    planes = ["guide plane" for plane in framework.guide_planes if plane.tooth == code]
    holds = "; ".join((*places, *planes)) or "abutment without a rest"
    if known is None:
        return (str(code), holds, _NOT_TOLD, _NONE, "100 %, assumed", "0, assumed")
    root = "implant" if known.implant else "root-filled" if known.root_filled else "not root-filled"
    return (
        str(code),
        holds,
        root + (", with a post" if known.post else ""),
        "crowned" if known.crown else _NONE,
        f"{number(known.bone_support_percent, 0)} %",
        "does not move" if known.implant else _MOBILITY[known.mobility_degree],
    )


def _description(framework: Framework) -> str:
    arch = "upper" if framework.is_upper else "lower"
    kept = [f"The {arch} arch with {framework.name}", f"rests: {_rests(framework)}"]
    kept += [f"fulcrum line: {_fulcrum(framework)}", f"indirect retainers: {_indirect(framework)}"]
    return "; ".join(kept) + "."
