"""Scanned casts with their teeth in colours, numbers and seeds: pictures to check them by."""

from typing import Final

import numpy as np

from kinematics.casts.casts import NO_TOOTH
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.scans.head_frame import head_from_scan
from kinematics.scans.picked_points import GUM_SEED, SEED
from kinematics.scans.settings import SIDES, Side
from kinematics.scans.standing import tooth_middles
from kinematics.tooth_codes import is_posterior, is_upper
from scenes import sheet_writer, writers
from scenes.annotation import annotation
from scenes.colours import INK, Style
from scenes.drawn_casts import CastToDraw, cast_parts
from scenes.new_case import ReadCasts
from scenes.scene import Label, Marks, Note, Scene, View

#: Of a picture, and its width on paper.
_PIXELS: Final = 1200
_PAPER_MM: Final = 160.0
_ROOM_MM: Final = (10.0, 14.0, 7.0)
#: How far numbers stand from the middles of front and of back teeth.
_NUMBER_MM: Final = (6.5, 8.0)
_SEEDS: Final = {SEED: ("Seeds of teeth", Style(INK, "o", "-")),
                 GUM_SEED: ("Seeds of gum", Style(INK, "v", "-"))}  # fmt: skip


def scan_from_head(read: ReadCasts) -> Floats:
    """Return the pose (4, 4) to the coordinates of the scans from x anterior, y left, z superior.

    Raises
    ------
    InputError
        Teeth that do not stand as in a mouth.
    """
    middles = (tooth_middles(read.meshes[side], read.codes[side]) for side in SIDES)
    return inverse(head_from_scan(*middles))


def seeded_scene(read: ReadCasts, side: Side) -> Scene:
    """Describe one cast, looked at from the other: teeth in colours, what is doubtful, seeds.

    Parameters
    ----------
    read : ReadCasts
        Casts whose teeth are told.
    side : "upper" or "lower"
        Which.
    """
    head = inverse(scan_from_head(read))
    cast = CastToDraw(read.meshes[side], read.codes[side], read.doubtful(side))
    parts = tuple(cast_parts(cast, side, head))
    sign = 1.0 if side == "upper" else -1.0
    places = np.concatenate([part.vertices for part in parts])
    low, high = places.min(axis=0), places.max(axis=0)
    beside, below, above = _ROOM_MM
    view = View(
        f"{side} cast, seen from {'below' if side == 'upper' else 'above'}",
        np.array([0.0, 0.0, sign]),
        np.array([sign, 0.0, 0.0]),
        0.5 * (low + high) - np.array([0.5 * sign * (below - above), 0.0, 0.0]),
        float(high[1] - low[1]) + beside,
        float(high[0] - low[0]) + below + above,
    )
    note = f"{view.name}; teeth in two colours in turn, doubtful: brown, gum: pink, rims: dark"
    return Scene(
        view,
        parts,
        tuple(_seed_marks(read, side, head)),
        tuple(_numbers(read, side, head)),
        (Note(note, (0.0, 0.5 * below - 0.5 * view.height_mm - 1.0)),),
        legend=True,
    )


def _seed_marks(read: ReadCasts, side: Side, head: Floats) -> list[Marks]:
    marks = []
    for name, (label, style) in _SEEDS.items():
        own = [
            point.place
            for point in read.seeds
            if point.point == name and is_upper(point.tooth or 0) == (side == "upper")
        ]
        if own and read.is_seeded(side):
            every = np.ones(len(own), dtype=bool)
            marks.append(Marks(label, style, True, move_points(head, np.array(own)), every))
    return marks


def _numbers(read: ReadCasts, side: Side, head: Floats) -> list[Label]:
    """Return the number of each tooth beside its middle, towards the outside of the arch."""
    middles = {
        code: move_points(head, at[None])[0]
        for code, at in tooth_middles(read.meshes[side], read.codes[side]).items()
        if code != NO_TOOTH
    }
    centre = np.mean(list(middles.values()), axis=0) - np.array([8.0, 0.0, 0.0])
    labels = []
    for code, at in sorted(middles.items()):
        out = (at - centre) * np.array([1.0, 1.0, 0.0])
        far_mm = _NUMBER_MM[is_posterior(code)]
        labels.append(Label(str(code), at + far_mm * out / np.linalg.norm(out)))
    return labels


def seeded_png(read: ReadCasts, side: Side) -> bytes:
    """Return the picture of one cast as PNG."""
    scene = seeded_scene(read, side)
    width_mm = scene.view.width_mm
    pixels = writers.picture(scene, _PIXELS / width_mm).pixels
    return sheet_writer.png(annotation(scene, _PAPER_MM / width_mm), pixels, _PIXELS / _PAPER_MM)
