"""The written report: one self-contained page that opens offline and prints on A4 or letter."""

from collections.abc import Iterator
from concurrent.futures import Executor
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup

from kinematics import __version__
from kinematics.checkup_result import Checkup
from kinematics.load.settings import LoadSettings
from kinematics.planning.base_rules import SEVERITY_SOURCE
from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.joined_teeth import Joined
from kinematics.planning.judging import DentureBase, JudgingSettings
from kinematics.planning.plane.settings import PlaneSettings
from kinematics.records.settings import RecordFitting
from kinematics.result_texts import CAUTION
from scenes import finding_cards, report_tables
from scenes.adjustment_words import adjustment_section
from scenes.advice_words import advice_words
from scenes.border_words import border_notes, border_table
from scenes.centric_words import centric_words
from scenes.chairside import checklist
from scenes.charts import Reach, start_only
from scenes.drawing_processes import InLine
from scenes.driven_words import driven_words
from scenes.first_page import first_page
from scenes.framework_words import framework_words
from scenes.laboratory import laboratory_page
from scenes.load_words import load_section
from scenes.observed_words import observed_table
from scenes.ordered_drawings import Drawings, OrderedSvg
from scenes.patient import patient_page
from scenes.patient_plan import patient_plan
from scenes.phrases import UNDETERMINED, excursion_title, length, side_words, start_words
from scenes.plain_guidance import plain_guidance
from scenes.plane_words import plane_words
from scenes.raised_bite import raised_words
from scenes.reading_rows import all_readings
from scenes.record_limits import record_limits
from scenes.record_words import record_words
from scenes.remedy_words import remedy_section
from scenes.report_drawings import SIDES, Orders, Wanted
from scenes.room_words import room_section
from scenes.scan_words import scan_words
from scenes.sequence_words import sequence_section
from scenes.set_up_lengths import set_up_lengths
from scenes.setting_changes import ChangedSetting, changed_table
from scenes.setting_tables import SettingRow, setting_tables
from scenes.survey_words import survey_section
from scenes.told_findings import notes_of, told_groups
from scenes.track_words import track_words
from scenes.uncertainty_words import uncertainty_section
from scenes.wax_up_words import wax_up_words

#: What pages are made from.
TEMPLATES: Final = Path(__file__).parent / "templates"
#: How many changed settings the first page names; all stand with the settings.
_CHANGES_TOLD: Final = 8
STYLES: Final = ("report.css", "handouts.css")


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
    readings_mm : tuple of float
        Travel at which readings are taken, marked in the charts.
    cautions : tuple of str
        What else must be known about this case, beside the cautions of every report.
    judging : JudgingSettings
        What contacts are judged by, and the scatter of the records.
    bases : tuple of DentureBase
        Denture bases with their teeth and schemes.
    joined : tuple of Splint or Bridge
        What joins teeth.
    at_default : tuple of SettingRow
        Settings of guidance and MI at the value that is taken where nothing is given.
    changed : tuple of ChangedSetting
        In which settings it differs from the case it was made from.
    changed_from : str
        Title of that case.
    fitting : RecordFitting
        How interocclusal records scatter.
    conditions : tuple of ToothCondition
        How natural teeth stand.
    load : LoadSettings
        What loads are reckoned with.
    set_up : str
        What a trial set-up changes; empty without one.
    plane : PlaneSettings
        When a tooth counts as out of line.
    """

    title: str
    note: str
    reference_plane: str
    settings: tuple[SettingRow, ...]
    replacement_teeth: tuple[int, ...] = ()
    near_mm: float = 0.2
    near_start_mm: float = 0.5
    readings_mm: tuple[float, ...] = (0.0, 0.5, 1.0, 2.0, 3.0)
    cautions: tuple[str, ...] = ()
    judging: JudgingSettings = field(default_factory=JudgingSettings)
    bases: tuple[DentureBase, ...] = ()
    joined: tuple[Joined, ...] = ()
    at_default: tuple[SettingRow, ...] = ()
    changed: tuple[ChangedSetting, ...] = ()
    changed_from: str = ""
    fitting: RecordFitting = field(default_factory=RecordFitting)
    conditions: tuple[ToothCondition, ...] = ()
    load: LoadSettings = field(default_factory=LoadSettings)
    set_up: str = ""
    plane: PlaneSettings = field(default_factory=PlaneSettings)


@dataclass(frozen=True)
class MarkedArches:
    """Both arches with the marks of one movement, by side.

    `legend` names the kinds of marks: by their labels, the words that stand beside the title.
    """

    title: str
    side_words: str
    overlays: dict[str, OrderedSvg]
    legend: dict[str, str]


@dataclass(frozen=True)
class ExcursionSection:
    """Charts and sentences of one excursion; movements from CR have no `gaps`."""

    title: str
    start: str
    side_words: str
    facts: str
    chart: OrderedSvg
    gaps: OrderedSvg | None
    at_start: str


def orders_for(words: CaseWords, drawing: Executor) -> Orders:
    """Return what takes results as they come and orders what the report of a case shows of them."""
    wanted = Wanted(
        words.reference_plane,
        words.replacement_teeth,
        _reach(words),
        words.readings_mm,
        words.plane.limit_mm,
    )
    return Orders(wanted, drawing)


def _drawn_at_once(checkup: Checkup, words: CaseWords) -> Drawings:
    orders = orders_for(words, InLine())
    orders.teeth(checkup.upper, checkup.lower, checkup.borders)
    for sweep in checkup.sweeps:
        orders.movement(sweep)
    return orders.rest(checkup)


def html_report(checkup: Checkup, words: CaseWords, drawings: Drawings | None = None) -> str:
    """Return the report as one HTML page that needs nothing from outside itself.

    Parameters
    ----------
    checkup : Checkup
        What was computed.
    words : CaseWords
        What is known of the case.
    drawings : Drawings, optional
        What was ordered by `orders_for`; left out, everything is drawn at once, in this process.
    """
    ordered = drawings or _drawn_at_once(checkup, words)
    arches, others = ordered.arches, ordered.others
    titles = report_tables.excursion_titles(checkup)
    sources = finding_cards.long_sources(checkup.findings)
    groups = finding_groups(checkup.findings, words.bases)
    return template("report.html").render(
        words=words,
        checkup=checkup,
        version=__version__,
        style=Markup("".join((TEMPLATES / name).read_text("utf-8") for name in STYLES)),
        caution=CAUTION,
        undetermined=UNDETERMINED,
        tables=report_tables,
        lead=finding_cards.lead,
        severity_counts=finding_cards.severity_counts(checkup.findings),
        titles=titles,
        first=first_page(checkup, groups, words.judging.scheme),
        plain_guidance=plain_guidance,
        readings=all_readings(checkup.verdicts, titles),
        groups=list(told_groups(checkup, groups, words.replacement_teeth)),
        notes=list(notes_of(checkup, groups)),
        severity_source=SEVERITY_SOURCE,
        near=length(words.near_mm),
        length=length,
        setting_tables=setting_tables(words.settings),
        changes_told=_CHANGES_TOLD,
        changed_table=changed_table(words.changed),
        simplified=ordered.simplified,
        sides=SIDES,
        arches=arches,
        others=others,
        sign_numbers={label: number for number, label in enumerate(others.signs)},
        marked=list(_marked_arches(checkup, ordered)),
        excursions=list(_excursion_sections(checkup, words, ordered)),
        frameworks=framework_words(checkup.frameworks, words.conditions),
        rooms=room_section(checkup.rooms),
        survey=survey_section(checkup.surveys),
        wax_ups=wax_up_words(checkup.wax_ups),
        raised=raised_words(checkup.raised, words.reference_plane),
        sources=sources,
        scans=scan_words(checkup.scans, words.reference_plane),
        centric=centric_words(checkup.centric, words.judging.record_scatter_mm),
        recorded=record_words(checkup.recorded, words.fitting, words.reference_plane),
        loads=load_section(checkup.loads, words.load, titles),
        measured=track_words(checkup.tracked, words.fitting, words.reference_plane),
        driven=driven_words(checkup.driven),
        limits=record_limits(checkup, words.judging, words.at_default),
        advice=advice_words(checkup, words.judging),
        adjustments=adjustment_section(checkup.adjusted),
        remedies=remedy_section(checkup.remedies),
        outlines=None if checkup.outlines is None else border_table(checkup.outlines),
        outline_notes=() if checkup.outlines is None else border_notes(checkup.outlines),
        sure=uncertainty_section(checkup.uncertainty, checkup.findings),
        sure_charts=others.influences,
        observed=observed_table(checkup.marks),
        lengths=set_up_lengths(checkup.extents),
        planes=plane_words(checkup.planes, words.plane, checkup.scans is None),
        checklist=checklist(checkup, words.judging),
        ordered=sequence_section(checkup.sequence),
        plan=patient_plan(checkup.sequence),
        patient=patient_page(checkup, words.replacement_teeth),
        laboratory=laboratory_page(
            checkup, words.judging, words.bases, words.settings, words.joined
        ),
    )


def template(name: str) -> Template:
    """Return the template of a page."""
    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    return environment.get_template(name)


def _reach(words: CaseWords) -> Reach:
    return Reach(words.near_mm, words.near_start_mm)


def _excursion_sections(
    checkup: Checkup, words: CaseWords, drawings: Drawings
) -> Iterator[ExcursionSection]:
    for sweep, drawn in zip(checkup.sweeps, drawings.sweeps, strict=True):
        if drawn:
            yield ExcursionSection(
                title=excursion_title(sweep.excursion),
                start=start_words(sweep.excursion),
                side_words=side_words(sweep.excursion),
                facts=report_tables.sweep_facts(sweep),
                chart=drawn.chart,
                gaps=drawn.gaps,
                at_start=report_tables.start_sentence(
                    start_only(sweep, _reach(words)), words.near_start_mm
                ),
            )


def _marked_arches(checkup: Checkup, drawings: Drawings) -> Iterator[MarkedArches]:
    stops = dict.fromkeys(drawings.others.stop_labels, "stops in MI")
    yield MarkedArches("Maximal intercuspation (MI)", "", {}, stops)
    for sweep, drawn in zip(checkup.sweeps, drawings.sweeps, strict=True):
        if drawn and drawn.overlays:
            labels = [group.label for side in SIDES for group in drawn.marks[side]]
            yield MarkedArches(
                excursion_title(sweep.excursion),
                side_words(sweep.excursion),
                drawn.overlays,
                {label: label.split(", ")[-1].lower() for label in labels} | stops,
            )


def write_html(
    path: Path, checkup: Checkup, words: CaseWords, drawings: Drawings | None = None
) -> None:
    """Write the report to a file, the same bytes for the same results; arguments as above.

    Raises
    ------
    OSError
        The file cannot be written.
    """
    path.write_bytes(html_report(checkup, words, drawings).encode("utf-8"))
