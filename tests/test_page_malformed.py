"""Whatever comes, the server of the page neither fails nor grows, and answers afterwards."""

import json
import sys
from contextlib import suppress
from pathlib import Path

import numpy as np
import pytest
from websockets.frames import Opcode

from scenes.page_guard import Pace
from tests.running_page import STATE, page_frame, running_page

GROWTH_MB = 50.0
SCRAPS = (
    *("null", "-1", "1e999", "NaN", "Infinity", "[]", "{}", "[[[[", "}}", '"', "\\", "\\u0000"),
    *("\\ud800", "\x00", "\x7f", "é", "٣", "9" * 400, "x" * 500, '{"a":', "true", "../", "%00"),
)
PATHS = ("/", "/socket", "/page.js", "/file/x", "/../x", "/%2e%2e/%00", "//", "*", "http://x/")
METHODS = ("GET", "HEAD", "POST", "BREW", "get", "G\x00T", "CONNECT", "PRI")


def resident_mb():
    """Return how much memory this process holds, where the system tells."""
    status = Path("/proc/self/status")
    if not status.exists():
        return None
    [line] = [line for line in status.read_text().splitlines() if line.startswith("VmRSS")]
    return int(line.split()[1]) / 1024.0


def malformed_text(rng):
    """Return a message with one or several faults in it, or with none."""
    message = {"kind": "show", "number": int(rng.integers(1000)), **STATE, "changes": {"a.b": 1}}
    for _ in range(rng.integers(3)):
        key = str(rng.choice([*message, "changes", "more", "__proto__"]))
        values = (None, -1, 10**30, 1e300, "", "x" * 90, [], {}, True, [[1]], {"a": {"b": 1}})
        match rng.integers(3):
            case 0:
                message.pop(key, None)
            case 1:
                message[key] = values[rng.integers(len(values))]
            case 2:
                message["changes"] = {
                    str(rng.choice(SCRAPS)): values[rng.integers(len(values))]
                    for _ in range(rng.integers(300))
                }
    text = json.dumps(message)
    for _ in range(rng.integers(4)):
        at, to = sorted(rng.integers(0, len(text) + 1, 2))
        match rng.integers(4):
            case 0:
                text = text[:at] + str(rng.choice(SCRAPS)) + text[at:]
            case 1:
                text = text[:at] + text[to:]
            case 2:
                text = text[:to] + text[at:to] * int(rng.integers(1, 5)) + text[to:]
            case 3:
                text = text[:at]
    return text


def malformed_frames(rng):
    """Return bytes for an open web socket: frames, often faulty, or no frames at all."""
    content = malformed_text(rng).encode("utf-8", "replace")
    if rng.random() < 0.1:
        content = rng.bytes(int(rng.integers(2000)))
    if rng.random() < 0.03:
        content = content * int(70_000 / max(len(content), 1) + 1)
    opcode = Opcode.TEXT if rng.random() < 0.9 else int(rng.integers(16))
    bits = 0x80 if rng.random() < 0.95 else int(rng.integers(16)) << 4
    frames = page_frame(opcode, content, bits)
    if rng.random() < 0.05:
        frames = frames[: 1 + rng.integers(len(frames))]
    if rng.random() < 0.03:
        at = int(rng.integers(len(frames)))
        frames = frames[:at] + rng.bytes(8) + frames[at:]
    return frames


def malformed_request(rng, running):
    """Return bytes for a new connection: a request for a page or a web socket, or no request."""
    request = running.upgrade(path=str(rng.choice([*PATHS, running.with_token("/socket")])))
    if rng.random() < 0.5:
        request = request.replace(b"Upgrade", b"X-Upgrade")
    request = request.replace(b"GET", str(rng.choice(METHODS)).encode(), 1)
    for _ in range(rng.integers(4)):
        at, to = sorted(rng.integers(0, len(request) + 1, 2))
        match rng.integers(4):
            case 0:
                scrap = str(rng.choice(SCRAPS)).encode("utf-8", "replace")
                request = request[:at] + scrap + request[at:]
            case 1:
                request = request[:at] + request[to:]
            case 2:
                request = request[:to] + request[at:to] * int(rng.integers(1, 200)) + request[to:]
            case 3:
                request = request[:at] + rng.bytes(int(rng.integers(200))) + request[at:]
    return request


def attack(running, rng, count):
    """Send so many malformed frames and requests."""
    left = count
    while left > 0:
        if rng.random() < 0.3:
            running.bare(malformed_request(rng, running))
            left -= 1
            continue
        with suppress(ConnectionError), running.bare_page() as connection:
            for _ in range(rng.integers(1, 40)):
                left -= 1
                connection.sendall(malformed_frames(rng))
                connection.setblocking(False)
                with suppress(BlockingIOError):
                    while connection.recv(65_536):
                        pass
                connection.setblocking(True)


@pytest.mark.parametrize(
    "count", [1000, pytest.param(10_000, marks=pytest.mark.wide)], ids=["some", "many"]
)
def test_nothing_that_comes_does_any_harm(count, capfd):
    """No complaint, no output, no more memory than before, and an answer to the next page."""
    rng = np.random.default_rng(21)
    with running_page(pace=Pace(each_second=1e6, at_once=10**6)) as running:
        attack(running, rng, 100)  # so that what is only loaded when it is needed is there
        before = resident_mb()
        attack(running, rng, count)
        assert running.wait_until(lambda: running.desks.open_now == 0)
        after = resident_mb()
        assert before is None or after - before < GROWTH_MB
        running.still_answers()
        assert running.complaints == []
    sys.stderr.flush()
    assert "".join(capfd.readouterr()) == ""
