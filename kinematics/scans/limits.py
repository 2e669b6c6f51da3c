"""How large a scan file may be, and its content if it is not larger."""

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Final

from kinematics.checks import InputError

#: Scans of one arch have 50 thousand to 500 thousand triangles; more than this only costs time.
LARGEST_TRIANGLES: Final = 2_000_000

#: As text, a triangle of STL takes about 200 bytes: room for the largest number of them.
LARGEST_BYTES: Final = 500_000_000

#: In text formats. No line of a mesh is longer, but one without end would fill the memory.
LONGEST_LINE: Final = 100_000


@dataclass(frozen=True)
class ScanFile:
    """The bytes of a file, with what to call it.

    Attributes
    ----------
    path : str
        As given, for messages.
    name : str
        Without its folder.
    sha256 : str
        Fingerprint of the content.
    content : bytes
        All of it.
    """

    path: str
    name: str
    sha256: str
    content: bytes


def read_file(path: Path) -> ScanFile:
    """Return the content of a file.

    Raises
    ------
    InputError
        There is none, it is no ordinary file, it cannot be read, it is empty or too large.
    """
    try:
        # A device or pipe could be endless, or never answer.
        if path.exists() and not path.is_file():
            what = "is a folder" if path.is_dir() else "is not an ordinary file"
            raise InputError(f"{path}: {what}; give a scan file: STL, PLY, OBJ or GLB")
        with path.open("rb") as file:
            content = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError as error:
        raise InputError(f"{path}: there is no such file") from error
    except InputError:
        raise
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        reason = getattr(error, "strerror", None) or error
        raise InputError(f"{path}: cannot be read ({reason})") from error
    if not content:
        raise InputError(f"{path}: is empty (0 bytes); was its export or download broken off?")
    if len(content) > LARGEST_BYTES:
        raise InputError(
            f"{path}: larger than {LARGEST_BYTES / 1e6:g} MB; export it with fewer triangles, or "
            "as binary STL or PLY"
        )
    return ScanFile(str(path), path.name, sha256(content).hexdigest(), content)


def refuse_too_many(triangles: int, name: str) -> None:
    """Raise an InputError if there are more triangles than are accepted."""
    if triangles > LARGEST_TRIANGLES:
        raise InputError(
            f"{name}: {triangles} triangles; at most {LARGEST_TRIANGLES} are accepted, and an arch "
            "needs no more than 500000: reduce their number before exporting"
        )
