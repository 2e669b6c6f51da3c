"""Scan files are read as they are, exactly, and as general-purpose libraries read them."""

import hashlib
from itertools import pairwise

import numpy as np
import pytest
import pyvista
import trimesh
from hypothesis import given
from hypothesis import strategies as st

from kinematics.scans.equal_rows import equal_rows
from kinematics.scans.scan import Part
from kinematics.scans.scan_files import read_scan
from tests import made_scans as made

FILES = {
    "binary STL": ("a.stl", made.binary_stl()),
    "ASCII STL": ("a.stl", made.ascii_stl()),
    "binary PLY": ("a.ply", made.binary_ply_with_scalars()),
    "ASCII PLY": ("a.ply", made.ascii_ply_with_scalars()),
    "OBJ": ("a.obj", made.obj()),
    "GLB": ("a.glb", made.glb()),
}


def _read(folder, name, content):
    path = folder / name
    path.write_bytes(content)
    return read_scan(path)


@pytest.mark.parametrize("kind", FILES)
def test_a_file_is_read_exactly(kind, tmp_path):
    """Every number comes back; the scan says what it was read from; nothing can be changed."""
    name, content = FILES[kind]
    scan = _read(tmp_path, name, content)
    assert (scan.name, scan.kind, scan.parts) == (name, kind, ())
    assert scan.sha256 == hashlib.sha256(content).hexdigest()
    np.testing.assert_array_equal(scan.vertices[scan.faces], made.POINTS[made.FACES])
    if not name.endswith("stl"):
        np.testing.assert_array_equal(scan.vertices, made.POINTS)
        np.testing.assert_array_equal(scan.faces, made.FACES)
    assert (scan.vertices.dtype, scan.faces.dtype) == (np.float64, np.int64)
    for array in (scan.vertices, scan.faces):
        with pytest.raises(ValueError, match="read-only"):
            array[0, 0] = 7


@pytest.mark.parametrize(
    "content",
    [
        made.binary_ply_with_scalars("<"),
        made.binary_ply_with_scalars(">"),
        made.ascii_ply_with_scalars(),
        made.ascii_ply_with_scalars().replace(b"\n", b"\r\n"),
    ],
    ids=["little-endian", "big-endian", "ASCII", "ASCII of Windows"],
)
def test_scalars_of_ply_are_kept(content, tmp_path):
    """Numbers beside places come by their names and types; colours do not."""
    scan = _read(tmp_path, "a.ply", content)
    assert list(scan.vertex_scalars) == ["quality", "label"]
    assert list(scan.face_scalars) == ["tooth"]
    for read, wanted in (
        (scan.vertex_scalars["quality"], made.QUALITY),
        (scan.vertex_scalars["label"], made.LABEL),
        (scan.face_scalars["tooth"], made.TOOTH),
    ):
        np.testing.assert_array_equal(read, wanted)
        assert read.dtype == wanted.dtype
        assert not read.flags.writeable


def _polygons(order):
    """Return a PLY file of a triangle, a square and a triangle, with a tooth before each list."""
    header = made.ply_header(
        {"": "ascii", "<": "binary_little_endian", ">": "binary_big_endian"}[order], faces=3
    ).replace(b"property list", b"property short tooth\nproperty list")
    rows = [(11, (0, 1, 4)), (-12, (0, 1, 2, 3)), (13, (1, 2, 4))]
    if not order:
        lines = [" ".join(map(repr, row)) for row in made.POINTS.tolist()]
        lines += [f"{t} {len(c)} {' '.join(map(str, c))}" for t, c in rows]
        return header + "\n".join(lines).encode()
    body = made.POINTS.astype(order + "f8").tobytes()
    for tooth, corners in rows:
        body += np.array(tooth, order + "i2").tobytes() + bytes([len(corners)])
        body += np.array(corners, order + "i4").tobytes()
    return header + body


@pytest.mark.parametrize("order", ["", "<", ">"])
def test_polygons_of_ply_become_fans(order, tmp_path):
    """A square becomes two triangles that both have its scalar; the order stays."""
    scan = _read(tmp_path, "a.ply", _polygons(order))
    assert scan.faces.tolist() == [[0, 1, 4], [0, 1, 2], [0, 2, 3], [1, 2, 4]]
    assert scan.face_scalars["tooth"].tolist() == [11, -12, -12, 13]


def test_other_elements_of_ply_are_passed_over(tmp_path):
    """Edges and materials between vertices and faces change nothing."""
    extra = b"element edge 2\nproperty int a\nproperty uchar b\nelement face 4"
    text = (
        made.ascii_ply().replace(b"element face 4", extra).replace(b"3 0 1 4", b"1 2\n3 4\n3 0 1 4")
    )
    binary = made.binary_ply().replace(b"element face 4", extra)
    corners = len(made.FACES) * 13
    binary = binary[:-corners] + b"\1\0\0\0\2\3\0\0\0\4" + binary[-corners:]
    for content in (text, binary):
        scan = _read(tmp_path, "a.ply", content)
        np.testing.assert_array_equal(scan.faces, made.FACES)


def test_obj_keeps_the_order_and_unused_vertices(tmp_path):
    """Texture places, normals, materials and colours change no number of a vertex."""
    text = (
        "mtllib none.mtl\nv 9 9 9 # unused\nvn 0 0 1\nvt 0 0\nv 0 0 0 1\nusemtl red\n"
        "v\t1 0 0 0.5 0.5 0.5\nv 1 1 0\nv 0 1 0\ns 1\n\nf 2/1/1 3//1 4/1\nf -4 -2 -1 # back\n"
        "v 5 5 5\nl 1 2\n"
    )
    for content in (text.encode(), text.replace("\n", "\r\n").encode()):
        scan = _read(tmp_path, "A.OBJ", content)
        assert scan.vertices.tolist() == [
            [9] * 3,
            [0] * 3,
            [1, 0, 0],
            [1, 1, 0],
            [0, 1, 0],
            [5] * 3,
        ]
        assert scan.faces.tolist() == [[1, 2, 3], [1, 3, 4]]


def test_groups_and_objects_of_obj_are_parts(tmp_path):
    """Every stretch of triangles after a name is a part; a square counts as its triangles."""
    text = (
        made.obj().decode() + "o jaw\ng tooth 36\nf 1 2 3 4\nf 1 2 5\ng none\ng tooth 37\nf 2 3 5\n"
    )
    scan = _read(tmp_path, "a.obj", text.encode())
    assert scan.parts == (Part("", 0, 3), Part("tooth 36", 4, 6), Part("tooth 37", 7, 7))
    assert scan.faces[4:].tolist() == [[0, 1, 2], [0, 2, 3], [0, 1, 4], [1, 2, 4]]


def test_solids_of_ascii_stl_are_parts(tmp_path):
    """Two solids in one file keep their names, whatever words they hold."""
    two = made.ascii_stl(name="vertex 1 2 3") + made.ascii_stl(made.POINTS + 50.0, name="facet")
    scan = _read(tmp_path, "a.stl", two.replace(b"facet normal", b"FACET  Normal"))
    assert scan.parts == (Part("vertex 1 2 3", 0, 3), Part("facet", 4, 7))
    assert len(scan.vertices) == 10


def test_a_binary_stl_file_may_say_solid(tmp_path):
    """Its size decides, not the first word of its header."""
    scan = _read(tmp_path, "a.stl", made.binary_stl(header=b"solid jaw"))
    assert scan.kind == "binary STL"


def test_binary_numbers_that_are_not_finite_stay(tmp_path):
    """Reading cleans nothing: a corner that is nowhere is for the cleaning to tell."""
    points = made.POINTS.copy()
    points[4] = np.nan
    scan = _read(tmp_path, "a.stl", made.binary_stl(points))
    assert len(scan.vertices) == 5
    assert np.isnan(scan.vertices).any(axis=1).sum() == 1


def _nested_glb():
    """Return a GLB file of a turned and a mirrored node in a moved one, one with two primitives."""
    tree, binary = made.glb_tree()
    tree["nodes"] = [
        {"translation": [1, 2, 3], "scale": [2, 3, 4], "children": [1, 2]},
        {"name": "turned", "mesh": 0, "rotation": [0.6, 0, 0, 0.8], "translation": [0, 0, 5]},
        {
            **{"name": "mirrored", "mesh": 1},
            "matrix": [-1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 7, 0, 0, 1],
        },
        {"name": "not in the scene", "mesh": 0},
    ]
    primitive = tree["meshes"][0]["primitives"][0]
    tree["meshes"].append({"primitives": [primitive, primitive, {**primitive, "mode": 0}]})
    return made.glb(tree, binary)


def _wound(triangles):
    """Return triangles in an order of their own, each from its first corner on, as it is wound."""
    rows = [[tuple(corner) for corner in triangle] for triangle in triangles.round(4).tolist()]
    starts = [row.index(min(row)) for row in rows]
    return sorted(tuple(row[s:] + row[:s]) for row, s in zip(rows, starts, strict=True))


def test_nodes_of_glb_are_placed_and_named(tmp_path):
    """Every node is moved by all above it; what is mirrored is wound back; pieces have names."""
    scan = _read(tmp_path, "a.glb", _nested_glb())
    assert scan.parts == (
        Part("turned", 0, 3),
        Part("mirrored 1", 4, 7),
        Part("mirrored 2", 8, 11),
    )
    scene = trimesh.load_scene(tmp_path / "a.glb", process=False, skip_materials=True)
    pieces = [piece for piece in scene.dump() if isinstance(piece, trimesh.Trimesh)]
    wanted = np.concatenate([piece.triangles for piece in pieces])
    assert _wound(scan.vertices[scan.faces]) == _wound(wanted)
    first = scan.vertices[scan.faces[4]]
    assert first.tolist() == [[-25.0, 47.0, 43.0], [-65.0, 2.0, 3.0], [15.0, 2.0, 3.0]]


def test_glb_accessors_may_be_strided_and_without_indices(tmp_path):
    """Places between other data are found by their stride; without indices corners are in order."""
    tree, _ = made.glb_tree()
    rows = np.zeros(6, dtype=[("p", "<f4", 3), ("n", "<f4", 3)])
    rows["p"] = made.POINTS[made.FACES[:2].ravel()]
    tree["bufferViews"][0] = {"buffer": 0, "byteLength": rows.nbytes, "byteStride": 24}
    tree["accessors"][0]["count"] = 6
    tree["buffers"][0]["byteLength"] = rows.nbytes
    del tree["meshes"][0]["primitives"][0]["indices"], tree["scenes"], tree["scene"]
    scan = _read(tmp_path, "a.glb", made.glb(tree, rows.tobytes()))
    np.testing.assert_array_equal(scan.vertices[scan.faces], made.POINTS[made.FACES[:2]])


def _ball(seed):
    """Return an uneven ball whose corners have many digits."""
    ball = trimesh.creation.icosphere(subdivisions=3, radius=30.0)
    rng = np.random.default_rng(seed)
    places = (ball.vertices * rng.uniform(0.9, 1.1, (len(ball.vertices), 1))).astype(np.float32)
    return trimesh.Trimesh(places, ball.faces, process=False)


EXPORTS = {
    "b.stl": {"file_type": "stl"},
    "a.stl": {"file_type": "stl_ascii"},
    "b.ply": {"file_type": "ply"},
    "a.ply": {"file_type": "ply", "encoding": "ascii"},
    "a.obj": {"file_type": "obj", "digits": 17},
    "a.glb": {"file_type": "glb"},
}


@pytest.mark.parametrize("name", EXPORTS)
def test_files_of_a_library_come_back_exactly(name, tmp_path):
    """What trimesh writes is read without the loss of a bit, triangle by triangle."""
    ball = _ball(1)
    content = ball.export(**EXPORTS[name])
    scan = _read(tmp_path, name, content.encode() if isinstance(content, str) else content)
    np.testing.assert_array_equal(scan.vertices[scan.faces], ball.triangles)
    assert len(scan.vertices) == len(ball.vertices)


@pytest.mark.parametrize("name", [name for name in EXPORTS if name != "a.glb"])
def test_vtk_reads_the_same(name, tmp_path):
    """VTK's readers find the same triangles in the same order."""
    content = _ball(2).export(**EXPORTS[name])
    scan = _read(tmp_path, name, content.encode() if isinstance(content, str) else content)
    surface = pyvista.read(tmp_path / name)
    places, corners = np.asarray(surface.points), surface.regular_faces
    np.testing.assert_array_equal(scan.vertices[scan.faces].astype(np.float32), places[corners])


@pytest.mark.parametrize("name", [name for name in EXPORTS if name != "a.glb"])
def test_trimesh_reads_the_same_of_files_by_vtk(name, tmp_path):
    """Files that VTK writes are read as trimesh reads them (VTK writes GLB of scenes only)."""
    ball = _ball(3)
    surface = pyvista.PolyData.from_regular_faces(ball.vertices, ball.faces)
    surface.save(tmp_path / name, binary=name.startswith("b."))
    scan = read_scan(tmp_path / name)
    other = trimesh.load_mesh(tmp_path / name, process=False)
    np.testing.assert_allclose(scan.vertices[scan.faces], other.triangles, rtol=1e-7)


@given(rows=st.lists(st.tuples(*[st.sampled_from([0.0, -0.0, 1.0, 1e-300, -2.5])] * 3), min_size=1))
def test_equal_rows_are_found(rows):
    """A dictionary of rows gives the same numbers in the same order."""
    numbers = {}
    wanted = [numbers.setdefault(row, len(numbers)) for row in rows]
    first, number = equal_rows(np.array(rows))
    assert number.tolist() == wanted
    assert first.tolist() == [wanted.index(n) for n in range(len(numbers))]


def test_rows_with_one_hash_are_told_apart(monkeypatch):
    """Where a hash does not tell rows apart, the rows themselves do."""
    monkeypatch.setattr("kinematics.scans.equal_rows._FACTORS", np.zeros(3, dtype=np.uint64))
    rows = np.random.default_rng(4).integers(0, 3, (200, 3))
    first, number = equal_rows(rows)
    np.testing.assert_array_equal(rows[first][number], rows)
    assert len(first) == len(np.unique(rows, axis=0))
    assert all(a < b for a, b in pairwise(first))
