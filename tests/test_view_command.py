"""What `cuspway view` refuses, in words and before anything is computed."""

import pytest

from scenes import command_line, display_probe, opengl_probe
from tests.machine import need_opengl


@pytest.fixture
def fresh_probe(monkeypatch):
    """Forget what was found of this machine before and after, and keep the environment."""
    monkeypatch.setenv(opengl_probe.WINDOW_VARIABLE, "to be restored")
    monkeypatch.delenv(opengl_probe.WINDOW_VARIABLE)
    opengl_probe.probe.cache_clear()
    yield monkeypatch
    opengl_probe.probe.cache_clear()


@pytest.mark.parametrize(
    ("screen_named", "said"),
    [("", "this terminal has none (DISPLAY is not set)"), (":4242", "':4242', cannot be opened")],
)
def test_without_a_display_it_says_what_to_do(fresh_probe, capsys, screen_named, said):
    """Exit code 2, in words, before anything is computed."""
    need_opengl()
    fresh_probe.setenv("DISPLAY", screen_named)
    assert command_line.main(["view", "natural_dentition"]) == 2
    error = capsys.readouterr().err
    assert said in error
    assert "cuspway page" in error and "cuspway film" in error
    assert "building" not in error


def test_without_opengl_it_says_what_is_missing(monkeypatch, capsys):
    """And what to do instead."""
    missing = opengl_probe.Drawing(None, opengl_probe.MISSING_TEXT)
    monkeypatch.setattr(display_probe, "probe", lambda: missing)
    assert command_line.main(["view", "natural_dentition"]) == 2
    error = capsys.readouterr().err
    assert "needs OpenGL" in error and "apt-get install" in error and "cuspway page" in error


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("no_such_case",), "no_such_case"),
        (("--pictures", "nowhere"), "--pictures nowhere: there is no such folder"),
    ],
)
def test_what_cannot_be_used_is_told_at_once(arguments, said, capsys, tmp_path, monkeypatch):
    """With exit code 2."""
    monkeypatch.chdir(tmp_path)
    assert command_line.main(["view", *arguments]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--size", "900x700"), "from 1000x700 to 3840x2160"),
        (("--travel", "13"), "'13': must be a number from 0 to 12 mm"),
        (("--movement", "up"), "invalid choice: 'up'"),
    ],
)
def test_wrong_arguments_are_told(arguments, said, capsys):
    """What was found and what is accepted."""
    with pytest.raises(SystemExit) as end:
        command_line.main(["view", *arguments])
    assert end.value.code == 2
    assert said in " ".join(capsys.readouterr().err.split())
