"""Built-in cases with denture bases, coarse, made ready for loads, once a process."""

from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from kinematics.case import Case
from kinematics.case_excursions import followed_excursions
from kinematics.case_judged import occlusion_of
from kinematics.contact.contacts import Patches
from kinematics.contact.pose_rows import picked
from kinematics.contact.sweep import Sweep
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import left_lateral, protrusion, right_lateral
from kinematics.mounting import remounted, teeth_for
from kinematics.planning.base_loads import sweep_loads
from kinematics.planning.framework import Framework, frameworks
from kinematics.planning.joined_teeth import Bridge, Splint
from kinematics.planning.judging import DentureBase
from kinematics.planning.load_contacts import LoadPoses, load_poses
from kinematics.planning.occlusion import Occlusion
from tests.shipped_cases import coarse


@dataclass(frozen=True)
class Ready:
    """A case, its judged casts, its frameworks, and protrusion, right and left lateral."""

    case: Case
    occlusion: Occlusion
    frames: tuple[Framework, ...]
    sweeps: tuple[Sweep, ...]


def with_two_bases():
    """Return the natural dentition with two mirrored distal-extension bases, joined."""
    case = coarse("natural_dentition")
    bases = [
        {
            "name": side,
            "teeth": (10 * quadrant + 6, 10 * quadrant + 7),
            "abutments": (10 * quadrant + 5,),
            "connector": "palatal strap",
            "rests": ({"tooth": 10 * quadrant + 5, "place": "mesial"},),
        }
        for side, quadrant in (("right", 1), ("left", 2))
    ]
    return replace(case, denture_bases=tuple(DentureBase(**base) for base in bases))


def with_a_bridge():
    """Return the natural dentition with a lower bridge over 45, and a splint beside it."""
    case = coarse("natural_dentition")
    bridge = Bridge(name="lower right", pontics=(45,), abutments=(44, 46))
    return replace(case, bridges=(bridge,), splints=(Splint(name="front", teeth=(31, 32, 41)),))


@cache
def ready(name):
    """Return a built-in case made ready, or `with_two_bases`, or `with_a_bridge`."""
    made = {"two bases": with_two_bases, "bridge": with_a_bridge}
    case = made[name]() if name in made else coarse(name)
    casts = remounted(teeth_for(case, lambda _: None, 1), case)
    occlusion = occlusion_of(case, casts, Workers())
    asked = (protrusion(), right_lateral(), left_lateral())
    sweeps = tuple(followed_excursions(case, casts, asked, Workers()))
    return Ready(case, occlusion, frameworks(occlusion), sweeps)


def some_poses(here, number, travels):
    """Return what touches at some travels of one excursion."""
    sweep = here.sweeps[number]
    rows = [int(np.argmin(np.abs(sweep.travel_mm - travel))) for travel in travels]
    wanted = np.zeros(len(sweep.travel_mm), dtype=np.bool_)
    wanted[rows] = True
    return load_poses(here.occlusion, sweep, wanted)


def planted(poses, contacts):
    """Return the first of some poses in which only given contacts touch.

    `contacts` are tuples of upper tooth, lower tooth, place and normal.
    """
    uppers, lowers, places, normals = zip(*contacts, strict=True)
    k = len(contacts)
    near = Patches(
        pose=np.zeros(k, np.int64),
        tooth_upper=np.array(uppers),
        tooth_lower=np.array(lowers),
        centroid=np.array(places, dtype=np.float64),
        normal=np.array(normals, dtype=np.float64),
        area_mm2=np.full(k, 0.1),
        least_gap_mm=np.zeros(k),
        arc_gap_mm=np.zeros(k),
    )
    first = np.arange(len(poses.rows)) == 0
    return LoadPoses(poses.rows[:1], poses.poses[:1], picked(poses.positions, first), near)


def loads_of(here, number, poses, settings=None, ranged=False):
    """Return who carries what in some poses of an excursion."""
    sweep = here.sweeps[number]
    return sweep_loads(
        here.occlusion, settings or here.case.load, here.frames, sweep, poses, ranged
    )
