"""Everything that is drawn for the report: laid out here, drawn by whoever takes the order."""

from concurrent.futures import Executor
from dataclasses import dataclass
from typing import Final

from kinematics.borders.tracks import BorderTrack
from kinematics.casts.casts import Arch
from kinematics.checkup_result import Checkup
from kinematics.contact.sweep import Sweep
from kinematics.planning.load_readings import largest_load
from scenes.annotation import annotation, legend_sign, marks_sheet
from scenes.arch_scenes import LOWER, UPPER, excursion_marks, occlusal_scene, stop_marks
from scenes.border_charts import border_chart
from scenes.charts import Reach, contact_chart
from scenes.cut_maps import cut_legend, cut_scene, cut_words
from scenes.drawing_orders import picture_of, svg_of
from scenes.driven_chart import driven_chart
from scenes.framework_chart import framework_key, framework_sheet
from scenes.gap_charts import back_tooth_keys, gap_chart
from scenes.load_bars import load_bars
from scenes.load_picture import load_picture
from scenes.mouth_scene import mouth_marks, mouth_scene
from scenes.ordered_drawings import (
    ArchDrawings,
    Drawings,
    LoadDrawings,
    OrderedPicture,
    OrderedSvg,
    OtherDrawings,
    OverlapDrawings,
    RoomDrawing,
    SurveyDrawings,
    SweepDrawings,
    WaxUpDrawings,
)
from scenes.overlap_scenes import (
    overlap_legend,
    overlap_limit_mm,
    overlap_numbers,
    overlap_scene,
)
from scenes.plane_chart import is_drawn, plane_chart
from scenes.raised_bite_chart import raised_chart
from scenes.recorded_chart import recorded_chart
from scenes.remedy_chart import remedy_chart
from scenes.report_tables import excursion_titles
from scenes.room_maps import RoomMap, bands_key, crown_maps, rest_maps
from scenes.scene import Marks, Scene
from scenes.sheet import Sheet
from scenes.survey_chart import abutment_sheet, path_sheet, survey_key
from scenes.survey_views import abutment_scene, path_scene
from scenes.track_charts import condyle_chart, incisal_chart, measured_chart
from scenes.uncertainty_chart import influence_charts
from scenes.wax_up_maps import wax_up_picture

SIDES: Final = (UPPER, LOWER)
#: Widths on paper of one arch, of one that fills half the page, and of the open mouth; the style of
#: the page must agree.
_ARCH_MM: Final = 60.0
_WIDE_ARCH_MM: Final = 86.0
_MOUTH_MM: Final = 128.0
#: Surveyed teeth are drawn so much larger than they are, if they fit across the page.
_LARGER: Final = 2.0
_PAGE_MM: Final = 178.0
#: Width on paper of one tooth that is cut.
_CUT_MM: Final = 58.0


@dataclass(frozen=True)
class Wanted:
    """What a case wants shown: replacement teeth, how far "near" reaches, where it is read."""

    reference_plane: str
    replacement_teeth: tuple[int, ...]
    reach: Reach
    readings_mm: tuple[float, ...]
    plane_limit_mm: float = 0.5


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
        self._borders: tuple[BorderTrack, ...]
        self._guided: list[Sweep] = []
        self._sweeps: list[SweepDrawings | None] = []
        self._signs: dict[str, OrderedSvg] = {}
        self._incisal: OrderedSvg | None = None

    def teeth(self, upper: Arch, lower: Arch, borders: tuple[BorderTrack, ...]) -> None:
        """Order the pictures of both arches and the border tracks of the condyles; comes first."""
        self._borders = borders
        replaced = self._wanted.replacement_teeth
        alone = {s: occlusal_scene(a, s, replaced) for s, a in ((UPPER, upper), (LOWER, lower))}
        mouth = mouth_scene(upper, lower, replaced)
        numbers = {
            side: self._svg(annotation(scene, _ARCH_MM / scene.view.width_mm), f"numbers-{side}")
            for side, scene in alone.items()
        }
        keys = back_tooth_keys(upper.codes)
        self._arches = ArchDrawings(
            {side: self._picture(scene) for side, scene in alone.items()},
            numbers,
            self._picture(mouth),
            self._svg(annotation(mouth, _MOUTH_MM / mouth.view.width_mm), "mouth-numbers"),
            self._svg(condyle_chart(borders, self._wanted.reference_plane), "condyles"),
            tuple((self._svg(key, f"key{k}"), name) for k, (key, name) in enumerate(keys)),
        )

    def movement(self, sweep: Sweep) -> None:
        """Order what shows one excursion; those from MI come first.

        Where MI is in CR the way back has no length, and a chart of it no width.
        """
        if sweep.travel_mm[-1] == 0.0:
            self._sweeps.append(None)
            return
        number, wanted = len(self._sweeps), self._wanted
        chart = self._svg(
            contact_chart(sweep, wanted.reach, wanted.readings_mm, wanted.replacement_teeth),
            f"chart{number}",
        )
        if sweep.excursion.start != "MI":
            self._sweeps.append(SweepDrawings(chart, None, {}, {}))
            self._order_incisal()
            return
        self._guided.append(sweep)
        gaps = self._svg(gap_chart(sweep, wanted.readings_mm), f"gaps{number}")
        marks = {side: excursion_marks(sweep, side) for side in SIDES}
        overlays = self._overlays(marks, f"marks{number}")
        self._sweeps.append(SweepDrawings(chart, gaps, marks, overlays))

    def rest(self, checkup: Checkup) -> Drawings:
        """Order what needs all results, and return everything that was ordered."""
        stops = {side: stop_marks(checkup.stops, checkup.mi_pose, side) for side in SIDES}
        view = self._arches.mouth.view
        in_mouth = mouth_marks(checkup)
        others = OtherDrawings(
            self._overlays(stops, "stops"),
            tuple(group.label for group in stops[UPPER]),
            self._svg(marks_sheet(view, in_mouth, _MOUTH_MM / view.width_mm), "mouth-marks"),
            tuple(dict.fromkeys(group.label for group in in_mouth)),
            self._order_incisal(),
            self._signs,
            self._raised(checkup),
            self._measured(checkup),
            self._svg(driven_chart(checkup.driven), "driven") if checkup.driven else None,
            self._overlapping(checkup),
            self._recorded(checkup),
            self._frameworks(checkup),
            self._loads(checkup),
            self._planes(checkup),
            self._rooms(rest_maps(checkup.rooms), "rest-room"),
            self._rooms(crown_maps(checkup.rooms), "crown-room"),
            self._surveys(checkup),
            self._adjustments(checkup),
            self._svg(cut_legend(), "cut-legend") if checkup.adjusted else None,
            self._remedies(checkup),
            tuple(self._wax_up(checkup, number) for number in range(len(checkup.wax_ups))),
            self._svg(border_chart(checkup.outlines), "borders") if checkup.outlines else None,
            tuple(
                self._svg(sheet, f"influences{number}")
                for number, sheet in enumerate(influence_charts(checkup.uncertainty))
            ),
        )
        return Drawings(self._arches, tuple(self._sweeps), others)

    def _frameworks(self, checkup: Checkup) -> tuple[tuple[OrderedSvg, OrderedSvg], ...]:
        ordered = []
        for number, framework in enumerate(checkup.frameworks):
            side = UPPER if framework.is_upper else LOWER
            arch = checkup.upper if framework.is_upper else checkup.lower
            view = self._arches.alone[side].view
            sheet = framework_sheet(framework, arch, view, _WIDE_ARCH_MM / view.width_mm)
            drawn = self._svg(sheet, f"framework{number}")
            key = self._svg(framework_key(framework), f"framework-key{number}")
            ordered.append((drawn, key))
        return tuple(ordered)

    def _loads(self, checkup: Checkup) -> tuple[LoadDrawings, ...]:
        ordered = []
        for number, framework in enumerate(checkup.carrying):
            found = [largest_load(excursion, number) for excursion in checkup.loads]
            loads = [largest.as_is for largest in found if largest is not None]
            if not loads:
                continue
            arch = checkup.upper if framework.is_upper else checkup.lower
            titles = excursion_titles(checkup)
            worst = max(loads, key=lambda load: load.figures["across_n"])
            drawn = load_picture(worst, framework, arch, titles[worst.excursion])
            bars = load_bars(loads, f"{framework.name}: largest push across its teeth", titles)
            ordered.append(
                LoadDrawings(
                    framework.name,
                    self._svg(drawn, f"load{number}"),
                    self._svg(bars, f"load-bars{number}"),
                )
            )
        return tuple(ordered)

    def _planes(self, checkup: Checkup) -> tuple[OrderedSvg | None, ...]:
        limit_mm = self._wanted.plane_limit_mm
        return tuple(
            self._svg(plane_chart(plane, limit_mm), f"plane{number}") if is_drawn(plane) else None
            for number, plane in enumerate(checkup.planes)
        )

    def _rooms(self, maps: tuple[RoomMap, ...], name: str) -> tuple[RoomDrawing, ...]:
        return tuple(
            RoomDrawing(
                self._picture(item.scene),
                self._svg(item.over, f"{name}{number}"),
                self._svg(bands_key(item.limits_mm), f"{name}-key{number}"),
                item.description,
            )
            for number, item in enumerate(maps)
        )

    def _surveys(self, checkup: Checkup) -> tuple[SurveyDrawings, ...]:
        ordered = []
        for survey in checkup.surveys:
            arch = checkup.upper if survey.is_upper else checkup.lower
            path = path_scene(arch, survey, self._wanted.replacement_teeth)
            sides, views = abutment_scene(arch, survey)
            over = path_sheet(path, arch, survey, _WIDE_ARCH_MM / path.view.width_mm)
            larger = min(_LARGER, _PAGE_MM / sides.view.width_mm)
            over_sides = abutment_sheet(sides, views, survey, larger)
            ordered.append(
                SurveyDrawings(
                    self._picture(path),
                    self._svg(over, f"survey-{survey.side}"),
                    self._picture(sides),
                    self._svg(over_sides, f"survey-sides-{survey.side}"),
                    self._svg(survey_key(survey), f"survey-key-{survey.side}"),
                    larger * sides.view.width_mm,
                )
            )
        return tuple(ordered)

    def _adjustments(
        self, checkup: Checkup
    ) -> tuple[tuple[tuple[OrderedPicture, OrderedSvg], ...], ...]:
        ordered = []
        for number, item in enumerate(checkup.adjusted):
            own = []
            for cut in item.planned.cuts:
                scene = cut_scene(cut)
                words = cut_words(scene, cut, _CUT_MM / scene.view.width_mm)
                own.append((self._picture(scene), self._svg(words, f"cut{number}-{cut.tooth}")))
            ordered.append(tuple(own))
        return tuple(ordered)

    def _remedies(self, checkup: Checkup) -> tuple[OrderedSvg | None, ...]:
        return tuple(
            None if (chart := remedy_chart(item)) is None else self._svg(chart, f"remedy{number}")
            for number, item in enumerate(checkup.remedies)
        )

    def _wax_up(self, checkup: Checkup, number: int) -> WaxUpDrawings | None:
        wax_up = checkup.wax_ups[number]
        arch = checkup.upper if wax_up.is_upper else checkup.lower
        found = wax_up_picture(wax_up, arch, checkup.mi_pose, _LARGER, _PAGE_MM)
        if found is None:
            return None
        return WaxUpDrawings(
            self._picture(found.scene),
            self._svg(found.over, f"wax-up{number}"),
            self._svg(found.key, f"wax-up-key{number}"),
            found.over.width_mm,
        )

    def _raised(self, checkup: Checkup) -> OrderedSvg | None:
        if checkup.raised is None:
            return None
        return self._svg(raised_chart(checkup.raised), "raised")

    def _recorded(self, checkup: Checkup) -> OrderedSvg | None:
        if not checkup.recorded_paths:
            return None
        chart = recorded_chart(checkup.recorded_paths, self._wanted.reference_plane)
        return self._svg(chart, "recorded")

    def _measured(self, checkup: Checkup) -> OrderedSvg | None:
        if checkup.tracked is None:
            return None
        chart = measured_chart(checkup.tracked.lines, self._wanted.reference_plane)
        return self._svg(chart, "measured")

    def _overlapping(self, checkup: Checkup) -> OverlapDrawings | None:
        overlaps = checkup.doubts.overlaps if checkup.doubts else None
        if overlaps is None or overlaps.deepest_mm == 0.0:
            return None
        limit_mm = overlap_limit_mm(overlaps)
        own = ((UPPER, checkup.upper, overlaps.upper), (LOWER, checkup.lower, overlaps.lower))
        scenes = {
            side: overlap_scene(arch, side, overlap, limit_mm, self._wanted.replacement_teeth)
            for side, arch, overlap in own
        }
        numbers = {
            side: self._svg(
                overlap_numbers(
                    scenes[side], arch, overlap, _WIDE_ARCH_MM / scenes[side].view.width_mm
                ),
                f"depths-{side}",
            )
            for side, arch, overlap in own
        }
        pictures = {side: self._picture(scene) for side, scene in scenes.items()}
        return OverlapDrawings(
            pictures, numbers, self._svg(overlap_legend(limit_mm), "overlap-legend")
        )

    def _order_incisal(self) -> OrderedSvg:
        """Order the tracks of the incisal point once all movements from MI are known."""
        if self._incisal is None:
            self._incisal = self._svg(incisal_chart(self._borders, self._guided), "incisal")
        return self._incisal

    def _overlays(self, marks: dict[str, tuple[Marks, ...]], name: str) -> dict[str, OrderedSvg]:
        """Order marks by side, and the sign of every kind that is new."""
        for group in (group for own in marks.values() for group in own):
            if group.label not in self._signs:
                sign = self._svg(legend_sign(group), f"sign{len(self._signs)}")
                self._signs[group.label] = sign
        views = {side: picture.view for side, picture in self._arches.alone.items()}
        return {
            side: self._svg(
                marks_sheet(views[side], own, _ARCH_MM / views[side].width_mm), f"{name}-{side}"
            )
            for side, own in marks.items()
        }

    def _svg(self, sheet: Sheet, name: str) -> OrderedSvg:
        return OrderedSvg(sheet, name, self._drawing.submit(svg_of, sheet, name))

    def _picture(self, scene: Scene) -> OrderedPicture:
        bare = Scene(scene.view, scene.parts)
        return OrderedPicture(scene, self._drawing.submit(picture_of, bare))
