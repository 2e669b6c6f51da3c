"""The page that shows two runs side by side; self-contained, as the report is."""

import dataclasses
from collections.abc import Mapping, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from markupsafe import Markup

from kinematics import __version__
from kinematics.case import Case
from kinematics.checkup_result import Checkup
from kinematics.comparing.comparison import Comparison
from kinematics.planning.judging import DentureBase
from kinematics.planning.matched_stops import SAME_STOP_MM
from kinematics.result_texts import CAUTION
from kinematics.trial.wording import set_up_words
from scenes import comparison_words
from scenes.annotation import annotation, marks_sheet
from scenes.arch_scenes import LOWER, UPPER, occlusal_scene, stop_marks
from scenes.case_words import setting_changes
from scenes.comparison_words import FindingSection
from scenes.drawing_orders import picture_of, svg_of
from scenes.ordered_drawings import OrderedPicture, OrderedSvg
from scenes.phrases import length
from scenes.report import STYLES, TEMPLATES, template
from scenes.report_tables import excursion_titles
from scenes.ringed_teeth import Ring, ringed_arch
from scenes.scene import Scene
from scenes.setting_changes import ChangedSetting
from scenes.sheet import Sheet

_ARCH_MM: Final = 86.0
#: A ring has room for so many numbers.
_MOST_NUMBERS: Final = 3
#: Whose rings lie on the picture of a run.
_RINGED: Final = {"before": ("gone", "changed"), "after": ("new", "changed")}


@dataclass(frozen=True)
class ShownRun:
    """One of two runs: its case and what came out."""

    case: Case
    checkup: Checkup


@dataclass(frozen=True)
class ShownArch:
    """One arch of one run: its picture, tooth numbers, stops, and rings with numbers."""

    picture: OrderedPicture
    numbers: OrderedSvg
    stops: OrderedSvg
    rings: tuple[tuple[Ring, str], ...]


@dataclass(frozen=True)
class ComparisonPage:
    """The page, and why its pictures are simplified; empty where they are not."""

    html: str
    simplified: str


def comparison_page(
    before: ShownRun, after: ShownRun, comparison: Comparison, drawing: Executor
) -> ComparisonPage:
    """Return two runs side by side as one HTML page that needs nothing from outside itself.

    Parameters
    ----------
    before, after : ShownRun
        Both.
    comparison : Comparison
        What is different.
    drawing : Executor
        Draws the pictures.
    """
    sections = comparison_words.finding_sections(comparison, bases_of(before.case, after.case))
    shown = {
        when: _arches(run, when, sections, drawing)
        for when, run in (("before", before), ("after", after))
    }
    titles = excursion_titles(before.checkup) | excursion_titles(after.checkup)
    pictures = [arch.picture for arches in shown.values() for arch in arches.values()]
    simplified = next(filter(None, (picture.drawn.simplified for picture in pictures)), "")
    html = template("comparison.html").render(
        titles=(before.case.title, after.case.title),
        version=__version__,
        style=Markup("".join((TEMPLATES / name).read_text("utf-8") for name in STYLES[:1])),
        caution=CAUTION,
        set_ups=_set_ups(before.case, after.case),
        changed=_changed(before.case, after.case),
        same=comparison_words.is_same(comparison),
        teeth=comparison_words.teeth_sentence(comparison),
        counts=comparison_words.counts_sentence(comparison),
        bite=comparison_words.bite_sentence(comparison.bite),
        stops=comparison_words.stops_sentence(comparison.stops),
        stops_table=comparison_words.stops_table(comparison.stops),
        same_stop=length(SAME_STOP_MM),
        verdicts=comparison_words.verdicts_table(comparison, titles),
        loads=comparison_words.loads_table(comparison, titles),
        sections=sections,
        sides=(UPPER, LOWER),
        before=shown["before"],
        after=shown["after"],
        simplified=simplified,
    )
    return ComparisonPage(html, simplified)


def bases_of(before: Case, after: Case) -> tuple[DentureBase, ...]:
    """Return the denture bases of either of two cases, each once."""
    return tuple(dict.fromkeys([*after.denture_bases, *before.denture_bases]))


def _changed(before: Case, after: Case) -> list[ChangedSetting]:
    """Return which settings differ, but for those of trial set-ups, which are told in words."""
    bare = [dataclasses.replace(case, change=()) for case in (before, after)]
    return [*setting_changes(bare[1], bare[0])]


def _set_ups(before: Case, after: Case) -> list[str]:
    """Return what trial set-ups change in either case."""
    said = (
        (when, set_up_words(case.change)) for when, case in (("Before", before), ("After", after))
    )
    return [f"{when}, {words}." for when, words in said if words]


def _arches(
    run: ShownRun, when: str, sections: tuple[FindingSection, ...], drawing: Executor
) -> Mapping[str, ShownArch]:
    numbers: dict[int, list[str]] = {}
    for section in sections:
        for item in section.told if section.state in _RINGED[when] else ():
            for code in item.teeth:
                numbers.setdefault(code, []).append(str(item.number))
    found, checkup = {}, run.checkup
    for side, arch in ((UPPER, checkup.upper), (LOWER, checkup.lower)):
        scene = occlusal_scene(arch, side, run.case.replacement_teeth)
        magnify = _ARCH_MM / scene.view.width_mm
        marks = stop_marks(checkup.stops, checkup.mi_pose, side)
        ringed = ringed_arch(arch, side, tuple(numbers))
        rings = ringed.rings if ringed else ()
        found[side] = ShownArch(
            OrderedPicture(scene, drawing.submit(picture_of, Scene(scene.view, scene.parts))),
            _svg(annotation(scene, magnify), f"{when}-numbers-{side}", drawing),
            _svg(marks_sheet(scene.view, marks, magnify), f"{when}-stops-{side}", drawing),
            tuple((ring, _ring_text(numbers[ring.code])) for ring in rings),
        )
    return found


def _ring_text(numbers: Sequence[str]) -> str:
    """Return what stands in a ring: all numbers, or the first, the gravest, where they are many."""
    few = numbers if len(numbers) <= _MOST_NUMBERS else [*numbers[: _MOST_NUMBERS - 1], "…"]
    return "·".join(few)


def _svg(sheet: Sheet, name: str, drawing: Executor) -> OrderedSvg:
    return OrderedSvg(sheet, name, drawing.submit(svg_of, sheet, name))


def write_page(path: Path, page: ComparisonPage) -> None:
    """Write the page to a file.

    Raises
    ------
    OSError
        The file cannot be written.
    """
    path.write_bytes(page.html.encode("utf-8"))
