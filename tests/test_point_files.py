"""Files of picked points: read as they were written, and every fault named with its place."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.checks import InputError
from kinematics.scans.picked_points import OF_TEETH, POINT_NAMES, PickedPoint
from kinematics.scans.point_files import LARGEST_BYTES, points_text, read_points
from kinematics.tooth_codes import PERMANENT

HEAD = "point,tooth,x_mm,y_mm,z_mm\n"
COORDINATE = st.floats(-10_000.0, 10_000.0, allow_nan=False)
PLACE = st.tuples(COORDINATE, COORDINATE, COORDINATE)
SINGLE = st.builds(
    PickedPoint, st.sampled_from([n for n in POINT_NAMES if n not in OF_TEETH]), PLACE
)
OF_A_TOOTH = st.builds(
    PickedPoint, st.sampled_from(OF_TEETH), PLACE, st.sampled_from(list(PERMANENT))
)


def one_of_each(points):
    """Return points of which no two are the same one."""
    return tuple({(p.point, p.tooth): p for p in points}.values())


def written(tmp_path, text):
    """Return a file of some text, or bytes."""
    path = tmp_path / "picked.csv"
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


@given(st.lists(SINGLE | OF_A_TOOTH, min_size=1, max_size=20).map(one_of_each))
def test_what_was_written_is_read(tmp_path_factory, points):
    """The very same numbers, in the same order."""
    path = written(tmp_path_factory.getbasetemp(), points_text(points))
    assert read_points(path) == points


def test_a_file_of_a_spreadsheet_is_read(tmp_path):
    """Byte-order mark, line ends of Windows, quotes, blanks, empty rows and columns left empty."""
    rows = ['"molar_left", ,1.5,-2,+3e0', ",,,,", "rest_seat,16,0,.5,1.", ""]
    text = "\ufeff" + HEAD.strip() + "\r\n" + "\r\n".join(rows)
    found = read_points(written(tmp_path, text))
    assert found == (
        PickedPoint("molar_left", (1.5, -2.0, 3.0)),
        PickedPoint("rest_seat", (0.0, 0.5, 1.0), 16),
    )


def test_several_rest_seats_on_a_tooth(tmp_path):
    """Only the very same place twice is a slip."""
    row = "rest_seat,16,0,0,{}\n"
    assert len(read_points(written(tmp_path, HEAD + row.format(1) + row.format(2)))) == 2
    with pytest.raises(InputError, match="line 3: rest_seat of 16 stands in line 2 already"):
        read_points(written(tmp_path, HEAD + 2 * row.format(1)))


FAULTS = {
    "molar_lft,,1,2,3": r"line 2, column point: found 'molar_lft'; did you mean 'molar_left'",
    "apex,,1,2,3": "line 2, column point: found 'apex'.* accepted are incisal_point, molar_right",
    "tooth_seed,,1,2,3": "line 2, column tooth: is empty, but tooth_seed is of a tooth",
    "tooth_seed,19,1,2,3": "line 2, column tooth: found '19'; accepted are 11-18",
    "tooth_seed,55,1,2,3": "line 2, column tooth: found '55'",
    "rest_seat,1e1,1,2,3": "line 2, column tooth: found '1e1'",
    "molar_left,37,1,2,3": "line 2, column tooth: found '37'; must be empty",
    "molar_left,,,2,3": "line 2, column x_mm: is empty; wanted a number in mm",
    "molar_left,,1,nan,3": "line 2, column y_mm: found 'nan'; wanted a finite number",
    "molar_left,,1,2,-inf": "line 2, column z_mm: found '-inf'",
    "molar_left,,1,1e999,3": "line 2, column y_mm: found '1e999'",
    "molar_left,,1,1e99,3": "line 2, column y_mm: found '1e99'; accepted are -10000 to 10000 mm",
    'molar_left,,"1,5",2,3': "line 2, column x_mm: found '1,5'.* decimals are written with a point",
    "molar_left,,1,5,2,5,3,5": "line 2: has 8 columns; wanted 5; decimals are written with a point",
    "molar_left,,1,2": "line 2: has 4 columns; wanted 5",
    "molar_left,,1_0,2,3": "column x_mm: found '1_0'",
    "molar_left,,0x1,2,3": "column x_mm: found '0x1'",
    "molar_left,,१,2,3": "column x_mm: found",
    "molar_left,,1 mm,2,3": "column x_mm: found '1 mm'",
    'molar_left,,"1,2,3': r"line 2 is no row of CSV \(unexpected end of data\)",
    'molar_left,,"1"5,2,3': "line 2 is no row of CSV",
    "molar_left,,1,2,3\nmolar_left,,1,2,3": "line 3: molar_left stands in line 2 already",
    "tooth_seed,36,1,2,3\ntooth_seed,36,1,2,3": "line 3: tooth_seed of 36 stands in line 2",
}


@pytest.mark.parametrize("rows", FAULTS)
def test_faults_are_told_with_their_place(tmp_path, rows):
    """File, line, column, what was found, what is accepted."""
    with pytest.raises(InputError, match=f"(?s)picked.csv.*{FAULTS[rows]}"):
        read_points(written(tmp_path, HEAD + rows + "\n"))


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("", "line 1 is '': wanted the header 'point,tooth,x_mm,y_mm,z_mm'"),
        ("x,y,z\n1,2,3\n", "line 1 is 'x,y,z': wanted the header"),
        ("point;tooth;x_mm;y_mm;z_mm\n", "columns are parted by commas"),
        (HEAD, "holds no point"),
        (b"\xff\xfe" + HEAD.encode("utf-16-le"), "byte 1 is not UTF-8 text"),
        ((HEAD + "molar_left,,1,2,3\n").encode() + b"\xe9", "is not UTF-8 text"),
        (HEAD + "\n" * LARGEST_BYTES, "larger than 0.2 MB"),
        ("point" + "a" * 150_000, "is no row of CSV"),
    ],
)
def test_what_is_no_such_file(tmp_path, content, says):
    """Nothing, another table, another encoding, too large."""
    with pytest.raises(InputError, match=says):
        read_points(written(tmp_path, content))


def test_all_faults_come_at_once(tmp_path):
    """Several in a row too; of very many only the first ones, with how many more."""
    with pytest.raises(InputError, match="2 faults") as told:
        read_points(written(tmp_path, HEAD + "tooth_seed,99,1,x,3\n"))
    assert "column tooth" in str(told.value)
    assert "column y_mm" in str(told.value)
    with pytest.raises(InputError, match=r"300 faults(?s:.*)and 280 more"):
        read_points(written(tmp_path, HEAD + "apex,,1,2,3\n" * 300))


def test_a_file_that_is_not_there(tmp_path):
    """Nor a folder."""
    with pytest.raises(InputError, match="there is no such file"):
        read_points(tmp_path / "picked.csv")
    with pytest.raises(InputError, match="is a folder; give a CSV file"):
        read_points(tmp_path)
