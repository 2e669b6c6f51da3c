"""Files of TOML that a user writes: their text, what it says, and in which line a key stands."""

import re
import tomllib
from codecs import BOM_UTF16_BE, BOM_UTF16_LE
from pathlib import Path
from typing import Any, Final

from kinematics.checks import InputError
from kinematics.file_content import content_of

#: Such a file is a page of text; more than this was meant to be something else.
LARGEST_BYTES: Final = 1_000_000

_ENCODING_NAMES: Final = {"utf-8-sig": "UTF-8", "utf-16": "UTF-16"}
_HEADER: Final = re.compile(r"\s*(\[\[?)\s*([^\[\]]+?)\s*\]\]?\s*(#.*)?")
_KEY: Final = re.compile(r"""\s*((?:[\w-]+|"[^"]*")(?:\s*\.\s*(?:[\w-]+|"[^"]*"))*)\s*=""")
_PART: Final = re.compile(r"""[\w-]+|"[^"]*\"""")
_LONG: Final = '"""'


def text_of(path: Path, kind: str) -> str:
    """Return the text of a file, lines ended by line feeds.

    Parameters
    ----------
    path : Path
        The file, in UTF-8, or in UTF-16 with a byte-order mark.
    kind : str
        What it is to be: "case" or "lesson".

    Raises
    ------
    InputError
        The file cannot be read, is too large or no text.
    """
    content = content_of(
        path,
        LARGEST_BYTES,
        f"give the {kind} file in it",
        f"a {kind} file is a page of TOML text, was another file meant?",
    )
    # Windows writes marks: editors that of UTF-8, the ">" of its older shell that of UTF-16.
    encoding = "utf-16" if content.startswith((BOM_UTF16_LE, BOM_UTF16_BE)) else "utf-8-sig"
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError as error:
        raise InputError(
            f"{path}: byte {error.start + 1} is not {_ENCODING_NAMES[encoding]} text; save the file"
            " as UTF-8"
        ) from error
    return text.replace("\r\n", "\n")


def parse_toml(text: str, name: str) -> dict[str, Any]:
    """Return what a text of TOML says.

    Parameters
    ----------
    text : str
        Lines ended by line feeds.
    name : str
        What to call it in messages.

    Raises
    ------
    InputError
        It is not valid TOML; the message says where.
    """
    try:
        return tomllib.loads(text)
    except RecursionError as error:
        raise InputError(
            f"{name}: brackets are nested too deeply; three levels are enough"
        ) from error
    except tomllib.TOMLDecodeError as error:
        where = re.search(r"at line (\d+), column (\d+)", str(error))
        excerpt = ""
        if where:
            line, column = int(where[1]), int(where[2])
            shown = text.split("\n")[line - 1][:100].replace("\t", " ")
            excerpt = f"\n  {shown}\n  {' ' * (min(column, 101) - 1)}^"
            if re.search(r"=\s*-?\d+,\d+\s*$", shown):
                excerpt += "\n  decimals are written with a point: 35.5"
            if re.match(r"Cannot (overwrite|declare)", str(error)):
                excerpt += "\n  this stands in the file twice: keep one of the two"
        raise InputError(f"{name}: not valid TOML: {error}{excerpt}") from error
    except ValueError as error:  # the interpreter's limit on digits
        raise InputError(f"{name}: holds a number of more than 4000 digits") from error


def line_of(text: str, at: tuple[str | int, ...]) -> int:
    """Return the line, from 1, in which a value stands, or the nearest table that would hold it.

    Parameters
    ----------
    text : str
        Valid TOML.
    at : tuple of str and int
        Keys and positions that lead to the value.
    """
    counts: dict[tuple[str | int, ...], int] = {}
    table: tuple[str | int, ...] = ()
    best, line, within = -1, 1, False
    for number, content in enumerate(text.split("\n"), 1):
        inside, within = within, within ^ (content.count(_LONG) % 2 == 1)
        if inside:
            continue
        header = _HEADER.fullmatch(content)
        key = None if header else _KEY.match(content)
        if header:
            table = path = _table(header[2], header[1] == "[[", counts)
        elif key:
            path = (*table, *_parts(key[1]))
        else:
            continue
        if path == at[: len(path)] and len(path) > best:
            best, line = len(path), number
    return line


def _parts(name: str) -> list[str]:
    return [part.strip('"') for part in _PART.findall(name)]


def _table(
    name: str, is_one_of_several: bool, counts: dict[tuple[str | int, ...], int]
) -> tuple[str | int, ...]:
    """Return where a table lies, and count those of a list."""
    path: tuple[str | int, ...] = ()
    parts = _parts(name)
    for depth, part in enumerate(parts, 1):
        path = (*path, part)
        if depth == len(parts) and is_one_of_several:
            counts[path] = counts.get(path, -1) + 1
        if path in counts:
            path = (*path, counts[path])
    return path
