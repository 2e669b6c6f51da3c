"""Time a study: one sample, what is sent, what storing costs, many workers, and other libraries."""

import importlib
import tempfile
import time
from collections.abc import Callable, Generator, Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import AbstractContextManager
from dataclasses import replace
from functools import partial
from multiprocessing import get_context
from multiprocessing.reduction import ForkingPickler
from pathlib import Path
from statistics import mean
from types import ModuleType
from typing import Any, Final

from benchmarks.schedule import Load, Played, play
from benchmarks.study_samples import drawn_plan, held_sample, hold, real_plan, stand_in_plan
from benchmarks.table import Figure, Run, counted, duration, significant
from kinematics.engine.cluster_hands import ClusterHands
from kinematics.engine.folder_store import FolderStore
from kinematics.engine.hands import Hands
from kinematics.engine.local_hands import LocalHands
from kinematics.engine.plan import Plan, Row
from kinematics.engine.progress import Progress
from kinematics.engine.rows import packed
from kinematics.engine.run import run as run_study
from kinematics.engine.work import parcel

#: What is planned for: so many cases of so many samples.
CASES: Final = 10_000
SAMPLES: Final = 1_000
WORKERS: Final = (1, 2, 10, 100, 1_000)
SAMPLES_A_TASK: Final = (25, 100, 250, 1_000)
#: Real samples that are shared out among processes, and of a task on a cluster; stand-ins.
_REAL, _REAL_A_TASK, _STAND_INS = 96, 8, 600
#: What all samples of one case may take.
_ASKED_S: Final = 60.0
#: Among schedules that take about as long, the one that loses least when it is stopped.
_ABOUT: Final = 1.02


def rows(run: Run) -> Iterator[Figure]:
    """Yield times and sizes of one sample, of sharing samples out, and schedules made of them."""
    run.say("one sample of a study")
    plan = real_plan()
    job = plan.jobs[0]
    prepare_s, prepared = _cpu_s(lambda: plan.prepare(job.subject))
    row = plan.sample(prepared, 0)
    sample_s, counts = _sample_s(plan, prepared, 8 * run.repeats)
    yield Figure("study: a case prepared", "", duration(prepare_s), "processor time, once")
    yield Figure("study: one sample, three excursions with findings", "", duration(sample_s),
                 f"processor time, the mean of {counts}")  # fmt: skip
    drawn = drawn_plan(4 * run.repeats)
    apart_s, counts = _sample_s(drawn, drawn.prepare(drawn.jobs[0].subject), 4 * run.repeats)
    yield Figure("study: one sample that has no setting in common with others", "",
                 duration(apart_s), f"processor time, the mean of {counts}")  # fmt: skip
    yield from _sizes(plan, row)
    library = _distributed()
    two = yield from _shared_out(run, _shortened(plan, _REAL), "real samples", library)
    yield Figure(f"study: {SAMPLES:,} samples, 2 processes", duration(_ASKED_S),
                 duration(SAMPLES / two), f"at the rate of {_REAL} real samples")  # fmt: skip
    stand_ins = stand_in_plan(row, job.columns, 1, _STAND_INS)
    yield from _shared_out(run, stand_ins, "samples that take no time", library)
    if library is not None:
        yield from _schedules(run, plan, row, prepare_s, sample_s, library)


def _sample_s(plan: Plan, prepared: Any, samples: int) -> tuple[float, str]:
    """Return the mean processor time of some samples, one after the other, and how many these are.

    No median: samples that follow each other have much in common, but not each with the last.
    """
    times = [_cpu_s(partial(plan.sample, prepared, n))[0] for n in range(samples)]
    return mean(times), counted(samples, "sample")


def _cpu_s(work: Callable[[], Any]) -> tuple[float, Any]:
    """Return the processor time that something takes, in all threads of this process."""
    begin = time.process_time()
    result = work()
    return time.process_time() - begin, result


def _shortened(plan: Plan, samples: int) -> Plan:
    """Return a plan with the first samples of its job alone."""
    return replace(plan, jobs=(replace(plan.jobs[0], count=samples),))


def _sizes(plan: Plan, row: Row) -> Iterator[Figure]:
    """Yield what goes to a process and comes back."""
    counts = counted(len(plan.jobs[0].columns), "column")
    of_job = len(ForkingPickler.dumps((0, parcel(plan, 0))))
    of_sample = len(ForkingPickler.dumps(range(7, 8)))
    back = len(ForkingPickler.dumps(packed(row, plan.jobs[0].columns)))
    yield Figure("study: sent to a process, a case", "", f"{of_job:,} bytes",
                 "once; settings of samples follow from it")  # fmt: skip
    yield Figure("study: sent to a process, a sample", "", f"{of_sample:,} bytes", "its number")
    yield Figure("study: sent back, a sample", "", f"{back:,} bytes", counts)


def _distributed() -> ModuleType | None:
    try:
        return importlib.import_module("distributed")
    except ModuleNotFoundError:
        return None


def _cluster(library: ModuleType, workers: int) -> AbstractContextManager[Any]:
    cluster: AbstractContextManager[Any] = library.LocalCluster(
        n_workers=workers, threads_per_worker=1, processes=True, dashboard_address=":0"
    )
    return cluster


def _shared_out(
    run: Run, plan: Plan, what: str, library: ModuleType | None
) -> Generator[Figure, None, float]:
    """Yield samples a second by our hands, storing them, and by other libraries, which do not.

    Return those of two processes of ours.
    """
    counts = f"{plan.jobs[0].count} {what}, the later half"
    run.say(f"{what}, 1 process")
    alone = _ours(plan, LocalHands(1))
    yield Figure("study: 1 process", "", f"{significant(alone)} a second", counts)
    run.say(f"{what}, 2 processes")
    spent_s, two = _cpu_s(lambda: _ours(plan, LocalHands(2)))
    found = f"{significant(two)} a second, {significant(two / alone)} times"
    yield Figure("study: 2 processes", "", found, counts)
    yield Figure("study: giving out and storing a sample, 2 processes", "",
                 duration(spent_s / plan.jobs[0].count),
                 "processor time of the process that stores")  # fmt: skip
    run.say(f"{what}, concurrent.futures")
    with ProcessPoolExecutor(2, get_context("spawn"), hold, (plan,)) as pool:
        theirs = _rate(pool.map(held_sample, range(plan.jobs[0].count)))
    yield _beside("concurrent.futures, 2 processes", theirs, two, counts)
    if library is None:
        yield Figure("study: on a Dask cluster", "", "not measured", "distributed is not installed")
        return two
    for workers in (1, 2):
        run.say(f"{what}, Dask cluster of {workers}")
        yield from _on_cluster(plan, library, workers, counts)
    return two


def _on_cluster(plan: Plan, library: ModuleType, workers: int, counts: str) -> Iterator[Figure]:
    with _cluster(library, workers) as cluster:
        ours = _ours(plan, ClusterHands(cluster.scheduler_address, _REAL_A_TASK))
        yield Figure(f"study: Dask cluster of {workers}, {_REAL_A_TASK} samples a task", "",
                     f"{significant(ours)} a second", counts)  # fmt: skip
        with library.Client(cluster, set_as_default=False) as client:
            each = [client.submit(hold, plan, workers=[it], pure=False) for it in client.nthreads()]
            client.gather(each)
            futures = client.map(held_sample, range(plan.jobs[0].count), pure=False)
            theirs = _rate(library.as_completed(futures, loop=client.loop, with_results=True))
    yield _beside(f"Dask client.map, {counted(workers, 'worker')}", theirs, ours, counts)


def _beside(library: str, theirs: float, ours: float, counts: str) -> Figure:
    found = f"{significant(theirs)} a second (ours {significant(ours / theirs)} times)"
    return Figure(f"the same by {library}, not stored", "", found, counts)


def _rate(results: Any) -> float:
    """Return how many results a second come, from half of them on."""
    return _later_rate([(time.perf_counter(), 1) for _ in results])


def _ours(plan: Plan, hands: Hands) -> float:
    """Return how many samples a second are run and stored, from half of them on."""
    marks: list[tuple[float, int]] = []
    done = 0

    def note(progress: Progress) -> None:
        nonlocal done
        if progress.done > done:
            marks.append((time.perf_counter(), progress.done - done))
            done = progress.done

    with tempfile.TemporaryDirectory() as folder:
        run_study(plan, FolderStore(Path(folder) / "study"), hands, note)
    return _later_rate(marks)


def _later_rate(marks: list[tuple[float, int]]) -> float:
    """Return samples a second, of the times at which some came, when half of them were there."""
    total = sum(samples for _, samples in marks)
    there = 0
    for at_s, samples in marks:
        there += samples
        if 2 * there >= total:
            return (total - there) / (marks[-1][0] - at_s)
    raise ValueError("nothing came")


def _schedules(
    run: Run, plan: Plan, row: Row, prepare_s: float, sample_s: float, library: ModuleType
) -> Iterator[Figure]:
    """Yield how long all cases take with more and more workers, and what holds them up."""
    loads = []
    with _cluster(library, 1) as cluster:
        for count in SAMPLES_A_TASK:
            run.say(f"the client of a cluster, {counted(count, 'sample')} a task")
            spent = [
                _client_s(plan, row, cluster.scheduler_address, jobs, count) for jobs in (1, 4)
            ]
            job_s = (spent[1] - spent[0]) / 3.0
            task_s = job_s / (SAMPLES / count)
            loads.append(Load(CASES, SAMPLES, prepare_s, sample_s, count, task_s))
            yield Figure(
                f"study: client and scheduler, a task of {counted(count, 'sample')}", "",
                duration(task_s), "processor time: handed out, received, stored, merged",
            )  # fmt: skip
    for workers in WORKERS:
        run.say(f"schedule of {counted(workers, 'worker')}")
        played = [(load, play(load, workers)) for load in loads]
        least_s = min(item.time_s for _, item in played)
        load, best = next(pair for pair in played if pair[1].time_s <= _ABOUT * least_s)
        yield Figure(
            f"study: {CASES:,} cases of {SAMPLES:,} samples, {counted(workers, 'worker')}", "",
            f"{_long(best.time_s)}, {best.sampling:.1%} sampling",
            f"played through; {counted(load.samples_a_task, 'sample')} a task; {_losses(best)}",
        )  # fmt: skip


def _client_s(plan: Plan, row: Row, address: str, jobs: int, samples_a_task: int) -> float:
    """Return the processor time of this process, scheduler included, for jobs of stand-ins."""
    stand_ins = stand_in_plan(row, plan.jobs[0].columns, jobs, SAMPLES)
    hands = ClusterHands(address, samples_a_task)
    with tempfile.TemporaryDirectory() as folder:
        store = FolderStore(Path(folder) / "study")
        return _cpu_s(lambda: run_study(stand_ins, store, hands, lambda _progress: None))[0]


def _losses(played: Played) -> str:
    """Return where the rest of the time of all workers goes, most first."""
    shares = {
        "preparing": played.preparing,
        "waiting for the client": played.waiting,
        "done before others": played.ending,
    }
    ordered = sorted(shares.items(), key=lambda item: -item[1])
    lost = ", ".join(f"{name} {share:.1%}" for name, share in ordered)
    return f"{lost}; client busy {played.client:.0%}"


def _long(time_s: float) -> str:
    """Return a time of hours or days."""
    hours = time_s / 3600.0
    return f"{significant(hours)} h" if hours < 100.0 else f"{significant(hours / 24.0)} days"
