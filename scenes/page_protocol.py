"""Web sockets of the server library, with an end to what a page that does not read can hold."""

import asyncio
from typing import Final

from uvicorn.protocols.websockets.websockets_sansio_impl import WebSocketsSansIOProtocol

#: How long a page may take to read what was still sent to it, once nothing more will be.
_LAST_WORDS_S: Final = 5.0


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
