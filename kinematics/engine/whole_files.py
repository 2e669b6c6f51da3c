"""Files that are there whole or not at all, also when the program is killed while it writes."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Final

from kinematics.checks import InputError

#: Ends the name of a file that is still being written.
UNFINISHED: Final = ".unfinished"


def write_whole(path: Path, write: Callable[[Path], None], at_rest: bool = False) -> None:
    """Write a file under another name, then rename it.

    Parameters
    ----------
    path : Path
        Its name in the end; what stood there is replaced.
    write : callable
        Writes to the path that it gets.
    at_rest : bool
        Wait until the content lies on the disk, so that it survives a power cut as well.

    Raises
    ------
    InputError
        It cannot be written, as on a full disk; what was there is as before.
    """
    unfinished = path.with_name(path.name + UNFINISHED)
    try:
        write(unfinished)
        if at_rest:
            with unfinished.open("r+b") as file:
                os.fsync(file.fileno())
        unfinished.replace(path)
    except OSError as error:
        reason = error.strerror or error
        raise InputError(
            f"{path}: cannot be written ({reason}); what was written before is kept. Make room or "
            "give rights there, and run the same study again: it goes on from there"
        ) from error
    finally:
        unfinished.unlink(missing_ok=True)
