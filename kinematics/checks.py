"""Is this input usable? One place, and messages that say where, what was wanted and what came."""

from collections.abc import Iterable
from difflib import get_close_matches
from enum import Enum
from typing import Final, TypeVar

import numpy as np
from numpy.typing import ArrayLike

from kinematics.conventions import Floats

Contradiction = tuple[tuple[str, ...], str]
_Choice = TypeVar("_Choice", bound=Enum)

#: How far a pose may be from a rigid motion: poses come from files with few digits.
RIGID: Final = 1e-6
_LAST_ROW: Final = np.array([0.0, 0.0, 0.0, 1.0])


class InputError(ValueError):
    """Something the user gave cannot be used; the message says what, where and what to do."""


class Contradictions(ValueError):
    """Settings of one table that cannot be used together, all of them.

    Parameters
    ----------
    found : iterable of (keys, message)
        Of each, what it says, and the settings whose values brought it about, as key paths from
        their table ("right.pure_rotation"). A setting that can only be part of it by what was
        given, never by its default, need not be named.
    """

    def __init__(self, found: Iterable[Contradiction]) -> None:
        self.found = tuple(found)
        super().__init__("; ".join(message for _, message in self.found))


def refuse(found: Iterable[Contradiction]) -> None:
    """Raise `Contradictions` if there are any."""
    contradictions = tuple(found)
    if contradictions:
        raise Contradictions(contradictions)


class NotConverged(RuntimeError):
    """A solver stopped before it reached its tolerance.

    Parameters
    ----------
    message : str
        What was sought, and which input is likely out of range.
    residual : float
        What was left, in the unit named by the message.
    iterations : int
        Rounds taken.
    """

    def __init__(self, message: str, residual: float, iterations: int) -> None:
        super().__init__(f"{message} (left after {iterations} rounds: {residual:.3g})")
        self.residual = residual
        self.iterations = iterations


def finite_array(value: ArrayLike, name: str, shape: tuple[int | None, ...]) -> Floats:
    """Return `value` as a C-ordered float64 array of the wanted shape.

    Parameters
    ----------
    value : array_like
        What the caller gave.
    name : str
        What to call it in a message.
    shape : tuple of int or None
        Wanted shape; None stands for any length.

    Raises
    ------
    InputError
        Not numbers, wrong shape, or an entry that is not finite.
    """
    try:
        given = np.asarray(value)
        if given.dtype.kind in "cOSU":
            raise TypeError
        array: Floats = np.ascontiguousarray(given, dtype=np.float64)
    except (TypeError, ValueError) as error:
        raise InputError(f"{name}: wanted numbers, found {value!r}") from error
    if array.ndim != len(shape) or any(
        n is not None and n != m for n, m in zip(shape, array.shape, strict=True)
    ):
        one = len(shape) == array.ndim + 1 and shape[1:] == array.shape
        hint = f"; for a single one give [{name}]" if one else ""
        wanted = "(" + ", ".join("any" if n is None else str(n) for n in shape) + ")"
        raise InputError(f"{name}: wanted an array of shape {wanted}, found {array.shape}{hint}")
    if not np.isfinite(array).all():
        where = tuple(int(i) for i in np.argwhere(~np.isfinite(array))[0])
        raise InputError(f"{name}: entry {where} is {array[where]}; every entry must be finite")
    return array


def rigid_poses(value: ArrayLike, name: str, shape: tuple[int | None, ...]) -> Floats:
    """Return `value` as one pose (4, 4) or many (n, 4, 4), each a rotation and a translation.

    Raises
    ------
    InputError
        Wrong shape, an entry that is not finite, or a pose that scales, shears or mirrors.
    """
    poses = finite_array(value, name, shape)
    every = poses.reshape(-1, 4, 4)
    skew = _off_rotation(every[:, :3, :3])
    last = np.abs(every[:, 3] - _LAST_ROW)
    if not ((skew <= RIGID).all() and (last <= RIGID).all()):
        last = last.max(axis=1)
        n = int(np.argmin(np.maximum(skew, last) <= RIGID))
        raise InputError(
            f"{name if poses.ndim == 2 else f'{name}[{n}]'}: not a rigid motion; its rotation is "
            f"off by {skew[n]:.2g} and its last row by {last[n]:.2g} (accepted: {RIGID:g}); it "
            "must not scale or mirror"
        )
    return poses


def _off_rotation(turn: Floats) -> Floats:
    """Return how far (n,) matrices (n, 3, 3) are from rotations.

    Two rows must have length 1 and be square to each other, the third be their cross product.
    """
    rows = np.ascontiguousarray(turn.transpose(1, 2, 0))
    # The numbers of a single pose are computed with sooner than arrays of one.
    (x0, x1, x2), (y0, y1, y2), z = rows[..., 0].tolist() if len(turn) == 1 else rows
    with np.errstate(over="ignore", invalid="ignore"):
        off = np.array(
            [
                x1 * y2 - x2 * y1 - z[0],
                x2 * y0 - x0 * y2 - z[1],
                x0 * y1 - x1 * y0 - z[2],
                x0 * x0 + x1 * x1 + x2 * x2 - 1.0,
                y0 * y0 + y1 * y1 + y2 * y2 - 1.0,
                x0 * y0 + x1 * y1 + x2 * y2,
            ]
        )
        return np.asarray(np.abs(off.reshape(len(off), -1)).max(axis=0))


def in_range(value: float, name: str, least: float, greatest: float, unit: str) -> float:
    """Return `value` as a float if it lies between `least` and `greatest`, both included.

    Raises
    ------
    InputError
        No number, out of range or not finite; the message names the value, the range and the unit.
    """
    unit_text = f" {unit}" if unit else ""
    accepted = f"must be {least:g} to {greatest:g}{unit_text}"
    given = np.asarray(value)
    if given.ndim or given.dtype.kind not in "iuf":
        raise InputError(f"{name} = {value!r}: {accepted}, as a number")
    number = float(value)
    if not least <= number <= greatest:
        raise InputError(f"{name} = {number:g}{unit_text}: {accepted}")
    return number


def one_of(value: object, kind: type[_Choice], name: str) -> _Choice:
    """Return the member of an enumeration that `value` is or spells.

    Raises
    ------
    InputError
        It is none; the message names those there are.
    """
    try:
        return kind(value)
    except ValueError as error:
        known = ", ".join(repr(member.value) for member in kind)
        raise InputError(f"{name} = {value!r}: must be one of {known}") from error


def nearest_word(word: str, known: Iterable[str]) -> str:
    """Return a hint naming the known word nearest to `word`, or an empty text."""
    near = get_close_matches(word, list(known), n=1, cutoff=0.5)
    return f"; did you mean '{near[0]}'?" if near else ""
