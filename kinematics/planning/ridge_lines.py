"""Where the crest of the ridge runs below a denture base."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.cast_bodies import RIDGE
from kinematics.casts.casts import Arch, Tooth
from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.planning.arch_order import runs_of
from kinematics.planning.denture_parts import Ridge
from kinematics.planning.given_points import in_arch
from kinematics.planning.judging import DentureBase
from kinematics.planning.occlusion import Occlusion
from kinematics.teeth.gum_lines import CREST_BELOW_MM
from kinematics.tooth_codes import arch_place, is_upper

#: Points of a crest that is worked out stand so far apart, mm (chosen for this program).
STEP_MM: Final = 2.0
#: A base whose ridge ends free goes on so far behind its last tooth, mm, as the made bases do.
BEHIND_MM: Final = 6.0
#: Beside a natural tooth the ridge ends so far before the gum about it, mm, as made casts do.
BESIDE_MM: Final = 1.5
#: A crest that is given lies no farther than this from the replacement teeth, mm (chosen for this
#: program).
FARTHEST_MM: Final = 15.0
#: What of a ridge lies so far along the arch, and so far across it, from a point of its crest, mm.
_ALONG_MM: Final = 0.8
_ACROSS_MM: Final = 7.0
#: The crest is the mean of a ridge's vertices, those lower by this length count 1/e, mm.
_TOP_MM: Final = 0.15
#: A crest of fewer points is left as it was found.
_LEAST_SMOOTHED: Final = 5


@dataclass(frozen=True)
class RidgeLine:
    """The crest of the ridge below one base, in the coordinates of its arch.

    Attributes
    ----------
    base : str
        Name of the base.
    crest : ndarray, shape (k, 3)
        From mesial to distal, of a base across the midline from right to left, mm.
    outward : ndarray, shape (k, 3)
        Unit normals of the crest away from the jawbone, towards the base.
    facial : ndarray, shape (k, 3)
        Unit, across the crest, towards cheek or lip.
    ridge : Ridge
        Its section and its mucosa.
    assumed : bool
        Whether it was worked out, not given.
    """

    base: str
    crest: Floats
    outward: Floats
    facial: Floats
    ridge: Ridge
    assumed: bool


def ridge_lines(
    occlusion: Occlusion, base: DentureBase, natural: tuple[int, ...]
) -> tuple[RidgeLine, ...]:
    """Return the crest below a base; of one with natural teeth between its own, each part of it.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    base : DentureBase
        The base.
    natural : tuple of int
        ISO 3950 numbers of the teeth of its arch that no base carries.

    Raises
    ------
    InputError
        A crest that is given lies far from the teeth of the base.
    """
    upper = is_upper(base.teeth[0])
    arch = occlusion.casts.upper if upper else occlusion.casts.lower
    if base.ridge.crest:
        given = _given(occlusion, arch, base)
        return (_line(arch, base, given, assumed=False),)
    lines = []
    for run in runs_of(base.teeth, natural):
        path, axes = _path(arch, run, natural)
        crest = _on_ridge(arch, path)
        crest = _below_teeth(arch, run, path, axes) if crest is None else crest
        if arch_place(run[-1]) < 0:  # on the right, mesial lies to the left
            crest = crest[::-1]
        lines.append(_line(arch, base, crest, assumed=True))
    return tuple(lines)


def _given(occlusion: Occlusion, arch: Arch, base: DentureBase) -> Floats:
    """Return a crest that is given in the coordinates of its arch (k, 3)."""
    points = base.ridge.crest
    placed = in_arch(occlusion, points, is_upper(base.teeth[0]))
    crowns = arch.mesh.vertices[arch.mesh.faces[np.isin(arch.tooth_of_face, base.teeth)]]
    apart = np.linalg.norm(placed[:, None] - crowns.reshape(-1, 3)[None], axis=2).min(axis=1)
    built_in = occlusion.hinge_from_points is None
    for number in np.flatnonzero(apart > FARTHEST_MM):
        shown = ", ".join(f"{value:g}" for value in points[number])
        raise InputError(
            f"denture base '{base.name}': ridge.crest[{number}] = [{shown}] lies "
            f"{apart[number]:.1f} mm from the teeth of the base; accepted are {FARTHEST_MM:g} mm. "
            "Give points of the crest below them, in the coordinates of "
            f"{'the hinge frame' if built_in else 'the upper scan'}, the jaw in MI"
        )
    return placed


def _path(arch: Arch, run: tuple[int, ...], natural: tuple[int, ...]) -> tuple[Floats, Floats]:
    """Return points (k, 3) along the middles of some teeth from right to left, and their axes."""
    teeth = [arch.tooth(code) for code in run]
    middles = np.array([tooth.centre for tooth in teeth])
    places = [arch_place(code) for code in natural]
    first, last = arch_place(run[0]), arch_place(run[-1])
    ends = []
    for tooth, before, free in (
        (teeth[0], beyond(arch, run[0], -1), not any(p < first for p in places)),
        (teeth[-1], beyond(arch, run[-1], 1), not any(p > last for p in places)),
    ):
        half = half_width_mm(arch, tooth, before)
        ends.append(tooth.centre + (half + (BEHIND_MM if free else -BESIDE_MM)) * before)
    knots = np.concatenate([ends[:1], middles, ends[1:]])
    axes = np.array([tooth.long_axis for tooth in (teeth[0], *teeth, teeth[-1])])
    walked = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(knots, axis=0), axis=1))])
    count = max(2, round(walked[-1] / STEP_MM) + 1)
    at = np.linspace(0.0, walked[-1], count)
    path = np.stack([np.interp(at, walked, column) for column in knots.T], axis=1)
    leaning = np.stack([np.interp(at, walked, column) for column in axes.T], axis=1)
    return path, leaning / np.linalg.norm(leaning, axis=1, keepdims=True)


def beyond(arch: Arch, code: int, sign: int) -> Floats:
    """Return the unit direction in which an arch goes on beyond a tooth.

    `sign` is -1 towards the patient's right, 1 towards the left. Behind the last tooth it goes on
    as it came there.
    """
    here = arch_place(code)
    others = sorted(
        (tooth for tooth in arch.teeth if tooth.code != code),
        key=lambda tooth: abs(arch_place(tooth.code) - here),
    )
    centre = arch.tooth(code).centre
    after = [
        tooth.centre - centre for tooth in others if sign * arch_place(tooth.code) > sign * here
    ]
    before = [centre - tooth.centre for tooth in others]
    way = (after or before or [np.array([0.0, float(sign), 0.0])])[0]
    return np.asarray(way / np.linalg.norm(way))


def half_width_mm(arch: Arch, tooth: Tooth, direction: Floats) -> float:
    """Return how far a crown reaches from its middle in a direction, (3,) and unit, mm."""
    corners = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == tooth.code]]
    return float(((corners.reshape(-1, 3) - tooth.centre) @ direction).max())


def _on_ridge(arch: Arch, path: Floats) -> Floats | None:
    """Return the crest (k, 3) on the made ridge of a cast; None where there is none below."""
    body = arch.body
    if body is None or not (body.kind == RIDGE).any():
        return None
    points = body.mesh.vertices[np.unique(body.mesh.faces[body.kind == RIDGE])]
    up, tangents = _up(arch), _tangents(path)
    crest = np.empty_like(path)
    for row, (place, tangent) in enumerate(zip(path, tangents, strict=True)):
        level = np.cross(up, tangent)
        away = points - place
        near = (np.abs(away @ tangent) < _ALONG_MM) & (np.abs(away @ level) < _ACROSS_MM)
        if not near.any():
            return None
        height = away[near] @ up
        weight = np.exp((height - height.max()) / _TOP_MM)
        crest[row] = (weight[:, None] * points[near]).sum(axis=0) / weight.sum()
    if len(crest) >= _LEAST_SMOOTHED:
        crest[1:-1] = 0.25 * crest[:-2] + 0.5 * crest[1:-1] + 0.25 * crest[2:]
    return crest


def _below_teeth(arch: Arch, run: tuple[int, ...], path: Floats, axes: Floats) -> Floats:
    """Return a crest (k, 3) as far below the cervical lines as ridges usually lie."""
    deep = []
    for code in run:
        tooth = arch.tooth(code)
        corners = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == code]].reshape(-1, 3)
        deep.append(float(((corners - tooth.centre) @ tooth.long_axis).min()))
    return np.asarray(path + (np.mean(deep) - CREST_BELOW_MM) * axes)


def _up(arch: Arch) -> Floats:
    """Return the direction towards the other arch: the mean of the long axes of its teeth."""
    mean = np.mean([tooth.long_axis for tooth in arch.teeth], axis=0)
    return np.asarray(mean / np.linalg.norm(mean))


def _tangents(points: Floats) -> Floats:
    steps = np.gradient(points, axis=0)
    return np.asarray(steps / np.linalg.norm(steps, axis=1, keepdims=True))


def _line(arch: Arch, base: DentureBase, crest: Floats, *, assumed: bool) -> RidgeLine:
    """Return a crest with its directions, made square to it."""
    tangents, up = _tangents(crest), _up(arch)
    outward = up - (tangents @ up)[:, None] * tangents
    outward /= np.linalg.norm(outward, axis=1, keepdims=True)
    facial = np.cross(outward, tangents)
    middle = np.mean([tooth.centre for tooth in arch.teeth], axis=0)
    sign = np.where(((crest - middle) * facial).sum(axis=1) < 0.0, -1.0, 1.0)
    return RidgeLine(base.name, crest, outward, sign[:, None] * facial, base.ridge, assumed)
