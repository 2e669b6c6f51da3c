"""What result files tell of the lengths of set-ups: entries of findings.json, and a table."""

import dataclasses
import math
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final

from kinematics.planning.extent import Extent, SetUp
from kinematics.table_cells import Row, numbers, yes_no

SET_UPS_FILE: Final = "set_ups.csv"
SET_UP_COLUMNS: Final = [
    "base", "end", "teeth", "dropped", "is_that_of_the_case", "is_the_shortest_that_is_enough",
    "left_without_stop", "held_without_stop", "closes_further_mm", "sides_without_back_stops",
    "on_ascending_ridge", "largest_across_n_per_100_n", "least_of_range_n", "greatest_of_range_n",
    "about_fulcrum_nmm_per_100_n", "least_of_range_nmm", "greatest_of_range_nmm",
    "largest_in", "largest_at_mm",
    "one_more_tooth", "it_would_stand_opposite",
]  # fmt: skip


def extent_entries(extents: Iterable[Extent]) -> list[Mapping[str, Any]]:
    """Return what findings.json tells of the lengths of set-ups."""
    return [
        {
            **{field.name: getattr(extent, field.name) for field in dataclasses.fields(extent)},
            "is_told_by_stops": extent.is_told_by_stops,
            "shortest_that_is_enough": _shortest(extent),
        }
        for extent in extents
    ]


def _shortest(extent: Extent) -> tuple[int, ...] | None:
    """Return the teeth of the shortest set-up that is enough; None where stops do not tell it."""
    if not extent.is_told_by_stops or extent.shortest is None:
        return None
    return extent.shortest.teeth


def set_up_rows(extents: Iterable[Extent]) -> Iterator[Row]:
    """Yield one row for every set-up compared; columns `SET_UP_COLUMNS`."""
    for extent in extents:
        for item in extent.set_ups:
            yield [
                extent.base,
                extent.end,
                _teeth(item.teeth),
                _teeth(item.dropped),
                yes_no(item is extent.full),
                yes_no(item.teeth == _shortest(extent)),
                _teeth(item.left),
                " ".join(str(tooth.tooth) for tooth in item.held),
                *numbers(item.closes_mm),
                " ".join(item.bare_sides),
                _teeth(item.on_ridge),
                *_load_cells(item),
                *_further_cells(extent, item),
            ]


def _teeth(codes: tuple[int, ...]) -> str:
    return " ".join(map(str, codes))


def _further_cells(extent: Extent, item: SetUp) -> Row:
    """Return the teeth behind that of the case that would hold what it leaves, and what that is."""
    further = extent.further if item is extent.full else ()
    return [
        _teeth(tuple(tooth.tooth for tooth in further)),
        _teeth(tuple(code for tooth in further for code in tooth.holds)),
    ]


def _load_cells(item: SetUp) -> Row:
    if item.load is None:
        return [""] * 8
    load, turning = item.load, item.load.about_fulcrum_nmm
    cells = [
        *numbers(load.across_n),
        *numbers(*(load.across_range_n or (math.nan, math.nan))),
        *numbers(math.nan if turning is None else turning),
        *numbers(*(load.about_fulcrum_range_nmm or (math.nan, math.nan))),
    ]
    return [*cells, load.excursion, *(numbers(load.travel_mm) if load.excursion else [""])]
