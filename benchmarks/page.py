"""The page as its user meets it: seconds from a moved setting to what the page is told of it."""

import itertools
import json
import re
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from statistics import median
from time import perf_counter
from typing import Any, Final
from urllib.parse import urlsplit

from websockets.sync.client import ClientConnection, connect

from benchmarks.table import Figure, Run
from scenes.page_frames import header_of

INCLINATION: Final = "guidance.right.condylar_inclination_deg"
OVERBITE: Final = "dentition.overbite_mm"
RESOLUTION: Final = "dentition.triangles_per_arch"
_DEFAULT: Final = 40_000
_FINE: Final = 200_000
_PATIENCE_S: Final = 300.0


@contextmanager
def served() -> Iterator[str]:
    """Run `cuspway page` in a process of its own and give the address of its page."""
    command = [sys.executable, "-m", "scenes.command_line", "page", "--no-browser"]
    with subprocess.Popen(
        [*command, "--threads", "2"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    ) as server:
        try:
            told = next(re.search(r"http://\S+", line) for line in server.stdout or ())
            if told is None:
                raise RuntimeError("the page was not served")
            yield told[0]
        finally:
            server.terminate()


class Visitor:
    """The other end of the page's web socket."""

    def __init__(self, channel: ClientConnection) -> None:
        self._channel = channel
        self._numbers = itertools.count(1)
        self._state = header_of(self._heard())["first"]

    def waited_s(self, changes: Mapping[str, Any], upto: str = "rest") -> Mapping[str, float]:
        """Return when each kind of answer to changed settings had come, up to one kind."""
        number = next(self._numbers)
        told = {"kind": "show", "number": number, **self._state, "changes": changes}
        begin = perf_counter()
        self._channel.send(json.dumps(told))
        came: dict[str, float] = {}
        while upto not in came:
            header = header_of(self._heard())
            if header["kind"] == "fault":
                raise RuntimeError(header["text"])
            if header["number"] == number:
                came[header["kind"]] = perf_counter() - begin
        return came

    def _heard(self) -> bytes:
        message = self._channel.recv(_PATIENCE_S)
        assert isinstance(message, bytes)
        return message


@contextmanager
def visiting(address: str) -> Iterator[Visitor]:
    """Open the web socket of a page."""
    place = urlsplit(address)
    socket = f"ws://{place.netloc}/socket?{place.query}"
    origin = f"http://{place.netloc}"
    with connect(socket, origin=origin, compression=None, max_size=None) as channel:  # type: ignore[arg-type]
        yield Visitor(channel)


def rows(run: Run) -> Iterator[Figure]:
    """Yield how long the page waits, over loopback, for the answers to a moved setting."""
    with served() as address, visiting(address) as visitor:
        for triangles, asked in (
            (_DEFAULT, {"pose": "80 ms on the page", "excursions": "60 ms for the server"}),
            (_FINE, {"pose": "60 ms", "excursions": "400 ms"}),
        ):
            run.say(f"the page, {triangles:,} triangles an arch")
            visitor.waited_s({RESOLUTION: triangles})
            moved = [
                visitor.waited_s({RESOLUTION: triangles, INCLINATION: 36.0 + i})
                for i in range(max(5, run.repeats))
            ]
            for kind, limit in asked.items():
                what = {"pose": "pose, contacts, gaps", "excursions": "three excursions, findings"}
                yield Figure(
                    f"a moved guidance setting: {what[kind]}", limit,
                    f"{1e3 * median(times[kind] for times in moved):.0f} ms",
                    f"{triangles:,} triangles an arch, to the other end of a web socket",
                )  # fmt: skip
        run.say("the page, teeth made anew")
        made = [
            visitor.waited_s({OVERBITE: 2.2 + 0.1 * i})["pose"] for i in range(max(3, run.repeats))
        ]
        yield Figure(
            "a moved dentition setting: first pose", "1 s", f"{median(made):.2f} s",
            f"{_DEFAULT:,} triangles an arch",
        )  # fmt: skip
