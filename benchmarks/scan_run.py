"""The run of one case twice, in a process of its own: prints its seconds, and its memory at most.

Started by `benchmarks.scans`, so that no memory is counted that others took.
"""

import json
import resource
import sys
import time
from pathlib import Path

from kinematics.case_file import read_case
from kinematics.checkup import run

#: Linux counts in kilobytes, others in bytes.
_UNIT = 1 if sys.platform == "darwin" else 1024


def main(case_file: str) -> int:
    """Run a case from its files to its findings, and again with compiled kernels at hand."""
    case = read_case(Path(case_file))
    spent = []
    for _ in range(2):
        start = time.perf_counter()
        run(case, lambda _step: None, threads=2)
        spent.append(time.perf_counter() - start)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * _UNIT
    print(json.dumps({"warm_s": spent[1], "peak_bytes": peak}))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
