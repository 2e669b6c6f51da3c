"""Files of one rigid motion: four rows of four numbers, read with every fault named."""

import re
from pathlib import Path
from typing import Final

import numpy as np

from kinematics.checks import InputError, rigid_poses
from kinematics.conventions import Floats
from kinematics.scans.limits import ordinary_content

#: Room for sixteen numbers with all their digits and remarks. Chosen for this program.
LARGEST_BYTES: Final = 10_000
_WANTED: Final = (
    "wanted four lines of four numbers, parted by spaces or commas: a rotation and a way in mm, the"
    " last line 0 0 0 1"
)
_NUMBER: Final = re.compile(r"[-+]?(?:\d++(?:\.\d*+)?|\.\d++)(?:[eE][-+]?\d{1,3})?", re.ASCII)


def read_transform(path: Path) -> Floats:
    """Read a file that holds a rigid motion.

    Parameters
    ----------
    path : Path
        Text in UTF-8, at most `LARGEST_BYTES`: four lines of four numbers, parted by spaces, commas
        or semicolons; empty lines, and what follows a # sign, are passed over.

    Returns
    -------
    ndarray, shape (4, 4)
        The motion, mm.

    Raises
    ------
    InputError
        The file cannot be read, or holds anything else; told with line and what was found.
    """
    content = ordinary_content(
        path,
        LARGEST_BYTES,
        "give a text file with a transform",
        "a transform has sixteen numbers, was another file meant?",
    )
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(f"{path}: byte {error.start + 1} is not UTF-8 text; {_WANTED}") from error
    rows = [
        _numbers(words, f"{path}: line {line}")
        for line, said in enumerate(text.splitlines(), start=1)
        if (words := re.split(r"[\s,;]+", said.partition("#")[0].strip(" \t,;"))) != [""]
    ]
    if len(rows) != 4:
        raise InputError(f"{path}: has {len(rows)} lines of numbers; {_WANTED}")
    return rigid_poses(np.array(rows), str(path), (4, 4))


def _numbers(words: list[str], where: str) -> list[float]:
    """Return the four numbers of a line."""
    wrong = next((word for word in words if not _NUMBER.fullmatch(word)), None)
    if wrong is not None:
        shown = wrong if len(wrong) <= 60 else wrong[:57] + "..."
        raise InputError(f"{where}: found {shown!r}; {_WANTED}")
    if len(words) != 4:
        raise InputError(f"{where}: has {len(words)} numbers; {_WANTED}")
    return [float(word) for word in words]
