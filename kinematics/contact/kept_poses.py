"""What was found in poses that come again: jaws on settings that differ in little pass by them."""

from collections import OrderedDict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from math import prod
from typing import Any, Final, TypeVar

import numpy as np
from numpy.typing import NDArray

from kinematics.conventions import Floats, Ints

#: An array with a row a pose.
Rows = TypeVar("Rows", bound=NDArray[Any])

#: So many questions are kept, the last ones asked: those of some runs.
QUESTIONS: Final = 400
#: So many poses of each; then all but the last that were asked for are forgotten.
POSES: Final = 1024


@dataclass
class _Answers:
    """What was found to one question: whom it was about, and a row for every pose."""

    about: object
    rows: NDArray[Any]
    row_of: dict[bytes, int]


@dataclass
class KeptPoses:
    """Answers to the same questions in the same poses, bit for bit what would be found again."""

    _answers: OrderedDict[tuple[object, ...], _Answers] = field(default_factory=OrderedDict)

    def rows(
        self,
        about: object,
        question: tuple[object, ...],
        asked: Sequence[Floats],
        find: Callable[[Ints], Rows],
    ) -> Rows:
        """Return an array with a row for each of some poses, of which only new ones are looked at.

        Parameters
        ----------
        about : object
            What was prepared for the search: the very same, if answers are to be the same.
        question : tuple
            What is asked besides.
        asked : sequence of ndarray, shape (n, ...)
            All of each pose that its answer depends on.
        find : callable
            Gets the numbers of some poses, and returns their rows.
        """
        poses = _bytes_of_poses(asked)
        key = (id(about), *question)
        known = self._answers.pop(key, None)
        new = {} if known is None else _numbers(poses, known.row_of)
        if known is None or len(known.row_of) + len(new) > POSES:
            new = _numbers(poses, {})
            known = _Answers(about, find(np.array([*new.values()], dtype=np.int64)), {})
        elif new:
            found = find(np.array([*new.values()], dtype=np.int64))
            known.rows = np.concatenate([known.rows, found])
        first = len(known.row_of)
        known.row_of.update({pose: first + i for i, pose in enumerate(new)})
        self._answers[key] = known
        if len(self._answers) > QUESTIONS:
            self._answers.popitem(last=False)
        wanted: Any = known.rows[np.array([*map(known.row_of.get, poses)], dtype=np.int64)]
        rows: Rows = wanted
        return rows


def _bytes_of_poses(asked: Sequence[Floats]) -> list[bytes]:
    """Return the bytes of each row of some arrays, one after the other."""
    count, widths = len(asked[0]), [prod(each.shape[1:]) for each in asked]
    flat = [each.reshape(count, width) for each, width in zip(asked, widths, strict=True)]
    data, width = np.concatenate(flat, axis=1).tobytes(), 8 * sum(widths)
    return [data[at : at + width] for at in range(0, count * width, width)]


def _numbers(poses: list[bytes], known: Mapping[bytes, int]) -> dict[bytes, int]:
    """Return those poses that are not known, each once, with a number that it has."""
    return {pose: i for i, pose in enumerate(poses) if pose not in known}
