"""Scanned casts let into each other at the bite: least motion, overlaps, the rigid answer."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.casts.casts import carried
from kinematics.contact.closure import close
from kinematics.contact.contacts import patches
from kinematics.contact.pair import prepare
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import inverse, opening_rotation, pose_of, rotation_about
from kinematics.scans.let_in import let_in
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings

POSE = np.eye(4)
TOLERANCE_MM = 0.02


@pytest.fixture(scope="module")
def teeth():
    """Return built-in teeth, which meet in MI without overlap."""
    return build(DentitionSettings(triangles_per_arch=40_000), POSE)


def displaced(arch, seed, way_mm, turn_deg):
    """Return an arch moved a little: upwards at least by half the way."""
    rng = np.random.default_rng(seed)
    axis = rng.normal(size=3)
    turn = rotation_about(axis / np.linalg.norm(axis), np.radians(turn_deg))
    middle = arch.mesh.vertices.mean(axis=0)
    way = rng.uniform(-0.1, 0.1, 3) * way_mm
    way[2] = rng.uniform(0.5, 1.0) * way_mm
    return carried(arch, pose_of(turn, middle + way - turn @ middle))


def stops(upper, lower):
    """Return tooth pairs in contact when the jaw closes, and how far it stays open there, mm."""
    pair = prepare(upper, carried(lower, inverse(POSE)))
    found = close(pair, POSE[None])
    marks = patches(pair, POSE @ opening_rotation(found.opening_rad), TOLERANCE_MM)
    pairs = set(zip(marks.tooth_upper.tolist(), marks.tooth_lower.tolist(), strict=True))
    return pairs, float(found.opening_rad[0]) * 90.0


def test_an_overlapping_bite_shows_its_real_stops(teeth):
    """Rigid casts meet at their deepest overlaps; seated ones at nearly all stops they have."""
    wanted, _ = stops(teeth.upper, teeth.lower)
    for seed in range(4):
        lower = displaced(teeth.lower, seed, 0.04, 0.0)
        rigid, open_mm = stops(teeth.upper, lower)
        upper, seated, record, _ = let_in(teeth.upper, lower, POSE, 0.06, Workers())
        found, left_mm = stops(upper, seated)
        assert len(rigid & wanted) < len(found & wanted)
        assert len(wanted - found) <= 1, (wanted - found, left_mm)
        assert abs(left_mm) < 0.002 < open_mm  # edges that crossed are parted too
        assert 0.0 < record.edges_mm < 0.02
        assert record.move == pytest.approx(np.eye(4))  # no overlap is deeper than the allowance


def test_no_allowance_is_the_rigid_answer(teeth):
    """Arches are returned as they are; their overlap is told all the same."""
    lower = displaced(teeth.lower, 1, 0.05, 0.02)
    upper, same, record, _ = let_in(teeth.upper, lower, POSE, 0.0, Workers())
    assert upper is teeth.upper
    assert same is lower
    assert record.as_scanned_mm > 0.01
    assert record.moved_mm == 0.0
    assert all(tooth.let_in_mm == 0.0 for tooth in record.by_tooth)


@pytest.mark.parametrize("seed", range(6))
def test_the_lower_is_moved_until_no_overlap_is_too_deep(teeth, seed):
    """What is left is the allowance, and the motion is about what has to be undone, not more."""
    lower = displaced(teeth.lower, seed, 0.12, 0.03)
    _, _, record, _ = let_in(teeth.upper, lower, POSE, 0.03, Workers())
    assert record.as_scanned_mm > 0.03
    assert record.seated_mm <= 0.031
    assert 0.2 * (record.as_scanned_mm - 0.03) < record.moved_mm < 0.35


def test_a_deeper_allowance_never_moves_more(teeth):
    """The motion shrinks as the allowance grows, to nothing where all overlap is let in."""
    lower = displaced(teeth.lower, 3, 0.1, 0.02)
    moved = [
        let_in(teeth.upper, lower, POSE, allowance, Workers())[2].moved_mm
        for allowance in (0.02, 0.05, 0.08, 0.2)
    ]
    assert all(np.diff(moved) <= 1e-6)
    assert moved[-1] == 0.0


def test_overlaps_are_those_of_the_teeth_that_overlap(teeth):
    """Teeth raised alone, fifty times, are named, with the depth at their vertices."""
    rng = np.random.default_rng(7)
    codes = [code for code in teeth.lower.codes if code % 10 >= 4]
    missed = 0
    for _ in range(50):
        code, depth = int(rng.choice(codes)), float(rng.uniform(0.02, 0.15))
        vertices = teeth.lower.mesh.vertices.copy()
        used = np.unique(teeth.lower.mesh.faces[teeth.lower.tooth_of_face == code])
        vertices[used, 2] += depth
        raised = type(teeth.lower)(
            type(teeth.lower.mesh)(vertices, teeth.lower.mesh.faces),
            teeth.lower.tooth_of_face,
            teeth.lower.teeth,
        )
        _, _, record, _ = let_in(teeth.upper, raised, POSE, 0.0, Workers())
        by_tooth = {tooth.code: tooth.as_scanned_mm for tooth in record.by_tooth}
        deepest = max((code for code in by_tooth if code > 30), key=by_tooth.get, default=0)
        missed += deepest != code
        assert record.as_scanned_mm <= depth + 1e-3
    assert missed <= 2  # a shallow one whose stops lie between vertices


def test_threads_and_order_of_triangles_do_not_matter(teeth):
    """Vertices yield by the same bits."""
    lower = displaced(teeth.lower, 2, 0.04, 0.01)
    above, below, record, _ = let_in(teeth.upper, lower, POSE, 0.05, Workers())
    order = np.random.default_rng(4).permutation(len(lower.mesh.faces))
    other = replace(
        lower,
        mesh=mesh_of(lower.mesh.vertices, lower.mesh.faces[order]),
        tooth_of_face=lower.tooth_of_face[order],
    )
    above_2, below_2, record_2, _ = let_in(teeth.upper, other, POSE, 0.05, Workers(2))
    assert np.array_equal(above.mesh.vertices, above_2.mesh.vertices)
    assert np.array_equal(below.mesh.vertices, below_2.mesh.vertices)
    assert record.edges_mm == record_2.edges_mm > 0.0
