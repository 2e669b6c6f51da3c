"""Survey of the casts of a case: each tilted as given or found, and looked at along the path."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np

from kinematics.casts.cast_bodies import SOFT
from kinematics.casts.casts import Arch
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import face_areas_normals, part_of
from kinematics.planning.arch_order import side_towards
from kinematics.planning.crown_places import crown_frame
from kinematics.planning.framework import Framework, usual_rests
from kinematics.planning.free_ends import counting_teeth
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.surveying.path_frames import (
    PathFrame,
    occlusal_up,
    path_frame,
    tilt_of,
)
from kinematics.planning.surveying.settings import ArchSurvey, SurveySettings
from kinematics.planning.surveying.survey import (
    GAUGES_MM,
    Point,
    RestDirection,
    SoftUndercut,
    Survey,
    SurveyedGuide,
    SurveyedTooth,
    TiltSearch,
)
from kinematics.planning.surveying.survey_lines import polylines, surveyed
from kinematics.planning.surveying.surveyed_crowns import (
    CROWN_SIDES,
    SurveyedCrown,
    surveyed_crown,
    tilted,
)
from kinematics.planning.surveying.tilt_search import (
    SEARCH_STEP_MM,
    cost_mm,
    searched_tilt,
)
from kinematics.planning.surveying.tripod_marks import markable, tripod_marks
from kinematics.tooth_codes import arch_place

Proximal = Literal["mesial", "distal"]


@dataclass(frozen=True)
class _Facing:
    """A proximal surface that faces a base."""

    tooth: int
    side: Proximal
    base: str
    assumed: bool


@dataclass(frozen=True)
class _Cast:
    """One cast with what holds its frameworks."""

    arch: Arch
    upper: bool
    replaced: frozenset[int]
    frameworks: tuple[Framework, ...]
    facing: tuple[_Facing, ...]
    wanted: ArchSurvey
    settings: SurveySettings

    @property
    def natural(self) -> tuple[int, ...]:
        """Teeth that no base and no bridge carries."""
        return tuple(code for code in self.arch.codes if code not in self.replaced)

    @cached_property
    def clasped(self) -> tuple[int, ...]:
        """Teeth that bear clasps: as given, or the usual ones."""
        if self.wanted.clasps:
            return tuple(sorted(self.wanted.clasps, key=arch_place))
        rests = [rest for item in self.frameworks for rest in item.rests]
        on_ridges = {rest.tooth for rest in rests if rest.place != "cingulum"}
        return tuple(sorted(on_ridges or {rest.tooth for rest in rests}, key=arch_place))

    @cached_property
    def told(self) -> tuple[int, ...]:
        """Teeth that are told of one by one."""
        held = {code for item in self.frameworks for code in item.held_by} | {*self.clasped}
        held |= {face.tooth for face in self.facing}
        return tuple(sorted(held & {*self.natural} or self.natural, key=arch_place))


def surveys(
    occlusion: Occlusion, frameworks: Sequence[Framework], settings: SurveySettings | None
) -> tuple[Survey, ...]:
    """Survey the casts that a case asks for.

    Parameters
    ----------
    occlusion : Occlusion
        The arches, bases and bridges.
    frameworks : sequence of Framework
        What holds the bases.
    settings : SurveySettings or None
        None: nothing is surveyed.
    """
    if settings is None:
        return ()
    return tuple(
        _survey(_cast(occlusion, frameworks, upper, wanted, settings))
        for upper, wanted in settings.arches
    )


def _cast(
    occlusion: Occlusion,
    frameworks: Sequence[Framework],
    upper: bool,
    wanted: ArchSurvey,
    settings: SurveySettings,
) -> _Cast:
    arch = occlusion.casts.upper if upper else occlusion.casts.lower
    own = tuple(item for item in frameworks if item.is_upper == upper)
    counting = counting_teeth(occlusion, upper)
    facing = tuple(face for item in own for face in _facing(item, counting))
    replaced = occlusion.replacement_teeth | occlusion.pontics
    return _Cast(arch, upper, replaced, own, facing, wanted, settings)


def _facing(framework: Framework, natural: tuple[int, ...]) -> Iterator[_Facing]:
    """Yield the proximal surfaces that face the bases of a framework: as given, or next to them."""
    for base in framework.bases:
        next_to = tuple(rest.tooth for rest in usual_rests(base, natural))
        for code in base.guide_planes or next_to:
            nearest = min(base.teeth, key=lambda t: (abs(arch_place(t) - arch_place(code)), t))
            side: Proximal = "mesial" if side_towards(code, nearest) == "mesial" else "distal"
            yield _Facing(code, side, base.name, not base.guide_planes)


def _survey(cast: _Cast) -> Survey:
    occlusal = occlusal_up(cast.arch, cast.upper)
    level = path_frame(occlusal, 0.0, 0.0)
    placed = {code: surveyed_crown(crown_frame(cast.arch, code), level) for code in cast.natural}
    crowns = {code: crown for code, (crown, _) in placed.items()}
    forward, left, search = cast.wanted.forward_deg, cast.wanted.left_deg, None
    if cast.wanted.tilt == "found":
        forward, left, search = _found(cast, crowns, occlusal)
    frame = path_frame(occlusal, forward, left)
    crowns = {code: tilted(crown, frame) for code, crown in crowns.items()}
    soft_depth, soft = _soft(cast.arch, frame)
    return Survey(
        is_upper=cast.upper,
        forward_deg=forward,
        left_deg=left,
        search=search,
        path=_point(-frame.up),
        teeth=tuple(_tooth(cast, crowns[code]) for code in cast.told),
        guides=tuple(_guide(cast, crowns[face.tooth], face) for face in cast.facing),
        rests=_rests(cast, frame),
        tripod=tuple(
            _point(mark) for mark in tripod_marks(markable(cast.arch, cast.natural, frame), frame)
        ),
        soft=soft,
        lines={code: _lines(crown) for code, crown in crowns.items()},
        depth_mm=_depths(cast.arch, {code: (crowns[code], placed[code][1]) for code in crowns}),
        soft_depth_mm=soft_depth,
        undercut_mm=cast.settings.undercut_mm,
        guide_plane_deg=cast.settings.guide_plane_deg,
        guide_plane_height_mm=cast.settings.guide_plane_height_mm,
    )


def _found(
    cast: _Cast, crowns: dict[int, SurveyedCrown], occlusal: Floats
) -> tuple[float, float, TiltSearch]:
    """Return the tilt that suits clasps and guide planes best."""
    settings = cast.settings
    clasped = [crowns[code] for code in cast.clasped]

    def cost(forward_deg: float, left_deg: float) -> float:
        frame = path_frame(occlusal, forward_deg, left_deg)
        usable = [_usable_mm(tilted(crown, frame)) for crown in clasped]
        cuts = [
            tilted(crowns[face.tooth], frame).cut_mm(
                face.side, settings.guide_plane_height_mm, SEARCH_STEP_MM
            )
            for face in cast.facing
        ]
        return cost_mm(usable, cuts, settings.undercut_mm, tilt_of(occlusal, frame.up))

    return searched_tilt(cost, settings.found_tilt_limit_deg)


def _usable_mm(crown: SurveyedCrown) -> float:
    """Return the usable undercut of a clasped tooth: facial or lingual, the greater."""
    return max(crown.usable_mm(side, SEARCH_STEP_MM) for side in ("facial", "lingual"))


def _tooth(cast: _Cast, crown: SurveyedCrown) -> SurveyedTooth:
    towards = {face.side for face in cast.facing if face.tooth == crown.code}
    sides = tuple(crown.surveyed_side(side, side in towards) for side in CROWN_SIDES)
    return SurveyedTooth(crown.code, crown.code in cast.clasped, sides)


def _guide(cast: _Cast, crown: SurveyedCrown, face: _Facing) -> SurveyedGuide:
    wanted = cast.settings.guide_plane_height_mm
    height, width = crown.guiding(face.side, cast.settings.guide_plane_deg)
    cut = crown.cut_mm(face.side, wanted)
    return SurveyedGuide(
        tooth=face.tooth,
        side=face.side,
        base=face.base,
        assumed=face.assumed,
        height_mm=height,
        width_mm=width,
        lean_deg=crown.lean_deg(face.side, wanted),
        cut_mm=cut if math.isfinite(cut) else None,
    )


def _rests(cast: _Cast, frame: PathFrame) -> tuple[RestDirection, ...]:
    return tuple(
        RestDirection(rest.tooth, rest.place, tilt_of(-np.array(rest.press), frame.up))
        for item in cast.frameworks
        for rest in item.rests
    )


def _lines(crown: SurveyedCrown) -> tuple[Floats, ...]:
    vertices = crown.seen.mesh.vertices
    return tuple(vertices[line] for line in polylines(crown.seen.lines))


def _depths(arch: Arch, crowns: dict[int, tuple[SurveyedCrown, Ints]]) -> Floats:
    """Return the undercut of every vertex of the teeth of an arch."""
    depth = np.zeros(len(arch.mesh.vertices))
    for code, (crown, number) in crowns.items():
        _, used = part_of(arch.mesh, arch.tooth_of_face == code)
        depth[used] = np.maximum(depth[used], crown.seen.depth_mm[number])
    return depth


def _soft(arch: Arch, frame: PathFrame) -> tuple[Floats, SoftUndercut | None]:
    """Return the undercut of every vertex of the body of an arch, and what is told of it."""
    body = arch.body
    if body is None:
        return np.empty(0), None
    depth = np.zeros(len(body.mesh.vertices))
    chosen = np.isin(body.kind, SOFT)
    if not chosen.any():
        return depth, None
    part, used = part_of(body.mesh, chosen)
    seen, number = surveyed(part, frame, crown=False)
    depth[used] = seen.depth_mm[number]
    deepest = int(np.argmax(depth))
    if depth[deepest] < GAUGES_MM[0]:
        return depth, None
    areas, _ = face_areas_normals(part)
    under = seen.depth_mm[number][part.faces].mean(axis=1) >= GAUGES_MM[0]
    place = _point(body.mesh.vertices[deepest])
    return depth, SoftUndercut(float(depth[deepest]), place, float(areas[under].sum()))


def _point(values: Floats) -> Point:
    x, y, z = (float(value) for value in values)
    return x, y, z
