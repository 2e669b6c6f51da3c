"""The picture of records: places, ellipses and paths where the numbers say."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import chi2

from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.records.condylar_paths import condylar_paths
from kinematics.records.from_records import settings_from_records
from kinematics.records.settings import RecordFitting
from scenes.condylar_path_charts import CondyleViews, DrawnPath, DrawnPlaces, condylar_path_chart
from scenes.movement_styles import PROTRUSION
from scenes.recorded_chart import recorded_chart
from scenes.report import html_report
from scenes.sheet import Line, Words
from scenes.sheet_writer import svg
from tests.made_excursion_records import SET
from tests.test_records_command import FINE, GIVEN, case_of
from tests.test_report import WORDS, Page


def paths_of(case):
    """Return what is drawn of the records of a case."""
    return condylar_paths(case.recorded, settings_from_records(case.recorded))


def test_paths_found_from_exact_records_are_those_of_the_jaw():
    """And they lead through the places of the records; those set are those of the case."""
    case = case_of()
    jaw = paths_of(replace(case, guidance=GIVEN))
    for mine, true in zip(paths_of(case), jaw, strict=True):
        assert np.allclose(mine.protrusive_found, true.protrusive_as_set, atol=1e-4)
        assert np.allclose(mine.lateral_found, true.lateral_as_set, atol=1e-4)
        assert not np.allclose(mine.protrusive_as_set, true.protrusive_as_set, atol=0.1)
        for item in mine.placed:
            if item.kind == "protrusive":
                away = mine.protrusive_found[:, [0, 2]] - item.from_cr[[0, 2]]
                assert np.linalg.norm(away, axis=1).min() < 0.08


def test_straight_paths_fall_by_their_inclination():
    """And the nonworking condyle goes inward by its progressive shift, after the immediate one."""
    side = SideGuidance(condylar_inclination_deg=30.0, progressive_shift_deg=10.0,
                        immediate_shift_mm=0.5)  # fmt: skip
    case = case_of(GuidanceSettings(right=side, left=side))
    for mine, inward in zip(paths_of(case), (1.0, -1.0), strict=True):
        forward, _, up = mine.protrusive_found.T
        assert np.allclose(-up[1:] / forward[1:], np.tan(np.radians(30.0)), atol=1e-4)
        forward, left, _ = mine.lateral_found[1:].T
        expected = inward * (0.5 + forward * np.tan(np.radians(10.0)))
        assert np.allclose(left, expected, atol=1e-4)
        assert np.allclose(mine.lateral_found[0], 0.0)


def test_ellipses_hold_four_of_ten_scattered_records():
    """Of records scattered as they are taken to: 39 % within one standard deviation."""
    usual, kinds = RecordFitting(), (("protrusive", 5.0),)
    (true,) = paths_of(case_of(kinds=kinds, fitting=usual))[0].placed
    inside = []
    for seed in range(200):
        (item,) = paths_of(case_of(kinds=kinds, fitting=usual, seed=seed))[0].placed
        off = (item.from_cr - true.from_cr)[[0, 2]]
        within = true.covariance[np.ix_([0, 2], [0, 2])]
        inside.append(off @ np.linalg.solve(within, off) < 1.0)
    assert np.mean(inside) == pytest.approx(chi2.cdf(1.0, 2), abs=0.1)


@pytest.mark.parametrize(
    ("kinds", "found"),
    [
        ((("protrusive", 5.0),), [(True, False), (True, False)]),
        ((("protrusive", 1.0),), [(False, False), (False, False)]),
        ((("left lateral", 5.0),), [(True, True), (False, False)]),
        (SET, [(True, True), (True, True)]),
    ],
)
def test_only_paths_that_follow_are_drawn(kinds, found):
    """And the chart says in its legend what there is."""
    sides = paths_of(case_of(kinds=kinds))
    drawn = [(s.protrusive_found is not None, s.lateral_found is not None) for s in sides]
    assert drawn == found
    labels = {label for _, label in recorded_chart(sides, "Frankfort plane").key.entries}
    assert ("path that follows from the records" in labels) == any(any(f) for f in found)
    assert "path as set" in labels
    assert {f"{kind} record" for kind, _ in kinds} <= labels


def test_an_ellipse_stands_where_its_covariance_says():
    """One standard deviation along its own axes, about its place, in both views."""
    at, sizes = np.array([[4.0, 1.0, -3.0]]), np.array([0.5, 0.3, 0.2])
    places = DrawnPlaces("record", PROTRUSION, at, np.diag(sizes**2)[None])
    path = DrawnPath("path", "found", np.array([[0.0, 0.0, 0.0], [5.0, 0.0, -4.0]]))
    views = [CondyleViews(side, [path], [path], [places]) for side in ("right", "left")]
    sheet = condylar_path_chart(views, "Frankfort plane")
    rings = [i.points for i in sheet.items if isinstance(i, Line) and len(i.points) == 49]
    marks = [i.points[0] for i in sheet.items if isinstance(i, Line) and i.mark == "^"]
    assert len(rings) == len(marks) == 4
    for number, (ring, mark) in enumerate(zip(rings, marks, strict=True)):
        across, upward = np.ptp(ring, axis=0)
        assert np.allclose(ring[:-1].mean(axis=0), mark)
        assert upward / across == pytest.approx((0.2 if number % 2 == 0 else 0.3) / 0.5, rel=0.01)
    words = [item.text for item in sheet.items if isinstance(item, Words)]
    for title in ("right condyle, from the side", "left condyle, from above"):
        assert title in words
    assert "forward along the Frankfort plane, mm" in words
    assert svg(sheet, "chart") == svg(sheet, "chart")


def test_the_report_shows_the_picture_where_there_are_records(example):
    """With what its ellipses are; without records there is none."""
    case = case_of(fitting=FINE)
    found = settings_from_records(case.recorded)
    shown = replace(example, recorded=found, recorded_paths=paths_of(case))
    text = Page(html_report(shown, WORDS)).text
    assert "Ellipses: one standard deviation of a record" in text
    assert "Ellipses: one standard" not in Page(html_report(example, WORDS)).text
