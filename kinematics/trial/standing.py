"""Teeth of an arch taken apart for a trial set-up, each with its own directions, and put back."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.casts.crown_directions import crown_of
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import mesh_of, part_of
from kinematics.geometry.poses import move_points, turn_vectors
from kinematics.tooth_codes import arch_place

#: Stands for the number of a vertex that the arch did not have before.
NEW_VERTEX = -1


@dataclass(frozen=True)
class TrialTooth:
    """One tooth, free to be changed, in the coordinates of its arch.

    Attributes
    ----------
    tooth : Tooth
        Its landmarks.
    axes : ndarray, shape (3, 3)
        Columns: mesial, facial and along the long axis towards the opponent; unit vectors at right
        angles, left- or right-handed as the tooth stands.
    vertices : ndarray, shape (n, 3)
        Corners of its triangles, mm.
    faces : ndarray, shape (m, 3)
        Its triangles, counter-clockwise seen from outside.
    vertex_before : ndarray, shape (n,)
        Which vertex of the unchanged arch each one was; `NEW_VERTEX` for what is new.
    """

    tooth: Tooth
    axes: Floats
    vertices: Floats
    faces: Ints
    vertex_before: Ints


def taken_out(arch: Arch, code: int) -> TrialTooth:
    """Return one tooth of an arch, free to be changed.

    Raises
    ------
    InputError
        The arch has no such tooth.
    """
    crown = crown_of(arch, code)
    part, used = part_of(arch.mesh, arch.tooth_of_face == code)
    axes = np.stack([crown.mesial, crown.outward, crown.up], axis=1)
    return TrialTooth(crown.tooth, axes, part.vertices, part.faces, used)


def moved(tooth: TrialTooth, pose: Floats) -> TrialTooth:
    """Return a tooth after a rigid motion (4, 4), its directions with it."""
    return replace(
        tooth,
        tooth=moved_landmarks(tooth.tooth, pose),
        axes=np.asarray(pose[:3, :3] @ tooth.axes),
        vertices=move_points(pose, tooth.vertices),
    )


def moved_landmarks(tooth: Tooth, pose: Floats) -> Tooth:
    """Return landmarks after a rigid motion (4, 4)."""
    return replace(
        tooth,
        centre=move_points(pose, tooth.centre[None])[0],
        long_axis=turn_vectors(pose, tooth.long_axis[None])[0],
        edge=move_points(pose, tooth.edge),
        cusp_tips={name: move_points(pose, tip[None])[0] for name, tip in tooth.cusp_tips.items()},
    )


def put_back(arch: Arch, changed: Mapping[int, TrialTooth | None]) -> tuple[Arch, Ints]:
    """Return an arch with some teeth as they are after their changes.

    Parameters
    ----------
    arch : Arch
        Unchanged.
    changed : mapping of int to TrialTooth or None
        Teeth by ISO 3950 number; None for one that is taken out.

    Returns
    -------
    arch : Arch
        Untouched triangles first, in their order; the body stays as it is.
    vertex_before : ndarray, shape (n,)
        Which vertex of the unchanged arch each vertex was; `NEW_VERTEX` for what is new.
    """
    kept = ~np.isin(arch.tooth_of_face, list(changed))
    vertices, faces, codes, before = [], [], [], []
    if kept.any():
        rest, used = part_of(arch.mesh, kept)
        vertices.append(rest.vertices)
        faces.append(rest.faces)
        codes.append(arch.tooth_of_face[kept])
        before.append(used)
    count = sum(map(len, vertices))
    teeth = {tooth.code: tooth for tooth in arch.teeth if tooth.code not in changed}
    for code in sorted(changed, key=arch_place):
        one = changed[code]
        if one is None:
            continue
        vertices.append(one.vertices)
        faces.append(one.faces + count)
        codes.append(np.full(len(one.faces), code, dtype=np.int64))
        before.append(one.vertex_before)
        teeth[code] = one.tooth
        count += len(one.vertices)
    mesh = mesh_of(np.concatenate(vertices), np.concatenate(faces))
    in_order = tuple(teeth[code] for code in sorted(teeth, key=arch_place))
    return Arch(mesh, np.concatenate(codes), in_order, arch.body), np.concatenate(before)
