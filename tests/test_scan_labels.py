"""Labels of scans: what is accepted, what is refused and how, and strays put back."""

import json
from pathlib import Path

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.scans.label_sources import (
    LARGEST_BYTES,
    labels_from_json,
    labels_from_parts,
    labels_from_scalars,
)
from kinematics.scans.labels import check_arch, face_labels, tooth_numbers, without_strays

LABELS = [0, 11, 11, 12, 21, 22, 0, 13]


def written(folder, content):
    """Write text or bytes as a file of labels."""
    path = folder / "labels.json"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def holding(labels, **others):
    """Return the text of a file with labels."""
    return json.dumps({"labels": labels, **others})


@pytest.mark.parametrize(
    "content",
    [
        holding(LABELS),
        holding(LABELS, jaw="upper", instances=[0, 1, 1, 2, 3, 4, 0, 5], id_patient="A1"),
        holding([float(n) for n in LABELS]),
        "\ufeff" + holding(LABELS, jaw="upper"),
        holding(LABELS, instances=None),
    ],
)
def test_lists_of_labels_are_read(tmp_path, content):
    """One number a vertex; other keys are not looked at, a mark of UTF-8 and 11.0 are fine."""
    labels = labels_from_json(written(tmp_path, content), len(LABELS))
    assert labels.dtype == np.int64
    assert labels.tolist() == LABELS


BAD_FILES = {
    "empty": (b"", "not valid JSON"),
    "no JSON": (b"labels: 11", "line 1, column 1"),
    "cut off": (holding(LABELS)[:-3], "not valid JSON"),
    "a list": ("[11, 12]", "no object"),
    "another key": ('{"teeth": [11]}', "found 'teeth'"),
    "an empty object": ("{}", "empty object"),
    "no list": (holding(11), "found int"),
    "a text": (holding("11 12"), "found str"),
    "null": (holding(None), "found NoneType"),
    "too few": (holding(LABELS[:-1]), "7 labels for 8 vertices.*simplified"),
    "too many": (holding([*LABELS, 0]), "9 labels for 8 vertices"),
    "none": (holding([]), "0 labels for 8 vertices"),
    "texts": (holding([str(n) for n in LABELS]), r'labels\[0\] is "0"'),
    "lists": (holding([[n] for n in LABELS]), r"labels\[0\] is \[0\]"),
    "true": (holding([True, *LABELS[1:]]), r"labels\[0\] is true"),
    "null within": (holding([*LABELS[:-1], None]), r"labels\[7\] is null"),
    "half": (holding([*LABELS[:-1], 11.5]), "entry 7 is 11.5"),
    "NaN": (holding([*LABELS[:-1], float("nan")]), "holds NaN"),
    "infinity": (holding([*LABELS[:-1], float("-inf")]), "holds -Infinity"),
    "beyond floats": ('{"labels": [1e999, 0, 0, 0, 0, 0, 0, 0]}', r"labels\[0\] is inf"),
    "negative": (holding([-1, -1, *LABELS[2:]]), r"-1 \(2 times\)"),
    "counted through": (holding([1, 2, 3, 4, 5, 6, 7, 8]), r"1 \(1 times\).*translated"),
    "three digits": (holding([*LABELS[:-1], 136]), r"labels\[7\] is 136"),
    "no tooth": (holding([*LABELS[:-1], 19]), r"19 \(1 times\); accepted are 11-18"),
    "a huge number": (holding([*LABELS[:-1], 10**30]), r"labels\[7\] is 1e\+30"),
    "endless digits": ('{"labels": [' + 5000 * "1" + "]}", "more than 4000 digits"),
    "nested": ('{"labels": ' + 200_000 * "[" + 200_000 * "]" + "}", "nested too deeply"),
    "twice": ('{"labels": [11], "labels": [12]}', "'labels' stands twice"),
    "no UTF-8": (b'{"labels": [11], "x": "\xff"}', "byte 24 is not UTF-8"),
    "UTF-16": (holding(LABELS).encode("utf-16"), "byte 1 is not UTF-8"),
    "jaw unknown": (holding(LABELS, jaw="maxilla"), "jaw = 'maxilla'"),
    "jaw a list": (holding(LABELS, jaw=["upper"]), "jaw ="),
    "jaw of the other arch": (
        holding(LABELS, jaw="lower"),
        "teeth 11, 12, 13, 21, 22 of the other",
    ),
    "very large": (b" " * (LARGEST_BYTES + 1), "larger than 32 MB"),
}


@pytest.mark.parametrize("defect", BAD_FILES)
def test_bad_files_of_labels_are_refused(tmp_path, defect):
    """The message names the file, says what is wrong there and what was found."""
    content, message = BAD_FILES[defect]
    path = written(tmp_path, content)
    with pytest.raises(InputError, match=message) as caught:
        labels_from_json(path, len(LABELS))
    assert str(path) in str(caught.value)


@pytest.mark.parametrize(
    ("name", "message"), [("absent.json", "no such file"), (".", "folder"), ("a\0b", "cannot be")]
)
def test_files_that_cannot_be_opened(tmp_path, name, message):
    """Missing, a folder, or no name a file can have."""
    with pytest.raises(InputError, match=message):
        labels_from_json(Path(tmp_path / name), 1)


@pytest.mark.parametrize("seed", range(60))
def test_files_with_bytes_changed_never_fail_otherwise(tmp_path, seed):
    """A file with some bytes changed, lost or doubled is refused, or all its labels are teeth."""
    random = np.random.default_rng(seed)
    content = bytearray(holding(LABELS, jaw="upper").encode())
    for _ in range(random.integers(1, 4)):
        at = int(random.integers(len(content)))
        kind = random.integers(3)
        if kind == 0:
            content[at] = int(random.integers(256))
        elif kind == 1:
            del content[at]
        else:
            content[at:at] = content[at : at + 5]
    try:
        labels = labels_from_json(written(tmp_path, bytes(content)), len(LABELS))
    except InputError as error:
        assert "labels.json" in str(error)
    else:
        assert labels.shape == (len(LABELS),)
        assert ((labels == 0) | ((labels > 10) & (labels < 90))).all()


def test_scalars_that_hold_labels():
    """By name, or the only one that can be labels; floats without a fraction are labels too."""
    vertex = {"quality": [0.5, 0.1], "tooth": [11.0, 0.0], "flags": [0, 0], "rgb": np.eye(3)}
    assert labels_from_scalars(vertex, {}, None)[0] == "vertex"
    assert labels_from_scalars(vertex, {}, None)[1].tolist() == [11, 0]
    face = {"label": np.array([36, 0], dtype=np.uint8)}
    assert labels_from_scalars({}, face, None)[0] == "face"
    kind, values = labels_from_scalars(vertex, face, "label")
    assert (kind, values.tolist()) == ("face", [36, 0])
    assert labels_from_scalars({"label": [11]}, face, "label")[0] == "face"


@pytest.mark.parametrize(
    ("vertex", "face", "key", "message"),
    [
        ({}, {}, None, "there are: none"),
        ({"quality": [0.5]}, {"flags": [0]}, None, r"flags \(face\), quality \(vertex\)"),
        ({"a": [11], "b": [12]}, {}, None, r"several.*a \(vertex\), b \(vertex\)"),
        ({"a": [11]}, {"a": [12]}, None, r"several.*a \(face\), a \(vertex\)"),
        ({"label": [11]}, {}, "labels", "did you mean 'label'"),
        ({"label": [11.5]}, {}, "label", "entry 0 is 11.5"),
        ({"label": [np.nan, 11]}, {}, "label", "entry 0 is nan"),
        ({"label": [True, False]}, {}, "label", "bool"),
        ({"label": [[11], [12]]}, {}, "label", r"shape \(2, 1\)"),
        ({"label": [1, 2, 2]}, {}, "label", r"1 \(1 times\), 2 \(2 times\)"),
        ({"label": list(range(1, 11))}, {}, "label", "and 2 others"),
        ({"label": ["11"]}, {}, "label", "<U2"),
        ({"label": [[11], [11, 12]]}, {}, "label", "unequal length"),
    ],
)
def test_scalars_that_hold_none(vertex, face, key, message):
    """The message names the scalars there are, or what is wrong in the one that was named."""
    with pytest.raises(InputError, match=message):
        labels_from_scalars(vertex, face, key)


def test_parts_named_by_teeth():
    """The only tooth number in a name counts, other digits do not; gums are no tooth."""
    parts = [
        ("tooth_36", [0, 1]),
        ("37", [2]),
        ("scan_2024_v3-35", np.array([3], dtype=np.int32)),
        ("Gingiva", [4]),
        ("36 filling 36", [5]),
        ("base_99", []),
    ]
    assert labels_from_parts(parts, 6).tolist() == [36, 36, 37, 35, 0, 36]


@pytest.mark.parametrize(
    ("parts", "message"),
    [
        ([("UR6", [0, 1])], "no tooth number"),
        ([("", [0, 1])], "no tooth number"),
        ([("tooth_19", [0, 1])], "no tooth number"),
        ([("36 and 37", [0, 1])], "36 and 37;"),
        ([("gum 36", [0, 1])], "36 and gum"),
        ([("36", [0])], "1 of 2 triangles are in no part"),
        ([("36", [0, 1]), ("37", [1])], "'37': 1 of its triangles"),
        ([("36", [0, 2])], "triangles 0 to 2, but there are 2"),
        ([("36", [-1, 0])], "triangles -1 to 0"),
        ([("36", [0.0, 1.0])], "row of triangle numbers"),
        ([("36", [[0, 1]])], "row of triangle numbers"),
        ([], "2 of 2 triangles are in no part"),
    ],
)
def test_parts_that_say_no_tooth(parts, message):
    """Names without one tooth, and triangles in no part or in two, are refused."""
    with pytest.raises(InputError, match=message):
        labels_from_parts(parts, 2)


def test_a_triangle_belongs_to_the_tooth_of_two_corners():
    """Two of three corners decide; three different ones are no tooth."""
    faces = np.array([[0, 1, 2], [0, 1, 3], [0, 3, 4], [3, 4, 5], [5, 3, 0], [3, 5, 5]])
    assert face_labels([11, 11, 11, 12, 12, 0], faces).tolist() == [11, 11, 12, 12, 0, 0]


def test_labels_that_do_not_fit_the_triangles():
    """Fewer labels than vertices, or another number of triangles, are refused."""
    with pytest.raises(InputError, match="every vertex needs a label"):
        face_labels([11, 11], np.array([[0, 1, 2]]))
    with pytest.raises(InputError, match="2 for 1 triangles"):
        without_strays([11, 11], np.array([[0, 1, 2]]))


SIDE = 40


def strip(teeth=(13, 12, 11, 21)):
    """Return the triangles of a flat sheet and their labels: gums with square teeth in a row."""
    number = np.arange((SIDE + 1) * (20 * len(teeth) + 1)).reshape(SIDE + 1, -1)
    a, b, c, d = (
        n.ravel() for n in (number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:])
    )
    faces = np.stack([np.stack([a, b, c], 1), np.stack([a, c, d], 1)], 1).reshape(-1, 3)
    labels = np.zeros((SIDE, 20 * len(teeth), 2), dtype=np.int64)
    for at, code in enumerate(teeth):
        labels[8:32, 20 * at + 2 : 20 * at + 20] = code
    return faces, labels


@pytest.mark.parametrize("seed", range(60))
def test_strays_go_to_what_surrounds_them(seed):
    """A spot of another label, planted in a tooth or in the gums, is found and put back."""
    random = np.random.default_rng(seed)
    faces, labels = strip()
    planted = labels.copy()
    counted = {}
    for row, column in ((1, 30), (15, 7), (22, 31), (14, 47), (25, 70)):
        wide = int(random.integers(1, 4))
        row, column = row + int(random.integers(3)), column + int(random.integers(3))
        spot = (slice(row, row + wide), slice(column, column + wide))
        own = int(labels[row, column, 0])
        others = [code for code in (0, 13, 12, 11, 21) if code != own]
        planted[spot] = code = int(random.choice(others))
        counted[code] = counted.get(code, 0) + 2 * wide * wide
    clean = without_strays(planted.ravel(), faces)
    assert (clean.tooth_of_face == labels.ravel()).all()
    assert clean.moved == counted
    order = random.permutation(len(faces))
    again = without_strays(planted.ravel()[order], faces[order])
    assert (again.tooth_of_face == clean.tooth_of_face[order]).all()


def test_large_pieces_of_a_tooth_stay():
    """A crown in two parts, as where a scan has a gap, keeps both; no label changes."""
    faces, labels = strip()
    labels[19:21, 22:40] = 0
    clean = without_strays(labels.ravel(), faces)
    assert (clean.tooth_of_face == labels.ravel()).all()
    assert clean.moved == {}


def test_strays_within_strays_and_apart():
    """A spot around a spot goes where both lie; one that touches nothing belongs to no tooth."""
    faces, labels = strip()
    planted = labels.copy()
    planted[15:18, 25:28] = 0
    planted[16, 26] = 21
    apart = np.array([[0, 1, 2]]) + faces.max() + 1
    clean = without_strays(np.append(planted.ravel(), 11), np.concatenate([faces, apart]))
    assert (clean.tooth_of_face == np.append(labels.ravel(), 0)).all()
    assert clean.moved == {0: 16, 11: 1, 21: 2}


def test_labels_of_another_mesh_are_noticed():
    """Labels in a wrong order scatter over the mesh: refused, since no piece is a tooth."""
    faces, labels = strip()
    shuffled = np.random.default_rng(5).permutation(labels.ravel())
    with pytest.raises(InputError, match="scattered pieces"):
        without_strays(shuffled, faces)
    loose = np.arange(3 * len(faces)).reshape(-1, 3)
    with pytest.raises(InputError, match="do not share their corners"):
        without_strays(labels.ravel(), loose)


@pytest.mark.parametrize(
    ("labels", "side", "message"),
    [
        ([31, 32, 41, 42, 0], "upper", "probably swapped"),
        ([11, 12, 21, 22], "lower", "probably swapped"),
        ([11, 12, 21, 41], "upper", "teeth 41 of the other one"),
        ([11, 12, 53, 21], "upper", "deciduous teeth 53; only permanent teeth can be judged"),
        ([11, 12, 0, 13], "upper", r"3 labelled teeth \(11, 12, 13\)"),
        ([0, 0], "lower", r"0 labelled teeth \(none\)"),
        ([], "lower", "one row of tooth numbers|0 labelled"),
        ([11, 12, 21, 99], "upper", r"99 \(1 times\)"),
        ([11, 12, 21, 22], "both", "'upper' or 'lower'"),
    ],
)
def test_labels_that_are_no_arch(labels, side, message):
    """Swapped files, teeth of the other arch, deciduous ones and too few are told apart."""
    with pytest.raises(InputError, match=message) as caught:
        check_arch(labels, side, "scan.ply")
    assert "scan.ply" in str(caught.value)


def test_labels_that_are_an_arch():
    """Four permanent teeth of one arch are enough, on one side too."""
    check_arch([0, 11, 12, 21, 22], "upper", "scan")
    check_arch([0, 34.0, 35, 36, 37], "lower", "scan")


@pytest.mark.parametrize("kind", [np.uint8, np.int16, np.float32, np.float64])
def test_labels_of_any_number_type(kind):
    """Whole numbers are labels however the file stores them."""
    assert tooth_numbers(np.array([0, 48], dtype=kind), "labels").tolist() == [0, 48]
