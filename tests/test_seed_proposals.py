"""Seeds that the shape of a cast offers, for a person to confirm, on scans with fused gums."""

import numpy as np
import pytest
from scipy.spatial import cKDTree

from kinematics.checks import InputError
from kinematics.geometry.meshes import Mesh, mesh_of, part_of
from kinematics.geometry.poses import move_points
from kinematics.scans.seed_proposals import proposed_seeds
from tests.scanner_like import any_place
from tests.seeded_casts import UP, fused_cast, tried

#: Of the proposed seeds of full arches, and of all teeth, as asked.
NAMED_RIGHT = 0.9
#: Of arches with gaps; numbers are a guess there. Chosen for this program: what is reached.
NAMED_RIGHT_WITH_GAPS = 0.4
VOXEL_MM = 0.5
FULL = ("plain", "worn", "thirds", "crowded 1")


def proposed(cast, seed=None):
    """Return proposals for a cast in some place, and the tooth that each seed really lies on."""
    place = np.eye(4) if seed is None else any_place(seed)
    faces = cast.scan.mesh.faces[:, ::-1] if seed else cast.scan.mesh.faces
    mesh = Mesh(move_points(place, cast.scan.mesh.vertices), faces)
    found = proposed_seeds(mesh, cast.side == "upper")
    nearest = cKDTree(mesh.corners.mean(axis=1)).query([one.point for one in found.seeds])[1]
    return found, cast.scan.tooth_of_face[nearest].tolist()


@pytest.mark.parametrize("side", UP)
@pytest.mark.parametrize("kind", FULL)
def test_seeds_of_full_arches_lie_on_the_teeth_they_name(kind, side):
    """In any place, wound either way; nothing is said to be missing."""
    cast = fused_cast(kind, side, VOXEL_MM)
    for seed in (None, 5):
        found, really = proposed(cast, seed)
        named = [one.tooth for one in found.seeds]
        right = sum(one == other for one, other in zip(named, really, strict=True))
        assert right >= NAMED_RIGHT * max(len(named), len(cast.codes))
        assert found.gaps == ()


@pytest.mark.parametrize("side", UP)
def test_seeds_of_arches_with_gaps_lie_on_one_tooth_each(side):
    """Every tooth has one seed; gaps are told, and that numbers behind them are doubtful."""
    cast = fused_cast("gaps", side, VOXEL_MM)
    found, really = proposed(cast)
    assert sorted(really) == cast.codes
    named = [one.tooth for one in found.seeds]
    right = sum(one == other for one, other in zip(named, really, strict=True))
    assert right >= NAMED_RIGHT_WITH_GAPS * len(cast.codes)
    for gap, width_mm in found.gaps:
        behind = [one for one in found.seeds if one.tooth // 10 == gap // 10 and one.tooth > gap]
        assert all(any(str(gap) in doubt for doubt in one.doubts) for one in behind)
        assert 0.0 <= width_mm < 16.0
    assert len(found.gaps) >= 2
    lines = list(found.told())
    assert "teeth seem to stand here" in lines[0]
    assert sum("seems to be missing" in line for line in lines) == len(found.gaps)


@pytest.mark.parametrize("side", UP)
def test_palate_and_vestibule_do_not_mislead(side):
    """Everything that is seen from above is scanned, far from the crowns too."""
    cast = fused_cast("plain", side, VOXEL_MM, 1000.0)
    found, really = proposed(cast)
    assert [one.tooth for one in found.seeds] == really
    assert sorted(really) == cast.codes


@pytest.mark.parametrize("side", UP)
def test_proposals_that_are_confirmed_part_the_teeth(side):
    """What a person confirms is as good as what one picks."""
    cast = fused_cast("crowded 1", side, VOXEL_MM)
    found, really = proposed(cast)
    assert [one.tooth for one in found.seeds] == really
    seeds = {one.tooth: one.point[None] for one in found.seeds}
    assert tried(cast, seeds).occlusal_right() >= 0.98


def test_any_order_of_triangles_and_vertices_proposes_the_same():
    """Shuffled: the same points, bit by bit."""
    mesh = fused_cast("plain", "lower", VOXEL_MM).scan.mesh
    rng = np.random.default_rng(8)
    order, rows = rng.permutation(len(mesh.vertices)), rng.permutation(len(mesh.faces))
    number = np.empty_like(order)
    number[order] = np.arange(len(order))
    shuffled = Mesh(mesh.vertices[order], number[mesh.faces[rows]])
    plain, other = (proposed_seeds(one, upper=False).seeds for one in (mesh, shuffled))
    assert [one.tooth for one in plain] == [one.tooth for one in other]
    assert all(np.array_equal(a.point, b.point) for a, b in zip(plain, other, strict=True))


def test_half_an_arch_is_refused():
    """The right half of a cast: no arch to find a midline of."""
    cast = fused_cast("plain", "lower", VOXEL_MM)
    half, _ = part_of(cast.scan.mesh, cast.scan.mesh.corners[:, :, 1].max(axis=1) < 0.0)
    with pytest.raises(InputError, match="is it one whole arch"):
        proposed_seeds(half, upper=False)


def test_what_is_no_arch_is_refused():
    """A plate: the message says what is not seen and what to do."""
    x, y = np.meshgrid(np.linspace(0.0, 3.0, 12), np.linspace(0.0, 3.0, 12))
    vertices = np.stack([x.ravel(), y.ravel(), np.zeros(x.size)], axis=1)
    corner = (np.arange(11)[:, None] * 12 + np.arange(11)).ravel()
    faces = np.concatenate(
        [
            np.stack([corner, corner + 1, corner + 13], axis=1),
            np.stack([corner, corner + 13, corner + 12], axis=1),
        ]
    )
    with pytest.raises(InputError, match=r"no arch is seen .* picked by hand"):
        proposed_seeds(mesh_of(vertices, faces), upper=True)
