"""Casts that pages bring: files in a folder of each page, what was read, cases made of them.

A page has one place, by a key that nobody can guess. Two connections of a page share it, and one
that was lost finds it again for a while; then it is removed with everything in it.
"""

import asyncio
import re
import secrets
import shutil
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final, Literal, get_args

from kinematics.case import Case
from kinematics.conventions import Floats
from kinematics.scans import label_sources, limits, point_files, transform_files
from kinematics.scans.settings import FILE_KEYS, ScanFiles
from scenes.case_marks import marked
from scenes.new_case import ReadCasts
from scenes.page_downloads import Downloads

Slot = Literal["upper", "lower", "upper_labels", "lower_labels", "bite", "points"]
SLOTS: Final[tuple[Slot, ...]] = get_args(Slot)
_SCANS: Final = (".stl", ".ply", ".obj", ".glb")
#: How names of files may end, by what they are for.
ENDINGS: Final[dict[Slot, tuple[str, ...]]] = {
    "upper": _SCANS,
    "lower": _SCANS,
    "upper_labels": (".json",),
    "lower_labels": (".json",),
    "bite": (".txt", ".csv"),
    "points": (".csv",),
}
#: Bytes at most, as the readers have it.
LARGEST_BYTES: Final[dict[Slot, int]] = {
    "upper": limits.LARGEST_BYTES,
    "lower": limits.LARGEST_BYTES,
    "upper_labels": label_sources.LARGEST_BYTES,
    "lower_labels": label_sources.LARGEST_BYTES,
    "bite": transform_files.LARGEST_BYTES,
    "points": point_files.LARGEST_BYTES,
}
#: Cases that a page makes of its casts begin with this in their names.
OWN: Final = "own_"
_KEY_BYTES: Final = 18
_LONGEST_STEM: Final = 60


@dataclass(frozen=True)
class TakenUp:
    """Casts that a page has taken up, ready for points.

    Attributes
    ----------
    read : ReadCasts
        As read and cleaned.
    scan_from_view : ndarray, shape (4, 4)
        Pose from what is drawn.
    base : Case or None
        The case whose scans they are; None: a new one is begun.
    """

    read: ReadCasts
    scan_from_view: Floats
    base: Case | None


@dataclass
class Place:
    """What one page brought.

    Attributes
    ----------
    key : str
        Who knows it may use it.
    folder : Path or None
        Where its files are, once there are some.
    files, names : dict of slot to Path, of slot to str
        Files, and what their owner calls them.
    taken_up : TakenUp or None
        What points are picked on.
    cases : dict of name to Case
        Made of them.
    held : int
        By how many connections.
    writing : int
        How many files are coming in.
    """

    key: str
    folder: Path | None = None
    files: dict[Slot, Path] = field(default_factory=dict)
    names: dict[Slot, str] = field(default_factory=dict)
    taken_up: TakenUp | None = None
    cases: dict[str, Case] = field(default_factory=dict)
    held: int = 0
    writing: int = 0
    _made: int = 0

    def keep(self, case: Case) -> str:
        """Keep a case; return its name."""
        self._made += 1
        name = marked(f"{OWN}{self._made}", case)
        self.cases[name] = case
        return name

    def put(self, slot: Slot, written: Path, name: str) -> None:
        """Take a file that was written whole in place of the one before."""
        assert self.folder is not None
        self.forget(slot)
        own = self.folder / secrets.token_hex(6)
        own.mkdir()
        final = own / _plain_name(name, slot)
        written.rename(final)
        self.files[slot], self.names[slot] = final, name

    def forget(self, slot: Slot) -> None:
        """Use a file no longer; it stays where something was made of it."""
        old = self.files.pop(slot, None)
        self.names.pop(slot, None)
        if old is not None and str(old) not in self._files_in_use():
            old.unlink(missing_ok=True)

    def _files_in_use(self) -> set[str]:
        scans: list[ScanFiles] = [case.scans for case in self.cases.values() if case.scans]
        scans += [self.taken_up.read.files] if self.taken_up else []
        return {name for files in scans for key in FILE_KEYS if (name := getattr(files, key))}


def _plain_name(name: str, slot: Slot) -> str:
    """Return the name of a file with nothing in it that a file system could take amiss."""
    stem = re.sub(r"[^\w .-]", "_", Path(name).stem).strip(" .")[:_LONGEST_STEM] or slot
    return f"{stem}{Path(name).suffix.lower()}"


class Places:
    """The places of all pages; used in the thread of the server.

    Parameters
    ----------
    downloads : Downloads
        Has the temporary folder that is removed at the end.
    most : int
        How many there may be at once.
    """

    #: How long the place of a page that has gone is kept for it to come back.
    kept_s = 60.0

    def __init__(self, downloads: Downloads, most: int) -> None:
        self._downloads, self._most = downloads, most
        self._places: dict[str, Place] = {}

    def find(self, key: str) -> Place | None:
        """Return a place by its key."""
        return self._places.get(key)

    def hold(self, key: str | None) -> Place:
        """Return the place of a page for one more connection; a new one where it is not there."""
        place = self._places.get(key or "")
        if place is None:
            place = Place(secrets.token_urlsafe(_KEY_BYTES))
            self._places[place.key] = place
        place.held += 1
        idle = [old for old in self._places.values() if not old.held]
        for old in idle[: max(0, len(self._places) - self._most)]:
            self._remove(old)
        return place

    def let_go(self, place: Place) -> None:
        """One connection less: without any the place is removed after a while."""
        place.held -= 1
        if place.held == 0:
            asyncio.get_running_loop().call_later(self.kept_s, self._remove_if_idle, place)

    def folder_of(self, place: Place) -> Path:
        """Return the folder of a place, made when it is first needed."""
        if place.folder is None:
            place.folder = self._downloads.new_folder()
        return place.folder

    def _remove_if_idle(self, place: Place) -> None:
        if place.held == 0:
            self._remove(place)

    def _remove(self, place: Place) -> None:
        self._places.pop(place.key, None)
        if place.folder is not None:
            shutil.rmtree(place.folder, ignore_errors=True)
