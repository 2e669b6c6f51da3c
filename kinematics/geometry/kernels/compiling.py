"""One decorator for every compiled kernel, with a cache that notices edits in any kernel file.

numba's own cache looks only at the file of the function it compiles, so a caller would keep an
old version of a helper from another file. The cache folder is therefore named by a hash of all
kernel sources.
"""

import hashlib
import os
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any, Final, TypeVar

import numba

_Function = TypeVar("_Function", bound=Callable[..., Any])


def _writable(folder: Path) -> bool:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False


def _cache_folder() -> str:
    """Return the folder for compiled code: beside the user's other caches, named by the sources."""
    digest = hashlib.sha256()
    for source in sorted(Path(__file__).parent.glob("*.py")):
        digest.update(source.read_bytes())
    given = os.environ.get("NUMBA_CACHE_DIR")
    home = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    name = digest.hexdigest()[:16]
    places = [Path(given)] if given else [home / "cuspway", Path(tempfile.gettempdir()) / "cuspway"]
    for place in places:
        if _writable(place / name):
            return str(place / name)
    return ""


CACHE_FOLDER = _cache_folder()
#: Lies there, by the name of a part, once all of it has been compiled: kernels alone may be those
#: of a run that was ended amid it, or of one that is still at it.
_DONE: Final = "{part}-compiled"


def kernel(function: _Function) -> _Function:
    """Compile without the interpreter lock and keep the compiled code on disk."""
    before = numba.config.CACHE_DIR
    numba.config.CACHE_DIR = CACHE_FOLDER
    try:
        compiled: _Function = numba.njit(cache=bool(CACHE_FOLDER), nogil=True, error_model="numpy")(
            function
        )
    finally:
        numba.config.CACHE_DIR = before
    return compiled


def small_kernel(function: _Function) -> _Function:
    """Compile a helper that is called from kernels only; it is inlined there by the compiler."""
    compiled: _Function = numba.njit(nogil=True, error_model="numpy")(function)
    return compiled


def bare_kernel(function: _Function) -> _Function:
    """Compile a helper that makes no array, and so need not count who holds which.

    In a search counting takes as long as computing, since every count is made for all threads.
    """
    compiled: _Function = numba.njit(nogil=True, error_model="numpy", _nrt=False)(function)
    return compiled


def inner_kernel(function: _Function) -> _Function:
    """Compile a helper of an inner loop, always written out where it is called; it makes no array.

    A call would copy every array descriptor of its trees: about as much work as it does.
    """
    compiled: _Function = numba.njit(nogil=True, error_model="numpy", forceinline=True, _nrt=False)(
        function
    )
    return compiled


def compiled_before(part: str = "everything") -> bool:
    """Tell whether all kernels of a part of exactly these sources lie compiled in the cache."""
    return bool(CACHE_FOLDER) and Path(CACHE_FOLDER, _DONE.format(part=part)).exists()


def note_compiled(part: str) -> None:
    """Remember in the cache that all of a part was compiled."""
    if CACHE_FOLDER:
        with suppress(OSError):  # then the next run says again that it compiles, and is quick
            Path(CACHE_FOLDER, _DONE.format(part=part)).touch()
