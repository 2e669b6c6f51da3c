"""A page that does not read, or not yet: what is held for it, and what its desk may remember."""

import threading
import time

import numpy as np
from websockets.frames import Opcode

from scenes.page_frames import frame
from tests.running_page import page_frame, running_page, show_text, text_frame
from tests.stand_in_desk import StandInDesk


def test_a_desk_goes_on_only_after_what_the_page_has_got():
    """So that it may remember what the page knows, however quickly states follow each other."""

    class Remembering(StandInDesk):
        def __init__(self):
            super().__init__()
            self.told = []

        def answers(self, show, stop):
            yield frame({"kind": "teeth", "number": show.number})
            self.told.append(show.number)

    rng = np.random.default_rng(22)
    with running_page(Remembering) as running, running.page() as page:
        got = [-1]
        for burst in range(1, 40):
            count = int(rng.integers(1, 6))
            for number in range(10 * burst, 10 * burst + count):
                page.show(number)
            while got[-1] != 10 * burst + count - 1:
                got.append(page.hear()["number"])
        [desk] = running.made
        assert running.wait_until(lambda: desk.told[-1:] == got[-1:])
        assert set(desk.told) <= set(got)


def test_an_answer_that_is_not_sent_is_as_if_not_made():
    """The desk is closed where it stands."""
    closed = threading.Event()

    class Closing(StandInDesk):
        def answers(self, show, stop):
            try:
                for _ in range(50):
                    yield frame({"kind": "teeth", "number": show.number, "filling": "x" * 2**20})
            except GeneratorExit:
                closed.set()
                raise

    with running_page(Closing) as running, running.bare_page() as connection:
        connection.sendall(text_frame(show_text(1)))
        time.sleep(0.2)
        connection.sendall(text_frame(show_text(2)))
        assert closed.wait(20.0)


def test_a_page_that_does_not_read_holds_little_and_not_for_long():
    """Computing waits for it, and it is hung up on when it answers no ping."""
    made_bytes = []

    class Counting(StandInDesk):
        def answers(self, show, stop):
            for _ in range(200):
                made_bytes.append(2**20)
                yield frame({"kind": "teeth", "number": show.number, "filling": "x" * 2**20})

    with running_page(Counting, ws_ping_interval=0.3, ws_ping_timeout=0.3) as running:
        with running.bare_page() as connection:
            connection.sendall(text_frame(show_text(1)))
            for _ in range(200):  # pings are not answered without end either
                connection.sendall(page_frame(Opcode.PING, b"x" * 125))
            assert running.wait_until(lambda: running.desks.open_now == 0)
        # what the system's own buffers hold, and what may wait
        assert sum(made_bytes) < 20 * 2**20
        with running.page():
            pass


def test_a_page_that_asks_on_without_reading_holds_no_old_answers():
    """What was made for older states is let go, not only left unsent."""
    alive, asked = [0], []

    class Counted(bytes):
        def __new__(cls, content):
            alive[0] += 1
            return super().__new__(cls, content)

        def __del__(self):
            alive[0] -= 1

    class Generous(StandInDesk):
        def answers(self, show, stop):
            asked.append(show.number)
            for _ in range(10):
                yield Counted(2**20)

    with running_page(Generous) as running, running.bare_page() as connection:
        for number in range(60):
            connection.sendall(text_frame(show_text(number)))
            assert running.wait_until(lambda wanted=number: wanted in asked)
        # one that waits, one being sent, and what is just changing hands
        assert alive[0] <= 5
