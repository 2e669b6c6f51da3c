"""A desk that computes nothing, for tests of the server: it answers what it is told to answer."""

import time

import numpy as np

from kinematics.checks import InputError
from scenes.page_frames import frame
from scenes.page_lane import Stale


class StandInDesk:
    """Answers as a desk does; the movement of a state says how.

    "slow" waits for `stop` after the pose, "deaf" is busy for a while whatever is said, "faulty"
    is refused, "broken" fails, "large" sends a lot; everything else is answered at once.
    """

    def __init__(self):
        self.stopped = 0
        self.is_closed = False

    def welcome(self, first):
        """Return a message with the state to begin with."""
        return frame({"kind": "welcome", "first": first.model_dump()})

    def bring(self, own):
        """Remember nothing: no case of its own is shown."""

    def case_named(self, name):
        """There is none."""
        raise InputError(f"no case {name}")

    def answers(self, show, stop):
        """Yield a pose, then a rest."""
        if show.movement == "faulty":
            error = InputError("guidance.right.fischer_deg = 99: must be -20 to 20 degrees")
            error.keys = ("guidance.right.fischer_deg",)
            raise error
        if show.movement == "broken":
            raise ZeroDivisionError("division by zero")
        try:
            yield frame(
                {"kind": "pose", "number": show.number, "travel_mm": show.travel_mm},
                {"gap_upper": np.arange(5, dtype=np.uint16)},
            )
            if show.movement == "slow" and stop.wait(20.0):
                raise Stale
        except (Stale, GeneratorExit):
            self.stopped += 1
            raise
        if show.movement == "deaf":
            time.sleep(1.0)
        if show.movement == "large":
            for _ in range(40):
                yield frame({"kind": "teeth", "number": show.number}, {"a": np.zeros(2**20, "u1")})
        yield frame({"kind": "rest", "number": show.number})

    def report(self, request, folder, stop):
        """Yield progress, and leave a file; "slow" waits for `stop`."""
        yield frame({"kind": "progress", "number": request.number, "words": "x", "share": None})
        if request.movement == "slow" and stop.wait(20.0):
            raise Stale
        name = "report.html" if request.kind == "report" else "case.toml"
        (folder / name).write_bytes(b"made " + request.case.encode())

    def how_sure(self, request, stop):
        """Yield progress, and a result; "slow" waits for `stop` in between."""
        yield frame({"kind": "progress", "number": request.number, "words": "y", "share": 0.5})
        if request.movement == "slow" and stop.wait(20.0):
            self.stopped += 1
            raise Stale
        yield frame({"kind": "sure", "number": request.number})

    def close(self):
        """Remember it."""
        self.is_closed = True
