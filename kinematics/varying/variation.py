"""A case over a grid of its settings: every run, what flips, and where."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from kinematics.conventions import Bools, Floats
from kinematics.engine.plan import ColumnKind, Row
from kinematics.planning.findings import SEVERITIES, Severity
from kinematics.studies.point import REFUSED
from kinematics.varying.flips import Crossing
from kinematics.varying.grid import Grid, Place
from kinematics.varying.partition import UNKNOWN, Partition
from kinematics.varying.told import Feature, Told, gravity


@dataclass(frozen=True)
class Flip:
    """Features that flip together: alike in every run.

    Attributes
    ----------
    features : tuple of Feature
        Tooth pairs of one kind of finding or contact; or one text.
    severity : Severity or None
        The gravest it has in any run; None for what is no finding.
    as_set : str
        What is said of it with the settings as they are; empty: it does not hold.
    crossings : tuple of Crossing
        Where it flips; of a finding also where it gets more or less grave.
    """

    features: tuple[Feature, ...]
    severity: Severity | None
    as_set: str
    crossings: tuple[Crossing, ...]

    @property
    def first(self) -> Feature:
        """The first of its features."""
        return self.features[0]

    @property
    def said(self) -> tuple[str, ...]:
        """All that is said of it, in the order of its crossings; of a finding how grave it is."""
        said = (text for c in self.crossings for text in (c.before, c.after))
        return tuple(dict.fromkeys(said))


@dataclass(frozen=True)
class Variation:
    """What was found over a grid.

    Attributes
    ----------
    grid : Grid
        The grid.
    columns : mapping of str to ColumnKind
        What every run has.
    runs : mapping of Place to Row
        Every run: points of the grid, and places between them where something flips.
    told : mapping of Place to (Told or None)
        What each says of all features; None where its settings make no case.
    as_set : Row
        The case with the settings as they are.
    flips : tuple of Flip
        All that flips: findings gravest first, contacts, texts.
    """

    grid: Grid
    columns: Mapping[str, ColumnKind]
    runs: Mapping[Place, Row]
    told: Mapping[Place, Told | None]
    as_set: Row
    flips: tuple[Flip, ...]

    @property
    def refused(self) -> dict[str, int]:
        """How many grid points make no case, by what is said of them."""
        said = [str(self.runs[place][REFUSED]) for place in self.grid.points]
        return {text: said.count(text) for text in dict.fromkeys(said) if text}

    def numbers(self, column: str) -> Floats:
        """Return a quantity at all grid points, in their shape; NaN where there is none."""
        values = [
            np.nan if self.told[place] is None else self.runs[place][column]
            for place in self.grid.points
        ]
        return np.array(values, dtype=np.float64).reshape(self.grid.shape)

    def says(self, feature: Feature, *values: str) -> Bools:
        """Tell at all grid points, in their shape, whether one of these is said of a feature."""
        found = [(self.told[place] or {}).get(feature, "") in values for place in self.grid.points]
        return np.array(found, dtype=np.bool_).reshape(self.grid.shape)

    def lines(self, flip: Flip, *values: str) -> tuple[Floats, ...]:
        """Return the lines, two axes, around where one of these is said; places in steps."""
        return Partition(
            self.grid,
            {
                place: UNKNOWN if told is None else int(told.get(flip.first, "") in values)
                for place, told in self.told.items()
            },
        ).lines(1)


def flips_of(
    crossed: Mapping[Feature, tuple[Crossing, ...]],
    told: Mapping[Place, Told | None],
    as_set: Told,
) -> tuple[Flip, ...]:
    """Return what flips, features that are alike in every run together.

    Parameters
    ----------
    crossed : mapping of Feature to tuple of Crossing
        Where every feature flips.
    told : mapping of Place to (Told or None)
        Every run.
    as_set : Told
        The case as it is.
    """
    alike: dict[tuple[object, ...], list[Feature]] = {}
    for feature, crossings in crossed.items():
        always = tuple((told[place] or {}).get(feature, "") for place in sorted(told))
        key = feature.kind, feature.name, feature.excursion, always, crossings
        alike.setdefault(key, []).append(feature)
    found = [
        Flip(
            tuple(features),
            _gravest(features[0], told.values()),
            as_set.get(features[0], ""),
            crossed[features[0]],
        )
        for features in alike.values()
    ]
    order = ("finding", "contact", "text")
    return tuple(
        sorted(found, key=lambda f: (order.index(f.first.kind), -_gravity(f.severity), f.first))
    )


def _gravest(feature: Feature, told: Iterable[Told | None]) -> Severity | None:
    """Return the gravest severity that a finding has in any run; None for what is no finding."""
    said = {(one or {}).get(feature, "") for one in told}
    return max((s for s in SEVERITIES if s in said), key=SEVERITIES.index, default=None)


def _gravity(severity: Severity | None) -> int:
    return gravity(severity or "")
