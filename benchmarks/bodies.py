"""Closed bodies with one waved side, quickly made: they stand in for arches of any size."""

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.geometry.meshes import mesh_of


def waved_body(points_a_side: int, back_mm: float) -> Arch:
    """Return a closed body ahead of the hinge axis, one side of it waved, in 14 labels.

    Parameters
    ----------
    points_a_side : int
        n; the waved side has 2 (n - 1)^2 triangles.
    back_mm : float
        Height of the flat back above the middle of the waved side; negative below it.
    """
    n = points_a_side
    x, y = np.meshgrid(np.linspace(45.0, 85.0, n), np.linspace(-20.0, 20.0, n), indexing="ij")
    z = -33.0 + 0.8 * np.sin(0.9 * x) * np.cos(0.7 * y) + 0.1 * np.sin(4.0 * x + 3.0 * y)
    sheet = np.stack([x.ravel(), y.ravel(), z.ravel()], axis=1)
    at = np.arange(n * n).reshape(n, n)
    a, b, c, d = at[:-1, :-1].ravel(), at[1:, :-1].ravel(), at[1:, 1:].ravel(), at[:-1, 1:].ravel()
    rim = np.concatenate([at[:-1, 0], at[-1, :-1], at[:0:-1, -1], at[0, :0:-1]])
    under = n * n + np.arange(len(rim))
    after, under_after = np.roll(rim, -1), np.roll(under, -1)
    middle = np.full(len(rim), n * n + len(rim))
    sides = [(a, b, c), (a, c, d), (rim, under, after), (after, under, under_after),
             (under, middle, under_after)]  # fmt: skip
    faces = np.concatenate([np.stack(side, axis=1) for side in sides])
    back = np.concatenate([sheet[rim], [[65.0, 0.0, 0.0]]])
    back[:, 2] = -33.0 + back_mm
    # Counter-clockwise from outside: as built for a body below its waved side.
    mesh = mesh_of(np.concatenate([sheet, back]), faces if back_mm < 0.0 else faces[:, ::-1])
    middle_y = mesh.corners.mean(axis=1)[:, 1]
    labels = 11 + np.clip((middle_y + 20.0) / 40.0 * 14.0, 0, 13).astype(np.int64)
    return Arch(mesh, labels, ())
