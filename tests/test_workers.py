"""Work in threads: stopped at once, watched on the way, and the same whoever does it."""

import os
import signal
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from functools import partial

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.contact import workers as workers_module
from kinematics.contact.closure import close
from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.pair import prepare
from kinematics.contact.workers import AT_ONCE, PARTS_A_THREAD, Workers
from kinematics.geometry.kernels import moved_nodes
from kinematics.geometry.kernels.watching import STOP
from kinematics.geometry.poses import identity_poses, opening_rotation
from tests.made_sheets import CODES, FAMILIES, patchwork, slightly_moved

#: So many poses take seconds; whoever is stopped at the first look has done few of them.
LONG = 100_000
ASKED = ("closure", "patches", "gaps")


class Seen(Workers):
    """Workers that keep the counts of their parts, to be read after a stop."""

    def run(self, count, block, *more, **named):
        """Run, and keep the counts."""

        def seen(first, last, watch):
            self.counts = watch[0]
            block(first, last, watch)

        super().run(count, seen, *more, **named)

    def done(self):
        """Return how many steps are done."""
        return int(self.counts[STOP + 1 :].sum()) if hasattr(self, "counts") else 0


@pytest.fixture(scope="module")
def pair():
    """Return two sheets of bumps, prepared."""
    return prepare(*FAMILIES["cusps"](5))


@pytest.fixture(scope="module")
def many(pair):
    """Return more poses near closure than anybody waits for."""
    poses = slightly_moved(1000, 1)
    return np.resize(poses @ opening_rotation(close(pair, poses).opening_rad), (LONG, 4, 4))


def ask(asked, pair, poses, workers):
    """Ask for one of the results that take long."""
    if asked == "closure":
        return close(pair, poses, workers=workers).opening_rad
    if asked == "patches":
        return patches(pair, poses, 0.3, workers).area_mm2
    return pair_gaps(pair, poses, 5.0, CODES, CODES, workers)


@pytest.mark.parametrize("threads", [1, 3])
@pytest.mark.parametrize("asked", ASKED)
def test_ctrl_c_leaves_most_poses_undone(pair, many, asked, threads):
    """Ctrl-C while the kernels run comes through, and every thread has then ended."""
    told, before = [], threading.active_count()

    def interrupt(done, total):
        told.append(done)
        signal.raise_signal(signal.SIGINT)

    workers = Seen(threads, interrupt)
    with pytest.raises(KeyboardInterrupt):
        ask(asked, pair, many, workers)
    assert len(told) == 1
    assert workers.done() < LONG / 2
    assert threading.active_count() <= before  # threads of other workers may end meanwhile


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
@pytest.mark.parametrize("asked", ASKED)
def test_ctrl_c_comes_through_where_nobody_watches(pair, many, asked):
    """Without a progress callback too: the signal comes once poses are being counted."""
    workers, main = Seen(2), threading.main_thread().ident

    def interrupt():
        while workers.done() == 0:
            time.sleep(0.001)
        signal.pthread_kill(main, signal.SIGINT)

    other = threading.Thread(target=interrupt)
    with pytest.raises(KeyboardInterrupt):
        other.start()
        ask(asked, pair, many, workers)
    other.join()
    assert 0 < workers.done() < LONG / 2


class Enough(Exception):
    """What a callback of the tests raises."""


@pytest.mark.parametrize("asked", ASKED)
def test_what_the_callback_raises_stops_the_work(pair, many, asked):
    """Any exception does, and it is that exception which comes out."""

    def stop(done, total):
        raise Enough

    workers = Seen(2, stop)
    with pytest.raises(Enough):
        ask(asked, pair, many, workers)
    assert workers.done() < LONG / 2


def test_threads_leave_off_within_one_step():
    """After a stop no thread takes a further step, and no further part is begun.

    Each part takes three steps and then waits to be told.
    """
    begun = []

    def block(first, last, watch):
        begun.append(first)
        counts, place = watch
        counts[place] += 3
        while counts[STOP] == 0:
            time.sleep(0.001)

    def stop(done, total):
        if done == 6:
            raise Enough

    workers = Seen(2, stop)
    with pytest.raises(Enough):
        workers.run(1000, block, 4)
    assert workers.done() == 6
    assert sorted(begun) == [0, 1000 // (2 * PARTS_A_THREAD) // 4 * 4]


def test_ctrl_c_between_two_orders_stops_what_was_ordered(monkeypatch):
    """Parts already run while others are still being handed out; they are told as well."""
    steps = []

    def block(first, last, watch):
        counts, _ = watch
        while counts[STOP] == 0 and len(steps) < 5000:
            time.sleep(0.001)
            steps.append(first)

    class Interrupted(ThreadPoolExecutor):
        def submit(self, *order):
            if order[1] > 0:
                raise KeyboardInterrupt
            return super().submit(*order)

    monkeypatch.setattr(workers_module, "ThreadPoolExecutor", Interrupted)
    with pytest.raises(KeyboardInterrupt):
        Workers(2).run(100, block, 4)
    assert len(steps) < 5000


def test_what_a_part_raises_stops_the_others():
    """A fault in one part comes out, and the others are told to leave off."""

    def block(first, last, watch):
        counts, place = watch
        if first == 0:
            raise Enough
        while counts[STOP] == 0:
            time.sleep(0.001)
        counts[place] += 1

    with pytest.raises(Enough):
        Workers(3).run(100, block, 4)


@pytest.mark.parametrize("threads", [1, 3])
@pytest.mark.parametrize("asked", ASKED)
def test_progress_grows_to_the_total_and_changes_nothing(pair, many, asked, threads):
    """Counts never fall, end at the total, and results are those of a run without progress."""
    told = []
    poses = many[:500]
    watched = ask(asked, pair, poses, Workers(threads, lambda *seen: told.append(seen)))
    done, totals = np.array(told).T
    assert (np.diff(done) >= 0).all()
    assert (totals == 500).all()
    assert done[-1] == totals[-1]
    np.testing.assert_array_equal(watched, ask(asked, pair, poses, None))


def test_progress_is_told_on_the_way(pair, many):
    """A run of some seconds is heard of before its end, in the thread that asked."""
    told, threads = [], set()

    def listen(done, total):
        told.append(done)
        threads.add(threading.current_thread())
        if len(told) == 3:
            raise Enough

    with pytest.raises(Enough):
        close(pair, many, workers=Workers(2, listen))
    assert told[0] < told[1] < told[2] < LONG
    assert threads == {threading.current_thread()}


def test_nothing_to_do_is_told_once(pair):
    """No pose: the callback hears 0 of 0."""
    told = []
    close(pair, identity_poses(0), workers=Workers(2, lambda *seen: told.append(seen)))
    assert told == [(0, 0)]


def test_few_poses_are_done_at_once():
    """So few are done in one piece by the thread that asks."""
    seen = []

    def block(first, last, watch):
        seen.append((first, last, threading.current_thread()))

    Workers(8).run(AT_ONCE, block, 4)
    assert seen == [(0, AT_ONCE, threading.current_thread())]


@pytest.mark.parametrize("count", [1, 5, 8, 17, 100, 1001])
@pytest.mark.parametrize("threads", [1, 2, 7])
@pytest.mark.parametrize("shortest", [1, 4, 8])
def test_parts_cover_every_pose_once(count, threads, shortest):
    """Whatever the numbers; no part but the last is a broken multiple of the shortest."""
    parts = []
    Workers(threads).run(count, lambda a, b, watch: parts.append((a, b)), shortest)
    parts.sort()
    assert np.concatenate([np.arange(a, b) for a, b in parts]).tolist() == list(range(count))
    assert all((b - a) % shortest == 0 for a, b in parts[:-1])


@pytest.mark.parametrize("rows", [1, 2, 50])
def test_however_few_moved_nodes_are_kept_the_bits_are_the_same(monkeypatch, pair, many, rows):
    """A search that must move nodes again and again, as on huge meshes, finds the same."""
    wanted = close(pair, many[:60])
    monkeypatch.setattr(workers_module, "MOVED_NODES", rows)
    got = close(pair, many[:60])
    np.testing.assert_array_equal(got.opening_rad, wanted.opening_rad)
    np.testing.assert_array_equal(got.point, wanted.point)


def test_memory_is_lent_again_and_fits_the_pair(pair, many):
    """One thread after the other gets the same memory, another pair gets its own."""
    workers = Workers()
    with workers.closing_scratch(pair) as first, workers.closing_scratch(pair) as second:
        assert second[2] is not first[2]
    with workers.closing_scratch(pair) as again:
        assert again[2] is first[2]
    other = prepare(patchwork(1, 5, -30, 1.0), patchwork(2, 6, -33, 0.7))
    with workers.closing_scratch(other) as fresh:
        assert len(fresh[0]) == len(other.upper.arrays.links)
    mixed = [close(each, many[:9], workers=workers).opening_rad for each in (pair, other, pair)]
    np.testing.assert_array_equal(mixed[0], mixed[2])
    np.testing.assert_array_equal(mixed[1], close(other, many[:9]).opening_rad)


def test_numbers_of_moved_nodes_may_run_out(pair, many):
    """After two thousand million moved nodes counting begins anew, which changes nothing."""

    class Tired(Workers):
        @contextmanager
        def closing_scratch(self, pair):
            with super().closing_scratch(pair) as scratch:
                scratch[1][0] = moved_nodes.MOST_ROWS - 20
                yield scratch

    got = close(pair, many[:60], workers=Tired())
    np.testing.assert_array_equal(got.opening_rad, close(pair, many[:60]).opening_rad)


@pytest.mark.parametrize("threads", [0, -1, 257])
def test_a_number_of_threads_out_of_range_is_refused(threads):
    """The message says how many there may be."""
    with pytest.raises(InputError, match=f"threads = {threads}: must be 1 to 256"):
        Workers(threads)


@pytest.mark.parametrize("threads", [1, 3])
def test_tasks_side_by_side_come_out_in_their_order(pair, many, threads):
    """Each with workers of one thread; results are those of one after the other, progress grows."""
    told, seen = [], []

    def task(part, workers):
        seen.append(workers.threads)
        time.sleep(0.02 * (5 - part))
        return close(pair, many[10 * part : 10 * part + 10], workers=workers).opening_rad

    tasks = [partial(task, part) for part in range(5)]
    found = Workers(threads, lambda *now: told.append(now)).side_by_side(tasks)
    np.testing.assert_array_equal(np.concatenate(found), close(pair, many[:50]).opening_rad)
    assert set(seen) == {1} and len(seen) == 5
    if threads > 1:
        assert told == sorted(told) and told[-1] == (5, 5)


def test_a_task_that_fails_stops_those_beside_it(pair, many):
    """What runs leaves off within its sweep, what waits never begins, and the fault comes out."""
    begun, ended = [], []

    def fails(workers):
        while not begun:
            time.sleep(0.001)
        raise Enough

    def runs(workers):
        begun.append(1)
        close(pair, many, workers=workers)
        ended.append(1)

    with pytest.raises(Enough):
        Workers(2).side_by_side([fails, *[runs] * 6])
    assert len(begun) < 6 and len(ended) < len(begun)


def test_what_progress_raises_stops_tasks(pair, many):
    """As Ctrl-C does, in the thread that asked."""

    def stop(done, total):
        raise KeyboardInterrupt

    start = time.monotonic()
    with pytest.raises(KeyboardInterrupt):
        Workers(2, stop).side_by_side([lambda workers: close(pair, many, workers=workers)] * 6)
    assert time.monotonic() - start < 5.0
