"""Cusp tips and edges of one arch, tooth by tooth, for a plane and a sphere to be laid through."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.conventions import Bools, Floats, Ints
from kinematics.tooth_codes import arch_place, is_posterior, is_upper, place

#: What the highest point of a front tooth's edge is called among tips.
EDGE: Final = "edge"
#: Third molars are told, but nothing is laid through them. Chosen for this program.
LAST_FITTED: Final = 7


@dataclass(frozen=True)
class StandingTooth:
    """What of a tooth a plane or a sphere may touch, hinge frame, the jaw in MI.

    Attributes
    ----------
    code : int
        ISO 3950 number.
    natural : bool
        Whether it is no replacement tooth and no pontic.
    crossed : bool
        Whether it stands in crossbite: beside the row, with other cusps supporting.
    long_axis : ndarray, shape (3,)
        Unit vector from the cervix towards the table or the edge.
    tips : mapping of str to ndarray, shape (3,)
        Every cusp tip; of an incisor the point of its edge that stands out farthest.
    buccal, supporting : tuple of str
        Which of them lie on the cheek's side, and which support in the usual bite: palatal ones of
        upper, buccal ones of lower teeth.
    """

    code: int
    natural: bool
    crossed: bool
    long_axis: Floats
    tips: Mapping[str, Floats]
    buccal: tuple[str, ...]
    supporting: tuple[str, ...]


@dataclass(frozen=True)
class Points:
    """Points of some teeth, those of a tooth together.

    Attributes
    ----------
    codes : ndarray, shape (t,)
        The teeth, in the order of the arch.
    points : ndarray, shape (n, 3)
        Their points, mm.
    owners : ndarray, shape (n,)
        Place of the tooth of every point in `codes`.
    """

    codes: tuple[int, ...]
    points: Floats
    owners: Ints

    @property
    def weights(self) -> Floats:
        """Weight (n,) of every point: one for each tooth, shared among its points."""
        return np.asarray(1.0 / np.bincount(self.owners)[self.owners])

    def of(self, teeth: Bools) -> Bools:
        """Return which points (n,) belong to some teeth (t,)."""
        return np.asarray(teeth[self.owners])

    def means(self, values: Floats) -> Floats:
        """Return the mean (t, ...) over the points of every tooth."""
        return np.stack(
            [values[self.owners == tooth].mean(axis=0) for tooth in range(len(self.codes))]
        )


def standing_teeth(
    arch: Arch, replaced: Collection[int], crossed: Collection[int] = ()
) -> tuple[StandingTooth, ...]:
    """Return the teeth of an arch in its order, from the patient's right to left.

    Parameters
    ----------
    arch : Arch
        Where it stands in MI, hinge frame.
    replaced : collection of int
        Replacement teeth and pontics.
    crossed : collection of int
        Teeth in crossbite.
    """
    teeth = sorted(arch.teeth, key=lambda tooth: arch_place(tooth.code))
    return tuple(
        _standing(tooth, tooth.code not in replaced, tooth.code in crossed) for tooth in teeth
    )


def _standing(tooth: Tooth, natural: bool, crossed: bool) -> StandingTooth:
    tips = {name: tooth.cusp_tips[name] for name in sorted(tooth.cusp_tips)}
    if not tips:
        out = tooth.edge[:, 2] * (-1.0 if is_upper(tooth.code) else 1.0)
        tips = {EDGE: tooth.edge[int(np.argmax(out))]}
    buccal = tuple(name for name in tips if "L" not in name)
    lingual = tuple(name for name in tips if "L" in name)
    supporting = lingual if is_upper(tooth.code) else buccal
    return StandingTooth(
        tooth.code,
        natural,
        crossed,
        tooth.long_axis,
        tips,
        buccal or tuple(tips),
        supporting or buccal,
    )


def taking_part(teeth: tuple[StandingTooth, ...]) -> tuple[StandingTooth, ...]:
    """Return the teeth that a surface is laid through: natural ones, or all if none is.

    Third molars and teeth in crossbite are left out.
    """
    inner = tuple(t for t in teeth if place(t.code) <= LAST_FITTED and not t.crossed)
    return tuple(tooth for tooth in inner if tooth.natural) or inner


def outer_points(teeth: tuple[StandingTooth, ...]) -> Points:
    """Return buccal cusp tips of back teeth, and edges and tips of front teeth."""
    return _points(teeth, {tooth.code: tooth.buccal for tooth in teeth})


def supporting_points(teeth: tuple[StandingTooth, ...]) -> Points:
    """Return the tips of the supporting cusps of back teeth."""
    back = tuple(tooth for tooth in teeth if is_posterior(tooth.code))
    return _points(back, {tooth.code: tooth.supporting for tooth in back})


def _points(teeth: tuple[StandingTooth, ...], names: Mapping[int, tuple[str, ...]]) -> Points:
    rows = [
        (number, tooth.tips[name])
        for number, tooth in enumerate(teeth)
        for name in names[tooth.code]
    ]
    return Points(
        tuple(tooth.code for tooth in teeth),
        np.array([point for _, point in rows]).reshape(-1, 3),
        np.array([number for number, _ in rows], dtype=np.int64),
    )
