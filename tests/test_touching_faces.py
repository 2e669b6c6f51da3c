"""Flags of touching triangles against an enumeration of all pairs."""

import numpy as np
import pytest

from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.contact.contacts import pair_gaps, patches
from kinematics.contact.pair import prepare
from kinematics.contact.touching_faces import touching_faces
from kinematics.contact.workers import Workers
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses, opening_rotation
from tests.made_sheets import CODES, FAMILIES, cusps, soup
from tests.slow_but_obvious import permuted
from tests.vertex_twins import jaw_poses, scattered, touching

#: Rounding may move a pair over a tolerance by so much.
SLACK_MM = 1e-9


@pytest.mark.parametrize("family", FAMILIES)
def test_flags_equal_an_enumeration_of_all_pairs(family):
    """Closed, opened and overlapping, at tolerances from nothing to a millimetre."""
    upper, lower = FAMILIES[family](5)
    pair = prepare(upper, lower)
    poses = jaw_poses(pair, 2, 7)
    flagged = 0
    for tolerance in (0.0, 0.02, 0.6):
        got = touching_faces(pair, poses, tolerance)
        for n, pose in enumerate(poses):
            surely = touching(upper, lower, pose, tolerance - SLACK_MM)
            perhaps = touching(upper, lower, pose, tolerance + SLACK_MM)
            for flags, less, more in zip(
                (got.upper[n], got.lower[n]), surely, perhaps, strict=True
            ):
                assert (flags >= less).all()
                assert (flags <= more).all()
                flagged += less.sum()
    assert flagged > 100


def test_flags_of_scattered_triangles_equal_an_enumeration():
    """Where bounds of nodes fit poorly, at tolerances small and large beside the triangles."""
    upper, lower = scattered(1, -30.0, 1200), scattered(2, -34.0, 1200)
    pair = prepare(upper, lower)
    for pose in jaw_poses(pair, 1, 3):
        for tolerance in (0.05, 0.3, 1.0):
            got = touching_faces(pair, pose[None], tolerance)
            wanted = touching(upper, lower, pose, tolerance)
            np.testing.assert_array_equal(got.upper[0], wanted[0])
            np.testing.assert_array_equal(got.lower[0], wanted[1])
    assert wanted[0].sum() > 50


def test_a_plate_over_a_plate_touches_within_its_height_and_no_less():
    """Of two strips only the one below the plate is flagged, at 10 micrometres and not at 9."""
    low = [
        [[50, -6, -30], [70, -6, -30], [70, 6, -30]],
        [[50, -6, -30], [70, 6, -30], [50, 6, -30]],
        [[50, -20, -30], [70, -20, -30], [70, -10, -30]],
    ]
    top = [[[58, -1, -29.99], [62, -1, -29.99], [62, 2, -29.99]],
           [[58, -1, -28], [62, 2, -28], [58, 2, -28]]]  # fmt: skip
    pair = prepare(soup(top), soup(low))
    got = touching_faces(pair, identity_poses(1), 0.0101)
    assert got.upper.tolist() == [[True, False]]
    assert got.lower.tolist() == [[True, True, False]]
    less = touching_faces(pair, identity_poses(1), 0.0099)
    assert not less.upper.any()
    assert not less.lower.any()


def test_flags_do_not_depend_on_threads_or_order():
    """Any threads, poses backwards, triangles shuffled: the same triangles."""
    upper, lower = cusps(3, -28.0, 20, towards=-1.0), cusps(4, -38.0, 20)
    pair = prepare(upper, lower)
    poses = jaw_poses(pair, 7, 5)
    one = touching_faces(pair, poses, 0.2)
    three, back = (
        touching_faces(pair, poses, 0.2, Workers(3)),
        touching_faces(pair, poses[::-1], 0.2),
    )
    order = permuted(lower.mesh.faces, 2)
    mixed = Arch(
        mesh_of(lower.mesh.vertices, lower.mesh.faces[order]), lower.tooth_of_face[order], ()
    )
    other = touching_faces(prepare(upper, mixed), poses, 0.2)
    for side in ("upper", "lower"):
        np.testing.assert_array_equal(getattr(three, side), getattr(one, side))
        np.testing.assert_array_equal(getattr(back, side)[::-1], getattr(one, side))
    np.testing.assert_array_equal(other.upper, one.upper)
    np.testing.assert_array_equal(other.lower, one.lower[:, order])
    assert one.upper.sum() > 100


def test_flags_agree_with_gaps_of_teeth_and_with_patches():
    """A tooth has a flagged triangle where its least gap is within, and just where a patch is."""
    upper, lower = FAMILIES["cusps"](9)
    pair = prepare(upper, lower)
    poses, tolerance = jaw_poses(pair, 6, 4), 0.05
    flags = touching_faces(pair, poses, tolerance).upper
    gaps = pair_gaps(pair, poses, 1.0, CODES, CODES).min(axis=2)
    marks = patches(pair, poses, tolerance)
    for i, code in enumerate(CODES):
        touches = flags[:, upper.tooth_of_face == code].any(axis=1)
        np.testing.assert_array_equal(touches, gaps[:, i] <= tolerance)
        marked = np.isin(np.arange(len(poses)), marks.pose[marks.tooth_upper == code])
        np.testing.assert_array_equal(touches, marked)


def test_a_lower_that_reaches_behind_the_axis_touches_too():
    """Where angles about the axis begin anew, nothing near is missed."""
    moved = [
        Arch(
            mesh_of(arch.mesh.vertices - np.array([62.0, 0.0, -31.0]), arch.mesh.faces),
            arch.tooth_of_face, (),
        )
        for arch in FAMILIES["waves"](5)
    ]  # fmt: skip
    pair = prepare(*moved)
    assert pair.lower.behind_axis
    poses = identity_poses(3)
    poses[:, 2, 3] = 2.5, 4.0, 5.0
    poses = poses @ opening_rotation(np.array([0.0, 0.1, -0.1]))
    got = touching_faces(pair, poses, 0.5)
    for n, pose in enumerate(poses):
        for flags, wanted in zip(
            (got.upper[n], got.lower[n]), touching(*moved, pose, 0.5), strict=True
        ):
            np.testing.assert_array_equal(flags, wanted)
    assert got.upper.sum() > 50


@pytest.mark.parametrize(
    ("poses", "tolerance", "message"),
    [
        (identity_poses(1), -0.01, "tolerance_mm = -0.01 mm: must be 0 to 1 mm"),
        (identity_poses(1), 1.5, "tolerance_mm = 1.5 mm"),
        (np.eye(4), 0.02, r"poses: wanted an array of shape \(any, 4, 4\), found \(4, 4\)"),
        (3.0 * identity_poses(1), 0.02, r"poses\[0\]: not a rigid motion"),
    ],
)
def test_what_cannot_be_flagged_is_refused(poses, tolerance, message):
    """The message says which argument, what was found and what is accepted."""
    with pytest.raises(InputError, match=message):
        touching_faces(prepare(*FAMILIES["waves"](5)), poses, tolerance)


def test_no_pose_gives_no_flags():
    """Empty rows of the right length."""
    upper, lower = FAMILIES["waves"](5)
    got = touching_faces(prepare(upper, lower), identity_poses(0), 0.02)
    assert got.upper.shape == (0, len(upper.mesh.faces))
    assert got.lower.shape == (0, len(lower.mesh.faces))
