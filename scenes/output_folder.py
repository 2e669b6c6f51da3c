"""A folder of results that appears whole or not at all, and never in place of somebody else's."""

import errno
import json
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from kinematics.checks import InputError
from kinematics.result_texts import OF_A_CASE, OF_A_COMPARISON, OF_A_STUDY, OF_A_VARIATION

#: The argument that names a folder of results.
OUT: Final = "--out"
#: What lists the files of a folder of results, and how it is known to be ours.
_LISTS: Final = (OF_A_CASE, OF_A_COMPARISON, OF_A_VARIATION, OF_A_STUDY)


@contextmanager
def write_errors_said_plainly(out: Path, called: str = OUT) -> Iterator[None]:
    """Turn what the operating system refuses while writing into an `InputError`.

    Raises
    ------
    InputError
        In place of any OSError: no room, no permission, a parent that is a file.
    """
    try:
        yield
    except OSError as error:
        where = f" {error.filename}" if error.filename else ""
        full = error.errno in (errno.ENOSPC, errno.EDQUOT)
        remedy = "make room or give another folder" if full else "give a folder you may write to"
        raise InputError(
            f"{called} {out}: cannot be written ({error.strerror or error}{where}); {remedy}"
        ) from error


def _names_written(folder: Path) -> set[str] | None:
    """Return the names of the files this program wrote there, None if the folder is not ours."""
    for kind in _LISTS:
        try:
            document = json.loads((folder / kind.file).read_text("utf-8"))
        except (OSError, ValueError, RecursionError):
            continue
        if isinstance(document, dict) and document.get("schema") == kind.schema:
            files = document.get("files")
            return {str(name) for name in files} if isinstance(files, list) else None
    return None


def refuse_unless_replaceable(target: Path, called: str = OUT) -> None:
    """Check that `target` does not exist, is empty, or holds nothing but our own results.

    Raises
    ------
    InputError
        Anything else: replacing it would destroy what this program did not write.
    """
    if not target.exists():
        return
    if not target.is_dir():
        raise InputError(
            f"{called} {target}: this is a file; give a folder that is new, empty or ours"
        )
    if Path.cwd().is_relative_to(target):
        raise InputError(
            f"{called} {target}: the command runs inside this folder, so it cannot be replaced; "
            "give the name of a new folder in it, such as --out cuspway-report"
        )
    with write_errors_said_plainly(target, called):
        present = {entry.name for entry in target.iterdir()}
    if not present:
        return
    ours = _names_written(target)
    if ours is None:
        raise InputError(
            f"{called} {target}: the folder holds other files (such as {min(present)}) and was not "
            "written by cuspway, so it is left alone; give a new or an empty folder"
        )
    if strange := present - ours:
        raise InputError(
            f"{called} {target}: beside our own results the folder holds "
            f"{', '.join(sorted(strange))}; replacing it would delete that; move it away or give "
            "another folder"
        )


def _put_in_place(new: Path, target: Path, aside: Path, called: str) -> None:
    """Rename `new` to `target`; what stood there goes to `aside`, or back if that fails."""
    refuse_unless_replaceable(target, called)
    if not target.exists():
        new.rename(target)
        return
    target.rename(aside)
    try:
        new.rename(target)
    except BaseException:
        aside.rename(target)
        raise


@contextmanager
def _beside(target: Path, out: Path, called: str) -> Iterator[Path]:
    """Give a folder of our own beside `target`, gone when the block ends.

    Parents of `target` that were made for it and stayed empty are gone then, too.
    """
    new_parents = [place for place in target.parents if not place.exists()]
    holder: Path | None = None
    try:
        with write_errors_said_plainly(out, called):
            target.parent.mkdir(parents=True, exist_ok=True)
            holder = Path(tempfile.mkdtemp(prefix=".cuspway-", dir=target.parent))
        yield holder
    finally:
        if holder is not None:
            shutil.rmtree(holder, ignore_errors=True)
        for place in new_parents:
            if place.exists() and not any(place.iterdir()):
                place.rmdir()


def refuse_unless_writable(out: Path, called: str = OUT) -> None:
    """Check that a folder of results can be put there, before anything is computed for it.

    Raises
    ------
    InputError
        `out` must not be replaced, or cannot be written.
    """
    target = Path(os.path.realpath(out))
    refuse_unless_replaceable(target, called)
    with _beside(target, out, called):
        pass


@contextmanager
def folder_in_one_piece(out: Path, called: str = OUT) -> Iterator[Path]:
    """Give a new folder to fill; when the block ends well it is renamed to `out`.

    The new folder is made beside its final place, so that the last step is a rename. If the block
    ends with an error or is interrupted, `out` is as it was before and nothing else is left.

    Parameters
    ----------
    out : Path
        Where the results are wanted.
    called : str
        The argument that named it, for messages.

    Yields
    ------
    Path
        An empty folder.

    Raises
    ------
    InputError
        `out` must not be replaced, or cannot be written.
    """
    target = Path(os.path.realpath(out))
    refuse_unless_replaceable(target, called)
    with _beside(target, out, called) as holder:
        new = holder / "new"
        with write_errors_said_plainly(out, called):
            new.mkdir()
        yield new
        with write_errors_said_plainly(out, called):
            _put_in_place(new, target, holder / "old", called)


@contextmanager
def new_file_in_one_piece(path: Path, called: str) -> Iterator[Path]:
    """Give a name beside a new file to write to; the file appears when the block has ended well.

    Parameters
    ----------
    path : Path
        The file, which is not there yet.
    called : str
        Argument that names it.

    Raises
    ------
    InputError
        It cannot be written, or has come to be there meanwhile.
    """
    with write_errors_said_plainly(path, called):
        handle, name = tempfile.mkstemp(dir=path.absolute().parent, suffix=f".part{path.suffix}")
        os.close(handle)
        made = Path(name)
        try:
            yield made
            made.chmod(0o644)
            os.link(made, path)  # unlike a renaming it replaces nothing
        finally:
            made.unlink()


def refuse_there(file: Path | None, called: str) -> None:
    """Check that a file which is to be written is not there already.

    Raises
    ------
    InputError
        It is there.
    """
    if file is not None and file.exists():
        raise InputError(
            f"{called} {file}: is there already, and no file is replaced; give a new name"
        )


def refuse_unless_empty(folder: Path, called: str) -> None:
    """Check that a folder is new or empty.

    Raises
    ------
    InputError
        Something is in it.
    """
    if folder.is_dir() and any(folder.iterdir()):
        raise InputError(
            f"{called} {folder}: is not empty, and nothing in it is replaced; give a new folder"
        )
