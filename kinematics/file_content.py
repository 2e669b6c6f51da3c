"""The content of a file that a user named, if it can be read and is not too large."""

from pathlib import Path

from kinematics.checks import InputError


def content_of(path: Path, largest_bytes: int, if_folder: str, if_larger: str) -> bytes:
    """Return all bytes of a file.

    Parameters
    ----------
    path : Path
        As the user named it.
    largest_bytes : int
        No more than this is read, and one to see that there is more.
    if_folder, if_larger : str
        What to do where a folder is named, or the file is larger.

    Raises
    ------
    InputError
        There is no such file, it is a folder, it cannot be read, or it is larger.
    """
    try:
        with path.open("rb") as file:
            content = file.read(largest_bytes + 1)
    except FileNotFoundError as error:
        raise InputError(f"{path}: there is no such file") from error
    except IsADirectoryError as error:
        raise InputError(f"{path}: is a folder; {if_folder}") from error
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        reason = getattr(error, "strerror", None) or error
        raise InputError(f"{path}: cannot be read ({reason})") from error
    if len(content) > largest_bytes:
        raise InputError(f"{path}: larger than {largest_bytes / 1e6:g} MB; {if_larger}")
    return content
