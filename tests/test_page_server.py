"""The server of the page: what it serves, to whom, and what it refuses."""

import base64
import hashlib
import os
import re
import socket
import threading
import time
from contextlib import suppress

import pytest
from websockets.exceptions import ConnectionClosed

from kinematics.checks import InputError
from scenes.page_guard import MOST_SOCKETS
from scenes.page_protocol import RequestProtocol
from scenes.page_server import listen, served_files
from tests.running_page import FILES, running_page

HEADERS = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-store",
}


@pytest.fixture(scope="module")
def server():
    """Give a server on loopback."""
    with running_page() as running:
        yield running


def test_the_first_page_needs_the_secret(server):
    """Without it a plain page says where it is to be had."""
    assert server.fetch(server.with_token("/"))[::2] == (200, FILES["index.html"].content)
    for path in ("/", "/?token=", "/?token=wrong", "/index.html", "/?tokens=" + server.guard.token):
        status, _, content = server.fetch(path)
        assert status in (403, 404)
        assert FILES["index.html"].content not in content


@pytest.mark.parametrize("path", ["/", "/?token=", "/?token=of-an-earlier-start", "/file/nothing"])
def test_who_has_no_secret_is_told_how_to_get_in(server, path):
    """On a page that says what to do, and may do nothing but use its own style."""
    status, headers, content = server.fetch(path)
    assert (status, headers["content-type"]) == (403, "text/html; charset=utf-8")
    text = " ".join(re.sub("<style>.*</style>|<[^>]+>", "", content.decode(), flags=re.S).split())
    for words in (
        "is missing or belongs to an earlier start of the program",
        "Copy the address that the terminal shows",
        "If your old address has a part that begins with #, that part holds the case, the settings",
    ):
        assert words in text
    assert b"<script" not in content
    assert server.guard.token.encode() not in content
    [style] = re.findall(b"<style>(.*)</style>", content, re.S)
    digest = base64.b64encode(hashlib.sha256(style).digest()).decode()
    policy = dict(rule.split(" ", 1) for rule in headers["content-security-policy"].split("; "))
    assert policy == {
        "default-src": "'none'",
        "style-src": f"'sha256-{digest}'",
        "img-src": "data:",
        "base-uri": "'none'",
        "form-action": "'none'",
        "frame-ancestors": "'none'",
    }


def test_files_of_the_page_are_served_with_their_types(server):
    """They are no secret: the browser fetches them without one."""
    status, headers, content = server.fetch("/page.js")
    assert (status, content) == (200, FILES["page.js"].content)
    assert headers["content-type"] == "text/javascript; charset=utf-8"


@pytest.mark.parametrize("path", ["/", "/page.js", "/nothing", "/file/nothing", "/socket"])
@pytest.mark.parametrize("method", ["GET", "HEAD", "POST"])
def test_every_answer_carries_the_rules_for_the_browser(server, path, method):
    """Refusals too; and none says what program answers."""
    _, headers, _ = server.fetch(path, method)
    assert {name: headers.get(name) for name in HEADERS} == HEADERS
    policy = headers["content-security-policy"].split("; ")
    assert {"default-src 'none'", "base-uri 'none'", "frame-ancestors 'none'"} <= set(policy)
    assert ("script-src 'self'" in policy) == (headers["content-type"][:9] != "text/html")
    assert not {"server", "date", "x-powered-by"} & set(headers)


def test_looking_at_a_page_is_possible_without_fetching_it(server):
    """HEAD is answered as GET, without the content."""
    status, headers, content = server.fetch(server.with_token("/"), "HEAD")
    assert (status, content) == (200, b"")
    assert headers["content-length"] == str(len(FILES["index.html"].content))


@pytest.mark.parametrize(
    "method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "get", "BREW"]
)
def test_nothing_but_reading_is_allowed(server, method):
    """Whatever is asked for, and however."""
    status, headers, _ = server.fetch("/page.js", method)
    assert (status, headers["allow"]) == (405, "GET, HEAD")


@pytest.mark.parametrize(
    "path",
    [
        "/..%2fpage.js",
        "/../page.js",
        "/..%2f..%2f..%2fetc%2fpasswd",
        "/%2e%2e/%2e%2e/etc/passwd",
        "//etc/passwd",
        "/page.js%00",
        "/%00",
        "/page.js/",
        "/./page.js",
        "/PAGE.JS",
        "/served/page.js",
        "/file/..%2f..%2fetc%2fpasswd",
        "/file/",
        "/file/%00",
        "/C:%5cwindows%5cwin.ini",
        "/..%5cpage.js",
        "/%ff%fe",
        "/" + "a" * 5000,
        "http://127.0.0.1/page.js",
        "*",
    ],
)
def test_no_path_leads_anywhere_else(server, path):
    """Only names of the table are there, written as they are."""
    assert server.fetch(server.with_token(path), Host=server.own_name)[0] == 404


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "localhost:1", ""])
def test_another_name_is_refused(server, host):
    """A page from elsewhere cannot pass for this server under a name that leads here."""
    assert server.fetch(server.with_token("/"), Host=host)[0] == 403
    assert b"HTTP/1.1 403" in server.bare(server.upgrade(Host=host, Origin=f"http://{host}"))


@pytest.mark.parametrize(
    "changes",
    [
        {"Origin": "http://evil.example"},
        {"Origin": "null"},
        {"Origin": None},
        {"path": "/socket"},
        {"path": "/socket?token=wrong"},
    ],
)
def test_a_web_socket_that_is_not_from_this_page_is_refused(server, changes):
    """Another origin, none, no secret, a wrong one."""
    answer = server.bare(server.upgrade(**changes))
    assert answer.startswith(b"HTTP/1.1 403")
    assert b"nosniff" in answer
    assert len(server.made) == 0


@pytest.mark.parametrize(
    "changes",
    [
        {"Sec_WebSocket_Key": None},
        {"Sec_WebSocket_Key": "short"},
        {"Sec_WebSocket_Version": "7"},
        {"path": "/page.js"},
        {"path": "/socket/"},
        {"Upgrade": "h2c"},
    ],
)
def test_a_request_for_a_web_socket_that_is_none_is_refused(server, changes):
    """Whatever the reason, there is an answer and nothing is made."""
    answer = server.bare(server.upgrade(**changes))
    assert answer.startswith(b"HTTP/1.1 4")
    assert len(server.made) == 0


def test_what_is_no_request_gets_no_more_than_a_refusal(server):
    """Headers without end, two names, bytes at random."""
    name = server.own_name.encode()
    long = b"GET / HTTP/1.1\r\nHost: " + name + b"\r\nX: " + b"a" * 100_000 + b"\r\n\r\n"
    many = b"GET / HTTP/1.1\r\nHost: " + name + b"\r\n" + b"X: a\r\n" * 20_000 + b"\r\n"
    twice = b"GET / HTTP/1.1\r\nHost: " + name + b"\r\nHost: evil\r\n\r\n"
    none = b"GET / HTTP/1.1\r\n\r\n"
    for request in (long, many, twice, none, b"\x00" * 5000, b"\x16\x03\x01\x02\x00\x01", b"\r\n"):
        answer = server.bare(request)
        assert answer == b"" or answer.startswith(b"HTTP/1.1 4"), answer[:100]
    assert server.bare(b"GET / HTTP/1.0\r\n\r\n").startswith(b"HTTP/1.1 403")
    server.still_answers()


@pytest.mark.parametrize("said", [b"", b"GET / HTT", b"GET / HTTP/1.1\r\nHost: a\r\nX: "])
def test_who_never_comes_to_an_end_is_hung_up_on(server, monkeypatch, said):
    """Before the first request, and before the second."""
    monkeypatch.setattr(RequestProtocol, "look_s", 0.2)
    whole = f"HEAD /page.js HTTP/1.1\r\nHost: {server.own_name}\r\n\r\n".encode()
    for before in (b"", whole):
        with socket.create_connection(("127.0.0.1", server.guard.port), 20.0) as connection:
            connection.sendall(before + said)
            answer = b""
            with suppress(ConnectionResetError):
                while part := connection.recv(65_536):
                    answer += part
            assert answer[:12] == b"HTTP/1.1 200"[: 12 if before else 0]


def test_a_page_stays_however_long_it_says_nothing(server, monkeypatch):
    """A web socket is no request that does not come to an end."""
    monkeypatch.setattr(RequestProtocol, "look_s", 0.05)
    with server.page() as page:
        time.sleep(0.3)
        page.show(1)
        assert page.hear_until("rest")[-1]["number"] == 1


def test_a_file_can_be_fetched_once(server):
    """By its unguessable name and with the secret; looking at it does not use it up."""
    with server.page() as page:
        page.show(3, "case_file")
        told = page.hear_until("file")[-1]
    assert (told["number"], told["name"]) == (3, "case.toml")
    key, _, token = told["address"].removeprefix("/file/").partition("?token=")
    assert (len(key) >= 24, token) == (True, server.guard.token)
    assert server.fetch(f"/file/{key}")[0] == 403
    assert server.fetch(told["address"], "HEAD")[0] == 405
    status, headers, content = server.fetch(told["address"])
    assert (status, content) == (200, b"made given")
    assert headers["content-disposition"] == "attachment; filename*=UTF-8''case.toml"
    assert server.fetch(told["address"])[0] == 404


def test_only_some_files_wait(server):
    """The oldest make room."""
    addresses = []
    with server.page() as page:
        for number in range(12):
            page.show(number, "case_file")
            addresses.append(page.hear_until("file")[-1]["address"])
    got = [server.fetch(address)[0] for address in addresses]
    assert got == [404] * 4 + [200] * 8


def test_only_some_pages_are_let_in(server):
    """One more is told so, and has a place when another has left."""
    held = [threading.Event() for _ in range(MOST_SOCKETS)]
    leave = threading.Event()

    def stay(arrived):
        with server.page():
            arrived.set()
            leave.wait(20.0)

    threads = [threading.Thread(target=stay, args=[arrived]) for arrived in held]
    for thread in threads:
        thread.start()
    assert all(arrived.wait(20.0) for arrived in held)
    with pytest.raises(ConnectionClosed, match="at most 8 pages at once"), server.page():
        pass
    leave.set()
    for thread in threads:
        thread.join()
    assert server.wait_until(lambda: server.desks.open_now == 0)
    server.still_answers()


def test_the_page_comes_with_the_program():
    """All of its files are read at start, by their names."""
    served = served_files()
    assert {"index.html", "page.js", "page.css"} <= set(served)
    assert all(file.content and file.media_type for file in served.values())


def test_a_port_that_is_taken_is_named():
    """And an address that is none of this machine."""
    with listen("127.0.0.1", 0) as first:
        port = first.getsockname()[1]
        with pytest.raises(InputError, match=rf"127\.0\.0\.1, port {port}: cannot be listened on"):
            listen("127.0.0.1", port)
    for host in ("203.0.113.7", "no such name", "a" * 300):
        with pytest.raises(InputError, match="cannot be listened on"):
            listen(host, 0)


def test_small_messages_are_sent_at_once():
    """Connections of a listener that names its protocol do not wait for more to send."""
    with listen("127.0.0.1", 0) as listener:
        assert listener.proto == socket.IPPROTO_TCP


def test_the_temporary_folder_goes_with_the_server():
    """What nobody fetched too."""
    with running_page() as running:
        folder = running.desks.downloads.new_folder().parent
        with running.page() as page:
            page.show(1, "case_file")
            page.hear_until("file")
        assert len(os.listdir(folder)) == 2
    assert not folder.exists()
