"""A server of the page that runs on loopback while a test talks to it."""

import base64
import http.client
import json
import socket
import threading
import time
from contextlib import contextmanager, suppress
from dataclasses import dataclass

from websockets.frames import Opcode
from websockets.sync.client import connect

from scenes.page_downloads import Downloads
from scenes.page_frames import header_of
from scenes.page_guard import Guard
from scenes.page_messages import first_show
from scenes.page_server import Desks, Served, listen, make_app, make_server
from tests.stand_in_desk import StandInDesk

FILES = {
    "index.html": Served(b"<!doctype html><title>page</title>", "text/html; charset=utf-8"),
    "page.js": Served(b"'use strict';", "text/javascript; charset=utf-8"),
}
STATE = {
    key: value
    for key, value in first_show("given").model_dump().items()
    if key not in ("kind", "number", "lesson")
}
PATIENCE_S = 20.0


@dataclass
class Running:
    """What a test knows of the server it talks to."""

    guard: Guard
    desks: Desks
    made: list
    complaints: list

    @property
    def own_name(self):
        """Host and port, as they stand in the address."""
        return f"127.0.0.1:{self.guard.port}"

    def fetch(self, path, method="GET", **headers):
        """Return status, headers with small names, and content."""
        connection = http.client.HTTPConnection("127.0.0.1", self.guard.port, timeout=PATIENCE_S)
        try:
            connection.request(method, path, headers=headers)
            answer = connection.getresponse()
            return answer.status, {k.lower(): v for k, v in answer.getheaders()}, answer.read()
        finally:
            connection.close()

    def with_token(self, path):
        """Return a path with the secret behind it."""
        return f"{path}?token={self.guard.token}"

    def bare(self, content):
        """Send bytes, and return all bytes that come back until the server hangs up."""
        with socket.create_connection(("127.0.0.1", self.guard.port), PATIENCE_S) as connection:
            with suppress(OSError):  # hung up before it had heard all
                connection.sendall(content)
                connection.shutdown(socket.SHUT_WR)
            return _all_of(connection)

    def upgrade(self, **changes):
        """Return the request for a web socket as bytes; a header that is None is left out."""
        headers = {
            "Host": self.own_name,
            "Upgrade": "websocket",
            "Connection": "Upgrade",
            "Sec-WebSocket-Key": base64.b64encode(bytes(16)).decode(),
            "Sec-WebSocket-Version": "13",
            "Origin": f"http://{self.own_name}",
        }
        path = changes.pop("path", self.with_token("/socket"))
        headers |= {key.replace("_", "-"): value for key, value in changes.items()}
        lines = [f"{key}: {value}" for key, value in headers.items() if value is not None]
        return "\r\n".join([f"GET {path} HTTP/1.1", *lines, "", ""]).encode("latin-1")

    @contextmanager
    def bare_page(self):
        """Give a connected web socket that nobody reads from unless the test does."""
        with socket.create_connection(("127.0.0.1", self.guard.port), PATIENCE_S) as connection:
            connection.sendall(self.upgrade())
            answer = b""
            while b"\r\n\r\n" not in answer:
                answer += connection.recv(1)
            assert answer.startswith(b"HTTP/1.1 101")
            yield connection

    @contextmanager
    def page(self):
        """Give a page that has been welcomed."""
        address = f"ws://{self.own_name}{self.with_token('/socket')}"
        origin = f"http://{self.own_name}"
        with connect(address, origin=origin, compression=None, max_size=None) as channel:
            page = Page(channel)
            assert page.hear()["kind"] == "welcome"
            yield page

    def still_answers(self):
        """Check that a new page gets what it asks for."""
        with self.page() as page:
            page.show(7)
            assert page.hear_until("rest")[-1]["number"] == 7

    def wait_until(self, holds):
        """Wait for something, and say whether it came."""
        patience = time.monotonic() + PATIENCE_S
        while not holds() and time.monotonic() < patience:
            time.sleep(0.01)
        return holds()


class Page:
    """The other end of a web socket."""

    def __init__(self, channel):
        self.channel = channel

    def show(self, number, kind="show", **changes):
        """Ask for a state."""
        self.channel.send(json.dumps({"kind": kind, "number": number, **STATE, **changes}))

    def hear(self):
        """Return the header of the next message."""
        return header_of(self.channel.recv(PATIENCE_S))

    def hear_until(self, kind):
        """Return the headers of the messages up to the next of a kind."""
        heard = [self.hear()]
        while heard[-1]["kind"] != kind:
            heard.append(self.hear())
        return heard


def page_frame(opcode, data, bits=0x80):
    """Return a frame as a page's browser sends it; `bits`: it is the last one, reserved bits."""
    length = len(data)
    if length < 126:
        size = bytes([0x80 | length])
    elif length < 65_536:
        size = bytes([0x80 | 126]) + length.to_bytes(2, "big")
    else:
        size = bytes([0x80 | 127]) + length.to_bytes(8, "big")
    return bytes([bits | opcode]) + size + bytes(4) + data  # masked with zeros


def text_frame(text):
    """Return a text as a page's browser sends it."""
    return page_frame(Opcode.TEXT, text.encode())


def show_text(number, **changes):
    """Return the message that asks for a state."""
    return json.dumps({"kind": "show", "number": number, **STATE, **changes})


def _all_of(connection):
    content = b""
    with suppress(ConnectionResetError):
        while part := connection.recv(65_536):
            content += part
    return content


@contextmanager
def running_page(
    make_desk=StandInDesk, pace=None, files=FILES, first=None, guard=None, **server_settings
):
    """Run a server, with stand-in desks unless told otherwise.

    `files`: what it serves; `first`: the state its pages begin with; `guard`: of a server that has
    ended, whose port and token this one takes over.
    """
    made, complaints = [], []

    def make():
        made.append(make_desk())
        return made[-1]

    listener = listen("127.0.0.1", guard.port if guard else 0)
    guard = guard or Guard("127.0.0.1", listener.getsockname()[1])
    with Downloads() as downloads:
        desks = Desks(make, first or first_show("given"), downloads, complaints.append)
        if pace is not None:
            desks.pace = pace
        server = make_server(make_app(desks, guard, files), **server_settings)
        thread = threading.Thread(target=server.run, args=[[listener]])
        thread.start()
        try:
            yield Running(guard, desks, made, complaints)
        finally:
            server.should_exit = True
            thread.join(PATIENCE_S)
            assert not thread.is_alive()
