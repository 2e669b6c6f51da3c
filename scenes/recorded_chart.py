"""What of interocclusal records is drawn: their condyles, and paths found and set."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.records.condylar_paths import SidePaths
from kinematics.records.settings import RecordKind
from scenes import movement_styles
from scenes.colours import Style
from scenes.condylar_path_charts import (
    CondyleViews,
    DrawnPath,
    DrawnPlaces,
    condylar_path_chart,
)
from scenes.sheet import Sheet

_STYLES: Final[dict[RecordKind, Style]] = {
    "protrusive": movement_styles.PROTRUSION,
    "right lateral": movement_styles.RIGHT_LATERAL,
    "left lateral": movement_styles.LEFT_LATERAL,
}


def recorded_chart(sides: Sequence[SidePaths], reference_plane: str) -> Sheet:
    """Lay out where records put both condyles, and their paths as found and as set.

    Parameters
    ----------
    sides : sequence of SidePaths
        The right condyle, then the left one.
    reference_plane : str
        In words.
    """
    return condylar_path_chart([_views(side) for side in sides], reference_plane)


def _views(side: SidePaths) -> CondyleViews:
    found, set_ = "path that follows from the records", "path as set"
    return CondyleViews(
        side.side,
        [
            DrawnPath(set_, "as set", side.protrusive_as_set),
            *_if_found(found, side.protrusive_found),
        ],
        [DrawnPath(set_, "as set", side.lateral_as_set), *_if_found(found, side.lateral_found)],
        [
            DrawnPlaces(
                f"{kind} record",
                style,
                np.array([item.from_cr for item in mine]),
                np.array([item.covariance for item in mine]),
            )
            for kind, style in _STYLES.items()
            if (mine := [item for item in side.placed if item.kind == kind])
        ],
    )


def _if_found(label: str, points: Floats | None) -> list[DrawnPath]:
    return [] if points is None else [DrawnPath(label, "found", points)]
