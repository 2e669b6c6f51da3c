"""A front tooth whose guiding surface is built up, so that it guides more steeply."""

from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.meshes import face_areas_normals, mesh_of
from kinematics.tooth_codes import is_upper
from kinematics.trial.cutting import along
from kinematics.trial.settings import Change
from kinematics.trial.standing import TrialTooth

#: Where a surface faces the opponent by more than this share it is built up in full; around it less
#: and less, and nothing where it faces away. Chosen for this program: edges stay round.
FACES: Final = 0.3


def steepened(tooth: TrialTooth, change: Change) -> TrialTooth:
    """Return a tooth with its guiding surface built up, square to the long axis.

    Seen along that direction every triangle keeps its area, so none of them folds over.
    """
    assert change.by_mm is not None and change.from_mm is not None
    added = thickness_mm(tooth, change.by_mm, change.from_mm)
    outward = guiding_direction(tooth)
    at = tooth.tooth
    vertices = tooth.vertices + added[:, None] * outward
    tips = {name: _carried(tooth, tip[None], vertices)[0] for name, tip in at.cusp_tips.items()}
    landmarks = replace(at, edge=_carried(tooth, at.edge, vertices), cusp_tips=tips)
    return replace(tooth, tooth=landmarks, vertices=vertices)


def guiding_direction(tooth: TrialTooth) -> Floats:
    """Return the direction (3,) in which the guiding surface of a front tooth is built up."""
    facial = tooth.axes[:, 1]
    return np.asarray(-facial if is_upper(tooth.tooth.code) else facial)


def thickness_mm(tooth: TrialTooth, by_mm: float, from_mm: float) -> Floats:
    """Return how much is built up at every vertex (n,), mm, square to the long axis."""
    up = tooth.axes[:, 2]
    heights = along(tooth.vertices, up)
    below = float(along(tooth.tooth.edge, up).max()) - heights
    share = np.clip(1.0 - below / from_mm, 0.0, 1.0)
    return np.asarray(by_mm * share * _facing(tooth, guiding_direction(tooth)))


def _facing(tooth: TrialTooth, direction: Floats) -> Floats:
    """Return how far the surface at every vertex (n,) faces a direction, 0 to 1.

    Vertices at one place are one, in the order of the places: no bit depends on their numbers.
    """
    areas, normals = face_areas_normals(mesh_of(tooth.vertices, tooth.faces))
    _, number = np.unique(tooth.vertices, axis=0, return_inverse=True)
    corners = number.ravel()[tooth.faces]
    weights = areas[:, None] * normals
    middles = tooth.vertices[tooth.faces].mean(axis=1)
    order = np.lexsort((middles[:, 2], middles[:, 1], middles[:, 0]))
    sums = np.zeros((int(number.max()) + 1, 3))
    for corner in range(3):
        np.add.at(sums, np.sort(corners[order], axis=1)[:, corner], weights[order])
    lengths = np.sqrt(along(sums * sums, np.ones(3)))
    share = along(sums, direction) / np.maximum(lengths, 1e-12)
    return np.asarray(np.clip(share / FACES, 0.0, 1.0)[number.ravel()])


def _carried(tooth: TrialTooth, points: Floats, vertices: Floats) -> Floats:
    """Return landmarks (n, 3), each moved as the vertex nearest to it."""
    places = points.copy()
    for row, point in enumerate(points):
        away = tooth.vertices - point
        nearest = int(np.argmin(along(away * away, np.ones(3))))
        places[row] = point + vertices[nearest] - tooth.vertices[nearest]
    return places
