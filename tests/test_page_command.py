"""The command `cuspway page` in a process of its own: how it starts, and how it ends."""

import json
import os
import re
import signal
import socket
import subprocess
import sys
from contextlib import contextmanager

import pytest
from websockets.sync.client import connect

from scenes.command_arguments import BAD_INPUT, FINISHED, build_parser
from scenes.page_frames import header_of
from scenes.page_server import listen
from tests.fresh_python import ROOT, run_python
from tests.running_page import STATE

#: The command with a desk that computes nothing and a browser that says what it would show.
_COMMAND = """
import sys, types, webbrowser
from tests.running_page import FILES
from tests.stand_in_desk import StandInDesk
desk = types.ModuleType("scenes.page_desk")
desk.Desk = lambda threads, given: StandInDesk()
sys.modules["scenes.page_desk"] = desk
webbrowser.open = lambda address: print("browser", address, flush=True)
import scenes.page_command
scenes.page_command.served_files = lambda: FILES
from scenes.command_line import main
sys.exit(main(["page", *sys.argv[1:]]))
"""
posix_only = pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")


@contextmanager
def started(*arguments):
    """Start the command and give it with the address it prints."""
    process = subprocess.Popen(
        [sys.executable, "-W", "error", "-c", _COMMAND, *arguments],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    try:
        line = process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)/\?token=(\S+)$", line)
        assert found, (line, process.communicate(timeout=20.0))
        assert process.stdout.readline() == "Ctrl-C ends it.\n"
        yield process, int(found[1]), found[2]
    finally:
        process.kill()
        process.communicate()


@contextmanager
def page(port, token):
    """Give a page of a running command, welcomed."""
    address = f"ws://127.0.0.1:{port}/socket?token={token}"
    with connect(address, origin=f"http://127.0.0.1:{port}", compression=None) as channel:
        told = header_of(channel.recv(20.0))
        assert told["kind"] == "welcome"
        yield channel, told["first"]


@posix_only
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
@pytest.mark.parametrize("movement", [None, "slow", "deaf"])
def test_a_signal_ends_it_with_a_line(number, movement):
    """With a page open, in the middle of computing too, and without a traceback."""
    with started("--no-browser") as (process, port, token), page(port, token) as (channel, _):
        if movement:
            message = {"kind": "show", "number": 1, **STATE, "movement": movement}
            channel.send(json.dumps(message))
            assert header_of(channel.recv(20.0))["kind"] == "pose"
        process.send_signal(number)
        said, warned = process.communicate(timeout=20.0)
    assert process.returncode == FINISHED
    assert said == "The page has ended.\n"
    assert warned == ""


@posix_only
def test_a_page_that_does_not_read_does_not_keep_it_from_ending():
    """Nor does a connection that says nothing."""
    with (
        started("--no-browser") as (process, port, token),
        page(port, token) as (channel, _),
        socket.create_connection(("127.0.0.1", port)),
    ):
        channel.send(json.dumps({"kind": "show", "number": 1, **STATE, "movement": "large"}))
        process.send_signal(signal.SIGINT)
        said, warned = process.communicate(timeout=20.0)
    assert (process.returncode, said, warned) == (FINISHED, "The page has ended.\n", "")


def test_an_error_of_the_program_is_printed_once():
    """In a line, however often it happens; the page is told every time."""
    with started("--no-browser") as (process, port, token), page(port, token) as (channel, _):
        for number in range(3):
            message = {"kind": "show", "number": number, **STATE, "movement": "broken"}
            channel.send(json.dumps(message))
            assert header_of(channel.recv(20.0))["kind"] == "fault"
        process.terminate()
        _, warned = process.communicate(timeout=20.0)
    assert warned == (
        "cuspway: internal error: ZeroDivisionError: division by zero; "
        "repeat with --traceback to see where\n"
    )


def test_a_browser_is_opened_on_the_address():
    """The same as is printed."""
    with started() as (process, port, token):
        line = process.stdout.readline()
    assert line == f"browser http://127.0.0.1:{port}/?token={token}\n"


@pytest.mark.parametrize(
    ("given", "name", "travel_mm"),
    [
        ([], "upper_distal_extension", 2.0),
        (["deep_overbite"], "deep_overbite", 2.0),
        (["FILE"], "given", 0.0),
    ],
)
def test_the_page_begins_with_the_case_named(tmp_path, given, name, travel_mm):
    """A built-in case by its name, a file as the case that was given and in MI."""
    file = tmp_path / "mine.toml"
    file.write_text("title = 'Mine'\n", "utf-8")
    arguments = [str(file) if argument == "FILE" else argument for argument in given]
    with started("--no-browser", *arguments) as (_, port, token), page(port, token) as (_, first):
        assert (first["case"], first["start"], first["travel_mm"]) == (name, "MI", travel_mm)


@pytest.mark.parametrize(
    ("arguments", "text"),
    [
        (["no_such_case"], "no_such_case: neither a file nor a built-in case"),
        (["no_such_file.toml"], "no_such_file.toml: there is no such file"),
        (["--port", "TAKEN"], "cannot be listened on"),
        (["--host", "203.0.113.7"], "203.0.113.7, any port: cannot be listened on"),
    ],
)
def test_what_cannot_be_used_is_refused_before_it_starts(arguments, text):
    """In one line, with the exit code for it."""
    with listen("127.0.0.1", 0) as taken:
        port = str(taken.getsockname()[1])
        done = run_python(
            "-c", _COMMAND, "--no-browser", *(port if a == "TAKEN" else a for a in arguments)
        )
    assert (done.returncode, done.stdout) == (BAD_INPUT, "")
    assert text in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize(
    "arguments", [["--port", "65536"], ["--port", "-1"], ["--port", "x"], ["--threads", "0"]]
)
def test_numbers_out_of_range_are_refused_by_their_option(arguments, capsys):
    """Before anything is loaded."""
    with pytest.raises(SystemExit) as caught:
        build_parser().parse_args(["page", *arguments])
    assert caught.value.code == BAD_INPUT
    assert f"argument {arguments[0]}: " in capsys.readouterr().err


def test_who_listens_on_a_network_is_warned():
    """Anybody with the address can use it."""
    with (
        started("--no-browser", "--host", "0.0.0.0") as (process, port, token),
        page(port, token),
    ):
        process.terminate()
        _, warned = process.communicate(timeout=20.0)
    assert warned == (
        "cuspway: listening on 0.0.0.0: anybody on that network who has the address can use this "
        "page and see its case\n"
    )
