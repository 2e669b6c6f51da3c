"""What a base would carry across its teeth if only some of its replacement teeth were set up."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.contact.sweep import GUIDED_BY_TEETH, Sweep
from kinematics.load.settings import LoadSettings
from kinematics.planning.base_loads import sweep_loads
from kinematics.planning.contact_runs import judged
from kinematics.planning.framework import Framework
from kinematics.planning.load_contacts import load_poses_without
from kinematics.planning.load_readings import BaseLoad, base_load, largest_pose
from kinematics.planning.occlusion import Occlusion

#: Poses this far apart are loaded, mm of travel: set-ups are compared, and each takes a run.
EVERY_MM: Final = 0.5


@dataclass(frozen=True)
class SetUpLoad:
    """The largest load across the teeth of a framework in any excursion from MI.

    Attributes
    ----------
    teeth : tuple of int
        Replacement teeth of the framework that are set up.
    largest : BaseLoad or None
        Where it is largest; None where its teeth carry nothing beyond the near-MI length.
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
        Closing force, and how far everything gives way; figures are those of the force as set.
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
    found: list[BaseLoad] = []
    for sweep in sweeps if teeth else ():
        wanted = judged(sweep, occlusion.settings) & (sweep.guide == GUIDED_BY_TEETH)
        if sweep.excursion.start != "MI" or not wanted.any():
            continue
        steps = np.floor(sweep.travel_mm / EVERY_MM + 1e-6)
        wanted &= np.concatenate([[True], np.diff(steps) > 0.0])
        poses = load_poses_without(occlusion, sweep, wanted, dropped)
        if len(poses.rows):
            loads = sweep_loads(occlusion, settings, frameworks, sweep, poses, ranged=False)
            frame = loads.frames[number]
            pose = largest_pose(loads, frame)
            if pose is not None:
                found.append(base_load(loads, frame, pose))
    largest = max(found, key=lambda load: load.figures["across_n"], default=None)
    return SetUpLoad(teeth, largest)
