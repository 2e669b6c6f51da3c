"""Small mouths with one tooth in the way of the others, as a case for which remedies are sought."""

from dataclasses import replace
from functools import cache
from types import SimpleNamespace

import numpy as np

from kinematics.case import Case
from kinematics.case_excursions import border_tracks
from kinematics.case_mi import MaximalIntercuspation
from kinematics.contact.sweep_settings import SweepSettings
from kinematics.contact.workers import Workers
from kinematics.examining import examined
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import opened, pose_at
from kinematics.mounting import Teeth, remounted
from kinematics.planning.contact_runs import judged
from kinematics.planning.remedies.clearance import Judge, casts_without, path_of
from kinematics.planning.remedies.settings import RemedySettings
from kinematics.remedies.search import remedies_for
from kinematics.remedies.subject import FlaggedTooth, Subject, wanted_in
from kinematics.tooth_codes import opponent
from tests.adjusted_mouth import GENTLE, fine_mouth
from tests.small_mouth import UPPERS, fall_of, middle, openings

#: Few poses; every excursion ends where the planes of the front teeth do.
SWEPT = SweepSettings(step_mm=0.5, travel_mm=3.0, gap_limit_mm=0.5)
#: As a stop may hold the jaw open in MI, mm.
HELD_MM = 0.002
FRONT = tuple(code for code in UPPERS if code % 10 <= 3)


def plain_case(**settings):
    """Return a case with MI in centric relation and few excursions."""
    return Case(
        maximal_intercuspation=MaximalIntercuspation(0.0, 0.0, 0.0),
        sweep=SWEPT,
        lateroprotrusion_azimuths_deg=(),
        remedies=RemedySettings(**settings),
    )


def subject_of(casts, threads=1, judge=True, **settings):
    """Return casts as what remedies are sought for; not judged, they have no findings."""
    case = plain_case(**settings)
    pose = pose_at(prepare(case.guidance), case.mi)
    teeth = Teeth(casts.upper, casts.lower, casts.pair, casts.incisal_point, pose)
    mounted, workers = remounted(teeth, case), Workers(threads)
    borders = border_tracks(mounted)
    found = SimpleNamespace(findings=(), sweeps=())
    if judge:
        found = examined(case, mounted, borders, workers, lambda _: None)
    return Subject(case, teeth, mounted, borders, found, workers, lambda _: None)


def quickly_flagged(subject, code):
    """Return a tooth of a subject that was not judged, and its excursions without the tooth."""
    rest = casts_without(subject.casts, code)
    sweeps = subject.followed(rest)
    subject = replace(subject, found=SimpleNamespace(findings=(), sweeps=sweeps))
    wanted = wanted_in(subject, code)
    path, _ = path_of(subject.occlusion, sweeps, code, wanted, HELD_MM)
    judge = Judge(subject.casts, code, path, subject.workers)
    return FlaggedTooth(subject, code, wanted, rest, path, judge, HELD_MM, ""), sweeps


def planted(seed):
    """Return a mouth in which one back tooth is in the way, which, and how steep it falls."""
    random = np.random.default_rng(seed)
    code = (17, 16, 15, 25, 26, 27)[seed % 6]
    falls = {code: tuple(random.uniform((0.3, 0.3), (0.6, 0.6)))}
    # It stands below its stop in MI, so that it must go by another amount every time.
    gap = {opponent(code): float(random.uniform(0.0, 0.15))}
    return fine_mouth(falls, gap), code, falls


def needed_mm(subject, sweeps, code, falls, margin_mm):
    """Return how far an upper back tooth must go up, by hand: the brute-force twin.

    The jaw stands on tips under tilted planes, in closed form; the ball below the tooth is a cloud
    of points, whose distance from its plane is a matter of one product.
    """
    casts, settings = subject.casts, subject.occlusion.settings
    lower = casts.lower
    ball = lower.mesh.vertices[np.unique(lower.mesh.faces[lower.tooth_of_face == opponent(code)])]
    rise = fall_of(code, falls)
    normal = np.array([-rise[0], -rise[1], 1.0])
    most = -np.inf
    for sweep in sweeps:
        if sweep.excursion.name == "retrusion":
            continue
        rows = judged(sweep, settings)
        positions = sweep.positions
        angles = openings(casts, GENTLE, {}, positions.pose_at_zero, FRONT).max(axis=1)
        poses = opened(positions, angles)[rows]
        places = np.einsum("nij,vj->nvi", poses[:, :3, :3], ball) + poses[:, None, :3, 3]
        # Clearance straight up is by the length of the normal more than that square to the plane.
        below = -((places - middle(code)) @ normal)
        share = np.clip(sweep.travel_mm[rows] / (2.0 * settings.near_mi_mm), 0.0, 1.0)
        wanted = margin_mm * share * np.linalg.norm(normal)
        most = max(most, float((wanted[:, None] - below).max()))
    return most


@cache
def sought(threads=1, **settings):
    """Return what was found for one tooth of a mouth."""
    casts, code, _ = planted(3)
    subject = subject_of(casts, threads, **settings)
    (found,) = remedies_for(subject, [code])
    return subject, found
