"""A small mouth for tests: every upper tooth a tilted plane, every lower one a tip under it.

A tip that turns about the hinge meets a plane in closed form, so that whatever is said about these
teeth can be worked out by hand.
"""

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.contact.mounted import mount
from kinematics.contact.pair import prepare
from kinematics.contact.sweep import sweep
from kinematics.contact.sweep_settings import SweepSettings
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.guidance.guidance import prepare as prepare_guidance
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import GuidanceSettings
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.occlusion import Occlusion
from kinematics.tooth_codes import is_right, opponent

LEVEL = -33.0
UPPERS = (17, 16, 15, 13, 11, 21, 23, 25, 26, 27)
#: Forward of the hinge axis and off the midline, mm, by place in the quadrant.
PLACES = {7: (38.0, 26.0), 6: (49.0, 25.0), 5: (60.0, 23.0), 3: (74.0, 17.0), 1: (84.0, 4.5)}
#: Half a plane's width: more than the tips travel, too little to reach the neighbour's tip.
HALF = 3.3
#: Fall of each plane forward and outward (mm per mm). Back teeth are level: they separate.
FALLS = {7: (0.0, 0.0), 6: (0.0, 0.0), 5: (0.0, 0.0), 3: (0.8, 1.0), 1: (1.2, 0.0)}
IN_CR = GuidanceCoordinates(0.0, 0.0, 0.0, 0.0)


def middle(code):
    """Return where a tooth stands, on the level of the occlusal plane."""
    forward, aside = PLACES[code % 10]
    return np.array([forward, -aside if is_right(code) else aside, LEVEL])


def fall_of(code, falls):
    """Return how much a plane rises forward and to the left, mm per mm."""
    ahead, outward = falls.get(code, FALLS[code % 10])
    return np.array([-ahead, outward if is_right(code) else -outward])


def plane(code, falls):
    """Return vertices and faces of an upper tooth, seen from below."""
    rise = fall_of(code, falls)
    corners = np.array([[-1, -1], [-1, 1], [1, 1], [1, -1]]) * HALF
    points = middle(code) + np.column_stack([corners, corners @ rise])
    return points, np.array([[0, 1, 2], [0, 2, 3]])


def tip(code, clearance, upper_code):
    """Return a steep pyramid whose tip stands `clearance` below its upper plane's middle."""
    top = middle(upper_code) * [1, 1, 1] - [0, 0, clearance]
    base = np.array([[-0.5, -0.5, -6], [0.5, -0.5, -6], [0.5, 0.5, -6], [-0.5, 0.5, -6.0]])
    return np.vstack([top, top + base]), np.array([[0, 1, 2], [0, 2, 3], [0, 3, 4], [0, 4, 1]])


def dome(code, clearance, upper_code, rise=(0.0, 0.0), radius=2.0, rings=24, spokes=48):
    """Return a ball's upper half that stands `clearance` from its upper plane."""
    normal = np.array([-rise[0], -rise[1], 1.0])
    normal /= np.linalg.norm(normal)
    centre = middle(upper_code) - normal * (radius + clearance)
    lat = np.radians(np.linspace(80.0, 80.0 / rings, rings))
    turn = 2 * np.pi * np.arange(spokes) / spokes
    x, y = np.outer(np.sin(lat), np.cos(turn)), np.outer(np.sin(lat), np.sin(turn))
    z = np.outer(np.cos(lat), np.ones(spokes))
    points = np.vstack([radius * np.stack([x, y, z], -1).reshape(-1, 3), [[0, 0, radius]]])
    faces = []
    for r in range(rings - 1):
        for s in range(spokes):
            a, b = r * spokes + s, r * spokes + (s + 1) % spokes
            faces += [[a, b, b + spokes], [a, b + spokes, a + spokes]]
    top = (rings - 1) * spokes
    faces += [[top + s, top + (s + 1) % spokes, len(points) - 1] for s in range(spokes)]
    return centre + points, np.array(faces)


def arch(parts, axis):
    """Return an arch of (code, vertices, faces)."""
    vertices, faces, codes, teeth, count = [], [], [], [], 0
    for code, points, triangles in parts:
        vertices.append(points)
        faces.append(triangles + count)
        codes += [code] * len(triangles)
        count += len(points)
        centre = points.mean(axis=0)
        # Upper edges far outside: no excursion of a few millimetres reaches edge-to-edge.
        edge = centre * [1.3, 2.0, 1.0] if axis < 0 else points[points[:, 2].argmax()]
        teeth.append(Tooth(code, centre, np.array([0.0, 0.0, axis]), edge[None]))
    mesh = mesh_of(np.vstack(vertices), np.vstack(faces))
    return Arch(mesh, np.array(codes), tuple(teeth))


def mouth(falls=None, clearances=None, uppers=UPPERS, domes=(), guidance=None, mi=IN_CR):
    """Return mounted casts.

    falls: upper code -> (fall forward, fall outward); clearances: lower code -> mm below contact
    in CR; domes: lower teeth that are balls rather than tips.
    """
    falls, clearances = falls or {}, clearances or {}
    lowers = []
    for code in uppers:
        low = opponent(code)
        gap = clearances.get(low, 0.0)
        if low in domes:
            lowers.append((low, *dome(low, gap, code, fall_of(code, falls))))
        else:
            lowers.append((low, *tip(low, gap, code)))
    upper = arch([(code, *plane(code, falls)) for code in uppers], -1.0)
    lower = arch(lowers, 1.0)
    prepared = prepare_guidance(guidance or GuidanceSettings())
    incisal = np.array([84.0, 0.0, LEVEL])
    return mount(upper, lower, prepare(upper, lower), prepared, mi, incisal)


def swept(casts, excursion, settings=None, **sweep_settings):
    """Sweep in steps of a tenth to 3 mm."""
    judging = settings or JudgingSettings()
    chosen = SweepSettings(**{"travel_mm": 3.0, **sweep_settings})
    return sweep(casts, excursion, chosen, judging.tolerance_mm, judging.readings_mm, Workers(1))


def occlusion(casts, bases=(), over_erupted=(), **settings):
    """Return the subject of judging."""
    return Occlusion(casts, JudgingSettings(**settings), tuple(bases), frozenset(over_erupted))


def openings(casts, falls, clearances, poses_at_zero, uppers=UPPERS):
    """Return the opening at which each tip meets its own plane, in closed form, (n, teeth)."""
    found = []
    for code in uppers:
        low = opponent(code)
        point = middle(code) - [0, 0, clearances.get(low, 0.0)]
        normal = np.array([*-fall_of(code, falls), 1.0])
        turned = normal @ poses_at_zero[:, :3, :3]
        offset = poses_at_zero[:, :3, 3] @ normal - middle(code) @ normal
        # normal . (R (x cos t + z sin t, y, z cos t - x sin t) + offset) = 0
        a = turned[:, 0] * point[0] + turned[:, 2] * point[2]
        b = turned[:, 0] * point[2] - turned[:, 2] * point[0]
        c = turned[:, 1] * point[1] + offset
        middle_angle, reach = np.arctan2(b, a), np.arccos(-c / np.hypot(a, b))
        both = np.stack([middle_angle + reach, middle_angle - reach])
        found.append(np.take_along_axis(both, np.abs(both).argmin(0)[None], 0)[0])
    return np.stack(found, axis=1)
