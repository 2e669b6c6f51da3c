"""The schedule that benchmarks play through is what can be reckoned by hand."""

import pytest

from benchmarks.schedule import Load, play


def test_one_worker_does_everything_in_turn():
    """Its time is that of all samples and jobs; while it works, the client is quick enough."""
    played = play(Load(3, 10, 5.0, 2.0, 5, 0.1), 1)
    # Half a client's time until the first task comes, and a whole one after the last.
    assert played.time_s == pytest.approx(0.05 + 3 * (5.0 + 20.0) + 0.1)
    assert played.sampling == pytest.approx(60.0 / played.time_s)
    assert played.preparing == pytest.approx(15.0 / played.time_s)
    assert played.client == pytest.approx((2 * 0.05 + 6 * 0.1) / played.time_s)


def test_workers_have_jobs_of_their_own():
    """As many workers as jobs: each prepares one."""
    played = play(Load(4, 10, 5.0, 2.0, 5, 0.0), 4)
    assert played.time_s == pytest.approx(25.0)
    assert (played.sampling, played.preparing) == pytest.approx((0.8, 0.2))
    assert played.waiting == played.ending == 0.0


def test_workers_share_the_last_job():
    """Each prepares it, and runs half of it."""
    played = play(Load(1, 10, 5.0, 2.0, 1, 0.0), 2)
    assert played.time_s == pytest.approx(15.0)
    assert played.preparing == pytest.approx(10.0 / 30.0)


def test_more_workers_than_there_is_work_for_are_done_before_others():
    """One job, one task: all but one have nothing to do."""
    played = play(Load(1, 10, 0.0, 2.0, 10, 0.0), 5)
    assert played.time_s == pytest.approx(20.0)
    assert played.ending == pytest.approx(0.8)


def test_a_slow_client_lets_workers_wait():
    """It takes a second for every task, and many workers want one each second."""
    played = play(Load(50, 20, 0.0, 0.1, 10, 1.0), 20)
    assert played.time_s == pytest.approx(100.0, rel=0.25)
    assert played.client > 0.95
    assert played.waiting + played.ending > 0.9
    shares = (played.sampling, played.preparing, played.waiting, played.ending)
    assert sum(shares) == pytest.approx(1.0)


@pytest.mark.parametrize("workers", [1, 3, 17])
def test_nothing_is_lost(workers):
    """The time of all workers is what they do and what they wait."""
    load = Load(7, 23, 3.0, 0.5, 4, 0.2)
    played = play(load, workers)
    shares = (played.sampling, played.preparing, played.waiting, played.ending)
    assert sum(shares) == pytest.approx(1.0)
    assert min(shares) >= 0.0
    assert played.time_s * workers * played.sampling == pytest.approx(7 * 23 * 0.5)
