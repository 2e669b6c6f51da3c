"""Files that wait to be fetched by a page: few, under names nobody can guess, gone at the end."""

import secrets
import shutil
import tempfile
from collections import OrderedDict
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from typing import Final

#: Older files are dropped when there are more.
MOST_FILES: Final = 8
_NAME_BYTES: Final = 18


@dataclass(frozen=True)
class Download:
    """One file.

    Attributes
    ----------
    name : str
        What to call it on the disk of who fetches it.
    content : bytes
        All of it.
    """

    name: str
    content: bytes


class Downloads:
    """Files made for pages, in a temporary folder that is removed at the end."""

    def __init__(self) -> None:
        self._folder = Path(tempfile.mkdtemp(prefix="cuspway-page-"))
        self._waiting: OrderedDict[str, Path] = OrderedDict()

    def __enter__(self) -> "Downloads":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Remove everything."""
        self._waiting.clear()
        shutil.rmtree(self._folder, ignore_errors=True)

    def new_folder(self) -> Path:
        """Return an empty folder to make a file in."""
        return Path(tempfile.mkdtemp(dir=self._folder))

    def drop(self, folder: Path) -> None:
        """Remove a folder and what is in it."""
        shutil.rmtree(folder, ignore_errors=True)

    def offer(self, folder: Path) -> tuple[str, str]:
        """Let the one file in a folder be fetched, once.

        Returns
        -------
        key : str
            By which it is fetched; cannot be guessed.
        name : str
            What the file is called.
        """
        [file] = folder.iterdir()
        key = secrets.token_urlsafe(_NAME_BYTES)
        self._waiting[key] = file
        while len(self._waiting) > MOST_FILES:
            _, oldest = self._waiting.popitem(last=False)
            self.drop(oldest.parent)
        return key, file.name

    def fetch(self, key: str) -> Download | None:
        """Return a file and forget it; None where none of that name waits."""
        file = self._waiting.pop(key, None)
        if file is None:
            return None
        try:
            return Download(file.name, file.read_bytes())
        finally:
            self.drop(file.parent)
