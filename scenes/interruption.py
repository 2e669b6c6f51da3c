"""How a run ends on Ctrl-C or a request to stop."""

import math
import time
from types import FrameType
from typing import Final

_PATIENCE_S: Final = 2.0


class Interrupted(BaseException):
    """Ctrl-C or a request to stop.

    Not a KeyboardInterrupt: where that passes through code made from text, as dataclasses are, the
    interpreter ends itself by the signal although the interrupt was caught.
    """


class Ending:
    """Ends the run on Ctrl-C or a request to stop, so that a half-made folder is cleared away.

    A second signal on the heels of the first would disturb just that, and is let pass.
    """

    def __init__(self) -> None:
        self._last = -math.inf

    @property
    def came(self) -> bool:
        """Whether there was a signal."""
        return self._last > -math.inf

    def __call__(self, _signal: int, _frame: FrameType | None) -> None:
        """Take a signal."""
        before, self._last = self._last, time.monotonic()
        if self._last - before > _PATIENCE_S:
            raise Interrupted
