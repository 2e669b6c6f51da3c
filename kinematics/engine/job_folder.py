"""The samples of one job on disk: small files as they come in, merged into larger ones.

Files are merged by writing the merged one, whole, and then removing its parts; so whatever moment
the program is killed at, every sample that was finished is in some file.
"""

from bisect import bisect_left, insort
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, Final

from kinematics.engine.plan import Job
from kinematics.engine.rows import PackedRow
from kinematics.engine.sample_files import (
    DAMAGES,
    SMALL,
    is_sound,
    joined,
    numbers_in,
    path_of,
    read_samples,
    without_repeated,
    write_merged,
    write_samples,
)
from kinematics.engine.store import gaps
from kinematics.engine.whole_files import UNFINISHED

#: Small files next to one another are merged as soon as they hold this many samples together.
BLOCK: Final = 64
#: Ends the name of a damaged file that was set aside.
DAMAGED: Final = ".damaged"


class JobFolder:
    """What is on disk of one job, for the process that writes it.

    Parameters
    ----------
    folder : Path
        Where; made with the first sample.
    job : Job
        Whose samples these are.
    note : callable
        Gets a sentence about every file that is set aside.
    """

    def __init__(self, folder: Path, job: Job, note: Callable[[str], None]) -> None:
        self._folder, self._job, self._note = folder, job, note
        self._starts: list[int] = []
        self._files: dict[int, range] = {}
        self._take_up()

    def missing(self) -> tuple[range, ...]:
        """Return the samples that are in no file."""
        return gaps((self._files[start] for start in self._starts), self._job.count)

    def add(self, numbers: range, rows: Sequence[PackedRow]) -> None:
        """Write samples that are in no file yet."""
        if not self._starts:
            self._folder.mkdir(parents=True, exist_ok=True)
        write_samples(self._folder, numbers, rows, self._job.columns)
        self._enter(numbers)
        self._merge_around(numbers)

    def _take_up(self) -> None:
        """Find what an earlier run left, clear away what only repeats it, merge what it did not."""
        for leftover in self._folder.glob(f"*{UNFINISHED}"):
            leftover.unlink()
        found = numbers_in(self._folder)
        sound = [item for item in found if is_sound(self._folder, item, self._job)]
        kept = without_repeated(sound)
        for item in found:
            if item not in sound:
                self._set_aside(item)
            elif item not in kept:
                path_of(self._folder, item).unlink()
        for item in kept:
            self._enter(item)
        for item in kept:
            if item.start in self._files:
                self._merge_around(item)

    def _enter(self, numbers: range) -> None:
        insort(self._starts, numbers.start)
        self._files[numbers.start] = numbers

    def _leave(self, numbers: range) -> None:
        self._starts.remove(numbers.start)
        del self._files[numbers.start]

    def _merge_around(self, numbers: range) -> None:
        """Merge all files of a job that is complete, else small neighbours that make a block."""
        if not self.missing():
            parts = [self._files[start] for start in self._starts]
        else:
            parts = self._small_neighbours(numbers)
            if sum(map(len, parts)) < BLOCK:
                return
        if len(parts) > 1:
            self._merge(parts)

    def _small_neighbours(self, numbers: range) -> list[range]:
        """Return the small files around one that meet, itself among them."""
        low = high = bisect_left(self._starts, numbers.start)
        while low > 0 and self._meet(low - 1):
            low -= 1
        while high + 1 < len(self._starts) and self._meet(high):
            high += 1
        return [self._files[start] for start in self._starts[low : high + 1]]

    def _meet(self, at: int) -> bool:
        """Tell whether a file ends where the next begins, and both are small."""
        one, other = (self._files[start] for start in self._starts[at : at + 2])
        return one.stop == other.start and max(len(one), len(other)) < SMALL

    def _merge(self, parts: list[range]) -> None:
        """Write one file in place of several; damaged ones are set aside, and nothing is merged."""
        contents: list[Any] = []
        for part in parts:
            try:
                contents.append(read_samples(self._folder, part, self._job))
            except DAMAGES:
                self._leave(part)
                self._set_aside(part)
        if len(contents) < len(parts):
            return
        whole = range(parts[0].start, parts[-1].stop)
        content = joined(parts, contents, self._job)
        write_merged(self._folder, whole, content, last=len(whole) == self._job.count)
        for part in parts:
            if part != whole:
                path_of(self._folder, part).unlink()
            self._leave(part)
        self._enter(whole)

    def _set_aside(self, numbers: range) -> None:
        path = path_of(self._folder, numbers)
        path.replace(path.with_name(path.name + DAMAGED))
        self._note(
            f"{path} was damaged, as when a disk is full: it now ends with {DAMAGED}, and its "
            f"{len(numbers)} samples are run again"
        )
