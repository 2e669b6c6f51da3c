"""How far a long study is, line by line for the screen."""

from collections.abc import Callable
from typing import Final

from kinematics.engine.progress import Progress, progress_words

#: So often, seconds, it is told how far a study is.
TELL_EVERY_S: Final = 5.0


def telling(progress: Callable[[str], None], what: str) -> Callable[[Progress], None]:
    """Return what tells how far a study is, not more often than one would look.

    Parameters
    ----------
    progress : callable
        Gets every line.
    what : str
        What is run; see `progress_words`.
    """
    last, done, told = -TELL_EVERY_S, -1, set[str]()

    def tell(now: Progress) -> None:
        nonlocal last, done
        for note in now.notes:
            if note not in told:
                told.add(note)
                progress(note)
        if now.done != done and (now.spent_s - last >= TELL_EVERY_S or now.done == now.total):
            last, done = now.spent_s, now.done
            progress(progress_words(now, what))

    return tell
