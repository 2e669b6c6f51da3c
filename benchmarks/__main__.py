"""Print one table: `python -m benchmarks`."""

import os
import platform
import sys

import numba
import numpy as np

from benchmarks import closure, whole_run
from kinematics.case import Case
from kinematics.checkup import mounted_casts
from kinematics.teeth.dentition_settings import DentitionSettings


def main() -> None:
    """Run all rows; times are medians on this machine, ratios are within one run."""
    print(
        f"Python {platform.python_version()}, numpy {np.__version__}, numba {numba.__version__}, "
        f"{os.cpu_count()} cores, {platform.machine()}"
    )
    for triangles in (40_000, 200_000):
        casts = mounted_casts(Case(dentition=DentitionSettings(triangles_per_arch=triangles)))
        print(f"\nbuilt-in teeth, {len(casts.upper.mesh.faces)} triangles in the upper arch")
        print(f"{'what':28} {'ours':>12} {'theirs':>12} {'ratio':>7}  remark")
        for row in closure.rows(casts):
            theirs = "" if row.theirs_us is None else f"{row.theirs_us:9.0f} us"
            ratio = "" if row.theirs_us is None else f"{row.theirs_us / row.ours_us:7.1f}"
            remark = row.note
            if row.largest_difference_um is not None:
                remark += f"; largest difference {row.largest_difference_um:.2f} um"
            print(f"{row.name:28} {row.ours_us:9.0f} us {theirs:>12} {ratio:>7}  {remark}")
    print()
    for name, seconds in whole_run.rows():
        print(f"{name:60} {seconds:6.2f} s")


if __name__ == "__main__":
    sys.exit(main())
