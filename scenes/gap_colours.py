"""What gaps look like: dark where the arches are near, fading into the tooth at the limit."""

from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.poses import move_points
from scenes import colours
from scenes.scene import Frame, Gaps, Part, Scene

#: Share of white mixed into the scale, so that the shape of crowns is seen where it is darkest.
LIGHTER: Final = 0.1
#: From this share of the limit on, the colour of the tooth comes through.
FADE_FROM: Final = 0.7


def still(scene: Scene, frame: Frame) -> Scene:
    """Return one moment of a scene that moves: the lower where it stands, gaps as colours."""
    parts = [
        replace(part, vertices=move_points(frame.move, part.vertices))
        if part.cast == "lower"
        else part
        for part in scene.parts
    ]
    if frame.gaps is not None:
        gaps = frame.gaps
        parts = [_painted(part, gaps) if len(part.vertex_of) else part for part in parts]
    return replace(scene, parts=tuple(parts))


def _painted(part: Part, gaps: Gaps) -> Part:
    """Return a part of the teeth with a colour for each vertex."""
    near_mm = gaps.upper_mm if part.cast == "upper" else gaps.lower_mm
    return replace(part, paint=paint_of(part, near_mm, gaps.limit_mm))


def paint_of(part: Part, near_mm: Floats, limit_mm: float) -> Floats:
    """Return red, green and blue of every vertex of a part of the teeth.

    Parameters
    ----------
    part : Part
        Its vertices are numbered as in its arch.
    near_mm : ndarray
        How far every vertex of that arch is from the other.
    limit_mm : float
        Where the colours end.
    """
    return shades(np.clip(near_mm[part.vertex_of] / limit_mm, 0.0, 1.0), part.role)


def unpainted(part: Part) -> Part:
    """Return a part of the teeth with a colour for each vertex, as where nothing is near."""
    return replace(part, paint=shades(np.ones(len(part.vertices)), part.role))


def shades(share: Floats, role: str) -> Floats:
    """Return red, green and blue (n, 3) on a part of some role.

    Parameters
    ----------
    share : ndarray, shape (n,)
        0 where the scale is darkest, 1 at the limit, where the colour of the role is left.
    role : str
        Of the part.
    """
    scale = np.array([rgb(colour) for colour in colours.GAP_SCALE])
    steps = np.linspace(0.0, 1.0, len(scale))
    plain = np.stack([np.interp(share, steps, column) for column in scale.T], axis=1)
    lighter = plain + LIGHTER * (1.0 - plain)
    strength = np.clip((1.0 - share) / (1.0 - FADE_FROM), 0.0, 1.0)[:, None]
    return np.asarray(strength * lighter + (1.0 - strength) * rgb(colours.SURFACE[role]))


def rgb(colour: str) -> Floats:
    """Return red, green and blue of a hexadecimal colour, 0 to 1."""
    return np.array([int(colour[i : i + 2], 16) / 255.0 for i in (1, 3, 5)])
