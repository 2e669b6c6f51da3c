"""Who may talk to the page's server, how much, and how often."""

import hmac
import ipaddress
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

#: Names of this machine that mean nothing anywhere else.
LOOPBACK: Final = ("127.0.0.1", "localhost", "::1")
#: At most so many pages at once; two states side by side take two.
MOST_SOCKETS: Final = 8

_PLAIN_PORT: Final = 80
_TOKEN_BYTES: Final = 24


@dataclass(frozen=True)
class Guard:
    """Lets in who was given the address, under a name the server goes by.

    A page from elsewhere can make a browser call this server under a name of its own that leads
    here; it cannot make the browser hide that name. So names are checked, not only addresses.

    Attributes
    ----------
    host : str
        Address the server listens on.
    port : int
        Its port.
    token : str
        Secret of this run; who has the address that the terminal shows has it.
    """

    host: str
    port: int
    token: str = field(default_factory=lambda: secrets.token_urlsafe(_TOKEN_BYTES))

    @property
    def is_private(self) -> bool:
        """Whether only this machine can reach the server."""
        return self.host == "localhost" or (
            _is_address(self.host) and ipaddress.ip_address(self.host).is_loopback
        )

    @property
    def _listens_everywhere(self) -> bool:
        return self.host in ("0.0.0.0", "::")

    def address(self) -> str:
        """Return the address to open, token and all."""
        name = "127.0.0.1" if self._listens_everywhere else self.host
        shown = f"[{name}]" if ":" in name else name
        return f"http://{shown}:{self.port}/?token={self.token}"

    def allows_host(self, headers: Mapping[str, str]) -> bool:
        """Tell whether the name a request was sent to is one of this server's own."""
        given = headers.get("host", "").lower()
        name, separator, port = given.rpartition(":")
        if not separator or not port.isdecimal():  # browsers leave the plain port out
            name, port = given, str(_PLAIN_PORT)
        if port != str(self.port):
            return False
        bare = name[1:-1] if name.startswith("[") and name.endswith("]") else name
        if bare == self.host.lower():
            return True
        if self.is_private or self._listens_everywhere:
            return bare in LOOPBACK or (self._listens_everywhere and _is_address(bare))
        return False

    def allows_origin(self, headers: Mapping[str, str]) -> bool:
        """Tell whether it was a page of this server that opened a web socket."""
        origin, host = headers.get("origin", ""), headers.get("host", "")
        return origin.lower() == f"http://{host.lower()}"

    def allows_token(self, query: Mapping[str, str]) -> bool:
        """Tell whether a request knows the secret of this run."""
        return hmac.compare_digest(query.get("token", "").encode(), self.token.encode())


def _is_address(name: str) -> bool:
    """Tell whether a name is a bare address, which nobody else can make lead here."""
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return False
    return True


@dataclass(frozen=True)
class Pace:
    """How often one page may say something.

    Attributes
    ----------
    each_second : float
        Messages a second, for ever.
    at_once : int
        Messages more than that, now and then.
    patience : int
        After so many messages in a row that had to wait the page is put off.
    """

    each_second: float = 120.0
    at_once: int = 240
    patience: int = 240


class TooMany(Exception):
    """Messages keep coming faster than is allowed."""


class Bucket:
    """Lets messages through at a pace: each takes a token, and tokens come back with time.

    Parameters
    ----------
    pace : Pace
        How many.
    now_s : float
        Time on the clock that `wait_s` is told.
    """

    def __init__(self, pace: Pace, now_s: float) -> None:
        self._pace = pace
        self._tokens = float(pace.at_once)
        self._last_s = now_s
        self._waited = 0

    def wait_s(self, now_s: float) -> float:
        """Take a token for one message; return how long the message has to wait for it.

        Raises
        ------
        TooMany
            Too many messages in a row had to wait.
        """
        passed = max(0.0, now_s - self._last_s)
        self._last_s = now_s
        gained = self._tokens + passed * self._pace.each_second
        self._tokens = min(float(self._pace.at_once), gained) - 1.0
        if self._tokens >= 0.0:
            self._waited = 0
            return 0.0
        self._waited += 1
        if self._waited > self._pace.patience:
            raise TooMany
        return -self._tokens / self._pace.each_second
