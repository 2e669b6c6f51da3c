"""The written report: one self-contained page that opens offline and prints on A4 or letter."""

from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from itertools import groupby
from pathlib import Path
from typing import Final

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup

from kinematics import __version__
from kinematics.checkup import Checkup
from kinematics.contact.sweep import Sweep
from kinematics.planning.base_rules import SEVERITY_SOURCE
from kinematics.planning.judging import REPRODUCIBILITY
from kinematics.result_files import CAUTION
from scenes import annotation, charts, gap_charts, report_tables, track_charts, writers
from scenes.mouth_scene import mouth_scene
from scenes.opengl_probe import probe
from scenes.phrases import UNDETERMINED, excursion_title, length, side_words, start_words
from scenes.scene import (
    LOWER,
    UPPER,
    Marks,
    Scene,
    excursion_marks,
    marks_alone,
    occlusal_scene,
    stop_marks,
)

_TEMPLATES: Final = Path(__file__).parent / "templates"
#: How many findings the first page shows; the others are counted there and told below.
_FIRST_PAGE_FINDINGS: Final = 5
_SIDES: Final = (UPPER, LOWER)


@dataclass(frozen=True)
class SettingRow:
    """One setting as text."""

    group: str
    name: str
    value: str
    unit: str


@dataclass(frozen=True)
class CaseWords:
    """What the report says about a case beside its results.

    Attributes
    ----------
    title, note : str
        Heading, and what a reader must know.
    reference_plane : str
        Plane to which inclinations refer.
    settings : tuple of SettingRow
        All settings, grouped; rows of a group stand together.
    replacement_teeth : tuple of int
        ISO 3950 numbers of replacement teeth.
    near_mm : float
        Pairs nearer than this are shown as near.
    near_start_mm : float
        Contacts that end within this travel are told in words, not drawn.
    cautions : tuple of str
        What else must be known about this case, beside the cautions of every report.
    """

    title: str
    note: str
    reference_plane: str
    settings: tuple[SettingRow, ...]
    replacement_teeth: tuple[int, ...] = ()
    near_mm: float = 0.2
    near_start_mm: float = 0.5
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class MarkedArches:
    """Both arches with the marks of one movement: annotation over a shared picture of each arch.

    `legend` holds (shape drawn as SVG, words) for every kind of mark.
    """

    title: str
    side_words: str
    arches: tuple[tuple[str, str], ...]
    legend: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class ExcursionSection:
    """Charts and sentences of one excursion; `gaps` is empty for movements from CR."""

    title: str
    start: str
    side_words: str
    facts: str
    chart: str
    gaps: str
    at_start: str


@dataclass(frozen=True)
class Ground:
    """A picture with its own annotation: what it shows, its size, and itself as an address."""

    side: str
    words: str
    width_mm: float
    height_mm: float
    address: str
    simplified: str
    words_over_it: str


def html_report(checkup: Checkup, words: CaseWords) -> str:
    """Return the report as one HTML page that needs nothing from outside itself.

    Parameters
    ----------
    checkup : Checkup
        What was computed.
    words : CaseWords
        What is known of the case.
    """
    bare = {side: occlusal_scene(checkup, side, (), words.replacement_teeth) for side in _SIDES}
    titles = report_tables.excursion_titles(checkup)
    # where MI is in CR the way back has no length, and a chart of it no width
    moving = tuple(sweep for sweep in checkup.sweeps if sweep.travel_mm[-1] > 0.0)
    with ThreadPoolExecutor(max_workers=1) as asking:
        asking.submit(probe)  # waits for a child process while the plots are drawn
        plots = _plots(replace(checkup, sweeps=moving), words, bare)
    grounds = [_ground(scene, side) for side, scene in bare.items()]
    return _page().render(
        **plots,
        words=words,
        checkup=checkup,
        version=__version__,
        style=Markup((_TEMPLATES / "report.css").read_text("utf-8")),
        caution=CAUTION,
        undetermined=UNDETERMINED,
        reproducibility=REPRODUCIBILITY,
        tables=report_tables,
        titles=titles,
        first_page_findings=_FIRST_PAGE_FINDINGS,
        severity_source=SEVERITY_SOURCE,
        near=length(words.near_mm),
        length=length,
        setting_groups=[
            (group, list(rows)) for group, rows in groupby(words.settings, lambda row: row.group)
        ],
        simplified=grounds[0].simplified,
        arch_pictures=grounds,
        overview=_ground(mouth_scene(checkup, words.replacement_teeth), "both"),
        cards=[report_tables.finding_card(finding, titles) for finding in checkup.findings],
    )


def _page() -> Template:
    environment = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    return environment.get_template("report.html")


def _plots(checkup: Checkup, words: CaseWords, bare: dict[str, Scene]) -> dict[str, object]:
    """Draw everything that needs no picture of the teeth."""
    from_mi = [sweep for sweep in checkup.sweeps if sweep.excursion.start == "MI"]
    keys = gap_charts.back_tooth_keys(checkup.upper.codes)
    condyles = track_charts.condyle_chart(checkup.borders, words.reference_plane, "condyles")
    return {
        "back_tooth_keys": [(Markup(sign), name) for sign, name in keys],
        "marked": list(_marked_arches(checkup, from_mi, bare)),
        "excursions": list(_excursion_sections(checkup, words)),
        "incisal": Markup(track_charts.incisal_chart(checkup.borders, from_mi, "incisal")),
        "condyles": Markup(condyles),
    }


def _ground(scene: Scene, side: str) -> Ground:
    drawn = writers.picture(scene)
    view = scene.view
    return Ground(
        side,
        view.name,
        view.width_mm,
        view.height_mm,
        writers.jpeg_address(drawn.pixels),
        drawn.simplified,
        Markup(annotation.vector_overlay(scene, f"words-{side}")),
    )


def _readings_mm(checkup: Checkup) -> tuple[float, ...]:
    return tuple(sorted({reading.travel_mm for v in checkup.verdicts for reading in v.readings}))


def _excursion_sections(checkup: Checkup, words: CaseWords) -> Iterator[ExcursionSection]:
    readings = _readings_mm(checkup)
    reach = charts.Reach(words.near_mm, words.near_start_mm)
    for number, sweep in enumerate(checkup.sweeps):
        yield ExcursionSection(
            title=excursion_title(sweep.excursion),
            start=start_words(sweep.excursion),
            side_words=side_words(sweep.excursion),
            facts=report_tables.sweep_facts(sweep),
            chart=Markup(
                charts.contact_chart(
                    sweep, f"chart{number}", reach, readings, words.replacement_teeth
                )
            ),
            gaps=Markup(gap_charts.gap_chart(sweep, f"gaps{number}", readings))
            if sweep.excursion.start == "MI"
            else "",
            at_start=report_tables.start_sentence(
                charts.start_only(sweep, reach), words.near_start_mm
            ),
        )


def _marked_arches(
    checkup: Checkup, sweeps: Sequence[Sweep], bare: dict[str, Scene]
) -> Iterator[MarkedArches]:
    stops = {side: stop_marks(checkup, side) for side in _SIDES}
    yield _marked("Maximal intercuspation (MI)", "", stops, bare, "marks-mi")
    for number, sweep in enumerate(sweeps):
        marks = {side: (*stops[side], *excursion_marks(sweep, side)) for side in _SIDES}
        title = excursion_title(sweep.excursion)
        yield _marked(title, side_words(sweep.excursion), marks, bare, f"marks{number}")


def _marked(
    title: str,
    sides: str,
    marks: dict[str, tuple[Marks, ...]],
    bare: dict[str, Scene],
    name: str,
) -> MarkedArches:
    kinds = {group.label: group for side in _SIDES for group in marks[side]}
    return MarkedArches(
        title,
        sides,
        tuple(
            (
                side,
                Markup(
                    annotation.vector_overlay(
                        marks_alone(bare[side], marks[side]), f"{name}-{side}"
                    )
                ),
            )
            for side in _SIDES
        ),
        tuple(
            (Markup(annotation.legend_sign(group, f"{name}-sign{k}")), label)
            for k, (label, group) in enumerate(kinds.items())
        ),
    )


def write_html(path: Path, checkup: Checkup, words: CaseWords) -> None:
    """Write the report to a file, the same bytes for the same results.

    Raises
    ------
    OSError
        The file cannot be written.
    """
    path.write_bytes(html_report(checkup, words).encode("utf-8"))
