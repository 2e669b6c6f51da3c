"""A case run over a grid of its settings, and between its points where something flips."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final
from uuid import uuid4

from kinematics.case import Case
from kinematics.engine.plan import Job, Plan, Row
from kinematics.studies.point import REFUSED, Prepared, Varied, columns, prepare, run_sample
from kinematics.varying.flips import crossings, followed, most_followed
from kinematics.varying.grid import Grid, Place
from kinematics.varying.told import Told, told
from kinematics.varying.variation import Variation, flips_of


@dataclass(frozen=True)
class Round:
    """One of the plans that are carried out one after another.

    Attributes
    ----------
    number : int
        0: the grid; from 1 on: places between its points.
    most_after : int
        How many more runs may follow in later rounds, at most.
    """

    number: int
    most_after: int


#: Carries out a plan of one job and returns its rows, in the order of their numbers.
CarryOut = Callable[[Plan, Round], Sequence[Row]]
#: Names of the first job, and of the others with their number.
_GRID: Final = "grid"
_BETWEEN: Final = "between-{}"


class Standing:
    """Prepares a case once in every process, whatever is changed in the runs of each plan.

    Parameters
    ----------
    name : str
        Of the case, among all that a process may ever get.
    """

    def __init__(self, name: str) -> None:
        self._name = name
        self._prepared: Prepared | None = None

    def __call__(self, subject: Varied) -> Prepared:
        """Return what all runs of the case share; see `prepare`."""
        if self._prepared is None:
            self._prepared = prepare(subject)
        return replace(self._prepared, subject=subject)

    def __reduce__(self) -> tuple[Callable[[str], "Standing"], tuple[str]]:
        """Go to other processes without the teeth: there they are built anew, once."""
        return _standing_here, (self._name,)


@lru_cache(maxsize=1)
def _standing_here(name: str) -> Standing:
    """Return what prepares a case in this process; the same for all plans of the case."""
    return Standing(name)


def varied(case: Case, grid: Grid, about: Mapping[str, str], carry_out: CarryOut) -> Variation:
    """Run a case over a grid, and between its points until every flip is known to a part of a step.

    Parameters
    ----------
    case : Case
        As set.
    grid : Grid
        Its settings that are varied; see `grid_over`.
    about : mapping of str to str
        What results depend on; see `Plan`.
    carry_out : callable
        Carries out each plan: that of the grid, then one a round of further runs. What it raises
        ends the work.

    Returns
    -------
    Variation
        The same for whatever carries plans out.
    """
    kinds = columns(case)
    standing = Standing(uuid4().hex)
    runs: dict[Place, Row] = {}
    rounds: list[int] = []

    def rows_of(changes: Sequence[Mapping[str, float]], now: Round) -> Sequence[Row]:
        name = _BETWEEN.format(now.number) if now.number else _GRID
        job = Job(name, Varied(case, tuple(changes)), len(changes), kinds)
        return carry_out(Plan(about, (job,), standing, run_sample), now)

    def read(places: Sequence[Place], rows: Sequence[Row]) -> list[Told | None]:
        runs.update(zip(places, rows, strict=True))
        return [None if row[REFUSED] else told(row, kinds) for row in rows]

    def ask(places: Sequence[Place], most_after: int) -> list[Told | None]:
        rounds.append(len(places))
        changes = [grid.changes(place) for place in places]
        return read(places, rows_of(changes, Round(len(rounds), most_after)))

    own = grid.case_point
    points = [place for place in grid.points if place != own]
    changes = [*(grid.changes(place) for place in points), {}]
    rows = rows_of(changes, Round(0, most_followed(grid)))
    as_set = rows[-1]
    places = points if own is None else [*points, own]
    first = dict(zip(places, read(places, rows[: len(places)]), strict=True))
    known = followed(grid, first, ask)
    flips = flips_of(crossings(grid, known), known, told(as_set, kinds))
    return Variation(grid, kinds, runs, known, as_set, flips)
