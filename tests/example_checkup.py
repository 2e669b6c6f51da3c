"""A small hand-made checkup for tests of pictures and report: simple domes, invented figures."""

import numpy as np

from kinematics.borders.tracks import BorderTrack
from kinematics.casts.casts import NO_TOOTH, Arch, Tooth
from kinematics.checkup_result import Checkup
from kinematics.contact.closure import MEETS, Closures
from kinematics.contact.contacts import Patches
from kinematics.contact.sweep import GUIDED_BY_TEETH, Sweep
from kinematics.geometry.meshes import joined, mesh_of
from kinematics.geometry.poses import identity_poses
from kinematics.guidance.excursions import Excursion
from kinematics.guidance.mandible import GuidanceCoordinates, JawPositions
from kinematics.planning.articulation import Reading, Verdict
from kinematics.planning.findings import Figure, Finding
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.slide import CentricSlide
from kinematics.planning.stops import Stop
from kinematics.tooth_codes import is_right, place
from tests.made_borders import made_borders

UPPERS = (17, 16, 15, 14, 13, 12, 11, 21, 22, 23, 24, 25, 26, 27)
LOWERS = (47, 46, 45, 44, 43, 42, 41, 31, 32, 33, 34, 35, 36, 37)
HALF_WIDTHS = {1: 4.0, 2: 11.0, 3: 17.0, 4: 20.5, 5: 22.5, 6: 24.5, 7: 27.0}
BACK = {1: 0.0, 2: 2.0, 3: 6.5, 4: 13.0, 5: 20.0, 6: 29.0, 7: 39.0}
STEPS = 61
CONDYLE_RIGHT = np.array([0.0, -52.0, 0.0])
CONDYLE_LEFT = np.array([0.0, 52.0, 0.0])


def dome(radii, up, turn=0.0, rings=6, spokes=16):
    """Return vertices and faces of a closed dome whose top points up (+1) or down (-1)."""
    angle = 2.0 * np.pi * np.arange(spokes) / spokes
    ring = np.linspace(1.0, 0.1, rings)
    x = radii[0] * np.outer(ring, np.cos(angle))
    y = radii[1] * np.outer(ring, np.sin(angle))
    bumps = 0.15 * np.outer(ring, np.cos(4.0 * angle))
    z = up * radii[2] * (np.sqrt(1.0 - 0.9 * ring[:, None] ** 2) + bumps)
    cos, sin = np.cos(turn), np.sin(turn)
    grid = np.stack([x * cos - y * sin, x * sin + y * cos, z], axis=-1).reshape(-1, 3)
    vertices = np.concatenate([grid, [[0.0, 0.0, up * radii[2]]]])
    faces = []
    for r in range(rings - 1):
        for s in range(spokes):
            a, b = r * spokes + s, r * spokes + (s + 1) % spokes
            faces += [[a, b, b + spokes], [a, b + spokes, a + spokes]]
    top = (rings - 1) * spokes
    faces += [[top + s, top + (s + 1) % spokes, len(vertices) - 1] for s in range(spokes)]
    order = np.array(faces)
    return vertices, order if up > 0 else order[:, ::-1]


def arch(codes, up, front_x, narrower):
    """Return an arch of domes with the tooth of every triangle and a strip of gum."""
    meshes, numbers, teeth = [], [], []
    for code in codes:
        side = -1.0 if is_right(code) else 1.0
        middle = np.array(
            [front_x - BACK[place(code)], side * (HALF_WIDTHS[place(code)] - narrower), -33.0]
        )
        wide = 3.2 if place(code) < 6 else 4.8
        deep = 1.9 if place(code) < 3 else wide
        turn = side * np.radians({1: 80.0, 2: 60.0, 3: 40.0}.get(place(code), 5.0))
        vertices, faces = dome((wide, deep, 3.0), up, turn)
        meshes.append(mesh_of(vertices + middle - [0.0, 0.0, 3.0 * up], faces))
        numbers += [code] * len(faces)
        axis = np.array([0.0, 0.0, up])
        teeth.append(Tooth(code, middle - 3.0 * axis, axis, middle[None], {"tip": middle}))
    gum, faces = dome((3.0, 3.0, 0.5), up)
    meshes.append(mesh_of(gum + np.array([front_x - 45.0, 0.0, -33.0 - 4.0 * up]), faces))
    numbers += [NO_TOOTH] * len(faces)
    return Arch(joined(meshes), np.array(numbers), tuple(teeth))


def closures(n, upper, lower, point):
    """Return closures that all touch with the same pair at the given points."""
    zeros = np.zeros(n, dtype=np.int64)
    return Closures(
        opening_rad=np.zeros(n),
        status=zeros + MEETS,
        kind=zeros,
        point=point,
        normal=np.tile([0.0, 0.0, 1.0], (n, 1)),
        face_upper=zeros,
        face_lower=zeros,
        tooth_upper=zeros + upper,
        tooth_lower=zeros + lower,
        radius_mm=np.full(n, 85.0),
        on_rim=zeros,
    )


#: Direction (forward, left) of each example movement.
DIRECTIONS = {
    "protrusion": (1.0, 0.0),
    "right lateral": (0.35, -1.0),
    "left lateral": (0.35, 1.0),
    "lateroprotrusion -45": (0.8, -0.6),
    "retrusion": (-1.0, 0.0),
}


def sweep(name, azimuth, start, guiding, others, upper, lower, travel_end=6.0):
    """Return a sweep in which `guiding` touches throughout and `others` touch in given ranges."""
    travel = np.linspace(0.0, travel_end, STEPS)
    n = len(travel)
    gap = np.full((n, len(UPPERS), len(LOWERS)), np.inf)
    for j, code in enumerate(UPPERS):
        gap[:, j, j] = 0.004 * (j % 4) + (0.35 + 0.05 * place(code)) * travel
    for (high, low), (first, last) in {guiding: (0.0, 9.0), **others}.items():
        row = gap[:, UPPERS.index(high), LOWERS.index(low)]
        inside = (travel >= first) & (travel <= last)
        row[inside] = 0.001
        row[~inside] = 0.02 + 0.3 * np.minimum(abs(travel - first), abs(travel - last))[~inside]
    gap[gap > 3.0] = np.inf
    forward, left = DIRECTIONS[name]
    poses = identity_poses(n)
    poses[:, 0, 3], poses[:, 1, 3] = forward * travel, left * travel
    poses[:, 2, 3] = -0.6 * travel
    pose, rows, columns = np.nonzero(gap <= 0.02)
    tips = np.array([tooth.edge[0] for tooth in upper.teeth])
    centroid = tips[rows]
    centroid[:, :2] += np.outer(travel[pose], [forward, left]) * 0.6
    patches = Patches(
        pose=pose.astype(np.int64),
        tooth_upper=np.array(UPPERS)[rows],
        tooth_lower=np.array(LOWERS)[columns],
        centroid=centroid,
        normal=np.tile([0.0, 0.0, 1.0], (len(pose), 1)),
        area_mm2=np.full(len(pose), 0.2),
        least_gap_mm=gap[pose, rows, columns],
        arc_gap_mm=1.2 * gap[pose, rows, columns],
    )
    incisal = np.array([84.0, 0.0, -33.0]) + poses[:, :3, 3]
    advance = 0.8 * travel
    still = np.zeros(n)
    path = np.stack([0.8 * advance, still, -0.57 * advance], axis=1)
    condyles = CONDYLE_RIGHT + path, CONDYLE_LEFT + path
    return Sweep(
        excursion=Excursion(name, azimuth, start),
        travel_mm=travel,
        from_mi_mm=travel,
        crossover=travel > 3.4,
        edge_to_edge_mm=3.4,
        positions=JawPositions(
            advance_right_mm=advance,
            advance_left_mm=advance,
            shift_mm=still,
            condyle_right=condyles[0],
            condyle_left=condyles[1],
            pose_at_zero=poses,
            working_side=np.zeros(n, dtype=np.int64),
            laterotrusion_mm=still,
            medial_mm=still,
            forward_mm=still,
        ),
        opening_rad=0.01 * travel,
        poses=poses,
        guide=np.full(n, GUIDED_BY_TEETH),
        closures=closures(n, *guiding, tips[UPPERS.index(guiding[0])] + 0.6 * poses[:, :3, 3]),
        runner_up=closures(n, 16, 46, np.tile(tips[1], (n, 1))),
        runner_up_gap_mm=np.where(travel > 5.0, np.inf, 0.01 + 0.2 * travel),
        incisal_point=incisal,
        patches=patches,
        tolerance_mm=0.02,
        upper_codes=UPPERS,
        lower_codes=LOWERS,
        pair_gap_mm=gap,
        gap_limit_mm=3.0,
    )


def border(name, forward, left, bennett):
    """Return an invented border track."""
    along = np.linspace(0.0, 8.0, 41)
    incisal = np.array([84.0, 0.0, -35.0]) + np.outer(along, [forward, left, -0.4])
    right = np.outer(along * (left >= 0.0), [0.8, 0.1 * (left > 0.0), -0.57]) + CONDYLE_RIGHT
    left_ = np.outer(along * (left <= 0.0), [0.8, -0.1 * (left < 0.0), -0.57]) + CONDYLE_LEFT
    at = None if bennett is None else 5.0
    return BorderTrack(name, incisal, right, left_, along, bennett, at)


def readings(kind, pair):
    """Return a reading at every position and tolerance; thicker tolerances touch more."""
    pairs = tuple(zip(UPPERS, LOWERS, strict=True))
    return tuple(
        Reading(
            travel,
            int(10 * travel),
            tolerance,
            kind,
            pairs[: round(400 * tolerance)] if travel == 0.0 else (pair, (16, 46)),
        )
        for travel in (0.0, 0.5, 1.0, 2.0, 3.0)
        for tolerance in (0.008, 0.02, 0.04, 0.1)
    )


def findings():
    """Return one finding of each severity, gravest first, with hostile text in one of them."""
    return (
        Finding(
            "replacement tooth touches",
            "serious",
            "Replacement tooth 16 touches 46 in left lateral excursion and carries lateral load.",
            excursion="left lateral",
            travel_from_mm=0.5,
            travel_to_mm=2.5,
            tooth_upper=16,
            tooth_lower=46,
            place=(55.0, -24.5, -33.0),
            figures=(Figure("shortest distance", 0.001, "mm"), Figure("across", 0.62, "N/N")),
            threshold=Figure("margin", 0.2, "mm"),
            threshold_source="common practice",
            margin=Figure("short of the threshold", 0.199, "mm"),
            runner_up="the next to touch would be 17 on 47, 0.12 mm away along the closing arc",
        ),
        Finding(
            "nonworking interference",
            "attention",
            "Contact of 27 on 37 <b>lifts</b> the canine & the incisors.",
            excursion="right lateral",
            travel_from_mm=0.6,
            travel_to_mm=1.4,
            tooth_upper=27,
            tooth_lower=37,
            figures=(Figure("height", 0.034, "mm"), Figure("angle to the long axis", 31.0, "deg")),
            threshold=Figure("tolerance", 0.02, "mm"),
            threshold_source="common practice",
            margin=Figure("beyond the threshold", 0.014, "mm"),
            determined=False,
        ),
        Finding("near contact", "note", "14 on 44 stays within 0.5 mm of MI."),
    )


def checkup():
    """Return the whole example."""
    upper, lower = arch(UPPERS, -1, 84.0, 0.0), arch(LOWERS, 1, 81.0, 1.5)
    plan = (
        ("protrusion", 0.0, (11, 41), {(21, 31): (0.0, 5.0)}),
        ("right lateral", -90.0, (13, 43), {(27, 37): (0.6, 1.4)}),
        ("left lateral", 90.0, (23, 33), {(16, 46): (0.5, 2.5), (24, 34): (0.0, 0.8)}),
        ("lateroprotrusion -45", -45.0, (13, 43), {}),
    )
    sweeps = tuple(
        sweep(name, azimuth, "MI", guiding, others, upper, lower)
        for name, azimuth, guiding, others in plan
    )
    back = sweep("retrusion", 0.0, "MI", (14, 44), {}, upper, lower, travel_end=0.6)
    from_cr = sweep("protrusion", 0.0, "CR", (14, 44), {}, upper, lower)
    kinds = ("anterior", "canine", "canine with posterior teeth (group)", "canine")
    verdicts = tuple(
        Verdict(name, kind, name != "left lateral", readings(kind, guiding), f"{kind} guides.")
        for (name, _, guiding, _), kind in zip(plan, kinds, strict=True)
    )
    stops = tuple(
        Stop(high, low, tuple(upper.tooth(high).edge[0] + [0.4 * k, 0.0, 0.0]), 0.0005 * k, 0.3,
             (0.0, 0.0, 1.0))
        for high, low in zip(UPPERS, LOWERS, strict=True)
        if place(high) >= 4
        for k in range(3)
    )  # fmt: skip
    touch = ReplacementContact(
        "upper right base", 16, 46, "left lateral", True, 0.5, 2.5, 0.001, (55.0, -24.5, -33.0),
        0.03, 31.8, 0.62, 14.2, "serious", abutment=14,
    )  # fmt: skip
    near = ReplacementContact(
        "upper right base", 17, 47, "protrusion", False, 0.7, 1.1, 0.12, (45.0, -27.0, -33.0),
        0.0, 12.0, 0.21, 24.0, "attention",
    )  # fmt: skip
    return Checkup(
        upper=upper,
        lower=lower,
        mi=GuidanceCoordinates(0.6, 0.6, 0.0, 0.004),
        mi_pose=np.eye(4),
        incisal_point=np.array([84.0, 0.0, -33.0]),
        sweeps=(*sweeps, back, from_cr),
        borders=(
            border("protrusion", 1.0, 0.0, None),
            border("right lateral", 0.4, -1.0, 9.1),
            border("left lateral", 0.4, 1.0, 8.7),
        ),
        outlines=made_borders(),
        verdicts=verdicts,
        stops=stops,
        slide=CentricSlide(14, 44, (70.0, -20.5, -33.0), 0.62, 0.05, 0.31, 0.4, "slide"),
        replacement=(touch, near),
        findings=findings(),
    )
