"""Mean values: what people differ by, and what a wrong axis does to a record that is closed."""

import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from kinematics.geometry.poses import inverse, move_points, pose_of, rotation_about
from kinematics.scans.mean_values import RECORD_MM, closing_error_mm, mean_values
from kinematics.scans.settings import ScanMounting
from scenes.scan_words import _mean_values

PUBLISHED = tomllib.loads((Path(__file__).parent / "published" / "scans.toml").read_text())
ACROSS = np.array([0.0, 1.0, 0.0])
MOUNTING = ScanMounting(
    incisal_point=(90.0, 0.0, -30.0),
    molar_right=(50.0, -25.0, -30.0),
    molar_left=(50.0, 25.0, -30.0),
)


def turn_about(point, angle_rad):
    """Return the pose (4, 4) of a turn about an axis across through a point."""
    there = pose_of(np.eye(3), point)
    return there @ pose_of(rotation_about(ACROSS, angle_rad), np.zeros(3)) @ inverse(there)


def axis_of(length_mm, angle_deg):
    """Return where the axis lies, from the incisal point as origin, x forward, z up."""
    angle = np.radians(angle_deg)
    return length_mm * np.array([-np.cos(angle), 0.0, np.sin(angle)])


def test_errors_are_those_of_opening_and_closing_about_two_axes():
    """Opened about the axis of the person and closed about the mean one, teeth end as said."""
    rng = np.random.default_rng(5)
    for _ in range(60):
        used = replace(
            MOUNTING, axis_incisal_mm=rng.uniform(70.0, 125.0), balkwill_deg=rng.uniform(8.0, 30.0)
        )
        true = rng.uniform(75.0, 107.0), rng.uniform(9.0, 27.0)
        record_mm = rng.uniform(0.5, 4.0)
        mean_axis = axis_of(used.axis_incisal_mm, used.balkwill_deg)
        angle = 2.0 * np.arcsin(record_mm / (2.0 * used.axis_incisal_mm))
        back = turn_about(mean_axis, -angle) @ turn_about(axis_of(*true), angle)
        teeth = rng.uniform(-40.0, 0.0, (8, 3))
        moved = np.linalg.norm(move_points(back, teeth) - teeth, axis=1)
        assert moved == pytest.approx(closing_error_mm(used, *true, record_mm), abs=1e-9)


def test_errors_are_the_published_ones():
    """An axis off by 5 mm and a record of 3 mm, at the radii of the table."""
    rows = PUBLISHED["wrong_axis"]
    for radius_mm, error_mm in zip(rows["radius_mm"], rows["error_mm"], strict=True):
        used = ScanMounting(
            incisal_point=(0, 0, 0), molar_right=(0, 0, 0), molar_left=(0, 0, 0),
            axis_incisal_mm=max(radius_mm, 70.0),
        )  # fmt: skip
        off_mm = used.axis_incisal_mm + rows["axis_error_mm"]
        record_mm = rows["record_mm"] * used.axis_incisal_mm / radius_mm
        found = closing_error_mm(used, off_mm, used.balkwill_deg, record_mm)
        assert found == pytest.approx(error_mm, abs=rows["tolerance_mm"])


def test_spreads_are_those_of_the_published_triangles():
    """The range of the angle is as printed, that of the axis follows from the printed sides."""
    printed = PUBLISHED["bonwill_triangle"]
    length, angle = mean_values(MOUNTING)
    assert [angle.least, angle.greatest] == printed["balkwill_range_deg"]
    half = printed["intercondylar_mm"] / 2.0
    for value, arm in zip((length.least, length.greatest), printed["arm_range_mm"], strict=True):
        assert np.hypot(value, half) == pytest.approx(arm)
    assert length.used == MOUNTING.axis_incisal_mm
    assert length.error_least_mm == pytest.approx(
        (length.used - length.least) * RECORD_MM / length.used
    )
    # At most, a wrong angle costs more than a wrong distance.
    assert angle.error_least_mm > max(length.error_least_mm, length.error_greatest_mm)


def test_other_mountings_have_no_mean_values():
    """A transform or an axis on the patient is no mean value, and the report has no rows."""
    rows = tuple(tuple(float(v) for v in row) for row in np.eye(4))
    assert mean_values(ScanMounting(hinge_from_scan=rows)) == ()
    assert _mean_values(()).rows == ()


def test_the_report_tells_them_with_units():
    """Every number has its unit and a column of its own, whose head says what it is."""
    table = _mean_values(mean_values(MOUNTING))
    assert table.head[2:] == (
        "least to greatest of people",
        "error if the patient has the least of people",
        "error if the patient has the greatest of people",
    )
    assert table.rows == (
        ("hinge axis to lower incisal point", "90.5 mm", "75.2 to 106.9 mm", "0.34 mm", "0.36 mm"),
        ("Balkwill angle", "20.4°", "9.0 to 27.6°", "0.40 mm", "0.25 mm"),
    )
