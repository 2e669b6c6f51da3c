"""Who runs samples: what every kind of hands offers, and how it is told that one was lost."""

from collections.abc import Generator, Mapping
from typing import Final, Protocol

from kinematics.engine.plan import Plan
from kinematics.engine.work import Outcome

#: So often, seconds, hands report even if nothing is done, so that whoever waits can stop them.
LOOK_S: Final = 0.5


#: Samples still to be run of every job, by its place in the plan.
Missing = Mapping[int, tuple[range, ...]]


class Hands(Protocol):
    """Runs samples, in whatever order, each with the same bits wherever it runs."""

    def work(
        self, plan: Plan, missing: Mapping[int, tuple[range, ...]]
    ) -> Generator[Outcome, None, None]:
        """Yield what is done as it comes in.

        Closing the iterator ends all work at once, and everything that was started for it.

        Parameters
        ----------
        plan : Plan
            All that is to be run.
        missing : mapping of int to tuple of range
            See `Missing`.

        Raises
        ------
        HandLost
            A process of these hands ended.
        """


class HandLost(RuntimeError):
    """A process that ran samples ended before it was done; the message says what to do."""
