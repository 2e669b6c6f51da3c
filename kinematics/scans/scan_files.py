"""From a file to a scan: what it holds is judged by its content, then it is read as such."""

from collections.abc import Callable
from pathlib import Path
from typing import Final

from kinematics.checks import InputError
from kinematics.scans.contents import recognised
from kinematics.scans.limits import ScanFile, read_file
from kinematics.scans.look_glb import look_glb
from kinematics.scans.look_obj import look_obj
from kinematics.scans.look_ply import look_ply
from kinematics.scans.look_stl import look_stl
from kinematics.scans.scan import Scan

_READERS: Final[dict[str, Callable[[ScanFile], Scan]]] = {
    "STL": look_stl,
    "PLY": look_ply,
    "OBJ": look_obj,
    "GLB": look_glb,
}
#: How names of scan files end, in small letters.
SCAN_ENDINGS: Final = tuple(f".{kind.lower()}" for kind in _READERS)


def read_scan(path: Path) -> Scan:
    """Read a scan file: STL, PLY or OBJ, text or binary, or GLB.

    Nothing is cleaned, ordered or scaled, and no other file is opened. Memory stays within a
    small multiple of the size of the file.

    Parameters
    ----------
    path : Path
        Its ending must be that of its content: .stl, .ply, .obj or .glb, in any case.

    Raises
    ------
    InputError
        The file cannot be read, is something else, or is damaged; the message says where.
    """
    file = read_file(path)
    ending = path.suffix.lower()
    kind = recognised(file)
    if ending != f".{kind.lower()}":
        raise InputError(
            f"{path}: its content is that of {'an' if kind == 'OBJ' else 'a'} {kind} file, but its "
            f"name ends with {path.suffix!r}; if it is the right file, rename it to "
            f"{path.with_suffix('.' + kind.lower()).name!r}"
        )
    return _READERS[kind](file)
