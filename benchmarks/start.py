"""How long a new process takes to its first closure, with kernels compiled before and without."""

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

from benchmarks.first_result import POINTS_A_SIDE
from benchmarks.table import Figure, Run

_ROOT = Path(__file__).parent.parent


def rows(run: Run) -> list[Figure]:
    """Return the time with an empty cache of kernels, once, and with a full one, the median."""
    counts = f"2 bodies of {2 * (POINTS_A_SIDE - 1) ** 2:,} triangles, 1 pose"
    with tempfile.TemporaryDirectory() as folder:
        run.say("first closure with an empty kernel cache")
        cold = _process_s(folder)
        run.say("first closure with compiled kernels")
        warm = median(_process_s(folder) for _ in range(run.repeats))
    return [
        Figure("first closure of a new process, kernels to compile", "30 s", f"{cold:.1f} s",
               f"{counts}, once"),
        Figure("the same, kernels compiled before", "1 s", f"{warm:.2f} s", counts),
    ]  # fmt: skip


def _process_s(cache: str) -> float:
    """Return the seconds that a process takes that closes two meshes once."""
    changed = os.environ | {"XDG_CACHE_HOME": cache}
    changed.pop("NUMBA_CACHE_DIR", None)  # it would go before the folder given
    begin = time.perf_counter()
    subprocess.run(
        [sys.executable, "-m", "benchmarks.first_result"],
        cwd=_ROOT, env=changed, check=True, capture_output=True,
    )  # fmt: skip
    return time.perf_counter() - begin
