"""Built-in cases run with coarse teeth, and what tests of them ask again and again."""

from dataclasses import replace
from functools import cache

from kinematics import checkup
from kinematics.case_excursions import excursions_of, followed_excursions
from kinematics.case_judged import judged, occlusion_of
from kinematics.contact.workers import Workers
from kinematics.mounting import mounted_casts
from scenes.builtin_cases import builtin_case


def coarse(name):
    """Return a built-in case with 15,000 triangles in each arch."""
    case = builtin_case(name)
    return replace(case, dentition=replace(case.dentition, triangles_per_arch=15_000))


def run_case(case, planning=False):
    """Run a case, without its planning unless that is asked for, and tell nobody how far it is."""
    return checkup.run(case, progress=lambda _: None, planning=planning)


def judged_alone(case):
    """Return the occlusion of a case, its sweeps, and what they are judged to be, no loads."""
    casts, workers = mounted_casts(case), Workers()
    sweeps = followed_excursions(case, casts, excursions_of(case), workers)
    return occlusion_of(case, casts, workers), sweeps, judged(case, casts, sweeps, workers)


@cache
def shipped(name):
    """Run a built-in case with coarse teeth, once a process, without its planning."""
    return run_case(coarse(name))


@cache
def shipped_in_full(name):
    """Run a built-in case with coarse teeth, once a process, with all that a report tells."""
    return run_case(coarse(name), planning=True)


def with_teeth(name, **changes):
    """Run a built-in case with other settings of its dentition."""
    case = coarse(name)
    return run_case(replace(case, dentition=replace(case.dentition, **changes)))


def kind_in(result, name):
    """Return the guidance kind of an excursion."""
    return next(v.kind for v in result.verdicts if v.excursion == name)
