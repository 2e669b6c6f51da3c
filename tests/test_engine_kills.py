"""A study that is killed at any moment and taken up again equals one that nobody disturbed."""

import multiprocessing
import os
import signal
import time

import numpy as np
import pytest

from kinematics.engine.folder_store import FolderStore
from kinematics.engine.local_hands import LocalHands
from kinematics.engine.run import run
from kinematics.engine.store import MemoryStore
from tests.made_studies import bits, log_lines, plan, run_until_killed, silent

pytestmark = pytest.mark.skipif(os.name != "posix", reason="processes are killed by a signal here")

JOBS, COUNT = 2, 150
KILLS = 5
#: Operations on files that a whole study takes, about; each kill comes within its share of them.
OPERATIONS = 1500
PATIENCE_S = 60.0


@pytest.fixture(scope="module")
def undisturbed():
    """Return the bits of the same study when nobody disturbs it."""
    given, store = plan(JOBS, COUNT), MemoryStore()
    run(given, store, LocalHands(1), silent)
    return bits(store, given)


@pytest.fixture(scope="module")
def quick_processes():
    """Return a way to start processes that have imported everything already."""
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(["tests.made_studies"])
    return context


def stored(folder, given):
    """Return which samples can be read, as (seed, number); they are as they should be."""
    store = FolderStore(folder)
    return {
        (str(seed), str(number))
        for seed, job in enumerate(given.jobs)
        for number in store.table(job).numbers
    }


def samples_run(log):
    """Return the samples that were run, as (seed, number)."""
    return [line[:2] for line in log_lines(log) if line[1] != "prepared"]


def killed_run(context, arguments, log, drawn):
    """Run a study until it is killed, by its n-th operation or from outside after a while."""
    by_operation = drawn.random() < 0.6
    operation = int(drawn.integers(1, OPERATIONS // KILLS)) if by_operation else 0
    before = len(log_lines(log))
    process = context.Process(target=run_until_killed, args=(*arguments, operation))
    process.start()
    if not by_operation:
        begin = time.monotonic()
        while len(log_lines(log)) == before and process.is_alive():
            assert time.monotonic() - begin < PATIENCE_S
            time.sleep(0.002)
        time.sleep(drawn.uniform(0.0, 0.06))
        process.kill()
    process.join(PATIENCE_S)
    assert process.exitcode == -signal.SIGKILL
    wait_for_the_others(log)  # each of them may still write that it ran its sample


@pytest.mark.parametrize(("seed", "processes"), [*((n, 1) for n in range(8)), (8, 2), (9, 2)])
def test_killed_and_resumed_equals_undisturbed(
    tmp_path, undisturbed, quick_processes, seed, processes
):
    """Whatever the moment: what can be read is right, is never run again, and nothing lacks."""
    drawn = np.random.default_rng(seed)
    folder, log = tmp_path / "study", tmp_path / "log"
    given = plan(JOBS, COUNT, log)
    for _ in range(KILLS):
        kept, ran = stored(folder, given), len(samples_run(log))
        killed_run(quick_processes, (folder, log, JOBS, COUNT, processes), log, drawn)
        assert not kept & set(samples_run(log)[ran:])
        assert kept <= stored(folder, given)
    kept, ran = stored(folder, given), len(samples_run(log))
    run(given, FolderStore(folder), LocalHands(1), silent)
    rest = samples_run(log)[ran:]
    assert len(rest) == len(set(rest)) == JOBS * COUNT - len(kept)
    assert bits(FolderStore(folder), given) == undisturbed
    files = sorted(path.name for path in (folder / "samples").rglob("*.*"))
    assert files == [f"00000000-{COUNT - 1:08d}.parquet"] * JOBS


def test_processes_end_when_the_one_they_serve_is_killed(tmp_path, quick_processes):
    """They notice that nobody listens any more."""
    log = tmp_path / "log"
    arguments = (tmp_path / "study", log, JOBS, 10**6, 2, 0)
    process = quick_processes.Process(target=run_until_killed, args=arguments)
    process.start()
    begin = time.monotonic()
    while len({line[2] for line in log_lines(log)}) < 2:
        assert time.monotonic() - begin < PATIENCE_S
        time.sleep(0.01)
    process.kill()
    process.join(PATIENCE_S)
    wait_for_the_others(log)


def wait_for_the_others(log):
    """Wait until all processes that ran samples have ended."""
    begin = time.monotonic()
    for number in {int(line[2]) for line in log_lines(log)}:
        while is_running(number):
            assert time.monotonic() - begin < PATIENCE_S
            time.sleep(0.01)


def is_running(number):
    """Tell whether a process is there."""
    try:
        os.kill(number, 0)
    except ProcessLookupError:
        return False
    return True
