"""Files of jaw tracks: read as they were written in all three ways, and every fault told."""

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.geometry.poses import inverse, move_points
from kinematics.tracks.track_columns import LAYOUTS
from kinematics.tracks.track_files import FEWEST_ROWS, LARGEST_BYTES, MOST_ROWS, read_track
from tests.made_excursion_records import any_jaw
from tests.made_tracks import POINTS, excursion_track, table, times, with_noise, written

HEADS = {layout: ",".join(("time_s", *columns)) for layout, columns in LAYOUTS.items()}


def some_track(seed=0, rows=60):
    """Return times and poses of a protrusion of any jaw."""
    return excursion_track(any_jaw(seed), "protrusive", 5.0, times((rows - 1) / 100.0))


@pytest.mark.parametrize("seed", range(50))
def test_all_ways_to_give_a_track_say_the_same(tmp_path, seed):
    """Quaternions and transforms give the poses; points their motion from MI or the first row."""
    time_s, poses = some_track(seed)
    for layout in ("quaternion", "transform"):
        read = read_track(written(tmp_path / "track.csv", time_s, poses, layout))
        assert read.layout == layout
        assert read.time_s == pytest.approx(time_s, abs=1e-12)
        assert read.poses == pytest.approx(poses, abs=1e-8)
        assert read.shape_off_mm == 0.0
    path = written(tmp_path / "points.csv", time_s, poses, "points")
    first = move_points(poses[7], POINTS)
    for given, start in ((None, poses[0]), (first, poses[7])):
        read = read_track(path, given)
        assert read.poses == pytest.approx(poses @ inverse(start), abs=1e-7)
        assert read.shape_off_mm < 1e-9


def test_columns_may_stand_in_any_order(tmp_path):
    """By their names; byte-order mark, line ends of Windows and empty rows are no matter."""
    lines = table(*some_track()).split("\n")
    order = [3, 0, 7, 1, 2, 6, 4, 5]
    turned = [",".join(line.split(",")[k] for k in order) for line in lines if line]
    turned.insert(5, ",,,,,,,")
    path = tmp_path / "t.csv"
    path.write_bytes(("\ufeff" + "\r\n".join(turned)).encode())
    read = read_track(path)
    assert read.poses == pytest.approx(some_track()[1], abs=1e-8)
    assert read.lines[:6].tolist() == [2, 3, 4, 5, 7, 8]


def test_noise_of_points_is_told(tmp_path):
    """Of 0.1 mm each way, what a rigid motion of three points cannot take up: 3 numbers of 9."""
    time_s, poses = some_track(rows=400)
    text = table(time_s, poses, "points").split("\n")
    rng = np.random.default_rng(1)
    rows = [np.array(line.split(","), float) for line in text[1:-1]]
    noisy = [",".join(map(str, [r[0], *(r[1:] + rng.normal(0.0, 0.1, 9))])) for r in rows]
    path = tmp_path / "t.csv"
    path.write_text("\n".join([text[0], *noisy]), "utf-8")
    read = read_track(path, move_points(poses[0], POINTS))
    assert read.shape_off_mm == pytest.approx(0.1, rel=0.1)


def changed(line, column, text, layout="quaternion"):
    """Return the text of a track with one field changed; lines are counted from 1."""
    lines = table(*some_track(), layout).split("\n")
    fields = lines[line - 1].split(",")
    fields[("time_s", *LAYOUTS[layout]).index(column)] = text
    lines[line - 1] = ",".join(fields)
    return "\n".join(lines)


REFUSED = {
    "no number": (changed(9, "q_w", "open"), "line 9, column q_w: found 'open'; wanted a finite"),
    "empty": (changed(9, "x_mm", ""), "line 9, column x_mm: is empty; wanted a number in mm"),
    "not finite": (changed(4, "time_s", "nan"), "line 4, column time_s: found 'nan'"),
    "too far": (changed(5, "z_mm", "1e6"), "line 5, column z_mm: found '1e6'; accepted are"),
    "back in time": (
        changed(30, "time_s", "0.1"),
        "line 30, column time_s: 0.1 s does not come after 0.27 s in the row before",
    ),
    "same time": (changed(30, "time_s", "0.27"), "line 30, column time_s: 0.27 s does not come"),
    "quaternion": (changed(12, "q_w", "0.9"), "line 12: the quaternion has a length of 0.9"),
    "transform": (
        changed(12, "r11", "1.1", "transform"),
        "line 12: r11 to r33 are no rotation: off by 0.",
    ),
    "points": (
        changed(12, "b_y_mm", "-30", "points"),
        r"line 12: the distance of points b and c has changed by \+\d\.\d\d mm; a rigid",
    ),
    "semicolons": (table(*some_track()).replace(",", ";"), "columns are parted by commas"),
    "decimal comma": (changed(9, "x_mm", '"0,5"'), "found '0,5'; wanted a finite number in mm;"
                      " decimals are written with a point"),
    "one column more": (changed(9, "x_mm", "0,5"), "line 9: has 9 columns; wanted 8"),
    "milliseconds": (
        table(*some_track()).replace("time_s", "time_ms"),
        "column 'time_ms' is in another unit: divide its numbers by 1000 and call it 'time_s'",
    ),
    "centimetres": (
        table(*some_track(), "points").replace("b_x_mm", "b_x_cm"),
        "column 'b_x_cm' is in another unit: multiply its numbers by 10 and call it 'b_x_mm'",
    ),
    "unknown": (
        table(*some_track()).replace("q_w", "qw"),
        "column 'qw' is not known; did you mean 'q_w'.; missing: q_w",
    ),
    "no time": ("x_mm,y_mm,z_mm,q_w,q_x,q_y,q_z\n", "missing: time_s"),
    "twice": (table(*some_track()).replace("q_x", "q_w"), "column 'q_w' is named twice"),
    "few rows": ("\n".join(table(*some_track()).split("\n")[:FEWEST_ROWS]), "has 19 rows"),
    "nothing": ("", "line 1 is ''"),
    "header alone": (HEADS["points"] + "\n", "has 0 rows below the header; accepted are 20 to"),
    "not text": (b"\xff\xfe\x00", "is not UTF-8 text"),
    "no table": ('time_s,"x\n' + "a" * 200_000, "is no row of CSV"),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_track_is_refused_with_its_place(tmp_path, name):
    """Nothing is guessed, and the message says where and what is wanted."""
    text, said = REFUSED[name]
    path = tmp_path / "track.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    with pytest.raises(InputError, match=said) as refused:
        read_track(path)
    assert str(path) in str(refused.value)


@pytest.mark.parametrize("seed", range(50))
def test_a_planted_fault_is_found(tmp_path, seed):
    """Anywhere in any column: the line, and of a field its column."""
    rng = np.random.default_rng(seed)
    layout = list(LAYOUTS)[seed % 3]
    line, column = int(rng.integers(3, 61)), str(rng.choice(("time_s", *LAYOUTS[layout])))
    path = tmp_path / "track.csv"
    path.write_text(changed(line, column, str(rng.choice(["", "x", "inf", "1e99"])), layout))
    with pytest.raises(InputError, match=f"1 fault\n  line {line}, column {column}: "):
        read_track(path)


def test_points_that_are_no_triangle_or_not_of_this_track(tmp_path):
    """Flat triangles, places in MI of other points, and places in MI of poses are refused."""
    time_s, poses = some_track()
    path = written(tmp_path / "track.csv", time_s, poses, "points")
    flat = POINTS.copy()
    flat[2] = flat[:2].mean(axis=0) + np.array([0.0, 0.0, 4.0])
    with pytest.raises(InputError, match="lie on one line but for"):
        read_track(path, flat)
    with pytest.raises(InputError, match=r"b and c has .* the same points in the same order"):
        read_track(path, POINTS[[1, 0, 2]] + [[0.0, 5.0, 0.0], [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]])
    path = written(tmp_path / "poses.csv", time_s, poses)
    with pytest.raises(InputError, match="points_in_mi is given, which belongs to a track in po"):
        read_track(path, POINTS)


def test_files_of_other_sizes_and_kinds(tmp_path):
    """A folder, no file, too many bytes, too many rows."""
    with pytest.raises(InputError, match="is a folder; give a CSV file of a track in it"):
        read_track(tmp_path)
    with pytest.raises(InputError, match="there is no such file"):
        read_track(tmp_path / "none.csv")
    path = tmp_path / "large.csv"
    path.write_bytes(b"0" * (LARGEST_BYTES + 1))
    with pytest.raises(InputError, match=f"at most {MOST_ROWS} rows"):
        read_track(path)
    path.write_text(HEADS["quaternion"] + (MOST_ROWS + 1) * "\n0,0,0,0,1,0,0,0", "utf-8")
    with pytest.raises(InputError, match=f"has {MOST_ROWS + 1} rows"):
        read_track(path)


def test_few_digits_are_enough(tmp_path):
    """A file with four digits after the point is rigid enough, and made so."""
    time_s, poses = some_track()
    noisy = with_noise(poses, np.random.default_rng(3), 0.05, 0.05)
    for layout in ("quaternion", "transform"):
        path = written(tmp_path / "t.csv", time_s, noisy, layout, digits=5)
        turns = read_track(path).poses[:, :3, :3]
        assert turns @ np.swapaxes(turns, 1, 2) == pytest.approx(
            np.broadcast_to(np.eye(3), turns.shape), abs=1e-12
        )
