"""Which values uncertain settings have in which run: quasi-random samples, and what ranks factors.

Samples come in pairs: the first of a pair and the second are independent of each other. For every
factor there is one run more with the values of the first but for that factor, which has those of
the second (Saltelli et al., Computer Physics Communications 2010;181:259-270). Runs are numbered
pair by pair, so that a longer study begins with the runs of a shorter one.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.special import ndtri
from scipy.stats import qmc

from kinematics.conventions import Floats, Ints
from kinematics.uncertainty.found import Factor
from kinematics.uncertainty.margins import cut_off, mixed, mixing
from kinematics.uncertainty.settings import UncertaintySettings
from kinematics.uncertainty.variable_settings import CURVATURE, RADIUS

#: Digits of the sequence, and half of its last one: keeps samples off 0 and 1.
_BITS: Final = 30
_HALF: Final = 0.5**31


@dataclass(frozen=True)
class Design:
    """All runs of a study.

    Attributes
    ----------
    factors : tuple of Factor
        What is varied.
    paths : tuple of str
        Of all settings, factor by factor.
    errors : ndarray, shape (runs, settings)
        Normal errors in standard errors, those of a factor hanging together.
    values : ndarray, shape (runs, settings)
        What the settings are.
    """

    factors: tuple[Factor, ...]
    paths: tuple[str, ...]
    errors: Floats
    values: Floats

    @property
    def runs(self) -> int:
        """How many runs there are."""
        return len(self.values)

    @property
    def table(self) -> Ints:
        """Numbers of runs, shape (pairs, 2 + factors): first, second, then factor by factor."""
        return np.arange(self.runs).reshape(-1, 2 + len(self.factors))

    @property
    def independent(self) -> Ints:
        """Numbers of the runs that are independent samples, shape (2 pairs,)."""
        return self.table[:, :2].ravel()

    def columns(self, factor: int) -> slice:
        """Return which columns belong to a factor."""
        start = sum(len(of.settings) for of in self.factors[:factor])
        return slice(start, start + len(self.factors[factor].settings))


def design(factors: Sequence[Factor], settings: UncertaintySettings) -> Design:
    """Return the runs of a study.

    Parameters
    ----------
    factors : sequence of Factor
        What is varied; without any there is nothing to run.
    settings : UncertaintySettings
        How many independent samples, and their seed.

    Returns
    -------
    Design
        Of samples / 2 x (2 + factors) runs. The same factors and seed give the same bits, and more
        samples begin with the fewer.
    """
    factors = tuple(factors)
    paths = tuple(one.path for of in factors for one in of.settings)
    if not factors:
        return Design((), (), np.zeros((0, 0)), np.zeros((0, 0)))
    pairs, count = settings.samples // 2, len(paths)
    sequence = qmc.Sobol(2 * count, scramble=True, bits=_BITS, rng=settings.seed)
    shares = sequence.random(pairs) + _HALF
    both = ndtri(shares).reshape(pairs, 2, count)
    independent = np.repeat(both[:, :1], 2 + len(factors), axis=1)
    independent[:, 1] = both[:, 1]
    errors = np.empty((pairs * (2 + len(factors)), count))
    values = np.empty_like(errors)
    made = Design(factors, paths, errors, values)
    for number, of in enumerate(factors):
        mine = made.columns(number)
        independent[:, 2 + number, mine] = both[:, 1, mine]
        errors[:, mine] = mixed(mixing(of), independent[:, :, mine].reshape(len(errors), -1))
        values[:, mine] = cut_off(of.settings, errors[:, mine])
    for array in (errors, values):
        array.setflags(write=False)
    return made


def changes(of: Design, number: int) -> dict[str, float]:
    """Return what the settings are in one run, by their paths; a curvature as its radius."""
    found: dict[str, float] = {}
    for path, value in zip(of.paths, of.values[number].tolist(), strict=True):
        group, _, key = path.rpartition(".")
        found |= {f"{group}.{RADIUS}": 1.0 / value} if key == CURVATURE else {path: value}
    return found
