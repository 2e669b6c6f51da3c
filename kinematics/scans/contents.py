"""What a file holds, judged by how it begins, whatever its name says."""

import re
from typing import Final

from kinematics.checks import InputError
from kinematics.scans.limits import ScanFile
from kinematics.scans.look_obj import OBJ_KEYWORDS
from kinematics.scans.look_stl import is_binary_stl

#: How much of a file is looked at.
_BEGINNING: Final = 4000

#: How files begin that are no meshes, or meshes of kinds that are not read.
_OTHER_BEGINNINGS: Final = (
    (b"PK\x03\x04", "a ZIP archive; unpack it and give the scan inside"),
    (b"\x1f\x8b", "a gzip archive; unpack it and give the scan inside"),
    (b"7z\xbc\xaf", "a 7z archive; unpack it and give the scan inside"),
    (b"Rar!", "a RAR archive; unpack it and give the scan inside"),
    (b"\x89PNG", "a picture (PNG)"),
    (b"\xff\xd8\xff", "a picture (JPEG)"),
    (b"%PDF", "a PDF document"),
    (b"\xff\xfe", "text in UTF-16; save it as plain text"),
    (b"\xfe\xff", "text in UTF-16; save it as plain text"),
    (b"\xef\xbb\xbf", "text with a byte-order mark; save it as plain text without one"),
)
_OTHER_TEXTS: Final = (
    (re.compile(rb"<!doctype html|<html", re.IGNORECASE), "a web page (HTML); download the file"),
    (re.compile(rb"<"), "XML"),
    (re.compile(rb"\{"), "JSON; a glTF scene must be exported as one GLB file"),
    (re.compile(rb"OFF\s"), "an OFF file; export it as STL, PLY, OBJ or GLB"),
    (re.compile(rb"(?:\[+[^\]\n]+\]|[\w.]+\s*=)"), "settings (TOML or the like), not a scan"),
)


def recognised(file: ScanFile) -> str:
    """Return "STL", "PLY", "OBJ" or "GLB".

    Raises
    ------
    InputError
        The content is none of these; the message says what it seems to be.
    """
    beginning = file.content[:_BEGINNING]
    # The header of a binary STL file can say anything, so its size is asked first.
    if is_binary_stl(file.content):
        return "STL"
    if re.match(rb"ply\s", beginning):
        return "PLY"
    if beginning.startswith(b"glTF"):
        return "GLB"
    binary = b"\0" in beginning
    other = _other_mark(beginning) or ("" if binary else _other_text(beginning))
    if other:
        raise InputError(
            f"{file.path}: is not a mesh: its content is {other}. Wanted: STL, PLY, OBJ or GLB"
        )
    if re.match(rb"\s*solid\b", beginning, re.IGNORECASE):
        return "STL"
    if binary and file.name.lower().endswith(".stl"):
        return "STL"  # broken: how, says whoever reads it
    if not binary and _first_word(beginning) in OBJ_KEYWORDS:
        return "OBJ"
    raise InputError(
        f"{file.path}: is not a mesh: its content is {'binary data' if binary else 'text'} of a "
        f"kind that is not known ({beginning[:16]!r}). Wanted: STL, PLY, OBJ or GLB"
    )


def _other_mark(beginning: bytes) -> str:
    """Return what a file is that begins with a mark of something that is not read."""
    if beginning[128:132] == b"DICM":
        return "a DICOM file; export the surface from the program that made it"
    return next((what for mark, what in _OTHER_BEGINNINGS if beginning.startswith(mark)), "")


def _other_text(beginning: bytes) -> str:
    """Return what a text is that is no mesh."""
    statement = _first_statement(beginning)
    return next((what for pattern, what in _OTHER_TEXTS if pattern.match(statement)), "")


def _first_statement(beginning: bytes) -> bytes:
    """Return the first line that is not blank and no comment."""
    lines = (line.strip() for line in beginning.splitlines())
    return next((line for line in lines if line and not line.startswith(b"#")), b"")


def _first_word(beginning: bytes) -> bytes:
    words = _first_statement(beginning).split(None, 1)
    return words[0] if words else b""
