"""The server of the page: what it serves, to whom, and under which headers."""

import logging
import socket
from collections.abc import Awaitable, Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any, Final
from urllib.parse import quote

import uvicorn
from starlette.applications import Starlette
from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route, WebSocketRoute
from starlette.types import ASGIApp, Message, Receive, Scope, Send
from starlette.websockets import WebSocket

from kinematics.checks import InputError
from scenes.page_casts import Places
from scenes.page_casts_upload import taken_in
from scenes.page_downloads import Downloads
from scenes.page_guard import MOST_SOCKETS, Guard, Pace
from scenes.page_messages import LARGEST_MESSAGE_BYTES, Show
from scenes.page_protocol import RequestProtocol, SocketProtocol
from scenes.page_refused import refused
from scenes.page_session import DeskMaker, Session

_POLICY: Final = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
    "connect-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'"
)
_HEADERS: Final = {
    "Content-Security-Policy": _POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()",
    "Cache-Control": "no-store",
}
_TYPES: Final = {
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
}
_FIRST_PAGE: Final = "index.html"
_FULL: Final = 1013
_GRACE_S: Final = 1


@dataclass(frozen=True)
class Served:
    """A file of the page.

    Attributes
    ----------
    content : bytes
        All of it.
    media_type : str
        What the browser is told it is.
    """

    content: bytes
    media_type: str


def served_files() -> dict[str, Served]:
    """Return the files of the page by their names, read once: no request touches the disk.

    Raises
    ------
    InputError
        They are not there.
    """
    folder: Traversable = files("scenes").joinpath("page", "served")
    if not folder.joinpath(_FIRST_PAGE).is_file():
        raise InputError("the files of the page are not there; install the program anew")
    return {
        entry.name: Served(entry.read_bytes(), _TYPES[suffix])
        for entry in folder.iterdir()
        if (suffix := "." + entry.name.rpartition(".")[2]) in _TYPES
    }


@dataclass
class Desks:
    """What a server needs to answer pages.

    Attributes
    ----------
    make : callable
        Makes the desk of one page.
    first : Show
        State that every page begins with.
    downloads : Downloads
        Where files wait to be fetched.
    complain : callable
        Gets every error that the program is to blame for; may be called in any thread.
    pace : Pace
        How often a page may say something.
    open_now : int
        How many pages are there.
    """

    make: DeskMaker
    first: Show
    downloads: Downloads
    complain: Callable[[Exception], None]
    pace: Pace = field(default_factory=Pace)
    open_now: int = 0

    def __post_init__(self) -> None:
        #: Where casts of pages are.
        self.places = Places(self.downloads, MOST_SOCKETS)


def make_app(desks: Desks, guard: Guard, served: Mapping[str, Served]) -> ASGIApp:
    """Return the application that a server runs.

    Parameters
    ----------
    desks : Desks
        What answers pages.
    guard : Guard
        Who is let in.
    served : mapping of name to Served
        Files of the page, its first page among them.
    """

    async def first_page(request: Request) -> Response:
        if not guard.allows_token(request.query_params):
            return refused()
        return _response(served[_FIRST_PAGE])

    async def file(request: Request) -> Response:
        if not guard.allows_token(request.query_params):
            return refused()
        if request.method != "GET":  # looking at it must not use it up
            return PlainTextResponse("only GET\n", 405, {"Allow": "GET"})
        found = desks.downloads.fetch(request.path_params["key"])
        if found is None:
            return PlainTextResponse("there is no such file, or it was fetched already\n", 404)
        as_file = {"Content-Disposition": f"attachment; filename*=UTF-8''{quote(found.name)}"}
        return Response(found.content, 200, as_file, "application/octet-stream")

    async def other(request: Request) -> Response:
        found = served.get(request.path_params["name"])
        if found is None or found is served[_FIRST_PAGE]:
            return PlainTextResponse("there is no such page\n", 404)
        return _response(found)

    async def socket_of_a_page(socket: WebSocket) -> None:
        fits = guard.allows_origin(socket.headers) and guard.allows_token(socket.query_params)
        if not fits:
            await socket.send_denial_response(PlainTextResponse("not from this page\n", 403))
            return
        if desks.open_now >= MOST_SOCKETS:
            await socket.accept()
            await socket.close(_FULL, f"at most {MOST_SOCKETS} pages at once")
            return
        desks.open_now += 1
        try:
            await Session(
                socket,
                desks.make,
                desks.first,
                desks.downloads,
                desks.places,
                lambda key: f"/file/{key}?token={guard.token}",
                desks.pace,
                desks.complain,
            ).run()
        finally:
            desks.open_now -= 1

    app = Starlette(
        routes=[
            Route("/", first_page),
            WebSocketRoute("/socket", socket_of_a_page),
            Route("/file/{key}", file),
            Route("/casts/{key}/{slot}", _casts_file(desks, guard), methods=["POST"]),
            Route("/{name}", other),
        ]
    )
    app.router.redirect_slashes = False
    return _Shield(app, guard, desks.complain)


def _casts_file(desks: Desks, guard: Guard) -> Callable[[Request], Awaitable[Response]]:
    """Return what takes in files that a page brings."""

    async def casts_file(request: Request) -> Response:
        if not (guard.allows_origin(request.headers) and guard.allows_token(request.query_params)):
            return PlainTextResponse("not from this page\n", 403)
        return await taken_in(request, desks.places)

    return casts_file


def _response(file: Served) -> Response:
    return Response(file.content, 200, None, file.media_type)


class _Shield:
    """Stands around the application: who is let in, what every answer says, and no tracebacks.

    Parameters
    ----------
    app : ASGIApp
        What answers requests that fit.
    guard : Guard
        Who is let in.
    complain : callable
        Gets every error that the program is to blame for.
    """

    def __init__(self, app: ASGIApp, guard: Guard, complain: Callable[[Exception], None]) -> None:
        self._app, self._guard, self._complain = app, guard, complain

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        started = False

        async def with_headers(message: Message) -> None:
            nonlocal started
            if message["type"] in ("http.response.start", "websocket.http.response.start"):
                started = True
                headers = MutableHeaders(scope=message)
                for name, value in _HEADERS.items():
                    headers.setdefault(name, value)  # a page may have a stricter policy
            started = started or message["type"] == "websocket.accept"
            await send(message)

        app = self._refusal(scope) or self._app
        try:
            await app(scope, receive, with_headers)
        except Exception as error:  # the outermost place: a line for the terminal, none for others
            self._complain(error)
            if not started and scope["type"] == "http":
                await PlainTextResponse("internal error\n", 500)(scope, receive, with_headers)

    def _refusal(self, scope: Scope) -> ASGIApp | None:
        """Return the answer to what is not let in."""
        if not self._guard.allows_host(Headers(scope=scope)):
            return _denied("not the name of this server\n", 403)
        brings = scope["path"].startswith("/casts/") and scope.get("method") == "POST"
        if scope["type"] == "http" and not brings and scope["method"] not in ("GET", "HEAD"):
            return PlainTextResponse("only GET and HEAD\n", 405, {"Allow": "GET, HEAD"})
        return None


def _denied(text: str, status: int) -> ASGIApp:
    """Return an answer that also suits a web socket."""

    async def denied(scope: Scope, receive: Receive, send: Send) -> None:
        response = PlainTextResponse(text, status)
        if scope["type"] == "websocket":
            await WebSocket(scope, receive, send).send_denial_response(response)
        else:
            await response(scope, receive, send)

    return denied


class _Server(uvicorn.Server):
    """A server that leaves signals to who runs it: they are how the page is meant to be ended."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        yield


def make_server(app: ASGIApp, **changes: Any) -> uvicorn.Server:
    """Return a server that runs the application on sockets it is given.

    Parameters
    ----------
    app : ASGIApp
        See `make_app`.
    **changes
        Settings of the server library that are to be others.
    """
    for name in ("uvicorn", "uvicorn.error", "uvicorn.access"):
        logger = logging.getLogger(name)
        logger.propagate = False
        logger.handlers = [logging.NullHandler()]
    settings: dict[str, Any] = {
        "log_config": None,
        "access_log": False,
        "lifespan": "off",
        "loop": "asyncio",
        "http": RequestProtocol,
        "ws": SocketProtocol,
        "ws_max_size": LARGEST_MESSAGE_BYTES,
        "ws_per_message_deflate": False,  # on one machine it costs more time than it saves
        "ws_ping_interval": 20.0,
        "ws_ping_timeout": 30.0,
        "server_header": False,
        "date_header": False,
        "proxy_headers": False,
        "limit_concurrency": 256,
        "h11_max_incomplete_event_size": 16_384,
        "timeout_graceful_shutdown": _GRACE_S,
    }
    return _Server(uvicorn.Config(app, **{**settings, **changes}))


def listen(host: str, port: int) -> socket.socket:
    """Return a socket that listens.

    Parameters
    ----------
    host : str
        Address or name of this machine.
    port : int
        0: any that is free.

    Raises
    ------
    InputError
        The port is taken, or the address is none of this machine.
    """
    try:
        family = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0][0]
        with socket.create_server((host, port), family=family) as listener:
            # Its protocol said in so many words: only then does asyncio send small messages at once
            # (TCP_NODELAY), where they would wait for up to 40 ms.
            return socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP, listener.detach())
    except (OSError, UnicodeError) as error:
        reason = getattr(error, "strerror", None) or error
        which = f"port {port}" if port else "any port"
        raise InputError(
            f"{host}, {which}: cannot be listened on ({reason}); take another --port, or leave "
            "it out, and as --host an address of this machine"
        ) from error
