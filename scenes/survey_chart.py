"""What lies over the pictures of a surveyed cast: survey lines, guide planes, tripod marks, key."""

from collections.abc import Iterator
from typing import Final

import numpy as np
from scipy.ndimage import gaussian_filter1d

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats
from kinematics.planning.crown_places import crown_frame
from kinematics.planning.surveying.survey import GAUGES_MM, Survey
from scenes.annotation import annotation
from scenes.arch_paper import (
    SAMPLE_MM,
    KeyRow,
    placed,
    plane_bar,
    plane_ends,
    sides_named,
    sign_key,
)
from scenes.colours import INK, PAPER
from scenes.scene import Scene
from scenes.sheet import Boxes, Ground, Item, Line, Sheet, Words
from scenes.survey_views import DEPTH_COLOURS
from scenes.turned_crowns import SideView

_MARK_PT: Final = 8.0
#: How far the number of a mark stands from it, towards the middle of the picture.
_NUMBER_OFF_MM: Final = 3.6
#: Survey lines run along edges of triangles, to and fro. They are drawn evened over this length
#: (standard deviation), read at this distance, mm: less than the line of a pencil lead is off.
EVENED_MM: Final = 0.5
_READ_EVERY_MM: Final = 0.1


def path_sheet(scene: Scene, arch: Arch, survey: Survey, magnify: float) -> Sheet:
    """Return what lies over a cast seen along the path of insertion.

    Parameters
    ----------
    scene : Scene
        What `path_scene` returned.
    arch, survey : Arch, Survey
        The same cast.
    magnify : float
        Printed size over true size.
    """
    plain = annotation(scene, magnify)
    view = scene.view
    items: list[Item] = [*plain.items]
    for lines in survey.lines.values():
        for line in lines:
            items += _inked(placed(view, evened(line), magnify))
    for guide in survey.guides:
        crown = crown_frame(arch, guide.tooth)
        point = crown.guide_plane(guide.side == "mesial")
        along = np.cross(crown.mesial, np.array(survey.path))
        along = along / np.linalg.norm(along)
        items += plane_bar(placed(view, plane_ends(point, along), magnify))
    for number, mark in enumerate(survey.tripod, start=1):
        at = placed(view, np.array([mark]), magnify)
        inward = 1.0 if at[0, 1] < 0.5 * magnify * view.height_mm else -1.0
        items += [*_cross(at), _number(number, at[0] + [0.0, _NUMBER_OFF_MM * inward])]
    items += sides_named(magnify * view.width_mm)
    return Sheet(magnify * view.width_mm, magnify * view.height_mm, tuple(items), see_through=True)


def abutment_sheet(
    scene: Scene, views: tuple[SideView, ...], survey: Survey, magnify: float
) -> Sheet:
    """Return what lies over the sides of the abutments: names and survey lines."""
    plain = annotation(scene, magnify)
    half = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
    items: list[Item] = [*plain.items]
    for view in views:
        for line in map(evened, survey.lines.get(view.tooth, ())):
            seen = (line - view.middle) @ view.facing > 0.0
            places = magnify * (view.place(line) + half)
            items += _inked(np.where(seen[:, None], places, np.nan))
    return Sheet(plain.width_mm, plain.height_mm, tuple(items), see_through=True)


def survey_key(survey: Survey) -> Sheet:
    """Return what lines, marks and colours mean."""
    return sign_key(list(_key_rows(survey)))


def _key_rows(survey: Survey) -> Iterator[KeyRow]:
    across = np.array([[0.0, 0.0], [SAMPLE_MM, 0.0]])
    middle = across.mean(axis=0, keepdims=True)
    yield _inked(across), "survey line (height of contour)"
    if survey.guides:
        upright = middle + np.array([[0.0, -1.8], [0.0, 1.8]])
        yield plane_bar(upright), "surface that is to guide a base"
    if survey.tripod:
        yield _cross(middle), "tripod marks 1, 2, 3: all at one height of the rod"
    for number, (gauge, colour) in enumerate(zip(GAUGES_MM, DEPTH_COLOURS, strict=True)):
        last = number + 1 == len(GAUGES_MM)
        more = "or more" if last else f"to {GAUGES_MM[number + 1]:.2f} mm"
        box = Boxes(((0.0, -1.5, SAMPLE_MM, 3.0),), colour, rim=INK)
        yield [box], f"undercut of {gauge:.2f} mm {more}"


def evened(line: Floats) -> Floats:
    """Return a line (k, 3) as it is drawn: without the teeth of the saw that triangles make of it.

    Its ends stay where they are; a closed line stays closed.
    """
    steps = np.linalg.norm(np.diff(line, axis=0), axis=1)
    walked = np.concatenate([[0.0], np.cumsum(steps)])
    count = round(float(walked[-1]) / _READ_EVERY_MM)
    if count < 2:
        return line
    at = np.linspace(0.0, walked[-1], count + 1)
    read = np.stack([np.interp(at, walked, line[:, axis]) for axis in range(3)], axis=1)
    sigma = EVENED_MM / float(at[1])
    if np.array_equal(line[0], line[-1]):
        around = gaussian_filter1d(read[:-1], sigma, axis=0, mode="wrap")
        return np.concatenate([around, around[:1]])
    # Mirrored at its ends in its place as well, so that these are not drawn in.
    long = np.concatenate([2.0 * read[0] - read[:0:-1], read, 2.0 * read[-1] - read[-2::-1]])
    return np.asarray(gaussian_filter1d(long, sigma, axis=0)[count : 2 * count + 1])


def _inked(places: Floats) -> list[Line]:
    return [Line(places, PAPER, 2.4, level=2.4), Line(places, INK, 1.1, level=2.5)]


def _cross(places: Floats) -> list[Line]:
    return [
        Line(places, PAPER, 0.0, mark="o", mark_pt=_MARK_PT + 2.0, rim_pt=0.0, level=2.8),
        Line(places, INK, 0.0, mark="o", mark_pt=_MARK_PT, rim_pt=1.0, mark_fill="none", level=2.9),
        Line(places, INK, 0.0, mark="+", mark_pt=_MARK_PT, rim_pt=1.0, level=2.9),
    ]


def _number(number: int, at: Floats) -> Words:
    place = (float(at[0]), float(at[1]))
    return Words(str(number), place, size_pt=7.0, bold=True, ground=Ground(PAPER, 0.8))
