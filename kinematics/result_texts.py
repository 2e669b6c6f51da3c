"""What every folder of results has in common: the head of its list of files, caution, texts."""

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, Final

from kinematics import __version__

CAUTION: Final = (
    "A planning and teaching aid, not a medical device: examination, mounted casts, local rules "
    "and the licensed clinician decide."
)


def document_head(schema: str, schema_version: int, files: Iterable[str]) -> dict[str, Any]:
    """Return how the document begins that lists the files of a folder.

    Parameters
    ----------
    schema, schema_version : str, int
        What the document is.
    files : iterable of str
        Names of all files that stand in the same folder.
    """
    return {
        "schema": schema,
        "schema_version": schema_version,
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
