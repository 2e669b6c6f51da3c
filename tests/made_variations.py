"""Cases over grids of settings, run in this process without the engine, once for all tests."""

from functools import cache

from kinematics.case_changes import changed_case
from kinematics.varying.grid import grid_over
from kinematics.varying.varied import varied
from tests.shipped_cases import coarse


def carried(plan, _round):
    """Carry out a plan of one job here, sample by sample."""
    (job,) = plan.jobs
    prepared = plan.prepare(job.subject)
    return [plan.sample(prepared, number) for number in range(job.count)]


@cache
def variation(name, over, changes=()):
    """Return a built-in case with coarse teeth over a grid, with some settings changed before."""
    case = changed_case(coarse(name), dict(changes)) if changes else coarse(name)
    return case, varied(case, grid_over(case, over), {}, carried)
