"""What lies over a picture: contact marks, tooth numbers, sides of the patient, a scale line.

Drawn in millimetres of the picture, so it fits the picture of either writer exactly, as vectors
(sharp in print) or together with the picture in one file.
"""

import io
from typing import Any, Final

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.markers import MarkerStyle
from matplotlib.patheffects import withStroke
from numpy.typing import NDArray

from scenes import colours, plotting
from scenes.scene import Marks, Scene

_SCALE_MM: Final = 10.0
_SIGN_MM: Final = 3.4
_HALO: Final = withStroke(linewidth=2.2, foreground=colours.PAPER)


def vector_overlay(scene: Scene, name: str, magnify: float = 1.0) -> str:
    """Return the annotation alone as an SVG element with a transparent ground.

    Parameters
    ----------
    scene : Scene
        What is annotated.
    name : str
        Name of the picture, unique in its page.
    magnify : float
        Printed size over true size: letters and marks keep their size on paper.
    """
    with plotting.look():
        paper, _ = _annotated(scene, magnify)
        return plotting.svg(paper, name)


def flat_picture(
    scene: Scene, pixels: NDArray[np.uint8], pixels_per_mm: float, magnify: float = 1.0
) -> bytes:
    """Return picture and annotation together as PNG."""
    file = io.BytesIO()
    dots = plotting.MM_PER_INCH * pixels_per_mm / magnify
    with plotting.look():
        paper, axes = _annotated(scene, magnify)
        axes.imshow(pixels, extent=(*axes.get_xlim(), *axes.get_ylim()), zorder=0.0, aspect="auto")
        paper.savefig(file, format="png", dpi=dots, metadata={"Software": None})
    return file.getvalue()


def legend_sign(marks: Marks, name: str) -> str:
    """Return the shape of a kind of mark as a small SVG element, for a legend in the text."""
    with plotting.look():
        paper = plotting.new_figure(_SIGN_MM, _SIGN_MM)
        paper.patch.set_alpha(0.0)
        axes = paper.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set_axis_off()
        axes.plot(0.0, 0.0, **_sign(marks))
        return plotting.svg(paper, name)


def _annotated(scene: Scene, magnify: float) -> tuple[Figure, Axes]:
    view = scene.view
    scale = magnify / plotting.MM_PER_INCH
    paper = Figure(figsize=(view.width_mm * scale, view.height_mm * scale))
    paper.patch.set_alpha(0.0)
    axes = paper.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(-0.5 * view.width_mm, 0.5 * view.width_mm)
    axes.set_ylim(-0.5 * view.height_mm, 0.5 * view.height_mm)
    for marks in scene.marks:
        _draw_marks(axes, scene, marks)
    for label in scene.labels:
        place = view.project(label.point[None])[0]
        axes.text(
            place[0],
            place[1],
            label.text,
            fontsize=6.5,
            fontweight="bold" if label.strong else "normal",
            color=colours.INK,
            ha="center",
            va="center",
            bbox={"boxstyle": "round,pad=0.2", "fc": colours.SURFACE["replacement tooth"], "lw": 0}
            if label.strong
            else None,
        )
    for note in scene.notes:
        axes.text(
            note.place[0],
            note.place[1],
            note.text,
            fontsize=6.5,
            color=colours.SOFT_INK,
            ha=note.align,
            va="top",
            linespacing=1.25,
        )
    if scene.legend:
        _draw_legend(axes, scene)
    if scene.scale_at is not None:
        _draw_scale(axes, *scene.scale_at)
    return paper, axes


def _draw_marks(axes: Axes, scene: Scene, marks: Marks) -> None:
    """Draw fine dots where the contact wandered, and the shape of the movement at its steps."""
    places = scene.view.project(marks.points)
    axes.scatter(
        places[:, 0], places[:, 1], s=1.6, c=marks.style.colour, linewidths=0.0, zorder=2.0
    )
    shaped = places[marks.shaped]
    if not MarkerStyle(marks.style.marker).is_filled():
        for thick, colour in ((2.6, colours.PAPER), (1.3, marks.style.colour)):
            axes.scatter(
                shaped[:, 0],
                shaped[:, 1],
                s=8.0,
                marker=marks.style.marker,
                c=colour,
                linewidths=thick,
                zorder=3.0 + (thick < 2.0),
            )
        return
    for order, size in ((3.0, 15.0), (4.0, 9.0)):
        halo = order == 3.0
        axes.scatter(
            shaped[:, 0],
            shaped[:, 1],
            s=size,
            marker=marks.style.marker,
            c=colours.PAPER if halo or not marks.filled else marks.style.colour,
            edgecolors=colours.PAPER if halo else marks.style.colour,
            linewidths=0.9,
            zorder=order,
        )


def _sign(marks: Marks) -> dict[str, Any]:
    """Return how the shape of a kind of mark is drawn in a legend."""
    return {
        "linestyle": "none",
        "marker": marks.style.marker,
        "markersize": 4.2,
        "color": marks.style.colour,
        "markerfacecolor": marks.style.colour if marks.filled else colours.PAPER,
        "markeredgewidth": 1.1,
    }


def _draw_legend(axes: Axes, scene: Scene) -> None:
    """Name every kind of mark at the bottom."""
    kinds = {marks.label: marks for marks in scene.marks}
    handles = [Line2D([], [], label=label, **_sign(marks)) for label, marks in kinds.items()]
    axes.legend(
        handles=handles,
        loc="lower center",
        ncols=3,
        borderaxespad=0.1,
        handletextpad=0.2,
        columnspacing=1.5,
    )


def _draw_scale(axes: Axes, x: float, y: float) -> None:
    """Draw a line of 10 mm, its middle at (x, y)."""
    ends = (x - 0.5 * _SCALE_MM, x + 0.5 * _SCALE_MM)
    axes.plot(ends, (y, y), color=colours.INK, linewidth=1.0, solid_capstyle="butt")
    for end in ends:
        axes.plot((end, end), (y - 0.6, y + 0.6), color=colours.INK, linewidth=1.0)
    axes.text(x, y + 1.8, "10 mm", fontsize=6.5, color=colours.INK, ha="center", va="center")
