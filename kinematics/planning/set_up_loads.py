"""What a base would carry across its teeth if only some of its replacement teeth were set up."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.contact.sweep import GUIDED_BY_TEETH, Sweep
from kinematics.conventions import Bools
from kinematics.load.settings import LoadSettings
from kinematics.planning.base_loads import largest_pose, sweep_loads
from kinematics.planning.contact_runs import judged
from kinematics.planning.framework import Framework
from kinematics.planning.load_contacts import load_poses_without
from kinematics.planning.load_readings import BaseLoad, base_load
from kinematics.planning.occlusion import Occlusion

#: The largest load is looked for in poses this far apart, mm of travel, then in every pose nearer
#: than this to where it was found (chosen for this program: each set-up takes a run of its own).
EVERY_MM: Final = 0.5


@dataclass(frozen=True)
class SetUpLoad:
    """The largest load across the teeth of a framework in any excursion from MI.

    Attributes
    ----------
    teeth : tuple of int
        Replacement teeth of the framework that are set up.
    largest : BaseLoad or None
        Where it is largest, with its range; None where its teeth carry nothing beyond the near-MI
        length.
    """

    teeth: tuple[int, ...]
    largest: BaseLoad | None


def set_up_load(
    occlusion: Occlusion,
    settings: LoadSettings,
    frameworks: tuple[Framework, ...],
    sweeps: tuple[Sweep, ...],
    number: int,
    teeth: tuple[int, ...],
) -> SetUpLoad:
    """Return what one framework carries with only some of its teeth set up.

    The jaw is closed as if the others were not there; the base itself stays as it is.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    settings : LoadSettings
        Closing force, and how far everything gives way, with the ranges of both.
    frameworks : tuple of Framework
        All of the case.
    sweeps : tuple of Sweep
        Excursions; those from MI are asked.
    number : int
        Which framework.
    teeth : tuple of int
        Its teeth that are set up.
    """
    own = {code for base in frameworks[number].bases for code in base.teeth}
    dropped = frozenset(own - set(teeth))

    def largest_in(sweep: Sweep, wanted: Bools, ranged: bool) -> BaseLoad | None:
        poses = load_poses_without(occlusion, sweep, wanted, dropped)
        if not len(poses.rows):
            return None
        loads = sweep_loads(occlusion, settings, frameworks, sweep, poses, ranged)
        pose = largest_pose(loads, loads.frames[number])
        return None if pose is None else base_load(loads, loads.frames[number], pose)

    found: list[tuple[BaseLoad, Sweep, Bools]] = []
    for sweep in sweeps if teeth else ():
        asked = judged(sweep, occlusion.settings) & (sweep.guide == GUIDED_BY_TEETH)
        if sweep.excursion.start == "MI" and asked.any():
            steps = np.floor(sweep.travel_mm / EVERY_MM + 1e-6)
            apart = np.concatenate([[True], np.diff(steps) > 0.0])
            largest = largest_in(sweep, asked & apart, ranged=False)
            if largest is not None:
                found.append((largest, sweep, asked))
    if not found:
        return SetUpLoad(teeth, None)
    coarse, sweep, asked = max(found, key=lambda item: item[0].figures["across_n"])
    near = asked & (np.abs(sweep.travel_mm - coarse.travel_mm) < EVERY_MM - 1e-6)
    return SetUpLoad(teeth, largest_in(sweep, near, ranged=True))
