"""How far a study is and how long it will take, and who gets which samples."""

from itertools import pairwise

import pytest

from kinematics.engine.local_hands import LocalHands
from kinematics.engine.progress import Pace, Progress, duration_words, progress_words
from kinematics.engine.run import run
from kinematics.engine.sharing import Sharing
from kinematics.engine.store import MemoryStore
from tests.made_studies import plan


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (0.0, "1 s"), (0.6, "1 s"), (7.4, "7 s"), (59.4, "59 s"), (59.6, "1 min"),
        (96.0, "1 min 40 s"), (100.0, "1 min 40 s"), (3594.0, "59 min 50 s"), (3596.0, "1 h"),
        (7800.0, "2 h 10 min"), (47.6 * 3600.0, "47 h 36 min"), (48.0 * 3600.0, "2 days"),
        (76.2 * 3600.0, "3 days 4 h"), (1e9, "11574 days 2 h"),
    ],
)  # fmt: skip
def test_times_are_said_as_one_would(seconds, words):
    """In at most two units, and no more finely than such an estimate is known."""
    assert duration_words(seconds) == words


@pytest.mark.parametrize(
    ("done", "total", "left_s", "words"),
    [
        (312, 1024, 98.0, "312 of 1,024 samples, about 1 min 40 s left"),
        (0, 1024, None, "0 of 1,024 samples"),
        (1024, 1024, 0.0, "1,024 of 1,024 samples"),
        (0, 0, 0.0, "0 of 0 samples"),
    ],
)
def test_progress_is_told_in_words(done, total, left_s, words):
    """As long as nothing is known of the time, none is told."""
    assert progress_words(Progress(done, total, "case-0", 1.0, left_s), "samples") == words


class Clock:
    """A clock that is set by hand."""

    def __init__(self):
        self.now = 100.0

    def __call__(self):
        """Return the time."""
        return self.now


def test_slow_first_samples_do_not_spoil_the_estimate():
    """Preparing takes a minute, then every sample 2 s: after a few, the rest is told exactly."""
    clock = Clock()
    pace = Pace(clock)
    assert pace.left_s(50) is None
    clock.now += 60.0
    pace.came(1)
    assert pace.left_s(50) is None
    for left in range(49, -1, -1):
        clock.now += 2.0
        pace.came(1)
        assert pace.left_s(left) == pytest.approx(2.0 * left)
    assert pace.spent_s == pytest.approx(160.0)


def test_the_estimate_follows_a_change_of_pace():
    """Samples of later jobs may take longer."""
    clock = Clock()
    pace = Pace(clock)
    for number in range(4000):
        clock.now += 1.0 if number < 2000 else 3.0
        pace.came(1)
    assert pace.left_s(100) == pytest.approx(300.0)


def test_blocks_of_samples_and_waiting_are_reckoned_in():
    """Ten at a time every 20 s; between two blocks time goes by, but no more than a block takes."""
    clock = Clock()
    pace = Pace(clock)
    for _ in range(5):
        clock.now += 20.0
        pace.came(10)
    assert pace.left_s(50) == pytest.approx(100.0)
    clock.now += 1.0
    assert pace.left_s(50) == pytest.approx(99.0)
    clock.now += 1000.0
    assert pace.left_s(50) == pytest.approx(80.0)


def test_progress_counts_what_was_there_before():
    """The time left is told from samples of this run alone."""
    given, store, told = plan(2, 10), MemoryStore(), []

    def stop(progress):
        told.append(progress)
        if progress.done == 4:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        run(given, store, LocalHands(1), stop)
    assert [item.done for item in told] == [0, 1, 2, 3, 4]
    again = []
    run(given, store, LocalHands(1), again.append)
    assert [item.done for item in again[:-1]] == list(range(4, 21))
    assert (again[0].left_s, again[0].job, again[0].total) == (None, "", 20)
    assert again[1].left_s is None
    assert again[2].left_s > 0.0
    assert [item.job for item in again[1:8]] == ["case-0"] * 6 + ["case-1"]
    assert (again[-1].done, again[-1].left_s) == (20, 0.0)


def test_workers_have_jobs_of_their_own_while_there_are_any():
    """Then they share, the one with most left first; every sample is given out once."""
    sharing = Sharing({0: (range(5),), 2: (range(2), range(7, 9)), 3: ()}, 3)
    first, second = sharing.next_for("a"), sharing.next_for("b")
    assert (first.job, first.numbers) == (0, range(3))
    assert (second.job, second.numbers) == (2, range(2))
    third = sharing.next_for("c")  # both have two left: the one begun first
    assert (third.job, third.numbers) == (0, range(3, 5))
    fourth = sharing.next_for("a")
    assert (fourth.job, fourth.numbers) == (2, range(7, 9))
    assert sharing.is_done
    assert sharing.next_for("b") is None


def test_a_dropped_job_is_not_given_out():
    """Who had it takes another."""
    sharing = Sharing({0: (range(9),), 1: (range(2),)}, 1)
    assert sharing.next_for("a").job == 0
    sharing.drop(0)
    assert [sharing.next_for("a").job for _ in range(2)] == [1, 1]
    sharing.drop(0)
    assert sharing.next_for("a") is None


@pytest.mark.parametrize("workers", [2, 3, 7])
@pytest.mark.parametrize("longest", [1, 4])
def test_workers_that_share_a_job_go_on_from_places_of_their_own(workers, longest):
    """Nearly all samples follow one that the same worker had; each is given out once."""
    sharing = Sharing({0: (range(1, 500), range(600, 1000))}, longest)
    given = {worker: [] for worker in range(workers)}
    while not sharing.is_done:
        for worker in given:
            task = sharing.next_for(worker)
            given[worker] += [] if task is None else task.numbers
    every = [number for numbers in given.values() for number in numbers]
    assert sorted(every) == [*range(1, 500), *range(600, 1000)]
    breaks = [b - a != 1 for numbers in given.values() for a, b in pairwise(numbers)]
    assert sum(breaks) <= 12 * workers
    assert max(map(len, given.values())) - min(map(len, given.values())) <= 3 * longest
