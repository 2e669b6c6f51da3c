"""Which cusps a premolar or molar has, and which of the tops found on a crown is which cusp."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.optimize import linear_sum_assignment

from kinematics.conventions import Floats
from kinematics.tooth_codes import is_upper, place

#: A top is no cusp if it lies farther than this from where the cusp usually stands, in fractions
#: of the size of the crown. Chosen for this program: half the way between neighbouring cusps of a
#: molar, and a little more for teeth that have turned.
FARTHEST: Final = 0.26

#: Where the cusps of each crown type stand, by the number of the tooth: mesial (+) and buccal (+)
#: of the middle of the crown, in fractions of its size. The commonest forms of textbooks of dental
#: anatomy, common practice; the places are rounded and chosen for this program.
_UPPER: Final = {
    4: {"B": (0.0, 0.27), "L": (0.05, -0.27)},
    5: {"B": (0.0, 0.27), "L": (0.05, -0.27)},
    6: {"MB": (0.24, 0.29), "DB": (-0.2, 0.27), "ML": (0.14, -0.28), "DL": (-0.3, -0.27)},
    7: {"MB": (0.23, 0.29), "DB": (-0.21, 0.27), "ML": (0.12, -0.24), "DL": (-0.28, -0.25)},
    8: {"MB": (0.22, 0.28), "DB": (-0.2, 0.26), "ML": (0.07, -0.23)},
}
_LOWER: Final = {
    4: {"B": (0.03, 0.1), "L": (0.02, -0.33)},
    5: {"B": (0.03, 0.17), "ML": (0.17, -0.27), "DL": (-0.24, -0.28)},
    6: {
        "MB": (0.25, 0.25),
        "DB": (-0.09, 0.26),
        "D": (-0.38, 0.12),
        "ML": (0.22, -0.3),
        "DL": (-0.23, -0.3),
    },
    7: {"MB": (0.24, 0.25), "DB": (-0.2, 0.22), "ML": (0.22, -0.3), "DL": (-0.23, -0.3)},
    8: {"MB": (0.23, 0.24), "DB": (-0.19, 0.22), "ML": (0.2, -0.3), "DL": (-0.22, -0.28)},
}


@dataclass(frozen=True)
class Cusps:
    """The cusps of one crown type.

    Attributes
    ----------
    names : tuple of str
        As "MB".
    places : ndarray, shape (k, 2)
        Where they usually stand, mesial and buccal of the middle, fractions of the crown's size.
    buccal : tuple of str
        Names of those on the buccal side, from mesial to distal.
    supporting : tuple of str
        Lingual cusps of upper teeth, buccal cusps of lower teeth (common practice); a crossbite,
        which swaps them, is not looked for here.
    """

    names: tuple[str, ...]
    places: Floats
    buccal: tuple[str, ...]
    supporting: tuple[str, ...]


def cusps_of(code: int) -> Cusps:
    """Return the cusps of a permanent premolar or molar by its ISO 3950 number."""
    table = (_UPPER if is_upper(code) else _LOWER)[place(code)]
    buccal = [name for name in table if table[name][1] > 0.0]
    lingual = tuple(name for name in table if table[name][1] < 0.0)
    mesial_first = tuple(sorted(buccal, key=lambda name: -table[name][0]))
    return Cusps(
        tuple(table),
        np.array(list(table.values())),
        mesial_first,
        lingual if is_upper(code) else mesial_first,
    )


def named_tops(cusps: Cusps, places: Floats) -> dict[str, int]:
    """Tell which top is which cusp, so that all together lie nearest to their usual places.

    Parameters
    ----------
    cusps : Cusps
        Those of the crown type.
    places : ndarray, shape (n, 2)
        Of the tops, mesial and buccal of the middle, fractions of the crown's size.

    Returns
    -------
    dict of str to int
        Number of the top by name of the cusp; cusps without a top are left out.
    """
    away = np.linalg.norm(cusps.places[:, None] - places[None], axis=2)
    # A cusp without a top costs as much as the farthest top, so it never takes one that fits
    # another cusp.
    spare = np.full((len(cusps.names), len(cusps.names)), FARTHEST)
    rows, columns = linear_sum_assignment(np.hstack([np.minimum(away, 9.0), spare]))
    return {
        cusps.names[row]: int(column)
        for row, column in zip(rows, columns, strict=True)
        if column < len(places)
    }
