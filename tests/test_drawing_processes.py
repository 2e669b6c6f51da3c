"""Drawing elsewhere gives the same bytes, and the end of a process is never waited for."""

import math
import os
import signal
import time
from dataclasses import replace
from multiprocessing import active_children

import pytest

from scenes.drawing_processes import DrawingProcessEndedError, InLine, drawing_processes
from scenes.report import html_report, orders_for
from tests.fresh_python import run_python
from tests.test_report import WORDS, Page


def _report(example, drawing, meanwhile=lambda: None):
    """Return the report with everything ordered from `drawing`, and why it is simplified."""
    orders = orders_for(WORDS, drawing)
    orders.teeth(example.upper, example.lower, example.borders)
    meanwhile()
    for sweep in example.sweeps:
        orders.movement(sweep)
    drawings = orders.rest(example)
    return html_report(example, WORDS, drawings), drawings.simplified


def test_a_report_is_the_same_bytes_whoever_draws_it(example):
    """At once in this process, or in two others that share the orders."""
    few = replace(example, sweeps=example.sweeps[1:3])
    here = html_report(few, WORDS)
    with drawing_processes(2) as drawing:
        assert _report(few, drawing)[0] == here


def test_results_and_errors_come_back():
    """What a function returns or raises in its process is what the future gives."""
    with drawing_processes(1) as drawing:
        assert drawing.submit(os.getpid).result() != os.getpid()
        assert drawing.submit(math.sqrt, 4.0).result() == 2.0
        with pytest.raises(ValueError, match="math domain"):
            drawing.submit(math.sqrt, -4.0).result()
        assert drawing.submit(pow, 2, exp=5).result() == 32
    assert InLine().submit(math.sqrt, 4.0).result() == 2.0
    with pytest.raises(ValueError, match="math domain"):
        InLine().submit(math.sqrt, -4.0)


def test_several_processes_share_the_orders():
    """Two orders that take a while are carried out by two processes."""
    with drawing_processes(2) as drawing:
        waits = [drawing.submit(time.sleep, 0.5) for _ in range(2)]
        assert [wait.result() for wait in waits] == [None, None]
        assert len(active_children()) == 2


def test_the_end_of_a_process_is_noticed_at_once():
    """The order it had, and all that come after, say so; nobody waits."""
    with drawing_processes(1) as drawing:
        (process,) = active_children()
        waiting = [drawing.submit(time.sleep, 600.0), drawing.submit(math.sqrt, 4.0)]
        process.kill()
        for order in (*waiting, drawing.submit(math.sqrt, 4.0)):
            with pytest.raises(DrawingProcessEndedError, match="ended unexpectedly"):
                order.result(timeout=60.0)


def test_processes_end_with_their_block():
    """Even in the middle of an order, and when the block ends with an error."""
    with pytest.raises(ZeroDivisionError), drawing_processes(2) as drawing:
        drawing.submit(time.sleep, 600.0)
        raise ZeroDivisionError
    assert active_children() == []


def test_a_report_survives_the_end_of_its_drawing_process(example):
    """Plots are drawn here instead, teeth simplified, and the report says why."""
    few = replace(example, sweeps=example.sweeps[1:2])
    with drawing_processes(1) as drawing:
        (process,) = active_children()
        html, simplified = _report(few, drawing, process.kill)
    assert "a drawing process ended unexpectedly" in simplified
    page, whole = Page(html), Page(html_report(few, WORDS))
    assert page.text.count(simplified) == 1
    assert page.tags.count("svg") == whole.tags.count("svg")
    assert sum(address.startswith("data:image/jpeg") for address in page.addresses) == 3


def test_what_draws_loads_nothing_that_computes():
    """A drawing process is ready early because it fetches neither kernels nor settings."""
    unwanted = ("numba", "scipy", "pydantic", "jinja2", "kinematics.checkup", "scenes.report")
    code = f"import sys, scenes.writers; print([m for m in {unwanted} if m in sys.modules])"
    done = run_python("-c", code)
    assert (done.returncode, done.stdout.strip()) == (0, "[]"), done.stderr


@pytest.mark.skipif(not hasattr(signal, "pthread_sigmask"), reason="no signal masks here")
def test_signals_are_as_before_once_the_processes_run():
    """What was held back while they started comes through again."""
    with drawing_processes(1):
        held_back = signal.pthread_sigmask(signal.SIG_BLOCK, ())
        assert not held_back & {signal.SIGINT, signal.SIGTERM}
