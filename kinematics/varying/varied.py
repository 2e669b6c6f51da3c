"""A case run over a grid of its settings, and between its points where something flips."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Final

from kinematics.case import Case
from kinematics.engine.plan import Job, Plan, Row
from kinematics.planning.findings import SEVERITIES, Severity
from kinematics.studies.point import REFUSED, Prepared, Varied, columns, prepare, run_sample
from kinematics.varying.flips import crossings, followed
from kinematics.varying.grid import Grid, Place
from kinematics.varying.told import Feature, Told, severities, told
from kinematics.varying.variation import Variation, flips_of

#: Carries out a plan of one job and returns its rows, in the order of their numbers.
CarryOut = Callable[[Plan], Sequence[Row]]
#: Names of the first job, and of the others with their number.
_GRID: Final = "grid"
_BETWEEN: Final = "between-{}"


class Standing:
    """Prepares a case once in every process, whatever is changed in the runs of each plan."""

    def __init__(self) -> None:
        self._prepared: Prepared | None = None

    def __call__(self, subject: Varied) -> Prepared:
        """Return what all runs of the case share; see `prepare`."""
        if self._prepared is None:
            self._prepared = prepare(subject)
        return replace(self._prepared, subject=subject)

    def __reduce__(self) -> tuple[type["Standing"], tuple[()]]:
        """Go to other processes without the teeth: there they are built anew."""
        return Standing, ()


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
    standing = Standing()
    runs: dict[Place, Row] = {}
    rounds: list[int] = []

    def rows_of(name: str, changes: Sequence[Mapping[str, float]]) -> Sequence[Row]:
        job = Job(name, Varied(case, tuple(changes)), len(changes), kinds)
        return carry_out(Plan(about, (job,), standing, run_sample))

    def read(places: Sequence[Place], rows: Sequence[Row]) -> list[Told | None]:
        runs.update(zip(places, rows, strict=True))
        return [None if row[REFUSED] else told(row, kinds) for row in rows]

    def ask(places: Sequence[Place]) -> list[Told | None]:
        rounds.append(len(places))
        changes = [grid.changes(place) for place in places]
        return read(places, rows_of(_BETWEEN.format(len(rounds)), changes))

    points = grid.points
    *rows, as_set = rows_of(_GRID, [*(grid.changes(place) for place in points), {}])
    first = dict(zip(points, read(points, rows), strict=True))
    known = followed(grid, first, ask)
    flips = flips_of(crossings(grid, known), known, _gravest(runs.values()), told(as_set, kinds))
    return Variation(grid, kinds, runs, known, as_set, flips)


def _gravest(rows: Iterable[Row]) -> dict[Feature, Severity]:
    """Return the gravest severity that every finding has in some runs."""
    found: dict[Feature, Severity] = {}
    for row in rows:
        for feature, severity in severities(row):
            found[feature] = max(found.get(feature, severity), severity, key=SEVERITIES.index)
    return found
