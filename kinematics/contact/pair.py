"""Two casts prepared for many poses."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.geometry.trees import MOST_GROUPS, Tree, tree_over


@dataclass(frozen=True)
class Pair:
    """Trees over both arches; shared by closure, contacts and envelope, never changed.

    Attributes
    ----------
    upper, lower : Tree
        The upper in the hinge frame, the lower in lower coordinates.
    """

    upper: Tree
    lower: Tree


@dataclass(frozen=True)
class LeaveOut:
    """Teeth and tooth pairs that take no part, by ISO 3950 numbers (0: no tooth)."""

    upper: frozenset[int] = field(default_factory=frozenset)
    lower: frozenset[int] = field(default_factory=frozenset)
    pairs: frozenset[tuple[int, int]] = field(default_factory=frozenset)


@dataclass(frozen=True)
class Masks:
    """A LeaveOut in the bits of one pair's trees."""

    keep_upper: np.uint64
    keep_lower: np.uint64
    allow: NDArray[np.uint64]


def prepare(upper: Arch, lower: Arch, threads: int = 1) -> Pair:
    """Build the trees of both arches.

    Parameters
    ----------
    upper, lower : Arch
        The upper in the hinge frame; the lower in lower coordinates, its hinge axis the y axis.
    threads : int
        With more than one, both trees are built side by side.
    """
    if threads == 1:
        return Pair(upper_tree(upper), lower_tree(lower))
    with ThreadPoolExecutor(2) as pool:
        above, below = pool.submit(upper_tree, upper), pool.submit(lower_tree, lower)
        return Pair(above.result(), below.result())


def upper_tree(upper: Arch) -> Tree:
    """Build the tree of an upper arch alone, in the hinge frame."""
    return tree_over(upper.mesh, upper.tooth_of_face, facing=-1.0, turns=False)


def lower_tree(lower: Arch) -> Tree:
    """Build the tree of a lower arch alone, in lower coordinates."""
    return tree_over(lower.mesh, lower.tooth_of_face, facing=1.0, turns=True)


def tooth_index(groups: tuple[int, ...], code: int, side: str) -> int:
    """Return the index of a tooth among the groups of a tree.

    Raises
    ------
    InputError
        The arch has no such tooth; the message lists those it has.
    """
    if code not in groups:
        known = ", ".join(map(str, sorted(groups)))
        raise InputError(f"{side} tooth {code}: the arch has {known}")
    return groups.index(code)


def masks(pair: Pair, leave_out: LeaveOut | None) -> Masks:
    """Turn tooth numbers into bits.

    Raises
    ------
    InputError
        A tooth that the arch does not have.
    """
    full = (1 << MOST_GROUPS) - 1
    keep_upper, keep_lower = full, full
    allow = [full] * MOST_GROUPS
    if leave_out is not None:
        for code in leave_out.upper:
            keep_upper &= ~(1 << tooth_index(pair.upper.groups, code, "upper"))
        for code in leave_out.lower:
            keep_lower &= ~(1 << tooth_index(pair.lower.groups, code, "lower"))
        for code_upper, code_lower in leave_out.pairs:
            row = tooth_index(pair.upper.groups, code_upper, "upper")
            allow[row] &= ~(1 << tooth_index(pair.lower.groups, code_lower, "lower"))
    return Masks(np.uint64(keep_upper), np.uint64(keep_lower), np.array(allow, dtype=np.uint64))
