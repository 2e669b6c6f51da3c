"""A small mouth with a base that carries 16 and 17, for tests of replacement teeth."""

from dataclasses import replace

import numpy as np

from kinematics.contact.contacts import Patches
from kinematics.guidance import excursions
from kinematics.planning.judging import DentureBase
from tests.small_mouth import middle

UP = np.array([0.0, 0.0, 1.0])
RIGHT, LEFT, AHEAD = (
    excursions.right_lateral(),
    excursions.left_lateral(),
    excursions.protrusion(),
)
STEEP = {16: (0.9, 1.6)}


def base(scheme="contacts only in MI", teeth=(16, 17), abutments=(15, 13)):
    """Return a distal-extension base of the upper right."""
    return DentureBase(name="upper right", teeth=teeth, abutments=abutments, scheme=scheme)


def only(contacts, tooth=16, excursion="right lateral"):
    """Return the one contact of a tooth in an excursion."""
    (found,) = [c for c in contacts if (c.tooth, c.excursion) == (tooth, excursion)]
    return found


def with_course(casts, sweep, course):
    """Return a sweep in which 16 keeps the given distances from 46, and 13 leads."""
    n = len(sweep.travel_mm)
    gaps = sweep.pair_gap_mm.copy()
    gaps[:, sweep.upper_codes.index(16), sweep.lower_codes.index(46)] = course
    first = np.full(n, 13), np.full(n, 43)
    patches = Patches(
        pose=np.arange(n),
        tooth_upper=np.full(n, 16),
        tooth_lower=np.full(n, 46),
        centroid=np.tile(middle(16), (n, 1)),
        normal=np.tile(UP, (n, 1)),
        area_mm2=np.full(n, 0.1),
        least_gap_mm=gaps[:, sweep.upper_codes.index(16), sweep.lower_codes.index(46)],
        arc_gap_mm=np.zeros(n),
    )
    closures = replace(sweep.closures, tooth_upper=first[0], tooth_lower=first[1])
    return replace(sweep, pair_gap_mm=gaps, closures=closures, patches=patches)


def with_holding(casts, sweep, course, held):
    """Return a sweep as `with_course` does, in which 16 holds all others open by `held`, mm."""
    sweep = with_course(casts, sweep, course)
    first = np.asarray(held) > 0.0
    closures = replace(
        sweep.closures,
        tooth_upper=np.where(first, 16, 13),
        tooth_lower=np.where(first, 46, 43),
        opening_rad=sweep.opening_rad + np.asarray(held) / 60.0,
        radius_mm=np.full(len(first), 60.0),
    )
    runner_up = replace(
        sweep.runner_up,
        tooth_upper=np.where(first, 13, sweep.runner_up.tooth_upper),
        tooth_lower=np.where(first, 43, sweep.runner_up.tooth_lower),
        opening_rad=np.where(first, sweep.opening_rad, sweep.runner_up.opening_rad),
    )
    return replace(sweep, closures=closures, runner_up=runner_up)
