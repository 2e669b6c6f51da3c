"""How much the guiding teeth would have to be built up so that a flagged tooth clears."""

from dataclasses import dataclass, replace
from functools import partial
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.casts.crown_directions import crown_of
from kinematics.contact.closure import MEETS, close
from kinematics.contact.pair import Pair, upper_tree
from kinematics.contact.sweep import Sweep
from kinematics.conventions import LEFT, Floats
from kinematics.geometry.poses import opening_rotation
from kinematics.planning.guidance_kinds import working_side
from kinematics.planning.remedies.clearance import Judge, casts_without, path_of
from kinematics.remedies.amounts import Smallest, smallest
from kinematics.remedies.subject import FlaggedTooth
from kinematics.trial.settings import Change

#: What is built up begins so far from the rim of a centric stop, mm (chosen for this program).
FROM_STOP_MM: Final = 0.1
#: In a change it begins at least, and at most, so far below the edge, mm; see `Change`.
_LEAST_FROM_MM: Final = 0.3
_MOST_FROM_MM: Final = 12.0
STEP_MM: Final = 0.01
#: Where MI does not allow it, it begins by so much nearer to the edge, and so on, mm.
NEARER_MM: Final = 0.5
#: What opens the jaw in MI by no more does not reach the opponents there, radians: rounding.
_NOT_LIFTED_RAD: Final = 1e-7
_TOUCHES_IN_MI: Final = "more would touch in MI, wherever it begins"
#: Around the amount found with the poses as they are, so many steps are tried with poses anew.
_NEAR_STEPS: Final = 6


@dataclass(frozen=True)
class Guides:
    """Upper teeth that are to guide where the flagged tooth is too near, and from where on.

    Attributes
    ----------
    begins_mm : dict of int to float
        By tooth: how far below its edge what is built up begins at most.
    nearer_mm : float
        By how much nearer to the edge it begins.
    reason : str
        Why there are none; empty where there are.
    """

    begins_mm: dict[int, float]
    nearer_mm: float = 0.0
    reason: str = ""

    def changes(self, steps: int) -> tuple[Change, ...]:
        """Return the changes of so many steps."""
        by_mm = round(steps * STEP_MM, 4)
        return tuple(
            Change("steepen", code, by_mm=by_mm, from_mm=round(begins - self.nearer_mm, 4))
            for code, begins in self.begins_mm.items()
        )

    def all_starts(self) -> tuple["Guides", ...]:
        """Return them with what is built up beginning nearer and nearer to the edge."""
        least = min(self.begins_mm.values()) - _LEAST_FROM_MM
        return tuple(
            replace(self, nearer_mm=NEARER_MM * n) for n in range(int(least / NEARER_MM) + 1)
        )


def guides_for(flagged: FlaggedTooth) -> Guides:
    """Return the guides: the canine of the working side, straight ahead both central incisors."""
    subject = flagged.subject
    if flagged.judge.of(np.arange(1)).too_near(flagged.mesh) is not None:
        return Guides({}, reason="it is too high in MI, where guides are of no help")
    begins: dict[int, float] = {}
    for number in _too_near_in(flagged):
        codes = _guides_in(subject.found.sweeps[number])
        there = [code for code in codes if code in subject.casts.upper.codes]
        there = [code for code in there if code != flagged.tooth]
        if not there:
            which = " and ".join(map(str, codes))
            return Guides({}, reason=f"{which} would have to guide there, and cannot")
        for code in there:
            room = _room_mm(flagged, code)
            if room < _LEAST_FROM_MM:
                return Guides(
                    {}, reason=f"the stop of {code} in MI lies at its edge: no surface is left"
                )
            begins[code] = room
    return Guides(begins)


def _too_near_in(flagged: FlaggedTooth) -> list[int]:
    """Return the numbers of the excursions in which the tooth lacks something as it is."""
    path, found = flagged.path, []
    for one in flagged.wanted:
        rows = np.flatnonzero(path.sweep == one.excursion)
        if len(rows) and flagged.judge.of(rows).too_near(flagged.mesh) is not None:
            found.append(one.excursion)
    return found


def _guides_in(sweep: Sweep) -> tuple[int, ...]:
    side = working_side(sweep.excursion)
    if side == 0:
        return 11, 21
    return (23,) if side == LEFT else (13,)


def _room_mm(flagged: FlaggedTooth, code: int) -> float:
    """Return how far below the edge the surface is free of stops, mm, to a tenth."""
    subject = flagged.subject
    crown = crown_of(subject.casts.upper, code)
    edge = float((crown.tooth.edge @ crown.up).max())
    below = [
        edge - float(np.array(stop.point) @ crown.up) - float(np.sqrt(stop.area_mm2 / np.pi))
        for stop in subject.found.stops
        if stop.tooth_upper == code
    ]
    free = min(below) - FROM_STOP_MM if below else 0.5 * float(crown.high[2] - crown.low[2])
    return min(float(np.floor(10.0 * free + 1e-9) / 10.0), _MOST_FROM_MM)


def steepest_needed(
    flagged: FlaggedTooth, guides: Guides, most_mm: float
) -> tuple[Guides, Smallest]:
    """Return where what is built up begins, and how many steps the guides need.

    It begins as far from the edge as MI allows. First the jaw is only opened further in poses as
    they are; then, around what that gives, all excursions are followed anew: a steeper guide shifts
    poses along the way a little.
    """
    most, last = round(most_mm / STEP_MM), (guides, Smallest(None, 0, _TOUCHES_IN_MI))
    for start in guides.all_starts():
        free = _free_in_mi(flagged, start, most)
        if free == 0:
            continue
        if not _lifted_clears(flagged, start, free):
            hindered = _TOUCHES_IN_MI if free < most else ""
            last = (start, Smallest(None, free, hindered))
            continue
        rough = smallest(partial(_lifted_clears, flagged, start), free, 4)
        assert rough.steps is not None
        return start, _followed(flagged, start, rough.steps, free)
    return last


def _free_in_mi(flagged: FlaggedTooth, guides: Guides, most: int) -> int:
    """Return how many steps do not reach the opponents in MI."""
    in_mi = flagged.path.poses[:1]

    def lifts(steps: int) -> bool:
        return bool(_turns(flagged, guides, steps, in_mi)[0] > _NOT_LIFTED_RAD)

    first = smallest(lifts, most, most)
    return most if first.steps is None else first.steps - 1


def _followed(flagged: FlaggedTooth, guides: Guides, steps: int, most: int) -> Smallest:
    """Return the fewest steps that do with all excursions followed anew, near to some."""
    if _followed_clears(flagged, guides, steps):
        for _ in range(_NEAR_STEPS):
            if steps == 1 or not _followed_clears(flagged, guides, steps - 1):
                break
            steps -= 1
        return Smallest(steps, most)
    for more in range(steps + 1, min(steps + _NEAR_STEPS, most) + 1):
        if _followed_clears(flagged, guides, more):
            return Smallest(more, most)
    return Smallest(None, min(steps + _NEAR_STEPS, most))


def lifted_poses(flagged: FlaggedTooth, guides: Guides, steps: int) -> Floats:
    """Return the poses of a path, the jaw opened as far as built-up guides open it."""
    poses = flagged.path.poses
    return np.asarray(poses @ opening_rotation(_turns(flagged, guides, steps, poses)))


def _turns(flagged: FlaggedTooth, guides: Guides, steps: int, poses: Floats) -> Floats:
    """Return by how much built-up guides open the jaw further in some poses, (n,), radians."""
    subject, lower = flagged.subject, flagged.rest.pair.lower
    turn = np.zeros(len(poses))
    for change in guides.changes(steps):
        mesh = subject.changed_mesh(change)
        alone = Arch(mesh, np.full(len(mesh.faces), change.tooth), ())
        met = close(Pair(upper_tree(alone), lower), poses, None, subject.workers)
        turn = np.maximum(turn, np.where(met.status == MEETS, met.opening_rad, 0.0))
    return turn


def _lifted_clears(flagged: FlaggedTooth, guides: Guides, steps: int) -> bool:
    poses = lifted_poses(flagged, guides, steps)
    return flagged.judge.at(poses).clears(flagged.mesh)


def _followed_clears(flagged: FlaggedTooth, guides: Guides, steps: int) -> bool:
    subject = flagged.subject
    _, _, casts = subject.with_changes(guides.changes(steps))
    sweeps = subject.followed(casts_without(casts, flagged.tooth))
    path, lost = path_of(
        subject.occlusion, sweeps, flagged.tooth, flagged.wanted, flagged.held_in_mi_mm
    )
    judge = Judge(casts, flagged.tooth, path, subject.workers)
    return not lost and judge.clears(flagged.mesh)
