"""Animated 3-D files: read back by others as they were meant, and free of faults."""

import json

import numpy as np
import pytest
import trimesh
from scipy.spatial.transform import Rotation

from kinematics.geometry.poses import move_points
from scenes import colours
from scenes.animated_file import Motion, animated_file
from scenes.scene import Part, Scene, View
from tests.played_file import Played, judged

VIEW = View("front", np.array([-1.0, 0.0, 0.0]), np.array([0.0, 0.0, 1.0]), np.zeros(3), 80.0, 60.0)
#: So far a vertex may lie from where it was meant, mm; where it is turned by more than jaws ever
#: are, the seven digits of the other reader show.
EXACT_MM, TURNED_MM = 1e-5, 2e-5
TURNS_DEG = (20.0, 300.0)


def made_parts(rng):
    """Return an upper and two parts of a lower about as big and as far away as casts are."""
    parts = []
    for role, cast in (("upper tooth", "upper"), ("lower tooth", "lower"), ("gum", "lower")):
        vertices = rng.uniform((40.0, -30.0, -60.0), (90.0, 30.0, -20.0), (60, 3))
        faces = np.array([rng.choice(60, 3, replace=False) for _ in range(90)])
        parts.append(Part(role, vertices, faces, cast=cast))
    painted = np.clip(rng.normal(0.5, 0.3, (60, 3)), 0.0, 1.0)
    parts[1] = Part("lower tooth", parts[1].vertices, parts[1].faces, cast="lower", paint=painted)
    return tuple(parts)


def made_moves(rng, count=11, most_deg=40.0):
    """Return rigid motions that begin at rest."""
    turn = rng.normal(size=3)
    angles = np.radians(most_deg) * np.linspace(0.0, 1.0, count)
    moves = np.tile(np.eye(4), (count, 1, 1))
    turns = angles[:, None] * turn / np.linalg.norm(turn)
    moves[:, :3, :3] = Rotation.from_rotvec(turns).as_matrix()
    moves[:, :3, 3] = rng.uniform(-10.0, 10.0, 3) * np.linspace(0.0, 1.0, count)[:, None]
    return moves


def read(content):
    """Return the document of a file."""
    length = int.from_bytes(content[12:16], "little")
    return json.loads(content[20 : 20 + length])


@pytest.mark.parametrize("seed", range(20))
def test_another_reader_puts_every_vertex_where_it_was_meant(seed, tmp_path):
    """At every key of every movement, upper and lower; turns beyond half a circle too."""
    rng = np.random.default_rng(seed)
    scene = Scene(VIEW, made_parts(rng))
    times = 0.25 * np.arange(11)
    motions = [
        Motion(f"movement {number}", times, made_moves(rng, most_deg=most_deg))
        for number, most_deg in enumerate(TURNS_DEG)
    ]
    path = tmp_path / "made.glb"
    path.write_bytes(animated_file(scene, motions, "made", "a test"))
    played = Played(path)
    assert played.names == ["movement 0", "movement 1"]
    for number, motion in enumerate(motions):
        exact_mm = EXACT_MM if TURNS_DEG[number] < 45.0 else TURNED_MM
        for move, meshes in zip(motion.moves, played.at(number, times), strict=True):
            for part, vertices in zip(scene.parts, meshes, strict=True):
                wanted = move_points(move, part.vertices) if part.cast == "lower" else part.vertices
                assert np.abs(vertices - wanted).max() <= exact_mm


@pytest.mark.parametrize("seed", range(5))
def test_the_validator_finds_no_fault(seed, tmp_path):
    """Neither errors nor warnings nor hints."""
    rng = np.random.default_rng(seed)
    path = tmp_path / "made.glb"
    motions = [Motion("é ü", np.linspace(0.0, 2.0, 11), made_moves(rng))]
    path.write_bytes(animated_file(Scene(VIEW, made_parts(rng)), motions, "Fälle", "a test"))
    report = judged(path)
    assert report["issues"]["messages"] == []
    assert report["info"]["animationCount"] == 1
    assert report["info"]["totalTriangleCount"] == 270


def test_the_validator_would_find_a_fault(tmp_path):
    """A file with a byte too few, or whose least and greatest values are wrong, is told."""
    rng = np.random.default_rng(1)
    motions = [Motion("one", np.linspace(0.0, 2.0, 11), made_moves(rng))]
    content = animated_file(Scene(VIEW, made_parts(rng)), motions, "made", "a test")
    path = tmp_path / "cut.glb"
    path.write_bytes(content[:-1])
    assert judged(path)["issues"]["numErrors"] > 0
    path.write_bytes(content.replace(b'"max":[2.0]', b'"max":[1.0]'))
    assert judged(path)["issues"]["numErrors"] > 0


def test_turns_go_the_shorter_way_between_keys():
    """Quaternions of neighbours never point away from each other."""
    rng = np.random.default_rng(4)
    times, moves = np.linspace(0.0, 1.0, 41), made_moves(rng, 41, 700.0)
    content = animated_file(
        Scene(VIEW, made_parts(rng)), [Motion("round", times, moves)], "made", "a test"
    )
    document = read(content)
    (animation,) = document["animations"]
    accessor = document["accessors"][animation["samplers"][1]["output"]]
    view = document["bufferViews"][accessor["bufferView"]]
    begin = content.index(b"BIN\0") + 4 + view["byteOffset"]
    turns = np.frombuffer(content, "<f4", 4 * accessor["count"], begin).reshape(-1, 4)
    assert (np.einsum("ij,ij->i", turns[1:], turns[:-1]) > 0.0).all()
    assert np.linalg.norm(turns, axis=1) == pytest.approx(np.ones(41), abs=1e-6)


def test_colours_are_those_of_the_pictures(tmp_path):
    """Told in amounts of light, as glTF asks; trimesh turns them back into what screens show."""
    rng = np.random.default_rng(5)
    parts = made_parts(rng)
    motions = [Motion("one", np.linspace(0.0, 2.0, 11), made_moves(rng))]
    document = read(animated_file(Scene(VIEW, parts), motions, "made", "a test"))
    gum = next(look for look in document["materials"] if look["name"] == "gum")
    light = np.array(gum["pbrMetallicRoughness"]["baseColorFactor"][:3])
    shown = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    hexadecimal = "#" + "".join(f"{round(255.0 * value):02x}" for value in shown)
    assert hexadecimal == colours.SURFACE["gum"]
    painted = next(look for look in document["materials"] if look["name"].endswith("painted"))
    assert painted["pbrMetallicRoughness"]["baseColorFactor"] == [1.0, 1.0, 1.0, 1.0]


def test_at_rest_others_see_the_scene_as_it_is(tmp_path):
    """Trimesh, without playing anything: every part in metres, y up, z forward."""
    rng = np.random.default_rng(6)
    parts = made_parts(rng)
    path = tmp_path / "made.glb"
    motions = [Motion("one", np.linspace(0.0, 2.0, 11), made_moves(rng))]
    path.write_bytes(animated_file(Scene(VIEW, parts), motions, "made", "a test"))
    loaded = trimesh.load_scene(path, process=False)
    meshes = [
        trimesh.transform_points(loaded.geometry[name].vertices, loaded.graph[node][0])
        for node in loaded.graph.nodes_geometry
        for name in [loaded.graph[node][1]]
    ]
    assert len(meshes) == len(parts)
    for part in parts:
        wanted = 1e-3 * part.vertices[:, [1, 2, 0]]
        off = [
            np.abs(np.sort(mesh, axis=0) - np.sort(wanted, axis=0)).max()
            for mesh in meshes
            if len(mesh) == len(wanted)
        ]
        assert min(off) <= 1e-3 * EXACT_MM
