"""Loads in words: what replacement teeth carry across their axes, and what that does to a base."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.load.settings import LOAD_SOURCES, LoadSettings
from kinematics.planning.base_loads import ExcursionLoads
from kinematics.planning.load_readings import BaseLoad, LargestLoad, largest_load
from kinematics.planning.wording import enumeration
from scenes.report_tables import Table

_NOTHING: Final = "–"
#: Thickest mucosa among mean values, mm (J Jpn Prosthodont Soc 2007;51:291).
THICK_MUCOSA_MM: Final = 2.8
#: An excursion, its heading, and the largest load of a framework in it.
_Found = tuple[ExcursionLoads, str, LargestLoad | None]
#: About what a load is told, and how it is shown.
_TURNING: Final = (
    ("about_fulcrum_nmm", "fulcrum line"),
    ("about_crest_nmm", "crest"),
    ("about_vertical_nmm", "vertical"),
)


@dataclass(frozen=True)
class FrameworkLoads:
    """What the report says of the load on one framework.

    Attributes
    ----------
    name, framework : str
        Heading, and what it is called among the results.
    lead : str
        The largest load of all, in a sentence.
    largest : Table
        The largest of every excursion.
    abutments : Table
        What reaches each abutment then, with and without the guidance on the replacement teeth.
    doubts : tuple of str
        Poses that nothing balances, and ranks that do not hold over the ranges.
    """

    name: str
    framework: str
    lead: str
    largest: Table
    abutments: Table
    doubts: tuple[str, ...]


@dataclass(frozen=True)
class LoadSection:
    """The section about loads.

    Attributes
    ----------
    frameworks : tuple of FrameworkLoads
        One each.
    basis : Table
        What loads are reckoned with, and where that comes from.
    """

    frameworks: tuple[FrameworkLoads, ...]
    basis: Table


def load_section(
    loads: Sequence[ExcursionLoads],
    settings: LoadSettings,
    titles: Mapping[str, str],
) -> LoadSection | None:
    """Say what replacement teeth carry; None without bases and bridges.

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
    return LoadSection(
        tuple(_framework(loads, number, titles) for number in range(len(loads[0].as_is.frames))),
        _basis(settings),
    )


def _framework(
    loads: Sequence[ExcursionLoads], number: int, titles: Mapping[str, str]
) -> FrameworkLoads:
    found = [(one, titles[one.as_is.excursion], largest_load(one, number)) for one in loads]
    carried = [(title, most) for _, title, most in found if most is not None]
    name = loads[0].as_is.frames[number].framework
    return FrameworkLoads(
        name=name[0].upper() + name[1:],
        framework=name,
        lead=_lead(carried),
        largest=_largest(found),
        abutments=_abutments(carried),
        doubts=tuple(_doubts(found)),
    )


def _lead(carried: Sequence[tuple[str, LargestLoad]]) -> str:
    """Say where the load across the teeth is largest."""
    if not carried:
        return (
            "Beyond the start of the excursions its teeth carry nothing in any pose that the"
            " supports can balance: no lateral load comes from its own teeth."
        )
    title, most = max(
        ((title, one.as_is) for title, one in carried),
        key=lambda pair: pair[1].figures["across_n"],
    )
    teeth = enumeration([tooth.tooth for tooth in most.teeth])
    axes = "its axis" if len(most.teeth) == 1 else "their axes"
    where = title[0].lower() + title[1:]
    told = (
        f"Most is carried in {where} at {most.travel_mm:.1f} mm: of every 100 N of closing"
        f" force {_force(most, 'across_n')} push {teeth} across {axes}"
    )
    if most.has_fulcrum:
        told += f" and turn the base about its fulcrum line by {_turn(most, 'about_fulcrum_nmm')}"
    if most.has_ridge:
        told += f"; the base sinks by {_sinking(most)} at its deepest place"
    return f"{told}."


def _largest(found: Sequence[_Found]) -> Table:
    rows = []
    for _, title, most in found:
        if most is None:
            rows.append((title, *[_NOTHING] * 7))
            continue
        load = most.as_is
        rows.append(
            (
                title,
                f"{load.travel_mm:.1f} mm",
                ", ".join(str(tooth.tooth) for tooth in load.teeth),
                _force(load, "across_n"),
                *(_turn(load, name) if has else _NOTHING for name, has in _turns(load)),
                _sinking(load) if load.has_ridge else _NOTHING,
            )
        )
    header = (
        "excursion",
        "at travel",
        "teeth",
        "across their axes",
        *(f"turning about {name}" for _, name in _TURNING),
        "base sinks",
    )
    return Table(header, tuple(rows))


def _turns(load: BaseLoad) -> tuple[tuple[str, bool], ...]:
    """Return about what a load can turn, and whether this framework has it."""
    has = {"about_fulcrum_nmm": load.has_fulcrum, "about_crest_nmm": load.has_ridge}
    return tuple((name, has.get(name, True)) for name, _ in _TURNING)


def _abutments(carried: Sequence[tuple[str, LargestLoad]]) -> Table:
    rows = []
    for title, most in carried:
        off = dict(most.taken_off)
        for load, (tooth, whole) in zip(most.as_is.abutments, most.with_guidance, strict=True):
            low, high = load.across_range_n
            rows.append(
                (
                    title,
                    str(tooth),
                    f"{load.along_n + 0.0:.1f} N".replace("-0.0", "0.0"),
                    f"{load.across_n:.1f} N ({low:.1f} to {high:.1f})",
                    f"{whole:.1f} N",
                    f"{off[tooth]:.1f} N" if tooth in off else "nothing else meets",
                )
            )
    header = (
        "excursion",
        "abutment",
        "by base or bridge, along its axis",
        "by base or bridge, across it",
        "across it in all",
        "the same, guidance taken off",
    )
    return Table(header, tuple(rows))


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


def _force(load: BaseLoad, name: str) -> str:
    value, least, greatest = (abs(table[name]) for table in _tables(load))
    low, high = sorted((least, greatest))
    return f"{value:.0f} N ({low:.0f} to {high:.0f})" if value >= 1.0 else f"{value:.1f} N"


def _turn(load: BaseLoad, name: str) -> str:
    value, least, greatest = (abs(table[name]) for table in _tables(load))
    low, high = sorted((least, greatest))
    return f"{value:.0f} N mm ({low:.0f} to {high:.0f})"


def _sinking(load: BaseLoad) -> str:
    value, least, greatest = (table["sinking_mm"] for table in _tables(load))
    return f"{value:.2f} mm ({least:.2f} to {greatest:.2f})"


def _tables(load: BaseLoad) -> tuple[dict[str, float], dict[str, float], dict[str, float]]:
    return load.figures, load.least, load.greatest


def _basis(settings: LoadSettings) -> Table:
    """Return what loads are reckoned with: names as in the case file, values, sources."""
    usual = LoadSettings()
    place = "between first and second lower molars"
    if settings.force_forward_mm is not None:
        place = f"{settings.force_forward_mm:g} mm ahead of the hinge axis"
    side = settings.force_side_mm
    aside = "on the midline" if side == 0.0 else f"{abs(side):g} mm {_side(side)} of the midline"
    tilt, ratio = settings.ranges
    shown = {
        "closing_force_n": ("closing force", f"{settings.closing_force_n:g} N"),
        "force_tilt_deg": ("leans forward", f"{settings.force_tilt_deg:g}°"),
        "force_tilt_range_deg": ("range of this", f"{tilt[0]:g} to {tilt[1]:g}°"),
        "force_forward_mm": ("passes", place),
        "force_side_mm": ("sideways", aside),
        "mucosa_ratio": ("mucosa gives way", f"{settings.mucosa_ratio:g} times as far as a molar"),
        "mucosa_ratio_range": ("range of this", f"{ratio[0]:g} to {ratio[1]:g} times"),
        "two_phase": ("teeth give way", "in two phases" if settings.two_phase else "in one phase"),
    }
    rows = tuple(
        (name, value, LOAD_SOURCES[key] if _same(settings, usual, key) else "set for this case")
        for key, (name, value) in shown.items()
    )
    return Table(("reckoned with", "value", "source"), rows)


def _same(one: LoadSettings, other: LoadSettings, key: str) -> bool:
    return bool(getattr(one, key) == getattr(other, key))


def _side(value: float) -> str:
    return "to the patient's left" if value > 0.0 else "to the patient's right"
