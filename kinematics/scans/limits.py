"""How large a scan file may be, and its content if it is not larger."""

from contextlib import suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Final

from kinematics.checks import InputError
from kinematics.file_content import content_of

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
    content = ordinary_content(
        path,
        LARGEST_BYTES,
        "give a scan file: STL, PLY, OBJ or GLB",
        "export it with fewer triangles, or as binary STL or PLY",
    )
    if not content:
        raise InputError(f"{path}: is empty (0 bytes); was its export or download broken off?")
    return ScanFile(str(path), path.name, sha256(content).hexdigest(), content)


def ordinary_content(path: Path, largest_bytes: int, if_folder: str, if_larger: str) -> bytes:
    """Return all bytes of an ordinary file: a device or a pipe could be endless, or never answer.

    See `content_of`.
    """
    strange = False
    with suppress(OSError, ValueError):  # said better by whoever opens it
        strange = path.exists() and not (path.is_file() or path.is_dir())
    if strange:
        raise InputError(f"{path}: is not an ordinary file; {if_folder}")
    return content_of(path, largest_bytes, if_folder, if_larger)


def refuse_too_many(triangles: int, name: str) -> None:
    """Raise an InputError if there are more triangles than are accepted."""
    if triangles > LARGEST_TRIANGLES:
        raise InputError(
            f"{name}: {triangles} triangles; at most {LARGEST_TRIANGLES} are accepted, and an arch "
            "needs no more than 500000: reduce their number before exporting"
        )
