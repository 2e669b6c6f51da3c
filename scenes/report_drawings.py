"""Everything that is drawn for the report: laid out here, drawn by whoever takes the order."""

from concurrent.futures import Executor, Future
from dataclasses import dataclass, replace
from typing import Final

from kinematics.casts.casts import Arch
from kinematics.checkup import Checkup
from kinematics.contact.sweep import Sweep
from scenes.annotation import annotation, legend_sign, marks_sheet
from scenes.arch_scenes import LOWER, UPPER, excursion_marks, occlusal_scene, stop_marks
from scenes.charts import Reach, contact_chart
from scenes.drawing_orders import DrawnPicture, picture_of, simplified_picture_of, svg_of
from scenes.drawing_processes import DrawingProcessEndedError
from scenes.gap_charts import back_tooth_keys, gap_chart
from scenes.mouth_scene import mouth_marks, mouth_scene
from scenes.scene import Marks, Scene, View
from scenes.sheet import Sheet
from scenes.track_charts import condyle_chart, incisal_chart

SIDES: Final = (UPPER, LOWER)
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
    """Pictures of both arches: each alone with its numbers, and both in an open mouth."""

    alone: dict[str, OrderedPicture]
    numbers: dict[str, OrderedSvg]
    mouth: OrderedPicture


@dataclass(frozen=True)
class SweepDrawings:
    """Charts of one excursion and, where it starts in MI, gaps and contact marks by side."""

    chart: OrderedSvg
    gaps: OrderedSvg | None
    marks: dict[str, tuple[Marks, ...]]
    overlays: dict[str, OrderedSvg]


@dataclass(frozen=True)
class OtherDrawings:
    """What needs all results: stops by side, marks of the open mouth, tracks, and signs.

    `signs` holds the shape of every kind of mark by its label, `stop_labels` those of the stops.
    """

    stops: dict[str, OrderedSvg]
    stop_labels: tuple[str, ...]
    mouth_marks: OrderedSvg
    incisal: OrderedSvg
    condyles: OrderedSvg
    back_teeth: tuple[tuple[OrderedSvg, str], ...]
    signs: dict[str, OrderedSvg]


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


@dataclass(frozen=True)
class Wanted:
    """What a case wants shown: its replacement teeth, how far "near" reaches, where it is read."""

    replacement_teeth: tuple[int, ...]
    reach: Reach
    readings_mm: tuple[float, ...]


class Orders:
    """Takes results as they come, and orders at once what shows them.

    Parameters
    ----------
    wanted : Wanted
        What the case wants shown.
    drawing : Executor
        Who draws.
    """

    def __init__(self, wanted: Wanted, drawing: Executor) -> None:
        self._wanted, self._drawing = wanted, drawing
        self._arches: ArchDrawings
        self._sweeps: list[SweepDrawings | None] = []

    def teeth(self, upper: Arch, lower: Arch) -> None:
        """Order the pictures of both arches; comes first."""
        replaced = self._wanted.replacement_teeth
        alone = {s: occlusal_scene(a, s, replaced) for s, a in ((UPPER, upper), (LOWER, lower))}
        self._arches = ArchDrawings(
            {side: self._picture(scene) for side, scene in alone.items()},
            {
                side: self._svg(annotation(scene), f"numbers-{side}")
                for side, scene in alone.items()
            },
            self._picture(mouth_scene(upper, lower, replaced)),
        )

    def movement(self, sweep: Sweep) -> None:
        """Order what shows one excursion; where MI is in CR the way back has no length to draw."""
        moves = sweep.travel_mm[-1] > 0.0
        self._sweeps.append(self._movement(sweep, len(self._sweeps)) if moves else None)

    def _movement(self, sweep: Sweep, number: int) -> SweepDrawings:
        wanted = self._wanted
        chart = self._svg(
            contact_chart(sweep, wanted.reach, wanted.readings_mm, wanted.replacement_teeth),
            f"chart{number}",
        )
        if sweep.excursion.start != "MI":
            return SweepDrawings(chart, None, {}, {})
        gaps = self._svg(gap_chart(sweep, wanted.readings_mm), f"gaps{number}")
        marks = {side: excursion_marks(sweep, side) for side in SIDES}
        return SweepDrawings(chart, gaps, marks, self._overlays(marks, f"marks{number}"))

    def rest(self, checkup: Checkup, reference_plane: str) -> Drawings:
        """Order what needs all results, and return everything that was ordered."""
        drawn = [sweep for sweep in self._sweeps if sweep]
        stops = {side: stop_marks(checkup.stops, checkup.mi_pose, side) for side in SIDES}
        kinds = {
            group.label: group
            for by_side in (stops, *(sweep.marks for sweep in drawn))
            for groups in by_side.values()
            for group in groups
        }
        mouth = replace(self._arches.mouth.scene, marks=mouth_marks(checkup))
        moving = [s for s in checkup.sweeps if s.excursion.start == "MI" and s.travel_mm[-1] > 0.0]
        keys = back_tooth_keys(checkup.upper.codes)
        others = OtherDrawings(
            self._overlays(stops, "stops"),
            tuple(group.label for group in stops[UPPER]),
            self._svg(annotation(mouth), "mouth"),
            self._svg(incisal_chart(checkup.borders, moving), "incisal"),
            self._svg(condyle_chart(checkup.borders, reference_plane), "condyles"),
            tuple((self._svg(key, f"key{k}"), name) for k, (key, name) in enumerate(keys)),
            {
                label: self._svg(legend_sign(group), f"sign{k}")
                for k, (label, group) in enumerate(kinds.items())
            },
        )
        return Drawings(self._arches, tuple(self._sweeps), others)

    def _overlays(self, marks: dict[str, tuple[Marks, ...]], name: str) -> dict[str, OrderedSvg]:
        views = {side: picture.view for side, picture in self._arches.alone.items()}
        return {
            side: self._svg(marks_sheet(views[side], own), f"{name}-{side}")
            for side, own in marks.items()
        }

    def _svg(self, sheet: Sheet, name: str) -> OrderedSvg:
        return OrderedSvg(sheet, name, self._drawing.submit(svg_of, sheet, name))

    def _picture(self, scene: Scene) -> OrderedPicture:
        bare = Scene(scene.view, scene.parts)
        return OrderedPicture(scene, self._drawing.submit(picture_of, bare))
