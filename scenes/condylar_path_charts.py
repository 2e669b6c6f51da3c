"""Plots of condylar paths that were found, against those set, with what they were found from."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.conventions import Floats
from scenes import colours, panel
from scenes.sheet import Box, Item, Key, Line, Sheet, Words

Role = Literal["found", "as set"]

_FORWARD, _LEFT, _UP = 0, 1, 2
_HEIGHT_MM: Final = 98.0
#: Lines that are found are thick and whole, those set are thin and broken.
_LINES: Final[dict[Role, colours.Style]] = {
    "found": colours.Style(colours.INK, "", "-"),
    "as set": colours.Style("#9A5B92", "", (0, (5, 2))),
}
_WIDTHS_PT: Final[dict[Role, float]] = {"found": 1.7, "as set": 1.1}
#: Points of an ellipse.
_AROUND: Final = np.linspace(0.0, 2.0 * np.pi, 49)


@dataclass(frozen=True)
class DrawnPath:
    """One path of a condyle.

    Attributes
    ----------
    label : str
        What it is, for the legend.
    role : "found" or "as set"
        How it is drawn.
    points : ndarray, shape (n, 3)
        From centric relation: forward, to the patient's left, up; mm.
    """

    label: str
    role: Role
    points: Floats


@dataclass(frozen=True)
class DrawnPlaces:
    """Places of a condyle of one kind.

    Attributes
    ----------
    label : str
        What they are, for the legend.
    style : Style
        Colour and shape of their marks; its line joins places that follow each other.
    points : ndarray, shape (n, 3)
        From centric relation: forward, to the patient's left, up; mm.
    covariance : ndarray, shape (n, 3, 3), or None
        Of their errors, mm2; an ellipse of one standard deviation is drawn around each.
    joined : bool
        Whether they follow each other in time: then a line, with few marks.
    """

    label: str
    style: colours.Style
    points: Floats
    covariance: Floats | None = None
    joined: bool = False


@dataclass(frozen=True)
class CondyleViews:
    """What is drawn of one condyle.

    Attributes
    ----------
    side : str
        "right" or "left".
    from_the_side, from_above : sequence of DrawnPath
        Paths of the sagittal and of the horizontal view.
    places : sequence of DrawnPlaces
        Drawn in both.
    """

    side: str
    from_the_side: Sequence[DrawnPath]
    from_above: Sequence[DrawnPath]
    places: Sequence[DrawnPlaces]


def condylar_path_chart(condyles: Sequence[CondyleViews], reference_plane: str) -> Sheet:
    """Lay out both condyles from the side and from above, all panels at one scale.

    Parameters
    ----------
    condyles : sequence of CondyleViews
        The right one, then the left one.
    reference_plane : str
        In words.
    """
    wide = (panel.PAGE_WIDTH_MM - 30.0) / 2.0
    sagittal = (f"forward along the {reference_plane}, mm", "up from the plane, mm")
    horizontal = ("forward, mm", "to the patient's left, mm")
    boxes = [
        ((left, 59.0, wide, 33.0), (left, 21.0, wide, 25.0))
        for left in (13.0 + column * (wide + 14.0) for column in range(2))
    ]
    above = [_reach(views, views.from_the_side, _UP) for views in condyles]
    below = [_reach(views, views.from_above, _LEFT) for views in condyles]
    items: list[Item] = []
    for views, (upper, lower), high, low in zip(condyles, boxes, above, below, strict=True):
        # Both sides of a view show as much, so that they can be compared at a glance.
        title = f"{views.side} condyle, from the side"
        items += _view(upper, views, views.from_the_side, _UP, _as_wide(high, above))
        items += _framing(upper, _as_wide(high, above), title, sagittal)
        title = f"{views.side} condyle, from above"
        items += _view(lower, views, views.from_above, _LEFT, _as_wide(low, below))
        items += _framing(lower, _as_wide(low, below), title, horizontal)
    return Sheet(panel.PAGE_WIDTH_MM, _HEIGHT_MM, tuple(items), _key(condyles))


def _reach(views: CondyleViews, paths: Sequence[DrawnPath], upward: int) -> Floats:
    """Return the least and the greatest values (2, 2) that a view shows, CR among them."""
    spread = []
    for places in views.places:
        around = np.zeros((len(places.points), 3))
        if places.covariance is not None:
            around = np.sqrt(np.diagonal(places.covariance, axis1=1, axis2=2))
        spread += [places.points - around, places.points + around]
    every = np.concatenate([np.zeros((1, 3)), *spread, *(path.points for path in paths)])
    shown = every[:, [_FORWARD, upward]]
    return np.stack([shown.min(axis=0) - 0.6, shown.max(axis=0) + 0.6])


def _as_wide(reach: Floats, every: Sequence[Floats]) -> Floats:
    """Return a reach about the same middle, as large as the largest of all."""
    half = 0.5 * np.max([other[1] - other[0] for other in every], axis=0)
    middle = reach.mean(axis=0)
    return np.stack([middle - half, middle + half])


def _view(
    box: Box, views: CondyleViews, paths: Sequence[DrawnPath], upward: int, reach: Floats
) -> list[Item]:
    frame = panel.same_scale(box, reach[0], reach[1])
    items: list[Item] = []
    for path in sorted(paths, key=lambda path: path.role == "found"):
        points = frame.places(path.points[:, _FORWARD], path.points[:, upward])
        items.append(_line_of(path.role, points, box))
    for places in views.places:
        at = frame.places(places.points[:, _FORWARD], places.points[:, upward])
        if places.covariance is not None:
            for middle, covariance in zip(places.points, places.covariance, strict=True):
                around = _ellipse(middle, covariance, [_FORWARD, upward])
                ring = frame.places(around[:, 0], around[:, 1])
                items.append(Line(ring, places.style.colour, 0.6, within=box, level=2.2))
        items.append(_marks_of(places, at, box))
    start = frame.places([0.0], [0.0])
    items += [
        Line(start, colours.INK, 0.0, mark="+", mark_pt=7.0, within=box, level=2.5),
        Words("CR", frame.place(0.0, 0.0, (-4.0, -7.0)), "right", "baseline", 6.5),
    ]
    return items


def _framing(box: Box, reach: Floats, title: str, words: tuple[str, str]) -> list[Item]:
    frame = panel.same_scale(box, reach[0], reach[1])
    spans = (frame.across[1] - frame.across[0], frame.upward[1] - frame.upward[0])
    steps = [max(1.0, panel.step_for(span)) for span in spans]
    return [panel.title(frame, title), *panel.scales(frame, *words, *steps)]


def _ellipse(middle: Floats, covariance: Floats, axes: list[int]) -> Floats:
    """Return points (k, 2) one standard deviation around a place, as seen along the third axis."""
    sizes, directions = np.linalg.eigh(covariance[np.ix_(axes, axes)])
    round_ = np.stack([np.cos(_AROUND), np.sin(_AROUND)], axis=1)
    along = round_ * np.sqrt(np.clip(sizes, 0.0, None))
    return np.asarray(middle[axes] + along @ directions.T)


def _line_of(role: Role, points: Floats, within: Box | None = None) -> Line:
    style = _LINES[role]
    return Line(points, style.colour, _WIDTHS_PT[role], style.line, within=within)


def _marks_of(places: DrawnPlaces, points: Floats, within: Box | None = None) -> Line:
    style = places.style
    return Line(
        points,
        style.colour,
        0.8 if places.joined else 0.0,
        style.line if places.joined else "-",
        style.marker,
        3.2,
        mark_fill=colours.PAPER if places.joined else style.colour,
        marked=tuple(range(0, len(points), max(1, len(points) // 5))) if places.joined else None,
        level=2.3,
        within=within,
    )


def _key(condyles: Sequence[CondyleViews]) -> Key:
    nothing = np.empty((0, 2))
    entries: dict[str, Line] = {}
    for views in condyles:
        for path in (*views.from_the_side, *views.from_above):
            entries.setdefault(path.label, _line_of(path.role, nothing))
    for views in condyles:
        for places in views.places:
            entries.setdefault(places.label, _marks_of(places, nothing))
    named = tuple((line, label) for label, line in entries.items())
    return Key(named, columns=3, sample=4.0, gap=0.8, between=2.0, below=0.5)
