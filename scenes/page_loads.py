"""From loads to what the page is told of them: figures in words, and forces pose by pose."""

from collections.abc import Callable, Iterator, Mapping, Sequence
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
from kinematics.planning.load_readings import AbutmentLoad, BaseLoad, LargestLoad, largest_load
from kinematics.planning.split_forces import split_forces
from scenes.page_frames import frame
from scenes.page_results import titled
from scenes.phrases import number, travel

Arrays = dict[str, NDArray[Any]]

#: Below this force one decimal is told, N.
_SMALL_N: Final = 10.0
#: Turning about a line: its name, and what it does where it is positive, and negative.
_TURNING: Final = {
    "about_fulcrum_nmm": ("fulcrum line", "presses on the ridge", "lifts off the ridge"),
    "about_crest_nmm": ("crest", "towards cheek or lip", "towards tongue or palate"),
    "about_vertical_nmm": ("vertical", "to the left", "to the right"),
}
_ABUTMENT_COLUMNS: Final = ("Tooth", "Along root, N", "Across, N")
_TOOTH_COLUMNS: Final = ("Tooth", "Along axis, N", "Across, N", "Lever, mm")
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
        "long axes, summed over the teeth of a denture or bridge. "
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
        "words": _newtons(base, "across_n"),
        "where": f"at {number(base.travel_mm, 1)} mm",
        "details": list(_details(base)),
        "tables": list(_tables(largest)),
    }
    return told


def _details(base: BaseLoad) -> Iterator[tuple[str, str]]:
    """Yield figures of a framework where it carries most, with their names."""
    yield "along the long axes", _newtons(base, "along_n")
    has_axis = {"about_fulcrum_nmm": base.has_fulcrum, "about_crest_nmm": base.has_ridge}
    for quantity, (line, positive, negative) in _TURNING.items():
        if has_axis.get(quantity, True):
            value = base.figures[quantity]
            way = "" if round(value) == 0 else f", {positive if value > 0.0 else negative}"
            size = _ranged(abs(value), base.least[quantity], base.greatest[quantity], _whole)
            yield f"turning about the {line}", f"{size[0]} N mm{size[1]}{way}"
    if base.has_ridge:
        yield "push on the ridge", _newtons(base, "mucosa_n")
        deep, least, greatest = (f["sinking_mm"] for f in (base.figures, base.least, base.greatest))
        size = _ranged(deep, least, greatest, _millimetres)
        yield "deepest sinking into the mucosa", f"{size[0]} mm{size[1]}"
    if not base.always_balanced:
        yield "over the range", "somewhere nothing balances the force: the range is of the rest"


def _tables(largest: LargestLoad) -> Iterator[Mapping[str, Any]]:
    """Yield what single teeth get where a framework carries most."""
    base = largest.as_is
    yield {
        "title": "On each replacement tooth",
        "columns": _TOOTH_COLUMNS,
        "rows": [
            [
                str(tooth.tooth),
                _force(tooth.along_n),
                _force(tooth.across_n),
                number(tooth.lever_mm, 1) if base.abutments else "–",
            ]
            for tooth in base.teeth
        ],
        "note": "Lever: distance to the nearest abutment." if base.abutments else "",
    }
    if not base.abutments:
        return
    yield {
        "title": "On each abutment, by denture or bridge",
        "columns": _ABUTMENT_COLUMNS,
        "rows": [[str(one.tooth), _force(one.along_n), _across(one)] for one in base.abutments],
        "note": "",
    }
    off = dict(largest.taken_off)
    yield {
        "title": "Across each abutment, with its opponents",
        "columns": _BOTH_COLUMNS,
        "rows": [
            [str(code), _force(force), _force(off[code]) if code in off else "–"]
            for code, force in largest.with_guidance
        ],
        "note": "Guidance off: with the guidance taken off the replacement teeth."
        + ("" if off else " Nothing else would meet at this travel, or nothing balances it."),
    }


def _across(one: AbutmentLoad) -> str:
    value, ranged = _ranged(one.across_n, *one.across_range_n, _force)
    return f"{value}{ranged}"


def _newtons(base: BaseLoad, quantity: str) -> str:
    """Return a force with its unit and range."""
    value, ranged = _ranged(
        base.figures[quantity], base.least[quantity], base.greatest[quantity], _force
    )
    return f"{value} N{ranged}"


def _ranged(
    value: float, least: float, greatest: float, words: Callable[[float], str]
) -> tuple[str, str]:
    """Return a value in words, and its range in brackets; none where both ends read the same."""
    ends = words(least), words(greatest)
    return words(value), "" if ends[0] == ends[1] else f" ({ends[0]} to {ends[1]})"


def _force(value_n: float) -> str:
    """Return a force in newtons, without its unit."""
    return number(value_n, 1 if abs(value_n) < _SMALL_N else 0)


def _whole(value: float) -> str:
    return number(value, 0)


def _millimetres(value_mm: float) -> str:
    return number(value_mm, 2)


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
