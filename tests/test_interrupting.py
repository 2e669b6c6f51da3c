"""A running check that is told to stop, or killed, leaves nothing behind."""

import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path

import pytest

from scenes.command_arguments import INTERRUPTED
from tests.fresh_python import ROOT


def _alive(group):
    """Return the processes of a group that still run, where the system tells."""
    found = []
    for entry in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):  # it may end while we look
            state, _, own_group = entry.read_text().rsplit(")", 1)[1].split()[:3]
            if int(own_group) == group and state != "Z":
                found.append(entry.parent.name)
    return found


def _started(folder, until):
    """Start a check with a process group of its own, as a terminal does; wait for a step."""
    case, out = folder / "case.toml", folder / "new" / "out"
    case.write_text("[dentition]\ntriangles_per_arch = 10000\n", "utf-8")
    process = subprocess.Popen(
        [sys.executable, "-m", "scenes.command_line", "check", str(case), "--out", str(out)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    seen = ""
    while until and until not in seen:
        line = process.stderr.readline()
        assert line, seen
        seen += line
    return process


def _group_ends(group):
    """Tell whether all processes of a group end, given a moment."""
    patience = time.monotonic() + 10.0
    while _alive(group) and time.monotonic() < patience:
        time.sleep(0.05)
    return _alive(group) == []


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
@pytest.mark.parametrize(
    ("stop", "until"),
    [
        ("Ctrl-C", "building the teeth"),
        ("Ctrl-C twice", "building the teeth"),
        ("request to stop", "building the teeth"),
        ("Ctrl-C", "following right lateral"),
    ],
)
def test_a_signal_ends_it_at_once_with_one_line(tmp_path, stop, until):
    """Exit code 130, no traceback from any process, nothing left running or lying about."""
    process = _started(tmp_path, until)
    if stop == "request to stop":
        process.terminate()
    else:
        os.killpg(process.pid, signal.SIGINT)
        if stop == "Ctrl-C twice":
            os.killpg(process.pid, signal.SIGINT)
    printed, said = process.communicate(timeout=60)
    told = [line for line in said.splitlines() if " s  " not in line]  # but for further steps
    assert told == ["cuspway: interrupted; nothing was written"]
    assert (process.returncode, printed) == (INTERRUPTED, "")
    assert [path.name for path in tmp_path.iterdir()] == ["case.toml"]
    assert _group_ends(process.pid)


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
def test_nothing_goes_on_drawing_when_the_program_is_killed(tmp_path):
    """Its drawing process notices, although nobody could tell it."""
    process = _started(tmp_path, "building the teeth")
    process.kill()
    process.communicate(timeout=60)
    assert _group_ends(process.pid)
