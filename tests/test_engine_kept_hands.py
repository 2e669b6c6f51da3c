"""Processes that stay from one plan to the next: the same bits, and ended with their block."""

import multiprocessing
from dataclasses import replace

from kinematics.engine.local_hands import KeptHands, LocalHands
from kinematics.engine.run import run
from kinematics.engine.store import MemoryStore
from tests.made_studies import bits, log_lines, plan, silent


def done_by(hands, given):
    """Return the bits of a study that some hands run."""
    store = MemoryStore()
    run(given, store, hands, silent)
    return bits(store, given)


def test_plans_one_after_another_share_processes_and_get_the_same_bits(tmp_path):
    """Jobs of another plan are prepared anew, though they have the place of those before."""
    first = plan(2, 12, tmp_path / "log")
    other = replace(first, jobs=first.jobs[::-1])
    with KeptHands(2) as kept:
        assert not kept.have_begun
        for given in (first, other, first):
            assert done_by(kept, given) == done_by(LocalHands(1), given)
        assert kept.have_begun and len(multiprocessing.active_children()) == 2
    assert not kept.have_begun and multiprocessing.active_children() == []
    here_and_there = {process for *_, process in log_lines(tmp_path / "log")}
    assert len(here_and_there) == 3


def test_of_one_process_nothing_is_started():
    """Nor for a single sample."""
    for count, samples in ((1, 5), (2, 1)):
        with KeptHands(count) as kept:
            assert done_by(kept, plan(1, samples)) == done_by(LocalHands(1), plan(1, samples))
            assert not kept.have_begun and multiprocessing.active_children() == []
