"""Crests of ridges: on the made ridge of a cast, below made crowns, as given."""

import numpy as np
import pytest
from scipy.spatial import KDTree

from kinematics.casts.cast_bodies import RIDGE
from kinematics.geometry.poses import move_points, pose_of, rotation_about
from kinematics.planning.denture_parts import Ridge
from kinematics.planning.framework import frameworks
from kinematics.planning.judging import DentureBase
from kinematics.planning.ridge_lines import BEHIND_MM, BESIDE_MM
from kinematics.teeth.cast_body import with_body
from kinematics.teeth.gum_lines import CREST_BELOW_MM
from tests.built_dentition import coarse
from tests.made_frameworks import HALF, SEVENS, code_of, frame_of, occlusion

BASES = {
    "upper free end": (15, 16, 17),
    "upper between teeth": (24, 25),
    "upper front": (12, 11, 21, 22),
    "lower free end": (36, 37),
    "lower canine": (43,),
}


def _on_cast(teeth):
    """Return the ridge line below a base on a built-in cast, and that cast."""
    made = coarse()
    upper = teeth[0] // 10 in (1, 2)
    arch = with_body(made.upper if upper else made.lower, teeth)
    cast = {"upper": arch} if upper else {"lower": arch}
    (found,) = frameworks(occlusion([DentureBase(name="a", teeth=teeth)], **cast))
    (line,) = found.ridges
    return line, arch


@pytest.mark.parametrize("teeth", BASES.values(), ids=BASES)
def test_the_crest_lies_on_top_of_the_made_ridge(teeth):
    """On its surface, nothing of the ridge beside it stands higher, directions are square."""
    line, arch = _on_cast(teeth)
    ridge = arch.body.mesh.vertices[np.unique(arch.body.mesh.faces[arch.body.kind == RIDGE])]
    away, _ = KDTree(ridge).query(line.crest)
    assert away.max() < 0.8
    sign = arch.teeth[0].long_axis[2] / abs(arch.teeth[0].long_axis[2])
    tangent = np.gradient(line.crest, axis=0)
    tangent /= np.linalg.norm(tangent, axis=1, keepdims=True)
    for point, way in zip(line.crest[1:-1], tangent[1:-1], strict=True):
        away = ridge - point
        beside = (np.linalg.norm(away, axis=1) < 3.0) & (np.abs(away @ way) < 0.3)
        assert (away[beside, 2] * sign).max() < 0.6
    for one, other in ((line.outward, line.facial), (line.outward, tangent)):
        assert np.abs((one * other).sum(axis=1)).max() < 1e-9
    assert np.linalg.norm(line.outward, axis=1) == pytest.approx(1.0)
    assert np.linalg.norm(line.facial, axis=1) == pytest.approx(1.0)
    assert (line.outward[1:-1, 2] * sign > 0.7).all()
    assert line.assumed


@pytest.mark.parametrize("teeth", BASES.values(), ids=BASES)
def test_facial_leads_out_of_the_arch(teeth):
    """Towards cheek or lip: away from the middle of the arch at every point."""
    line, arch = _on_cast(teeth)
    middle = np.mean([tooth.centre for tooth in arch.teeth], axis=0)
    assert (((line.crest - middle) * line.facial)[:, :2].sum(axis=1) > 0.0).all()


def test_a_free_end_goes_on_behind_the_last_tooth():
    """By so much as made bases do, and no farther; between teeth it ends before the gum."""
    line, arch = _on_cast((36, 37))
    last = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == 37]].reshape(-1, 3)
    behind = last[:, 0].min() - line.crest[:, 0].min()
    assert behind == pytest.approx(BEHIND_MM, abs=1.0)
    assert line.crest[0, 0] > line.crest[-1, 0], "from mesial to distal"
    line, arch = _on_cast((24, 25))
    for code, end in ((23, line.crest[0]), (26, line.crest[-1])):
        crown = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == code]].reshape(-1, 3)
        assert np.linalg.norm((crown - end)[:, :2], axis=1).min() > 0.5 * BESIDE_MM


@pytest.mark.parametrize("upper", [True, False], ids=["upper", "lower"])
@pytest.mark.parametrize("place", [place for place in SEVENS if abs(place) > 2])
def test_without_a_made_ridge_it_lies_below_the_crowns(upper, place):
    """As far below the cervical line as ridges usually lie, on the long axis."""
    base = DentureBase(name="a", teeth=(code_of(place, upper),))
    (line,) = frameworks(occlusion([base]))[0].ridges
    middle, axes = frame_of(place, upper)
    deep = (line.crest - middle) @ axes[2]
    np.testing.assert_allclose(deep, -HALF[2] - CREST_BELOW_MM, atol=0.02)
    assert np.abs((line.crest - middle) @ axes[1]).max() < 2.0
    assert (line.facial @ axes[1] > 0.8).all()
    along = (line.crest - middle) @ axes[0]
    assert along[0] > along[-1], "from mesial to distal"


def test_a_base_over_a_natural_tooth_has_two_crests():
    """15 and 13 on one base, 14 natural between them: one crest each, none over 14."""
    (found,) = frameworks(occlusion([DentureBase(name="a", teeth=(13, 15), abutments=(14,))]))
    assert [line.base for line in found.ridges] == ["a", "a"]
    middle, _ = frame_of(-4, True)
    for line in found.ridges:
        assert np.linalg.norm((line.crest - middle)[:, :2], axis=1).min() > HALF[0]


@pytest.mark.parametrize("seed", range(10))
def test_a_given_crest_is_taken_as_given(seed):
    """Of scans it is brought into the hinge frame, of a lower base into lower coordinates."""
    dice = np.random.default_rng(seed)
    turn = rotation_about(np.array([0.0, 0.6, 0.8]), dice.uniform(-0.5, 0.5))
    pose = pose_of(turn, dice.uniform(-20.0, 20.0, 3))
    upper = bool(seed % 2)
    middles = np.array([frame_of(place, upper)[0] for place in (5, 6, 7)])
    crest = middles + np.array([0.0, 0.0, 7.0 if upper else -7.0]) + dice.normal(0.0, 0.4, (3, 3))
    given = move_points(np.linalg.inv(pose), crest)
    ridge = Ridge(crest=tuple(map(tuple, given.tolist())), crest_width_mm=4.0)
    base = DentureBase(name="a", teeth=tuple(code_of(p, upper) for p in (5, 6, 7)), ridge=ridge)
    (line,) = frameworks(occlusion([base], hinge_from_points=pose))[0].ridges
    np.testing.assert_allclose(line.crest, crest, atol=1e-9)
    assert not line.assumed
    assert line.ridge == ridge
    assert (line.outward[:, 2] * (-1.0 if upper else 1.0) > 0.9).all()
