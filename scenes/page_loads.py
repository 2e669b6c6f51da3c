"""From loads to what the page is told of them: figures in words, and forces pose by pose."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from kinematics.case import Case
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.load.settings import LoadSettings
from kinematics.planning.base_loads import TOLD_FOR_N, ExcursionLoads, SweepLoads
from kinematics.planning.contact_runs import runs
from kinematics.planning.frame_forces import FrameForces
from kinematics.planning.load_readings import LargestLoad, largest_load
from kinematics.planning.split_forces import split_forces
from scenes.load_figures import (
    OVERLOAD_EXPLAINED,
    TURNS,
    figure,
    force,
    force_ranged,
    newtons,
    overload_words,
    share_rows,
    sinking,
    turning,
    turns_of,
)
from scenes.page_frames import frame
from scenes.page_results import titled
from scenes.phrases import number, travel

Arrays = dict[str, NDArray[Any]]

#: Titles of tables, by what a framework is.
_ON_TEETH: Final = {
    "base": "On each replacement tooth",
    "bridge": "On each pontic",
    "splint": "On each crown, by opponents",
}
_ON_ABUTMENTS: Final = {
    "base": "On each abutment, by the denture",
    "bridge": "On each root, by the bridge",
    "splint": "On each root, by the splint",
}
_ABUTMENT_COLUMNS: Final = ("Tooth", "Along root, N", "Across, N")
_TOOTH_COLUMNS: Final = ("Tooth", "Along axis, N", "Across, N", "Lever, mm")
_IN_ALL: Final = {
    "base": "Across each abutment, with its opponents",
    "bridge": "Across each root, with guidance and without",
}
_SHARE_COLUMNS: Final = ("Teeth that meet, joints", "Of it", "Whole")
_BOTH_COLUMNS: Final = ("Tooth", "As set up, N", "Guidance off, N")


def loads_answer(
    number_: int, case: Case, sweeps: Sequence[Sweep], loads: Sequence[ExcursionLoads]
) -> bytes:
    """Return the message with loads of the first excursions, or of all.

    Parameters
    ----------
    number_ : int
        Of the message answered.
    case : Case
        What is asked for; it has loads.
    sweeps : sequence of Sweep
        All along which loads are told.
    loads : sequence of ExcursionLoads
        Of these, in their order, as far as they are weighed.
    """
    excursions = []
    arrays: Arrays = {}
    for i, one in enumerate(loads):
        excursion = sweeps[i].excursion
        frames = []
        for k, held in enumerate(one.as_is.frames):
            named, more = _forces(f"loads_{i}_{k}", held)
            frames.append({**_frame(one, k), **named})
            arrays |= more
        excursions.append(
            {
                "movement": excursion.name,
                "start": excursion.start,
                "title": titled(excursion),
                "travel_mm": [round(value, 4) for value in one.as_is.travel_mm.tolist()],
                "escape": list(one.as_is.escape),
                "gives_way": list(_giving_way(one.as_is)),
                "frames": frames,
            }
        )
    told = {
        "kind": "loads",
        "number": number_,
        "whole": len(loads) == len(sweeps),
        "about": _about(case.load, case.judging.near_mi_mm),
        "excursions": excursions,
    }
    return frame(told, arrays)


def _about(load: LoadSettings, near_mi_mm: float) -> list[str]:
    """Say what the figures stand for."""
    tilt, ratio = load.force_tilt_range_deg, load.mucosa_ratio_range
    of = ""
    if load.closing_force_n != TOLD_FOR_N:
        of = f" (computed with {number(load.closing_force_n, 0)} N)"
    return [
        f"Forces are per {number(TOLD_FOR_N, 0)} N of closing force{of}. Across: sideways to the "
        "long axes, summed over the teeth of a denture, bridge or splint. "
        f"Largest beyond {number(near_mi_mm, 1)} mm of travel.",
        f"Ranges in brackets: closing force tilted forward by {number(tilt[0], 0)} to "
        f"{number(tilt[1], 0)}°, mucosa giving way {number(ratio[0], 0)} to {number(ratio[1], 0)} "
        "times as far as a tooth.",
    ]


def _frame(loads: ExcursionLoads, k: int) -> Mapping[str, Any]:
    """Return what is told of one framework in an excursion: figures where it carries most."""
    held = loads.as_is.frames[k]
    told: dict[str, Any] = {
        "framework": held.framework,
        "teeth": list(held.teeth),
        "abutments": list(held.abutments),
        "largest": None,
    }
    largest = largest_load(loads, k)
    if largest is None:
        some = bool((held.balanced[0] & loads.as_is.judged).any())
        told["none"] = "no load across" if some else "not known"
        return told
    base = largest.as_is
    told["largest"] = {
        "at_mm": base.travel_mm,
        "across_n": base.figures["across_n"],
        "words": figure(base, "across_n"),
        "where": f"at {number(base.travel_mm, 1)} mm",
        "details": list(_details(largest)),
        "tables": list(_tables(largest)),
    }
    return told


def _details(largest: LargestLoad) -> Iterator[tuple[str, str]]:
    """Yield figures of a framework where it carries most, with their names."""
    base = largest.as_is
    for overload in largest.overloads:
        yield "▲ too much to be true in a mouth", overload_words(overload)
    if largest.overloads:
        yield "why, and what to do", OVERLOAD_EXPLAINED
    yield "along the long axes", figure(base, "along_n")
    for quantity in turns_of(base):
        size, way = turning(base, quantity)
        yield f"turning about {TURNS[quantity][0]}", f"{size}, {way}" if way else size
    if base.has_ridge:
        yield "push on the ridge", figure(base, "mucosa_n")
        yield "deepest sinking into the mucosa", sinking(base)
    if not base.always_balanced:
        yield "over the range", "somewhere nothing balances the force: the range is of the rest"


def _tables(largest: LargestLoad) -> Iterator[Mapping[str, Any]]:
    """Yield what single teeth get where a framework carries most, and who carries the rest."""
    base = largest.as_is
    levers = bool(base.abutments) and base.kind != "splint"
    yield {
        "title": _ON_TEETH[base.kind],
        "columns": _TOOTH_COLUMNS if levers else _TOOTH_COLUMNS[:-1],
        "rows": [
            [
                str(tooth.tooth),
                force(tooth.along_n),
                force(tooth.across_n),
                *([number(tooth.lever_mm, 1)] if levers else []),
            ]
            for tooth in base.teeth
        ],
        "note": "Lever: distance to the nearest abutment." if levers else "",
    }
    if base.abutments:
        yield from _abutment_tables(largest)
    yield {
        "title": f"Who carries the {newtons(TOLD_FOR_N)}",
        "columns": _SHARE_COLUMNS,
        "rows": [
            list(row)
            for row in share_rows(largest.shares, [t.tooth for t in base.teeth], base.kind)
        ],
        "note": "Of it: straight against the closing force; these parts add up to it. Whole forces "
        "lean, and add up to more. A minus: this joint draws the jaw towards the skull.",
    }


def _abutment_tables(largest: LargestLoad) -> Iterator[Mapping[str, Any]]:
    """Yield what abutments get from the framework, and with their opponents."""
    base = largest.as_is
    yield {
        "title": _ON_ABUTMENTS[base.kind],
        "columns": _ABUTMENT_COLUMNS,
        "rows": [
            [
                str(one.tooth),
                force_ranged(one.along_n, one.along_range_n),
                force_ranged(one.across_n, one.across_range_n),
            ]
            for one in base.abutments
        ],
        "note": "",
    }
    if base.kind == "splint":
        return
    off = {
        code: force_ranged(value, ends)
        for (code, value), ends in zip(largest.taken_off, largest.taken_off_ranges, strict=True)
    }
    yield {
        "title": _IN_ALL[base.kind],
        "columns": _BOTH_COLUMNS,
        "rows": [
            [str(code), force_ranged(value, ends), off.get(code, "–")]
            for (code, value), ends in zip(
                largest.with_guidance, largest.with_guidance_ranges, strict=True
            )
        ],
        "note": "Guidance off: with the guidance taken off the replacement teeth."
        + ("" if off else " Nothing else would meet at this travel, or nothing balances it."),
    }


def _giving_way(loads: SweepLoads) -> Iterator[str]:
    """Yield where nothing balances the closing force, and what gives way there."""
    for words in dict.fromkeys(word for word in loads.escape if word):
        mask = np.array([word == words for word in loads.escape], dtype=np.bool_)
        where = [
            travel(loads.travel_mm[run.first], loads.travel_mm[run.last]) for run in runs(mask)
        ]
        yield f"{', '.join(where)}: nothing balances the closing force; {words} gives way"


def _forces(name: str, held: FrameForces) -> tuple[Mapping[str, Any], Arrays]:
    """Return the forces of a framework in every pose: the names of arrays, and these."""
    split = split_forces(held)
    found: dict[str, Floats] = {
        "place_mm": held.places,
        "teeth_along_n": split.teeth_along_n,
        "teeth_across_n": split.teeth_across_n,
        "abutments_along_n": split.abutments_along_n,
        "abutments_across_n": split.abutments_across_n,
    }
    named: dict[str, Any] = {key: f"{name}_{key}" for key in found}
    named["balanced"] = split.balanced.tolist()
    return named, {named[key]: value.astype(np.float32) for key, value in found.items()}
