"""Built-in teeth made into what a scan shows of them: open at the gum line, rough."""

import numpy as np
import pyvista

from kinematics.geometry.meshes import mesh_of
from kinematics.tooth_codes import is_posterior

#: Rise of a gum line from the middle of a crown to its sides, mm: front teeth, back teeth.
RISE_MM = (2.8, 0.9)


def opened(arch, neck_mm=1.0, seed=0, noise_mm=0.02, kept=1.0, gum_line=False):
    """Return the crowns of an arch as a rough, open mesh, and the tooth of every triangle.

    Triangles that lie less than `neck_mm` above the lowest point of their crown, or face the root,
    are gone. With `gum_line` the cut rises towards the sides, and leans by up to 6 degrees between
    cheek and tongue, 3 along the arch. `kept` is the part of the triangles left by decimation.
    """
    random = np.random.default_rng(seed)
    points, faces, codes, count = [], [], [], 0
    for tooth in arch.teeth:
        axes = _directions(arch, tooth)
        triangles = arch.mesh.faces[arch.tooth_of_face == tooth.code]
        own, triangles = _compact(arch.mesh.vertices, triangles)
        at = (own - tooth.centre) @ axes
        middle = at[triangles].mean(axis=1)
        cut = at[:, 2].min() + neck_mm
        if gum_line:
            aside = 2.0 * middle[:, 0] / np.ptp(at[:, 0])
            lean = random.uniform([-0.06, -0.1], [0.06, 0.1])
            cut = cut + RISE_MM[int(is_posterior(tooth.code))] * aside**2 + middle[:, :2] @ lean
        a, b, c = (own[triangles[:, k]] for k in range(3))
        across = np.cross(b - a, c - a)
        seen = across @ tooth.long_axis > -0.7 * np.linalg.norm(across, axis=1)
        own, triangles = _compact(own, triangles[seen & (middle[:, 2] > cut)])
        if kept < 1.0:
            thinned = pyvista.PolyData.from_regular_faces(own, triangles).decimate(1.0 - kept)
            own, triangles = np.asarray(thinned.points, dtype=float), thinned.regular_faces
        points.append(own + noise_mm * random.normal(size=own.shape))
        faces.append(triangles + count)
        codes.append(np.full(len(triangles), tooth.code, dtype=np.int64))
        count += len(own)
    return mesh_of(np.concatenate(points), np.concatenate(faces)), np.concatenate(codes)


def _compact(points, faces):
    used, number = np.unique(faces, return_inverse=True)
    return points[used], number.reshape(-1, 3)


def _directions(arch, tooth):
    """Return columns: along the arch, across it, and the axis of the tooth."""
    at = arch.codes.index(tooth.code)
    along = arch.teeth[min(at + 1, len(arch.teeth) - 1)].centre - arch.teeth[max(at - 1, 0)].centre
    along = along - (along @ tooth.long_axis) * tooth.long_axis
    along = along / np.linalg.norm(along)
    return np.stack([along, np.cross(tooth.long_axis, along), tooth.long_axis], axis=1)
