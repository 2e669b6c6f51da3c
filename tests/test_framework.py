"""Frameworks on made arches: rests by formula, fulcrum lines and indirect retainers by a twin."""

import dataclasses

import numpy as np
import pytest

from kinematics.casts.casts import carried
from kinematics.checks import InputError
from kinematics.geometry.poses import move_points, pose_of, rotation_about, turn_vectors
from kinematics.planning.denture_parts import Rest, ToothCondition
from kinematics.planning.framework import LEAST_INDIRECT_MM, frameworks
from kinematics.planning.free_ends import extends
from kinematics.planning.judging import DentureBase
from tests.made_frameworks import (
    HALF,
    LOWER,
    SEVENS,
    UPPER,
    arch,
    code_of,
    drawn_bases,
    frame_of,
    occlusion,
    place_of,
)

#: Crowns are ellipsoids of flat triangles, so places lie off by so much, mm; at the ends of an arch
#: one neighbour alone tells the way along it.
FACETS_MM, AT_AN_END_MM = 0.15, 0.8
SEEDS = range(60)


def _on_ellipsoid(code, where, upper):
    """Return where a rest lies, by formula."""
    middle, axes = frame_of(place_of(code), upper)
    if where == "cingulum":
        height = -1.0 / 3.0  # a third of the crown above its lowest point
        local = np.array([0.0, -np.sqrt(1.0 - height**2), height])
    else:
        along = 2.0 / 3.0  # a sixth of its size inside its end
        local = np.array([along if where == "mesial" else -along, 0.0, np.sqrt(1.0 - along**2)])
    return middle + (HALF * local) @ axes, axes


@pytest.mark.parametrize("upper", [True, False], ids=["upper", "lower"])
@pytest.mark.parametrize("place", SEVENS)
def test_rests_lie_where_the_formula_puts_them(upper, place):
    """Every place of every tooth of both arches, pressed along the long axis to the root."""
    code = code_of(place, upper)
    neighbour = code_of(place + 1 if place + 1 in SEVENS else place - 1, upper)
    neighbour = code_of(1, upper) if place == -1 else neighbour
    for where in ("cingulum",) if abs(place) < 4 else ("mesial", "distal"):
        base = DentureBase(
            name="a", teeth=(neighbour,), abutments=(code,), rests=(Rest(code, where),)
        )
        (rest,) = frameworks(occlusion([base]))[0].rests
        expected, axes = _on_ellipsoid(code, where, upper)
        slack = AT_AN_END_MM if abs(place) == 7 else FACETS_MM
        assert np.linalg.norm(np.array(rest.point) - expected) < slack
        np.testing.assert_allclose(rest.press, -axes[2], atol=1e-12)
        assert (rest.tooth, rest.place, rest.assumed) == (code, where, False)


@pytest.mark.parametrize("upper", [True, False], ids=["upper", "lower"])
@pytest.mark.parametrize("place", SEVENS)
def test_guide_planes_face_their_base(upper, place):
    """The plane lies at the end of the crown next to the base, and presses away from the base."""
    code = code_of(place, upper)
    for step in (-1, 1):
        other = place + step if place + step != 0 else place + 2 * step
        if other not in SEVENS:
            continue
        base = DentureBase(
            name="a", teeth=(code_of(other, upper),), abutments=(code,), guide_planes=(code,)
        )
        (plane,) = frameworks(occlusion([base]))[0].guide_planes
        middle, axes = frame_of(place, upper)
        there, _ = frame_of(other, upper)
        slack = AT_AN_END_MM if abs(place) == 7 else FACETS_MM
        mesial = np.sign((there - middle) @ axes[0])
        assert np.linalg.norm(middle + mesial * HALF[0] * axes[0] - plane.point) < slack
        assert np.array(plane.press) @ (middle - there) > 0.9 * np.linalg.norm(middle - there)
        assert abs(np.array(plane.press) @ axes[2]) < 1e-12


def _twin_fulcrum(framework, lost):
    """Return the teeth of the fulcrum line by looking at every pair of rests."""
    free = min(SEVENS) in lost or max(SEVENS) in lost
    own = {place_of(code) for base in framework.bases for code in base.teeth}
    own_free = min(SEVENS) in own or max(SEVENS) in own
    places = [(place_of(rest.tooth), rest.place) for rest in framework.rests]
    right = {at for at in places if at[0] < 0}
    left = {at for at in places if at[0] > 0}
    in_front = not free and {-1, 1} <= lost and len(_spaces(lost)) == 1
    if not (own_free or in_front) or not right or not left:
        return None
    distal = {at: 10 * abs(at[0]) + (at[1] == "distal") for at in places}
    pick = max if own_free else min
    return (
        code_of(pick(right, key=distal.get)[0], framework.is_upper),
        code_of(pick(left, key=distal.get)[0], framework.is_upper),
    )


def _spaces(lost):
    word = "".join("o" if place in lost else "T" for place in SEVENS)
    return [part for part in word.split("T") if part]


@pytest.mark.parametrize("seed", SEEDS)
def test_fulcrum_lines_and_indirect_retainers(seed):
    """Bases drawn by lot: the line and what lies beyond it, as a slow twin finds them."""
    dice = np.random.default_rng(seed)
    upper = bool(seed % 2)
    bases, lost = drawn_bases(dice, upper, rests_given=True)
    for framework in frameworks(occlusion(bases)):
        told = None if framework.fulcrum is None else framework.fulcrum.teeth
        assert told == _twin_fulcrum(framework, lost)
        if framework.fulcrum is None:
            assert framework.indirect == ()
            continue
        start, end = map(np.array, (framework.fulcrum.right, framework.fulcrum.left))
        share = np.linspace(-3.0, 4.0, 70_001)[:, None]
        along_line = start + share * (end - start)
        turning = [
            code for base in framework.bases for code in base.teeth
            if not framework.extension_sides or base.name in framework.extension_sides
        ]  # fmt: skip
        middles = [frame_of(place_of(code), upper)[0] for code in turning]
        side = np.mean([_side(start, end, middle) for middle in middles])
        expected = {}
        for rest in framework.rests:
            point = np.array(rest.point)
            away = np.linalg.norm((along_line - point)[:, :2], axis=1).min()
            beyond = _side(start, end, point) * side < 0.0
            if beyond and away >= LEAST_INDIRECT_MM and rest.tooth not in told:
                expected[rest.tooth, rest.place, rest.base] = away
        found = {
            (item.rest.tooth, item.rest.place, item.rest.base): item.distance_mm
            for item in framework.indirect
        }
        assert found == pytest.approx(expected, abs=1e-4)
        distances = [item.distance_mm for item in framework.indirect]
        assert distances == sorted(distances, reverse=True)


def _side(start, end, point):
    """Return on which side of a line a point lies, seen along z: twice the area of a triangle."""
    (ax, ay), (bx, by), (cx, cy) = start[:2], end[:2], point[:2]
    return (cx - ax) * (by - ay) - (cy - ay) * (bx - ax)


@pytest.mark.parametrize("seed", SEEDS)
def test_usual_rests_are_assumed_where_none_are_given(seed):
    """Next to a space between teeth; before a free end on the far side; front teeth: cingulum."""
    dice = np.random.default_rng(1000 + seed)
    upper = bool(seed % 2)
    bases, _ = drawn_bases(dice, upper, rests_given=False)
    for framework in frameworks(occlusion(bases)):
        found = sorted((rest.tooth, rest.place) for rest in framework.rests)
        assert all(rest.assumed for rest in framework.rests)
        expected = set()
        for base in framework.bases:
            run = sorted(place_of(code) for code in base.teeth)
            free = run[0] == -7 or run[-1] == 7
            for code in base.abutments:
                place = place_of(code)
                # Going up in places leads towards the midline on the right, away from it left.
                towards_base = "mesial" if (run[0] > place) == (place < 0) else "distal"
                other = {"mesial": "distal", "distal": "mesial"}[towards_base]
                where = "cingulum" if abs(place) < 4 else other if free else towards_base
                expected.add((code, where))
        assert found == sorted(expected), "one that two bases share is one"
        free_ends = {b.name for b in framework.bases if {-7, 7} & {place_of(c) for c in b.teeth}}
        assert set(framework.extension_sides) == free_ends


def _mirrored(code):
    return {1: 20, 2: 10, 3: 40, 4: 30}[code // 10] + code % 10


@pytest.mark.parametrize("seed", range(20))
def test_a_mirrored_mouth_has_mirrored_frameworks(seed):
    """Right and left exchanged: class, distances and places are mirror images."""
    dice = np.random.default_rng(2000 + seed)
    bases, _ = drawn_bases(dice, True, rests_given=True)
    flipped = [
        dataclasses.replace(
            base,
            teeth=tuple(map(_mirrored, base.teeth)),
            abutments=tuple(map(_mirrored, base.abutments)),
            rests=tuple(Rest(_mirrored(rest.tooth), rest.place) for rest in base.rests),
        )
        for base in bases
    ]
    for one, other in zip(
        frameworks(occlusion(bases)), frameworks(occlusion(flipped)), strict=True
    ):
        assert one.kennedy == other.kennedy
        assert [item.distance_mm for item in one.indirect] == pytest.approx(
            [item.distance_mm for item in other.indirect], abs=1e-9
        )
        for here, there in zip(one.rests, other.rests, strict=True):
            assert np.array(here.point) * [1, -1, 1] == pytest.approx(there.point, abs=1e-9)


def test_places_move_with_the_cast():
    """A cast that stands elsewhere, tilted, has its rests and planes moved with it."""
    base = DentureBase(
        name="a", teeth=(16, 17), abutments=(15,), rests=(Rest(15, "mesial"), Rest(13, "cingulum")),
        guide_planes=(15,),
    )  # fmt: skip
    turn = rotation_about(np.array([0.6, 0.8, 0.0]), 0.3)
    pose = pose_of(turn, np.array([3.0, -2.0, 5.0]))
    (plain,) = frameworks(occlusion([base]))
    (moved,) = frameworks(occlusion([base], upper=carried(UPPER, pose)))
    for one, other in zip(
        (*plain.rests, *plain.guide_planes), (*moved.rests, *moved.guide_planes), strict=True
    ):
        expected = move_points(pose, np.array([one.point]))[0]
        np.testing.assert_allclose(other.point, expected, atol=1e-9)
        np.testing.assert_allclose(
            other.press, turn_vectors(pose, np.array([one.press]))[0], atol=1e-9
        )


def test_one_connector_makes_one_framework_of_an_arch():
    """Bases with the same connector are one body, others bodies of their own."""
    made = [
        DentureBase(name="a", teeth=(16,), abutments=(15,), connector="strap"),
        DentureBase(name="b", teeth=(26,), abutments=(25,)),
        DentureBase(name="c", teeth=(22,), abutments=(21,), connector="strap"),
        DentureBase(name="d", teeth=(36,), abutments=(35,), connector="bar"),
    ]
    found = frameworks(occlusion(made))
    assert [[base.name for base in item.bases] for item in found] == [["a", "c"], ["b"], ["d"]]
    assert [item.name for item in found] == ["upper framework with strap", "b", "d"]
    assert {item.kennedy.text for item in found[:2]} == {"Kennedy class III, modification 2"}
    assert found[2].kennedy.text == "Kennedy class III"


def test_pontics_fill_their_space():
    """A pontic counts as a tooth: only the space of the base is left."""
    from kinematics.planning.joined_teeth import Bridge

    base = DentureBase(name="a", teeth=(16,), abutments=(15, 17))
    bridge = Bridge(name="b", pontics=(25,), abutments=(24, 26))
    (found,) = frameworks(occlusion([base], joined=(bridge,)))
    assert found.kennedy.text == "Kennedy class III"


def test_complete_dentures_have_neither_class_nor_rests():
    """Without a tooth nothing holds a base and nothing is to be classed."""
    base = DentureBase(name="a", teeth=tuple(code_of(place, True) for place in SEVENS))
    (found,) = frameworks(occlusion([base]))
    assert (found.kennedy, found.rests, found.fulcrum, found.indirect) == (None, (), None, ())
    assert found.extension_sides == ("a",)


def test_holes_in_a_crown_put_a_rest_onto_its_nearest_surface():
    """A scan that lost the mesial end of 15 still has its rest on what is left of 15."""
    middles = UPPER.mesh.corners.mean(axis=1)
    expected, _ = _on_ellipsoid(15, "mesial", True)
    hole = np.linalg.norm(middles - expected, axis=1) < 1.2
    kept = dataclasses.replace(
        UPPER,
        mesh=dataclasses.replace(UPPER.mesh, faces=UPPER.mesh.faces[~hole]),
        tooth_of_face=UPPER.tooth_of_face[~hole],
    )
    base = DentureBase(name="a", teeth=(16,), abutments=(15,), rests=(Rest(15, "mesial"),))
    (rest,) = frameworks(occlusion([base], upper=kept))[0].rests
    assert 0.5 < np.linalg.norm(np.array(rest.point) - expected) < 3.5


def test_absent_teeth_are_refused():
    """Rests and conditions name teeth that the casts have."""
    base = DentureBase(name="a", teeth=(16,), rests=(Rest(18, "mesial"),))
    with pytest.raises(InputError, match=r"denture base 'a': tooth 18 is not there"):
        occlusion([base])
    with pytest.raises(InputError, match=r"tooth_conditions: tooth 48 is not there"):
        occlusion([], conditions=(ToothCondition(48),))


def test_a_tooth_alone_cannot_tell_its_sides():
    """Where nothing else stands in an arch nothing says which side of a tooth is mesial."""
    alone = arch(True, (-5,))
    base = DentureBase(name="a", teeth=(36,), abutments=(35,))
    assert frameworks(occlusion([base], upper=alone))
    from kinematics.planning.crown_places import crown_frame

    with pytest.raises(InputError, match="tooth 15 stands alone in its arch"):
        crown_frame(alone, 15)


def test_a_base_ends_free_where_no_tooth_stands_behind():
    """Teeth behind on its side alone bound it."""
    base = DentureBase(name="a", teeth=(15, 16))
    assert not extends(base, (14, 17, 24))
    assert extends(base, (14, 24))
    assert LOWER.codes[0] == 47
