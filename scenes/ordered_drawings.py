"""Drawings and pictures that were ordered for a report: a page that shows them waits for them."""

from concurrent.futures import Future
from dataclasses import dataclass
from typing import Final

from scenes.drawing_orders import DrawnPicture, simplified_picture_of, svg_of
from scenes.drawing_processes import DrawingProcessEndedError
from scenes.scene import Marks, Scene, View
from scenes.sheet import Sheet

_PROCESS_ENDED: Final = (
    "a drawing process ended unexpectedly, so simplified drawings are shown instead; "
    "run again for full ones"
)


@dataclass(frozen=True)
class OrderedSvg:
    """A sheet that somebody draws; a page that shows it waits for it."""

    sheet: Sheet
    name: str
    future: Future[str]

    def __html__(self) -> str:
        """Return the SVG element; a sheet whose process ended is drawn here."""
        try:
            return self.future.result()
        except DrawingProcessEndedError:
            return svg_of(self.sheet, self.name)


@dataclass(frozen=True)
class OrderedPicture:
    """A picture of teeth that somebody draws, and the size of its scene."""

    scene: Scene
    future: Future[DrawnPicture]

    @property
    def view(self) -> View:
        """How the teeth are looked at."""
        return self.scene.view

    @property
    def drawn(self) -> DrawnPicture:
        """The picture; where its process ended, one that cannot end this process too."""
        try:
            return self.future.result()
        except DrawingProcessEndedError:
            return simplified_picture_of(self.scene, _PROCESS_ENDED)


@dataclass(frozen=True)
class ArchDrawings:
    """What shows the teeth before they move.

    Attributes
    ----------
    alone, numbers : dict of str to OrderedPicture and to OrderedSvg
        By side: an arch, and what is written over it.
    mouth, mouth_numbers : OrderedPicture, OrderedSvg
        Both arches in an open mouth, and what is written over them.
    condyles : OrderedSvg
        Their tracks in border movements without teeth.
    back_teeth : tuple of (OrderedSvg, str)
        A sample of the line of every back tooth, and its name.
    """

    alone: dict[str, OrderedPicture]
    numbers: dict[str, OrderedSvg]
    mouth: OrderedPicture
    mouth_numbers: OrderedSvg
    condyles: OrderedSvg
    back_teeth: tuple[tuple[OrderedSvg, str], ...]


@dataclass(frozen=True)
class SweepDrawings:
    """Charts of one excursion and, where it starts in MI, gaps and contact marks by side."""

    chart: OrderedSvg
    gaps: OrderedSvg | None
    marks: dict[str, tuple[Marks, ...]]
    overlays: dict[str, OrderedSvg]


@dataclass(frozen=True)
class OverlapDrawings:
    """By side an arch coloured by its overlap and what is written over it, and the colours."""

    arches: dict[str, OrderedPicture]
    numbers: dict[str, OrderedSvg]
    legend: OrderedSvg


@dataclass(frozen=True)
class LoadDrawings:
    """One framework where it is pushed most, and its largest push in every excursion."""

    framework: str
    worst: OrderedSvg
    bars: OrderedSvg


@dataclass(frozen=True)
class RoomDrawing:
    """A crown with the room over it, what lies over its picture, and what its colours mean."""

    crown: OrderedPicture
    over: OrderedSvg
    key: OrderedSvg
    description: str


@dataclass(frozen=True)
class SurveyDrawings:
    """A surveyed cast along its path, its abutments from their sides, what lies over both, a key.

    `width_mm` is the printed width of the abutments.
    """

    path: OrderedPicture
    over_path: OrderedSvg
    abutments: OrderedPicture
    over_abutments: OrderedSvg
    key: OrderedSvg
    width_mm: float


@dataclass(frozen=True)
class WaxUpDrawings:
    """The teeth that a wax-up changed, what lies over them, the steps of colour, printed width."""

    teeth: OrderedPicture
    over: OrderedSvg
    key: OrderedSvg
    width_mm: float


@dataclass(frozen=True)
class OtherDrawings:
    """What needs all results.

    Attributes
    ----------
    stops : dict of str to OrderedSvg
        Marks of the centric stops by side.
    stop_labels : tuple of str
        How they are called.
    mouth_marks : OrderedSvg
        Stops and contacts of the main excursions in the open mouth.
    mouth_labels : tuple of str
        How they are called.
    incisal : OrderedSvg
        Tracks of the incisal point.
    signs : dict of str to OrderedSvg
        The shape of every kind of mark by its label.
    raised : OrderedSvg or None
        The raised bite from the side; None where the bite stays as it is.
    measured : OrderedSvg or None
        Measured tracks of the condyles and what was fitted to them; None where there are none.
    driven : OrderedSvg or None
        How far the casts stand open along measured tracks; None where there are none.
    overlaps : OverlapDrawings or None
        Where scanned casts stand in each other; None where they do not.
    recorded : OrderedSvg or None
        Where interocclusal records put the condyles; None where there are none.
    frameworks : tuple of (OrderedSvg, OrderedSvg)
        What lies over the picture of its arch to show each framework, and what that means.
    loads : tuple of LoadDrawings
        What frameworks carry that carry something in an excursion.
    planes : tuple of OrderedSvg or None
        Both arches unrolled along their occlusal curves; None where an arch has none.
    rest_rooms, crown_rooms : tuple of RoomDrawing
        Room over every rest and every planned crown.
    surveys : tuple of SurveyDrawings
        One a surveyed cast.
    adjustments : tuple of tuple of (OrderedPicture, OrderedSvg)
        Of every adjustment the teeth that are cut, by depth, and what is written over each.
    cut_legend : OrderedSvg or None
        What the colours of depth mean; None where there are no adjustments.
    remedies : tuple of OrderedSvg or None
        Of every tooth for which remedies were sought how far it stands; None where none was found.
    wax_ups : tuple of WaxUpDrawings or None
        One a wax-up; None where no tooth of it is drawn.
    outlines : OrderedSvg or None
        Border movements; None without a whole run.
    influences : tuple of OrderedSvg
        What decides findings that are not settled, one a finding.
    """

    stops: dict[str, OrderedSvg]
    stop_labels: tuple[str, ...]
    mouth_marks: OrderedSvg
    mouth_labels: tuple[str, ...]
    incisal: OrderedSvg
    signs: dict[str, OrderedSvg]
    raised: OrderedSvg | None
    measured: OrderedSvg | None
    driven: OrderedSvg | None
    overlaps: OverlapDrawings | None
    recorded: OrderedSvg | None
    frameworks: tuple[tuple[OrderedSvg, OrderedSvg], ...] = ()
    loads: tuple[LoadDrawings, ...] = ()
    planes: tuple[OrderedSvg | None, ...] = ()
    rest_rooms: tuple[RoomDrawing, ...] = ()
    crown_rooms: tuple[RoomDrawing, ...] = ()
    surveys: tuple[SurveyDrawings, ...] = ()
    adjustments: tuple[tuple[tuple[OrderedPicture, OrderedSvg], ...], ...] = ()
    cut_legend: OrderedSvg | None = None
    remedies: tuple[OrderedSvg | None, ...] = ()
    wax_ups: tuple[WaxUpDrawings | None, ...] = ()
    outlines: OrderedSvg | None = None
    influences: tuple[OrderedSvg, ...] = ()


@dataclass(frozen=True)
class Drawings:
    """Everything that was ordered for one report; a movement of no length has no charts."""

    arches: ArchDrawings
    sweeps: tuple[SweepDrawings | None, ...]
    others: OtherDrawings

    @property
    def simplified(self) -> str:
        """One line saying why pictures are simplified; empty where they are not."""
        pictures = (*self.arches.alone.values(), self.arches.mouth)
        return next(filter(None, (picture.drawn.simplified for picture in pictures)), "")
