"""Whether one more replacement tooth behind a set-up would stand opposite to what it leaves."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse, move_points
from kinematics.planning.extent import FurtherTooth
from kinematics.planning.extent_ridge import is_too_steep, occlusal_normal, rise_deg
from kinematics.planning.extent_set_ups import Teeth, back_teeth, is_bounded
from kinematics.planning.judging import DentureBase
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.ridge_lines import beyond, half_width_mm
from kinematics.teeth.crown_table import crown_table
from kinematics.tooth_codes import arch_place, is_right, is_upper, mirror, opponent, place

#: A tooth stands opposite to another where it faces at least so much of it along the arch, mm
#: (chosen for this program).
LEAST_FACING_MM: Final = 2.0
#: Third molars are not replaced (common practice).
_LAST_PLACE: Final = 7


def further_teeth(
    occlusion: Occlusion,
    base: DentureBase,
    natural: Sequence[int],
    left: Sequence[int],
    crests: Sequence[Floats],
) -> tuple[FurtherTooth, ...]:
    """Return the next tooth of every side where it would stand opposite to what a base leaves.

    Asked where no tooth stands behind the base, up to the second molar. It is told by place alone:
    the tooth goes on from the last one as the arch comes there, as wide as the same tooth of the
    other side or, without that, of the table of crowns. None where the ridge there is too steep.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    base : DentureBase
        The base.
    natural : sequence of int
        Teeth of both arches that stand on no denture base.
    left : sequence of int
        Opposing teeth without a stop that nothing holds, as the base is set up.
    crests : sequence of ndarray, shape (k, 3)
        Crests of the ridge below it, in the coordinates of its arch, mm.
    """
    # Those that a tooth of the base faces by number stand clear of it for another reason.
    open_ = [code for code in left if opponent(code) not in base.teeth]
    sides = [side for side in back_teeth(base) if not is_bounded(side, natural)]
    found = (_further(occlusion, side, open_, crests) for side in sides)
    return tuple(tooth for tooth in found if tooth is not None)


def _further(
    occlusion: Occlusion, side: Teeth, left: Sequence[int], crests: Sequence[Floats]
) -> FurtherTooth | None:
    last, upper = side[-1], is_upper(side[-1])
    code = last + 1
    arch = occlusion.casts.upper if upper else occlusion.casts.lower
    if place(last) >= _LAST_PLACE or code in arch.codes:
        return None
    tooth = arch.tooth(last)
    way = beyond(arch, last, -1 if is_right(last) else 1)
    near = half_width_mm(arch, tooth, way)
    width = _width_mm(occlusion, code)
    facing = {
        other: min(stop, near + width) - max(start, near)
        for other in left
        if is_right(other) == is_right(last) and is_upper(other) != upper
        for start, stop in [_span(occlusion, other, tooth.centre, way)]
    }
    held = {other: mm for other, mm in facing.items() if mm >= LEAST_FACING_MM}
    rise = _rise_deg(occlusion, code, tooth.centre + (near + 0.5 * width) * way, way, crests)
    limit_deg = occlusion.settings.ascending_ridge_deg
    if not held or (rise is not None and is_too_steep(rise, limit_deg, upper)):
        return None
    return FurtherTooth(code, tuple(sorted(held, key=arch_place)), width, min(held.values()), rise)


def _width_mm(occlusion: Occlusion, code: int) -> float:
    """Return the width of a tooth: of the same tooth of the other side, else of the table."""
    arch = occlusion.casts.upper if is_upper(code) else occlusion.casts.lower
    twin = mirror(code)
    if twin not in arch.codes:
        return float(crown_table().widths("U" if is_upper(code) else "L")[place(code) - 1])
    way = beyond(arch, twin, -1 if is_right(twin) else 1)
    tooth = arch.tooth(twin)
    return half_width_mm(arch, tooth, way) + half_width_mm(arch, tooth, -way)


def _span(occlusion: Occlusion, code: int, origin: Floats, way: Floats) -> tuple[float, float]:
    """Return from where to where an opposing tooth reaches along a way in the other arch, in MI."""
    casts = occlusion.casts
    arch = casts.upper if is_upper(code) else casts.lower
    corners = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == code]].reshape(-1, 3)
    pose = inverse(casts.mi_pose) if is_upper(code) else casts.mi_pose
    along = (move_points(pose, corners) - origin) @ way
    return float(along.min()), float(along.max())


def _rise_deg(
    occlusion: Occlusion, code: int, middle: Floats, way: Floats, crests: Sequence[Floats]
) -> float | None:
    """Return the slope of the ridge below a place; None where no crest reaches so far back."""
    arch = occlusion.casts.upper if is_upper(code) else occlusion.casts.lower
    reaching = [crest for crest in crests if float(((crest - middle) @ way).max()) >= 0.0]
    if not reaching:
        return None
    nearest = min(reaching, key=lambda c: float(np.linalg.norm(c - middle, axis=1).min()))
    return rise_deg(nearest, middle, occlusal_normal(arch.teeth), is_upper(code))
