"""Pictures that are kept of the window: PNG files with names that tell what is seen."""

import re
from itertools import count
from pathlib import Path
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from kinematics.checks import InputError
from kinematics.live import PoseAt
from scenes.case_places import CASE_FILE, DEFAULT_CASE, case_path, is_builtin
from scenes.output_folder import new_file_in_one_piece
from scenes.view_arguments import PICTURES

_NOT_IN_NAMES: Final = re.compile(r"[^\w.+-]+")


def case_name(given: str | None) -> str:
    """Return what files call a case that a user named."""
    if given is None or is_builtin(given):
        return given or DEFAULT_CASE
    path = case_path(given).resolve()
    return path.parent.name if path.name == CASE_FILE else path.stem


def picture_name(case: str, at: PoseAt) -> str:
    """Return how files with pictures of a pose begin, without their number and ending."""
    start = "" if at.excursion.start == "MI" else f"_from_{at.excursion.start}"
    name = f"{case}_{at.excursion.name}{start}_{at.travel_mm:.1f}mm"
    return _NOT_IN_NAMES.sub("-", name)


def refuse_unless_folder(folder: Path) -> None:
    """Check that the folder for pictures is there.

    Raises
    ------
    InputError
        It is not.
    """
    if not folder.is_dir():
        found = "is a file" if folder.exists() else "there is no such folder"
        raise InputError(f"{PICTURES} {folder}: {found}; give a folder that is there")


def keep_picture(folder: Path, name: str, pixels: NDArray[np.uint8]) -> Path:
    """Write a picture beside those that are there already, and return its path.

    Raises
    ------
    InputError
        It cannot be written.
    """
    names = (f"{name}.png" if number == 1 else f"{name}_{number}.png" for number in count(1))
    path = next(path for path in map(folder.joinpath, names) if not path.exists())
    with new_file_in_one_piece(path, PICTURES) as made:
        Image.fromarray(pixels).save(made)
    return path
