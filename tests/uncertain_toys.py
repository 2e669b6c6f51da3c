"""Toy factors whose shares and indices are known in closed form."""

import numpy as np

from kinematics.uncertainty.design import design
from kinematics.uncertainty.found import Factor, UncertainSetting
from kinematics.uncertainty.settings import UncertaintySettings

#: How much each of four independent factors adds to the outcome, and their exact indices.
WEIGHTS = np.array([4.0, 2.0, 1.0, 0.5])
EXACT = WEIGHTS**2 / np.sum(WEIGHTS**2)


def setting(path, nominal=0.0, error=1.0, least=-1e3, greatest=1e3):
    """Return a setting of some standard error."""
    return UncertainSetting(path, nominal, error, least, greatest, "mm", "a toy")


def alone(path, **about):
    """Return a factor of one setting."""
    return Factor(path, (setting(path, **about),), ((1.0,),))


def tied(name, settings, correlation):
    """Return a factor of two settings."""
    return Factor(name, tuple(settings), ((1.0, correlation), (correlation, 1.0)))


def four():
    """Return four factors of one standard normal setting each."""
    return tuple(alone(f"x{number}") for number in range(4))


def made(factors, samples=256, seed=1):
    """Return the runs of a study."""
    return design(factors, UncertaintySettings(samples=samples, seed=seed))
