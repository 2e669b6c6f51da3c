"""Only one process writes into a folder: a lock that the system opens when its holder ends."""

import os
import socket
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Final

from kinematics.checks import InputError

LOCK_FILE: Final = "writer.lock"

if sys.platform == "win32":
    import msvcrt

    def _lock(file: IO[str]) -> None:
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _lock(file: IO[str]) -> None:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


@contextmanager
def sole_writer(folder: Path) -> Iterator[None]:
    """Be the only one that writes into a folder, for as long as the block lasts.

    The file stays, and says who wrote last; only who holds it open holds the lock. So what a dead
    process left behind locks nothing.

    Raises
    ------
    InputError
        Another process writes, named as far as it is known; or no file can be made there.
    """
    path = folder / LOCK_FILE
    try:
        file = path.open("a+", encoding="utf-8")
    except OSError as error:
        raise InputError(
            f"{path}: cannot be written ({error.strerror}); give another folder"
        ) from error
    with file:
        try:
            _lock(file)
        except OSError as error:
            file.seek(0)
            holder = file.read().strip() or "another process"
            raise InputError(
                f"{folder}: {holder} is running this study; wait until it is done, or stop it, and "
                "run it again: what is finished by then is not run twice"
            ) from error
        file.truncate(0)
        file.write(f"process {os.getpid()} on {socket.gethostname()}\n")
        file.flush()
        yield
