"""Gap maps against brute force and closed forms, and what must hold in any pose."""

import numpy as np
import pytest

from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.contact.closure import MEETS, close
from kinematics.contact.gap_maps import arc_map, distance_map, gap_map
from kinematics.contact.pair import prepare
from kinematics.contact.workers import Workers
from kinematics.geometry.kernels.features import (
    EDGE_ON_EDGE,
    VERTEX_ON_LOWER,
    VERTEX_ON_UPPER,
)
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses, move_points, opening_rotation
from tests import vertex_twins
from tests.fresh_python import run_python
from tests.made_sheets import FAMILIES, grid, patchwork, slightly_moved, soup
from tests.slow_but_obvious import permuted

FAR_MM = 1000.0


@pytest.fixture(scope="module")
def arches():
    """Return two sheets of bumps."""
    return FAMILIES["cusps"](5)


@pytest.fixture(scope="module")
def pair(arches):
    """Return the same, prepared."""
    return prepare(*arches)


@pytest.fixture(scope="module")
def poses(pair):
    """Return closed, opened and overlapping poses."""
    return vertex_twins.jaw_poses(pair, 3, 1)


def gaps_of(found):
    """Return the four arrays of a map."""
    return (
        found.distance.upper_mm, found.distance.lower_mm,
        found.arc_gap.upper_mm, found.arc_gap.lower_mm,
    )  # fmt: skip


@pytest.mark.parametrize("family", FAMILIES)
def test_maps_equal_brute_force(family):
    """Both measures of every vertex, closed, opened and overlapping, to the picometre."""
    upper, lower = FAMILIES[family](8)
    pair = prepare(upper, lower)
    poses = vertex_twins.jaw_poses(pair, 2, 3)
    found = gap_map(pair, poses, FAR_MM)
    deepest = 0.0
    for n, pose in enumerate(poses):
        wanted = (
            *vertex_twins.distances(upper, lower, pose), *vertex_twins.arc_gaps(upper, lower, pose),
        )  # fmt: skip
        for got, right in zip(gaps_of(found), wanted, strict=True):
            np.testing.assert_allclose(got[n], right, rtol=0, atol=1e-9)
        deepest = min(deepest, *(gaps.min() for gaps in wanted[2:]))
    assert deepest < -0.5  # overlapping poses do overlap


@pytest.mark.parametrize("kind", ["sheets", "scattered"])
def test_maps_of_many_triangles_equal_brute_force_at_some_vertices(kind):
    """Where nodes are parted many times before vertices are looked at: a sample of each arch."""
    if kind == "sheets":
        upper, lower = patchwork(5, 60, -30.0, 1.0), patchwork(5, 60, -33.0, 0.9)
        pair = prepare(upper, lower)
        poses = vertex_twins.jaw_poses(pair, 1, 3)
    else:
        upper, lower = (
            vertex_twins.scattered(1, -30.0, 4000),
            vertex_twins.scattered(2, -31.0, 4000),
        )
        pair, poses = prepare(upper, lower), slightly_moved(3, 3)
    rng = np.random.default_rng(2)
    near, far = (gaps_of(gap_map(pair, poses, limit)) for limit in (1.0, 4.0))
    for n, pose in enumerate(poses):
        within = [np.flatnonzero(gaps[n] < 3.0) for gaps in far[:2]]
        assert min(map(len, within)) > 50
        some = [np.append(rng.choice(v, 35), rng.integers(0, 3600, 15)) for v in within]
        wanted = (
            *vertex_twins.distances(upper, lower, pose, some),
            *vertex_twins.arc_gaps(upper, lower, pose, some),
        )
        for limit, found in ((1.0, near), (4.0, far)):
            for gaps, right, v in zip(found, wanted, some * 2, strict=True):
                right = vertex_twins.within(right, limit)
                np.testing.assert_allclose(gaps[n, v], right, rtol=0, atol=1e-9)


def plates(rise):
    """Return a small plate so far over a larger one, in the plane z = -30."""
    x, y = np.meshgrid(np.linspace(55.0, 65.0, 6), np.linspace(-5.0, 5.0, 5), indexing="ij")
    wide_x, wide_y = 60.0 + 2.0 * (x - 60.0), 2.0 * y
    return grid(x, y, np.full(x.shape, -30.0 + rise)), grid(wide_x, wide_y, np.full(x.shape, -30.0))


@pytest.mark.parametrize("rise", [0.25, 0.0, -0.25])
def test_a_plate_over_a_plate_has_its_known_gaps(rise):
    """Distance is the height between them; a level is reached where r sin(angle) is its depth."""
    upper, lower = plates(rise)
    found = gap_map(prepare(upper, lower), np.eye(4), 1.0)
    np.testing.assert_allclose(found.distance.upper_mm, abs(rise), rtol=0, atol=1e-13)
    r = np.hypot(upper.mesh.vertices[:, 0], 30.0 - rise)
    arc = r * (np.arcsin(30.0 / r) - np.arcsin((30.0 - rise) / r))
    np.testing.assert_allclose(found.arc_gap.upper_mm, arc, rtol=0, atol=1e-12)
    assert (np.sign(found.arc_gap.upper_mm.round(12)) == np.sign(rise)).all()
    # Under the plate, a lower vertex has to rise to its level along its own circle.
    x, y = lower.mesh.vertices[:, 0], lower.mesh.vertices[:, 1]
    under = (abs(x - 60.0) < 4.5) & (abs(y) <= 5.0)
    r = np.hypot(x[under], 30.0)
    arc = r * (np.arcsin(30.0 / r) - np.arcsin((30.0 - rise) / r))
    np.testing.assert_allclose(found.arc_gap.lower_mm[under], arc, rtol=0, atol=1e-12)
    np.testing.assert_allclose(found.distance.lower_mm[under], abs(rise), rtol=0, atol=1e-13)
    assert np.isinf(found.arc_gap.lower_mm[abs(y) > 6.0]).all()
    assert under.sum() >= 6


def closed_contacts():
    """Yield contacts of many closed pairs: what touches, and the maps there."""
    for seed in range(6):
        for family in FAMILIES.values():
            upper, lower = family(seed)
            pair, poses = prepare(upper, lower), slightly_moved(4, seed)
            poses = poses[close(pair, poses).status == MEETS]
            touch = close(pair, poses)
            closed = poses @ opening_rotation(touch.opening_rad)
            found = gap_map(pair, closed, 2.0)
            for n, pose in enumerate(closed):
                yield upper, lower, pose, touch, found, n


def test_what_touches_has_no_gap_and_nothing_overlaps_at_closure():
    """A vertex that is the contact has gap 0 in both measures; no arc gap is less.

    Where edges touch no vertex need, but some come near; no vertex lies past the other arch.
    """
    kinds = {VERTEX_ON_UPPER: 0, VERTEX_ON_LOWER: 0, EDGE_ON_EDGE: 0}
    for upper, lower, pose, touch, found, n in closed_contacts():
        least = min(found.arc_gap.upper_mm[n].min(), found.arc_gap.lower_mm[n].min())
        assert least > -1e-9
        kind = int(touch.kind[n])
        kinds[kind] += 1
        if kind == EDGE_ON_EDGE:
            continue
        if kind == VERTEX_ON_UPPER:
            corners, name = lower.mesh.faces[touch.face_lower[n]], "lower_mm"
            places = move_points(pose, lower.mesh.vertices[corners])
        else:
            corners, name = upper.mesh.faces[touch.face_upper[n]], "upper_mm"
            places = upper.mesh.vertices[corners]
        vertex = corners[np.linalg.norm(places - touch.point[n], axis=1).argmin()]
        assert abs(least) < 1e-9
        assert abs(getattr(found.arc_gap, name)[n, vertex]) < 1e-9
        assert getattr(found.distance, name)[n, vertex] < 1e-9
    assert min(kinds.values()) > 10


def test_opening_lengthens_arc_gaps_by_radius_times_angle(pair, poses):
    """Arcs are what the jaw closes along: opened further, each is longer by its own share."""
    angle = 0.004
    before = arc_map(pair, poses[:3], FAR_MM)
    after = arc_map(pair, poses[:3] @ opening_rotation(angle), FAR_MM)
    places = np.linalg.inv(poses[:3]) @ np.vstack([pair.upper.arrays.vertices.T, np.ones(169)])
    radius = np.hypot(places[:, 0], places[:, 2])[:, pair.upper.vertex_of]
    np.testing.assert_allclose(after.upper_mm, before.upper_mm + angle * radius, rtol=0, atol=1e-9)
    lower = pair.lower.arrays.vertices[pair.lower.vertex_of]
    radius = np.hypot(lower[:, 0], lower[:, 2])
    np.testing.assert_allclose(after.lower_mm, before.lower_mm + angle * radius, rtol=0, atol=1e-9)
    assert np.isfinite(before.lower_mm).sum() > 300


def test_limits_only_leave_out(pair, poses):
    """Within a limit gaps are the same bits; a gap just at the limit is within."""
    every = gaps_of(gap_map(pair, poses, FAR_MM))
    exactly = [float(np.median(every[0][0])), float(np.median(every[3][6]))]
    assert np.isfinite(exactly).all() and min(exactly) > 0
    for limit in (1e-6, 0.05, 0.7, 3.0, *exactly):
        for got, all_of_them in zip(gaps_of(gap_map(pair, poses, limit)), every, strict=True):
            np.testing.assert_array_equal(got, vertex_twins.within(all_of_them, limit))
    at = float(every[0][0].min())
    assert distance_map(pair, poses[0], at).upper_mm.min() == at
    below = distance_map(pair, poses[0], float(np.nextafter(at, 0.0)))
    assert np.isinf(below.upper_mm).all()


def test_one_pose_is_one_row_of_many(pair, poses):
    """A pose alone gives flat arrays of the same bits; each measure alone, those of both."""
    every = gap_map(pair, poses, 3.0)
    for n, pose in enumerate(poses):
        for got, many in zip(gaps_of(gap_map(pair, pose, 3.0)), gaps_of(every), strict=True):
            np.testing.assert_array_equal(got, many[n])
    np.testing.assert_array_equal(distance_map(pair, poses, 3.0).lower_mm, every.distance.lower_mm)
    np.testing.assert_array_equal(arc_map(pair, poses, 3.0).upper_mm, every.arc_gap.upper_mm)


def test_maps_do_not_depend_on_threads_or_order_of_triangles(arches, pair, poses):
    """The same bits for any threads, any order of poses, and triangles and vertices shuffled."""
    one = gaps_of(gap_map(pair, poses, 1.5))
    for other in (gap_map(pair, poses, 1.5, Workers(3)), gap_map(pair, poses, 1.5, Workers(8))):
        for got, wanted in zip(gaps_of(other), one, strict=True):
            np.testing.assert_array_equal(got, wanted)
    for got, wanted in zip(gaps_of(gap_map(pair, poses[::-1], 1.5)), one, strict=True):
        np.testing.assert_array_equal(got[::-1], wanted)
    shuffled, places = [], []
    for seed, arch in enumerate(arches):
        faces, place = permuted(arch.mesh.faces, seed), permuted(arch.mesh.vertices, seed + 9)
        vertices = np.empty_like(arch.mesh.vertices)
        vertices[place] = arch.mesh.vertices
        mesh = mesh_of(vertices, np.roll(place[arch.mesh.faces[faces]], seed + 1, axis=1))
        shuffled.append(Arch(mesh, arch.tooth_of_face[faces], ()))
        places.append(place)
    other = gaps_of(gap_map(prepare(*shuffled), poses, 1.5))
    for got, wanted, place in zip(other, one, places * 2, strict=True):
        np.testing.assert_array_equal(got[:, place], wanted)


def test_copies_of_a_vertex_agree_and_those_without_triangles_have_no_gap(arches, pair, poses):
    """Loose triangles have the gaps of the sheet they come from; unused vertices are inf."""
    upper, lower = arches
    loose = soup(lower.mesh.corners, lower.tooth_of_face)
    spare = Arch(
        mesh_of(np.vstack([upper.mesh.vertices, upper.mesh.vertices[:3] + 0.01]), upper.mesh.faces),
        upper.tooth_of_face, (),
    )  # fmt: skip
    wanted, got = gap_map(pair, poses, 3.0), gap_map(prepare(spare, loose), poses, 3.0)
    for measure in ("distance", "arc_gap"):
        of_sheet, of_loose = getattr(wanted, measure), getattr(got, measure)
        np.testing.assert_array_equal(
            of_loose.lower_mm, of_sheet.lower_mm[:, lower.mesh.faces.ravel()]
        )
        np.testing.assert_array_equal(of_loose.upper_mm[:, :-3], of_sheet.upper_mm)
        assert (of_loose.upper_mm[:, -3:] == np.inf).all()


def test_triangles_without_area_count_as_the_sides_they_are():
    """A needle, a side and a point for triangles: distances are those to segment and point."""
    flat = np.array([
        [[50, 0, -30], [60, 0, -30], [55, 1e-7, -30]],
        [[50, 5, -30], [60, 5, -30], [52, 5, -30]],
        [[55, 9, -30], [55, 9, -30], [55, 9, -30.0]],
    ])  # fmt: skip
    upper = soup(np.array([[[55, 0, -29], [55, 5, -28.5], [55, 9, -27.0]]]))
    got = distance_map(prepare(upper, soup(flat)), np.eye(4), 5.0)
    np.testing.assert_allclose(got.upper_mm, [1.0, 1.5, 3.0], rtol=0, atol=1e-12)


def test_single_triangles_and_empty_batches():
    """The least there is: one triangle over one, and no pose at all."""
    low = np.array([[50.0, -4.0, -30.0], [60.0, -4.0, -30.0], [55.0, 6.0, -30.0]])
    pair = prepare(soup((low + np.array([0.0, 0.0, 0.5]))[None]), soup(low[None], [41]))
    found = gap_map(pair, np.eye(4), 1.0)
    np.testing.assert_allclose(found.distance.upper_mm, 0.5, rtol=0, atol=1e-13)
    np.testing.assert_allclose(found.distance.lower_mm, 0.5, rtol=0, atol=1e-13)
    none = gap_map(pair, identity_poses(0), 1.0)
    assert all(gaps.shape == (0, 3) for gaps in gaps_of(none))


@pytest.mark.parametrize("measure", [distance_map, arc_map, gap_map])
@pytest.mark.parametrize(
    ("poses", "limit", "message"),
    [
        (np.eye(4), 0.0, "limit_mm = 0 mm: must be 1e-06 to 1000 mm"),
        (np.eye(4), np.nan, "limit_mm = nan mm"),
        (np.eye(4), 1001.0, "limit_mm = 1001 mm"),
        (np.eye(3), 1.0, r"poses: wanted an array of shape \(4, 4\), found \(3, 3\)"),
        (np.zeros((2, 3, 4)), 1.0, r"poses: wanted an array of shape \(any, 4, 4\), found"),
        (2.0 * identity_poses(2), 1.0, r"poses\[0\]: not a rigid motion"),
        (np.full((4, 4), np.nan), 1.0, r"poses: entry \(0, 0\) is nan"),
    ],
)
def test_what_cannot_be_measured_is_refused(pair, measure, poses, limit, message):
    """The message says which argument, what was found and what is accepted."""
    with pytest.raises(InputError, match=message):
        measure(pair, poses, limit)


SCRIPT = """
import numba, numpy as np
from kinematics.contact.envelope import envelopes
from kinematics.contact.gap_maps import gap_map
from kinematics.contact.pair import prepare
from kinematics.contact.touching_faces import touching_faces
from kinematics.geometry import layouts
from kinematics.geometry.kernels import face_touches, vertex_arcs, vertex_gaps
from tests.made_sheets import cusps, slightly_moved
from tests.vertex_twins import jaw_poses, scattered

if numba.config.DISABLE_JIT:
    # From the root down to single vertices: every bound is used, and none is much too large.
    layouts.PARTS = vertex_gaps.GROUP = vertex_arcs.GROUP = 1
    vertex_gaps.LARGER, face_touches.SMALL = 0.0, 1e9
sheets = prepare(cusps(1, -28.0, 6, towards=-1.0), cusps(2, -38.0, 7))
loose = prepare(scattered(1, -30.0, 80), scattered(2, -31.0, 80))
for pair, poses in ((sheets, jaw_poses(sheets, 1, 2)), (loose, slightly_moved(2, 3))):
    found, least = gap_map(pair, poses, 4.0), envelopes(pair, np.repeat(poses, 5, axis=0), 4.0)
    for part in (found.distance, found.arc_gap):
        print(repr(part.upper_mm.tolist()), repr(part.lower_mm.tolist()))
    for part in vars(least).values():
        print(repr(part.least_mm.tolist()), part.pose.tolist())
    for tolerance in (0.05, 0.9):
        flags = touching_faces(pair, poses, tolerance)
        print(flags.upper.sum(axis=1), flags.lower.sum(axis=1), flags.upper.tobytes())
print("plain" if numba.config.DISABLE_JIT else "compiled")
"""


def test_plain_python_gives_the_same_bits_however_finely_it_parts():
    """Maps, envelopes and flags to the last digit; numpy refuses indices beyond the end."""
    compiled, plain = (
        run_python("-c", SCRIPT, timeout_s=600.0, NUMBA_DISABLE_JIT=off) for off in "01"
    )
    assert compiled.returncode == plain.returncode == 0, compiled.stderr + plain.stderr
    *first, how = compiled.stdout.splitlines()
    *second, other = plain.stdout.splitlines()
    assert (how, other) == ("compiled", "plain")
    assert first == second
    assert len(first) == 16
    assert all(gaps.count("inf") < gaps.count(",") for gaps in first[:2])
