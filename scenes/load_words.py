"""Loads in words: what replacement teeth carry across their axes, and what that does to a base."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.load.settings import LoadSettings
from kinematics.planning.base_loads import ExcursionLoads
from kinematics.planning.frame_forces import FrameForces
from kinematics.planning.load_readings import BaseLoad, LargestLoad, Range, largest_load
from kinematics.planning.wording import enumeration
from scenes.load_basis import load_basis
from scenes.load_figures import (
    OVERLOAD_EXPLAINED,
    TURNS,
    figure,
    newtons,
    overload_words,
    share_rows,
    sinking,
    turning,
    turns_explained,
    turns_of,
)
from scenes.report_tables import Table

_NOTHING: Final = "–"
_UNKNOWN: Final = "not known; nothing balances this closing force in any pose beyond the start"
_UNKNOWN_LEAD: Final = (
    "What it carries is not known: beyond the start the supports balance this closing force in no"
    " pose of any excursion. See whether the closing force passes where teeth meet"
    " (load.force_forward_mm, load.force_side_mm)."
)
#: Thickest mucosa among mean values, mm (J Jpn Prosthodont Soc 2007;51:291).
THICK_MUCOSA_MM: Final = 2.8
#: An excursion, its heading, and the largest load of a framework in it.
_Found = tuple[ExcursionLoads, str, LargestLoad | None]
_Carried = tuple[str, LargestLoad]


@dataclass(frozen=True)
class FrameworkLoads:
    """What the report says of the load on one framework.

    Attributes
    ----------
    name, framework, kind : str
        Heading, what it is called among the results, and "base", "bridge" or "splint".
    lead, in_short : str
        The largest load of all, in a sentence, and in a line with the name.
    warnings : tuple of str
        What is unlikely about loads, and why; the last says what to do. Empty where nothing is.
    largest : Table
        The largest of every excursion.
    turns : str
        What the words for turning mean; empty where nothing turns.
    abutments : Table
        What reaches each abutment then, with and without the guidance on the replacement teeth.
    has_taken_off : bool
        Whether it tells what does without that guidance: anything else meets then.
    shares : Table
        Who carries the closing force where the load is largest of all.
    shares_where : str
        Where that is.
    doubts : tuple of str
        Poses that nothing balances, and ranks that do not hold over the ranges.
    """

    name: str
    framework: str
    kind: str
    lead: str
    in_short: str
    warnings: tuple[str, ...]
    largest: Table
    turns: str
    abutments: Table
    has_taken_off: bool
    shares: Table
    shares_where: str
    doubts: tuple[str, ...]


@dataclass(frozen=True)
class LoadSection:
    """The section about loads.

    Attributes
    ----------
    heading : str
        Its question.
    frameworks : tuple of FrameworkLoads
        One each.
    basis : Table
        What loads are reckoned with, and where that comes from.
    """

    heading: str
    frameworks: tuple[FrameworkLoads, ...]
    basis: Table


def load_section(
    loads: Sequence[ExcursionLoads],
    settings: LoadSettings,
    titles: Mapping[str, str],
) -> LoadSection | None:
    """Say what replacement teeth carry; None without bases, bridges and splints.

    Parameters
    ----------
    loads : sequence of ExcursionLoads
        Excursions from MI.
    settings : LoadSettings
        What was reckoned with.
    titles : mapping of str to str
        Headings of excursions by their names.
    """
    if not loads:
        return None
    heading = "What do replacement teeth carry, and what reaches the abutments?"
    if all(frame.kind == "splint" for frame in loads[0].as_is.frames):
        heading = "What do splinted teeth carry?"
    return LoadSection(heading, framework_loads(loads, titles), load_basis(settings))


def framework_loads(
    loads: Sequence[ExcursionLoads], titles: Mapping[str, str]
) -> tuple[FrameworkLoads, ...]:
    """Say what every framework, bridge and splint carries; see `load_section`."""
    frames = loads[0].as_is.frames if loads else ()
    return tuple(_framework(loads, number, titles) for number in range(len(frames)))


def _framework(
    loads: Sequence[ExcursionLoads], number: int, titles: Mapping[str, str]
) -> FrameworkLoads:
    found = [(one, titles[one.as_is.excursion], largest_load(one, number)) for one in loads]
    carried = [(title, most) for _, title, most in found if most is not None]
    worst = max(carried, key=lambda pair: pair[1].as_is.figures["across_n"], default=None)
    frame = loads[0].as_is.frames[number]
    known = any((one.as_is.frames[number].balanced[0] & one.as_is.judged).any() for one in loads)
    name = frame.framework[0].upper() + frame.framework[1:]
    return FrameworkLoads(
        name=name,
        framework=frame.framework,
        kind=frame.kind,
        lead=_lead(worst, frame) if known else _UNKNOWN_LEAD,
        in_short=f"{name}: {_in_short(worst) if known else _UNKNOWN}",
        warnings=tuple(_warnings(carried)),
        largest=_largest(found, frame),
        turns=turns_explained([most.as_is for _, most in carried]),
        abutments=_abutments(carried, frame),
        has_taken_off=frame.kind != "splint" and _any_taken_off(carried),
        shares=_shares(worst, frame),
        shares_where="" if worst is None else _where(worst),
        doubts=tuple(_doubts(found)),
    )


def _where(worst: _Carried) -> str:
    title, most = worst
    return f"{title[0].lower()}{title[1:]} at {most.as_is.travel_mm:.1f} mm"


def _in_short(worst: _Carried | None) -> str:
    if worst is None:
        return "nothing across its teeth beyond the start"
    return f"{figure(worst[1].as_is, 'across_n')} in {_where(worst)}"


def _lead(worst: _Carried | None, frame: FrameForces) -> str:
    """Say where the load across the teeth is largest."""
    if worst is None:
        return (
            "Beyond the start of the excursions its teeth carry nothing in any pose that the"
            " supports can balance: no lateral load comes from its own teeth."
        )
    most = worst[1].as_is
    teeth = enumeration([tooth.tooth for tooth in most.teeth])
    axes = "its axis" if len(most.teeth) == 1 else "their axes"
    told = (
        f"Most is carried in {_where(worst)}: of every 100 N of closing force"
        f" {figure(most, 'across_n')} push {teeth} across {axes}"
    )
    if most.has_fulcrum:
        size, way = turning(most, "about_fulcrum_nmm")
        told += f" and turn the base about its fulcrum line by {size}"
        told += f", which {way}" if way else ""
    if most.has_ridge:
        told += f"; the base sinks by {sinking(most)} at its deepest place"
    if frame.kind != "base" and most.abutments:
        root = max(most.abutments, key=lambda one: one.across_n)
        told += f"; of its roots {root.tooth} gets most across its axis"
        told += f", {newtons(root.across_n, root.across_range_n)}"
    return f"{told}."


def _warnings(carried: Sequence[_Carried]) -> Iterator[str]:
    """Yield what is unlikely about the largest loads, by excursion, and last what to do."""
    told = [
        f"{title} at {most.as_is.travel_mm:.1f} mm: {overload_words(overload)}"
        for title, most in carried
        for overload in most.overloads
    ]
    yield from told
    if told:
        yield OVERLOAD_EXPLAINED


def _largest(found: Sequence[_Found], frame: FrameForces) -> Table:
    loads = [most.as_is for _, _, most in found if most is not None]
    turns = [name for name in TURNS if any(name in turns_of(load) for load in loads)]
    header = ["excursion", "at travel", "teeth", "across their axes", "along their axes"]
    header += [f"turning about {TURNS[name][0]}" for name in turns]
    header.append("base sinks" if frame.has_ridge else "root with most across its axis")
    rows = []
    for _, title, most in found:
        if most is None:
            rows.append((title, *[_NOTHING] * (len(header) - 1)))
            continue
        load = most.as_is
        row = [
            title,
            f"{load.travel_mm:.1f} mm",
            ", ".join(str(tooth.tooth) for tooth in load.teeth),
            figure(load, "across_n"),
            figure(load, "along_n"),
        ]
        row += [_turn(load, name) if name in turns_of(load) else _NOTHING for name in turns]
        row += [sinking(load)] if frame.has_ridge else [_most_on_root(load)]
        rows.append(tuple(row))
    return Table(tuple(header), tuple(rows))


def _turn(load: BaseLoad, name: str) -> str:
    """Return how much a framework is turned and, in a second line, which way."""
    return "\n".join(part for part in turning(load, name) if part)


def _most_on_root(load: BaseLoad) -> str:
    root = max(load.abutments, key=lambda one: one.across_n)
    return f"{root.tooth}: {newtons(root.across_n, root.across_range_n)}"


def _abutments(carried: Sequence[_Carried], frame: FrameForces) -> Table:
    header = {
        "base": (
            "abutment",
            "by the base, along its axis",
            "by the base, across it",
            "across it in all",
            "in all, guidance taken off",
        ),
        "bridge": ("root", "along its axis", "across it", "across it, guidance taken off"),
        "splint": ("root", "along its axis", "across it"),
    }[frame.kind]
    rows = []
    for title, most in carried:
        whole = _by_tooth(most.with_guidance, most.with_guidance_ranges)
        off = _by_tooth(most.taken_off, most.taken_off_ranges)
        for load in most.as_is.abutments:
            row = (
                title,
                str(load.tooth),
                newtons(load.along_n, load.along_range_n),
                newtons(load.across_n, load.across_range_n),
                whole[load.tooth],
                off.get(load.tooth, "nothing else meets"),
            )
            kept = {"base": row, "bridge": (*row[:4], row[5]), "splint": row[:4]}
            rows.append(kept[frame.kind])
    width = 1 + len(header)
    if frame.kind != "splint" and not _any_taken_off(carried):
        width -= 1
    head = ("excursion", *header)[:width]
    return Table(head, tuple(row[:width] for row in rows))


def _any_taken_off(carried: Sequence[_Carried]) -> bool:
    return any(most.taken_off for _, most in carried)


def _by_tooth(forces: Sequence[tuple[int, float]], ranges: Sequence[Range]) -> Mapping[int, str]:
    """Return forces with their ranges, in words, by tooth."""
    return {
        tooth: newtons(value, ends) for (tooth, value), ends in zip(forces, ranges, strict=True)
    }


def _shares(worst: _Carried | None, frame: FrameForces) -> Table:
    """Return who carries the closing force where a framework carries most."""
    rows = () if worst is None else tuple(share_rows(worst[1].shares, frame.teeth, frame.kind))
    return Table(("teeth that meet, and joints", "of the closing force", "whole force"), rows)


def _doubts(found: Sequence[_Found]) -> Iterator[str]:
    """Yield what limits the figures: poses without balance, and what changes rank."""
    for one, title, most in found:
        open_at = [
            travel
            for travel, words in zip(one.as_is.travel_mm, one.as_is.escape, strict=True)
            if words
        ]
        if open_at:
            what = next(words for words in one.as_is.escape if words)
            yield (
                f"{title}: in {len(open_at)} of {len(one.as_is.travel_mm)} poses, from"
                f" {min(open_at):.1f} mm, the supports cannot balance this closing force ({what}"
                " gives way), so no figure is given there"
            )
        if most is not None and not most.as_is.always_balanced:
            yield f"{title}: not over the whole range of force tilt can supports balance the force"
        if most is not None:
            yield from _too_deep(title, most.as_is)
            yield from _ranks(title, most.as_is)


def _too_deep(title: str, load: BaseLoad) -> Iterator[str]:
    """Yield that a base would sink farther than mucosa is thick."""
    if load.greatest["sinking_mm"] > THICK_MUCOSA_MM:
        yield (
            f"{title}: the base would sink by up to {load.greatest['sinking_mm']:.1f} mm, more than"
            f" mucosa on a palate is thick (up to {THICK_MUCOSA_MM:g} mm as published): it would"
            " bear on bone, so these figures say no more than that the load is too much for it"
        )


def _ranks(title: str, load: BaseLoad) -> Iterator[str]:
    """Yield the abutment that gets most across its axis, if the ranges leave no other."""
    ordered = sorted(load.abutments, key=lambda one: one.across_n, reverse=True)
    if len(ordered) < 2 or ordered[0].across_n <= 0.0:
        return
    first, others = ordered[0], ordered[1:]
    rivals = [one.tooth for one in others if one.across_range_n[1] >= first.across_range_n[0]]
    if rivals:
        yield (
            f"{title}: which of {enumeration([first.tooth, *rivals])} gets most across its axis"
            " depends on how the force leans and how the mucosa yields"
        )
