"""The command `cuspway page` in a process of its own: how it starts, and how it ends."""

import json
import os
import re
import signal
import socket
from contextlib import contextmanager

import pytest
from websockets.sync.client import connect

from scenes.command_arguments import BAD_INPUT, FINISHED, build_parser
from scenes.page_frames import header_of
from scenes.page_server import listen
from tests.ready_command import ready_command, started_anew
from tests.running_page import STATE

posix_only = pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")


@pytest.fixture(scope="module")
def begin():
    """Return what begins the command at once."""
    with ready_command() as start:
        yield start


@pytest.fixture
def started(begin, tmp_path):
    """Return what begins the command, and gives it with the address it prints."""

    @contextmanager
    def give(*arguments, begin=begin):
        command = begin(tmp_path, arguments)
        try:
            line = command.line()
            found = re.search(r"http://127\.0\.0\.1:(\d+)/\?token=(\S+)\n$", line)
            assert found, (line, command.end())
            assert command.line() == "Ctrl-C ends it.\n"
            yield command, int(found[1]), found[2]
        finally:
            command.kill()

    return give


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
def test_a_signal_ends_it_with_a_line(started, number, movement):
    """With a page open, in the middle of computing too, and without a traceback."""
    with started("--no-browser") as (command, port, token), page(port, token) as (channel, _):
        if movement:
            message = {"kind": "show", "number": 1, **STATE, "movement": movement}
            channel.send(json.dumps(message))
            assert header_of(channel.recv(20.0))["kind"] == "pose"
        command.send_signal(number)
        ended = command.end()
    assert ended == (FINISHED, "The page has ended.\n", "")


@posix_only
def test_a_signal_ends_it_where_it_has_just_been_started(started):
    """In a Python of its own, as it is begun in a terminal."""
    with started("--no-browser", begin=started_anew) as (command, port, token), page(port, token):
        command.send_signal(signal.SIGINT)
        assert command.end() == (FINISHED, "The page has ended.\n", "")


@posix_only
def test_a_page_that_does_not_read_does_not_keep_it_from_ending(started):
    """Nor does a connection that says nothing."""
    with (
        started("--no-browser") as (command, port, token),
        page(port, token) as (channel, _),
        socket.create_connection(("127.0.0.1", port)),
    ):
        channel.send(json.dumps({"kind": "show", "number": 1, **STATE, "movement": "large"}))
        command.send_signal(signal.SIGINT)
        ended = command.end()
    assert ended == (FINISHED, "The page has ended.\n", "")


def test_an_error_of_the_program_is_printed_once(started):
    """In a line, however often it happens; the page is told every time."""
    with started("--no-browser") as (command, port, token), page(port, token) as (channel, _):
        for number in range(3):
            message = {"kind": "show", "number": number, **STATE, "movement": "broken"}
            channel.send(json.dumps(message))
            assert header_of(channel.recv(20.0))["kind"] == "fault"
        command.send_signal(signal.SIGTERM)
        *_, warned = command.end()
    assert warned == (
        "cuspway: internal error: ZeroDivisionError: division by zero; "
        "repeat with --traceback to see where\n"
    )


def test_a_browser_is_opened_on_the_address(started):
    """The same as is printed."""
    with started() as (command, port, token):
        line = command.line()
    assert line == f"browser http://127.0.0.1:{port}/?token={token}\n"


@pytest.mark.parametrize(
    ("given", "name", "travel_mm"),
    [
        ([], "upper_distal_extension", 2.0),
        (["deep_overbite"], "deep_overbite", 2.0),
        (["FILE"], "given", 0.0),
    ],
)
def test_the_page_begins_with_the_case_named(started, tmp_path, given, name, travel_mm):
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
def test_what_cannot_be_used_is_refused_before_it_starts(begin, tmp_path, arguments, text):
    """In one line, with the exit code for it."""
    with listen("127.0.0.1", 0) as taken:
        port = str(taken.getsockname()[1])
        command = begin(
            tmp_path, ["--no-browser", *(port if a == "TAKEN" else a for a in arguments)]
        )
        code, said, warned = command.end()
    assert (code, said) == (BAD_INPUT, "")
    assert text in warned
    assert "Traceback" not in warned


@pytest.mark.parametrize(
    "arguments", [["--port", "65536"], ["--port", "-1"], ["--port", "x"], ["--threads", "0"]]
)
def test_numbers_out_of_range_are_refused_by_their_option(arguments, capsys):
    """Before anything is loaded."""
    with pytest.raises(SystemExit) as caught:
        build_parser().parse_args(["page", *arguments])
    assert caught.value.code == BAD_INPUT
    assert f"argument {arguments[0]}: " in capsys.readouterr().err


def test_who_listens_on_a_network_is_warned(started):
    """Anybody with the address can use it."""
    with (
        started("--no-browser", "--host", "0.0.0.0") as (command, port, token),
        page(port, token),
    ):
        command.send_signal(signal.SIGTERM)
        *_, warned = command.end()
    assert warned == (
        "cuspway: listening on 0.0.0.0: anybody on that network who has the address can use this "
        "page and see its case\n"
    )
