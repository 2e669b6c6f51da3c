"""A case with its uncertain settings varied: what is run, and what the runs say together."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from kinematics.case import Case
from kinematics.case_file import case_toml
from kinematics.engine.bits import ground
from kinematics.engine.plan import Job, Plan
from kinematics.engine.rows import Table
from kinematics.studies.point import Prepared, Varied, columns, prepare, run_sample
from kinematics.uncertainty.design import Design, changes, design
from kinematics.uncertainty.factors import factors
from kinematics.uncertainty.found import Uncertainty
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


