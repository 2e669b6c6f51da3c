"""Made arches whose crowns are ellipsoids on a half circle, and bases on them, drawn by lot.

All teeth stand there, replacement teeth too, so where a rest lies on a crown is known by formula.
"""

from types import SimpleNamespace

import numpy as np
import trimesh

from kinematics.casts.casts import Arch, Tooth
from kinematics.geometry.meshes import joined, mesh_of
from kinematics.planning.denture_parts import Rest
from kinematics.planning.judging import DentureBase, JudgingSettings
from kinematics.planning.occlusion import Occlusion

#: Half sizes of a crown along mesial, facial and up, mm, and the half circle it stands on.
HALF = np.array([3.0, 4.0, 5.0])
RADIUS_MM = 29.0
STEP_RAD = np.pi / 14.5
BALL = trimesh.creation.icosphere(subdivisions=3)
SEVENS = (*range(-7, 0), *range(1, 8))


def code_of(place, upper):
    """Return the ISO 3950 number of a place in its arch, negative on the right."""
    quadrant = ((1, 2) if upper else (4, 3))[int(place > 0)]
    return 10 * quadrant + int(abs(place))


def turn_of(place):
    """Return the angle of a tooth on the half circle, to the left of straight ahead."""
    return np.sign(place) * (abs(place) - 0.5) * STEP_RAD


def frame_of(place, upper):
    """Return the middle of a crown, and its mesial, facial and up directions (3, 3)."""
    turn = turn_of(place)
    facial = np.array([np.cos(turn), np.sin(turn), 0.0])
    left = np.array([-np.sin(turn), np.cos(turn), 0.0])
    up = np.array([0.0, 0.0, -1.0 if upper else 1.0])
    middle = RADIUS_MM * facial + np.array([40.0, 0.0, -30.0])
    return middle, np.stack([-left if place > 0 else left, facial, up])


def arch(upper, places=SEVENS):
    """Return an arch of ellipsoids."""
    meshes, codes, teeth = [], [], []
    for place in places:
        middle, axes = frame_of(place, upper)
        meshes.append(mesh_of(middle + (BALL.vertices * HALF) @ axes, BALL.faces))
        codes += [code_of(place, upper)] * len(BALL.faces)
        tip = middle + HALF[2] * axes[2]
        teeth.append(Tooth(code_of(place, upper), middle, axes[2], tip[None]))
    return Arch(joined(meshes), np.array(codes), tuple(teeth))


UPPER, LOWER = arch(True), arch(False)


def occlusion(bases, upper=UPPER, lower=LOWER, **others):
    """Return the subject of judging; only what frameworks look at is there."""
    casts = SimpleNamespace(upper=upper, lower=lower, mi_pose=np.eye(4))
    return Occlusion(casts, JudgingSettings(), tuple(bases), **others)


def runs(lost):
    """Return the lost places without a tooth between them, from right to left."""
    found = []
    for place in SEVENS:
        if place not in lost:
            found.append([])
        else:
            found = found or [[]]
            found[-1].append(place)
    return [run for run in found if run]


def drawn_bases(dice, upper, rests_given):
    """Return bases for spaces drawn by lot, each with its neighbours as abutments.

    Returns
    -------
    bases : list of DentureBase
        Joined by one connector, or each of its own.
    lost : set of int
        Places of their teeth.
    """
    while True:
        lost = {place for place in SEVENS if dice.random() < 0.35}
        if 1 <= len(lost) <= 10:
            break
    standing = [place for place in SEVENS if place not in lost]
    connector = "made bar" if dice.random() < 0.7 else ""
    bases = []
    for number, run in enumerate(runs(lost)):
        before = [place for place in standing if place < run[0]][-1:]
        after = [place for place in standing if place > run[-1]][:1]
        abutments = [*before, *after]
        rests = {}
        if rests_given:
            for place in {*abutments, *dice.choice(standing, 2)}:
                where = "cingulum" if abs(place) < 4 else str(dice.choice(["mesial", "distal"]))
                rests[int(place)] = Rest(code_of(place, upper), where)
        bases.append(
            DentureBase(
                name=f"base {number}",
                teeth=tuple(code_of(place, upper) for place in run),
                abutments=tuple(code_of(place, upper) for place in abutments),
                connector=connector,
                rests=tuple(rests.values()),
            )
        )
    return bases, lost


def place_of(code):
    """Return the place of a tooth in its arch, negative on the right."""
    return code % 10 * (-1 if code // 10 in (1, 4) else 1)
