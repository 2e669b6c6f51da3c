"""How sure findings are, for the page: a study in processes of its own, and what it says of each.

The study goes on beside the page and gives way to it: whoever moves the jaw meanwhile comes first.
"""

import os
import sys
import threading
from collections.abc import Callable, Generator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import replace
from queue import Empty, SimpleQueue
from typing import Any, Final

from kinematics.case import Case
from kinematics.checks import InputError
from kinematics.engine.hands import HandLost
from kinematics.engine.local_hands import LocalHands
from kinematics.engine.progress import Progress, duration_words
from kinematics.planning.findings import Finding
from kinematics.studies.uncertain import studied_at_once
from kinematics.uncertainty.found import FindingShare, Uncertainty
from kinematics.uncertainty.matched import TOLD_FROM, matched_shares, not_as_set
from kinematics.uncertainty.settings import UncertaintySettings
from scenes.page_frames import frame
from scenes.page_lane import Failed, unless_stale
from scenes.page_messages import progress
from scenes.page_results import finding_id
from scenes.phrases import counted
from scenes.share_words import shown_share
from scenes.uncertainty_words import (
    NOT_OF_PATIENTS,
    NOT_STUDIED,
    SETTLED,
    share_title,
    what_decides,
)

#: Independent samples of a study on the page: shares are then known to within about 12 %.
SAMPLES: Final = 64
NOTHING_UNCERTAIN: Final = (
    "no setting of this case is uncertain: all its standard errors are 0, or settings without one"
    " are taken as exact"
)
#: At least so many processes, so that none of it is done in that of the page.
_FEWEST: Final = 2
#: How much later than others processes of a study get their turn; 19 is last.
_GIVES_WAY: Final = 10
#: How often it is asked whether a study is still wanted.
_LOOK_S: Final = 0.05


def studied(
    number: int, case: Case, processes: int, stop: threading.Event
) -> Generator[bytes, None, Uncertainty]:
    """Yield messages on how far the study of a case is; return what it found.

    Parameters
    ----------
    number : int
        Of the message answered.
    case : Case
        As the page has it.
    processes : int
        How many may compute.
    stop : threading.Event
        Ends the study soon after it is set.

    Raises
    ------
    Stale
        It was told to stop.
    InputError
        Nothing of the case is uncertain, or it cannot be run.
    Failed
        A process of the study ended by itself.
    """
    said = replace(case.uncertainty or UncertaintySettings(), samples=SAMPLES)
    of = replace(case, uncertainty=said)
    look = unless_stale(stop)
    told: SimpleQueue[Progress] = SimpleQueue()

    def tell(done: Progress) -> None:
        look()
        told.put(done)

    with ThreadPoolExecutor(1) as thread:
        found = thread.submit(_giving_way, of, max(processes, _FEWEST), tell)
        while not found.done():
            look()
            with suppress(Empty):
                done = told.get(timeout=_LOOK_S)
                yield progress(number, _words(done), done.done / done.total)
        try:
            uncertainty = found.result()
        except HandLost as error:
            raise Failed(str(error)) from error
    if uncertainty is None:
        raise InputError(NOTHING_UNCERTAIN)
    return uncertainty


def _words(done: Progress) -> str:
    """Return how far a study is; runs are more than samples, since influences take some too."""
    words = f"{done.done} of {done.total} runs"
    if done.left_s is None or done.done == done.total:
        return words
    return f"{words}, about {duration_words(done.left_s)} left"


def _giving_way(case: Case, processes: int, tell: Callable[[Progress], None]) -> Uncertainty | None:
    """Study a case in a thread whose processes get their turn after those of the page."""
    if sys.platform == "linux":  # elsewhere it would hold for all threads, not for this one
        os.nice(_GIVES_WAY)
    return studied_at_once(case, LocalHands(processes), tell)


def sure_answer(number: int, findings: Sequence[Finding], found: Uncertainty) -> bytes:
    """Return the message with how sure each of some findings is.

    Parameters
    ----------
    number : int
        Of the message answered.
    findings : sequence of Finding
        As the page has been told them.
    found : Uncertainty
        What the study found.
    """
    shares = matched_shares(findings, found)
    others = [item for item in not_as_set(findings, found) if item.holds.share >= TOLD_FROM]
    told: dict[str, Any] = {
        "kind": "sure",
        "number": number,
        "lead": (
            f"Of {counted(found.samples, 'sample')} of the settings that are uncertain, each within"
            " what it is known to; in brackets the 95 % interval."
        ),
        "about": [SETTLED, NOT_OF_PATIENTS, NOT_STUDIED],
        "findings": {
            finding_id(place, item): _told(shares[item])
            for place, item in enumerate(findings)
            if item in shares
        },
        "others": [{"title": share_title(item), **_told(item)} for item in others],
    }
    return frame(told)


def _told(item: FindingShare) -> dict[str, Any]:
    shown = shown_share(item)
    return {
        "text": shown.text,
        "settled": shown.settled,
        "short": shown.short,
        "low": round(shown.low, 1),
        "share": round(shown.share, 1),
        "high": round(shown.high, 1),
        "decides": what_decides(item.influences),
    }
