"""Values of uncertain settings: normal about what is set, cut off where nothing is accepted.

Errors that hang together do so as normal errors; each is then cut off on its own, so that every
setting keeps its distribution (a normal copula).
"""

from collections.abc import Sequence
from typing import Final

import numpy as np
from scipy.special import ndtr, ndtri

from kinematics.conventions import Floats
from kinematics.uncertainty.found import Factor, UncertainSetting

#: What is left of a variance, as a part of it, when errors hang together entirely: rounding.
_NOTHING: Final = 1e-9


def mixing(factor: Factor) -> Floats:
    """Return the lower triangle that makes independent normal errors hang together.

    Parameters
    ----------
    factor : Factor
        Its correlations; some may follow from others, as where one is 1.

    Returns
    -------
    ndarray, shape (n, n)
        Cholesky factor of the correlations, one after the other in their order; a row that follows
        from those before has 0 on the diagonal.
    """
    wanted = np.array(factor.correlations)
    count = len(wanted)
    lower = np.zeros((count, count))
    for row in range(count):
        for column in range(row):
            if lower[column, column] > 0.0:
                before = float(np.sum(lower[row, :column] * lower[column, :column]))
                lower[row, column] = (wanted[row, column] - before) / lower[column, column]
        rest = 1.0 - float(np.sum(lower[row, :row] ** 2))
        lower[row, row] = np.sqrt(rest) if rest > _NOTHING else 0.0
        lower[row] /= np.sqrt(np.sum(lower[row] ** 2))
    return lower


def mixed(lower: Floats, independent: Floats) -> Floats:
    """Return normal errors (n, settings) that hang together, of independent ones (n, settings)."""
    # in one order, so that the same errors come out wherever this runs
    return np.asarray((independent[:, None, :] * lower[None, :, :]).sum(axis=2))


def cut_off(settings: Sequence[UncertainSetting], errors: Floats) -> Floats:
    """Return values of settings, of normal errors in standard errors.

    Parameters
    ----------
    settings : sequence of UncertainSetting
        One a column.
    errors : ndarray, shape (n, settings)
        Normal, of mean 0 and standard deviation 1.

    Returns
    -------
    ndarray, shape (n, settings)
        Of the same rank in the normal distribution that is cut off at the limits of each setting.
    """
    values = np.empty_like(errors)
    for column, of in enumerate(settings):
        below, above = bounds(of)
        off = errors[:, column]
        # from the nearer end, where shares keep their digits
        from_below = ndtri(ndtr(below) + ndtr(off) * (ndtr(above) - ndtr(below)))
        from_above = ndtri(ndtr(-above) + ndtr(-off) * (ndtr(-below) - ndtr(-above)))
        inside = of.nominal + of.standard_error * np.where(off < 0.0, from_below, -from_above)
        values[:, column] = np.clip(inside, of.least, of.greatest)  # rounding alone
    return values


def bounds(of: UncertainSetting) -> tuple[float, float]:
    """Return the limits of a setting, in standard errors from where it is set."""
    return (
        (of.least - of.nominal) / of.standard_error,
        (of.greatest - of.nominal) / of.standard_error,
    )
