"""A case with its uncertain settings varied: what is run, and what the runs say together."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from kinematics.case import Case
from kinematics.case_file import case_toml
from kinematics.engine.bits import ground
from kinematics.engine.hands import Hands
from kinematics.engine.plan import Job, Plan
from kinematics.engine.progress import Progress
from kinematics.engine.rows import Table
from kinematics.engine.run import run
from kinematics.engine.store import MemoryStore
from kinematics.studies.point import (
    FINDINGS,
    REFUSED,
    Prepared,
    Varied,
    columns,
    prepare,
    run_sample,
)
from kinematics.studies.quantities import quantities
from kinematics.uncertainty.design import Design, changes, design
from kinematics.uncertainty.factors import factors
from kinematics.uncertainty.found import Uncertainty
from kinematics.uncertainty.gather import QuantityInRuns, StudyRows, gather
from kinematics.uncertainty.settings import UncertaintySettings

#: Number of the run with all settings as they are; samples follow it.
AS_SET: Final = 0


@dataclass(frozen=True)
class Studied:
    """One case of a study.

    Attributes
    ----------
    case : Case
        As set.
    as_set_only : bool
        Whether it is run with its settings as they are, and no other way.
    """

    case: Case
    as_set_only: bool = False

    @property
    def design(self) -> Design:
        """All runs beside the one as set; none where that is run only."""
        varied = () if self.as_set_only else factors(self.case.studied)
        return design(varied, self.case.uncertainty or UncertaintySettings())


def prepare_studied(subject: Studied) -> Prepared:
    """Build what all runs of a case share, and say what is changed in each.

    Raises
    ------
    InputError, NotConverged
        Settings of the case that cannot be used together.
    """
    of = subject.design
    varied = tuple(changes(of, number) for number in range(of.runs))
    return prepare(Varied(subject.case, ({}, *varied)))


def study_plan(cases: Mapping[str, Studied]) -> Plan:
    """Return what is to be run to study cases.

    Parameters
    ----------
    cases : mapping of str to Studied
        By names that may name files.
    """
    about = {f"case {name}": case_toml(subject.case) for name, subject in cases.items()}
    jobs = (
        Job(name, subject, 1 + subject.design.runs, columns(subject.case))
        for name, subject in cases.items()
    )
    return Plan(ground() | about, tuple(jobs), prepare_studied, run_sample)


def uncertainty_of(subject: Studied, table: Table) -> Uncertainty:
    """Return what all runs of a case say together.

    Parameters
    ----------
    subject : Studied
        The case.
    table : Table
        All its runs, the first with its settings as they are, in which it was not refused.
    """
    case, findings = subject.case, table.text_lists(FINDINGS)
    numbers = ((item, table.floats(item.name)) for item in quantities(case) if item.kind == "float")
    rows = StudyRows(
        refused=table.texts(REFUSED)[1:],
        findings_as_set=findings[AS_SET],
        findings=findings[1:],
        quantities=tuple(
            QuantityInRuns(item.name, item.unit, float(values[AS_SET]), values[1:])
            for item, values in numbers
        ),
    )
    return gather(subject.design, case.uncertainty or UncertaintySettings(), rows)


def studied_at_once(
    case: Case, hands: Hands, progress: Callable[[Progress], None]
) -> Uncertainty | None:
    """Study one case, keeping nothing; None where nothing of it is uncertain.

    Parameters
    ----------
    case : Case
        One that can be run.
    hands : Hands
        Who runs the samples.
    progress : callable
        Gets how far it is; what it raises stops the work.
    """
    subject = Studied(case)
    plan, store = study_plan({"case": subject}), MemoryStore()
    (job,) = plan.jobs
    if not subject.design.runs:
        return None
    run(plan, store, hands, progress)
    return uncertainty_of(subject, store.table(job))
