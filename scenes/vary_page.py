"""The page of a case over a grid of its settings; self-contained, as the report is."""

from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from typing import Final

import numpy as np
from markupsafe import Markup

from kinematics import __version__
from kinematics.case import Case
from kinematics.result_texts import CAUTION, OF_A_VARIATION
from kinematics.studies.quantities import Quantity, quantities
from kinematics.variation_files import FLIPS_TABLE, RUNS_TABLE
from kinematics.varying.determinants import SOURCE, determinants_on
from kinematics.varying.variation import Flip, Variation
from scenes import colours, vary_words
from scenes.determinant_words import determinant_words
from scenes.drawing_orders import svg_of
from scenes.ordered_drawings import OrderedSvg
from scenes.phrases import number
from scenes.report import STYLES, TEMPLATES, template
from scenes.report_tables import Table
from scenes.sheet import Sheet
from scenes.vary_charts import BarRow, bars_chart, number_chart
from scenes.vary_keys import SMALL_LETTERS, Alphabet, alphabet_of
from scenes.vary_maps import NumberedFlip, flips_map, number_map, said_map

_UNITS: Final = {"deg": "°", "N/N": "N across per N along"}
#: Readings of which contacts are mapped, and other quantities: the last ones.
_CONTACT_READINGS: Final = 2
_NONE: Final = "none"


@dataclass(frozen=True)
class ToldFlip:
    """One line of what flips: its number on maps, severity and words."""

    number: int
    sign: str
    severity: str
    text: str
    as_set: str


@dataclass(frozen=True)
class ToldSection:
    """What flips, of one kind."""

    title: str
    flips: tuple[ToldFlip, ...]


@dataclass(frozen=True)
class Drawn:
    """A map or chart, and how it is told to who cannot see it."""

    svg: OrderedSvg
    words: str


def vary_page(case: Case, found: Variation, drawing: Executor) -> str:
    """Return what was found over a grid as one HTML page that needs nothing from outside itself.

    Parameters
    ----------
    case : Case
        As set.
    found : Variation
        What was found.
    drawing : Executor
        Draws maps and charts.
    """
    numbers = numbered(found)
    sheets = [*sheets_of(case, found, list(numbers.values()))]
    drawn = [
        Drawn(OrderedSvg(sheet, f"map-{k}", drawing.submit(svg_of, sheet, f"map-{k}")), title)
        for k, (title, sheet) in enumerate(sheets)
    ]
    constant = _constant_table(case, found)
    wide = [item for item in drawn if item.svg.sheet.width_mm > _WIDE_MM]
    return template("vary.html").render(
        title=case.title,
        version=__version__,
        style=Markup("".join((TEMPLATES / name).read_text("utf-8") for name in STYLES[:1])),
        caution=CAUTION,
        grid_sentence=vary_words.grid_sentence(found),
        as_set=vary_words.as_set_sentence(found),
        refused=vary_words.refused_words(found),
        nothing=vary_words.NOTHING_FLIPS,
        by=vary_words.by_words(found),
        sections=tuple(_sections(found, numbers)),
        two=len(found.grid.axes) > 1,
        wide=wide,
        small=[item for item in drawn if item not in wide],
        constant=constant,
        unchanged=f"{len(constant.rows)} {'quantity' if len(constant.rows) == 1 else 'quantities'}",
        source=SOURCE,
        determinants=[determinant_words(found, item) for item in determinants_on(found)],
        files=(RUNS_TABLE, FLIPS_TABLE, OF_A_VARIATION.file),
    )


#: Wider drawings fill the page; two others stand side by side.
_WIDE_MM: Final = 100.0


def numbered(found: Variation) -> dict[Flip, NumberedFlip]:
    """Return the findings that flip and call for attention, with the numbers that name them."""
    grave = [flip for flip in found.flips if flip.severity in ("serious", "attention")]
    return {flip: NumberedFlip(number, flip) for number, flip in enumerate(grave, start=1)}


def _sections(found: Variation, numbered: dict[Flip, NumberedFlip]) -> Iterator[ToldSection]:
    for section in vary_words.flip_sections(found):
        yield ToldSection(
            section.title,
            tuple(
                ToldFlip(
                    numbered[flip].number if flip in numbered else 0,
                    colours.SEVERITY_SIGN[flip.severity] if flip.severity else "",
                    flip.severity or "",
                    vary_words.flip_words(found, flip),
                    vary_words.as_set_words(flip),
                )
                for flip in section.flips
            ),
        )


def sheets_of(
    case: Case, found: Variation, numbered: Sequence[NumberedFlip]
) -> Iterator[tuple[str, Sheet]]:
    """Yield maps over two settings, or charts over one, each with its title."""
    shown = [*_shown(case, found)]
    guides = alphabet_of(
        text for item in shown if item.kind == "text" for text in _said(found, item)
    )
    if len(found.grid.axes) == 1:
        yield from _charts(found, shown, guides, numbered)
        return
    if numbered:
        title = "Where findings flip"
        yield title, flips_map(found, title, numbered)
    touching = alphabet_of(
        (text for item in shown if item.kind == "texts" for text in _said(found, item)),
        SMALL_LETTERS,
    )
    for item in shown:
        title = _title(item)
        over = [one for one in numbered if _is_about(item, one.flip)]
        if item.kind == "float":
            yield title, number_map(found, title, item.name, _unit(item), over)
        else:
            alphabet = guides if item.kind == "text" else touching
            yield title, said_map(found, title, _said(found, item), alphabet, over)


def _charts(
    found: Variation,
    shown: Sequence[Quantity],
    guides: Alphabet,
    numbered: Sequence[NumberedFlip],
) -> Iterator[tuple[str, Sheet]]:
    numbers = {one.flip: f"{one.number}. " for one in numbered}
    told = {item.name for item in shown}
    rows = [
        BarRow(numbers.get(flip, "") + vary_words.feature_words(flip), flip.first)
        for section in vary_words.flip_sections(found)
        for flip in section.flips
        if flip.first.kind == "finding" or flip.first.name in told
    ]
    if rows:
        yield "Where what holds", bars_chart(found, "Where what holds", rows, guides)
    for item in shown:
        if item.kind == "float":
            yield _title(item), number_chart(found, _title(item), item.name, _unit(item))


def _shown(case: Case, found: Variation) -> Iterator[Quantity]:
    """Yield the quantities that are drawn: those that are not the same everywhere.

    Of what is read at several travels the last alone, of contacts the last two.
    """
    readings = [f" at {at:g} mm" for at in case.judging.readings_mm[1:]]
    for item in quantities(case):
        kept = readings[-_CONTACT_READINGS:] if item.kind == "texts" else readings[-1:]
        at = [reading for reading in readings if _is_at(item.name, reading)]
        if (not at or at[0] in kept) and not _is_constant(found, item):
            yield item


def _is_at(name: str, reading: str) -> bool:
    return name.endswith(reading) or f"{reading}," in name


def _is_constant(found: Variation, item: Quantity) -> bool:
    if item.kind != "float":
        return len({*_said(found, item)} - {""}) < 2
    values = found.numbers(item.name)
    known = values[np.isfinite(values)]
    return known.size == 0 or bool(np.ptp(known) < _LEAST_SPAN and known.size == values.size)


#: Numbers that differ by less, in whatever unit, are told as one.
_LEAST_SPAN: Final = 5e-4


def _said(found: Variation, item: Quantity) -> list[str]:
    """Return what every run says in words, in the order of their places; "" where refused."""
    said = []
    for place in sorted(found.runs):
        value = found.runs[place][item.name]
        if found.told[place] is None:
            said.append("")
        elif isinstance(value, int | float | str):
            said.append(str(value))
        else:
            said.append(_pairs(value))
    return said


def _pairs(texts: Iterable[str]) -> str:
    return ", ".join(text.replace("-", " on ") for text in texts) or _NONE


def _is_about(item: Quantity, flip: Flip) -> bool:
    """Tell whether a finding and a quantity are about the same excursion."""
    return bool(flip.first.excursion) and f": {flip.first.excursion}" in item.name


def _title(item: Quantity) -> str:
    name = item.name
    for unit in (f", {item.unit}", f", {_UNITS.get(item.unit, item.unit)}"):
        name = name.removesuffix(unit)
    return name[0].upper() + name[1:]


def _unit(item: Quantity) -> str:
    return _UNITS.get(item.unit, item.unit)


def _constant_table(case: Case, found: Variation) -> Table:
    """Return what is the same at every grid point."""
    rows = []
    for item in quantities(case):
        if _is_constant(found, item):
            values = [*found.runs.values()]
            rows.append((_title(item), _constant(found, item) if values else _NONE))
    return Table(("the same at every grid point", "value"), tuple(rows))


def _constant(found: Variation, item: Quantity) -> str:
    if item.kind != "float":
        return next((text for text in _said(found, item) if text), _NONE)
    values = found.numbers(item.name)
    known = values[np.isfinite(values)]
    if known.size == 0:
        return _NONE
    sign = _unit(item)
    return f"{number(float(known[0]), 2)}{'' if sign == '°' else ' '}{sign}".rstrip()
