"""Built-in cases run with coarse teeth, and what tests of them ask again and again."""

from dataclasses import replace
from functools import cache

from kinematics import checkup
from scenes.builtin_cases import builtin_case


def coarse(name):
    """Return a built-in case with 15,000 triangles in each arch."""
    case = builtin_case(name)
    return replace(case, dentition=replace(case.dentition, triangles_per_arch=15_000))


def run_case(case):
    """Run a case and tell nobody how far it has come."""
    return checkup.run(case, progress=lambda _: None)


@cache
def shipped(name):
    """Run a built-in case with coarse teeth, once a process."""
    return run_case(coarse(name))


def with_teeth(name, **changes):
    """Run a built-in case with other settings of its dentition."""
    case = coarse(name)
    return run_case(replace(case, dentition=replace(case.dentition, **changes)))


def kind_in(result, name):
    """Return the guidance kind of an excursion."""
    return next(v.kind for v in result.verdicts if v.excursion == name)
