"""First contact and gaps against python-fcl, a general-purpose collision library."""

import sys
from importlib.util import find_spec

import numpy as np
import pytest

from kinematics.contact.closure import MEETS, close
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.pair import prepare
from kinematics.geometry.poses import opening_rotation
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from tests.machine import need
from tests.made_sheets import cusps, slightly_moved

#: Just before and just after first contact, mm along the arc: a millionth of a micrometre.
JUST_MM = 1e-9


@pytest.fixture(scope="module")
def fcl():
    """Return the library."""
    need(find_spec("fcl") is not None, "python-fcl (pip install -e '.[test]')")
    import fcl

    return fcl


def collision_object(fcl, corners):
    """Return triangles (m, 3, 3) as the library wants them."""
    model = fcl.BVHModel()
    model.beginModel(3 * len(corners), len(corners))
    model.addSubModel(corners.reshape(-1, 3).copy(), np.arange(3 * len(corners)).reshape(-1, 3))
    model.endModel()
    return fcl.CollisionObject(model, fcl.Transform())


def hits(fcl, upper, lower, poses):
    """Tell at which poses (n, 4, 4) of the lower both meshes intersect."""
    found = np.zeros(len(poses), dtype=bool)
    for n, pose in enumerate(poses):
        lower.setTransform(fcl.Transform(pose[:3, :3], pose[:3, 3]))
        found[n] = fcl.collide(upper, lower, fcl.CollisionRequest(), fcl.CollisionResult()) > 0
    return found


def teeth(triangles):
    """Return the built-in arches."""
    built = build(DentitionSettings(triangles_per_arch=triangles))
    return built.upper, built.lower


def sheets(triangles):
    """Return two sheets of bumps."""
    n = round(np.sqrt(triangles / 2)) + 1
    return cusps(1, -28.0, n, towards=-1.0), cusps(2, -38.0, n)


def check_first_hits(fcl, arches, poses, name):
    """Demand nothing at any opening beyond the closure, and a hit right below it."""
    got = close(prepare(*arches), poses)
    assert (got.status == MEETS).all()
    models = [collision_object(fcl, arch.mesh.corners) for arch in arches]
    just = JUST_MM / got.radius_mm

    def at(opening):
        return hits(fcl, *models, poses @ opening_rotation(opening))

    assert not at(got.opening_rad + just).any()
    assert at(got.opening_rad - just).all()
    rng = np.random.default_rng(3)
    for farther_rad in (1e-6, 1e-3, 0.5):
        assert not at(got.opening_rad + just + rng.uniform(0.0, farther_rad, len(poses))).any()
    sys.stdout.write(
        f"{name}: {len(poses)} poses, {len(arches[0].mesh.faces)} and "
        f"{len(arches[1].mesh.faces)} triangles\n"
    )


@pytest.mark.parametrize("triangles", [10_000, 50_000])
@pytest.mark.parametrize("kind", [teeth, sheets])
def test_the_library_sees_the_first_hit_where_closure_says(fcl, kind, triangles):
    """Opened a millionth of a micrometre farther, nothing hits; as much less, something does.

    500 poses each: the built-in teeth and sheets of bumps, moved and turned at random.
    """
    poses = np.concatenate([slightly_moved(300, 5), slightly_moved(200, 6, 0.2, 4.0)])
    check_first_hits(fcl, kind(triangles), poses, kind.__name__)


@pytest.mark.wide
@pytest.mark.parametrize(
    ("kind", "triangles"),
    [
        *((teeth, count) for count in (10_000, 50_000, 200_000, 400_000)),
        *((sheets, count) for count in (10_000, 50_000, 200_000, 1_000_000)),
    ],
)
def test_wide_campaign_of_first_hits(fcl, kind, triangles):
    """Ten thousand poses of every size, up to a million triangles."""
    poses = np.concatenate([slightly_moved(6000, 15), slightly_moved(4000, 16, 0.2, 4.0)])
    check_first_hits(fcl, kind(triangles), poses, kind.__name__)


def test_the_library_measures_the_same_gaps(fcl):
    """Shortest distances of all tooth pairs of the built-in teeth, opened by up to 2 degrees.

    The library tells distances to a picometre at best; where teeth intersect it gives no length.
    """
    upper, lower = teeth(10_000)
    pair, poses = prepare(upper, lower), slightly_moved(6, 7, 0.02, 0.5)
    opened = np.linspace(0.0, np.radians(2.0), len(poses))
    poses = poses @ opening_rotation(close(pair, poses).opening_rad + opened)
    limit = 4.0
    gaps = pair_gaps(pair, poses, limit, upper.codes, lower.codes)
    models = [
        [collision_object(fcl, arch.mesh.corners[arch.tooth_of_face == c]) for c in arch.codes]
        for arch in (upper, lower)
    ]
    compared = 0
    for n, i, j in np.ndindex(gaps.shape):
        moving = models[1][j]
        moving.setTransform(fcl.Transform(poses[n, :3, :3], poses[n, :3, 3]))
        wanted = fcl.distance(models[0][i], moving, fcl.DistanceRequest(), fcl.DistanceResult())
        if wanted > limit:
            assert gaps[n, i, j] == np.inf
        else:
            assert gaps[n, i, j] == pytest.approx(wanted, abs=1e-9)
            compared += 1
    assert compared > 100
