"""Do points that were picked on casts lie on them? Those too far from their cast are named."""

from collections.abc import Mapping
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh
from kinematics.geometry.nearest_points import nearest_on
from kinematics.geometry.poses import move_points
from kinematics.scans.picked_points import SEAT, SEED, PickedPoint
from kinematics.scans.settings import Side
from kinematics.tooth_codes import is_upper

#: A seed or seat farther from its cast than this was picked on something else. Chosen for this
#: program: about ten times the roughness of a hand that picks on a drawn model.
FARTHEST_MM: Final = 1.0


def check_on_casts(
    points: tuple[PickedPoint, ...], casts: Mapping[Side, Mesh], cast_from_scan: Floats
) -> None:
    """Demand that seeds of teeth and rest seats lie on the cast of their tooth.

    Parameters
    ----------
    points : tuple of PickedPoint
        Others than seeds and seats may lie off the casts, and are not looked at.
    casts : mapping of side to Mesh
        Both casts, the jaw in MI, mm.
    cast_from_scan : ndarray, shape (4, 4)
        Pose that brings the coordinates of the points to those of the casts.

    Raises
    ------
    InputError
        Some do not; each is named with its distance.
    """
    faults = []
    for side, mesh in casts.items():
        own = [p for p in points if p.point in (SEED, SEAT) and side_of(p) == side]
        if not own:
            continue
        places = np.array([p.place for p in own])
        _, apart_mm = nearest_on(mesh, move_points(cast_from_scan, places))
        faults += [
            f"{p.called}: lies {mm:.1f} mm from the surface of the {side} cast"
            for p, mm in zip(own, apart_mm.tolist(), strict=True)
            if mm > FARTHEST_MM
        ]
    if faults:
        listed = "\n".join(f"  {text}" for text in faults)
        raise InputError(
            f"points picked on the casts: at most {FARTHEST_MM:g} mm from the cast of their tooth "
            "is accepted; are they in the coordinates of the upper scan, the jaw in MI, in mm, each"
            f" with its own tooth number?\n{listed}"
        )


def side_of(point: PickedPoint) -> Side:
    """Return on which cast a point of a tooth lies."""
    assert point.tooth is not None
    return "upper" if is_upper(point.tooth) else "lower"
