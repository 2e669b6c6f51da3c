"""Samples that studies are timed with: real ones, and stand-ins that take no time of their own."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

import numpy as np

from kinematics.engine.plan import ColumnKind, Job, Plan, Row
from kinematics.studies import point
from kinematics.studies.point import Varied
from kinematics.studies.uncertain import Studied, study_plan
from kinematics.uncertainty.settings import UncertaintySettings
from scenes.builtin_cases import builtin_case
from scenes.case_places import DEFAULT_CASE

#: Independent samples of that study; see `UncertaintySettings`.
_INDEPENDENT: Final = 1024
#: Standard deviation of the inclinations that are drawn, degrees.
_SPREAD_DEG: Final = 4.0
_DRAWN: Final = (
    "guidance.right.condylar_inclination_deg",
    "guidance.left.condylar_inclination_deg",
)


@dataclass(frozen=True)
class StandIn:
    """Stands for a case whose samples are all the same row."""

    row: Row


def real_plan() -> Plan:
    """Return the study that `cuspway study` makes of the built-in case.

    Its settings are uncertain by published spreads; of its samples, thousands, some are timed.
    """
    case = builtin_case(DEFAULT_CASE)
    asked = replace(case, uncertainty=UncertaintySettings(samples=_INDEPENDENT))
    return study_plan({"case": Studied(asked)})


def drawn_plan(samples: int) -> Plan:
    """Return a study of the built-in case whose samples have no setting in common.

    Both condylar inclinations are drawn anew for each.
    """
    case = builtin_case(DEFAULT_CASE)
    drawn = 35.0 + _SPREAD_DEG * np.random.default_rng(0).standard_normal((samples, len(_DRAWN)))
    changes = tuple(dict(zip(_DRAWN, map(float, row), strict=True)) for row in drawn)
    job = Job("case", Varied(case, changes), samples, point.columns(case))
    return Plan({"case": "built-in"}, (job,), point.prepare, point.run_sample)


def stand_in_plan(row: Row, columns: Mapping[str, ColumnKind], jobs: int, samples: int) -> Plan:
    """Return a study of as many samples that take no time."""
    made = tuple(Job(f"case-{n}", StandIn(row), samples, columns) for n in range(jobs))
    return Plan({"case": "stand-in"}, made, _as_it_is, _row_of)


def _as_it_is(subject: StandIn) -> StandIn:
    return subject


def _row_of(prepared: StandIn, _number: int) -> Row:
    return prepared.row


#: The plan that this process has, and what it prepared.
_HELD: list[Any] = []


def hold(plan: Plan) -> None:
    """Prepare the only job of a plan in this process."""
    _HELD[:] = [plan, plan.prepare(plan.jobs[0].subject)]


def held_sample(number: int) -> Row:
    """Run a sample of what this process holds."""
    plan, prepared = _HELD
    row: Row = plan.sample(prepared, number)
    return row
