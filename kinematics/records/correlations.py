"""How errors of settings that were found together hang together."""

import numpy as np

from kinematics.records.best_fit import BestFit
from kinematics.records.sought import IMMEDIATE, PROGRESSIVE, Sought


def correlations(sought: Sought, fit: BestFit) -> tuple[tuple[float, ...], ...]:
    """Return correlations of the errors of all that follows, in the order of the estimates."""
    rows = [
        4 * side + quantity
        for side in range(2)
        for quantity in range(4)
        if sought.free[side, quantity] and (side, quantity) not in sought.reasons
    ]
    covariance = fit.covariance.reshape(8, 8)[np.ix_(rows, rows)]
    errors = np.sqrt(np.diagonal(covariance))
    found = np.clip(covariance / np.outer(errors, errors), -1.0, 1.0)
    np.fill_diagonal(found, 1.0)
    return tuple(map(tuple, found.tolist()))


def shift_correlation(sought: Sought, fit: BestFit, side: int) -> float:
    """Return that of the errors of progressive and immediate shift; 0 unless both follow."""
    both = [(side, PROGRESSIVE), (side, IMMEDIATE)]
    if any(not sought.free[one] or one in sought.reasons for one in both):
        return 0.0
    errors = fit.standard_errors
    return float(
        fit.covariance[side, PROGRESSIVE, side, IMMEDIATE] / (errors[both[0]] * errors[both[1]])
    )
