"""Studies on a Dask cluster: the same bits, stored once, and nothing left behind there."""

import gc
import importlib
import os
import signal
import time
from types import SimpleNamespace

import pytest

from kinematics.checks import InputError
from kinematics.engine import cluster_check, cluster_hands
from kinematics.engine.cluster_hands import ClusterHands
from kinematics.engine.folder_store import FolderStore
from kinematics.engine.hands import HandLost
from kinematics.engine.local_hands import LocalHands
from kinematics.engine.run import run
from kinematics.engine.store import MemoryStore
from tests.made_cluster import PATIENCE_S, need_distributed, new_cluster, what_is_left
from tests.made_studies import bits, log_lines, plan, silent

#: What the library says in threads of its own, such as that a machine is slow, must not end them.
pytestmark = pytest.mark.filterwarnings("default")


@pytest.fixture(scope="module")
def cluster():
    """Return a cluster of two workers."""
    with new_cluster(2) as made:
        yield made


def undisturbed(given):
    """Return the bits of a study that this process runs alone."""
    store = MemoryStore()
    run(given, store, LocalHands(1), silent)
    return bits(store, given)


@pytest.mark.parametrize("samples_a_task", [1, 7, 1000])
def test_a_cluster_gives_the_same_bits(cluster, tmp_path, samples_a_task):
    """As one process and as two, in memory and on disk."""
    given = plan(3, 40)
    expected = undisturbed(given)
    two, there = MemoryStore(), FolderStore(tmp_path)
    run(given, two, LocalHands(2), silent)
    run(given, there, ClusterHands(cluster.address, samples_a_task), silent)
    assert bits(two, given) == expected
    assert bits(there, given) == expected


def test_a_job_is_prepared_once_by_every_worker_that_works_at_it(cluster, tmp_path):
    """Each has jobs of its own until there are no more."""
    log = tmp_path / "log"
    run(plan(6, 10, log), MemoryStore(), ClusterHands(cluster.address, 5), silent)
    lines = log_lines(log)
    prepared = [line for line in lines if line[1] == "prepared"]
    assert len(prepared) == len(set(prepared)) <= 7
    assert len([line for line in lines if line[1] != "prepared"]) == 60


def test_refused_jobs_are_told_and_others_go_on(cluster):
    """With the same text as by processes of this machine."""
    given = plan(3, 10, does=["refused", "", "not converged"])
    store = MemoryStore()
    run(given, store, ClusterHands(cluster.address, 4), silent)
    assert bits(store, given) == undisturbed(given)
    assert store.refused(given.jobs[0]) == "these casts do not meet"


def test_an_error_of_a_sample_ends_the_study(cluster):
    """It comes as it was raised."""
    given = plan(1, 10, does=["fails"])
    with pytest.raises(ZeroDivisionError, match="no fifth sample"):
        run(given, MemoryStore(), ClusterHands(cluster.address, 2), silent)


def test_a_lost_worker_is_made_up_for(tmp_path):
    """Its tasks are run by another; every sample is there once, with the same bits."""
    log = tmp_path / "log"
    given = plan(2, 300, log)
    killed = []

    def kill_one(_progress):
        if not killed and len(log_lines(log)) > 50:
            killed.append(int(log_lines(log)[-1][2]))
            os.kill(killed[0], signal.SIGKILL)

    store = FolderStore(tmp_path / "study")
    with new_cluster(2) as losing:
        run(given, store, ClusterHands(losing.address, 5), kill_one)
    assert killed
    assert bits(store, given) == undisturbed(plan(2, 300))


def test_workers_that_end_again_and_again_end_the_study():
    """What to do is said; it is not tried for ever."""
    given = plan(1, 10, does=["dies"])
    told = r"again and again.*run the same study again"
    with new_cluster(2) as losing, pytest.raises(HandLost, match=told):
        run(given, MemoryStore(), ClusterHands(losing.address, 5), silent)


def test_nothing_is_left_on_the_cluster_that_was_stopped(cluster, tmp_path):
    """What is ordered is taken back, what runs is left off; the study can be taken up again."""
    log = tmp_path / "log"
    given = plan(2, 5000, log)
    store = FolderStore(tmp_path / "study")

    def stop(progress):
        if progress.done:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        run(given, store, ClusterHands(cluster.address, 500), stop)
    assert sum(len(store.table(job).numbers) for job in given.jobs) == 500
    begin = time.monotonic()
    while is_growing(log) or what_is_left(cluster.address) != (0, 0):
        assert time.monotonic() - begin < PATIENCE_S
    assert len(log_lines(log)) < 4000


def is_growing(log):
    """Tell whether samples are being run."""
    before = len(log_lines(log))
    time.sleep(0.2)
    return len(log_lines(log)) > before


def test_a_stopped_study_goes_on_elsewhere(cluster, tmp_path):
    """Begun on a cluster, finished here: the same bits, nothing run twice."""
    log = tmp_path / "log"
    given = plan(2, 60, log)

    def stop(progress):
        if progress.done >= 40:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        run(given, FolderStore(tmp_path / "s"), ClusterHands(cluster.address, 10), stop)
    store = FolderStore(tmp_path / "s")
    there = sum(len(store.table(job).numbers) for job in given.jobs)
    before = len([line for line in log_lines(log) if line[1] != "prepared"])
    run(given, store, LocalHands(1), silent)
    after = len([line for line in log_lines(log) if line[1] != "prepared"])
    assert after - before == 120 - there
    assert bits(store, given) == undisturbed(plan(2, 60))


def test_workers_with_other_versions_are_refused(cluster, monkeypatch):
    """What differs is named."""
    here = {**cluster_check.ground(), "numpy": "1.0"}
    monkeypatch.setattr(cluster_check, "ground", lambda: here)
    with pytest.raises(InputError, match=r"other versions \(numpy: 1.0 here, .* there\)"):
        run(plan(), MemoryStore(), ClusterHands(cluster.address, 5), silent)


def test_workers_with_another_processor_must_give_the_same_bits(cluster, monkeypatch):
    """One sample is run here and there; it is not enough that versions are the same."""
    monkeypatch.setattr(cluster_check, "processor", lambda: "another one")
    given, store = plan(), MemoryStore()
    run(given, store, ClusterHands(cluster.address, 5), silent)
    assert bits(store, given) == undisturbed(given)
    with pytest.raises(InputError, match="gives other bits \\(count: "):
        hands = ClusterHands(cluster.address, 5)
        run(plan(does=["differs"]), MemoryStore(), hands, silent)


def test_a_cluster_that_is_not_there_is_told(monkeypatch):
    """By the address that was given, with what to do."""
    need_distributed()
    monkeypatch.setattr(cluster_hands, "_ANSWER_S", 0.5)
    for address in ("tcp://127.0.0.1:9", "nonsense", "http://127.0.0.1:9", ""):
        with pytest.raises(InputError, match=f"cluster {address}: no scheduler answers"):
            run(plan(), MemoryStore(), ClusterHands(address, 5), silent)
        assert half_made_clients() == []  # they would close themselves while the next one starts


def half_made_clients():
    """Return the states of clients that came to nothing and are still kept."""
    client = importlib.import_module("distributed").Client
    made = [thing for thing in gc.get_objects() if isinstance(thing, client)]
    return [one.status for one in made if one.status != "closed"]


def test_a_missing_library_is_told(monkeypatch):
    """It is an extra that few need."""

    def missing(name):
        raise ModuleNotFoundError(name=name)

    # Not by taking it out of sys.modules: its threads go on importing parts of it.
    monkeypatch.setattr(cluster_hands, "importlib", SimpleNamespace(import_module=missing))
    with pytest.raises(InputError, match=r"pip install .cuspway\[cluster\]"):
        run(plan(), MemoryStore(), ClusterHands("tcp://127.0.0.1:9", 5), silent)


def test_threads_of_a_worker_share_what_is_prepared(tmp_path):
    """Each job is prepared once; the bits are the same."""
    log = tmp_path / "log"
    given, store = plan(3, 40, log), MemoryStore()
    with new_cluster(1, threads=4) as threaded:
        run(given, store, ClusterHands(threaded.address, 3), silent)
    assert bits(store, given) == undisturbed(plan(3, 40))
    assert len([line for line in log_lines(log) if line[1] == "prepared"]) == 3


def test_a_cluster_without_workers_is_told(monkeypatch):
    """Workers that nobody starts are not waited for for ever."""
    monkeypatch.setattr(cluster_hands, "_FIRST_WORKER_S", 0.5)
    with new_cluster(0) as empty, pytest.raises(InputError, match="no workers; start some"):
        run(plan(), MemoryStore(), ClusterHands(empty.address, 5), silent)


def test_a_cluster_that_vanishes_ends_the_study(tmp_path):
    """What was finished is kept."""
    given, store = plan(1, 4000), FolderStore(tmp_path)
    with new_cluster(1) as vanishing:

        def vanish(progress):
            if progress.done:
                vanishing.close()

        with pytest.raises(HandLost, match="gone"):
            run(given, store, ClusterHands(vanishing.address, 50), vanish)
    assert len(store.table(given.jobs[0]).numbers) >= 50
