"""Connections of the server library, with an end to what one that does nothing can hold."""

import asyncio
from typing import Final

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol
from uvicorn.protocols.websockets.websockets_sansio_impl import WebSocketsSansIOProtocol

#: How long a page may take to read what was still sent to it, once nothing more will be.
_LAST_WORDS_S: Final = 5.0


class RequestProtocol(H11Protocol):
    """Hangs up on who is connected and asks nothing, or does not come to an end with it."""

    #: How often it is looked.
    look_s = 20.0

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin to look."""
        super().connection_made(transport)
        self.loop.call_later(self.look_s, self._look)

    def _look(self) -> None:
        if self.transport.is_closing() or self.transport.get_protocol() is not self:
            return
        if self.conn.their_state is h11.IDLE:
            self.transport.abort()
        else:
            self.loop.call_later(self.look_s, self._look)


class SocketProtocol(WebSocketsSansIOProtocol):
    """Holds no more than what was being sent when the page stopped reading, and not for ever."""

    def handle_ping(self) -> None:
        """Answer, unless answers pile up already."""
        if self.writable.is_set():
            super().handle_ping()
        else:
            self.conn.data_to_send()  # taken out, for good

    def keepalive_timeout(self) -> None:
        """Hang up: what is still to be sent would never be."""
        super().keepalive_timeout()
        self.transport.abort()

    def on_task_complete(self, task: asyncio.Task[None]) -> None:
        """Hang up soon after the last word, read or not."""
        super().on_task_complete(task)
        self.loop.call_later(_LAST_WORDS_S, self.transport.abort)
