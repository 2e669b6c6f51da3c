"""Which triangle of a scan belongs to which tooth: from labels of its vertices or triangles."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import connected_components

from kinematics.casts.casts import NO_TOOTH
from kinematics.checks import InputError
from kinematics.conventions import Bools, Ints
from kinematics.tooth_codes import DECIDUOUS, PERMANENT, is_upper

Side = Literal["upper", "lower"]

#: Pieces of a tooth with fewer triangles, or with a smaller share of them, are strays. Chosen for
#: this program.
STRAY_TRIANGLES: Final = 20
STRAY_SHARE: Final = 0.05
#: Fewer teeth tell too little of an arch to stand it against another. Chosen for this program.
FEWEST_TEETH: Final = 4
_SIDES: Final = ("upper", "lower")


@dataclass(frozen=True)
class CleanLabels:
    """Labels of triangles without strays.

    Attributes
    ----------
    tooth_of_face : ndarray, shape (m,)
        ISO 3950 number of every triangle, `NO_TOOTH` where it belongs to none.
    moved : dict of int to int
        How many triangles of a label went to the label around them.
    """

    tooth_of_face: Ints
    moved: dict[int, int]


def tooth_numbers(values: ArrayLike, name: str) -> Ints:
    """Return labels as whole numbers, each a tooth of ISO 3950 or 0.

    Parameters
    ----------
    values : array_like, shape (n,)
        Whole numbers; floats without a fraction are accepted.
    name : str
        What to call them in messages.

    Raises
    ------
    InputError
        Not one row of numbers, an entry that is no whole number, or numbers that are no tooth;
        the message lists them with how many there are.
    """
    try:
        given = np.asarray(values)
    except ValueError as error:
        raise InputError(
            f"{name}: wanted one row of tooth numbers, found rows of unequal length"
        ) from error
    if given.ndim != 1 or given.dtype.kind not in "iuf":
        raise InputError(
            f"{name}: wanted one row of tooth numbers, found an array of shape {given.shape} of "
            f"{given.dtype}"
        )
    with np.errstate(invalid="ignore"):
        whole = np.isfinite(given) & (given == np.round(given))
    if not whole.all():
        at = int(np.argmin(whole))
        raise InputError(
            f"{name}: entry {at} is {given[at]}; labels are whole numbers: a tooth of ISO 3950, "
            "or 0 for no tooth"
        )
    known = np.isin(given, (NO_TOOTH, *PERMANENT, *DECIDUOUS))
    if not known.all():
        found, count = np.unique(given[~known], return_counts=True)
        listed = ", ".join(f"{n:g} ({k} times)" for n, k in zip(found[:8], count[:8], strict=True))
        more = f" and {len(found) - 8} others" if len(found) > 8 else ""
        raise InputError(
            f"{name}: no tooth numbers of ISO 3950: {listed}{more}; accepted are 11-18, 21-28, "
            "31-38, 41-48 and 0 for no tooth; numbers counted otherwise must be translated first"
        )
    return np.asarray(given, dtype=np.int64)


def face_labels(vertex_labels: ArrayLike, faces: Ints) -> Ints:
    """Return the label of every triangle from the labels of its corners.

    Parameters
    ----------
    vertex_labels : array_like, shape (n,)
        ISO 3950 number of every vertex, 0 where it belongs to no tooth.
    faces : ndarray, shape (m, 3)
        Corner numbers.

    Returns
    -------
    ndarray, shape (m,)
        The label of at least two corners; `NO_TOOTH` where all three differ.

    Raises
    ------
    InputError
        Labels are no tooth numbers, or a triangle has a corner without a label.
    """
    labels = tooth_numbers(vertex_labels, "labels")
    if len(faces) and (faces.min() < 0 or faces.max() >= len(labels)):
        raise InputError(
            f"labels: there are {len(labels)}, but triangles have corners {faces.min()} to "
            f"{faces.max()}; every vertex needs a label, in the order of the file"
        )
    a, b, c = labels[faces].reshape(-1, 3).T
    return np.where((a == b) | (a == c), a, np.where(b == c, b, NO_TOOTH))


def without_strays(tooth_of_face: ArrayLike, faces: Ints) -> CleanLabels:
    """Give small separate pieces of a tooth to what surrounds them.

    A piece is small if it has under `STRAY_TRIANGLES` triangles or under `STRAY_SHARE` of its
    tooth's; the largest piece of a tooth always stays. What belongs to no tooth is a stray only if
    it has under `STRAY_TRIANGLES`. A stray with nothing around it belongs to no tooth.

    Parameters
    ----------
    tooth_of_face : array_like, shape (m,)
        Label of every triangle.
    faces : ndarray, shape (m, 3)
        Corner numbers; neighbours share two of them.

    Raises
    ------
    InputError
        Labels are no tooth numbers or too few, or most of a tooth lies in strays.
    """
    labels = tooth_numbers(tooth_of_face, "labels")
    if len(labels) != len(faces):
        raise InputError(f"labels: {len(labels)} for {len(faces)} triangles; wanted one for each")
    pairs = _neighbours(faces)
    same = pairs[labels[pairs[:, 0]] == labels[pairs[:, 1]]]
    graph = csr_matrix((np.ones(len(same)), (same[:, 0], same[:, 1])), shape=(len(faces),) * 2)
    piece = connected_components(graph, directed=False)[1].astype(np.int64)
    stray = _strays(labels, piece)
    _check_scattered(labels, stray)
    around = np.where(stray, -1, labels)
    both = np.concatenate([pairs, pairs[:, ::-1]])
    while True:
        border = both[(around[both[:, 0]] < 0) & (around[both[:, 1]] >= 0)]
        if not len(border):
            break
        reached, beside = piece[border[:, 0]], around[border[:, 1]]
        for number in np.unique(reached):
            found, count = np.unique(beside[reached == number], return_counts=True)
            around[(piece == number) & stray] = found[np.argmax(count)]
    around[around < 0] = NO_TOOTH
    codes, count = np.unique(labels[around != labels], return_counts=True)
    return CleanLabels(around, {int(n): int(k) for n, k in zip(codes, count, strict=True)})


def _neighbours(faces: Ints) -> Ints:
    """Return pairs (n, 2) of triangles that share an edge."""
    edges = np.sort(faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    order = np.lexsort((edges[:, 1], edges[:, 0]))
    edges, owner = edges[order], order // 3
    same = (edges[1:] == edges[:-1]).all(axis=1)
    return np.stack([owner[:-1][same], owner[1:][same]], axis=1)


def _strays(labels: Ints, piece: Ints) -> Bools:
    """Tell which triangles lie in small pieces of their label."""
    size = np.bincount(piece)
    label_of = np.zeros(len(size), dtype=np.int64)
    label_of[piece] = labels
    stray = np.zeros(len(size), dtype=bool)
    for code in np.unique(labels):
        own = np.flatnonzero(label_of == code)
        share = 0.0 if code == NO_TOOTH else STRAY_SHARE * size[own].sum()
        stray[own] = (size[own] < STRAY_TRIANGLES) | (size[own] < share)
        stray[own[np.argmax(size[own])]] = False
    return np.asarray(stray[piece])


def _check_scattered(labels: Ints, stray: Bools) -> None:
    for code in np.unique(labels[labels != NO_TOOTH]):
        share = float(stray[labels == code].mean())
        if share > 0.5:
            raise InputError(
                f"labels of tooth {code}: {100.0 * share:.0f} % of its triangles lie in scattered "
                "pieces; the labels belong to another mesh or order of vertices, or triangles do "
                "not share their corners"
            )


def check_arch(labels: ArrayLike, side: Side, name: str) -> None:
    """Demand that labels are permanent teeth of one arch, and enough of them.

    Parameters
    ----------
    labels : array_like, shape (n,)
        Of vertices or triangles.
    side : {"upper", "lower"}
        Which arch it is.
    name : str
        What to call it in messages.

    Raises
    ------
    InputError
        Labels that are no tooth numbers, deciduous teeth, teeth of the other arch, or fewer than
        `FEWEST_TEETH`.
    """
    if side not in _SIDES:
        raise InputError(f"{name}: side = {side!r}; must be 'upper' or 'lower'")
    codes = [int(code) for code in np.unique(tooth_numbers(labels, name)) if code != NO_TOOTH]
    deciduous = [code for code in codes if code in DECIDUOUS]
    if deciduous:
        raise InputError(
            f"{name}: has deciduous teeth {_listed(deciduous)}; only permanent teeth can be "
            "judged; label them 0 to leave them out"
        )
    other = [code for code in codes if is_upper(code) != (side == "upper")]
    if other:
        swapped = len(other) == len(codes)
        raise InputError(
            f"{name}: is to be the {side} arch but has teeth {_listed(other)} of the other one; "
            + (
                "the two files are probably swapped"
                if swapped
                else f"give each arch a mesh of its own, and label these 0 in the {side} one"
            )
        )
    if len(codes) < FEWEST_TEETH:
        raise InputError(
            f"{name}: has {len(codes)} labelled teeth ({_listed(codes) or 'none'}); at least "
            f"{FEWEST_TEETH} are needed"
        )


def _listed(codes: Iterable[int]) -> str:
    return ", ".join(map(str, codes))
