"""What compiles the kernels of loads before they are needed."""

from typing import Final

import numpy as np

from kinematics.contact.warm_up import Kernels
from kinematics.load.equilibrium import equilibria
from kinematics.load.links import SKULL, Law, Model


def _smallest_rest() -> None:
    """Let one tooth rest on one spring."""
    model = Model()
    tooth = model.tooth_on(SKULL)
    point, up = np.zeros(3), np.array([0.0, 0.0, 1.0])
    model.link(tooth, SKULL, point, up, Law(1.0))
    equilibria([model.links()], model.load(tooth, point, up)[None])


#: For `contact.warm_up`.
LOAD_KERNELS: Final = Kernels("loads", _smallest_rest)
