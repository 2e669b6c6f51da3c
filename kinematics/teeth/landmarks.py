"""Landmarks of a standing crown: centre, axis, edge, cusp tips."""

from typing import Final

import numpy as np

from kinematics.casts.casts import Tooth
from kinematics.conventions import Floats
from kinematics.teeth.anterior_crown import edge_points
from kinematics.teeth.standing_tooth import StandingTooth

#: Points along the edge of a front tooth.
EDGE_POINTS: Final = 17


def landmarks(tooth: StandingTooth, code: int, scale: Floats) -> Tooth:
    """Return the landmarks of a tooth.

    Parameters
    ----------
    tooth : StandingTooth
        In the left half of the hinge frame.
    code : int
        ISO 3950 number.
    scale : ndarray, shape (3,)
        Factors on the coordinates: size, and -1 in y for a right tooth.
    """
    axis = tooth.place.axes[:, 2] * np.sign(scale)

    def placed(local: Floats) -> Floats:
        return np.asarray(tooth.place.points(np.atleast_2d(local)) * scale)

    if tooth.crown is not None:
        form = tooth.crown.form
        centre = np.array([0.0, 0.0, np.mean(form.contour) * form.size[2]])
        tips = dict(zip(form.cusp_names, placed(tooth.tips()), strict=True))
        buccal = [c.name for c in sorted(form.cusps, key=lambda c: -c.at[0]) if c.at[1] > 0]
        edge = np.array([tips[name] for name in buccal])
        return Tooth(code, placed(centre)[0], axis, edge, tips, form.supporting)
    if tooth.sheets is None:
        raise ValueError(f"tooth {code} has neither a table nor an edge")
    form_front = tooth.sheets.form
    up = np.array([0.5])
    labial, lingual, _ = tooth.sheets.profiles(up)
    centre = np.array([0.0, 0.5 * float(labial[0] + lingual[0]), 0.5 * form_front.size[2]])
    edge = placed(edge_points(tooth.sheets, EDGE_POINTS))
    tips = {}
    if form_front.is_canine:
        facing = edge[:, 2] if tooth.is_upper else -edge[:, 2]
        tips["tip"] = edge[int(np.argmin(facing))]
    return Tooth(code, placed(centre)[0], axis, edge, tips)
