"""Scans of records brought onto the casts: how exactly, wherever they lie, whatever they show."""

import numpy as np
import pytest
from scipy.spatial import Delaunay
from scipy.spatial.transform import Rotation

from kinematics.geometry.meshes import Mesh, joined, mesh_of
from kinematics.geometry.poses import inverse, pose_of
from kinematics.records import record_scans
from kinematics.records.record_scans import scanned_record
from kinematics.scans.fine_registration import fine_place
from kinematics.scans.scan_search import sought_scan
from tests.made_record_scans import (
    BITE,
    View,
    any_move,
    off,
    own_casts,
    own_meshes,
    record_mesh,
)
from tests.scanner_like import any_place

#: What is aimed at with 10 micrometres of noise, at all teeth; where one side was scanned those of
#: the other are farther off. Chosen for this program.
WITHIN_MM, WITHIN_DEG, OTHER_SIDE_MM = 0.02, 0.05, 0.05
SIDE = View(most_y=4.0)
FRONT = View(least_x=62.0)


def quiet(_step):
    """Take a name of a step that nobody reads."""


def found(mesh, shows="both arches"):
    """Return where the lower stands in a record."""
    return scanned_record(own_casts(), mesh, shows, "record", quiet)


def nearly(pose, seed):
    """Return a pose that is off by some tenths of a millimetre and a degree, at the teeth."""
    rng = np.random.default_rng(seed)
    turn = Rotation.from_rotvec(np.radians(rng.normal(0.0, 0.5, 3))).as_matrix()
    about = own_meshes()[0][1].vertices.mean(axis=0)
    return pose_of(turn, about - turn @ about + rng.normal(0.0, 0.2, 3)) @ pose


@pytest.mark.parametrize("seed", range(50))
def test_fifty_records_are_found_exactly(seed):
    """Noise of 10 micrometres, in any coordinates: whole, and one side with the front."""
    move, place = any_move(seed), any_place(seed)
    view = View("teeth", most_y=np.inf if seed % 2 else SIDE.most_y)
    scan = sought_scan(record_mesh(move, seed, view, place=place))
    points, normals = scan.some(1500)
    casts, back = own_casts(), inverse(place)
    upper = fine_place(casts.upper.teeth, points, normals, nearly(back, seed), 1.0)
    start = inverse(BITE) @ nearly(inverse(move) @ back, seed + 1)
    lower = fine_place(casts.lower.teeth, points, normals, start, 1.0)
    apart_mm, turn_deg = off(upper.pose @ inverse(lower.pose), move)
    assert upper.settled and lower.settled
    assert min(upper.share, lower.share) > 0.9
    assert apart_mm < (WITHIN_MM if seed % 2 else OTHER_SIDE_MM)
    assert turn_deg < WITHIN_DEG


@pytest.mark.parametrize(("seed", "view"), [(1, View()), (3, SIDE)])
def test_a_record_is_found_wherever_it_lies(seed, view):
    """In coordinates of its own, gums and all, without a start by hand."""
    move = any_move(seed)
    record = found(record_mesh(move, seed, view, place=any_place(seed)))
    apart_mm, turn_deg = off(record.from_lower, move)
    assert apart_mm < (OTHER_SIDE_MM if view is SIDE else WITHIN_MM)
    assert turn_deg < WITHIN_DEG
    assert record.turn_error_deg < 0.15
    assert 0.005 < record.residual_mm < 0.03


@pytest.mark.wide
@pytest.mark.parametrize("seed", range(100, 150))
def test_fifty_records_are_found_wherever_they_lie(seed):
    """Whole ones, and one side with the front."""
    move = any_move(seed)
    record = found(record_mesh(move, seed, (View(), SIDE)[seed % 2], place=any_place(seed)))
    apart_mm, turn_deg = off(record.from_lower, move)
    assert apart_mm < (OTHER_SIDE_MM if seed % 2 else WITHIN_MM)
    assert turn_deg < WITHIN_DEG


def test_a_scan_of_front_teeth_is_found_where_it_lies():
    """In the coordinates of the upper scan; what it holds less firmly is told."""
    move = any_move(4)
    front, whole = found(record_mesh(move, 4, FRONT)), found(record_mesh(move, 4, View("teeth")))
    apart_mm, turn_deg = off(front.from_lower, move)
    assert apart_mm < 0.05
    assert turn_deg < 0.1
    assert front.turn_error_deg > 2.0 * whole.turn_error_deg


def test_the_lower_arch_alone_is_found_in_the_coordinates_of_the_upper_scan():
    """As some scanners export a record: the lower scan, standing in it."""
    move = any_move(5)
    record = found(record_mesh(move, 5, View(arches=("lower",))), "lower arch")
    apart_mm, turn_deg = off(record.from_lower, move)
    assert record.upper is None
    assert apart_mm < WITHIN_MM
    assert turn_deg < WITHIN_DEG


def test_gums_that_changed_and_record_material_pull_nothing():
    """Gums half a millimetre thicker, and a sheet of material between the arches."""
    move = any_move(6)
    teeth = record_mesh(move, 6, View("teeth"))
    gums = record_mesh(move, 6, View("gums"))
    swollen = mesh_of(gums.vertices + np.array([0.5, 0.0, 0.3]), gums.faces)
    x, y = (
        axis.ravel() for axis in np.meshgrid(np.linspace(-15, 15, 60), np.linspace(-25, 25, 99))
    )
    at = own_meshes()[0][1].vertices.mean(axis=0) - [0.0, 0.0, 4.0]
    sheet = at + np.stack([x, y, np.sin(x) + np.sin(0.7 * y)], axis=1)
    material = mesh_of(sheet, Delaunay(np.stack([x, y], axis=1)).simplices)
    record = found(joined([teeth, swollen, material]))
    apart_mm, turn_deg = off(record.from_lower, move)
    assert apart_mm < WITHIN_MM
    assert turn_deg < WITHIN_DEG


def test_the_order_and_winding_of_triangles_changes_no_bit():
    """Vertices and triangles shuffled, and wound the other way."""
    move = any_move(7)
    mesh = record_mesh(move, 7, View("teeth"))
    rng = np.random.default_rng(7)
    order = rng.permutation(len(mesh.vertices))
    number = np.empty_like(order)
    number[order] = np.arange(len(order))
    faces = number[mesh.faces][rng.permutation(len(mesh.faces))][:, ::-1]
    shuffled = Mesh(mesh.vertices[order], np.ascontiguousarray(faces))
    one, other = found(mesh), found(shuffled)
    assert np.array_equal(one.from_lower, other.from_lower)
    assert np.array_equal(one.lower.covariance, other.lower.covariance)


def test_standard_errors_are_those_of_a_patchy_error():
    """Errors alike over patches of 2 mm and 20 micrometres put the scan off by as much as told."""
    casts, move = own_casts(), np.eye(4)
    turns, told = [], []
    for seed in range(16):
        rng = np.random.default_rng(seed)
        mesh = record_mesh(move, seed, View("teeth", arches=("upper",)), noise_um=0.0)
        cells = np.floor(mesh.vertices / 2.0).astype(int)
        _, patch = np.unique(cells, axis=0, return_inverse=True)
        off_mm = rng.normal(0.0, 0.02, (patch.max() + 1, 3))[patch.reshape(-1)]
        scan = sought_scan(mesh_of(mesh.vertices + off_mm, mesh.faces))
        apart_mm = scan.apart_mm * np.sqrt(len(scan.fine) / 1200)
        place = fine_place(casts.upper.teeth, *scan.some(1200), move, apart_mm)
        turns.append(Rotation.from_matrix(place.pose[:3, :3]).as_rotvec(degrees=True))
        told.append(np.degrees(np.sqrt(np.diagonal(place.covariance)[:3])))
    really, said = np.std(turns, axis=0), np.mean(told, axis=0)
    assert (really < 1.5 * said).all()
    assert (really > 0.3 * said).all()
    assert said.max() < record_scans.MOST_TURN_ERROR_DEG
