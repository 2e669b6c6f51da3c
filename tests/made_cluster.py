"""A Dask cluster of this machine in a process of its own, as a user's would be.

In the process of the tests every warning is an error, also those by which the library tells that a
machine is slow: its scheduler would come to a halt.
"""

import importlib
import os
import subprocess
import sys
from contextlib import contextmanager
from importlib.util import find_spec

from tests.fresh_python import ROOT
from tests.machine import need

PATIENCE_S = 60.0


def need_distributed():
    """Skip or fail where the library is not installed."""
    need(find_spec("distributed") is not None, "library 'distributed' (pip: distributed)")


class MadeCluster:
    """A cluster that was started here, and its address."""

    def __init__(self, process):
        self._process = process
        self.address = process.stdout.readline().strip()

    def close(self):
        """End it."""
        if self._process.poll() is None:
            self._process.stdin.close()
            try:
                self._process.wait(PATIENCE_S)
            except subprocess.TimeoutExpired:
                self._process.kill()
                self._process.wait()
        self._process.stdout.close()


@contextmanager
def new_cluster(workers, threads=1):
    """Start a cluster for as long as the block lasts, or skip or fail where there can be none."""
    need_distributed()
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.made_cluster", str(workers), str(threads)],
        cwd=ROOT,
        env=os.environ
        | {"PYTHONPATH": str(ROOT), "DASK_DISTRIBUTED__SCHEDULER__ALLOWED_FAILURES": "1"},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )
    made = MadeCluster(process)
    try:
        yield made
    finally:
        made.close()


def what_is_left(address):
    """Return how many tasks a cluster has, and how many clients beside the one that asks."""
    with importlib.import_module("distributed").Client(address, set_as_default=False) as client:
        tasks, clients = client.run_on_scheduler(_tasks_and_clients)
    return tasks, clients - 1


def _tasks_and_clients(dask_scheduler):
    clients = [name for name in dask_scheduler.clients if name.startswith("Client")]
    return len(dask_scheduler.tasks), len(clients)


def _serve(workers, threads):
    """Tell the address, and stay until nobody wants the cluster any more."""
    with importlib.import_module("distributed").LocalCluster(
        n_workers=workers, threads_per_worker=threads, processes=True, dashboard_address=":0"
    ) as cluster:
        sys.stdout.write(f"{cluster.scheduler_address}\n")
        sys.stdout.flush()
        sys.stdin.read()


if __name__ == "__main__":
    _serve(*map(int, sys.argv[1:]))
