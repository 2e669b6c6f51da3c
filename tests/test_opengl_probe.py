"""The question whether this machine can draw is asked safely, and its answer is plain."""

import os
import subprocess
import sys

import pytest

from scenes import opengl_probe
from tests.machine import need_opengl


@pytest.fixture
def fresh_probe(monkeypatch):
    """Forget the answer before and after, and leave the environment as it was."""
    monkeypatch.setenv(opengl_probe.WINDOW_VARIABLE, "to be restored")
    monkeypatch.delenv(opengl_probe.WINDOW_VARIABLE)
    opengl_probe.probe.cache_clear()
    yield opengl_probe.probe
    opengl_probe.probe.cache_clear()


def test_a_child_that_dies_is_survived():
    """A child ended by the signal of a missing library only means: not this way."""
    death = "import os, signal; print('red by X', flush=True); os.kill(os.getpid(), signal.SIGSEGV)"
    assert opengl_probe.ask_child(None, death) is None


def test_a_child_that_draws_something_else_is_no_proof():
    """Only a child that read back pure red counts."""
    assert opengl_probe.ask_child(None, "print('drew nothing')") is None


def test_a_child_ends_with_the_process_that_asked():
    """Its input, which nobody writes to, closes then; without that it would go on."""
    program = opengl_probe._ENDING + "import time; time.sleep(600)"
    with subprocess.Popen([sys.executable, "-c", program], stdin=subprocess.PIPE) as child:
        with pytest.raises(subprocess.TimeoutExpired):
            child.wait(timeout=0.5)
        child.stdin.close()
        assert child.wait(timeout=60) == 1


def test_the_kind_of_window_asked_for_reaches_the_child():
    """The child sees the kind of window in its environment; this process does not change."""
    before = os.environ.get(opengl_probe.WINDOW_VARIABLE)
    told = f"import os; print('red by', os.environ['{opengl_probe.WINDOW_VARIABLE}'])"
    assert opengl_probe.ask_child("vtkSomeWindow", told) == "vtkSomeWindow"
    assert os.environ.get(opengl_probe.WINDOW_VARIABLE) == before


def test_every_kind_is_tried_before_giving_up_and_the_answer_is_kept(fresh_probe, monkeypatch):
    """Where nothing draws, all kinds were tried once, and one line names the packages."""
    asked = []
    monkeypatch.setattr(opengl_probe, "ask_child", lambda window: asked.append(window))
    answers = [fresh_probe(), fresh_probe()]
    assert asked == [None, "vtkEGLRenderWindow", "vtkOSOpenGLRenderWindow"]
    assert answers[0] is answers[1]
    assert answers[0].window is None
    assert "\n" not in answers[0].missing
    for package in ("libegl1", "libgl1-mesa-dri"):
        assert package in answers[0].missing


def test_a_window_found_by_a_detour_is_taken_directly_afterwards(fresh_probe, monkeypatch):
    """The kind that works is written to the environment, so that drawing does not search again."""
    monkeypatch.setattr(
        opengl_probe, "ask_child", lambda window: "vtkEGLRenderWindow" if window else None
    )
    assert fresh_probe() == opengl_probe.Drawing("vtkEGLRenderWindow")
    assert os.environ[opengl_probe.WINDOW_VARIABLE] == "vtkEGLRenderWindow"


def test_this_machine_draws_red(fresh_probe):
    """Where OpenGL works, the real child says with which kind of window."""
    need_opengl()
    found = fresh_probe()
    assert found.window is not None
    assert found.window.endswith("RenderWindow")
    assert found.missing == ""
