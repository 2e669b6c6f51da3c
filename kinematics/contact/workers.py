"""Who does the work: threads, and the scratch memory of each."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.contact.pair import Pair
from kinematics.conventions import Floats, Ints

PARTS_A_THREAD: Final = 4
SHORTEST_PART: Final = 4

Scratch = tuple[Ints, Floats, Ints, Floats]


class Workers:
    """A number of threads that share prepared pairs but no scratch.

    Results do not depend on the number of threads: each pose is computed by one of them, and what
    one pose leaves behind only speeds up the next.

    Parameters
    ----------
    threads : int
        1 to 256.
    """

    def __init__(self, threads: int = 1) -> None:
        if not 1 <= threads <= 256:
            raise InputError(f"threads = {threads}: must be 1 to 256")
        self.threads = threads

    def scratch(self, pair: Pair) -> Scratch:
        """Return memory for one thread: what it knows of the upper's nodes and vertices."""
        nodes, vertices = len(pair.upper.arrays.links), len(pair.upper.arrays.vertices)
        return (
            np.zeros(nodes, dtype=np.int64),
            np.empty((nodes, 12)),
            np.zeros(vertices, dtype=np.int64),
            np.empty((vertices, 4)),
        )

    def run(
        self, count: int, block: Callable[[int, int], None], shortest_part: int = SHORTEST_PART
    ) -> None:
        """Call `block(first, last)` on contiguous parts of range(count).

        Several parts a thread, since poses near MI take many times as long as others; not too
        short ones, since each pose makes the next one quicker.
        """
        parts = min(PARTS_A_THREAD * self.threads, count // shortest_part)
        if self.threads == 1 or parts <= 1:
            if count:
                block(0, count)
            return
        cuts = [count * i // parts for i in range(parts + 1)]
        with ThreadPoolExecutor(self.threads) as pool:
            for done in [pool.submit(block, cuts[i], cuts[i + 1]) for i in range(parts)]:
                done.result()
