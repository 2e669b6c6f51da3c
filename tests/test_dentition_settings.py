"""What the settings of the built-in dentition change: sizes, cusps, wear, lost and moved teeth."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from pydantic import ValidationError

from kinematics.checks import InputError
from kinematics.teeth import natural_side, set_up
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from tests import built_dentition
from tests.built_dentition import STOP_UM, check_stops, first_gaps_um, gap_mm


@pytest.fixture
def plain():
    """Return the plain dentition at the default resolution."""
    return built_dentition.plain()


@pytest.fixture
def erupted():
    """Return the dentition with tooth 46 over-erupted and 15 to 17 set up against it."""
    return built_dentition.erupted()


@pytest.fixture
def coarse():
    """Return the plain dentition with few triangles."""
    return built_dentition.coarse()


def test_over_eruption_moves_the_tooth_rigidly_along_its_axis(plain, erupted):
    """Tooth 46 is the plain one moved by 1.2 mm along its axis; the left side is untouched."""
    before, after = (d.lower.mesh.corners[d.lower.tooth_of_face == 46] for d in (plain, erupted))
    axis = plain.lower.tooth(46).long_axis
    np.testing.assert_allclose(
        after - before, np.broadcast_to(1.2 * axis, before.shape), atol=1e-12
    )
    left = [
        d.upper.mesh.corners[np.isin(d.upper.tooth_of_face, range(21, 28))]
        for d in (plain, erupted)
    ]
    np.testing.assert_array_equal(*left)


def test_replacement_opponent_follows_and_natural_teeth_stay(plain, erupted):
    """Tooth 16 moves nearly as 46 did, which keeps its stops; 14, 44, 45, 47 are the plain ones."""
    step = 1.2 * plain.lower.tooth(46).long_axis
    moved = erupted.upper.tooth(16).centre - plain.upper.tooth(16).centre
    np.testing.assert_allclose(moved, step, atol=0.15)
    for arch, code in (("upper", 14), ("lower", 44), ("lower", 45), ("lower", 47)):
        corners = [
            getattr(d, arch).mesh.corners[getattr(d, arch).tooth_of_face == code]
            for d in (plain, erupted)
        ]
        np.testing.assert_array_equal(*corners)


def test_wear_of_one_tooth_changes_that_tooth_only(coarse):
    """Wear by tooth number."""
    worn = build(DentitionSettings(wear_mm={23: 0.3}, triangles_per_arch=12_000))
    for code in coarse.upper.codes:
        same = np.array_equal(
            *(d.upper.mesh.corners[d.upper.tooth_of_face == code] for d in (coarse, worn))
        )
        assert same == (code != 23)


@pytest.mark.parametrize("change_deg", [-6.0, 6.0])
def test_cusp_inclination_changes_depth_and_keeps_stops_even(coarse, change_deg):
    """Steeper cusps stand higher over their central fossa; MI stays at opening 0."""
    changed = build(
        DentitionSettings(cusp_inclination_change_deg=change_deg, triangles_per_arch=12_000)
    )
    assert abs(first_gaps_um(changed)) <= STOP_UM
    depths = []
    for made in (coarse, changed):
        tooth = made.upper.tooth(26)
        corners = made.upper.mesh.corners[made.upper.tooth_of_face == 26].reshape(-1, 3)
        near = np.linalg.norm((corners - tooth.centre)[:, :2], axis=1) < 1.2
        along_axis = (corners - tooth.centre) @ tooth.long_axis
        fossa = along_axis[near & (along_axis > 0)].min()
        tips = [(tip - tooth.centre) @ tooth.long_axis for tip in tooth.cusp_tips.values()]
        depths.append(np.mean(tips) - fossa)
    assert (depths[1] - depths[0]) * np.sign(change_deg) > 0.05


def test_size_and_width_scale_the_arches(coarse):
    """Everything 10 percent larger keeps MI; wider arches are wider at the molars."""
    large = build(DentitionSettings(size_scale=1.1, triangles_per_arch=12_000))
    check_stops(large)
    np.testing.assert_array_equal(large.incisal_point, coarse.incisal_point)
    wide = build(DentitionSettings(arch_width_scale=1.02, triangles_per_arch=12_000))
    assert abs(first_gaps_um(wide)) <= STOP_UM
    before = coarse.upper.tooth(26).centre[1]
    assert large.upper.tooth(26).centre[1] == pytest.approx(1.1 * before, rel=0.01)
    assert wide.upper.tooth(26).centre[1] == pytest.approx(1.02 * before, rel=0.01)


def test_missing_teeth_are_not_there():
    """A missing tooth takes its stops with it; an over-erupted opponent needs no room then."""
    made = build(
        DentitionSettings(
            triangles_per_arch=12_000, missing=(25, 26, 27), over_erupted_mm={36: 1.0}
        )
    )
    assert not {25, 26, 27} & set(made.upper.codes)
    assert all(stop.upper_tooth not in (25, 26, 27) for stop in made.stops)
    assert abs(first_gaps_um(made)) <= STOP_UM


def test_over_eruption_into_natural_teeth_is_refused():
    """The message names the teeth by number and says what to do."""
    with pytest.raises(InputError, match=r"over_erupted 46 by 1\.2 mm: .*natural .*15 on 46"):
        build(
            DentitionSettings(
                triangles_per_arch=10_000, over_erupted_mm={46: 1.2}, replacements=(16,)
            )
        )


def test_replacements_without_room_are_refused():
    """Over-eruption beyond what the teeth can make way for."""
    with pytest.raises(InputError, match=r"replacements 15, 16, 17 find no room"):
        build(
            DentitionSettings(
                triangles_per_arch=10_000, over_erupted_mm={46: 3.5}, replacements=(15, 16, 17)
            )
        )


@pytest.mark.parametrize(
    ("settings", "message"),
    [
        ({"triangles_per_arch": 9_999}, "greater than or equal to 10000"),
        ({"overbyte_mm": 2.0}, "overbyte_mm"),
        ({"missing": (19,)}, "19: teeth of the built-in dentition may be any of 11, 12"),
        ({"third_molars": (17,)}, "17: third molars may be any of 18, 28, 38, 48"),
        ({"third_molars": (18, 18)}, "18 stands 2 times in third_molars"),
        (
            {"wear_mm": {53: 0.2}},
            "53: teeth of the built-in dentition may be any of 11, 12, 13, 14",
        ),
        ({"wear_mm": {38: 0.2}}, "wear_mm names the third molar 38, which is not there"),
        ({"wear_cusps_mm": {"46 X": 0.2}}, "46 X: no such cusp; accepted are 46 MB, 46 DB, 46 D, "),
        ({"wear_cusps_mm": {"13 B": 0.2}}, 'a tooth from 4 to 8 and its cusp, as "46 MB"'),
        ({"wear_cusps_mm": {"48 MB": 0.2}}, "wear_cusps_mm names the third molar 48"),
        ({"wear_cusps_mm": {"46 MB": 0.9}}, "less than or equal to 0.8"),
        ({"over_erupted_mm": {46: 4.5}}, "less than or equal to 4"),
        ({"missing": (46,), "over_erupted_mm": {46: 1.0}}, "46 is missing"),
        ({"replacements": (46,), "over_erupted_mm": {46: 1.0}}, "46 is a replacement tooth"),
    ],
)
def test_settings_that_make_no_sense_are_refused(settings, message):
    """Each fault is named with what is accepted."""
    with pytest.raises(ValidationError, match=message):
        DentitionSettings(**settings)


@pytest.mark.parametrize(
    "settings",
    [
        {"overbite_mm": 3.91, "overjet_mm": 3.23, "cusp_inclination_change_deg": -5.43},
        {"overbite_mm": 3.0, "overjet_mm": 2.64, "cusp_inclination_change_deg": 0.75},
        {"overbite_mm": 3.75, "overjet_mm": 3.58, "arch_width_scale": 0.985},
        {"overbite_mm": 1.0, "overjet_mm": 4.2, "cusp_inclination_change_deg": 8.0},
    ],
)
def test_every_posterior_pair_keeps_a_stop(settings):
    """Also where a lower first premolar meets the canine first, or front teeth overlap deeply."""
    check_stops(build(DentitionSettings(triangles_per_arch=12_000, **settings)))


def test_overbite_holds_at_any_size():
    """Larger teeth, the same overbite, but for the 0.15 mm by which settling moves front teeth."""
    depths = []
    for scale in (1.0, 1.1):
        made = build(DentitionSettings(triangles_per_arch=10_000, size_scale=scale))
        tops = [arch.tooth(code).edge for arch, code in ((made.upper, 21), (made.lower, 31))]
        depths.append(tops[1][8, 2] - tops[0][8, 2])
    usual = DentitionSettings().overbite_mm
    assert depths == pytest.approx([usual, usual], abs=0.15)


@pytest.mark.parametrize("width", [0.97, 1.03])
@pytest.mark.parametrize(("overbite", "overjet"), [(1.0, 2.2), (1.0, 4.2), (4.0, 2.2), (4.0, 4.2)])
def test_corners_of_the_accepted_overlaps_are_set_up(overbite, overjet, width):
    """The extremes of overbite, overjet and arch width go together, with a stop for every pair."""
    made = build(
        DentitionSettings(
            triangles_per_arch=10_000,
            overbite_mm=overbite,
            overjet_mm=overjet,
            arch_width_scale=width,
        )
    )
    assert {(s.upper_tooth, s.lower_tooth) for s in made.stops} >= {(26, 36), (16, 46)}


def test_overbite_and_overjet_that_leave_no_room_are_named(monkeypatch):
    """The message gives the settings, their values, and what to change."""
    monkeypatch.setattr(set_up, "MOST_ROUNDS", 2)
    with pytest.raises(
        InputError,
        match=r"overbite_mm = 1, overjet_mm = 4\.2, arch_width_scale = 0\.975, .*give less",
    ):
        build(
            DentitionSettings(
                triangles_per_arch=10_000, overbite_mm=1.0, overjet_mm=4.2, arch_width_scale=0.975
            )
        )


def test_moved_teeth_stand_beside_front_teeth_and_each_other():
    """A replacement premolar beside the canine, and two over-erupted molars side by side."""
    made = build(
        DentitionSettings(
            triangles_per_arch=15_000,
            over_erupted_mm={44: 0.3, 36: 1.2, 37: 0.8},
            replacements=(14, 15, 24, 25, 26, 27),
        )
    )
    check_stops(made)
    for arch in (made.upper, made.lower):
        for code, neighbour in pairwise(arch.codes):
            gap = min(gap_mm(arch, code, neighbour), gap_mm(arch, neighbour, code))
            assert gap >= -0.03, (code, neighbour)


@pytest.mark.parametrize("over_mm", [0.4, 2.0])
def test_replacements_keep_a_stop_for_every_pair(over_mm):
    """From little over-eruption up to what the other replacement teeth can follow."""
    check_stops(
        build(
            DentitionSettings(
                triangles_per_arch=12_000, over_erupted_mm={46: over_mm}, replacements=(15, 16, 17)
            )
        )
    )


def test_little_over_eruption_into_natural_teeth_is_refused_too():
    """A natural pair that overlaps by some micrometres is told as such."""
    with pytest.raises(InputError, match=r"over_erupted 46 by 0\.02 mm: runs into natural"):
        build(DentitionSettings(triangles_per_arch=10_000, over_erupted_mm={46: 0.02}))


def test_natural_teeth_kept_from_another_dentition_are_those_made_anew():
    """Wear comes after natural teeth have settled: they are kept, and nothing else differs."""
    worn = DentitionSettings(triangles_per_arch=10_000, wear_canine_mm=0.3)
    build(replace(worn, wear_canine_mm=0.0))
    kept = build(worn)
    natural_side._settled.cache_clear()
    natural_side._set_up.cache_clear()
    anew = build(worn)
    for arch, other in ((kept.upper, anew.upper), (kept.lower, anew.lower)):
        assert np.array_equal(arch.mesh.vertices, other.mesh.vertices)
        assert np.array_equal(arch.mesh.faces, other.mesh.faces)
