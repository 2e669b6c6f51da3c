"""What lies over the picture of an arch to show a framework: connector, rests, fulcrum line."""

from collections.abc import Iterator
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.conventions import Floats
from kinematics.planning.framework import Framework, FulcrumLine
from kinematics.tooth_codes import arch_place, is_right
from scenes.arch_paper import (
    BLUE,
    SAMPLE_MM,
    KeyRow,
    placed,
    plane_bar,
    plane_ends,
    sides_named,
    sign_key,
)
from scenes.arch_scenes import inner_labels
from scenes.colours import FAINT, INK, PAPER
from scenes.colours import Line as Dash
from scenes.phrases import number
from scenes.scene import View
from scenes.sheet import Ground, Item, Line, Sheet, Words

_ORANGE: Final = "#D55E00"
_CREST: Final = "#56606b"
_FULCRUM_DASH: Final[Dash] = (0, (7, 1.6, 1.6, 1.6))
_LEVER_DASH: Final[Dash] = (0, (2, 1.2))
_CREST_DASH: Final[Dash] = (0, (1, 1.4))
#: How far inside the crowns a connector is drawn, and how far the fulcrum line goes on, mm.
_INSIDE_MM: Final = 1.6
_BEYOND_MM: Final = 7.0
_REST_PT: Final = 5.6
_RING_PT: Final = 11.0
#: Thickness of a connector, and of what leads from it to rests and bases, with its rim.
_BAND_PT: Final = (9.0, 7.4)
_ARM_PT: Final = (4.6, 3.2)
#: How far the middle of a distance stands from its rest, or beyond the fulcrum line, and its size.
_WORDS_OFF_MM: Final = 8.8
_WORDS_BEYOND_MM: Final = 3.4
_WORDS_MM: Final = (13.0, 4.0)
#: Moves that are tried, in heights of a distance.
_STEPS: Final = (0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6)


class _Paper:
    """Places of an arch on the sheet."""

    def __init__(self, view: View, magnify: float) -> None:
        self._view, self._magnify = view, magnify
        self.size = magnify * view.width_mm, magnify * view.height_mm

    def places(self, points: Floats) -> Floats:
        """Return places (n, 2) of points (n, 3)."""
        return placed(self._view, points, self._magnify)

    def place(self, point: tuple[float, float, float]) -> Floats:
        """Return the place (2,) of one point."""
        return np.asarray(self.places(np.array(point)[None])[0])


def framework_sheet(framework: Framework, arch: Arch, view: View, magnify: float) -> Sheet:
    """Return what lies over the picture of an arch, seen along the bite.

    Parameters
    ----------
    framework : Framework
        What is drawn.
    arch : Arch
        Its arch.
    view : View
        How the arch is looked at.
    magnify : float
        Printed size over true size.
    """
    paper = _Paper(view, magnify)
    items = (
        *_connector(framework, arch, view, paper),
        *_crests(framework, paper),
        *_fulcrum(framework, paper),
        *_supports(framework, paper),
        *_levers(framework, paper),
        *sides_named(paper.size[0]),
    )
    return Sheet(*paper.size, items, see_through=True)


def _connector(framework: Framework, arch: Arch, view: View, paper: _Paper) -> Iterator[Item]:
    """Yield bands inside the arch from rest to rest and base to base, in no true shape."""
    codes = {rest.tooth for rest in framework.rests}
    codes |= {code for base in framework.bases for code in base.teeth}
    inside = {
        int(label.text): paper.places(label.point[None])[0]
        for label in inner_labels(arch, view, {c: str(c) for c in arch.codes}, _INSIDE_MM)
    }
    across = framework.is_upper and _both_sides_apart(codes)
    sides = [[c for c in codes if is_right(c)], [c for c in codes if not is_right(c)]]
    rails = [_rail(inside, side) for side in sides] if across else [_rail(inside, list(codes))]
    for rail in rails:
        yield from _band(rail, _BAND_PT if framework.connector and not across else _ARM_PT)
    if across:
        ends = np.array([_middle_of(rail) for rail in rails])
        yield from _band(ends, _BAND_PT)
    joints = np.concatenate(rails)
    for rest in framework.rests:
        start = paper.place(rest.point)
        end = joints[np.argmin(np.linalg.norm(joints - start, axis=1))]
        yield from _band(np.array([start, end]), _ARM_PT)


def _both_sides_apart(codes: set[int]) -> bool:
    """Tell whether teeth stand on both sides, none of them an incisor."""
    places = [arch_place(code) for code in codes]
    return min(places) < 0 < max(places) and min(map(abs, places)) > 2


def _rail(inside: dict[int, Floats], codes: list[int]) -> Floats:
    """Return places (k, 2) inside the arch from the first to the last of some teeth."""
    places = [arch_place(code) for code in codes]
    return np.array(
        [at for code, at in inside.items() if min(places) <= arch_place(code) <= max(places)]
    )


def _middle_of(rail: Floats) -> Floats:
    steps = np.linalg.norm(np.diff(rail, axis=0), axis=1)
    walked = np.concatenate([[0.0], np.cumsum(steps)])
    half = 0.5 * walked[-1]
    return np.array([np.interp(half, walked, column) for column in rail.T])


def _band(places: Floats, widths_pt: tuple[float, float]) -> Iterator[Item]:
    rim, inner = widths_pt
    yield Line(places, _CREST, rim, level=1.2)
    yield Line(places, FAINT, inner, level=1.3)


def _crests(framework: Framework, paper: _Paper) -> Iterator[Item]:
    for line in framework.ridges:
        yield Line(paper.places(line.crest), _CREST, 1.2, dash=_CREST_DASH, level=1.6)


def _fulcrum(framework: Framework, paper: _Paper) -> Iterator[Item]:
    if framework.fulcrum is None:
        return
    right, left = _ends(framework.fulcrum, paper)
    way = (left - right) / np.linalg.norm(left - right)
    places = np.array([right - _BEYOND_MM * way, left + _BEYOND_MM * way])
    yield Line(places, PAPER, 3.6, level=2.0)
    yield Line(places, _ORANGE, 1.8, dash=_FULCRUM_DASH, level=2.1)


def _ends(line: FulcrumLine, paper: _Paper) -> tuple[Floats, Floats]:
    return paper.place(line.right), paper.place(line.left)


def _supports(framework: Framework, paper: _Paper) -> Iterator[Item]:
    for plane in framework.guide_planes:
        point, press = np.array(plane.point), np.array(plane.press)
        along = np.array([-press[1], press[0], 0.0]) / np.hypot(press[0], press[1])
        yield from plane_bar(paper.places(plane_ends(point, along)))
    for assumed in (False, True):
        places = np.array([paper.place(r.point) for r in framework.rests if r.assumed == assumed])
        if len(places):
            yield _rest_marks(places, assumed=assumed)


def _rest_marks(places: Floats, *, assumed: bool) -> Line:
    fill, rim = (PAPER, INK) if assumed else (INK, PAPER)
    return Line(places, rim, 0.0, mark="s", mark_pt=_REST_PT, rim_pt=1.0, mark_fill=fill, level=2.8)


def _levers(framework: Framework, paper: _Paper) -> Iterator[Item]:
    """Yield a ring about every indirect retainer, and its distance to the fulcrum line."""
    if framework.fulcrum is None or not framework.indirect:
        return
    right, left = _ends(framework.fulcrum, paper)
    way = (left - right) / np.linalg.norm(left - right)
    rests = np.array([paper.place(item.rest.point) for item in framework.indirect])
    feet = right + ((rests - right) @ way)[:, None] * way
    words = _places_of_words(rests, feet, paper)
    for item, rest, foot, at in zip(framework.indirect, rests, feet, words, strict=True):
        yield Line(np.array([rest, foot]), PAPER, 2.6, level=2.2)
        yield Line(np.array([rest, foot]), INK, 1.1, dash=_LEVER_DASH, level=2.3)
        yield _ring(rest[None])
        yield Words(
            f"{number(item.distance_mm, 1)} mm",
            (float(at[0]), float(at[1])),
            size_pt=7.0,
            bold=True,
            ground=Ground(PAPER, 1.2, rounded=True),
        )


def _ring(places: Floats) -> Line:
    return Line(
        places, BLUE, 0.0, mark="o", mark_pt=_RING_PT, rim_pt=1.5, mark_fill="none", level=2.7
    )


def _places_of_words(rests: Floats, feet: Floats, paper: _Paper) -> Floats:
    """Return where the distances (n, 2) stand, none on another if that can be.

    Beside the rests, or all of them beyond the fulcrum line, or moved up and down until they part.
    """
    beside, beyond = _inward(rests, paper), feet + _WORDS_BEYOND_MM * _unit(feet - rests)
    for words in (beside, beyond):
        if not _lie_on_each_other(words):
            return words
    placed = beside[:1]
    for row in beside[1:]:
        moved = row + np.array([[0.0, step * _WORDS_MM[1]] for step in _STEPS])
        free = [at for at in moved if not _lie_on_each_other(np.vstack([placed, at]))]
        placed = np.vstack([placed, (free or [row])[0]])
    return placed


def _inward(rests: Floats, paper: _Paper) -> Floats:
    """Return where words (n, 2) stand beside rests: towards the middle, off their rings."""
    sign = np.where(rests[:, 0] < 0.5 * paper.size[0], 1.0, -1.0)
    return rests + np.stack([sign * _WORDS_OFF_MM, np.zeros(len(rests))], axis=1)


def _lie_on_each_other(words: Floats) -> bool:
    """Tell whether words at some places (n, 2) would cover each other."""
    apart = np.abs(words[:, None] - words[None])
    near = (apart[..., 0] < _WORDS_MM[0]) & (apart[..., 1] < _WORDS_MM[1])
    return bool(near.sum() > len(words))


def _unit(vectors: Floats) -> Floats:
    return np.asarray(vectors / np.linalg.norm(vectors, axis=1, keepdims=True))


def framework_key(framework: Framework) -> Sheet:
    """Return what the lines and marks of a drawing mean: of those that it has."""
    return sign_key(_key_rows(framework))


def _key_rows(framework: Framework) -> list[KeyRow]:
    across = np.array([[0.0, 0.0], [SAMPLE_MM, 0.0]])
    short = np.array([[0.5 * SAMPLE_MM, -1.8], [0.5 * SAMPLE_MM, 1.8]])
    middle = np.array([[0.5 * SAMPLE_MM, 0.0]])
    rows: list[KeyRow] = []
    if any(not rest.assumed for rest in framework.rests):
        rows.append(([_rest_marks(middle, assumed=False)], "rest"))
    if any(rest.assumed for rest in framework.rests):
        rows.append(([_rest_marks(middle, assumed=True)], "rest that is assumed, not given"))
    if framework.guide_planes:
        rows.append((plane_bar(short), "guide plane"))
    if framework.fulcrum is not None:
        rows.append(([Line(across, _ORANGE, 1.8, dash=_FULCRUM_DASH)], "fulcrum line"))
    if framework.indirect:
        lever = Line(across, INK, 1.1, dash=_LEVER_DASH, level=2.3)
        marks = [lever, _rest_marks(middle, assumed=False), _ring(middle)]
        rows.append((marks, "indirect retainer, distance to that line"))
    if framework.ridges:
        worked_out = all(line.assumed for line in framework.ridges)
        told = "crest of the ridge" + (", worked out" if worked_out else "")
        rows.append(([Line(across, _CREST, 1.2, dash=_CREST_DASH)], told))
    if framework.rests:
        band = [line for line in _band(across, _ARM_PT) if isinstance(line, Line)]
        name = framework.connector or "framework"
        rows.append((band, f"{name}: course not true to shape"))
    return rows
