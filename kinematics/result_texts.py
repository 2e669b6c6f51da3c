"""What every folder of results has in common: the head of its list of files, caution, texts."""

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from kinematics import __version__

CAUTION: Final = (
    "A planning and teaching aid, not a medical device: examination, mounted casts, local rules "
    "and the licensed clinician decide."
)


@dataclass(frozen=True)
class FileList:
    """The document of one kind of folder that lists its files; by it our own folders are known.

    Attributes
    ----------
    file : str
        What it is called.
    schema : str
        What it says it is.
    version : int
        Grows where a reader of the document would have to learn anew.
    """

    file: str
    schema: str
    version: int


OF_A_CASE: Final = FileList("findings.json", "cuspway findings", 1)
OF_A_COMPARISON: Final = FileList("comparison.json", "cuspway comparison", 1)
OF_A_VARIATION: Final = FileList("vary.json", "cuspway variation", 1)
OF_A_STUDY: Final = FileList("cases.json", "cuspway cases", 1)


def document_head(kind: FileList, files: Iterable[str]) -> dict[str, Any]:
    """Return how the document begins that lists the files of a folder.

    Parameters
    ----------
    kind : FileList
        What the document is.
    files : iterable of str
        Names of all files that stand in the same folder.
    """
    return {
        "schema": kind.schema,
        "schema_version": kind.version,
        "program": {"name": "cuspway", "version": __version__},
        "files": sorted(files),
        "caution": CAUTION,
    }


def json_text(document: dict[str, Any]) -> str:
    """Return a JSON document as text, floats with the digits that give the same number back."""
    return json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def write_texts(folder: Path, texts: Mapping[str, str]) -> None:
    """Write files, each by its name, into an existing folder, the same bytes on every system.

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    for name, text in texts.items():
        (folder / name).write_bytes(text.encode("utf-8"))


def write_listed(
    folder: Path,
    kind: FileList,
    document: Callable[[Iterable[str]], dict[str, Any]],
    tables: Mapping[str, str],
    others: Iterable[str] = (),
) -> None:
    """Write tables, and the document that lists all files, into an existing folder.

    Parameters
    ----------
    folder : Path
        Where to; files of the same names are overwritten.
    kind : FileList
        What the document is.
    document : callable
        Makes it of the names of all files.
    tables : mapping of str to str
        Texts by the names of their files.
    others : iterable of str
        Names of files that somebody else puts into the same folder.

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    listed = document([kind.file, *tables, *others])
    write_texts(folder, {kind.file: json_text(listed), **tables})
