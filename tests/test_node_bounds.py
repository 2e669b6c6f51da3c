"""Bounds of nodes hold for every point of their triangles, and one that does not is noticed."""

import dataclasses
import sys

import numba
import numpy as np
import pytest
from scipy.spatial.distance import cdist

from kinematics.contact.closure import MEETS, close
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.pair import prepare
from kinematics.geometry.kernels import distances, moved_nodes
from kinematics.geometry.kernels.lanes import WIDTH, store
from kinematics.geometry.kernels.placing import write_lanes
from kinematics.geometry.kernels.tree_arrays import (
    ANGLE,
    AXES,
    CENTRE,
    HALF,
    MIDDLE,
    NORMAL,
    OFFSET,
    OUTWARD,
    PLANE,
    R_LEAST,
    R_MOST,
    S_LEAST,
    S_MOST,
    SIDES,
    SLOPE_R,
    SLOPE_S,
    START,
    STOP,
)
from kinematics.geometry.poses import inverse, move_points, opening_rotation
from kinematics.geometry.trees import moved_tree, tree_over
from tests.closure_twin import Twin
from tests.made_sheets import FAMILIES, slightly_moved
from tests.slow_but_obvious import pairs_within

SLACK = 1e-9


def spread_weights():
    """Return weights (k, 3) of points all over a triangle: corners, sides, inside."""
    t = np.linspace(0.0, 1.0, 8)[:-1, None]
    corners = np.eye(3)
    sides = [(1 - t) * corners[k] + t * corners[(k + 1) % 3] for k in range(3)]
    inside = np.random.default_rng(0).dirichlet([1.0, 1.0, 1.0], 7)
    return np.concatenate([*sides, inside])


def contents(tree, nodes):
    """Return places in `nodes` and triangles: every triangle of every one of the nodes."""
    start, stop = tree.arrays.links[nodes, START], tree.arrays.links[nodes, STOP]
    place = np.repeat(np.arange(len(nodes)), stop - start)
    first = np.repeat(np.cumsum(stop - start) - (stop - start), stop - start)
    return place, start[place] + np.arange(len(place)) - first


def points_of(tree):
    """Return points (m, k, 3) all over every triangle."""
    corners = tree.arrays.vertices[tree.arrays.faces]
    return np.einsum("kc,mcj->mkj", spread_weights(), corners)


def about_the_axis(points):
    """Return s, r and angle of points (..., 3)."""
    return (
        points[..., 1],
        np.hypot(points[..., 0], points[..., 2]),
        np.arctan2(-points[..., 2], points[..., 0]),
    )


def sticks_out(points, place, box, angle_sign):
    """Return how far content lies outside the bounds about the axis, the worst of every node.

    points: (n, k, 3) of the triangle at each place. angle_sign: -1 for bounds of the lower, whose
    angles are least ones, +1 for those of the upper.
    """
    s, r, angle = about_the_axis(points)
    box = box[place][:, :, None]
    plane = box[:, PLANE] + box[:, SLOPE_S] * s + box[:, SLOPE_R] * r
    out = np.maximum.reduce(
        [
            box[:, S_LEAST] - s,
            s - box[:, S_MOST],
            box[:, R_LEAST] - r,
            r - box[:, R_MOST],
            angle_sign * (angle - box[:, ANGLE]),
            angle_sign * (angle - plane),
        ]
    ).max(axis=1)
    worst = np.full(place.max() + 1, -np.inf)
    np.maximum.at(worst, place, out)
    return worst


def lower_sticks_out(tree, nodes):
    """Return how far the content of lower nodes lies outside their bounds."""
    place, triangle = contents(tree, nodes)
    return sticks_out(points_of(tree)[triangle], place, tree.arrays.around[nodes], -1)


def moved_bounds(tree, nodes, poses):
    """Return the bounds (nodes, 8 poses, 8 columns) of upper nodes moved by eight poses."""
    lanes = np.ascontiguousarray(inverse(poses)[:, :3].reshape(WIDTH, 12).T)
    rows = np.empty((len(nodes), moved_nodes.MOVED), dtype=np.float32)
    work = np.empty((2, WIDTH))
    for row, node in enumerate(nodes):
        moved_nodes.move_node(lanes, tree.arrays, node, row, rows, work)
    return np.moveaxis(rows.reshape(len(nodes), 8, WIDTH), 2, 1)


def upper_sticks_out(tree, nodes, poses):
    """Return how far the content of upper nodes lies outside their bounds under eight poses."""
    place, triangle = contents(tree, nodes)
    bounds, points = moved_bounds(tree, nodes, poses), points_of(tree)
    worst = np.full(len(nodes), -np.inf)
    for lane, back in enumerate(inverse(poses)):
        moved = move_points(back, points.reshape(-1, 3)).reshape(points.shape)
        out = sticks_out(moved[triangle], place, bounds[:, lane], 1)
        worst = np.maximum(worst, out)
    return worst


def boxes_stick_out(tree, nodes):
    """Return how far content lies outside the oriented boxes, along their own directions."""
    place, triangle = contents(tree, nodes)
    slab = tree.arrays.slab[nodes].astype(np.float64)
    axes = slab[:, AXES:].reshape(-1, 3, 3)
    # The box is all sums of parts of its directions, even if these are not quite square.
    parts = np.linalg.inv(axes)[place]
    apart = points_of(tree)[triangle] - slab[place, None, MIDDLE:SIDES]
    out = np.abs(np.einsum("nkj,nja->nka", apart, parts)) - slab[place, None, SIDES:AXES]
    return out.max()


def turning_boxes_stick_out(tree, nodes):
    """Return how far content lies outside the boxes that turn with the upper, and its planes."""
    place, triangle = contents(tree, nodes)
    turning = tree.arrays.turning[nodes].astype(np.float64)
    outward = turning[:, OUTWARD : OUTWARD + 2]
    axes = np.zeros((len(nodes), 3, 3))
    axes[:, 0, 1] = 1.0
    axes[:, 1, 0], axes[:, 1, 2] = outward[:, 0], outward[:, 1]
    axes[:, 2, 0], axes[:, 2, 2] = outward[:, 1], -outward[:, 0]
    apart = points_of(tree)[triangle] - turning[place, None, CENTRE:HALF]
    along = np.abs(np.einsum("nkj,naj->nka", apart, axes[place]))
    out = along - turning[place, None, HALF:OUTWARD]
    reach = np.einsum("nkj,nj->nk", apart, turning[place, NORMAL:OFFSET])
    return max(out.max(), (reach - turning[place, OFFSET][:, None]).max())


def all_nodes(tree):
    """Return the numbers of all nodes."""
    return np.arange(len(tree.arrays.links))


@pytest.mark.parametrize("family", FAMILIES)
def test_bounds_of_all_nodes_hold_their_content(family):
    """Cylindrical bounds, oriented boxes and planes hold points all over every triangle.

    The upper's under 24 poses, up to far ones.
    """
    for seed in (0, 30):
        upper, lower = FAMILIES[family](seed)
        up = tree_over(upper.mesh, upper.tooth_of_face, -1.0, False)
        lo = tree_over(lower.mesh, lower.tooth_of_face, 1.0, True)
        assert (lower_sticks_out(lo, all_nodes(lo)) <= SLACK).all()
        for turn, way in ((0.05, 1.0), (0.3, 5.0), (3.0, 60.0)):
            poses = slightly_moved(WIDTH, seed, turn, way)
            assert (upper_sticks_out(up, all_nodes(up), poses) <= SLACK).all()
        assert turning_boxes_stick_out(up, all_nodes(up)) <= SLACK
        for tree in (up, lo):
            assert boxes_stick_out(tree, all_nodes(tree)) <= SLACK


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize(("turn", "way"), [(0.002, 0.3), (0.05, 1.0), (0.3, 5.0), (3.0, 60.0)])
def test_bounds_of_a_moved_tree_hold_its_content(family, turn, way):
    """After small motions and after large ones, some of which bring it about the axis."""
    _, lower = FAMILIES[family](30)
    tree = tree_over(lower.mesh, lower.tooth_of_face, 1.0, True)
    for move in slightly_moved(3, 31, turn, way):
        moved = moved_tree(tree, move)
        assert (lower_sticks_out(moved, all_nodes(moved)) <= SLACK).all()
        assert boxes_stick_out(moved, all_nodes(moved)) <= SLACK
        planes, before = moved.arrays.around[:, PLANE], tree.arrays.around[:, PLANE]
        if way < 0.5 and np.isfinite(before).any():
            # Little is lost of them, or bounds of nothing would do.
            told = np.isfinite(planes) & np.isfinite(before)
            assert np.median(np.abs(planes - before)[told]) < 0.05


@numba.njit
def write_apart(lanes, up, lo, a, b, least):
    """Write how far the boxes of two nodes stand apart under eight poses."""
    box = distances.moved_box(lanes, up, a)
    way = distances.between(box, lo, b)
    store(least, 0, 0, distances.boxes_apart(box, way, up, lo, a, b))


def test_boxes_never_claim_more_distance_than_there_is():
    """Of node pairs of any size under any pose, boxes stand no farther apart than their content."""
    upper, lower = FAMILIES["cusps"](0)
    up = tree_over(upper.mesh, upper.tooth_of_face, -1.0, False)
    lo = tree_over(lower.mesh, lower.tooth_of_face, 1.0, True)
    rng, apart_at_all = np.random.default_rng(2), 0
    points_u, points_l = points_of(up), points_of(lo)
    poses, least = slightly_moved(4 * WIDTH, 8, 0.5, 10.0), np.empty((1, WIDTH), np.float32)
    lanes = np.empty((12, WIDTH))
    for n, pose in enumerate(poses):
        back, lane = inverse(pose), n % WIDTH
        write_lanes(poses, n - lane, WIDTH, lanes)
        for a, b in rng.integers(0, [len(up.arrays.links), len(lo.arrays.links)], (20, 2)):
            write_apart(lanes, up.arrays, lo.arrays, a, b, least)
            of_a = points_u[up.arrays.links[a, START] : up.arrays.links[a, STOP]].reshape(-1, 3)
            of_b = points_l[lo.arrays.links[b, START] : lo.arrays.links[b, STOP]].reshape(-1, 3)
            nearest = cdist(move_points(back, of_a), of_b).min()
            assert least[0, lane] <= nearest + SLACK
            apart_at_all += least[0, lane] > 0.0
    assert apart_at_all > 300


#: Bounds that may be falsified, and by which sign content then sticks out.
LOWER_FAULTS = {S_LEAST: 1, S_MOST: -1, R_LEAST: 1, R_MOST: -1, ANGLE: 1, PLANE: 1}
UPPER_FAULTS = {HALF: -1, HALF + 1: -1, HALF + 2: -1, OFFSET: -1} | {
    CENTRE + k: sign for k, sign in enumerate((1, 1, -1))
}
BOX_FAULTS = {SIDES: -1, SIDES + 1: -1, SIDES + 2: -1}


def with_fault(tree, name, node, column, amount):
    """Return the tree with one falsified bound."""
    rows = getattr(tree.arrays, name).copy()
    rows[node, column] += amount
    rows.setflags(write=False)
    return dataclasses.replace(tree, arrays=tree.arrays._replace(**{name: rows}))


def on_the_way(tree, triangle, rng):
    """Return one of the nodes that hold a triangle of the tree."""
    links = tree.arrays.links
    return rng.choice(np.flatnonzero((links[:, START] <= triangle) & (triangle < links[:, STOP])))


def first_wrong_answer(pair, side, name, node, fault, answer, wanted, noticed):
    """Falsify a bound more and more until the answer is wrong; tell whether it ever was.

    Demands that whatever makes the answer wrong is noticed by the check of bounds.
    """
    column, sign = fault
    for amount in sign * 1e-5 * 4.0 ** np.arange(14):
        faulty = with_fault(getattr(pair, side), name, node, column, amount)
        if not abs(answer(dataclasses.replace(pair, **{side: faulty})) - wanted) < 1e-9:
            assert noticed(faulty, np.array([node])) > SLACK
            return True
    return False


def any_of(faults, rng, count):
    """Return some of the faults, drawn at random."""
    return [list(faults.items())[k] for k in rng.choice(len(faults), count, replace=False)]


def test_a_falsified_bound_is_noticed_and_changes_the_closure():
    """Content left outside a bound fails the check of bounds and the comparison with the twin.

    Nodes on the way to a contact, each with one bound drawn at random and falsified until the
    closure is no longer that of the twin. Some bounds never decide; the others must be noticed.
    """
    rng, wrong = np.random.default_rng(4), []
    for family in ("waves", "cusps", "bodies"):
        upper, lower = FAMILIES[family](70)
        pair, twin = prepare(upper, lower), Twin(upper.mesh, lower.mesh)
        for pose in slightly_moved(6, 12):
            got = close(pair, pose[None])
            if got.status[0] != MEETS:
                continue
            wanted = twin.first_contact(pose).opening_rad
            assert got.opening_rad[0] == pytest.approx(wanted, abs=1e-12)

            def answer(faulty, pose=pose):
                return close(faulty, pose[None]).opening_rad[0]

            def upper_noticed(tree, nodes, pose=pose):
                return upper_sticks_out(tree, nodes, np.repeat(pose[None], WIDTH, axis=0))[0]

            for side, name, faults, noticed in (
                ("lower", "around", LOWER_FAULTS, lambda tree, n: lower_sticks_out(tree, n)[0]),
                ("upper", "turning", UPPER_FAULTS, upper_noticed),
            ):
                tree, face = getattr(pair, side), getattr(got, f"face_{side}")[0]
                triangle = np.flatnonzero(tree.face_of == face)[0]
                for fault in any_of(faults, rng, 3):
                    node = on_the_way(tree, triangle, rng)
                    wrong.append(
                        first_wrong_answer(pair, side, name, node, fault, answer, wanted, noticed)
                    )
    sys.stdout.write(f"{sum(wrong)} of {len(wrong)} falsified bounds changed the closure\n")
    assert sum(wrong) >= 50


def test_a_falsified_box_is_noticed_and_changes_the_gap():
    """Content left outside an oriented box fails the check of boxes and an enumeration."""
    rng, wrong = np.random.default_rng(5), []
    upper, lower = FAMILIES["cusps"](70)
    pair = prepare(upper, lower)
    poses = slightly_moved(6, 13)
    poses = poses @ opening_rotation(close(pair, poses).opening_rad + 0.01)
    for pose in poses:
        below = move_points(pose, lower.mesh.vertices)[lower.mesh.faces]
        i, j, gap = pairs_within(upper.mesh.corners, below, 2.0)
        nearest = gap.argmin()
        faces = {"upper": i[nearest], "lower": j[nearest]}
        codes = [
            (int(arch.tooth_of_face[face]),)
            for arch, face in zip((upper, lower), faces.values(), strict=True)
        ]

        def answer(faulty, pose=pose, codes=codes):
            return pair_gaps(faulty, pose[None], 3.0, *codes)[0, 0, 0]

        assert answer(pair) == pytest.approx(gap[nearest], abs=1e-9)
        for side, face in faces.items():
            tree = getattr(pair, side)
            for fault in any_of(BOX_FAULTS, rng, 2):
                node = on_the_way(tree, np.flatnonzero(tree.face_of == face)[0], rng)
                wrong.append(
                    first_wrong_answer(
                        pair, side, "slab", node, fault, answer, gap[nearest], boxes_stick_out
                    )
                )  # fmt: skip
    sys.stdout.write(f"{sum(wrong)} of {len(wrong)} falsified boxes changed the gap\n")
    assert sum(wrong) >= 10
