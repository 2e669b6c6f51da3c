"""One page and its desk: the newest state is answered, whatever else happens."""

import socket
import threading
import time

import pytest
from websockets.exceptions import ConnectionClosed
from websockets.frames import Opcode

from scenes.page_frames import header_of
from scenes.page_guard import Pace
from scenes.page_messages import LARGEST_MESSAGE_BYTES
from tests.running_page import STATE, page_frame, running_page, show_text, text_frame
from tests.stand_in_desk import StandInDesk


@pytest.fixture
def server():
    """Give a server on loopback, with nothing to complain about at the end."""
    with running_page() as running:
        yield running
    assert running.complaints == []


def test_answers_come_in_order(server):
    """As the desk yields them."""
    with server.page() as page:
        for number in (1, 2, 5):
            page.show(number, travel_mm=0.5 * number)
            heard = page.hear_until("rest")
            assert [message["kind"] for message in heard] == ["pose", "rest"]
            assert {message["number"] for message in heard} == {number}
            assert heard[0]["travel_mm"] == 0.5 * number


def test_a_page_is_welcomed_with_the_first_state(server):
    """Unasked."""
    with server.bare_page() as connection:
        content = connection.recv(65_536)
    told = header_of(content[content.index(b'{"kind"') - 4 :])
    assert told["kind"] == "welcome"
    assert {key: told["first"][key] for key in STATE} == STATE


def test_the_newest_state_wins(server):
    """What is being computed is stopped, what waits is never begun."""
    with server.page() as page:
        page.show(1, movement="slow")
        assert page.hear()["kind"] == "pose"
        for number in range(2, 40):
            page.show(number, movement="slow")
        page.show(40)
        heard = page.hear_until("rest")
        assert [m["number"] for m in heard if m["kind"] == "rest"] == [40]
        assert [m["number"] for m in heard] == sorted(m["number"] for m in heard)
        assert server.made[0].stopped >= 1


def test_a_page_that_asks_before_it_is_welcomed_is_welcomed_first():
    """However slowly its desk is made."""

    class SlowlyMade(StandInDesk):
        def __init__(self):
            time.sleep(0.3)
            super().__init__()

    with running_page(SlowlyMade) as running, running.bare_page() as connection:
        for number in range(3):
            connection.sendall(text_frame(show_text(number)))
        content = b""
        while b'"rest"' not in content:
            content += connection.recv(65_536)
        assert content.index(b'"welcome"') < content.index(b'"pose"')
        assert b'"number":2' in content
        assert b'"number":1' not in content


def test_what_the_settings_do_not_allow_is_a_fault(server):
    """With the keys the desk names; the page can go on."""
    with server.page() as page:
        page.show(3, movement="faulty")
        assert page.hear() == {
            "kind": "fault",
            "number": 3,
            "text": "guidance.right.fischer_deg = 99: must be -20 to 20 degrees",
            "keys": ["guidance.right.fischer_deg"],
        }
        page.show(4)
        assert page.hear_until("rest")[-1]["number"] == 4


def test_an_error_of_the_program_is_told_and_the_page_goes_on():
    """In a plain line, without where in the program it arose."""
    with running_page() as running:
        with running.page() as page:
            for number in (3, 4):
                page.show(number, movement="broken")
                told = page.hear()
                assert (told["kind"], told["number"], told["keys"]) == ("fault", number, [])
                assert told["text"].startswith("internal error")
                assert "Traceback" not in told["text"]
            page.show(5)
            assert page.hear_until("rest")[-1]["number"] == 5
        assert [type(error) for error in running.complaints] == [ZeroDivisionError] * 2


def test_a_desk_that_cannot_be_made_is_told():
    """And tried again with the next state."""
    tries = []

    class Unmade(StandInDesk):
        def __init__(self):
            tries.append(1)
            if len(tries) == 1:
                raise MemoryError("no room")
            super().__init__()

    with running_page(Unmade) as running:
        with running.bare_page() as connection:
            told = b""
            while b"no room" not in told:
                told += connection.recv(65_536)
            connection.sendall(text_frame(show_text(1)))
            while b'"rest"' not in told:
                told += connection.recv(65_536)
        assert told.index(b'"welcome"') < told.index(b'"pose"')
        assert len(running.complaints) == 1


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("", None),
        ("{", None),
        ("[" * 60_000, None),
        ('{"kind":"show","number":7}', 7),
        ('{"kind":"shutdown","number":7}', 7),
        (show_text(7, travel_mm=-1), 7),
        (show_text(7, changes={"a": "\x00"}), 7),
        (show_text(7, secret="x"), 7),
    ],
)
def test_a_malformed_message_is_a_fault(server, text, number):
    """With its number, where that much could be read."""
    with server.page() as page:
        page.channel.send(text)
        told = page.hear()
        assert (told["kind"], told["number"]) == ("fault", number)
        page.show(8)
        assert page.hear_until("rest")[-1]["number"] == 8


@pytest.mark.parametrize(
    ("frames", "code"),
    [
        ([(Opcode.BINARY, b"{}")], 1003),
        ([(Opcode.TEXT, b"x" * (LARGEST_MESSAGE_BYTES + 1))], 1009),
        ([(Opcode.TEXT, b"x" * 40_000, 0), (Opcode.CONT, b"x" * 40_000)], 1009),
        ([(Opcode.TEXT, b"\xff\xfe")], 1007),
        ([(Opcode.CONT, b"{}")], 1002),
        ([(Opcode.PING, b"x" * 126)], 1002),
        ([(Opcode.TEXT, b"{}", 0xC0)], 1002),
        ([(Opcode.CLOSE, b"\x03\xe8")], 1000),
    ],
)
def test_what_is_no_text_of_a_page_closes_its_socket(server, frames, code):
    """With the code that says why; others do not notice."""
    with server.page() as other, server.bare_page() as connection:
        for frame_of_page in frames:
            connection.sendall(page_frame(*frame_of_page))
        heard = b""
        while b"\x88" not in heard[-140:]:
            part = connection.recv(65_536)
            assert part, heard[-200:]
            heard += part
        at = heard.rindex(b"\x88")
        assert int.from_bytes(heard[at + 2 : at + 4], "big") == code
        other.show(1)
        assert other.hear_until("rest")[-1]["number"] == 1


def test_a_burst_is_slowed_down_and_a_flood_is_put_off():
    """The page is told why; others do not notice."""
    pace = Pace(each_second=200.0, at_once=20, patience=30)
    with running_page(pace=pace) as running, running.page() as other:
        with running.page() as page:
            begun = time.monotonic()
            for number in range(40):
                page.show(number)
            while page.hear()["number"] != 39:
                pass
            assert time.monotonic() - begun >= 0.09  # 20 of them had to wait for 5 ms each
        with pytest.raises(ConnectionClosed) as caught, running.page() as page:
            for number in range(1000):
                page.show(number)
            while True:
                page.hear()
        assert caught.value.rcvd.code == 1008
        other.show(3)
        assert other.hear_until("rest")[-1]["number"] == 3
        running.still_answers()


@pytest.mark.parametrize("movement", ["slow", "deaf", "large", "protrusion"])
@pytest.mark.parametrize("how", ["leaves", "drops"])
def test_a_page_that_goes_in_the_middle_leaves_nothing(server, movement, how):
    """Its desk is stopped and its thread ends."""
    before = threading.active_count()
    with server.bare_page() as connection:
        connection.sendall(text_frame(show_text(1, movement=movement)))
        content = b""
        while b'"pose"' not in content:
            content += connection.recv(4096)
        if how == "drops":  # a reset instead of a farewell
            linger = (1).to_bytes(4, "little") + (0).to_bytes(4, "little")
            connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, linger)
    assert server.wait_until(lambda: server.desks.open_now == 0)
    assert [desk.is_closed for desk in server.made] == [True]
    assert server.wait_until(lambda: threading.active_count() <= before)
    server.still_answers()


def test_two_pages_do_not_disturb_each_other(server):
    """Each has a desk of its own."""
    with server.page() as one, server.page() as other:
        one.show(1, movement="slow")
        assert one.hear()["kind"] == "pose"
        for number in range(2, 22):
            other.show(number, travel_mm=number / 10)
            heard = other.hear_until("rest")
            assert [message["number"] for message in heard] == [number, number]
        one.show(2)
        assert [message["number"] for message in one.hear_until("rest")] == [2, 2]
        assert len(server.made) == 2


def test_a_page_may_come_again(server):
    """Many times, by name the same page."""
    for number in range(30):
        with server.page() as page:
            page.show(number)
            assert page.hear()["number"] == number
    assert server.wait_until(lambda: server.desks.open_now == 0)


def test_a_report_is_made_beside_the_states_of_a_page(server):
    """States are answered meanwhile; a newer request replaces an older one."""
    with server.page() as page:
        page.show(1, "report", movement="slow")
        assert page.hear()["kind"] == "progress"
        page.show(2)
        assert [message["number"] for message in page.hear_until("rest")] == [2, 2]
        page.show(3, "report")
        heard = page.hear_until("file")
        assert [message["number"] for message in heard] == [3, 3]
        assert heard[-1]["name"] == "report.html"
        assert server.fetch(heard[-1]["address"])[2] == b"made given"


def test_a_report_ends_with_its_page(server):
    """And what it had written goes."""
    with server.page() as page:
        page.show(1, "report", movement="slow")
        assert page.hear()["kind"] == "progress"
        folder = server.desks.downloads.new_folder()
        assert len(list(folder.parent.iterdir())) == 2
    assert server.wait_until(lambda: server.desks.open_now == 0)
    assert list(folder.parent.iterdir()) == [folder]


def test_the_server_ends_while_a_page_is_answered():
    """At once, with a close that says so, even if the desk does not listen."""
    with running_page() as running:
        connection = running.bare_page()
        channel = connection.__enter__()
        channel.sendall(text_frame(show_text(1, movement="deaf")))
        content = b""
        while b'"pose"' not in content:
            content += channel.recv(4096)
    with channel:
        while part := channel.recv(65_536):
            content += part
    assert b"\x88\x02" + (1012).to_bytes(2, "big") in content
