"""All pictures of a film in their order, drawn ahead by others; each moment is drawn once."""

import math
import zlib
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor, Future
from typing import Final

from kinematics.checks import InputError
from scenes.drawing_processes import DrawingProcessEndedError
from scenes.film_arguments import MOST_DRAWING
from scenes.film_sheet import pictures
from scenes.film_shot import Moment, Shot

#: Most and fewest pictures drawn at a time by one process, which opens a window for them, and
#: orders in advance of what is written.
_AT_ONCE: Final = 25
_FEWEST: Final = 10
_AHEAD: Final = 3
#: Pictures that come again are kept a tenth as large, in little time.
_QUICKLY: Final = 1


def drawn_pictures(
    shot: Shot, every: Sequence[Moment], progress: Callable[[str], None], drawing: Executor
) -> Iterator[bytes]:
    """Yield all pictures in their order; of moments that come again only the first is drawn.

    Raises
    ------
    InputError
        A process that draws is gone.
    """
    last_use = {id(moment): number for number, moment in enumerate(every)}
    firsts = list({id(moment): moment for moment in every}.values())
    drawn = _drawn_ahead(shot, firsts, progress, drawing)
    kept: dict[int, bytes] = {}
    for number, moment in enumerate(every):
        key, again = id(moment), last_use[id(moment)] > number
        picture = zlib.decompress(kept[key]) if key in kept else next(drawn)
        if again and key not in kept:
            kept[key] = zlib.compress(picture, _QUICKLY)
        elif not again:
            kept.pop(key, None)
        yield picture


def _drawn_ahead(
    shot: Shot, some: Sequence[Moment], progress: Callable[[str], None], drawing: Executor
) -> Iterator[bytes]:
    """Yield a picture of each moment; those that come next are drawn meanwhile."""
    blocks = _blocks(some)
    waiting = deque(drawing.submit(pictures, shot, block) for block in blocks[:_AHEAD])
    done = 0
    for number in range(len(blocks)):
        progress(f"drawing pictures, {done} of {len(some)}")
        drawn = _answer(waiting.popleft())
        if number + _AHEAD < len(blocks):
            waiting.append(drawing.submit(pictures, shot, blocks[number + _AHEAD]))
        done += len(drawn)
        yield from drawn


def _blocks(some: Sequence[Moment]) -> list[Sequence[Moment]]:
    """Return moments in blocks of nearly equal length, as many for each process that draws."""
    rounds = max(1, math.ceil(len(some) / (_AT_ONCE * MOST_DRAWING)))
    size = max(_FEWEST, math.ceil(len(some) / (rounds * MOST_DRAWING)))
    return [some[i : i + size] for i in range(0, len(some), size)]


def _answer(drawing: Future[list[bytes]]) -> list[bytes]:
    """Wait for what was ordered."""
    try:
        return drawing.result()
    except DrawingProcessEndedError as error:
        raise InputError(
            "a process that drew pictures was ended from outside, which happens most often for want"
            " of memory; nothing was written; close other programs, or ask for less at a time with"
            " --threads 1 or a smaller --size, and run the command again"
        ) from error
