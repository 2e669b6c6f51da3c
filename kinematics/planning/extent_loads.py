"""What each set-up of a denture base brings upon its framework."""

from collections.abc import Iterable
from dataclasses import replace

from kinematics.contact.sweep import Sweep
from kinematics.load.settings import LoadSettings
from kinematics.planning.extent import Extent, LoadAcross
from kinematics.planning.framework import Framework
from kinematics.planning.load_readings import BaseLoad
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.set_up_loads import set_up_load


def with_loads(
    occlusion: Occlusion,
    settings: LoadSettings,
    frameworks: tuple[Framework, ...],
    sweeps: tuple[Sweep, ...],
    extents: Iterable[Extent],
) -> tuple[Extent, ...]:
    """Return the same extents, every set-up with the largest load that it brings.

    Other bases of the framework keep all their teeth. Left out are bases whose length stops do not
    tell.

    Parameters
    ----------
    occlusion, settings, frameworks, sweeps
        See `set_up_load`.
    extents : iterable of Extent
        What was found of the bases.
    """

    def told(number: int, teeth: tuple[int, ...]) -> LoadAcross:
        return _across(set_up_load(occlusion, settings, frameworks, sweeps, number, teeth).largest)

    found = []
    for extent in extents:
        if not extent.is_told_by_stops:
            found.append(extent)
            continue
        number = next(
            i
            for i, item in enumerate(frameworks)
            if extent.base in [base.name for base in item.bases]
        )
        others = _others(frameworks[number], extent.base)
        set_ups = tuple(
            replace(item, load=told(number, (*others, *item.teeth))) for item in extent.set_ups
        )
        found.append(replace(extent, set_ups=set_ups))
    return tuple(found)


def _others(framework: Framework, name: str) -> tuple[int, ...]:
    """Return the teeth of the other bases of a framework."""
    return tuple(code for base in framework.bases if base.name != name for code in base.teeth)


def _across(load: BaseLoad | None) -> LoadAcross:
    if load is None:
        return LoadAcross(0.0, None, "", 0.0)
    return LoadAcross(
        across_n=load.figures["across_n"],
        about_fulcrum_nmm=abs(load.figures["about_fulcrum_nmm"]) if load.has_fulcrum else None,
        excursion=load.excursion,
        travel_mm=load.travel_mm,
        across_range_n=(load.least["across_n"], load.greatest["across_n"]),
        about_fulcrum_range_nmm=(
            (load.least["about_fulcrum_nmm"], load.greatest["about_fulcrum_nmm"])
            if load.has_fulcrum
            else None
        ),
        always_balanced=load.always_balanced,
    )
