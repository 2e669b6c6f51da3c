"""Contact marks that would lie on each other on paper are thinned, and never vanish."""

from dataclasses import replace

import numpy as np

from scenes.annotation import marks_sheet
from scenes.arch_scenes import UPPER, excursion_marks, occlusal_view, stop_marks


def test_shapes_that_would_lie_on_each_other_are_thinned_and_dots_are_not(example):
    """Twenty marks a tenth of a millimetre apart, of two movements, over a row of stops."""
    view = occlusal_view(example.upper, UPPER)
    (stops,) = stop_marks(example.stops, example.mi_pose, UPPER)
    left, right = excursion_marks(example.sweeps[2], UPPER)
    start = left.points[0]
    row = start + np.arange(20)[:, None] * 0.1 * view.right
    every = np.ones(20, dtype=bool)
    groups = tuple(replace(marks, points=row, shaped=every) for marks in (stops, left, right))
    items = marks_sheet(view, groups).items
    dots, signs = items[0::3], items[2::3]
    assert [len(item.points) for item in dots] == [20, 20, 20]
    assert [len(item.points) for item in signs] == [20, 1, 1]
    apart = replace(left, points=start + 25.0 * (row - start), shaped=every)
    *_, shown = marks_sheet(view, (apart,)).items
    assert len(shown.points) == 20


def test_a_crowded_kind_still_shows_its_shape_now_and_then(example):
    """Beside another trace that fills the place, each longer stretch has its shape."""
    view = occlusal_view(example.upper, UPPER)
    left, right = excursion_marks(example.sweeps[2], UPPER)
    row = left.points[0] + np.arange(101)[:, None] * 0.1 * view.right
    every = np.ones(101, dtype=bool)
    crowded = tuple(replace(marks, points=row, shaped=every) for marks in (left, right))
    *_, shown = marks_sheet(view, crowded).items
    along = np.sort(shown.points[:, 0])
    assert len(along) >= 3 and (np.diff(along) >= 2.0 - 1e-9).all()
