"""One page and its desk: what the page asks last is what is answered."""

import asyncio
import threading
import time
from collections import deque
from collections.abc import Awaitable, Callable, Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any, Final, Protocol

from starlette.websockets import WebSocket, WebSocketDisconnect, WebSocketState

from kinematics.case import Case
from kinematics.checks import InputError
from scenes.page_casts import Place, Places
from scenes.page_casts_answers import CastsDesk
from scenes.page_casts_messages import (
    CastsFileRequest,
    ForgetRequest,
    PlaceRequest,
    ProposeRequest,
    ReadRequest,
    SnapRequest,
    StopRequest,
    TellRequest,
    UseRequest,
)
from scenes.page_casts_told import place_told, stopped
from scenes.page_downloads import Downloads
from scenes.page_guard import Bucket, Pace, TooMany
from scenes.page_lane import Job, Lane, Request, Stale
from scenes.page_messages import (
    LARGEST_MESSAGE_BYTES,
    FileRequest,
    LeaveSureRequest,
    NotUnderstood,
    Show,
    SureRequest,
    fault,
    file_ready,
    read_message,
)

#: Close codes of web sockets (RFC 6455 and its registry).
_UNSUPPORTED: Final = 1003
_POLICY: Final = 1008
_TOO_BIG: Final = 1009


class Desk(Protocol):
    """Computes the answers of one state; used in one thread, but for `report`."""

    def welcome(self, first: Show) -> bytes:
        """Return what a page is told before it asks anything."""

    def answers(self, show: Show, stop: threading.Event) -> Iterable[bytes]:
        """Yield each message as soon as it is ready; raise `Stale` soon after `stop` is set.

        Goes on after a message when that has been sent, and is closed there if it is not.
        """

    def bring(self, own: Callable[[str], Case | None]) -> None:
        """Say where cases that the page makes of its own casts are found."""

    def case_named(self, name: str) -> Case:
        """Return an unchanged case by its name on the page."""

    def report(self, request: FileRequest, folder: Path, stop: threading.Event) -> Iterable[bytes]:
        """Yield progress while one file is made in `folder`; called beside `answers`."""

    def how_sure(self, request: SureRequest, stop: threading.Event) -> Iterable[bytes]:
        """Yield how far a study of a state is, and what it says; called beside `answers`."""

    def close(self) -> None:
        """End whatever still runs: the page has left."""


DeskMaker = Callable[[], Desk]


class Session:
    """A web socket that was let in, until it is closed.

    Parameters
    ----------
    socket : WebSocket
        Not yet accepted.
    make_desk : callable
        Makes the desk of this page, in the thread that uses it.
    first : Show
        State the page begins with.
    downloads : Downloads
        Where files wait to be fetched.
    places : Places
        Where casts of pages are.
    address_of : callable
        Returns the address of a file by its key.
    pace : Pace
        How often the page may say something.
    complain : callable
        Gets every error that the program is to blame for; called in other threads.
    """

    def __init__(
        self,
        socket: WebSocket,
        make_desk: DeskMaker,
        first: Show,
        downloads: Downloads,
        places: Places,
        address_of: Callable[[str], str],
        pace: Pace,
        complain: Callable[[Exception], None],
    ) -> None:
        self._socket = socket
        self._make_desk, self._first = make_desk, first
        self._downloads, self._address_of = downloads, address_of
        self._places = places
        self._place: Place | None = None
        self._pace, self._complain = pace, complain
        self._loop = asyncio.get_running_loop()
        self._outbox: deque[tuple[Job, bytes]] = deque()
        self._filled = asyncio.Event()
        self._sending = asyncio.Lock()
        self._desk: Desk | None = None
        self._desk_stands = threading.Event()
        ended = self._in_the_loop(self._one_lane_less)
        self._shows = Lane(self._shown, self._post, lambda: self._leave_desk(ended), complain)
        self._files = {
            kind: Lane(self._made, self._post, ended, complain) for kind in ("report", "case_file")
        }
        self._casts = Lane(self._of_casts, self._post, ended, complain)
        self._sure = Lane(self._how_sure, self._post, ended, complain)
        self._lanes_left = 0
        self._lanes_ended = asyncio.Event()

    async def run(self) -> None:
        """Talk until the page leaves or is put off, then wait for what it had computed to end."""
        await self._socket.accept()
        self._shows.offer(None)
        sender = asyncio.create_task(self._send_answers())
        try:
            await self._listen()
        except WebSocketDisconnect:
            pass
        finally:
            lanes = (self._shows, *self._files.values(), self._casts, self._sure)
            self._lanes_left = sum([lane.end() for lane in lanes])
            self._desk_stands.set()
            sender.cancel()
        await asyncio.wait([sender])
        await self._lanes_ended.wait()
        if self._place is not None:
            self._places.let_go(self._place)

    async def _listen(self) -> None:
        bucket = Bucket(self._pace, time.monotonic())
        while (event := await self._socket.receive())["type"] == "websocket.receive":
            try:
                wait_s = bucket.wait_s(time.monotonic())
            except TooMany:
                return await self._close(_POLICY, "too many messages")
            if wait_s > 0.0:
                await asyncio.sleep(wait_s)
            text = event.get("text")
            if text is None:
                return await self._close(_UNSUPPORTED, "messages are text")
            if len(text) > LARGEST_MESSAGE_BYTES:
                return await self._close(_TOO_BIG, "message too long")
            await self._take(text)
        return None

    async def _take(self, text: str) -> None:
        try:
            request = read_message(text)
        except NotUnderstood as error:
            await self._send(fault(error.number, str(error)))
            return
        if isinstance(request, Show):
            self._shows.offer(request)
        elif isinstance(request, FileRequest):
            self._files[request.kind].offer(request)
        elif isinstance(request, SureRequest | LeaveSureRequest):
            self._sure.offer(request)
        elif isinstance(request, PlaceRequest):
            await self._send(self._place_told(request))
        elif isinstance(request, ForgetRequest):
            if self._place is not None:
                self._place.forget(request.slot)
        else:
            self._casts.offer(request)

    def _place_told(self, request: PlaceRequest) -> bytes:
        """Return the message with where casts are to be sent; the place is held from now on."""
        if self._place is None:
            self._place = self._places.hold(request.key)
        return place_told(request.number, self._place)

    def _own_case(self, name: str) -> Case | None:
        return None if self._place is None else self._place.cases.get(name)

    async def _close(self, code: int, reason: str) -> None:
        await self._say(lambda: self._socket.close(code, reason))

    async def _send(self, message: bytes) -> None:
        await self._say(lambda: self._socket.send_bytes(message))

    async def _say(self, say: Callable[[], Awaitable[None]]) -> None:
        """Say one thing after the other, and nothing to who was put off.

        Raises
        ------
        WebSocketDisconnect
            The page has left.
        """
        async with self._sending:
            if self._socket.application_state is not WebSocketState.CONNECTED:
                return
            try:
                await say()
            except RuntimeError as error:  # the server library had closed it for a faulty frame
                raise WebSocketDisconnect from error

    async def _send_answers(self) -> None:
        """Send what the threads post; a page that does not read holds it up."""
        with suppress(WebSocketDisconnect):
            while await self._filled.wait():
                while self._outbox:
                    job, message = self._outbox.popleft()
                    if not job.stop.is_set():
                        await self._send(message)
                    job.sent.release()
                self._filled.clear()

    def _take_in(self, job: Job, message: bytes) -> None:
        """Keep an answer until it is sent, and no longer what has become unwanted."""
        kept = [item for item in self._outbox if not item[0].stop.is_set()]
        self._outbox = deque([*kept, (job, message)])
        self._filled.set()

    def _in_the_loop(self, call: Callable[..., Any]) -> Callable[..., None]:
        """Return what other threads may call in place of something of the event loop."""

        def post(*arguments: Any) -> None:
            with suppress(RuntimeError):  # the loop has been closed: nobody listens any more
                self._loop.call_soon_threadsafe(call, *arguments)

        return post

    def _post(self, job: Job, message: bytes) -> None:
        self._in_the_loop(self._take_in)(job, message)

    def _one_lane_less(self) -> None:
        self._lanes_left -= 1
        if self._lanes_left == 0:
            self._lanes_ended.set()

    def _shown(self, request: Request | None, stop: threading.Event) -> Iterator[bytes]:
        """Yield the answers of the desk, which is made first of all; in the thread of shows."""
        if self._desk is None:
            desk = self._make_desk()
            desk.bring(self._own_case)
            # not an answer: a page that already asks something must be welcomed all the same
            self._post(Job(None), desk.welcome(self._first))
            self._desk = desk
            self._desk_stands.set()
        if isinstance(request, Show):
            yield from self._desk.answers(request, stop)

    def _leave_desk(self, ended: Callable[[], None]) -> None:
        """End what the desk began; in the thread of shows, as its last deed."""
        try:
            if self._desk is not None:
                self._desk.close()
        except Exception as error:  # the outermost place of this thread
            self._complain(error)
        ended()

    def _of_casts(self, request: Request | None, stop: threading.Event) -> Iterator[bytes]:
        """Yield answers about casts; in a thread beside that of shows."""
        self._desk_stands.wait()
        if self._desk is None or stop.is_set() or request is None:
            raise Stale
        if self._place is None:
            raise InputError("this page has no place for casts yet")
        casts = CastsDesk(self._place, self._desk.case_named)
        if isinstance(request, CastsFileRequest):
            yield from self._offered(
                request.number, lambda folder: casts.write(request, folder), stop
            )
        elif isinstance(request, StopRequest):
            yield stopped(request.number)
        elif isinstance(
            request, ReadRequest | SnapRequest | ProposeRequest | TellRequest | UseRequest
        ):
            yield from casts.answers(request, stop)

    def _how_sure(self, request: Request | None, stop: threading.Event) -> Iterator[bytes]:
        """Yield how far a study is, and what it says; that one is to be left off yields nothing."""
        self._desk_stands.wait()
        if self._desk is None or stop.is_set():
            raise Stale
        if isinstance(request, SureRequest):
            yield from self._desk.how_sure(request, stop)

    def _offered(
        self, number: int, write: Callable[[Path], object], stop: threading.Event
    ) -> Iterator[bytes]:
        """Let a file be made, and yield where it is."""
        folder = self._downloads.new_folder()
        try:
            write(folder)
            if stop.is_set():
                raise Stale
            key, name = self._downloads.offer(folder)
        except BaseException:
            self._downloads.drop(folder)
            raise
        yield file_ready(number, name, self._address_of(key))

    def _made(self, request: Request | None, stop: threading.Event) -> Iterator[bytes]:
        """Yield how far a file is, and last where it is; in a thread beside that of shows."""
        self._desk_stands.wait()
        if self._desk is None or stop.is_set() or not isinstance(request, FileRequest):
            raise Stale
        folder = self._downloads.new_folder()
        try:
            yield from self._desk.report(request, folder, stop)
            if stop.is_set():
                raise Stale
            key, name = self._downloads.offer(folder)
        except BaseException:
            self._downloads.drop(folder)
            raise
        yield file_ready(request.number, name, self._address_of(key))
