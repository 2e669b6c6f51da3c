"""What is to be run: jobs of many numbered samples, and the functions that run them."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

#: What a column holds; a float may be missing (NaN), a text empty, texts none.
ColumnKind = Literal["int", "float", "text", "texts"]
#: One finished sample: its columns by name.
Row = Mapping[str, int | float | str | Sequence[str]]


@dataclass(frozen=True)
class Job:
    """Samples that share what is costly to prepare, such as the teeth of one case.

    Attributes
    ----------
    name : str
        Letters, digits, "-" and "_"; names its files. No two jobs of a plan have the same.
    subject : object
        What `Plan.prepare` gets; goes to other processes.
    count : int
        How many samples there are, numbered from 0.
    columns : mapping of str to ColumnKind
        What every sample has.
    """

    name: str
    subject: Any
    count: int
    columns: Mapping[str, ColumnKind]


@dataclass(frozen=True)
class Plan:
    """All that is to be run.

    Attributes
    ----------
    about : mapping of str to str
        Everything that results depend on, each under a name that a user knows: what stands in a
        case, seed, versions. A study that is taken up again must agree with it.
    jobs : tuple of Job
        In the order in which they are run.
    prepare : callable
        Gets the subject of a job, returns what its samples share. A function of a module, so that
        other processes find it.
    sample : callable
        Gets what was prepared and the number of a sample, returns its row. The same bits wherever
        it runs.
    """

    about: Mapping[str, str]
    jobs: tuple[Job, ...]
    prepare: Callable[[Any], Any]
    sample: Callable[[Any, int], Row]
