"""Mouths to be adjusted: fine tilted planes over balls, and humps planted on them."""

from dataclasses import replace

import numpy as np

from kinematics.contact.mounted import mount
from kinematics.contact.pair import Pair, lower_tree, upper_tree
from kinematics.contact.sweep import sweep
from kinematics.contact.sweep_settings import SweepSettings
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import inverse, move_points, opening_rotation
from kinematics.guidance.excursions import left_lateral, protrusion, right_lateral
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.settings import GuidanceSettings
from kinematics.planning.adjusting.outcome import Moved
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.stops import centric_stops
from kinematics.tooth_codes import is_upper, opponent
from tests.small_mouth import HALF, IN_CR, LEVEL, UPPERS, arch, dome, fall_of, middle, tip

FEW = SweepSettings(step_mm=0.5, travel_mm=3.0, gap_limit_mm=0.5)
#: Front teeth that guide so gently that back teeth stay near to each other.
GENTLE = {11: (0.3, 0.0), 21: (0.3, 0.0), 13: (0.2, 0.3), 23: (0.2, 0.3)}
BACK = (17, 16, 15, 25, 26, 27)
#: Points a side of a fine plane.
SIDE = 31


def fine_plane(code, falls, side=SIDE):
    """Return vertices and faces of an upper tooth of many triangles, seen from below."""
    at = np.linspace(-HALF, HALF, side)
    across = np.stack(np.meshgrid(at, at, indexing="ij"), axis=-1).reshape(-1, 2)
    points = middle(code) + np.column_stack([across, across @ fall_of(code, falls)])
    n = np.arange(side * side).reshape(side, side)
    a, b, c, d = (x.ravel() for x in (n[:-1, :-1], n[:-1, 1:], n[1:, 1:], n[1:, :-1]))
    return points, np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)])


def fine_mouth(falls=None, clearances=None):
    """Return mounted casts: back teeth are fine planes over balls; see `small_mouth.mouth`."""
    falls, clearances = GENTLE | (falls or {}), clearances or {}
    uppers, lowers = [], []
    for code in UPPERS:
        low = opponent(code)
        gap, back = clearances.get(low, 0.0), code in BACK
        uppers.append((code, *fine_plane(code, falls, SIDE if back else 2)))
        if back:
            ball = dome(low, gap, code, fall_of(code, falls), 1.0, 12, 24)
            lowers.append((low, *ball))
        else:
            lowers.append((low, *tip(low, gap, code)))
    upper, lower = arch(uppers, -1.0), arch(lowers, 1.0)
    pair = Pair(upper_tree(upper), lower_tree(lower))
    incisal = np.array([84.0, 0.0, LEVEL])
    return mount(upper, lower, pair, prepare_guidance(GuidanceSettings()), IN_CR, incisal)


def moved(casts, workers=None, **judging):
    """Take casts through the main excursions in few poses."""
    workers, settings = workers or Workers(), JudgingSettings(**judging)
    sweeps = tuple(
        sweep(casts, one, FEW, settings.tolerance_mm, settings.readings_mm, workers)
        for one in (protrusion(), right_lateral(), left_lateral())
    )
    stops = centric_stops(sweeps[0].patches, settings)
    return Moved(Occlusion(casts, settings, workers=workers), sweeps, stops)


def vertices_of(casts, code):
    """Return the numbers of the vertices of a tooth in its arch, and where they stand."""
    cast = casts.upper if is_upper(code) else casts.lower
    numbers = np.unique(cast.mesh.faces[cast.tooth_of_face == code])
    return numbers, cast.mesh.vertices[numbers]


def with_places(casts, code, numbers, places):
    """Return casts with some vertices of the arch of a tooth elsewhere; MI stays where it was."""
    side, build = ("upper", upper_tree) if is_upper(code) else ("lower", lower_tree)
    cast = getattr(casts, side)
    every = cast.mesh.vertices.copy()
    every[numbers] = places
    cast = replace(cast, mesh=mesh_of(every, cast.mesh.faces))
    trees = {"upper": casts.pair.upper, "lower": casts.pair.lower, side: build(cast)}
    return replace(casts, **{side: cast}, pair=Pair(**trees))


def with_raised(casts, code, height_mm):
    """Return casts on which vertices of a tooth are raised along the closing arc in MI, (k,)."""
    numbers, places = vertices_of(casts, code)
    upper = is_upper(code)
    local = move_points(inverse(casts.mi_pose), places) if upper else places
    radius = np.hypot(local[:, 0], local[:, 2])
    turn = opening_rotation((height_mm if upper else -height_mm) / radius)[:, :3, :3]
    local = np.einsum("nij,nj->ni", turn, local)
    raised = move_points(casts.mi_pose, local) if upper else local
    return with_places(casts, code, numbers, np.where((height_mm > 0.0)[:, None], raised, places))


def hump(places, top, height_mm, width_mm):
    """Return how high a round hump with gentle borders stands at places (k, 3)."""
    share = np.linalg.norm(places - top, axis=1) / width_mm
    return height_mm * np.clip(1.0 - share**2, 0.0, None) ** 2
