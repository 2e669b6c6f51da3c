"""Kernels give the same bits compiled, as plain Python, and with every index checked."""

import pytest

from tests.fresh_python import run_python

#: Prints all a pair can be asked for, and rests of bodies, every digit. Two runs of eight poses,
#: and one of three.
SCRIPT = """
import dataclasses

import numba
import numpy as np

from kinematics.contact.closure import close, close_and_next, runner_up
from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.pair import LeaveOut, prepare
from kinematics.geometry.poses import opening_rotation
from tests.made_loads import made, rest_of
from tests.made_sheets import cusps, slightly_moved

pair = prepare(cusps(1, -28.0, 7, towards=-1.0), cusps(2, -38.0, 8))
poses = np.concatenate([slightly_moved(11, 3), slightly_moved(8, 4, 0.5, 8.0)])
first = close(pair, poses)
second, gap = runner_up(pair, poses, first)
both = close_and_next(pair, poses)
left = close(pair, poses, LeaveOut(frozenset({12}), frozenset({13}), frozenset({(11, 12)})))
met = np.isfinite(first.opening_rad)
closed = poses[met] @ opening_rotation(first.opening_rad[met] - 0.001)
marks = patches(pair, closed, 0.1)
gaps = pair_gaps(pair, closed, 3.0, (11, 12, 13, 14), (11, 12, 13, 14))
for result in (first, second, both.first, both.runner_up, left, marks):
    for name, values in dataclasses.asdict(result).items():
        print(name, repr(values.tolist()))
for coefficient in (0.0, 0.2):
    for seed in range(5):
        rest = rest_of(*made(seed, coefficient=coefficient))
        print(repr(rest.force_n.tolist()), repr(rest.moved.tolist()), rest.status, rest.unique)
print(repr(gap.tolist()), repr(gaps.tolist()))
print(met.sum(), len(marks.pose), np.isfinite(gaps).sum())
print("compiled" if not numba.config.DISABLE_JIT else "plain", numba.config.BOUNDSCHECK)
"""


def printed(**environment):
    """Return what the script prints, and how it ran."""
    ended = run_python("-c", SCRIPT, timeout_s=600.0, **environment)
    assert ended.returncode == 0, ended.stderr
    *results, how = ended.stdout.splitlines()
    return results, how


@pytest.fixture(scope="module")
def compiled():
    """Return what compiled kernels say; the teeth meet, have patches and gaps."""
    results, how = printed(NUMBA_DISABLE_JIT="0", NUMBA_BOUNDSCHECK="0")
    assert how == "compiled 0"
    assert all(int(count) > 10 for count in results[-1].split())
    return results


def test_plain_python_gives_the_same_bits(compiled):
    """Closure, runner-up, patches, gaps and rests of bodies, to the last digit.

    numpy refuses any index beyond the end, so this finds most wrong ones as well.
    """
    results, how = printed(NUMBA_DISABLE_JIT="1", NUMBA_BOUNDSCHECK="0")
    assert how == "plain 0"
    assert results == compiled


@pytest.mark.wide
def test_checking_every_index_finds_nothing(compiled, tmp_path):
    """Compiled anew with checks of all indices: minutes, for little that plain Python misses."""
    results, how = printed(
        NUMBA_DISABLE_JIT="0", NUMBA_BOUNDSCHECK="1", NUMBA_CACHE_DIR=str(tmp_path)
    )
    assert how == "compiled 1"
    assert results == compiled
